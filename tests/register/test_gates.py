"""What may not reach a plate does not, whichever way is tried, and the reason is said."""

from datetime import date, timedelta
from typing import Any

import pytest
from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions


def refused_everywhere(house: House, code: str, words: str, grams: int | None = None) -> None:
    """No dish, no mix and no green light at the pass; each refusal has the words, and nothing is written."""
    before = questions.seal(house.reg)
    for attempt in (
        lambda: house.dish((code, grams)),
        lambda: house.mix((code, grams)),
        lambda: questions.check_for_plate(house.reg, code, grams),
    ):
        with pytest.raises(Refusal, match=words) as refused:
            attempt()
        assert refused.value.what_to_do
    assert questions.seal(house.reg) == before


def test_a_pack_in_order_goes_to_a_plate(house: House) -> None:
    pack = house.pack(house.dressed())
    assert questions.check_for_plate(house.reg, pack, 500).code == pack
    dish = house.dish((pack, None))
    assert questions.lot(house.reg, dish).portions == 12
    assert house.state(pack) == "spent"


def test_a_held_pack_is_refused_with_the_reason_of_the_hold(house: House) -> None:
    pack = house.pack(house.dressed())
    house.hold(pack, reason="bag has blown")
    refused_everywhere(house, pack, "on hold: bag has blown")


def test_a_hold_on_a_carcass_reaches_its_packs_their_mixes_and_what_is_made_of_those_later(
    house: House,
) -> None:
    deer, other = house.dressed(), house.dressed()
    pack, trim, clean = house.pack(deer), house.trim(deer, 900), house.trim(other, 900)
    mince = house.mix((trim, 400), (clean, 400))
    second = house.mix((mince, 100), (clean, 100), product="sausage-meat")
    hold = house.hold(deer, reason="lab rang")
    for lot in (pack, trim, mince, second):
        refused_everywhere(house, lot, f"on hold through {deer}: lab rang")
    assert house.state(clean) == "ready"
    later = house.bin(mince, 50)
    assert house.state(later) == "on hold"
    acts.release_hold(house.reg, by=house.tutor, hold=hold, reason="lab cleared it")
    for lot in (pack, trim, mince, second):
        assert house.state(lot) == "ready"
    assert house.state(later) == "gone"


def test_one_of_two_holds_lifted_still_stops(house: House) -> None:
    deer = house.dressed()
    pack = house.pack(deer)
    first, _second = house.hold(deer), house.hold(pack, reason="bag torn")
    acts.release_hold(house.reg, by=house.tutor, hold=first, reason="fine")
    refused_everywhere(house, pack, "bag torn")


def test_one_bad_lot_among_good_ones_stops_the_whole_dish(house: House) -> None:
    deer = house.dressed()
    good, bad = house.pack(deer), house.pack(deer)
    house.hold(bad)
    for inputs in ([(good, 100), (bad, 100)], [(bad, 100), (good, 100)]):
        with pytest.raises(Refusal, match="on hold"):
            house.dish(*inputs)
    assert house.left(good) == 500


def test_a_specimen_may_be_cut_for_teaching_and_nothing_of_it_goes_to_a_plate(house: House) -> None:
    deer = house.dressed(decision=Decision.SPECIMEN, decision_reason="gut shot, for the class")
    refused_everywhere(house, house.pack(deer), "teaching specimen")
    refused_everywhere(house, deer, "teaching specimen")


def test_what_is_rejected_is_not_cut_not_dressed_and_not_served(house: House) -> None:
    deer = house.dressed(decision=Decision.REJECT, decision_reason="green inside")
    with pytest.raises(Refusal, match="green inside"):
        house.pack(deer)
    in_skin = house.held(Decision.REJECT)
    with pytest.raises(Refusal, match="rejected"):
        house.dress(in_skin)
    refused_everywhere(house, deer, "rejected: green inside")
    binned = house.bin(deer)
    assert questions.lot(house.reg, binned).where == "binned"


@pytest.mark.parametrize("decision", [Decision.REJECT, Decision.SPECIMEN])
def test_rejected_and_specimen_stay_so_for_ever(house: House, decision: Decision) -> None:
    deer = house.held(decision)
    stop = questions.carcass(house.reg, deer).holds[0]
    with pytest.raises(Refusal, match="for ever"):
        acts.release_hold(house.reg, by=house.tutor, hold=stop.id, reason="please")


def test_the_use_by_day_itself_is_good_and_the_day_after_is_not(house: House) -> None:
    pack = house.pack(house.dressed())
    use_by = questions.lot(house.reg, pack).use_by
    assert use_by is not None
    house.clock.go(days=(use_by - date(2026, 11, 12)).days)
    assert questions.check_for_plate(house.reg, pack).code == pack
    house.clock.go(days=1)
    refused_everywhere(house, pack, "past its date: use by")


def test_a_mix_and_a_repacking_keep_the_earliest_date_of_what_went_in(house: House) -> None:
    deer = house.dressed()
    pack = house.pack(deer)
    first = questions.lot(house.reg, pack).use_by
    house.clock.go(days=3)
    again = house.pack(pack, 200, pack_state="vacuum")
    dice = house.mix((pack, 200), product="dice")
    assert questions.lot(house.reg, again).use_by == questions.lot(house.reg, dice).use_by == first


def test_of_two_dates_that_went_in_the_earlier_one_counts(house: House) -> None:
    old = house.pack(house.dressed())
    house.clock.go(days=1)
    new = house.pack(house.dressed())
    for inputs in (((old, 100), (new, 100)), ((new, 100), (old, 100))):
        dice = questions.lot(house.reg, house.mix(*inputs, product="dice", pack_state="vacuum"))
        assert dice.use_by == questions.lot(house.reg, old).use_by


@pytest.mark.parametrize("product", ["mince", "sausage-meat"])
def test_minced_meat_has_the_short_life_whatever_it_is_called(house: House, product: str) -> None:
    trim = house.trim(house.dressed())
    mix = questions.lot(house.reg, house.mix((trim, None), product=product))
    assert mix.use_by == date(2026, 11, 13)


def test_meat_past_its_date_can_only_be_binned(house: House) -> None:
    pack = house.pack(house.dressed())
    house.clock.go(days=30)
    with pytest.raises(Refusal, match="past its date"):
        house.pack(pack, 100, pack_state="frozen")
    assert house.state(house.bin(pack)) == "gone"


def test_a_late_entry_cannot_be_dated_before_the_pack_was_made_to_slip_past_its_date(house: House) -> None:
    pack = house.pack(house.dressed())
    house.clock.go(days=30)
    with pytest.raises(Refusal, match="was only made on") as refused:
        house.dish((pack, None), happened_at=house.clock.now - timedelta(days=31))
    assert refused.value.field == "happened_at"


def test_a_spent_pack_is_refused(house: House) -> None:
    pack = house.pack(house.dressed())
    house.dish((pack, None))
    refused_everywhere(house, pack, "used up")


def test_more_than_is_left_is_refused_with_both_weights(house: House) -> None:
    pack = house.pack(house.dressed())
    house.dish((pack, 200))
    refused_everywhere(house, pack, r"0\.300 kg left; 0\.301 kg", grams=301)
    with pytest.raises(Refusal, match=r"0\.300 kg left; 0\.400 kg"):
        house.dish((pack, 200), (pack, 200))


@pytest.mark.parametrize("grams", [0, -5])
def test_no_weight_is_no_weight(house: House, grams: int) -> None:
    refused_everywhere(house, house.pack(house.dressed()), "more than nothing", grams=grams)


def test_skin_waste_a_carcass_and_a_dish_are_no_meat_for_a_plate(house: House) -> None:
    deer = house.receive()
    skin = house.dress(deer).code
    pack = house.pack(deer)
    binned, dish = house.bin(pack, 100), house.dish((pack, 100))
    for lot in (deer, skin, binned, dish):
        refused_everywhere(house, lot, "not meat for a plate")


@pytest.mark.parametrize("code", ["26-99999-X", "26-00001-7", "", "deer"])
def test_a_number_that_is_none_of_ours_is_refused(house: House, code: str) -> None:
    with pytest.raises(Refusal):
        house.dish((code, None))


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"name": "  "}, "name"), ({"portions": 0}, "portions"), ({"portions": -1}, "portions"),
        ({"portions": 10**6}, "portions"), ({"name": "x" * 10_000}, "name"),
    ],
)  # fmt: skip
def test_a_dish_that_cannot_be_is_refused(house: House, given: dict[str, Any], field: str) -> None:
    pack = house.pack(house.dressed())
    with pytest.raises(Refusal) as refused:
        house.dish((pack, None), **given)
    assert refused.value.field == field


# ------------------------------------------------------------------------------------------ who may


def test_a_hold_is_lifted_by_another_than_who_placed_it_and_not_by_student_or_officer(house: House) -> None:
    hold = house.hold(house.receive(), by=house.tutor)
    for by, words in (
        (house.tutor, "another person"), (house.student, "A student may not"), (house.officer, "officer"),
        ("", "Nobody"), ("P999", "Nobody"),
    ):  # fmt: skip
        with pytest.raises(Refusal, match=words):
            acts.release_hold(house.reg, by=by, hold=hold, reason="fine")
    acts.release_hold(house.reg, by=house.technician, hold=hold, reason="fine")
    with pytest.raises(Refusal, match="lifted already"):
        acts.release_hold(house.reg, by=house.tutor, hold=hold, reason="fine")
    with pytest.raises(Refusal, match="no hold number"):
        acts.release_hold(house.reg, by=house.tutor, hold=999, reason="fine")


@pytest.mark.parametrize("reason", ["", "   ", "\u200b"])
def test_holding_and_lifting_need_a_reason(house: House, reason: str) -> None:
    deer = house.receive()
    with pytest.raises(Refusal, match="needs a reason"):
        acts.hold_lot(house.reg, by=house.tutor, code=deer, reason=reason)
    hold = house.hold(deer)
    with pytest.raises(Refusal, match="needs a reason"):
        acts.release_hold(house.reg, by=house.tutor, hold=hold, reason=reason)


def test_an_officer_and_a_leaver_write_nothing(house: House) -> None:
    acts.forget_person(house.reg, by=house.tutor, person=house.student, reason="left")
    before = questions.seal(house.reg)
    for by in (house.officer, house.student, "", "P999"):
        with pytest.raises(Refusal) as refused:
            acts.receive_delivery(house.reg, by=by, delivery=house.delivery())
        assert refused.value.field == "by"
    assert questions.seal(house.reg) == before


# ---------------------------------------------------------------------------------- the tag hand-over


def test_dressing_waits_for_the_number_on_the_new_tag(house: House) -> None:
    deer = house.receive()
    with pytest.raises(Refusal, match="the number is on the new tag"):
        acts.dress_carcass(
            house.reg,
            by=house.technician,
            code=deer,
            outputs=[acts.Out("skin", 3_000)],
            tag=acts.TagHandOver("typed", " "),
        )
    assert questions.carcass(house.reg, deer).in_skin


def test_the_skin_is_weighed_before_dressing_is_finished(house: House) -> None:
    with pytest.raises(Refusal, match="skin has not been weighed"):
        acts.dress_carcass(
            house.reg, by=house.technician, code=house.receive(), outputs=[], tag=acts.TagHandOver("printed")
        )


@pytest.mark.parametrize("number", ["20260417", "0417", "AB 12345", "1234567890"])
def test_a_bought_tag_s_own_number_is_taken_as_it_is(house: House, number: str) -> None:
    deer = house.receive()
    acts.dress_carcass(
        house.reg,
        by=house.technician,
        code=deer,
        outputs=[acts.Out("skin", 3_000)],
        tag=acts.TagHandOver("typed", number),
    )
    assert questions.carcass(house.reg, deer).number_on == number


def test_another_animal_s_house_number_on_the_new_tag_is_refused(house: House) -> None:
    deer, other = house.receive(), house.receive()
    for number in (other, other.replace("-", ""), "26-00417-E", deer[:-1] + "7"):
        with pytest.raises(Refusal):
            acts.dress_carcass(
                house.reg,
                by=house.technician,
                code=deer,
                outputs=[acts.Out("skin", 3_000)],
                tag=acts.TagHandOver("typed", number),
            )
    acts.dress_carcass(
        house.reg,
        by=house.technician,
        code=deer,
        outputs=[acts.Out("skin", 3_000)],
        tag=acts.TagHandOver("typed", deer.replace("-", "").lower()),
    )
    assert questions.carcass(house.reg, deer).number_on == deer


def test_a_carcass_in_the_skin_is_not_cut(house: House) -> None:
    with pytest.raises(Refusal, match="still in the skin"):
        house.pack(house.receive())


def test_a_held_carcass_may_be_dressed_and_its_skin_is_held_too(house: House) -> None:
    deer = house.receive()
    house.hold(deer)
    assert house.state(house.dress(deer).code) == "on hold"


def test_a_dressed_carcass_has_nothing_left_to_take_off(house: House) -> None:
    deer = house.receive()
    house.dress(deer)
    with pytest.raises(Refusal, match="nothing left to take off"):
        house.dress(deer)
