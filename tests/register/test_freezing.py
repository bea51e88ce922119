"""Freezing, thawing, packing again and a tutor's own date: what they may do to a date, and what is kept."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions

DAY = date(2026, 11, 12)


def days(many: int) -> date:
    return DAY + timedelta(days=many)


@pytest.fixture
def pack(house: House) -> str:
    return house.pack(house.dressed(), 900, pack_state="vacuum")


@pytest.fixture
def freezer(house: House) -> str:
    acts.add_store(house.reg, by=house.tutor, name="Freezer", sort="freezer", shelves=["Top"])
    return next(
        one.code for one in questions.places(house.reg) if one.sort == "freezer" and one.kind == "shelf"
    )


def freeze(house: House, code: str, **given: object) -> object:
    return acts.freeze_lot(house.reg, by=house.student, code=code, **given)  # type: ignore[arg-type]


def thaw(house: House, code: str, method: str = "fridge", **given: object) -> object:
    return acts.thaw_lot(house.reg, by=house.student, code=code, method=method, **given)  # type: ignore[arg-type]


# "You can freeze food right up to midnight on its use-by day": Food Standards Agency, as quoted at
# gudangdomain.com/food-safety-temperatures-uk.
@pytest.mark.parametrize(("after", "may"), [(0, True), (10, True), (11, False)])
def test_it_may_be_frozen_to_the_end_of_its_use_by_day_and_not_after(
    house: House, pack: str, after: int, may: bool
) -> None:
    house.clock.go(days=after)
    if not may:
        with pytest.raises(Refusal, match="not after"):
            freeze(house, pack)
        return
    freeze(house, pack)
    lot = questions.lot(house.reg, pack)
    assert (lot.pack_state, lot.first_frozen_on, lot.use_by) == ("frozen", days(after), days(after + 365))


# "Frozen on" with the first freezing date: Regulation (EU) 1169/2011, Annex III 6.1 and Annex X 3.
def test_the_first_freezing_date_is_printed_and_outlives_packs_and_thawing(house: House, pack: str) -> None:
    freeze(house, pack)
    house.clock.go(days=30)
    smaller = house.pack(pack, 300, pack_state="frozen")
    (sheet,) = questions.label_sheets(house.reg, [smaller])
    assert sheet.frozen_on == "12 Nov 2026"
    assert (sheet.sort, sheet.date_line) == ("frozen", "Best by 12 Nov 2027")
    thaw(house, smaller)
    (sheet,) = questions.label_sheets(house.reg, [smaller])
    assert (sheet.frozen_on, sheet.thawed_on) == ("12 Nov 2026", "12 Dec 2026")
    assert sheet.title == "Haunch, defrosted"
    assert sheet.date_line == "Use by 13 Dec 2026"
    assert sheet.sort == "thawed"
    assert "Frozen on 12 Nov 2026" in sheet.lines


# Frozen date, defrosting date and method: National Food Crime Unit, notice to industry, November 2025.
def test_thawing_keeps_both_days_and_the_way_in_its_story(house: House, pack: str) -> None:
    freeze(house, pack)
    house.clock.go(days=30)
    thaw(house, pack, "cold-running-water")
    told = " ".join(line.sentence for line in questions.story(house.reg, pack))
    assert "thawed under cold running water, first frozen 12 Nov 2026; use by 13 Dec 2026" in told


def test_what_was_thawed_is_never_frozen_raw_again(house: House, pack: str) -> None:
    freeze(house, pack)
    thaw(house, pack)
    with pytest.raises(Refusal, match="not frozen again raw"):
        freeze(house, pack)
    with pytest.raises(Refusal, match="not frozen again raw"):
        house.pack(pack, 300, pack_state="frozen")


def test_what_is_cooked_from_frozen_or_thawed_in_a_microwave_has_that_day_only(
    house: House, pack: str
) -> None:
    freeze(house, pack)
    with pytest.raises(Refusal, match="still frozen"):
        house.dish((pack, None))
    thaw(house, pack, "cooked-from-frozen")
    assert questions.lot(house.reg, pack).use_by == DAY
    assert house.dish((pack, None))


def test_thawing_gains_no_day_and_past_its_best_only_a_tutor_leads_on(house: House, pack: str) -> None:
    freeze(house, pack)
    house.clock.go(days=365)
    assert questions.redating(house.reg, pack, "thaw", method="fridge").now == days(365)
    house.clock.go(days=1)
    with pytest.raises(Refusal, match="best-by day has gone"):
        thaw(house, pack)
    with pytest.raises(Refusal, match="past its date: best by"):
        house.dish((pack, None))
    acts.override_date(house.reg, by=house.tutor, code=pack, to=days(380), reason="looked at, no burn")
    thaw(house, pack)


@pytest.mark.parametrize("method", ["", "on the radiator"])
def test_a_way_of_thawing_is_asked(house: House, pack: str, method: str) -> None:
    freeze(house, pack)
    with pytest.raises(Refusal) as refused:
        thaw(house, pack, method)
    assert refused.value.field == "method"


# The days run from the first vacuum packing: Food Standards Agency guidance (from memory).
def test_packing_again_gains_no_day(house: House, pack: str) -> None:
    house.clock.go(days=4)
    acts.repack(house.reg, by=house.student, code=pack, pack_state="modified-atmosphere")
    lot = questions.lot(house.reg, pack)
    assert (lot.pack_state, lot.use_by) == ("modified-atmosphere", days(10))
    acts.repack(house.reg, by=house.student, code=pack, pack_state="chilled-loose")
    assert questions.lot(house.reg, pack).use_by == days(7)  # loose meat's own three days end sooner
    acts.repack(house.reg, by=house.student, code=pack, pack_state="vacuum")
    assert questions.lot(house.reg, pack).use_by == days(7)


def test_a_part_without_a_date_is_frozen_while_it_would_last_loose_and_then_with_a_reason(
    house: House,
) -> None:
    trim, later = house.trim(house.dressed()), house.trim(house.dressed())
    house.clock.go(days=3)
    freeze(house, trim)
    house.clock.go(days=1)
    with pytest.raises(Refusal) as refused:
        freeze(house, later)
    assert refused.value.field == "reason"
    freeze(house, later, reason="hung on the bone at 2 degrees")


def test_a_date_by_hand_is_a_tutors_with_a_reason_and_both_dates_stay_on_view(
    house: House, pack: str
) -> None:
    change = {"code": pack, "to": days(14), "reason": "salted to 3.5 %, tested"}
    with pytest.raises(Refusal, match="A student may not do this"):
        acts.override_date(house.reg, by=house.student, **change)
    with pytest.raises(Refusal, match="needs a reason"):
        acts.override_date(house.reg, by=house.tutor, **{**change, "reason": " "})
    done = acts.override_date(house.reg, by=house.tutor, **change)
    assert [found.code for found in done.findings] == ["override-longer"]
    lot = questions.lot(house.reg, pack)
    assert (lot.use_by, lot.date_rule) == (days(14), "a tutor's own date: salted to 3.5 %, tested")
    (amended,) = [
        one for one in questions.visit_sheet(house.reg, first=DAY, last=DAY).amendments if one.code == pack
    ]
    assert (amended.field, amended.old, amended.new) == ("use by", "2026-11-22", "2026-11-26")


def test_a_use_by_day_that_has_gone_is_not_brought_back_by_hand(house: House, pack: str) -> None:
    house.clock.go(days=11)
    with pytest.raises(Refusal, match="use-by day has gone"):
        acts.override_date(house.reg, by=house.tutor, code=pack, to=days(20), reason="smells fine")


def test_what_is_shown_before_is_what_is_written_after(house: House, pack: str) -> None:
    shown = questions.redating(house.reg, pack, "freeze")
    assert (shown.was, shown.now) == (days(10), days(365))
    assert "Frozen joints and cuts: 365 days" in shown.rule
    freeze(house, pack)
    lot = questions.lot(house.reg, pack)
    assert (lot.use_by, lot.date_rule) == (shown.now, shown.rule)


def test_frozen_meat_lies_in_a_freezer_and_other_meat_does_not(house: House, pack: str, freezer: str) -> None:
    with pytest.raises(Refusal, match="in which freezer") as refused:
        freeze(house, pack)
    assert refused.value.field == "place"
    with pytest.raises(Refusal, match="in no freezer"):
        freeze(house, pack, place="C1.S1")
    with pytest.raises(Refusal, match="is not frozen"):
        acts.move_lot(house.reg, by=house.student, code=pack, to=freezer)
    freeze(house, pack, place=freezer)
    assert questions.lot(house.reg, pack).place == freezer
    with pytest.raises(Refusal, match="this is frozen"):
        acts.move_lot(house.reg, by=house.student, code=pack, to="C1.S1")
    with pytest.raises(Refusal, match="is in a freezer"):
        thaw(house, pack)
    thaw(house, pack, place="C1.S1")
    assert questions.lot(house.reg, pack).place == "C1.S1"


def test_cutting_frozen_meat_leaves_frozen_parts_and_no_chilled_packs(house: House) -> None:
    haunch = house.out(house.dressed(), acts.Out("haunch", 4_000))[0]
    freeze(house, haunch)
    part = house.out(haunch, acts.Out("rump", 800))[0]
    assert questions.lot(house.reg, part).pack_state == "frozen"
    with pytest.raises(Refusal, match="still frozen"):
        house.pack(haunch, 500, pack_state="vacuum")


def test_a_hold_stays_through_freezing_and_thawing(house: House, pack: str) -> None:
    house.hold(pack)
    freeze(house, pack)
    assert house.state(pack) == "on hold"
    thaw(house, pack)
    with pytest.raises(Refusal, match="on hold"):
        house.dish((pack, None))


@pytest.mark.parametrize("kind", ["carcass", "bone", "dish", "used up"])
def test_what_is_not_meat_in_stock_is_not_frozen(house: House, kind: str) -> None:
    carcass = house.dressed()
    if kind == "bone":
        carcass = house.out(carcass, acts.Out("bone", 900))[0]
    elif kind != "carcass":
        pack = house.pack(carcass)
        dish = house.dish((pack, None))
        carcass = dish if kind == "dish" else pack
    with pytest.raises(Refusal):
        freeze(house, carcass)


def test_tables_played_anew_are_equal_after_every_change_of_a_date(house: House, pack: str) -> None:
    freeze(house, pack)
    thaw(house, pack)
    acts.repack(house.reg, by=house.student, code=pack, pack_state="vacuum")
    acts.override_date(house.reg, by=house.tutor, code=pack, to=DAY, reason="used today")
    assert questions.check(house.reg) == ()


def test_a_part_is_frozen_by_packing_it_first_and_the_rest_keeps_its_date(house: House, freezer: str) -> None:
    loin = house.pack(house.dressed(), 2_000, "loin", pack_state="vacuum")
    was = questions.lot(house.reg, loin).use_by
    (part,) = acts.pack_many(
        house.reg, by=house.student, code=loin, weights=[700], pack_state="frozen", place=freezer
    ).created
    assert questions.lot(house.reg, part).first_frozen_on == DAY
    rest = questions.lot(house.reg, loin)
    assert (rest.grams, rest.use_by, rest.pack_state, rest.first_frozen_on) == (1_300, was, "vacuum", None)
