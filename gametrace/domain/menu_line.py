"""The line of a menu that the records will bear: the wanted words that are shown, and those left off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from gametrace.domain.menu_claims import VENISON, AnimalInPot, Answer, Claim, ClaimRuling, judge_claim
from gametrace.facts.species import species as species_called

GAME = "game"  # what is left to say when a species is not known, or the pot holds more than deer


@dataclass(frozen=True, slots=True)
class MenuLine:
    """The words that may be printed, the rulings they rest on, and the rulings of those left off."""

    text: str
    shown: tuple[ClaimRuling, ...]
    left_off: tuple[ClaimRuling, ...]


def menu_line(wanted: Sequence[Claim], animals: Sequence[AnimalInPot]) -> MenuLine:
    """'wild roe venison from Glen Example, hung 7 days, no lead shot': of this, only what is shown."""
    rulings = tuple(judge_claim(claim, animals) for claim in wanted)
    shown = tuple(one for one in rulings if one.verdict == Answer.SHOWN)
    left_off = tuple(one for one in rulings if one.verdict != Answer.SHOWN)
    said = {one.claim.kind: one.claim.value for one in shown}
    before = [kind for kind in ("wild", "farmed", "park") if kind in said]
    text = " ".join([*before, meat_words(animals, say_species="species" in said)])
    if "place" in said:
        text += f" from {' '.join(said['place'].split())}"
    if "hung" in said:
        days = int(said["hung"])
        text += f", hung {days} {'day' if days == 1 else 'days'}"
    if "no-lead" in said:
        text += ", no lead shot"
    return MenuLine(text, shown, left_off)


def meat_words(animals: Sequence[AnimalInPot], *, say_species: bool) -> str:
    """'roe venison' where the species was asked for and shown, else 'venison', another kind, or 'game'."""
    names = {animal.species for animal in animals if animal.share}
    if not names or "" in names:
        return GAME
    kinds = {species_called(name).id: species_called(name) for name in names}
    if all(kind.deer for kind in kinds.values()):
        return f"{next(iter(kinds.values())).name} {VENISON}" if say_species and len(kinds) == 1 else VENISON
    return next(iter(kinds.values())).name if len(kinds) == 1 else GAME
