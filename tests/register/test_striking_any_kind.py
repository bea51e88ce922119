"""Every kind of entry is undone, replaced by its own kind, or says why it stays; none is forgotten."""

from __future__ import annotations

import pytest
from history_model import standing
from larder_house import House
from slips import Slips, last, strike

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.staying import STAYS
from gametrace.register.undoing import UNDO
from gametrace.store.projection import KINDS


def test_no_kind_is_forgotten_and_none_is_both_struck_and_kept() -> None:
    assert set(UNDO) | set(STAYS) == KINDS
    assert not set(UNDO) & set(STAYS)


@pytest.mark.parametrize("kind", sorted(UNDO))
def test_a_slip_of_any_kind_is_struck_and_everything_stands_as_it_stood(house: House, kind: str) -> None:
    slips = Slips(house)
    before, codes = standing(house.reg), last(house)
    slips.do(kind)
    assert last(house) == codes + 1
    assert questions.strikable_of(house.reg, [kind])[0].seq == last(house)
    assert standing(house.reg) != before
    strike(house, last(house))
    assert standing(house.reg) == before
    assert questions.check(house.reg) == ()
    acts.rebuild(house.reg)
    assert standing(house.reg) == before
    sentences = [str(group) for group in questions.day_page(house.reg).groups]
    assert f"[entry {codes + 1}, struck]" in "".join(sentences)  # both are told, the slip and the striking


@pytest.mark.parametrize("kind", sorted(STAYS))
def test_what_stays_says_what_is_done_in_place_of_striking(kind: str) -> None:
    assert STAYS[kind].endswith(".")


def test_of_two_servings_the_wrong_one_is_struck_and_its_portions_are_here_again(house: House) -> None:
    slips = Slips(house)
    slips.dish_served()
    wrong = last(house)
    acts.serve_dish(house.reg, by=house.student, code=slips.dish, portions=8)
    strike(house, wrong)
    file = questions.dish_file(house.reg, slips.dish)
    assert [one.portions for one in file.servings] == [8]
    assert file.here == 4


def test_a_freezing_is_not_struck_once_it_was_thawed_or_used(house: House) -> None:
    slips = Slips(house)
    slips.lot_frozen()
    frozen = last(house)
    acts.thaw_lot(house.reg, by=house.student, code=slips.pack, method="fridge", place="C1.S1")
    with pytest.raises(Refusal, match=r"rests on it: .* thawed"):
        strike(house, frozen)
    strike(house, last(house))
    strike(house, frozen)
    assert questions.lot(house.reg, slips.pack).pack_state == "vacuum"


def test_striking_is_no_way_round_a_tutors_own_date(house: House) -> None:
    Slips(house).date_overridden()
    with pytest.raises(Refusal, match="technician may not write this"):
        strike(house, last(house), by=house.technician)


def test_an_earlier_look_stands_again_and_a_later_one_is_struck_first(house: House) -> None:
    slips = Slips(house)
    slips.carcass_examined()
    first = last(house)
    house.look(slips.beast, ("flies", "not so"))
    with pytest.raises(Refusal, match="rests on it"):
        strike(house, first)
    strike(house, last(house))
    strike(house, first)
    assert [(one.point, one.answer) for one in questions.animal_file(house.reg, slips.beast).looks] == [
        ("smell", "as it should be")
    ]
    assert questions.lot(house.reg, slips.beast).state == "hanging"


def test_a_look_that_stopped_the_animal_is_struck_by_another_person(house: House) -> None:
    slips = Slips(house)
    house.look(slips.beast, ("prescapular", "not so", "pus"), by=house.technician)
    with pytest.raises(Refusal, match="another person strikes it"):
        strike(house, last(house), by=house.technician)
    strike(house, last(house))


def test_a_record_that_keeps_a_dish_back_is_struck_by_another_person(house: House) -> None:
    slips = Slips(house)
    acts.record_hot_hold(house.reg, by=house.technician, code=slips.dish, tenths_c=400, minutes_below=300)
    with pytest.raises(Refusal, match="another person strikes it"):
        strike(house, last(house), by=house.technician)
    strike(house, last(house))
    acts.serve_dish(house.reg, by=house.student, code=slips.dish, portions=1)


def test_a_cooling_record_stays_while_a_left_over_rests_on_it(house: House) -> None:
    slips = Slips(house)
    slips.kitchen_recorded()
    cooled = last(house)
    acts.keep_left_over(house.reg, by=house.student, code=slips.dish, portions=2)
    with pytest.raises(Refusal, match=r"2 portions of .* left over"):
        strike(house, cooled)


def test_a_result_of_the_wrong_boar_is_struck_and_it_waits_again_with_all_made_of_it(house: House) -> None:
    slips = Slips(house)
    house.answer_lab(slips.boar, "negative")
    answered = last(house)
    house.dress(slips.boar)
    trim = house.trim(slips.boar)
    strike(house, answered)
    assert house.state(slips.boar) == house.state(trim) == "on hold"
    house.answer_lab(slips.boar, "negative")
    assert house.state(trim) != "on hold"


def test_a_positive_result_typed_for_another_boar_is_unlocked_by_a_second_person_only(house: House) -> None:
    slips = Slips(house)
    house.answer_lab(slips.boar, "positive", by=house.technician)
    with pytest.raises(Refusal, match="another person strikes it"):
        strike(house, last(house), by=house.technician)
    strike(house, last(house))
    assert house.state(slips.boar) == "on hold"


def test_the_number_of_a_struck_claim_is_never_given_out_again(house: House) -> None:
    slips = Slips(house)
    slips.claim_raised()
    struck = last(house)
    strike(house, struck)
    assert [one.id for one in questions.open_claims(house.reg)] == [slips.claim]
    with pytest.raises(Refusal, match="no claim number 2"):
        acts.settle_claim(house.reg, by=house.tutor, claim=2, status="refused")
    assert int(slips.a_claim().code) == 3  # type: ignore[attr-defined]


def test_a_delivery_typed_twice_is_struck_with_everything_that_was_said_of_it(house: House) -> None:
    slips = Slips(house)
    before = standing(house.reg)
    twice = house.receive(kill_time="")
    received = last(house)
    changes = {"kill_time": "07:10", "species": "red", "age_class": ""}
    acts.amend_carcass(house.reg, by=house.student, code=twice, changes=changes, reason="misread")
    acts.correct_weight(house.reg, by=house.technician, code=twice, grams=41_000, reason="misread")
    said = last(house)
    acts.attach_picture(house.reg, by=house.student, code=twice, what="tag", content=b"\xff\xd8\xff one")
    acts.tick_expected(house.reg, by=house.student, expected=slips.expected, code=twice)
    with pytest.raises(Refusal, match=r"picture of the tag .*came as expected"):
        strike(house, received)
    for seq in range(last(house), said, -1):
        strike(house, seq)
    strike(house, received)
    assert standing(house.reg) == before


def test_a_dish_that_was_put_right_gives_back_what_is_in_it_now(house: House) -> None:
    slips = Slips(house)
    before = standing(house.reg)
    dish = house.dish((slips.trim, 300))
    made = last(house)
    acts.change_dish(
        house.reg, by=house.student, code=dish, not_used=[(slips.trim, 100)], added=[(slips.pack, 50)],
        reason="less went in",
    )  # fmt: skip
    strike(house, made)
    assert standing(house.reg) == before


def test_a_collection_struck_waits_for_the_collector_again_and_a_struck_tray_does_not(house: House) -> None:
    slips = Slips(house)
    slips.by_products_collected()
    strike(house, last(house))
    assert [one.document_number for one in questions.bins(house.reg) if one.code == slips.bone] == [""]
    house.out(slips.carcass, acts.Out("bone", 500))
    strike(house, last(house))
    with house.reg.store.reading() as connection:
        waiting = connection.exec_driver_sql("SELECT COUNT(*) FROM bin_waiting").scalar_one()
    assert waiting == 1


@pytest.mark.parametrize("part", [5_000, None])
def test_a_weight_put_right_goes_with_the_tray_that_never_was(house: House, part: int | None) -> None:
    """Also where the lot above was used up by it, so that the grams came from what nobody weighed."""
    slips = Slips(house)
    before = standing(house.reg)
    tray = house.trim(slips.carcass, part or house.left(slips.carcass))
    cut = last(house)
    acts.correct_weight(house.reg, by=house.tutor, code=tray, grams=4_800, reason="misread")
    strike(house, cut)
    assert standing(house.reg) == before
    mix = house.mix((slips.trim, None))
    mixed = last(house)
    acts.correct_weight(house.reg, by=house.tutor, code=mix, grams=480, reason="misread")
    strike(house, mixed)
    assert standing(house.reg) == before


def test_an_officer_sees_what_was_struck_among_the_corrections_with_its_reason(house: House) -> None:
    slips = Slips(house)
    slips.round_taken()
    slips.delivery_received()
    for seq in (last(house), last(house) - 1):
        strike(house, seq)
    day = house.reg.today()
    told = [
        (one.old, one.new, one.reason)
        for one in questions.visit_sheet(house.reg, first=day, last=day).amendments
    ]
    assert ("Round of the stores: Chill 9.9 °C", "struck: it does not count", "a slip") in told
    assert any("received" in old for old, _, _ in told)
    found = " ".join(one.sentence for one in questions.readiness(house.reg))
    assert "Struck, so it does not count: Round of the stores: Chill 9.9 °C." in found
