"""Weight is conserved: cut, dried, closed, corrected; what is missing is shown and never hidden."""

from typing import Any

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions


def balance_of(house: House, code: str) -> dict[str, int]:
    balance = questions.trace(house.reg, code).balance
    assert balance is not None
    rows = {row.words: row.grams for row in balance.rows}
    assert sum(rows.values()) == balance.received_grams
    assert balance.accounted_grams + balance.unaccounted_grams == balance.received_grams
    return rows


def test_more_than_is_left_cannot_be_weighed_out(house: House) -> None:
    deer = house.dressed(grams=40_000)
    house.out(deer, acts.Out("left-side", 20_000))
    with pytest.raises(Refusal, match=r"0\.021 kg more than is left"):
        house.out(deer, acts.Out("right-side", 20_021))
    with pytest.raises(Refusal, match="more than is left"):
        house.out(deer, acts.Out("haunch", 10_011), acts.Out("haunch", 10_011))
    assert house.left(deer) == 20_000


def test_one_step_of_the_scale_over_is_taken_and_shown_as_less_than_nothing_missing(house: House) -> None:
    deer = house.dressed(grams=40_000)
    house.out(deer, acts.Out("left-side", 40_020))
    view = questions.block_view(house.reg, deer)
    assert (view.is_closed, view.unweighed_grams, view.unaccounted_grams) == (True, 0, -20)
    assert balance_of(house, deer)["unaccounted"] == -20
    assert questions.check(house.reg) == ()


@pytest.mark.parametrize("grams", [0, -1])
def test_a_tray_weighs_more_than_nothing(house: House, grams: int) -> None:
    with pytest.raises(Refusal, match="more than nothing"):
        house.out(house.dressed(), acts.Out("haunch", grams))


@pytest.mark.parametrize("product", ["", "unicorn horn", "drying"])
def test_what_is_no_product_of_the_block_is_refused(house: House, product: str) -> None:
    deer = house.dressed()
    with pytest.raises(Refusal) as refused:
        house.out(deer, acts.Out(product, 100))
    assert refused.value.field == "product"


def test_what_is_missing_cannot_be_written_off_as_drying(house: House) -> None:
    deer = house.dressed()
    pack = house.pack(deer)
    with pytest.raises(Refusal, match="weighing the lot again"):
        acts.dispose(house.reg, by=house.tutor, code=pack, product="drying", reason="must have dried")
    with pytest.raises(Refusal, match="more than 10 %"):
        acts.reweigh(house.reg, by=house.tutor, code=deer, grams=20_000)


def test_a_second_weighing_makes_the_difference_a_lot_of_its_own(house: House) -> None:
    deer = house.receive(grams=40_000)
    dried = acts.reweigh(house.reg, by=house.tutor, code=deer, grams=39_100).code
    assert (house.left(deer), house.left(dried)) == (39_100, 900)
    assert balance_of(house, deer) == {"in stock": 39_100, "drying": 900, "unaccounted": 0}


def test_a_carcass_does_not_grow_on_the_rail(house: House) -> None:
    deer = house.receive(grams=40_000)
    assert acts.reweigh(house.reg, by=house.tutor, code=deer, grams=40_020).created == ()
    assert house.left(deer) == 40_000
    with pytest.raises(Refusal, match="cannot have grown"):
        acts.reweigh(house.reg, by=house.tutor, code=deer, grams=40_021)


def test_closing_with_much_missing_asks_where_it_went(house: House) -> None:
    deer = house.dressed(grams=40_000)
    house.out(deer, acts.Out("left-side", 30_000))
    with pytest.raises(Refusal, match="more than 2 %"):
        acts.close_lot(house.reg, by=house.tutor, code=deer)
    acts.close_lot(house.reg, by=house.tutor, code=deer, reason="a tray went to the dog")
    assert balance_of(house, deer) == {"in stock": 30_000, "unaccounted": 10_000}
    with pytest.raises(Refusal, match="not open"):
        acts.close_lot(house.reg, by=house.tutor, code=deer)


def test_a_mix_that_lost_weight_shows_it_and_each_animal_carries_its_part(house: House) -> None:
    one, two = house.dressed(), house.dressed()
    mince = house.mix((house.trim(one, 600), None), (house.trim(two, 200), None), grams=792)
    assert questions.lot(house.reg, mince).grams == 792
    assert balance_of(house, one)["unaccounted"] == 6
    assert balance_of(house, two)["unaccounted"] == 2
    assert [(a.grams, str(a.share)) for a in questions.trace(house.reg, mince).animals] == [
        (594, "3/4"), (198, "1/4"),
    ]  # fmt: skip


def test_more_mince_than_meat_is_refused(house: House) -> None:
    trim = house.trim(house.dressed(), 600)
    with pytest.raises(Refusal, match="cannot have come out"):
        house.mix((trim, None), grams=621)


# ---------------------------------------------------------------------------------------- corrections


def test_a_weight_put_right_keeps_the_old_one_on_view_and_the_sums_follow(house: House) -> None:
    deer = house.dressed(grams=61_500)
    acts.correct_weight(house.reg, by=house.tutor, code=deer, grams=51_500, reason="misread the scale")
    assert questions.carcass(house.reg, deer).grams_received == 51_500
    assert any("61.500 kg to 51.500 kg" in line.sentence for line in questions.story(house.reg, deer))
    assert balance_of(house, deer) == {"in stock": 51_500, "unaccounted": 0}
    assert questions.check(house.reg) == ()


def test_after_closing_a_corrected_carcass_changes_what_is_unaccounted_and_not_what_is_in_stock(
    house: House,
) -> None:
    deer = house.dressed(grams=40_000)
    house.out(deer, acts.Out("left-side", 30_000))
    acts.close_lot(house.reg, by=house.tutor, code=deer, reason="the first weight looks wrong")
    acts.correct_weight(house.reg, by=house.tutor, code=deer, grams=30_050, reason="it was 30.05")
    assert balance_of(house, deer) == {"in stock": 30_000, "unaccounted": 50}
    acts.correct_weight(house.reg, by=house.tutor, code=deer, grams=30_500, reason="no, 30.5")
    assert balance_of(house, deer) == {"in stock": 30_000, "unaccounted": 500}
    assert house.left(deer) == 0
    assert questions.block_view(house.reg, deer).is_closed
    with pytest.raises(Refusal, match="already gone on"):
        acts.correct_weight(house.reg, by=house.tutor, code=deer, grams=29_979, reason="less")
    assert questions.check(house.reg) == ()


def test_a_tray_put_right_gives_back_to_the_block_or_takes_more_from_it(house: House) -> None:
    deer = house.dressed(grams=40_000)
    tray = house.out(deer, acts.Out("haunch", 5_000))[0]
    acts.correct_weight(house.reg, by=house.tutor, code=tray, grams=4_800, reason="the tare")
    assert (house.left(tray), house.left(deer)) == (4_800, 35_200)
    acts.correct_weight(house.reg, by=house.tutor, code=tray, grams=40_000, reason="no")
    assert questions.block_view(house.reg, deer).is_closed
    with pytest.raises(Refusal, match=r"has only 0\.000 kg more to give"):
        acts.correct_weight(house.reg, by=house.tutor, code=tray, grams=40_021, reason="no")
    assert questions.check(house.reg) == ()


def test_a_tray_of_a_closed_carcass_put_right_moves_between_it_and_the_unaccounted(house: House) -> None:
    deer = house.dressed(grams=40_000)
    tray = house.out(deer, acts.Out("left-side", 39_500))[0]
    acts.close_lot(house.reg, by=house.tutor, code=deer)
    acts.correct_weight(house.reg, by=house.tutor, code=tray, grams=39_900, reason="the tare")
    assert balance_of(house, deer) == {"in stock": 39_900, "unaccounted": 100}
    assert house.left(deer) == 0


def test_what_has_gone_on_cannot_be_corrected_away(house: House) -> None:
    pack = house.pack(house.dressed(), 500)
    house.dish((pack, 300))
    with pytest.raises(Refusal, match=r"0\.300 kg of .* has already gone on"):
        acts.correct_weight(house.reg, by=house.tutor, code=pack, grams=299, reason="less")


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"grams": 500, "reason": "same"}, "is the weight it has"),
        ({"grams": 0, "reason": "none"}, "gone on"),
        ({"grams": -1, "reason": "none"}, "gone on"), ({"grams": 450, "reason": " "}, "needs a reason"),
        ({"grams": 10**12, "reason": "more"}, "cannot be|to give"),
    ],
)  # fmt: skip
def test_a_weight_that_cannot_be_is_refused(house: House, given: dict[str, Any], words: str) -> None:
    pack = house.pack(house.dressed(), 500)
    with pytest.raises(Refusal, match=words):
        acts.correct_weight(house.reg, by=house.tutor, code=pack, **given)


def test_a_mix_has_no_weight_of_its_own_to_correct(house: House) -> None:
    one, two = house.dressed(), house.dressed()
    mixed = house.mix((house.trim(one), None), (house.trim(two), None))
    lossy = house.mix((house.trim(one), None), grams=480)
    for mix in (mixed, lossy):
        with pytest.raises(Refusal, match="weights of their own"):
            acts.correct_weight(house.reg, by=house.tutor, code=mix, grams=300, reason="wrong")


# -------------------------------------------------------------------------------------------- places


def test_two_things_do_not_hang_on_one_hook(house: House) -> None:
    deer = house.dressed(place="C1.R1.01")
    side = house.out(deer, acts.Out("left-side", 20_000, place="C1.R1.02"))[0]
    with pytest.raises(Refusal, match=f"taken by {side}"):
        house.receive(place="C1.R1.02")
    with pytest.raises(Refusal, match="one hook"):
        house.out(deer, acts.Out("haunch", 100, place="C1.R1.03"), acts.Out("haunch", 100, place="C1.R1.03"))
    assert "C1.R1.02" not in {place.code for place in questions.free_places(house.reg)}


def test_a_shelf_takes_many(house: House) -> None:
    deer = house.dressed()
    packs = [house.pack(deer, place="C1.S1") for _ in range(3)]
    shelf = next(lots for place, lots in questions.larder_view(house.reg)[0].shelves if place.code == "C1.S1")
    assert [lot.code for lot in shelf] == packs


def test_what_is_gone_is_not_moved_weighed_or_binned_again(house: House) -> None:
    pack = house.pack(house.dressed())
    binned = house.bin(pack)
    for code in (pack, binned):
        for act in (
            lambda code=code: acts.move_lot(house.reg, by=house.tutor, code=code, to="C1.S1"),
            lambda code=code: acts.reweigh(house.reg, by=house.tutor, code=code, grams=1),
            lambda code=code: house.bin(code),
        ):
            with pytest.raises(Refusal, match="Nothing of"):
                act()
