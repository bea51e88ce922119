"""What an officer would find about the house: suppliers' papers, temperatures, probes, drills, backups."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import timedelta

from gametrace.domain.quantities import celsius_text, kg_to_the_gram
from gametrace.facts.temperatures import probe_check
from gametrace.register.clock import day_text, instant, instant_text, wall_day, wall_instant, wall_text
from gametrace.register.policies import policies_of
from gametrace.register.readiness import ASK, READY, Found, Reader, as_told, full, shortened
from gametrace.register.supplier_book import Approval, approval_of
from gametrace.register.warm_times import Episode
from gametrace.store import journal, look_readiness, look_rooms, look_setup, look_today

SUPPLIERS, TEMPERATURES, PROBES = "Suppliers and their approvals", "Temperatures", "Probes"
DRILLS, BACKUPS = "The last drill", "The last backup"
_DATED = (
    ("certificate_until", "the trained person's certificate lapsed"),
    ("lead_free_until", "the lead-free statement lapsed"),
    ("insured_until", "the insurance lapsed"),
    ("review_on", "the yearly review was due"),
)


def suppliers(read: Reader) -> list[Found]:
    used = look_today.bought_since(read.connection, read.period.start)
    known = [one for one in read.suppliers.values() if one.code in used]
    wrong: list[Found] = []
    for one in known:
        approval = approval_of(read.connection, one.code)
        wrong += _lapsed(read, one.code, approval)
        if not approval.address:
            words = (
                f"{one.name} has no address written down; the law asks for the supplier's name and address."
            )
            wrong.append(_about(one.code, words, "Ask the supplier and write it down."))
    if wrong:
        return shortened(wrong, as_told, "{} more papers of suppliers do not hold.")
    if not known:
        return []
    count = "One supplier has" if len(known) == 1 else f"{len(known)} suppliers have"
    words = f"{count} delivered since {day_text(read.period.first)}; every dated paper of theirs holds."
    return [Found(SUPPLIERS, READY, words, record=", ".join(sorted(used)[:8]))]


def _lapsed(read: Reader, code: str, approval: Approval) -> Iterator[Found]:
    for name, words in _DATED:
        until = getattr(approval, name)
        if until is None or until >= read.today:
            continue
        since = instant_text(wall_instant(until + timedelta(days=1), 0))
        count = look_readiness.received_after(read.connection, code, since)
        bought = "Nothing was bought" if count == 0 else f"{count} deliver{'y' if count == 1 else 'ies'} came"
        yield _about(
            code, f"{approval.name}: {words} on {day_text(until)}.", f"{bought} from them after that day."
        )


def _about(code: str, sentence: str, answer: str) -> Found:
    return Found(SUPPLIERS, ASK, sentence, answer, code, "setup", code, "Set it right")


def temperatures(found: Sequence[Episode]) -> list[Found]:
    """Warm times one by one; hours nobody measured one by one where somebody wrote why, else by store."""
    told = [_episode(one) for one in reversed(found) if one.sort == "warm" or one.action]
    silent: dict[str, list[Episode]] = defaultdict(list)
    for one in found:
        if one.sort == "gap" and not one.action:
            silent[one.store].append(one)
    told += [_silent(gaps) for gaps in silent.values()]
    if told:
        return shortened(told, as_told, "{} more times a store was warm or unmeasured.")
    return [Found(TEMPERATURES, READY, "No store was above the kitchen's own limit or left unmeasured.")]


def _episode(one: Episode) -> Found:
    when = f"from {wall_text(one.first_at)} to {wall_text(one.last_at)}"
    if one.sort == "warm":
        assert one.highest_tenths_c is not None
        words = (
            f"{one.store_name} was above the kitchen's {celsius_text(one.limit_tenths_c)} {when}, at most "
            f"{celsius_text(one.highest_tenths_c)}, with {_lots(one)} in it."
        )
    else:
        words = f"Nobody measured {one.store_name} {when}; {_lots(one)} stood in it."
    if one.action:
        result = f"Result: {full(one.result)}" if one.result else "No result is written."
        answer = f"Done: {full(one.action)} {result} ({one.answered_by})"
    else:
        answer = "Nothing was written down about it."
    state = READY if one.action and one.result else ASK
    act = "See it" if one.action else "Answer it"
    return Found(TEMPERATURES, state, words, answer, f"readings of {one.store}", "cold", one.store, act)


def _lots(one: Episode) -> str:
    if not one.lots:
        return "nothing"
    return one.lots[0] if len(one.lots) == 1 else f"{len(one.lots)} lots"


def _silent(gaps: Sequence[Episode]) -> Found:
    name, longest = gaps[0].store_name, max(one.last_at - one.first_at for one in gaps)
    hours = int(longest.total_seconds()) // 3600
    times = "Once" if len(gaps) == 1 else f"{len(gaps)} times"
    return Found(
        TEMPERATURES,
        ASK,
        f"{times} nobody measured {name} as often as the kitchen set itself; the longest was {hours} hours.",
        "Nothing was written down about it: say so, and why.",
        f"readings of {gaps[0].store}",
        "cold",
        gaps[0].store,
        "Answer it",
    )


def probes(read: Reader) -> list[Found]:
    rows = look_rooms.probe_rows(read.connection)
    if not rows:
        return [Found(PROBES, ASK, "No probe is written down.", station="cold", act="Add one")]
    days = policies_of(read.connection).probe_days or probe_check().days
    found = []
    for row in rows:
        name = f"Probe {row.code} {row.name}"
        if row.checked_at is None:
            words, is_due = f"{name} has never been checked.", True
        else:
            on = wall_day(instant(row.checked_at))
            is_due = (read.today - on).days > days
            ice = "not done" if row.ice_tenths_c is None else celsius_text(row.ice_tenths_c)
            boiling = "not done" if row.boiling_tenths_c is None else celsius_text(row.boiling_tenths_c)
            words = f"{name} was last checked on {day_text(on)}: ice {ice}, boiling water {boiling}."
        answer = f"The kitchen checks every {days} days; this is overdue." if is_due else ""
        act = "Check it" if is_due else ""
        station = "cold" if is_due else ""
        found.append(Found(PROBES, ASK if is_due else READY, words, answer, row.code, station, row.code, act))
    return shortened(sorted(found, key=_last), as_told, "{} more probes.")


def _last(one: Found) -> bool:
    return one.state == READY


def drills(read: Reader) -> list[Found]:
    seq = look_readiness.last_drill(read.connection)
    if seq is None:
        return [
            Found(
                DRILLS,
                ASK,
                "No tracing drill is written down.",
                "Scan any pack now: the trace is the same, only nobody timed it.",
                station="trace",
                act="Go to Trace",
            )
        ]
    (entry,) = journal.entries(read.connection, [seq])
    body = entry.body
    seconds, on = body["seconds"], day_text(wall_day(instant(entry.happened_at)))
    took = f"{seconds} seconds" if seconds < 120 else f"{seconds // 60} minutes"
    received, left = kg_to_the_gram(body["received_grams"]), kg_to_the_gram(body["unaccounted_grams"])
    return [
        Found(
            DRILLS,
            READY,
            f"The last drill was on {on}: {len(body['found'])} of "
            f"{len(body['asked'])} lots were found in {took}.",
            f"Of {received} received {left} stayed unaccounted."
            + (f" {body['note']}" if body["note"] else ""),
            f"entry {seq}",
        )
    ]


def backups(read: Reader) -> list[Found]:
    row = look_setup.last_backup(read.connection)
    days = policies_of(read.connection).backup_days
    if row is None:
        words = "No backup of this register has been made."
        return [Found(BACKUPS, ASK, words, station="setup", act="Make one")]
    at = instant(row.happened_at)
    words = (
        f"The last backup was made {wall_text(at)}, {row.entries} entries, each read again before it counted."
    )
    if read.now - at > timedelta(days=days):
        answer = f"The kitchen wants one every {days} days."
        return [Found(BACKUPS, ASK, words, answer, f"entry {row.seq}", "setup", "", "Make one")]
    return [Found(BACKUPS, READY, words, "", f"entry {row.seq}")]
