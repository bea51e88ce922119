"""What an officer would find about animals and their meat: papers, refusals, holds, weights, late entries."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.lots import StopSort
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.register import visit_evidence
from gametrace.register.clock import day_text, instant, instant_text, wall_day, wall_text
from gametrace.register.paper_state import still_missing
from gametrace.register.readiness import ASK, READY, STOPPED, Found, Reader, as_told, full, shortened
from gametrace.register.stories import LATE_SECONDS, lines
from gametrace.store import journal, look_carcasses, look_door, look_readiness

PAPERS, REFUSALS, HOLDS = "Papers of the animals", "Refusals", "On hold, not decided"
WEIGHTS, LATE, CORRECTIONS = "Weights that do not add up", "Written late", "Corrections"
_MOST = 100_000
_REASON = "a reason: "
# What a kitchen lets pass of a break-down's weight, tenths of a per cent, where it set nothing of its own:
# practitioners quote 98 to 102 % (ifsqn.com, 'Reconciliation tolerance', a forum); no official figure exists.
_UNWEIGHED_TENTHS = 20


def papers(read: Reader) -> list[Found]:
    ids = look_carcasses.received_between(read.connection, read.period.start, read.period.end, _MOST)
    asked = {*ids, *look_carcasses.hanging(read.connection)}
    rows = look_carcasses.paper_blanks(read.connection, asked)
    wanting = [row.lot_id for row in rows if row.unanswered or still_missing(row)]
    if not wanting:
        words = f"Every delivery since {day_text(read.period.first)} has its papers." if asked else ""
        return [Found(PAPERS, READY, words, record=f"{len(asked)} deliveries")] if words else []
    return shortened(wanting, partial(_paper, read), "{} more deliveries are to be finished.")


def _paper(read: Reader, lot: int) -> Found:
    (one,) = read.carcasses([lot])
    asked = [name for name in one.missing if not name.startswith(_REASON)]
    reasons = [name.removeprefix(_REASON) for name in one.missing if name.startswith(_REASON)]
    received = day_text(wall_day(one.received_at))
    calls = look_door.calls_of(read.connection, [lot]).get(lot, [])
    if calls:
        answer = "Asked by telephone: " + "; ".join(
            f"{call.about.replace('_', ' ')}, “{call.answer}”"
            + (f" said {call.spoken_by}" if call.spoken_by else "")
            for call in calls
        )
    elif asked:
        phone = one.supplier.phone or "no number written down"
        answer = f"Nobody has asked the supplier about it yet ({one.supplier.name}, {phone})."
    else:
        answer = "Nobody has written the reason yet: " + " ".join(reasons)
    return Found(
        PAPERS,
        ASK,
        f"{one.code} {one.title}, received {received}, still wants {wants(one.missing)}.",
        answer,
        _entry(look_readiness.received_by_entry(read.connection, lot)),
        "delivery",
        one.code,
        "Finish it",
    )


def wants(missing: Sequence[str]) -> str:
    """What a paper still wants in one breath; the findings that ask for a reason are only counted."""
    asked = [words for words in missing if not words.startswith(_REASON)]
    reasons = len(missing) - len(asked)
    counted = ["a reason"] if reasons == 1 else [f"{reasons} reasons"] if reasons else []
    return ", ".join([*asked, *counted])


def refusals(read: Reader) -> list[Found]:
    lot = look_readiness.last_refusal(read.connection)
    if lot is None:
        return [
            Found(
                REFUSALS,
                READY,
                "No delivery has been refused since this register began.",
                "The door refuses by the findings it shows; say what would make you refuse.",
            )
        ]
    (one,) = read.carcasses([lot])
    reason = one.decision_reason or "no reason given"
    return [
        Found(
            REFUSALS,
            READY,
            f"The last delivery refused was {one.code} {one.title} from {one.supplier.name}, "
            f"{day_text(wall_day(one.received_at))}: {full(reason)}",
            f"Now {one.lot.state or 'gone'}, {one.lot.where}.",
            _entry(look_readiness.received_by_entry(read.connection, lot)),
            "trace",
            one.code,
            "Trace it",
        )
    ]


def holds(read: Reader) -> list[Found]:
    rows = look_carcasses.open_holds(read.connection)
    if not rows:
        return [Found(HOLDS, READY, "Nothing is on hold.")]
    return shortened(rows, partial(_hold, read), "{} more lots are on hold.")


def _hold(read: Reader, row: Any) -> Found:
    hold = read.hold(row)
    days = (read.today - wall_day(hold.placed_at)).days
    waits = "since today" if days == 0 else f"for {days} day{'s' if days > 1 else ''}"
    if hold.sort == StopSort.RESULT:
        answer = "The laboratory has not answered; only its result lifts this."
    else:
        answer = f"Placed by {hold.placed_by}, {wall_text(hold.placed_at)}; nobody has decided yet."
    seq = look_readiness.entry_of_hold(read.connection, lot_id_of(hold.code), instant_text(hold.placed_at))
    return Found(
        HOLDS,
        STOPPED,
        f"{hold.code} has been on hold {waits}: {full(hold.reason)}",
        answer,
        _entry(seq),
        "larder",
        hold.code,
        "See it",
    )


def weights(read: Reader) -> list[Found]:
    own = look_door.policies(read.connection).get("unweighed_amber_tenths", "")
    share = int(own or _UNWEIGHED_TENTHS)
    rows = look_readiness.not_accounted(read.connection, read.period.start, read.period.end, share)
    line = f"{share // 10}.{share % 10} %"
    if not rows:
        return [Found(WEIGHTS, READY, f"No break-down was closed with more than {line} unaccounted.")]

    return shortened(
        rows, partial(_unweighed, read, line), "{} more break-downs left more than that unaccounted."
    )


def _unweighed(read: Reader, line: str, row: Any) -> Found:
    (entry,) = journal.entries(read.connection, [row.seq])
    reason = entry.body["reason"]
    return Found(
        WEIGHTS,
        ASK,
        f"Of {code_of(row.id)} {row.name}, {kg_to_the_gram(row.grams_in)}, "
        f"{kg_to_the_gram(row.unaccounted)} are unaccounted: past the {line} looked for here.",
        f"The reason given at closing: {full(reason)}" if reason else "No reason was given at closing.",
        _entry(row.seq),
        "trace",
        code_of(row.id),
        "Trace it",
    )


def late(read: Reader) -> list[Found]:
    start, end = read.period.start, read.period.end
    seqs = look_carcasses.late_between(read.connection, start, end, LATE_SECONDS)
    if not seqs:
        words = f"Nothing was written more than {LATE_SECONDS // 3600} hours after it happened."
        return [Found(LATE, READY, words)]
    more = "{} more entries were written late; the pack lists them all."
    return shortened(seqs[::-1], partial(_late, read), more)


def _late(read: Reader, seq: int) -> Found:
    (line,) = lines(read, [seq])
    return Found(
        LATE,
        READY,
        full(line.sentence),
        f"It happened {wall_text(line.happened_at)} and was written {wall_text(line.written_at)} by "
        f"{line.by}; both times stand in the entry.",
        _entry(seq),
    )


def corrections(read: Reader) -> list[Found]:
    span = (read.period.start, read.period.end)
    rows = look_carcasses.amendments_between(read.connection, *span)
    struck = visit_evidence.struck(read, span)
    if not rows and not struck:
        return [Found(CORRECTIONS, READY, "Nothing that was written has been corrected.")]
    told = [
        Found(
            CORRECTIONS,
            READY,
            f"{code_of(row.lot_id)}: {row.field.replace('_', ' ')} was {_shown(row.field, row.old)}, "
            f"is now {_shown(row.field, row.new) or 'blank'}.",
            f"{full(row.reason) or 'No reason was asked for.'} ({read.initials(row.person)}, "
            f"{wall_text(instant(row.written_at))}). The old value stays in the journal.",
            _entry(row.seq),
            "trace",
            code_of(row.lot_id),
            "Trace it",
        )
        for row in reversed(rows)
    ]
    told += [
        Found(
            CORRECTIONS,
            READY,
            f"Struck, so it does not count: {one.old.rstrip('.')}.",
            f"{full(one.reason)} ({one.by}, {wall_text(one.at)}). The struck entry stays in the journal.",
            one.field,
            *(("trace", one.code, "Trace it") if one.code else ()),
        )
        for one in reversed(struck)
    ]
    return shortened(told, as_told, "{} more values were corrected; the pack lists them all.")


def _shown(field: str, value: str) -> str:
    return kg_to_the_gram(int(value)) if field == "weight" and value else value


def _entry(seq: int | None) -> str:
    return f"entry {seq}" if seq is not None else ""
