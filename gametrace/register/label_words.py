"""The words of a label by its sort: title, lines, date, warning. Their place is the documents' business."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from gametrace.domain.by_products import Confirmed, category_of
from gametrace.domain.ingredients import allergens_text
from gametrace.domain.lots import LotKind, LotState
from gametrace.domain.quantities import kg_text, kg_to_the_gram
from gametrace.facts.by_products import category
from gametrace.facts.cuts import product
from gametrace.facts.species import species as species_called
from gametrace.register.clock import day_text, iso_day_text, wall_day
from gametrace.register.cooking_records import ingredients_behind
from gametrace.register.records import Carcass, Lot
from gametrace.store.engine import Connection

_WARNINGS = {
    LotState.ON_HOLD: "ON HOLD, NOT FOR USE",
    LotState.LOCKED: "LOCKED, NEVER TO A PLATE",
    LotState.REJECTED: "REJECTED, NOT FOR FOOD",
    LotState.SPECIMEN: "TEACHING SPECIMEN, NEVER TO A PLATE",
    LotState.OUT_OF_DATE: "OUT OF DATE, NOT FOR USE",
}


def sort(lot: Lot) -> str:
    if lot.state == LotState.ON_HOLD:
        return "hold"
    if lot.kind in (LotKind.BY_PRODUCT, LotKind.WASTE):
        return "by-product"
    if lot.kind in (LotKind.CARCASS, LotKind.BATCH):
        return "carcass"
    if lot.kind == LotKind.DISH:
        return "dish"
    if lot.pack_state == "frozen":
        return "frozen"
    if lot.thawed_on:
        return "thawed"
    return "mix" if lot.kind == LotKind.MIX else "pack"


def title(lot: Lot) -> str:
    """The name; of thawed meat with 'defrosted' in it (Regulation 1169/2011, Annex VI part A 2)."""
    name = f"{lot.name}, defrosted" if lot.thawed_on and lot.pack_state != "frozen" else lot.name
    return name[:1].upper() + name[1:]


def allergens(connection: Connection, lot: int) -> str:
    """What is written down of the allergens in it or in what it became; '' where nothing is."""
    found = ingredients_behind(connection, lot)
    return allergens_text(found) if found else ""


def _category(lot: Lot, settled: Mapping[str, Confirmed]) -> int:
    """The category it is kept as: the kitchen's, where settled with its authority."""
    return category_of(product(lot.product).by_product, settled)


def gone_lines(lot: Lot, settled: Mapping[str, Confirmed]) -> tuple[str, ...]:
    return (
        f"Animal by-product, category {_category(lot, settled)}",
        kg_to_the_gram(_grams(lot)),
        f"Set aside {day_text(wall_day(lot.made_at))}",
    )


def warning(lot: Lot, sort: str, settled: Mapping[str, Confirmed]) -> str:
    """White on black: the words of a by-product's category (Regulation 142/2011, Annex VIII, chapter II), or
    why it must not be used."""
    if lot.kind in (LotKind.BY_PRODUCT, LotKind.WASTE):
        return category(_category(lot, settled)).bin_label.upper()
    if lot.state == LotState.ON_HOLD:
        return f"ON HOLD: {lot.state_reason.partition(': ')[2]}"
    return _WARNINGS.get(LotState(lot.state), _WARNINGS[LotState.ON_HOLD] if sort == "hold" else "")


def killed(paper: Carcass) -> str:
    return f"Killed {day_text(paper.killed_on)}" if paper.killed_on else "Kill date not stated"


def carcass_lines(paper: Carcass) -> tuple[str, ...]:
    """Few words: they are read wet, from below a rail."""
    return (
        f"{kg_text(_grams(paper.lot))} {'in the skin' if paper.in_skin else 'skinned'}",
        f"Tag {paper.tag}" if paper.tag else "No supplier's tag",
        paper.supplier.name,
    )


def _grams(lot: Lot) -> int:
    """What is left; of a used-up lot, what it was, for a label printed again for the file."""
    return lot.grams or lot.grams_made


def pack_lines(
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
        allergens,
        f"Frozen on {day_text(was_frozen)}" if was_frozen else "",
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


def date_line(lot: Lot, own: str) -> str:
    """The date to use it by. A frozen label or a thawed one has its other day in a band."""
    if lot.use_by is None:
        return ""
    if own == "frozen" and lot.first_frozen_on:
        return f"Best by {day_text(lot.use_by)}"
    if lot.pack_state == "frozen":
        frozen = lot.first_frozen_on or wall_day(lot.made_at)
        return f"Frozen on {day_text(frozen)} · best by {day_text(lot.use_by)}"
    if lot.thawed_on and own != "thawed":
        return f"Thawed {day_text(lot.thawed_on)} · use by {day_text(lot.use_by)}"
    return f"Use by {day_text(lot.use_by)}"
