"""A lot's life told entry by entry, in sentences built from what was sealed."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.quantities import celsius_text, kg_to_the_gram, pounds_text
from gametrace.facts.shelf_life import thaw_methods
from gametrace.register import plate_stories
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant, iso_day_text, wall_text
from gametrace.register.lot_facts import lot_facts
from gametrace.register.opening import Register
from gametrace.register.records import StoryLine
from gametrace.store import journal, look_carcasses, look_strikes

# Written this long after it happened counts as late and is said so. The kitchen's own figure; inference.
LATE_SECONDS = 12 * 3600


def story(register: Register, code: str) -> tuple[StoryLine, ...]:
    """Everything that happened to a lot, in order."""
    with register.store.reading() as connection:
        lot = lot_facts(connection, code, register.today()).id
        return lines(Assembler(connection, register.today()), look_carcasses.entries_of(connection, lot))


def is_told(kind: str) -> bool:
    """Whether entries of this kind are told in a sentence; the others have lists of their own.

    Those that were struck are told, whatever they were: no list has them any more.
    """
    return kind in _TELLERS or kind == "struck"


def lines(read: Assembler, seqs: list[int]) -> tuple[StoryLine, ...]:
    """One line an entry; a struck one says so, and who struck it why is told further on."""
    struck = look_strikes.struck_among(read.connection, seqs)
    told = (_line(read, entry) for entry in journal.entries(read.connection, seqs))
    return tuple(
        replace(line, sentence=f"[entry {line.seq}, struck] {line.sentence}") if line.seq in struck else line
        for line in told
    )


def _line(read: Assembler, entry: journal.Entry) -> StoryLine:
    happened, written = instant(entry.happened_at), instant(entry.written_at)
    return StoryLine(
        seq=entry.seq,
        happened_at=happened,
        written_at=written,
        by=read.initials(entry.by),
        sentence=_sentence(read, entry),
        is_late=(written - happened).total_seconds() > LATE_SECONDS,
    )


def _sentence(read: Assembler, entry: journal.Entry) -> str:
    body = entry.body
    teller = _TELLERS.get(entry.kind) or _OF_THE_HOUSE.get(entry.kind)
    return teller(read, body) if teller else entry.kind


def _received(read: Assembler, body: dict[str, Any]) -> str:
    animal = body["animal"]
    supplier = read.suppliers.get(animal["supplier"])
    words = f"{code_of(body['lot'])} received: {body['name']}, {kg_to_the_gram(body['grams'])}"
    words += f" from {supplier.name}" if supplier else ""
    words += f"; {animal['decision']}"
    if animal["decision_reason"]:
        words += f": {animal['decision_reason']}"
    return f"{words}; copied from {copied}" if (copied := body.get("copied_from")) else words


def _amended(_read: Assembler, body: dict[str, Any]) -> str:
    changes = "; ".join(
        f"{change['field'].replace('_', ' ')} "
        + (
            f"changed from {change['old']} to {change['new'] or 'nothing'}"
            if change["old"]
            else f"filled in: {change['new']}"
        )
        for change in body["changes"]
    )
    return f"{code_of(body['lot'])}: {changes}" + (f" ({body['reason']})" if body["reason"] else "")


def _outputs(body: dict[str, Any]) -> str:
    return ", ".join(
        f"{output['name']} {kg_to_the_gram(output['grams'])} as {code_of(output['lot'])}"
        for output in body["outputs"]
    )


def _dressed(_read: Assembler, body: dict[str, Any]) -> str:
    off = f"; off it came {_outputs(body)}" if body["outputs"] else ""
    return f"{code_of(body['lot'])} dressed, its number handed on to tag {body['number_on']}{off}"


def _divided(_read: Assembler, body: dict[str, Any]) -> str:
    note = next((output["note"] for output in body["outputs"] if output["note"]), "")
    told = f"Out of {code_of(body['lot'])}: {_outputs(body)}" + (f" ({note})" if note else "")
    return told + _at_table(body)


def _at_table(body: dict[str, Any]) -> str:
    """Where and by whom, in entries that say so."""
    cutter, session = body.get("cutter", ""), body.get("session", "")
    where = f" at {body['station']} of session {session}" if session else ""
    return (f", cut by {cutter}" if cutter else ",") + where if cutter or where else ""


def _laid(_read: Assembler, body: dict[str, Any]) -> str:
    words = f"{code_of(body['lot'])} laid on {body['station']} of session {body['session']}"
    if body["reason"]:
        words += f", beside {', '.join(body['beside'])}: {body['reason']}"
    return words


def _joined(_read: Assembler, body: dict[str, Any]) -> str:
    given = [f"{kg_to_the_gram(grams)} of {code_of(lot)}" for lot, grams in body["inputs"]]
    given += [f"{kg_to_the_gram(other['grams'])} of {other['name']}" for other in body.get("others", ())]
    parts = ", ".join(given)
    output = body["output"]
    words = f"{output['name']} {code_of(output['lot'])} made from {parts}"
    if dish := body["dish"]:
        words += f", {dish['portions']} portions for {dish['occasion_kind']} {dish['occasion']}"
    return words


def _kept(_read: Assembler, body: dict[str, Any]) -> str:
    now, code = body["now"], code_of(body["lot"])
    last = iso_day_text(now["use_by"])
    if now["pack_state"] == "frozen" and body["was"]["pack_state"] != "frozen":
        return f"{code} frozen, first on {iso_day_text(now['first_frozen_on'])}; best by {last}"
    if "method" in body:
        way = thaw_methods()[body["method"]].name
        return f"{code} thawed {way}, first frozen {iso_day_text(now['first_frozen_on'])}; use by {last}"
    if "reason" in body:
        was = iso_day_text(body["was"]["use_by"]) if body["was"]["use_by"] else "no date"
        return f"{code} dated {last} by a tutor in place of {was}: {body['reason']}"
    return f"{code} packed again, {now['pack_state'].replace('-', ' ')}; use by {last}"


def _weighed(_read: Assembler, body: dict[str, Any]) -> str:
    now, before = kg_to_the_gram(body["grams"]), kg_to_the_gram(body["was"])
    return f"{code_of(body['lot'])} weighed again: {now}, before {before}"


def _moved(read: Assembler, body: dict[str, Any]) -> str:
    return f"{code_of(body['lot'])} moved to {read.place_names.get(body['to'], body['to'])}"


def _closed(_read: Assembler, body: dict[str, Any]) -> str:
    words = f"{code_of(body['lot'])} closed with {kg_to_the_gram(body['unaccounted'])} unaccounted"
    words += f": {body['reason']}" if body["reason"] else ""
    return words + _at_table(body)


def _held(_read: Assembler, body: dict[str, Any]) -> str:
    return f"{code_of(body['lot'])} put on hold: {body['reason']}"


def _released(_read: Assembler, body: dict[str, Any]) -> str:
    return f"Hold on {code_of(body['lot'])} lifted: {body['reason']}"


def _weight_corrected(_read: Assembler, body: dict[str, Any]) -> str:
    was, now = kg_to_the_gram(body["was"]), kg_to_the_gram(body["grams"])
    return f"Weight of {code_of(body['lot'])} corrected from {was} to {now}: {body['reason']}"


def _labelled(_read: Assembler, body: dict[str, Any]) -> str:
    return f"Labels printed for {', '.join(code_of(lot) for lot in body['lots'])}"


def _answered(_read: Assembler, body: dict[str, Any]) -> str:
    return f"{code_of(body['lot'])}: {'; '.join(body['reasons'].values())}"


def _examined(_read: Assembler, body: dict[str, Any]) -> str:
    seen = [look for look in body["looks"] if look["answer"] == "not so"]
    words = "; ".join(
        f"{look['point'].replace('-', ' ')} not so: {look['note']}".rstrip(": ") for look in seen
    )
    return f"{code_of(body['lot'])} looked at {body['stage']}, {len(body['looks'])} points" + (
        f"; {words}" if words else ""
    )


def _called(_read: Assembler, body: dict[str, Any]) -> str:
    return (
        f"{code_of(body['lot'])}: rung about {body['about'].replace('_', ' ')}; {body['spoken_by']} said: "
        f"{body['answer']}"
    )


def _pictured(_read: Assembler, body: dict[str, Any]) -> str:
    return f"{code_of(body['lot'])}: picture of the {body['what']} kept, {body['hash'][:12]}…"


def _decided_again(_read: Assembler, body: dict[str, Any]) -> str:
    words = f"{code_of(body['lot'])} decided out of the skin: {body['decision']}"
    return f"{words}: {body['reason']}" if body["reason"] else words


def _claimed(_read: Assembler, body: dict[str, Any]) -> str:
    return (
        f"Claim {body['claim']} raised on {code_of(body['lot'])}: {kg_to_the_gram(body['grams'])}, "
        f"£{body['pence'] // 100}.{body['pence'] % 100:02d} by {body['rule']}: {body['reason']}"
    )


def _settled(_read: Assembler, body: dict[str, Any]) -> str:
    return f"Claim {body['claim']} {body['status']}, £{body['pence'] // 100}.{body['pence'] % 100:02d}"


def _laboratory(_read: Assembler, body: dict[str, Any]) -> str:
    return f"{code_of(body['lot'])}: laboratory {body['reference']} {body['result']}"


def _store_failed(read: Assembler, body: dict[str, Any]) -> str:
    store = read.place_names.get(body["store"], body["store"])
    return f"{store} failed, all in it put on hold: {body['reason']}"


def _collected(_read: Assembler, body: dict[str, Any]) -> str:
    codes = ", ".join(code_of(item["lot"]) for item in body["lots"])
    what = f"{len(body['lots'])} by-products" if len(body["lots"]) > 1 else codes
    told = f"{what} collected by {body['collector']}, document {body['document_number']}"
    return f"{told}: {codes}" if what != codes else told


def _came_as_expected(_read: Assembler, body: dict[str, Any]) -> str:
    return f"{code_of(body['lot'])} came as expected under {body['expected']}"


def _priced(_read: Assembler, body: dict[str, Any]) -> str:
    code = code_of(body["lot"])
    if body["price_pence"] is None:
        heads = body["heads"]
        words = f"{code} charged at cost" + (
            f" to {heads} student{'' if heads == 1 else 's'}" if heads else ""
        )
    else:
        words = f"{code} priced at {pounds_text(body['price_pence'])} a portion"
    return f"{words}: {body['reason']}" if body["reason"] else words


def _struck(_read: Assembler, body: dict[str, Any]) -> str:
    return f"Entry {body['seq']} struck, so it does not count: {body['reason']}"


def _held_together(_read: Assembler, body: dict[str, Any]) -> str:
    codes = ", ".join(code_of(hold["lot"]) for hold in body["holds"][:6])
    more = f" and {len(body['holds']) - 6} more" if len(body["holds"]) > 6 else ""
    return f"Put on hold together, {codes}{more}: {body['reason']}"


def _released_together(_read: Assembler, body: dict[str, Any]) -> str:
    return f"Holds on {len(body['holds'])} lots lifted together: {body['reason']}"


def _bag(_read: Assembler, body: dict[str, Any]) -> str:
    weight = f" of {kg_to_the_gram(body['grams'])}" if body["grams"] else ""
    if body["lot"] is None:
        return f"A bag{weight} without a label binned: {body['reason']}"
    return f"A bag{weight} without a label taken for {code_of(body['lot'])}: {body['reason']}"


def _recalled(_read: Assembler, body: dict[str, Any]) -> str:
    return f"Recall {body['recall']} opened, {body['what']}: {body['reason']}"


def _round(read: Assembler, body: dict[str, Any]) -> str:
    stores = ((read.place_names.get(one["store"], one["store"]), one["tenths_c"]) for one in body["readings"])
    return f"Round of the stores: {', '.join(f'{name} {celsius_text(tenths)}' for name, tenths in stores)}"


def _logger(read: Assembler, body: dict[str, Any]) -> str:
    store = read.place_names.get(body["store"], body["store"])
    first, last = (wall_text(datetime.fromtimestamp(body[at], UTC)) for at in ("first_at", "last_at"))
    return f"Logger file {body['name']}: {body['count']:,} readings of {store}, {first} to {last}"


def _probe_checked(_read: Assembler, body: dict[str, Any]) -> str:
    seen = (("melting ice", body["ice_tenths_c"]), ("boiling water", body["boiling_tenths_c"]))
    words = ", ".join(f"{celsius_text(tenths)} in {what}" for what, tenths in seen if tenths is not None)
    return f"Probe {body['probe']} checked: {words}"


def _excursion(read: Assembler, body: dict[str, Any]) -> str:
    store = read.place_names.get(body["store"], body["store"])
    what = "was too warm" if body["sort"] == "warm" else "was not measured"
    return f"{store} {what} from {wall_text(datetime.fromtimestamp(body['first_at'], UTC))}: {body['action']}"


# Lists of their own show these; a sentence is wanted where one is struck.
_OF_THE_HOUSE = {
    "round.taken": _round,
    "readings.imported": _logger,
    "probe.checked": _probe_checked,
    "excursion.answered": _excursion,
}


def _pin_lifted(read: Assembler, body: dict[str, Any]) -> str:
    return f"The PIN of {read.initials(body['person'])} taken away outside the window, nobody knows by whom"


_TELLERS = {
    "pin.lifted": _pin_lifted,
    "entry.struck": _struck,
    "set.held": _held_together,
    "set.released": _released_together,
    "bag.decided": _bag,
    "recall.opened": _recalled,
    "expected.arrived": _came_as_expected,
    "delivery.received": _received,
    "carcass.amended": _amended,
    "carcass.dressed": _dressed,
    "findings.answered": _answered,
    "lot.divided": _divided,
    "lots.joined": _joined,
    "lot.weighed": _weighed,
    "lot.moved": _moved,
    "lot.closed": _closed,
    "session.laid": _laid,
    "hold.placed": _held,
    "hold.released": _released,
    "lot.frozen": _kept,
    "lot.thawed": _kept,
    "lot.repacked": _kept,
    "date.overridden": _kept,
    "weight.corrected": _weight_corrected,
    "labels.printed": _labelled,
    "carcass.examined": _examined,
    "call.recorded": _called,
    "picture.attached": _pictured,
    "carcass.decided": _decided_again,
    "claim.raised": _claimed,
    "claim.settled": _settled,
    "laboratory.answered": _laboratory,
    "store.failed": _store_failed,
    "by-products.collected": _collected,
    "dish.priced": _priced,
    **plate_stories.TELLERS,
}
