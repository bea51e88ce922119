"""Packs in one go, and the date each is given by rule."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.pack_dates import kept_as

DAY = date(2026, 11, 12)


@pytest.fixture
def haunch(house: House) -> str:
    return house.out(house.dressed(), acts.Out("haunch", 6_001, "left"))[0]


def many(house: House, code: str, **given: object) -> tuple[str, ...]:
    return acts.pack_many(house.reg, by=house.student, code=code, **given).created  # type: ignore[arg-type]


def test_twelve_packs_of_about_two_portions_in_one_entry_to_the_gram(house: House, haunch: str) -> None:
    before = questions.seal(house.reg).count
    made = many(house, haunch, count=12, portions=2)
    assert questions.seal(house.reg).count == before + 1
    grams = [house.left(code) for code in made]
    assert (len(made), sum(grams), max(grams) - min(grams)) == (12, 6_001, 1)
    assert {questions.lot(house.reg, code).portions for code in made} == {2}
    sheets = questions.label_sheets(house.reg, made)
    assert len(sheets) == 12
    assert all("about 2 portions" in sheet.lines[0] for sheet in sheets)


def test_each_weighed_or_all_of_one_weight(house: House, haunch: str) -> None:
    assert [house.left(code) for code in many(house, haunch, weights=[480, 505, 512])] == [480, 505, 512]
    assert [house.left(code) for code in many(house, haunch, count=2, grams_each=600)] == [600, 600]
    assert house.left(haunch) == 6_001 - 1_497 - 1_200


def test_a_second_press_packs_nothing_twice(house: House, haunch: str) -> None:
    first = many(house, haunch, count=4, key="one press")
    assert many(house, haunch, count=4, key="one press") == first
    assert house.left(haunch) == 0


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"count": 0}, "count"),
        ({"count": 501}, "count"),
        ({"count": 12, "grams_each": 600}, "grams"),
        ({"weights": [0, 200]}, "grams"),
        ({"count": 2, "portions": -1}, "portions"),
        ({"count": 2, "pack_state": "thawed"}, "pack_state"),
    ],
)
def test_packs_that_cannot_be_are_refused_and_none_is_made(
    house: House, haunch: str, given: dict[str, object], field: str
) -> None:
    before = questions.seal(house.reg)
    with pytest.raises(Refusal) as refused:
        many(house, haunch, **given)
    assert refused.value.field == field
    assert questions.seal(house.reg) == before


def test_a_whole_carcass_is_packed_only_as_a_cut_that_is_named(house: House) -> None:
    carcass = house.dressed()
    with pytest.raises(Refusal, match="not said what is packed"):
        many(house, carcass, count=2)
    assert len(many(house, carcass, count=2, grams_each=900, product="steak")) == 2


# Vacuum and modified atmosphere: Food Standards Agency guidance on vacuum and modified atmosphere packed
# chilled foods, 10 days at 3 to 8 C; its December 2020 revision names beef, lamb and pork only, not venison.
# Freezer life of cuts 8 to 12 months, mince and stewing meat 2 to 3 (extension leaflet). The rest: common
# practice, no source.
@pytest.mark.parametrize(
    ("state", "product", "days", "source"),
    [
        ("vacuum", "haunch", 10, "FSA/FSS guidance on vacuum"),
        ("modified-atmosphere", "haunch", 10, "FSA/FSS guidance on vacuum"),
        ("chilled-loose", "haunch", 3, "common practice"),
        ("vacuum", "mince", 1, "common practice"),
        ("chilled-loose", "sausage-meat", 1, "common practice"),
        ("frozen", "haunch", 365, "freez"),
        ("frozen", "mince", 90, "freez"),
        ("frozen", "dice", 90, "freez"),
        ("vacuum", "dice", 10, "FSA/FSS guidance on vacuum"),
    ],
)
def test_each_date_by_its_rule_with_the_source_beside_it(
    state: str, product: str, days: int, source: str
) -> None:
    kept = kept_as(state, product, DAY, [])
    words = kept.date_rule
    assert kept.use_by == DAY + timedelta(days=days)
    assert source.casefold() in words.casefold()
    assert f"{days} day" in words


def test_what_is_cut_out_of_a_vacuum_pack_is_dated_by_the_first_pack(house: House, haunch: str) -> None:
    (first,) = many(house, haunch, count=1)
    house.clock.go(days=6)
    second = questions.lot(house.reg, many(house, first, count=2)[0])
    assert second.use_by == DAY + timedelta(days=10)


def test_packs_say_at_which_table_and_by_whom(house: House, haunch: str) -> None:
    (who,) = acts.add_to_roster(house.reg, by=house.tutor).created
    (session,) = acts.open_session(house.reg, by=house.tutor).created
    with pytest.raises(Refusal, match="lies on no table"):
        many(house, haunch, count=3, session=session)
    acts.lay_on_table(house.reg, by=house.tutor, session=session, station="table 2", code=haunch)
    made = many(house, haunch, count=3, cutter=who)
    cuts = questions.session(house.reg, session).cuts
    assert {(cut.code, cut.cutter, cut.station) for cut in cuts} == {(code, who, "table 2") for code in made}
