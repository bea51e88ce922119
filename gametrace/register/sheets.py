"""What a label says, worded and in order; where it goes on the paper is the documents' business."""

from __future__ import annotations

from collections.abc import Sequence

from gametrace.domain.errors import Refusal
from gametrace.domain.ingredients import allergens_text
from gametrace.domain.lots import LotKind, LotState
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.facts.species import species as species_called
from gametrace.register.assembling import Assembler
from gametrace.register.clock import day_text, iso_day_text, wall_day
from gametrace.register.cooking_records import ingredients_behind
from gametrace.register.lot_facts import lot_facts
from gametrace.register.opening import Register
from gametrace.register.records import Carcass, LabelSheet, Lot
from gametrace.store import look_lots, look_plates
from gametrace.store.engine import Connection

_WARNINGS = {
    LotState.ON_HOLD: "ON HOLD, NOT FOR USE",
    LotState.LOCKED: "LOCKED, NEVER TO A PLATE",
    LotState.REJECTED: "REJECTED, NOT FOR FOOD",
    LotState.SPECIMEN: "TEACHING SPECIMEN, NEVER TO A PLATE",
    LotState.OUT_OF_DATE: "OUT OF DATE, NOT FOR USE",
}


def label_sheets(register: Register, codes: Sequence[str], sort: str = "") -> tuple[LabelSheet, ...]:
    """The labels of these lots, in the order given: a carcass tag, a pack or a dish label by their kind.

    `sort` "hold" asks for the hold label instead, whatever the lot is.
    """
    if not codes:
        raise Refusal("There is no label to print.", "Choose a lot first.", "codes")
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        ids = [lot_facts(connection, code, register.today()).id for code in codes]
        lots = read.lots_by_id(ids)
        papers = {one.code: one for one in read.carcasses(ids)}
        dishes = look_lots.dish_details(connection, ids)
        cooked = look_plates.are_left_overs(connection, ids)
        larder = read.larder()
        besides = {one_id: _allergens(connection, one_id) for one_id in ids}
        sheets = []
        for one_id in ids:
            lot = lots[one_id]
            if paper := papers.get(lot.code):
                lines, date_line = _carcass_lines(paper), _killed(paper)
            elif dish := dishes.get(one_id):
                lines = (f"{dish.portions} portions · {dish.occasion}", besides[one_id])
                date_line = f"For {iso_day_text(dish.on_day)}"
            else:
                is_cooked = one_id in cooked
                lines = _pack_lines(lot, read.animals_behind(one_id), besides[one_id], is_cooked=is_cooked)
                date_line = _date_line(lot)
            sheets.append(
                LabelSheet(
                    code=lot.code,
                    sort=sort or _sort(lot),
                    title=_title(lot),
                    lines=lines,
                    date_line=date_line,
                    warning=_warning(lot, sort),
                    larder=larder.name,
                    is_practice=larder.is_practice,
                    frozen_on=day_text(lot.first_frozen_on) if lot.first_frozen_on else "",
                    thawed_on=day_text(lot.thawed_on) if lot.thawed_on else "",
                )
            )
    return tuple(sheets)


def _allergens(connection: Connection, lot: int) -> str:
    """What is written down of the allergens in a dish or in what it became; '' where nothing is."""
    found = ingredients_behind(connection, lot)
    return allergens_text(found) if found else ""


def _sort(lot: Lot) -> str:
    if lot.state == LotState.ON_HOLD:
        return "hold"
    return {LotKind.CARCASS: "carcass", LotKind.BATCH: "carcass", LotKind.DISH: "dish"}.get(
        LotKind(lot.kind), "pack"
    )


def _title(lot: Lot) -> str:
    """The name; of thawed meat with 'defrosted' in it (Regulation 1169/2011, Annex VI part A 2)."""
    name = f"{lot.name}, defrosted" if lot.thawed_on and lot.pack_state != "frozen" else lot.name
    return name[:1].upper() + name[1:]


def _warning(lot: Lot, sort: str) -> str:
    if lot.kind in (LotKind.BY_PRODUCT, LotKind.WASTE):
        return "NOT FOR HUMAN CONSUMPTION"
    if lot.state == LotState.ON_HOLD:
        return f"ON HOLD: {lot.state_reason.partition(': ')[2]}"
    return _WARNINGS.get(LotState(lot.state), _WARNINGS[LotState.ON_HOLD] if sort == "hold" else "")


def _killed(paper: Carcass) -> str:
    return f"Killed {day_text(paper.killed_on)}" if paper.killed_on else "Kill date not stated"


def _carcass_lines(paper: Carcass) -> tuple[str, ...]:
    lines = (
        f"{_grams(paper.lot) / 1000:.2f} kg {'in the skin' if paper.in_skin else 'skinned'}",
        f"Tag {paper.tag}" if paper.tag else "No supplier's tag",
        paper.supplier.name,
        f"Received {day_text(wall_day(paper.received_at))}",
    )
    return lines


def _grams(lot: Lot) -> int:
    """What is left; of a used-up lot, what it was, for a label printed again for the file."""
    return lot.grams or lot.grams_made


def _pack_lines(
    lot: Lot, animals: Sequence[tuple[str, str | None]], allergens: str, *, is_cooked: bool
) -> tuple[str, ...]:
    state = {"chilled-loose": "chilled", "modified-atmosphere": "modified atmosphere"}.get(
        lot.pack_state, lot.pack_state
    )
    killed = sorted({day for _, day in animals if day})
    was_frozen = lot.first_frozen_on if lot.pack_state != "frozen" else None
    about = f" · about {lot.portions} portion{'' if lot.portions == 1 else 's'}" if lot.portions else ""
    made = "cooked" if is_cooked else "raw"
    return (
        f"{kg_to_the_gram(_grams(lot))} · {_species_words(animals)} · {made}{about}",
        f"Frozen on {day_text(was_frozen)}" if was_frozen else "",
        allergens,
        f"{state[:1].upper()}{state[1:]}" if state and state not in ("thawed", "cooked") else "",
        f"{'Put by' if is_cooked else 'Packed'} {day_text(wall_day(lot.made_at))}",
        f"Killed {' to '.join(iso_day_text(day) for day in dict.fromkeys((killed[0], killed[-1])))}"
        if killed
        else "",
    )


def _species_words(animals: Sequence[tuple[str, str | None]]) -> str:
    """'fallow', or 'fallow and red' for a lot made of several animals."""
    names = sorted({species_called(species).name for species, _ in animals})
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def _date_line(lot: Lot) -> str:
    if lot.use_by is None:
        return ""
    if lot.pack_state == "frozen":
        frozen = lot.first_frozen_on or wall_day(lot.made_at)
        return f"Frozen on {day_text(frozen)} · best by {day_text(lot.use_by)}"
    if lot.thawed_on:
        return f"Thawed {day_text(lot.thawed_on)} · use by {day_text(lot.use_by)}"
    return f"Use by {day_text(lot.use_by)}"
