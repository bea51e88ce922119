"""The animals in a pot with their exact shares, and whether the menu's words may stand over them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lineage import shares_of
from gametrace.domain.menu_claims import AnimalInPot, Answer, Claim, ClaimRuling, judge_claim, lead_findings
from gametrace.domain.menu_line import menu_line
from gametrace.domain.menu_words import not_named
from gametrace.domain.yields import percent_text
from gametrace.facts.loading import UnknownFact
from gametrace.facts.menu import CLAIMS
from gametrace.facts.species import species as species_called
from gametrace.register.clock import instant, wall_day
from gametrace.register.lot_facts import lot_facts
from gametrace.register.opening import Register
from gametrace.register.plate_records import MenuCheck
from gametrace.store import look_carcasses, look_lots, look_plates
from gametrace.store.engine import Connection
from gametrace.store.lineage import edges_above

_MOST_DAYS = 60  # nothing hangs longer; common practice, no source


def pot_of(connection: Connection, inputs: Sequence[tuple[int, int]]) -> tuple[AnimalInPot, ...]:
    """Every animal behind these lots (lot, grams), with its exact share; the shares sum to 1."""
    total = sum(grams for _, grams in inputs)
    if not total:
        return ()
    edges = edges_above(connection, [lot for lot, _ in inputs])
    shares: dict[int, Fraction] = {}
    for lot, grams in inputs:
        for first, share in shares_of(edges, lot).items():
            shares[first] = shares.get(first, Fraction(0)) + share * Fraction(grams, total)
    papers = {row.lot_id: row for row in look_carcasses.carcass_rows(connection, shares)}
    cut = look_plates.first_cut(connection, shares)
    found = []
    for lot in sorted(shares):
        paper = papers.get(lot)
        if paper is None:
            found.append(AnimalInPot(code_of(lot), shares[lot]))
            continue
        found.append(
            AnimalInPot(
                number=code_of(lot),
                share=shares[lot],
                species=paper.species,
                origin=paper.origin,
                places=_places(paper.kill_place),
                ammunition=paper.ammunition,
                hung_days=_hung(paper.killed_on, cut.get(lot)),
            )
        )
    return tuple(found)


def _places(kill_place: str) -> tuple[str, ...]:
    """'Long Wood, Netherby' is both of them and each."""
    parts = [part.strip() for part in kill_place.split(",") if part.strip()]
    return tuple(dict.fromkeys([*([kill_place] if kill_place else []), *parts]))


def _hung(killed_on: str | None, cut_at: str | None) -> int | None:
    if not killed_on or not cut_at:
        return None
    return (wall_day(instant(cut_at)) - date.fromisoformat(killed_on)).days


def pot_of_lot(connection: Connection, lot: int) -> tuple[AnimalInPot, ...]:
    """The same for a lot as it was made: a dish by what went into it."""
    row = look_lots.lot_row(connection, lot)
    return pot_of(connection, [(lot, row.grams_in)]) if row is not None else ()


def checked_claims(claims: Sequence[Claim]) -> tuple[Claim, ...]:
    """Claims a menu can make, each once. Refuses one that no record could answer."""
    for claim in claims:
        if claim.kind not in CLAIMS:
            raise Refusal("The records cannot answer that claim.", "Choose one from the list.", "claims")
        if claim.kind == "species" and claim.value.strip().lower() != "venison":
            try:
                species_called(claim.value)
            except UnknownFact as error:
                raise Refusal(error.sentence, "Choose the species from the list.", "claims") from error
        if claim.kind == "place" and not claim.value.strip():
            raise Refusal("Which place does the menu name?", "Type it as the menu has it.", "place")
        if claim.kind == "hung":
            plain = claim.value.isascii() and claim.value.isdigit()
            if not plain or not 1 <= int(claim.value) <= _MOST_DAYS:
                raise Refusal("How many days does the menu say?", f"1 to {_MOST_DAYS}.", "hung")
    return tuple(dict.fromkeys(claims))


def menu_check(register: Register, code: str, claims: Sequence[Claim]) -> MenuCheck:
    """Each claim held against each animal in the pot: shown, not shown or contradicted, with shares.

    `code` is a dish, or any lot of meat before it becomes one. The line holds only what is shown.
    """
    wanted = checked_claims(claims)
    with register.store.reading() as connection:
        lot = lot_facts(connection, code, register.today())
        animals = pot_of_lot(connection, lot.id)
        named = not_named(lot.name, animals) if lot.kind == "dish" else ()
    said = menu_line(wanted, animals)
    rulings = tuple(judge_claim(claim, animals) for claim in wanted)
    return MenuCheck(animals, rulings, said.text, lead_findings(animals), named)


def claims_of(text: str) -> tuple[Claim, ...]:
    """Claims as a table keeps them."""
    return tuple(Claim(kind, value) for kind, value in json.loads(text))


def refuse_what_the_menu_denies(name: str, claims: Sequence[Claim], animals: Sequence[AnimalInPot]) -> None:
    """The last gate's word on the menu: an animal that the dish's name or a claim says is not there."""
    if left_out := not_named(name, animals):
        what = ", ".join(
            f"{one.number} is {species_called(one.species).name} ({percent_text(one.share)} of the meat)"
            for one in left_out
        )
        raise Refusal(
            f"“{name}” says otherwise: {what}.",
            "Take that meat out, or give the dish a name that is true.",
            "name",
        )
    for ruling in (judge_claim(claim, animals) for claim in claims):
        if ruling.verdict == Answer.CONTRADICTED:
            raise Refusal(_denied(ruling), "Take that meat out, or take the words off the menu.", "claims")


def _denied(ruling: ClaimRuling) -> str:
    return f"The records contradict the menu. {ruling.finding().sentence}"
