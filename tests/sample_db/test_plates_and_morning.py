"""From the animals to the plates of the two years, and what lies there the morning after."""

from fractions import Fraction

import pytest

from gametrace.domain.errors import Refusal
from gametrace.domain.lots import LotKind, LotState
from gametrace.register import questions


def test_dishes_for_services_and_classes_with_their_portions(fenmoor):
    dishes = questions.dishes(fenmoor, limit=5_000)
    assert len(dishes) >= 300
    assert all(dish.portions >= 1 for dish in dishes)
    details = {lot.detail.split(" for ")[1].split()[0] for lot in _dishes_of(fenmoor, "Marlhanger Deer Park")}
    assert details == {"service", "class"}


def _dishes_of(fenmoor, supplier):
    return [lot for lot in questions.trace(fenmoor, supplier).forward if lot.kind == LotKind.DISH]


def test_no_dish_got_meat_while_it_was_stopped(fenmoor):
    for hold in questions.holds(fenmoor, open_only=False):
        for lot in questions.trace(fenmoor, hold.code).forward:
            if lot.kind == LotKind.DISH:
                assert hold.sort == "hold"
                assert hold.released_at is not None
                assert lot.when < hold.placed_at or lot.when >= hold.released_at


def test_no_dish_got_meat_past_its_date(fenmoor, sample):
    dish = questions.trace(fenmoor, sample.marks["three-deer pie"])
    eaten_on = questions.lot(fenmoor, dish.code).made_at.date()
    for one in dish.back:
        use_by = questions.lot(fenmoor, one.code).use_by
        assert use_by is None or use_by >= eaten_on


def test_a_mince_of_three_animals_has_their_exact_shares(fenmoor, sample):
    pie = questions.trace(fenmoor, "Three-deer cottage pie")
    assert pie.code == sample.marks["three-deer pie"]
    assert len(pie.animals) == 3
    assert sum((one.share for one in pie.animals), Fraction(0)) == 1
    assert sum(one.grams for one in pie.animals) == pie.lot.grams_made


def test_minces_of_two_to_four_animals_were_made(fenmoor):
    mixes = {
        lot.code
        for supplier in ("Marlhanger Deer Park", "Idris Fennimoor, stalker")
        for lot in questions.trace(fenmoor, supplier).forward
        if lot.kind == LotKind.MIX
    }
    counts = {len(questions.trace(fenmoor, code).animals) for code in mixes}
    assert {2, 3, 4} <= counts


def test_some_packs_went_past_their_date_and_were_binned(fenmoor):
    binned = [
        lot
        for lot in questions.trace(fenmoor, "Idris Fennimoor, stalker").forward
        if lot.kind == LotKind.WASTE and "Past its date" in lot.detail
    ]
    assert binned


def test_the_morning_finds_a_larder_at_work(fenmoor, sample):
    hanging = [
        hook.carcass
        for store in questions.larder_view(fenmoor)
        for rail in store.rails
        for hook in rail.hooks
        if hook.carcass
    ]
    assert len({one.lot.place.split(".")[0] for one in hanging}) == 2
    assert len({one.days_hung for one in hanging}) >= 4
    assert [lot.code for lot in questions.open_blocks(fenmoor)] == [sample.marks["open block"]]
    assert sample.marks["to finish"] in [one.code for one in questions.to_finish(fenmoor)]
    coming = [
        lot
        for lot in questions.stock(fenmoor)
        if lot.use_by and 0 <= (lot.use_by - fenmoor.today()).days <= 10 and lot.state == LotState.READY
    ]
    assert len(coming) >= 10


@pytest.mark.parametrize(
    "mark", ["boar", "second specimen", "statement unread", "open block", "gut", "past its date"]
)
def test_the_last_gate_refuses_what_the_story_says_it_refuses(fenmoor, sample, mark):
    with pytest.raises(Refusal):
        questions.check_for_plate(fenmoor, sample.marks[mark])
