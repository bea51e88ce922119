"""The animals a game larder meets, and the right word for each by sex and age.

It names and groups them. It does not identify a carcass, and it says nothing of seasons or weights.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gametrace.facts.loading import BadFact, checked_rows, one_of

GROUPS = ("large", "boar", "small")
SEXES = ("male", "female", "unknown")


@dataclass(frozen=True, slots=True)
class Species:
    """One kind of game. `males`, `females` and `young` are the word for one such animal: stag, hind, calf."""

    id: str
    name: str
    group: str
    males: str
    females: str
    young: str
    deer: bool
    synonyms: tuple[str, ...]
    source: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class AgeClass:
    """An age by its trade name. Not adult means: do not measure it against a grown animal's weight."""

    id: str
    name: str
    adult: bool = True
    source: str = ""
    status: str = ""
    note: str = ""


@cache
def all_species() -> tuple[Species, ...]:
    """Every species, deer first, in the order a person would look for them."""
    held = tuple(
        Species(
            id=row["id"],
            name=row["name"],
            group=row["group"],
            males=row["male"],
            females=row["female"],
            young=row["young"],
            deer=row["deer"],
            synonyms=tuple(row["synonyms"]),
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("species", "species")
    )
    for one in held:
        if one.group not in GROUPS:
            raise BadFact(f"species.toml: '{one.id}' has the group '{one.group}'.")
    return held


@cache
def _by_name() -> dict[str, Species]:
    names: dict[str, Species] = {}
    for one in all_species():
        for name in (one.id, *one.synonyms):
            if name in names:
                raise BadFact(f"species.toml: the name '{name}' is used twice.")
            names[name] = one
    return names


def species(species_id: str) -> Species:
    """The species with this id or synonym; `UnknownFact` with the list of ids if there is none."""
    plain = species_id.strip().lower().replace(" ", "-").replace("_", "-")
    held = _by_name().get(plain)
    if held is None:
        raise one_of("species", species_id, tuple(one.id for one in all_species()))
    return held


def check_sex(sex: str) -> str:
    """The sex, if it is a word the facts know."""
    if sex not in SEXES:
        raise one_of("sex", sex, SEXES)
    return sex


@cache
def age_classes(species_id: str, sex: str) -> tuple[AgeClass, ...]:
    """The age classes of a species and sex, youngest first; for sex unknown, those of both."""
    wanted = species(species_id).id
    check_sex(sex)
    rows = (row for row in checked_rows("species", "age_class") if wanted in row["species"])
    return tuple(
        AgeClass(row["id"], row["name"], row["adult"], row["source"], row["status"], row["note"])
        for row in rows
        if sex == "unknown" or row["sex"] in ("both", sex)
    )
