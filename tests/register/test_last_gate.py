"""The last gate on every road the register has, one test a road and a reason.

Roads of the window (scan, search, button) are in tests/desktop/pass_; here are those without one: the acts
that a script or an import calls, live or written down later, for a dish, the night, a class, a business.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest
from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions

Stopped = Callable[[House], tuple[str, str]]  # a lot and the words it is refused with


def _held(house: House) -> tuple[str, str]:
    pack = house.pack(house.dressed())
    house.hold(pack, reason="bag has blown")
    return pack, "bag has blown"


def _rejected(house: House) -> tuple[str, str]:
    animal = house.dressed()
    pack = house.pack(animal)
    acts.decide_again(
        house.reg, by=house.tutor, code=animal, decision=Decision.REJECT, reason="green at the bone"
    )
    return pack, "rejected"


def _specimen(house: House) -> tuple[str, str]:
    animal = house.held(Decision.SPECIMEN, basis=house_basis())
    return house.pack(animal), "teaching specimen"


def house_basis():
    from larder_house import DRESSED

    return DRESSED


def _past(house: House) -> tuple[str, str]:
    pack = house.pack(house.dressed())
    house.clock.go(days=4)
    return pack, "past its date"


def _boar(house: House) -> tuple[str, str]:
    return house.boar(count=1), "waiting for the laboratory"


REASONS = [_held, _rejected, _specimen, _past, _boar]


def _script(house: House, code: str) -> None:
    house.dish((code, None))


def _import(house: House, code: str) -> None:
    """As an import writes: at the time it happened, under a key of its own."""
    acts.make_dish(
        house.reg,
        by=house.tutor,
        name="Ragout",
        occasion="Lunch",
        on=date(2026, 11, 12),
        portions=4,
        inputs=[(code, None)],
        happened_at=house.clock.now - timedelta(minutes=1),
        key="row 7 of the old sheet",
    )


def _night(house: House, code: str) -> None:
    clean = house.pack(house.dressed(), 500)
    dish = house.dish((clean, None))
    acts.change_dish(house.reg, by=house.tutor, code=dish, added=[(code, None)], reason="ran short")


def _mix(house: House, code: str) -> None:
    house.mix((code, None))


def _class(house: House, code: str) -> None:
    acts.issue_lot(house.reg, by=house.tutor, inputs=[(code, None)], charged_to="L2", on=house.reg.today())


def _business(house: House, code: str) -> None:
    to = acts.add_customer(house.reg, by=house.tutor, name="Inn", address="Quay 4").code
    acts.supply_lot(
        house.reg, by=house.tutor, customer=to, inputs=[(code, None)], dispatched_on=house.reg.today()
    )


def _green_light(house: House, code: str) -> None:
    questions.check_for_plate(house.reg, code)


ROADS = [_script, _import, _night, _mix, _class, _business, _green_light]


@pytest.mark.parametrize("reason", REASONS)
@pytest.mark.parametrize("road", ROADS)
def test_what_may_not_go_to_a_plate_is_refused_on_every_road_with_its_reason(
    house: House, road: Callable[[House, str], None], reason: Stopped
) -> None:
    code, words = reason(house)
    before = house.left(code)
    with pytest.raises(Refusal, match=words) as refused:
        road(house, code)
    assert refused.value.what_to_do
    assert house.left(code) == before


def test_no_word_of_the_command_line_makes_a_dish() -> None:
    """Headless has no road of its own: a script uses the acts tested above."""
    from gametrace.headless.commands import _COMMANDS

    assert set(_COMMANDS) & {"dish", "make", "serve", "issue", "supply", "import"} == set()


# -- the species is not what the menu says ----------------------------------------------------------------


@pytest.fixture
def packs(house: House) -> dict[str, str]:
    roe = house.dressed(species="roe", age_class="doe", grams=16_000)
    return {"fallow": house.pack(house.dressed()), "roe": house.pack(roe)}


@pytest.mark.parametrize(
    ("name", "species", "words"),
    [
        ("Roe haunch with quince", "fallow", "fallow .100.0 % of the meat"),
        ("Fallow pie", "roe", "is roe"),
        ("Pheasant and rabbit terrine", "roe", "is roe"),
    ],
)
def test_a_dish_that_names_another_animal_is_not_made(
    house: House, packs: dict[str, str], name: str, species: str, words: str
) -> None:
    with pytest.raises(Refusal, match=words):
        house.dish((packs[species], None), name=name)
    assert house.left(packs[species]) == 500


@pytest.mark.parametrize(
    "name", ["Roe and fallow pie", "Venison ragout", "Game pie", "Red wine stew with cod roe", "Ragout"]
)
def test_a_name_that_is_true_or_says_nothing_of_species_is_let_through(
    house: House, packs: dict[str, str], name: str
) -> None:
    assert house.dish((packs["roe"], 200), (packs["fallow"], 200), name=name)


def test_a_contradicted_claim_of_the_menu_stops_the_dish_and_the_night(
    house: House, packs: dict[str, str]
) -> None:
    claim = [acts.Claim("species", "roe")]
    with pytest.raises(Refusal, match="contradict the menu"):
        house.dish((packs["fallow"], 100), claims=claim)
    dish = house.dish((packs["roe"], 300), claims=claim)
    with pytest.raises(Refusal, match="contradict the menu"):
        acts.change_dish(
            house.reg, by=house.tutor, code=dish, added=[(packs["fallow"], 100)], reason="ran short"
        )


def test_venison_of_a_boar_is_refused(house: House) -> None:
    boar = house.boar(basis=house_basis())
    house.answer_lab(boar, "negative")
    with pytest.raises(Refusal, match="wild boar"):
        house.dish((house.pack(boar), None), name="Venison stew")
