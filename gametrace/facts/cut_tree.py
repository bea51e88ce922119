"""How a carcass of each kind comes apart: carcass, sides or joints, cuts; other names; left and right.

Built from the products of `gametrace.facts.cuts` and what cut_tree.toml adds. It holds no weights and no
yields, and a kitchen's own changes are laid over it by `gametrace.domain.cut_changes`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from gametrace.facts.cuts import Product, product, products
from gametrace.facts.loading import BadFact, Row, checked_rows, one_of
from gametrace.facts.species import species

CARCASS = "carcass"
SIDES = ("left", "right")
_WHOLE_SIDES = {"left-side": "left", "right-side": "right"}


@dataclass(frozen=True, slots=True)
class Cut:
    """One place in a tree. `paired`: there is a left one and a right one. `parts`: what it is cut into."""

    id: str
    name: str
    level: str
    paired: bool
    synonyms: tuple[str, ...]
    parts: tuple[Cut, ...] = ()
    source: str = ""
    status: str = ""
    note: str = ""

    def walk(self) -> Iterator[Cut]:
        """This cut and everything under it, each before its parts."""
        yield self
        for part in self.parts:
            yield from part.walk()

    def find(self, cut_id: str) -> Cut | None:
        """The first cut with this id at or under this one."""
        return next((one for one in self.walk() if one.id == cut_id), None)


@dataclass(frozen=True, slots=True)
class MeatState:
    """How a cut is: on the bone, boneless, diced, minced, cured, cooked; and what it may yet become."""

    id: str
    name: str
    is_mince: bool
    may_become: tuple[str, ...]
    made_by: str  # what is done for it, where a knife alone does not make it; '' where it does
    source: str
    status: str
    note: str


@cache
def _rows() -> dict[str, Row]:
    rows = {row["id"]: row for row in checked_rows("cut_tree", "cut")}
    for row in rows.values():
        if not product(row["id"]).is_meat:
            raise BadFact(f"cut_tree.toml: '{row['id']}' is not meat.")
        for name in (*row["only"], *row["not_for"]):
            species(name)
    return rows


def _is_cut_from(one: Product, species_id: str) -> bool:
    row = _rows().get(one.id)
    if row is None:  # a product somebody added to cuts.toml alone
        return True
    return species_id not in row["not_for"] and (not row["only"] or species_id in row["only"])


@cache
def tree_for(species_id: str) -> Cut:
    """The whole tree of a kind of animal, from the carcass down. A split side holds the same joints."""
    kind = species(species_id)
    held = [one for one in products(kind.group) if one.is_meat and _is_cut_from(one, kind.id)]
    known = {one.id for one in held}
    roots = [one for one in held if one.parent not in known]
    joints = tuple(_cut(one, held) for one in roots if one.id not in _WHOLE_SIDES)
    halves = tuple(
        _cut(one, held, tuple(joint for joint in joints if _splits(joint)))
        for one in roots
        if one.id in _WHOLE_SIDES
    )
    return Cut(CARCASS, "carcass", CARCASS, False, (), (*halves, *joints))


def _splits(joint: Cut) -> bool:
    """What a side of a carcass holds: joints, not offal, loose trim or bone."""
    return joint.level == "primal" and joint.id not in ("bone-in", "boneless")


def _cut(one: Product, held: list[Product], parts: tuple[Cut, ...] | None = None) -> Cut:
    row = _rows().get(one.id)
    under = parts if parts is not None else tuple(_cut(part, held) for part in held if part.parent == one.id)
    return Cut(
        id=one.id,
        name=one.name,
        level=one.level,
        paired=bool(row and row["paired"]),
        synonyms=tuple(row["synonyms"]) if row else (),
        parts=under,
        source=row["source"] if row else one.source,
        status=row["status"] if row else one.status,
        note=row["note"] if row else one.note,
    )


def parts_under(cut_id: str, species_id: str = "") -> tuple[str, ...]:
    """The ids of everything that may be cut from a cut, joints first; of any kind where none is named."""
    if cut_id != CARCASS:
        product(cut_id)
    trees = [tree_for(species_id)] if species_id else [tree_for(kind) for kind in _ONE_OF_EACH]
    found = (tree.find(cut_id) for tree in trees)
    ids = (one.id for cut in found if cut is not None for one in cut.walk() if one.id != cut_id)
    return tuple(dict.fromkeys(ids))


_ONE_OF_EACH = ("red", "wild-boar", "pheasant", "rabbit")  # between them every cut that is held


@cache
def synonyms() -> dict[str, tuple[str, ...]]:
    """Every other name, with the ids of the cuts it may mean: 'leg' is several."""
    named: dict[str, tuple[str, ...]] = {}
    for row in _rows().values():
        for word in row["synonyms"]:
            named[word] = (*named.get(word, ()), row["id"])
    return named


def cut_called(words: str, species_id: str) -> Cut:
    """The cut of that animal by id, name or other name; `UnknownFact` with those known if none."""
    plain = " ".join(words.lower().replace("-", " ").split())
    cuts = tuple(tree_for(species_id).walk())
    for one in cuts:
        if plain in (one.id.replace("-", " "), one.name.lower()):
            return one
    for one in cuts:
        if plain in (word.replace("-", " ") for word in one.synonyms):
            return one
    raise one_of("cut", words, tuple(one.id for one in cuts))


@cache
def states() -> tuple[MeatState, ...]:
    """Every state, from the bone to the plate."""
    return tuple(
        MeatState(
            id=row["id"],
            name=row["name"],
            is_mince=row["is_mince"],
            may_become=tuple(row["may_become"]),
            made_by=row["made_by"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("cut_tree", "state")
    )


def state(state_id: str) -> MeatState:
    """The state with this id; 'bone in' is read as bone-in."""
    for one in states():
        if one.id == state_id.replace(" ", "-"):
            return one
    raise one_of("state of a cut", state_id, tuple(one.id for one in states()))


def product_words(cut_id: str, state_id: str = "", side: str = "") -> str:
    """A product as people say it: 'left haunch, boneless'."""
    held = product(cut_id)
    if side and side not in SIDES:
        raise one_of("side", side, SIDES)
    name = f"{side} {held.name}" if side and cut_id not in _WHOLE_SIDES else held.name
    return f"{name}, {state(state_id).name}" if state_id else name


def sided(cut: Cut) -> tuple[str, ...]:
    """The sides a cut has: left and right where there are two, else none."""
    return SIDES if cut.paired else ()
