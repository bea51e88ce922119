"""Words one lot for the drawer: its acts in the order they come next, its paper in short, its story."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from gametrace.desktop.keeping.asking import can_keep
from gametrace.desktop.larder.drawer import Told
from gametrace.desktop.larder.file_part import FileTold
from gametrace.desktop.larder.hanging_part import Hung
from gametrace.desktop.larder.telling_file import days_words, file_told, hung_told
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.lot_words import missing_words, why_of
from gametrace.domain.lots import ANIMAL_KINDS, LotKind, LotState
from gametrace.domain.quantities import celsius_text, kg_text, pounds_text
from gametrace.register.records import Carcass, Hold, Lot, StoryLine

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile

WORDS = {
    "dress": "Skin and dress",
    "block": "To the block",
    "release": "Lift the hold",
    "dispose": "Dispose",
    "move": "Move",
    "weigh": "Weigh again",
    "hold": "Hold",
    "keeping": "Freeze, thaw, date",
    "tag": "Print the tag",
    "hold-label": "Hold label",
    "correct": "Correct weight",
    "examination": "Look again, decide",
    "examination/look": "Look it over",
    "examination/second": "Price, claim",
    "examination/laboratory": "Laboratory result",
    "delivery": "Put right, finish",
    "trace": "Trace",
}
_STOPPED = (LotState.REJECTED, LotState.SPECIMEN, LotState.OUT_OF_DATE)


def next_acts(
    lot: Lot, carcass: Carcass | None, *, has_hold: bool, is_undecided: bool = False
) -> tuple[tuple[str, str], ...]:
    """What may be done, the most likely next one first. `is_undecided`: not yet decided out of the skin."""
    if lot.grams == 0:
        return (("trace", "Trace"),)
    names = ["move", "weigh", "hold", "tag", "correct", "trace", "dispose"]
    if can_keep(lot):
        names.insert(2, "keeping")
    if carcass is not None:
        names[2:2] = ["examination/look", "examination/second"]
        names.insert(7, "delivery")
        if dressable(carcass):
            names.insert(0, "dress")
    if lot.state == LotState.ON_HOLD:
        names.insert(4, "hold-label")
    if has_hold:
        names.insert(0, "release")
    if carcass is not None and any(h.sort == "result" and h.released_at is None for h in carcass.holds):
        names.insert(0, "examination/laboratory")
    in_skin = carcass is not None and carcass.in_skin and lot.kind == LotKind.CARCASS
    if lot.kind != LotKind.PACK and not in_skin and lot.state not in (LotState.REJECTED, LotState.ON_HOLD):
        names.insert(0, "block")
    if is_undecided and lot.state != LotState.LOCKED:
        names.remove("examination/look")
        names.insert(0, "examination")
    if lot.state in _STOPPED:
        names.remove("dispose")
        names.insert(0, "dispose")
    words = {**WORDS, "tag": "Print the tag" if lot.kind in ANIMAL_KINDS else "Print the label"}
    return tuple((name, words[name]) for name in names)


def dressable(carcass: Carcass) -> bool:
    """Something can still come off, and it was not refused."""
    something = carcass.in_skin or any(w in carcass.basis_now for w in ("head on", "feet on", "pluck in"))
    return something and carcass.lot.state != LotState.REJECTED


def is_undecided(file: AnimalFile) -> bool:
    """Dressed here, and nobody has decided on what came to light under the skin."""
    one = file.carcass
    return one.dressed_at is not None and not one.in_skin and not file.second_decision


def lot_told(lot: Lot, file: AnimalFile | None, story: Sequence[StoryLine], *, has_hold: bool) -> Told:
    """Everything the drawer shows."""
    carcass = file.carcass if file else None
    return Told(
        code=lot.code,
        title=_first_up(lot.name),
        state=lot.state,
        why=first_sentence(why_of(lot)),
        days=carcass.days_hung if carcass else None,
        line=_line(lot, file),
        acts=next_acts(lot, carcass, has_hold=has_hold, is_undecided=file is not None and is_undecided(file)),
        findings=tuple(f for f in carcass.findings if f.code != "hanging-over-run") if carcass else (),
        facts=_carcass_facts(carcass) if carcass else _lot_facts(lot),
        story=tuple(_sentence(line, lot.code) for line in reversed(story)),
        hung=hung_told(file) if file else Hung(),
        file=file_told(file) if file else FileTold(),
    )


def _line(lot: Lot, file: AnimalFile | None) -> str:
    parts = [kg_text(lot.grams)]
    if file is not None:
        parts.append(file.carcass.basis_now)
        if days := days_words(file):
            parts.append(days)
    if lot.use_by is not None:
        words = "best by" if lot.pack_state == "frozen" else "use by"
        parts.append(f"{words} {day_text(lot.use_by)}")
    parts.append(lot.where)
    return " · ".join(parts)


def _carcass_facts(one: Carcass) -> tuple[tuple[str, str], ...]:
    from gametrace.register.clock import wall_text

    killed = day_text(one.killed_on) if one.killed_on else "not stated"
    if one.kill_time:
        killed += f", {one.kill_time}"
    if one.kill_place:
        killed += f", {one.kill_place}"
    warm = ", ".join(f"{place} {celsius_text(tenths)}" for place, tenths in one.readings)
    rows = [
        ("From", one.supplier.name),
        ("Route", one.route_words),
        ("Origin", one.origin_words),
        ("Supplier's tag", one.tag or "none written down"),
        ("Number on", one.number_on if one.number_on and one.number_on != one.tag else "the supplier's tag"),
        ("Killed", killed),
        ("Received", f"{wall_text(one.received_at)}, by {one.received_by}"),
        ("Weight then", f"{kg_text(one.grams_received)}, {one.basis_words}"),
        ("Their weight", kg_text(one.supplier_grams) if one.supplier_grams is not None else ""),
        ("Temperature", warm or "not taken"),
        ("Declaration", one.declaration_number or ("with no number" if one.has_declaration else "none")),
        ("Evidence", one.evidence),
        ("Decision", one.decision + (f": {one.decision_reason}" if one.decision_reason else "")),
        ("Notes", one.inspection_notes),
        ("Price", f"{pounds_text(one.pence_per_kg)} a kg" if one.pence_per_kg is not None else ""),
        ("Missing", missing_words(one.missing)),
        *((f"Hold {hold.id}", _hold_words(hold)) for hold in one.holds),
    ]
    return tuple(row for row in rows if row[1])


def _hold_words(hold: Hold) -> str:
    words = f"{hold.reason} ({hold.placed_by})"
    return f"{words}; lifted by {hold.released_by}: {hold.release_reason}" if hold.released_by else words


def first_sentence(words: str) -> str:
    """Enough for beside a sign; the whole reason stands further down."""
    return words.split(". ")[0] + "." if ". " in words else words


def _lot_facts(lot: Lot) -> tuple[tuple[str, str], ...]:
    from gametrace.register.clock import wall_text

    rows = [
        ("Made", f"{wall_text(lot.made_at)}, by {lot.made_by}"),
        ("Weight then", kg_text(lot.grams_made)),
        ("Packed", lot.pack_state),
        ("First frozen", day_text(lot.first_frozen_on) if lot.first_frozen_on else ""),
        ("Thawed", day_text(lot.thawed_on) if lot.thawed_on else ""),
        (
            "Best by" if lot.pack_state == "frozen" else "Use by",
            f"{day_text(lot.use_by)}: {lot.date_rule}" if lot.use_by else "",
        ),
    ]
    return tuple(row for row in rows if row[1])


def _sentence(line: StoryLine, code: str) -> str:
    from gametrace.register.clock import wall_text

    late = f" Written late, {wall_text(line.written_at)}." if line.is_late else ""
    told = _first_up(line.sentence.removeprefix(f"{code} "))
    return f"{wall_text(line.happened_at)}, {line.by}: {told}.{late}".replace("..", ".")


def _first_up(words: str) -> str:
    return words[:1].upper() + words[1:]
