"""What the meat itself asks for today: what is stopped, due, ready, open, unfinished, awaited or claimable.

Plain sentences with one act each. It reads what hangs and lies here now and walks no years.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.hanging import HangingPlan, hanging_plan
from gametrace.domain.lots import LotState, StopSort
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.facts.examination import point
from gametrace.register.assembling import Assembler
from gametrace.register.clock import day_text, instant, instant_text, wall_day, wall_instant
from gametrace.register.paper_state import calls_to_make
from gametrace.register.policies import Policies
from gametrace.register.records import Carcass, Duty, Hold, Lot
from gametrace.store import look_carcasses, look_door, look_lots, look_today
from gametrace.store.engine import Connection

SOON_DAYS = 2
_ONE_BY_ONE = 3  # holds of one reason told singly; more are one sentence
_ANSWER_DAYS = 7  # after which a supplier is asked again about a claim; the kitchen's habit, inference
_LONGEST_WINDOW_DAYS = 90  # of claims, as the supplier book allows

_CALL_WORDS = {
    "no_abnormal_characteristics": "the statement on the body",
    "no_abnormal_behaviour": "the statement on behaviour",
    "no_contamination": "the statement on contamination",
    "kill_time": "the time of killing",
    "kill_place": "the place of killing",
    "killed_on": "the day of killing",
}


def meat_duties(connection: Connection, today: date, own: Policies, here: Sequence[Carcass]) -> list[Duty]:
    """Everything about lots. `here` are the animals with something left of them."""
    read = Assembler(connection, today)
    opened = read.lots(look_lots.open_block_rows(connection))
    on_block = {lot.code for lot in opened}
    return [
        *_holds([read.hold(row) for row in look_carcasses.open_holds(connection)]),
        *_signs(connection),
        *_results(connection, here),
        *_dates(read.lots(look_lots.stock_rows(connection)), today),
        *_on_the_rail(connection, [one for one in here if one.code not in on_block], own, today),
        *_undecided(connection, here),
        *_blocks(opened),
        *_calls_and_papers(connection, here),
        *_windows(connection, today),
        *_claims(connection, today),
    ]


def _holds(holds: list[Hold]) -> Iterator[Duty]:
    """A failed store holds many lots for one reason: one sentence then. Waits for a result are told apart."""
    by_reason: dict[str, list[Hold]] = defaultdict(list)
    for hold in holds:
        if hold.sort != StopSort.RESULT:
            by_reason[hold.reason].append(hold)
    for reason, same in by_reason.items():
        if len(same) > _ONE_BY_ONE:
            yield Duty("now", f"{len(same)} lots are on hold: {reason}", "larder", same[0].code)
        else:
            for hold in same:
                yield Duty("now", f"{hold.code} is on hold: {reason}", "larder", hold.code)


def _results(connection: Connection, here: Sequence[Carcass]) -> Iterator[Duty]:
    """What a positive result locked while it is still here; then what is awaited."""
    still_here = {one.code for one in here}
    for row in look_today.locked(connection):
        if (code := code_of(row.lot_id)) in still_here:
            sentence = f"{code} is locked for ever: {row.reason}"
            yield Duty("now", sentence, "examination/laboratory", code, "What to do")
    for row in look_today.results_awaited(connection):
        since = day_text(wall_day(instant(row.placed_at)))
        yield Duty(
            "today",
            f"{code_of(row.lot_id)} {row.name} has waited for the laboratory since {since}: "
            "a second person enters the result.",
            "examination/laboratory",
            code_of(row.lot_id),
            "Enter the result",
        )


def _signs(connection: Connection) -> Iterator[Duty]:
    """A sign of a notifiable disease that nobody has rung about."""
    for row in look_today.signs_not_rung(connection):
        code = code_of(row.lot_id)
        sentence = f"{code} {row.name}: a sign of {point(row.point).name} was seen and nobody has rung."
        yield Duty("now", sentence, "examination/stop", code, "Ring")


def _undecided(connection: Connection, here: Sequence[Carcass]) -> Iterator[Duty]:
    """Dressed here and hanging, with nothing decided on what came to light under the skin."""
    out = [one for one in here if one.dressed_at and not one.in_skin and one.lot.state == LotState.HANGING]
    decided = look_door.second_decisions_of(connection, [lot_id_of(one.code) for one in out])
    open_ones = [one for one in out if lot_id_of(one.code) not in decided]
    for one in open_ones[:_ONE_BY_ONE]:
        sentence = f"{one.code} {one.title} is out of the skin and not decided again: price and claim wait."
        yield Duty("today", sentence, "examination", one.code, "Look, decide")
    if (more := len(open_ones) - _ONE_BY_ONE) > 0:
        sentence = f"{more} more {'is' if more == 1 else 'are'} out of the skin and not decided again."
        yield Duty("this week", sentence, "examination", open_ones[_ONE_BY_ONE].code, "Look, decide")


def _dates(stock: Sequence[Lot], today: date) -> Iterator[Duty]:
    for lot in stock:
        if lot.use_by is None or lot.state == LotState.ON_HOLD:
            continue
        days = (lot.use_by - today).days
        named = f"{lot.code} {lot.name}"
        if days < 0:
            yield Duty("now", f"{named} is past its date ({day_text(lot.use_by)}): bin it.", "pass", lot.code)
        elif days <= SOON_DAYS:
            when = "today" if days == 0 else "this week"
            yield Duty(when, f"{named} is to be used by {day_text(lot.use_by)}.", "pass", lot.code)


def _on_the_rail(
    connection: Connection, here: Sequence[Carcass], own: Policies, today: date
) -> Iterator[Duty]:
    """Due out of the skin, ready to cut, over its day: by the kitchen's own days or all sources'."""
    ages = {
        code_of(row.lot_id): row.age_class
        for row in look_today.paper_rows(connection, [lot_id_of(one.code) for one in here])
    }
    for one in here:
        if one.lot.state != LotState.HANGING or one.killed_on is None or one.days_hung is None:
            continue
        plan = hanging_plan(one.species, ages[one.code], (own.hanging_days or {}).get(one.species))
        if plan is not None and one.days_hung >= plan.ready_from_days:
            yield _hung(one, plan, one.killed_on, today)


def _hung(one: Carcass, plan: HangingPlan, killed_on: date, today: date) -> Duty:
    by = killed_on + timedelta(days=plan.by_days)
    hung = f"{one.code} {one.title} has hung {_days(one.days_hung or 0)}"
    hung += f" of {plan.by_days}" if plan.by_days else " and is not to hang"
    act, station, word = (
        ("skin and dress it", "larder", "Dress it") if one.in_skin else ("to the block", "block", "Cut it")
    )
    if today > by:
        if why := one.reasons.get("hanging-over-run", ""):
            return Duty("this week", f"{hung}; it hangs on: {why}", station, one.code, word)
        return Duty(
            "now",
            f"{hung}, over its day ({day_text(by)}): {act}, or say why it hangs on.",
            station,
            one.code,
            word,
        )
    if today == by:
        return Duty("today", f"{hung}: {act}.", station, one.code, word)
    ready = "due out of the skin" if one.in_skin else "ready to cut"
    return Duty(
        "this week", f"{one.code} {one.title} is {ready}, by {day_text(by)}: {act}.", station, one.code, word
    )


def _days(count: int) -> str:
    return "a day" if count == 1 else f"{count} days"


def _blocks(lots: Sequence[Lot]) -> Iterator[Duty]:
    for lot in lots:
        yield Duty(
            "today",
            f"{lot.code} {lot.name} is open on the block with {kg_to_the_gram(lot.grams)} unweighed.",
            "block",
            lot.code,
        )


def _calls_and_papers(connection: Connection, here: Sequence[Carcass]) -> Iterator[Duty]:
    """Who is to be rung about what; then what else of the paper is still blank."""
    ids = [lot_id_of(one.code) for one in here]
    rung = look_door.calls_of(connection, ids)
    rows = {row.lot_id: row for row in look_today.paper_rows(connection, ids)}
    for lot, one in zip(ids, here, strict=True):
        wanted = calls_to_make(rows[lot], {call.about for call in rung.get(lot, ())})
        about = tuple(_CALL_WORDS[name] for name in wanted) if one.missing or one.holds else ()
        if about:
            yield Duty(
                "today",
                f"{one.code} {one.title}: ring {one.supplier.name} about {_listed(about)}.",
                "delivery",
                one.code,
                "Note the call",
            )
        if words := _still_wants(one, about):
            yield Duty(
                "this week", f"{one.code} {one.title} still wants {words}.", "delivery", one.code, "Finish it"
            )


def _still_wants(one: Carcass, about: tuple[str, ...]) -> str:
    """The blanks, papers and reasons that are not already somebody's telephone call."""
    asked = [words for words in one.missing if not words.startswith("a reason: ") and words not in about]
    open_questions = [finding for finding in one.findings if finding.severity == "ask"]
    open_questions = [finding for finding in open_questions if finding.code not in one.reasons]
    papers = [finding for finding in open_questions if finding.code.endswith("-missing")]
    asked += [f"the {finding.code.removesuffix('-missing').replace('-', ' ')}" for finding in papers]
    calls = sum(finding.code == "declaration-call-back" for finding in open_questions) if about else 0
    reasons = sum(words.startswith("a reason: ") for words in one.missing) - len(papers) - calls
    if reasons > 0:
        asked.append("a reason" if reasons == 1 else f"{reasons} reasons")
    return _listed(asked)


def _listed(words: Sequence[str]) -> str:
    """'the tag, the price and a reason'."""
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1]))) if words else ""


def _windows(connection: Connection, today: date) -> Iterator[Duty]:
    """Claim windows that end: damage weighed and not claimed, or nobody has seen it out of the skin."""
    since = instant_text(wall_instant(today - timedelta(days=_LONGEST_WINDOW_DAYS), 0))
    for row in look_today.not_claimed(connection, since):
        last = wall_day(instant(row.received_at)) + timedelta(days=row.claim_days)
        days = (last - today).days
        if not 0 <= days <= SOON_DAYS:
            continue
        code, when = code_of(row.lot_id), "today" if days == 0 else "this week"
        ends = f"the days for a claim end on {day_text(last)}"
        if row.damaged_grams:
            kilos = f"{kg_to_the_gram(row.damaged_grams)} of shot damage"
            sentence = f"{code} {row.name}: {kilos} not claimed, and {ends}."
            yield Duty(when, sentence, "examination/second", code, "To the claim")
        elif row.basis.startswith("y"):
            sentence = f"{code} {row.name}: {ends}, and nobody has seen it out of the skin."
            yield Duty(when, sentence, "larder", code, "Dress it")


def _claims(connection: Connection, today: date) -> Iterator[Duty]:
    for row in look_door.open_claims(connection):
        raised = wall_day(instant(row.raised_at))
        if row.status == "raised" and (today - raised).days >= _ANSWER_DAYS:
            yield Duty(
                "this week",
                f"Claim {row.id} on {code_of(row.lot_id)} of {day_text(raised)} has had no answer: ring.",
                "examination/second",
                code_of(row.lot_id),
                "To the claim",
            )
