"""Which products the block offers, in which group, on which part of the beast, and how they are found by
typing. The list itself is the facts'; nothing is decided here about meat."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from gametrace.facts.cuts import Product, products
from gametrace.facts.species import species as species_called

GROUPS = (
    ("joints", "Joints"),
    ("cuts", "Cuts"),
    ("trim", "Trim"),
    ("bone", "Bone, skin"),
    ("waste", "Waste"),
)
_GROUP_OF_LEVEL = {
    "side": "joints",
    "primal": "joints",
    "cut": "cuts",
    "trim": "trim",
    "by-product": "bone",
    "waste": "waste",
}
_WITH_TRIM = frozenset({"heart", "liver", "kidneys", "stock-bones"})
SIDES = (("left", "Left"), ("", "Neither"), ("right", "Right"))
_SIDE_WORDS = {"l": "left", "left": "left", "r": "right", "right": "right"}
# What an animal has two of: these joints, and every cut from them or from the saddle.
_PAIRED = frozenset({"haunch", "shoulder", "breast", "belly"})

# Cut from whatever lies on the table, whatever joint they are listed under.
_FROM_ANYWHERE = frozenset({"dice", "steak"})

# The parts of the drawn beast from head to hind leg, and the product each one is.
PARTS = ("neck", "shoulder", "shank-fore", "saddle", "breast", "flank", "haunch", "shank-hind")
_PRODUCT_OF_PART = {"shank-fore": "fore-shank", "shank-hind": "hind-shank"}
_PARTS_OF = {
    "breast": ("breast", "flank"),
    "belly": ("breast", "flank"),
    "left-side": PARTS,
    "right-side": PARTS,
    "haunch": ("haunch", "shank-hind"),
    "shoulder": ("shoulder", "shank-fore"),
    "fore-shank": ("shank-fore",),
    "hind-shank": ("shank-hind",),
}


@dataclass(frozen=True, slots=True)
class Offer:
    """One product as the page offers it."""

    id: str
    name: str
    group: str
    parent: str
    is_meat: bool
    is_paired: bool


@cache
def offers(species: str) -> tuple[Offer, ...]:
    """Everything that may come off an animal of this species; of every species where it is ''."""
    group = species_called(species).group if species else None
    return tuple(_offer(one) for one in products(group))


def _offer(one: Product) -> Offer:
    group = "trim" if one.id in _WITH_TRIM else _GROUP_OF_LEVEL[one.level]
    paired = one.id in _PAIRED or one.parent in _PAIRED or (one.parent == "saddle" and one.level == "cut")
    return Offer(one.id, one.name, group, one.parent, one.is_meat, paired and one.is_meat)


def offer_of(species: str, product: str) -> Offer | None:
    return next((one for one in offers(species) if one.id == product), None)


def product_of_part(part: str) -> str:
    """What a press on a part of the beast means."""
    return _PRODUCT_OF_PART.get(part, part)


def from_part(species: str, product: str) -> tuple[Offer, ...]:
    """A joint and the cuts that come from it."""
    return tuple(one for one in offers(species) if product in (one.id, one.parent))


def find(species: str, typed: str) -> tuple[tuple[Offer, ...], str]:
    """The products meant by typed words, best first, and the side if the last word is one (l, r, left...)."""
    words = typed.casefold().replace(",", " ").split()
    side = ""
    if len(words) > 1 and words[-1] in _SIDE_WORDS:
        side = _SIDE_WORDS[words.pop()]
    if not words:
        return (), side
    found = [one for one in offers(species) if _fits(one.name, words)]
    found.sort(key=lambda one: (not one.name.startswith(words[0]), one.name != " ".join(words)))
    return tuple(found), side


def _fits(name: str, words: Iterable[str]) -> bool:
    parts = name.casefold().replace(",", " ").split()
    return all(any(part.startswith(word) for part in parts) for word in words)


@dataclass(frozen=True, slots=True)
class Weighed:
    """What of the beast is weighed on one side: parts taken whole, and parts of which only cuts are."""

    whole: frozenset[str]
    cut: frozenset[str]


def weighed_parts(species: str, names: Iterable[str]) -> dict[str, Weighed]:
    """From the names of trays ('haunch, left'), the parts filled on the left and on the right."""
    whole: dict[str, set[str]] = {"left": set(), "right": set()}
    cut: dict[str, set[str]] = {"left": set(), "right": set()}
    by_name = {one.name: one for one in offers(species)}
    for name in names:
        one, side = _read_name(by_name, name)
        if one is None or not one.is_meat:
            continue
        sides = (side,) if side else ("left", "right")
        parts = _PARTS_OF.get(one.id, (one.id,))
        if one.id in PARTS or one.id in _PARTS_OF:
            target = whole
        elif one.parent in PARTS and one.id not in _FROM_ANYWHERE:
            target, parts = cut, (one.parent,)
        else:
            continue
        for which in sides:
            target[which].update(parts)
    return {side: Weighed(frozenset(whole[side]), frozenset(cut[side])) for side in ("left", "right")}


def _read_name(by_name: dict[str, Offer], name: str) -> tuple[Offer | None, str]:
    if name in by_name:
        one = by_name[name]
        return one, {"left-side": "left", "right-side": "right"}.get(one.id, "")
    start, _, side = name.rpartition(", ")
    return (by_name.get(start), side) if side in ("left", "right") else (None, "")
