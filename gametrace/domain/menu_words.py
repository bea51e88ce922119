"""What the name of a dish says of the animals in it: the name is the first thing a menu claims.

Only words that cannot well mean anything else count; 'game' and 'ragout' claim nothing. It reads the name
and judges no record's truth: an animal in the pot that the name leaves out is for the last gate.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from gametrace.domain.menu_claims import VENISON, AnimalInPot
from gametrace.facts.species import species as species_called

# A word as menus write it, and the species it names. Common practice, no source. 'Red' alone is the wine,
# and the roe of a fish is no deer.
_NAMED: tuple[tuple[str, tuple[str, ...]], ...] = (
    (r"red[- ]sika", ("red-sika-hybrid",)),
    (r"red (?:deer|venison|stag|hind)", ("red",)),
    (r"(?<!red )(?<!red-)sika", ("sika",)),
    (r"fallow", ("fallow",)),
    (r"(?<!cod )(?<!fish )(?<!trout )(?<!salmon )(?<!herring )roe(?! of (?:cod|trout|fish))", ("roe",)),
    (r"muntjac", ("muntjac",)),
    (r"chinese water deer", ("chinese-water-deer",)),
    (r"boar", ("wild-boar",)),
    (r"pheasant", ("pheasant",)),
    (r"partridge", ("grey-partridge", "red-legged-partridge")),
    (r"grouse", ("red-grouse", "black-grouse")),
    (r"ptarmigan", ("ptarmigan",)),
    (r"mallard", ("mallard",)),
    (r"woodcock", ("woodcock",)),
    (r"snipe", ("snipe",)),
    (r"(?:wood ?)?pigeon", ("woodpigeon",)),
    (r"rabbit", ("rabbit",)),
    (r"hare", ("brown-hare", "mountain-hare")),
)


def species_named(name: str) -> frozenset[str]:
    """The species a dish's name claims, and 'venison' where it says so; empty where it claims none."""
    plain = " ".join(name.casefold().split())
    found = {
        species for word, named in _NAMED if re.search(rf"\b{word}(?:s|es)?\b", plain) for species in named
    }
    return frozenset(found | ({VENISON} if re.search(rf"\b{VENISON}\b", plain) else set()))


def not_named(name: str, animals: Sequence[AnimalInPot]) -> tuple[AnimalInPot, ...]:
    """The animals in the pot that the name leaves out, where it names any. 'Venison' covers every deer,
    unless the name goes on to say which."""
    named = species_named(name)
    if not named:
        return ()
    says_which_deer = any(species_called(one).deer for one in named - {VENISON})
    any_deer = VENISON in named and not says_which_deer
    return tuple(
        animal
        for animal in animals
        if animal.share
        and animal.species
        and animal.species not in named
        and not (any_deer and species_called(animal.species).deer)
    )
