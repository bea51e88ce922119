"""Deliveries announced: entered, ticked off as they come, cancelled with a reason, and hooks for them."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from larder_house import House

from gametrace.domain.deliveries import Basis, Decision
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.hook_room import hook_words

TODAY = date(2026, 11, 12)


def expect(house: House, **given: Any) -> str:
    fields: dict[str, Any] = {
        "by": house.student, "supplier": house.supplier, "on": TODAY, "bodies": 2, "species": "fallow",
    }  # fmt: skip
    return acts.expect_delivery(house.reg, **{**fields, **given}).code


def the_one(house: House):
    (one,) = questions.expected_deliveries(house.reg, open_only=False)
    return one


def sentences(house: House) -> str:
    return " | ".join(duty.sentence for duty in questions.today(house.reg))


def test_what_is_announced_is_kept_and_stands_on_the_page_of_its_day(house: House) -> None:
    code = expect(house, at="14:30", note="the old van", on=TODAY + timedelta(days=1))
    one = the_one(house)
    assert (one.code, one.bodies, one.left, one.at, one.note) == (code, 2, 2, "14:30", "the old van")
    assert "Expected at" not in sentences(house)
    house.clock.go(days=1)
    assert "Expected at 14:30: 2 × fallow from Perrin Ashdown." in sentences(house)
    house.clock.go(days=1)
    late = next(d for d in questions.today(house.reg) if "say why not" in d.sentence)
    assert (late.station, late.code) == ("expected", code)


def test_each_body_ticks_one_off_and_the_last_one_ends_it(house: House) -> None:
    code = expect(house)
    first, second = house.receive(), house.receive()
    for deer, left, status in ((first, 1, "expected"), (second, 0, "arrived")):
        match = questions.expected_match(house.reg, deer)
        assert match is not None
        acts.tick_expected(house.reg, by=house.student, expected=match.code, code=deer)
        assert (the_one(house).left, the_one(house).status) == (left, status)
    assert the_one(house).lots == (first, second)
    assert questions.expected_match(house.reg, second) is None
    assert any(code in line.sentence for line in questions.story(house.reg, first))
    acts.rebuild(house.reg)
    assert the_one(house).lots == (first, second)
    assert questions.check(house.reg) == ()


def test_a_match_is_of_the_same_supplier_and_kind_and_the_nearest_day(house: House) -> None:
    expect(house, species="roe")
    expect(house, on=TODAY + timedelta(days=40))
    far = expect(house, on=TODAY + timedelta(days=6))
    open_kind = expect(house, species="")
    near = expect(house, on=TODAY + timedelta(days=2))
    deer = house.receive()
    for code in (near, far, open_kind):
        match = questions.expected_match(house.reg, deer)
        assert match is not None
        assert match.code == code
        acts.cancel_expected(house.reg, by=house.tutor, expected=code, reason="rang off")
    assert questions.expected_match(house.reg, deer) is None


def test_what_does_not_come_is_cancelled_with_a_reason(house: House) -> None:
    code = expect(house)
    with pytest.raises(Refusal, match="why it does not come"):
        acts.cancel_expected(house.reg, by=house.tutor, expected=code, reason=" ")
    acts.cancel_expected(house.reg, by=house.tutor, expected=code, reason="snowed in")
    assert (the_one(house).status, the_one(house).reason, the_one(house).left) == (
        "cancelled",
        "snowed in",
        0,
    )
    with pytest.raises(Refusal, match="cancelled already"):
        acts.cancel_expected(house.reg, by=house.tutor, expected=code, reason="again")
    with pytest.raises(Refusal, match="cancelled already"):
        acts.tick_expected(house.reg, by=house.tutor, expected=code, code=house.receive())


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"bodies": 0}, "bodies"),
        ({"bodies": 1_001}, "bodies"),
        ({"at": "25:00"}, "at"),
        ({"species": "unicorn"}, "species"),
        ({"supplier": "S999"}, "supplier"),
        ({"on": TODAY - timedelta(days=1)}, "on"),
        ({"on": date(2036, 1, 1)}, "on"),
        ({"store": "C9"}, "store"),
        ({"note": "x" * 501}, "note"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(house: House, given: dict[str, Any], field: str) -> None:
    before = questions.seal(house.reg)
    with pytest.raises(Refusal) as refused:
        expect(house, **given)
    assert refused.value.field == field
    assert questions.seal(house.reg) == before


def test_one_body_ticks_off_one_delivery_and_only_its_suppliers(house: House) -> None:
    other = acts.add_supplier(house.reg, by=house.tutor, name="Oss", address="Oss", route="wild-direct").code
    theirs, ours, more = expect(house, supplier=other), expect(house), expect(house)
    deer = house.receive()
    with pytest.raises(Refusal, match="another supplier"):
        acts.tick_expected(house.reg, by=house.tutor, expected=theirs, code=deer)
    acts.tick_expected(house.reg, by=house.tutor, expected=ours, code=deer)
    with pytest.raises(Refusal, match="ticked off already"):
        acts.tick_expected(house.reg, by=house.tutor, expected=more, code=deer)


def test_the_forecast_counts_free_hooks_what_is_due_out_and_what_is_expected(house: House) -> None:
    # 16 hooks. A fallow doe killed on the 10th: by the plan's last day.
    deer = house.receive(place="C1.R1.01")
    plan = questions.hanging_plans(house.reg, [deer])[deer]
    out_on = date(2026, 11, 10) + timedelta(days=plan.by_days)
    expect(house, on=TODAY + timedelta(days=1), bodies=17)
    found = {one.day: one for one in questions.hook_forecast(house.reg, 20)}
    assert (found[TODAY].hooks, found[TODAY].free_now, found[TODAY].free_then) == (16, 15, 15)
    assert found[TODAY + timedelta(days=1)].short == 2
    assert found[out_on].due_out == 1
    assert found[out_on].short == 1
    assert "15 of 16 hooks free now, 0 due out that day by plan, 17 expected in, 2 short." in hook_words(
        found[TODAY + timedelta(days=1)]
    )
    assert "2 short. Move or cut something before." in sentences(house)


def test_what_is_stopped_is_not_counted_as_going_out_and_birds_take_no_hook(house: House) -> None:
    house.held(Decision.HOLD, place="C1.R1.01")
    expect(house, species="pheasant", bodies=40)
    found = questions.hook_forecast(house.reg, 60)
    assert sum(one.due_out for one in found) == 0
    assert sum(one.expected_in for one in found) == 0
    assert "hooks free now" not in sentences(house)
    bag = house.receive(
        species="pheasant", sex="unknown", age_class="", count=12, grams=12_000, place="C1.S1",
        basis=Basis(True, True, True, True),
    )  # fmt: skip
    match = questions.expected_match(house.reg, bag)
    assert match is not None
    acts.tick_expected(house.reg, by=house.tutor, expected=match.code, code=bag)
    assert the_one(house).left == 28


def test_with_two_stores_an_expectation_without_one_counts_only_in_the_line_for_all(house: House) -> None:
    acts.add_store(house.reg, by=house.tutor, name="Cold room", sort="chill", rails=[("Rail", 3)], shelves=[])
    expect(house, bodies=2)
    expect(house, bodies=1, store="C2")
    found = {one.store: one.expected_in for one in questions.hook_forecast(house.reg, 1)}
    assert found == {"C1": 0, "C2": 1, "": 3}
