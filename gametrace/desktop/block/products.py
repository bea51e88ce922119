"""What the block offers of one kind of animal: grouped, laid on the beast, found by typing.

The list is the kitchen's cut tree and the facts' by-products; nothing is decided here about meat.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from gametrace.facts.cut_tree import CARCASS, SIDES, Cut, tree_for
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
SIDE_CHOICES = (("left", "Left"), ("", "Neither"), ("right", "Right"))
_SIDE_WORDS = {"l": "left", "left": "left", "r": "right", "right": "right"}
_STATE_WORDS = frozenset({"boneless", "diced", "minced", "cured", "cooked"})

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
_WHOLE_SIDES = {"left-side": "left", "right-side": "right"}


@dataclass(frozen=True, slots=True)
class Offer:
    """One product as the page offers it."""

    id: str
    name: str
    group: str
    parent: str
    is_meat: bool
    is_paired: bool
    synonyms: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Weighed:
    """What of the beast is weighed on one side: parts taken whole, and parts of which only cuts are."""

    whole: frozenset[str]
    cut: frozenset[str]


@dataclass(frozen=True, slots=True)
class Found:
    """What typed words mean: products, best first, and the side and state if the last words are those."""

    offers: tuple[Offer, ...] = ()
    side: str = ""
    state: str = ""


@dataclass(frozen=True, slots=True)
class Catalogue:
    """Everything that may come off one lot."""

    offers: tuple[Offer, ...] = ()

    def get(self, product: str) -> Offer | None:
        return next((one for one in self.offers if one.id == product), None)

    def group(self, group: str) -> tuple[Offer, ...]:
        return tuple(one for one in self.offers if one.group == group)

    def of_a_part(self) -> Catalogue:
        """What comes off a part: no whole side of the beast any more."""
        return Catalogue(tuple(one for one in self.offers if one.id not in _WHOLE_SIDES))

    def with_parts(self, product: str) -> tuple[Offer, ...]:
        """A joint and the cuts that come from it."""
        return tuple(one for one in self.offers if product in (one.id, one.parent))

    def find(self, typed: str) -> Found:
        """By the start of any word of a name or of another name for it; 'haunch l boneless'."""
        words = typed.casefold().replace(",", " ").split()
        side = state = ""
        if len(words) > 1 and words[-1] in _STATE_WORDS:
            state = words.pop()
        if len(words) > 1 and words[-1] in _SIDE_WORDS:
            side = _SIDE_WORDS[words.pop()]
        if not words:
            return Found((), side, state)
        ranked = [(rank, one) for one in self.offers if (rank := _rank(one, words)) is not None]
        ranked.sort(key=lambda pair: pair[0])
        return Found(tuple(one for _, one in ranked), side, state)

    def weighed(self, trays: Iterable[tuple[str, str]]) -> dict[str, Weighed]:
        """From trays as (product, side), the parts filled on the left and on the right."""
        whole: dict[str, set[str]] = {side: set() for side in SIDES}
        cut: dict[str, set[str]] = {side: set() for side in SIDES}
        for product, side in trays:
            one = self.get(product)
            if one is None or not one.is_meat:
                continue
            side = side or _WHOLE_SIDES.get(product, "")
            parts = _PARTS_OF.get(one.id, (one.id,))
            if one.id in PARTS or one.id in _PARTS_OF:
                target = whole
            elif one.parent in PARTS and one.id not in _FROM_ANYWHERE:
                target, parts = cut, (one.parent,)
            else:
                continue
            for which in (side,) if side else SIDES:
                target[which].update(parts)
        return {side: Weighed(frozenset(whole[side]), frozenset(cut[side])) for side in SIDES}


def _rank(one: Offer, words: list[str]) -> tuple[int, ...] | None:
    """Lower is nearer: the name itself, its start, its words, another name; None where it is not meant."""
    name, said = one.name.casefold(), " ".join(words)
    if _fits(name, words):
        return (0, int(not name.startswith(words[0])), int(name != said))
    fitting = [word for word in one.synonyms if _fits(word, words)]
    return (1, int(said not in fitting), 0) if fitting else None


def _fits(name: str, words: Iterable[str]) -> bool:
    parts = name.casefold().replace(",", " ").replace("-", " ").split()
    return all(any(part.startswith(word) for part in parts) for word in words)


def product_of_part(part: str) -> str:
    """What a press on a part of the beast means."""
    return _PRODUCT_OF_PART.get(part, part)


@cache
def catalogue(species: str, tree: Cut | None = None) -> Catalogue:
    """What may come off an animal of this species, by the kitchen's tree; of every species where it is ''."""
    if not species:
        return Catalogue(tuple(_offer(one, {}, {}) for one in products()))
    tree = tree or tree_for(species)
    cuts = {one.id: one for one in tree.walk()}
    parents = dict(_parents(tree))
    held = products(species_called(species).group)
    return Catalogue(tuple(_offer(one, cuts, parents) for one in held if not one.is_meat or one.id in cuts))


def _parents(cut: Cut) -> Iterable[tuple[str, str]]:
    """(part, what it is cut from); a whole side is no joint of its parts."""
    for part in cut.parts:
        if cut.id != CARCASS and cut.id not in _WHOLE_SIDES:
            yield part.id, cut.id
        yield from _parents(part)


def _offer(one: Product, cuts: Mapping[str, Cut], parents: Mapping[str, str]) -> Offer:
    cut = cuts.get(one.id)
    return Offer(
        id=one.id,
        name=cut.name if cut else one.name,
        group="trim" if one.id in _WITH_TRIM else _GROUP_OF_LEVEL[one.level],
        parent=parents.get(one.id, "") if cuts else one.parent,
        is_meat=one.is_meat,
        is_paired=bool(cut and cut.paired),
        synonyms=cut.synonyms if cut else (),
    )
