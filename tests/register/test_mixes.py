"""Mixed lots: what goes in besides meat, what is handed on from the parents, and whose meat it is."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.acts import Other

RUSK = Other("rusk", 150, lot="R 88", supplier="Mill Row", allergens=["gluten"], use_by=date(2027, 6, 1))
SALT = Other("salt", 50, lot="none on the packet", allergens=[])


def trims(house: House, *grams: int) -> list[str]:
    return [house.trim(house.dressed(), weight) for weight in grams]


def test_sausage_weighs_what_went_in_and_its_meat_is_shared_by_the_meat_alone(house: House) -> None:
    one, two = trims(house, 1_200, 600)
    code = house.mix((one, None), (two, None), product="sausage-meat", others=[RUSK, SALT])
    lot = questions.lot(house.reg, code)
    assert (lot.grams, lot.grams_made) == (2_000, 2_000)
    animals = questions.trace(house.reg, code).animals
    assert [(one.share, one.grams) for one in animals] == [(Fraction(2, 3), 1_200), (Fraction(1, 3), 600)]
    assert questions.check(house.reg) == ()


def test_rusk_is_no_animal_in_what_is_made_of_the_sausage_and_the_animals_balance_stays_exact(
    house: House,
) -> None:
    one, two = trims(house, 1_200, 600)
    sausage = house.mix((one, None), (two, None), product="sausage-meat", others=[RUSK, SALT], grams=1_900)
    pack = house.pack(sausage, 950, "sausage-meat")
    animals = questions.trace(house.reg, pack).animals
    assert sum(one.share for one in animals) == 1
    assert sum(one.grams for one in animals) == 855  # nine tenths of 950 are meat
    carcass = animals[0].code
    balance = questions.trace(house.reg, carcass).balance
    assert balance is not None
    assert sum(row.grams for row in balance.rows) == balance.received_grams == 40_000
    reached = {lot.code: lot.grams_from for lot in questions.trace(house.reg, carcass).forward}
    assert reached[sausage] == 1_200
    assert reached[pack] == 570


def test_two_mixes_of_unlike_meat_share_by_the_meat_in_each(house: House) -> None:
    one, two = trims(house, 500, 1_000)
    half = house.mix((one, None), product="sausage-meat", others=[Other("rusk", 500, allergens=["gluten"])])
    whole = house.mix((half, None), (two, None), product="sausage-meat")
    animals = questions.trace(house.reg, whole).animals
    assert [(one.share, one.grams) for one in animals] == [(Fraction(2, 3), 1_000), (Fraction(1, 3), 500)]


def test_a_left_over_of_yesterday_goes_into_todays_mince_with_its_animals_and_its_date(house: House) -> None:
    (old,) = trims(house, 1_000)
    left = house.mix((old, None))
    house.dish((left, 700))
    house.clock.go(days=1)
    (new,) = trims(house, 2_000)
    today = questions.lot(house.reg, house.mix((left, None), (new, None)))
    assert today.grams == 2_300
    assert today.use_by == date(2026, 11, 13)  # the left-over's day, not the new mince's
    assert today.date_rule == "the earliest date of what went in"
    assert len(questions.trace(house.reg, today.code).animals) == 2


def test_an_ingredient_that_ends_first_ends_the_mix(house: House) -> None:
    (trim,) = trims(house, 1_000)
    cream = Other("cream", 100, lot="C1", allergens=["milk"], use_by=date(2026, 11, 12))
    lot = questions.lot(house.reg, house.mix((trim, None), product="dice", others=[cream]))
    assert lot.use_by == date(2026, 11, 12)


def test_an_ingredient_past_its_day_is_refused_and_nothing_is_made(house: House) -> None:
    (trim,) = trims(house, 1_000)
    with pytest.raises(Refusal, match="its last day was 11 November 2026") as refused:
        house.mix((trim, None), others=[Other("cream", 100, lot="C1", use_by=date(2026, 11, 11))])
    assert refused.value.field == "others"
    assert house.left(trim) == 1_000


@pytest.mark.parametrize(
    ("other", "words"),
    [
        (Other("", 100), "needs a name"),
        (Other("salt", 0), "needs a weight"),
        (Other("salt", -3), "needs a weight"),
        (Other("salt", 10**9), "needs a weight"),
        (Other("salt", 10, allergens=["wool"]), "wool"),
    ],
)
def test_an_ingredient_that_cannot_be_is_refused_in_a_sentence(
    house: House, other: Other, words: str
) -> None:
    (trim,) = trims(house, 1_000)
    with pytest.raises(Refusal, match=words):
        house.mix((trim, None), others=[other])


def test_what_was_not_copied_from_a_packet_is_asked_after_and_stays_not_known(house: House) -> None:
    (trim,) = trims(house, 1_000)
    changes = acts.make_mix(
        house.reg, by=house.student, product="sausage-meat", inputs=[(trim, None)], others=[Other("rusk", 90)]
    )
    assert {found.code for found in changes.findings} == {"ingredient-no-lot", "allergens-not-stated"}
    (sheet,) = questions.label_sheets(house.reg, [changes.code])
    assert "Not known for: rusk." in sheet.lines


def test_allergens_go_on_to_the_pack_and_its_label(house: House) -> None:
    (trim,) = trims(house, 1_000)
    sausage = house.mix((trim, None), product="sausage-meat", others=[RUSK, SALT])
    pack = house.pack(sausage, 400, "sausage-meat")
    assert [(one.name, one.lot) for one in questions.ingredients(house.reg, pack)] == [
        ("rusk", "R 88"), ("salt", "none on the packet"),
    ]  # fmt: skip
    (sheet,) = questions.label_sheets(house.reg, [pack])
    assert "Contains: cereals containing gluten." in sheet.lines
    (made,) = [lot for lot in questions.trace(house.reg, pack).back if lot.code == sausage]
    assert made.detail == "with 0.150 kg of rusk (lot R 88), 0.050 kg of salt (lot none on the packet)"
    assert any("0.150 kg of rusk" in line.sentence for line in questions.story(house.reg, sausage))


@pytest.mark.parametrize("decision", [Decision.HOLD, Decision.SPECIMEN])
def test_the_worst_of_the_parents_keeps_the_whole_mix_off_the_plate(house: House, decision: Decision) -> None:
    (good,) = trims(house, 1_000)
    bad = house.dressed()
    tray = house.trim(bad, 500)
    if decision is Decision.HOLD:
        house.hold(bad)
    else:
        specimen = house.held(decision, basis=house.delivery().basis)
        tray = specimen
    with pytest.raises(Refusal):
        house.mix((good, None), (tray, 500))


def test_a_hold_on_one_animal_reaches_the_mix_it_went_into(house: House) -> None:
    carcass = house.dressed()
    mix = house.mix((house.trim(carcass), None), (trims(house, 700)[0], None))
    house.hold(carcass)
    assert house.state(mix) == "on hold"


def test_mince_frozen_trim_and_mince_of_thawed_trim_are_told_apart(house: House) -> None:
    (trim,) = trims(house, 2_000)
    acts.freeze_lot(house.reg, by=house.student, code=trim)
    with pytest.raises(Refusal, match="still frozen"):
        house.mix((trim, None))
    house.clock.go(days=40)
    acts.thaw_lot(house.reg, by=house.student, code=trim, method="fridge")
    (fresh,) = trims(house, 500)
    mix = questions.lot(house.reg, house.mix((trim, None), (fresh, None)))
    assert (mix.first_frozen_on, mix.thawed_on) == (date(2026, 11, 12), date(2026, 12, 22))
    assert mix.use_by == date(2026, 12, 23)
    with pytest.raises(Refusal, match="not frozen again raw"):
        acts.freeze_lot(house.reg, by=house.student, code=mix.code)
    with pytest.raises(Refusal, match="not frozen again raw"):
        house.pack(mix.code, 300, "mince", pack_state="frozen")


@pytest.mark.parametrize("product", ["mince", "dice", "sausage-meat", "cured", "stock"])
def test_each_of_the_five_mixes_is_made_and_packed(house: House, product: str) -> None:
    (trim,) = trims(house, 1_000)
    mix = house.mix((trim, None), product=product, others=[SALT])
    packs = acts.pack_many(house.reg, by=house.student, code=mix, count=3).created
    assert sorted(house.left(pack) for pack in packs) == [350, 350, 350]
    assert house.left(mix) == 0
