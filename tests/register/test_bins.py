"""By-products and bins: what left with whom, by which document and category; the weekly sums by hand."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from larder_house import House

from gametrace.domain.by_products import keep_papers_until
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.bins import BinLine, weeks_of

THURSDAY = date(2026, 11, 12)


def skin_of(house: House) -> str:
    return str(house.dress(house.receive()).created[0])


def collect(house: House, *codes: str, **given: Any) -> None:
    acts.collect_by_products(
        house.reg,
        **{
            "by": house.student, "codes": codes, "on": THURSDAY, "collector": "Grice and Daughter",
            "document_number": "CD 4", "destination": "Grice's yard", **given,
        },
    )  # fmt: skip


def line(house: House, code: str) -> BinLine:
    return next(one for one in questions.bins(house.reg) if one.code == code)


# Regulation (EU) 142/2011, Annex VIII, Chapter III(5): documents are kept two years.
def test_a_collection_keeps_collector_document_and_the_day_its_paper_may_go(house: House) -> None:
    skin = skin_of(house)
    assert (line(house, skin).document_number, line(house, skin).keep_until) == ("", None)
    collect(house, skin)
    taken = line(house, skin)
    assert (taken.collector, taken.document_number, taken.collected_on) == (
        "Grice and Daughter", "CD 4", THURSDAY,
    )  # fmt: skip
    assert taken.keep_until == date(2028, 11, 12)
    acts.rebuild(house.reg)
    assert line(house, skin) == taken
    assert questions.check(house.reg) == ()


def test_a_paper_of_a_leap_day_is_kept_its_two_whole_years() -> None:
    assert keep_papers_until(date(2028, 2, 29)) == date(2030, 3, 1)


def test_the_category_is_the_one_it_left_in_whatever_is_confirmed_later(house: House) -> None:
    skin, later = skin_of(house), skin_of(house)
    first = line(house, skin).category
    collect(house, skin)
    other = 2 if first == 3 else 3
    acts.set_policy(
        house.reg, by=house.tutor, name="category.skin", value=f"{other}|Netherby council|2026-11-12",
        reason="asked them",
    )  # fmt: skip
    assert (line(house, skin).category, line(house, later).category) == (first, other)
    assert line(house, later).is_confirmed


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"codes": ()}, "codes"),
        ({"collector": " "}, "collector"),
        ({"document_number": ""}, "document_number"),
        ({"document_number": "9" * 81}, "document_number"),
        ({"destination": ""}, "destination"),
        ({"on": THURSDAY + timedelta(days=1)}, "on"),
        ({"codes": ("26-99999-X",)}, "code"),
    ],
)
def test_a_collection_without_what_its_document_shows_is_refused(
    house: House, given: dict[str, Any], field: str
) -> None:
    skin = skin_of(house)
    before = questions.seal(house.reg)
    with pytest.raises(Refusal) as refused:
        collect(house, skin, **given)
    assert refused.value.field in (field, "codes")
    assert questions.seal(house.reg) == before


def test_nothing_is_collected_twice_and_no_meat_is(house: House) -> None:
    skin = skin_of(house)
    collect(house, skin, skin)  # ticked twice is taken once
    with pytest.raises(Refusal, match="collected already"):
        collect(house, skin)
    carcass = house.dressed()
    for meat in (carcass, house.pack(carcass)):
        with pytest.raises(Refusal, match="not a by-product"):
            collect(house, meat)


def test_one_held_skin_among_good_ones_keeps_them_all_here(house: House) -> None:
    good, held = skin_of(house), skin_of(house)
    house.hold(held)
    with pytest.raises(Refusal):
        collect(house, good, held)
    assert line(house, good).document_number == ""


@given(
    fallen=st.lists(st.tuples(st.integers(0, 400), st.integers(1, 3), st.integers(1, 90_000)), max_size=30)
)
def test_the_weekly_sums_are_those_of_a_plain_count(fallen: list[tuple[int, int, int]]) -> None:
    days = [(date(2026, 1, 1) + timedelta(days=day), category, grams) for day, category, grams in fallen]
    by_hand: dict[tuple[int, int], dict[int, int]] = defaultdict(lambda: defaultdict(int))
    for day, category, grams in days:
        by_hand[day.isocalendar()[:2]][category] += grams
    found = weeks_of(days)
    assert {week.first_day.isocalendar()[:2]: week.grams_by_category for week in found} == by_hand
    assert all(week.first_day.weekday() == 0 for week in found)
    assert [week.first_day for week in found] == sorted((w.first_day for w in found), reverse=True)


def test_weeks_waiting_and_papers_are_those_of_the_whole_list(house: House) -> None:
    taken = [skin_of(house), skin_of(house)]
    house.clock.go(days=9)
    left = skin_of(house)
    collect(house, *taken)
    today = house.reg.today()
    lines = questions.bins(house.reg)
    fallen = [(one.made_on, one.category, one.grams) for one in lines]
    assert questions.bins_since(house.reg) == THURSDAY
    assert questions.bin_weeks(house.reg, THURSDAY, today) == weeks_of(fallen)
    assert questions.bin_weeks(house.reg, THURSDAY, THURSDAY) == weeks_of(
        one for one in fallen if one[0] == THURSDAY
    )
    waiting = questions.bins(house.reg, only_waiting=True)
    assert waiting == tuple(one for one in lines if not one.document_number)
    assert left in {one.code for one in waiting}
    assert questions.bin_paper_count(house.reg) == 1
    (paper,) = questions.bin_papers(house.reg)
    assert (paper.document_number, paper.pieces) == ("CD 4", 2)
    assert paper.grams == sum(one.grams for one in lines if one.code in taken)
    assert questions.bin_papers(house.reg, limit=5, first=1) == ()


def test_a_collection_of_several_tells_who_took_them_before_it_names_each(house: House) -> None:
    collect(house, skin_of(house), skin_of(house))
    (told,) = questions.strikable_of(house.reg, ["by-products.collected"])
    assert told.sentence.startswith("2 by-products collected by Grice and Daughter, document CD 4: ")
