"""Probes, rounds, loggers' readings, warm times and gaps, and a store that failed: the acts themselves."""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from larder_house import START, House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.cold_rooms import MOST_READINGS
from gametrace.register.warm_times import Episode

LONG_AGO, LATER = datetime(2026, 1, 1, tzinfo=UTC), datetime(2027, 12, 31, tzinfo=UTC)


@pytest.fixture
def stores(house: House) -> House:
    """The house with a freezer F1 beside its chill C1."""
    acts.add_store(
        house.reg, by=house.tutor, name="Freezer", sort="freezer", rails=[("Rail 1", 6)], shelves=["Top"]
    )
    return house


def freezer(house: House) -> str:
    return next(place.store for place in questions.places(house.reg) if "Freezer" in place.name)


def seconds(at: datetime) -> int:
    return int(at.timestamp())


def take(house: House, *readings: tuple[str, int], **given: Any) -> None:
    acts.take_round(house.reg, by=given.pop("by", house.student), readings=readings, **given)


def bring_in(house: House, readings: list[tuple[int, int]], store: str = "C1", **given: Any) -> None:
    acts.import_readings(
        house.reg, by=house.student, store=store, readings=readings, name="logger.csv", mapping={}, **given
    )


def all_readings(house: House, store: str = "C1") -> list[tuple[int, int]]:
    return list(questions.temperatures(house.reg, store, LONG_AGO, LATER))


def all_episodes(house: House) -> list[Episode]:
    return list(questions.episodes(house.reg, LONG_AGO, LATER))


def refused(house: House, act: Any, *args: Any, **given: Any) -> Refusal:
    """The refusal of an act that writes nothing."""
    before = questions.seal(house.reg)
    with pytest.raises(Refusal) as caught:
        act(*args, **given)
    assert caught.value.sentence.endswith(".")
    assert questions.seal(house.reg) == before
    return caught.value


# ------------------------------------------------------------------------------------------------- probes


def test_a_probe_keeps_its_newest_check_even_when_an_older_one_is_written_late(house: House) -> None:
    probe = acts.add_probe(house.reg, by=house.tutor, name="blue").code
    other = acts.add_probe(house.reg, by=house.tutor, name="red").code
    assert probe != other
    acts.check_probe(house.reg, by=house.student, probe=probe, ice_tenths_c=2, boiling_tenths_c=996)
    acts.check_probe(
        house.reg, by=house.student, probe=probe, ice_tenths_c=-9, happened_at=START - timedelta(days=2)
    )
    first, second = questions.probes(house.reg)
    assert (first.checked_at, first.ice_tenths_c, first.boiling_tenths_c) == (START, 2, 996)
    assert (second.checked_at, second.ice_tenths_c) == (None, None)


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({}, "ice_tenths_c"),
        ({"ice_tenths_c": -501}, "ice_tenths_c"),
        ({"boiling_tenths_c": 1_201}, "boiling_tenths_c"),
        ({"ice_tenths_c": 1, "probe": "T99"}, "probe"),
        ({"ice_tenths_c": 1, "happened_at": START + timedelta(hours=1)}, "happened_at"),
    ],
)
def test_a_check_that_cannot_be_is_refused(house: House, given: dict[str, Any], field: str) -> None:
    probe = acts.add_probe(house.reg, by=house.tutor, name="blue").code
    whole = {"by": house.student, "probe": probe, **given}
    assert refused(house, acts.check_probe, house.reg, **whole).field == field


def test_a_probe_without_a_name_is_none(house: House) -> None:
    assert refused(house, acts.add_probe, house.reg, by=house.tutor, name=" \u200b").field == "name"


# ------------------------------------------------------------------------------------------------- rounds


def test_a_round_reads_every_store_at_one_time_and_says_when_it_was(stores: House) -> None:
    cold = freezer(stores)
    take(stores, ("C1", 31), (cold, -185), happened_at=START - timedelta(hours=2))
    assert questions.last_readings(stores.reg) == {
        "C1": (START - timedelta(hours=2), 31), cold: (START - timedelta(hours=2), -185),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("readings", "given"),
    [
        ([], {}),
        ([("C9", 30)], {}),
        ([("C1", 601)], {}),
        ([("C1", -501)], {}),
        ([("C1", 30), ("C1", 31)], {}),
        ([("C1", 30)], {"probe": "T99"}),
        ([("C1", 30)], {"happened_at": START + timedelta(minutes=6)}),
        ([("C1", 30)], {"happened_at": datetime(1999, 12, 31, tzinfo=UTC)}),
        ([("C1.R1", 30)], {}),
    ],
)
def test_a_round_that_cannot_be_is_refused_whole(
    house: House, readings: list[tuple[str, int]], given: dict[str, Any]
) -> None:
    refused(house, take, house, *readings, **given)
    assert questions.last_readings(house.reg) == {}


def test_an_officer_takes_no_round(house: House) -> None:
    refused(house, take, house, ("C1", 30), by=house.officer)


def test_a_second_reading_of_one_instant_takes_the_place_of_the_first(house: House) -> None:
    take(house, ("C1", 90))
    take(house, ("C1", 30))
    assert all_readings(house) == [(seconds(START), 30)]
    acts.rebuild(house.reg)
    assert all_readings(house) == [(seconds(START), 30)]


# ------------------------------------------------------------------------------------------ loggers' files

MOMENT = seconds(START)


@pytest.mark.parametrize(
    "readings",
    [
        [],
        [(MOMENT, 601)],
        [(MOMENT, -501)],
        [(-1, 30)],
        [(MOMENT, 30), (MOMENT + 301, 30)],  # five minutes ahead of the clock and a second
    ],
)
def test_readings_that_cannot_be_are_refused_all_together(
    house: House, readings: list[tuple[int, int]]
) -> None:
    refused(house, bring_in, house, readings)
    refused(house, bring_in, house, [(MOMENT, 30)], store="C9")
    assert all_readings(house) == []


def test_too_many_readings_at_once_are_refused(house: House) -> None:
    class Endless(list[tuple[int, int]]):
        def __len__(self) -> int:
            return MOST_READINGS + 1

        def __bool__(self) -> bool:
            return True

    assert "Split the file" in refused(house, bring_in, house, Endless()).what_to_do


@pytest.mark.parametrize("readings", [[(10, 30), (10, 31)], [(20, 30), (10, 31)]])
def test_readings_out_of_order_are_a_fault_of_the_caller(
    house: House, readings: list[tuple[int, int]]
) -> None:
    with pytest.raises(ValueError, match="sorted"):
        bring_in(house, readings)


@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(
        st.dictionaries(
            st.integers(0, 300).map(lambda n: MOMENT - 60 * n), st.integers(-500, 600), min_size=1
        ),
        min_size=1,
        max_size=4,
    )
)
def test_files_that_overlap_come_out_as_one_dictionary_written_over_and_over(
    tmp_path_factory: pytest.TempPathFactory, files: list[dict[int, int]]
) -> None:
    house = House(tmp_path_factory.mktemp("files") / "larder.register")
    plain: dict[int, int] = {}
    try:
        for file in files:
            bring_in(house, sorted(file.items()))
            plain |= file
        assert all_readings(house) == sorted(plain.items())
        acts.rebuild(house.reg)
        assert all_readings(house) == sorted(plain.items())
        assert questions.check(house.reg) == ()
    finally:
        house.close()


# --------------------------------------------------------------------------------------- warm times, gaps


def minutes(
    *tenths: int, first: datetime = START - timedelta(days=1), apart: int = 10
) -> list[tuple[int, int]]:
    return [(seconds(first) + 60 * apart * at, one) for at, one in enumerate(tenths)]


def test_a_freezer_is_warm_by_its_own_limit_and_a_chill_by_its_own(stores: House) -> None:
    cold = freezer(stores)
    bring_in(stores, minutes(*[-149] * 8, -160), store=cold)
    bring_in(stores, minutes(*[-149] * 8, -160), store="C1")
    (warm,) = all_episodes(stores)
    assert (warm.store, warm.sort, warm.limit_tenths_c, warm.highest_tenths_c) == (cold, "warm", -150, -149)


def test_the_kitchen_s_own_figures_decide_what_is_warm_and_what_is_a_gap(house: House) -> None:
    bring_in(house, minutes(30, *[45] * 6, 30))
    assert all_episodes(house) == []
    for name, value in (
        ("chill_limit_tenths_c", "44"),
        ("tolerance_minutes", "59"),
        ("reading_minutes", "6"),
    ):
        acts.set_policy(house.reg, by=house.tutor, name=name, value=value, reason="our plan")
    sorts = [one.sort for one in all_episodes(house)]
    assert sorts.count("gap") == 7, "ten minutes apart where six are asked is a gap each time"
    acts.set_policy(house.reg, by=house.tutor, name="reading_minutes", value="10", reason="as the logger")
    (warm,) = all_episodes(house)
    assert (warm.sort, warm.highest_tenths_c, warm.limit_tenths_c) == ("warm", 45, 44)


def test_what_was_done_stands_beside_it_and_a_gap_stays_a_gap(house: House) -> None:
    bring_in(house, [(MOMENT - 200_000, 30), (MOMENT - 60, 30)])
    (gap,) = all_episodes(house)
    acts.answer_episode(
        house.reg, by=house.technician, store="C1", first_at=gap.first_at, last_at=gap.last_at, sort="gap",
        action="logger's battery was flat", result="new one in",
    )  # fmt: skip
    (after,) = all_episodes(house)
    assert (after.sort, after.action, after.result, after.answered_by) == (
        "gap", "logger's battery was flat", "new one in", "WP",
    )  # fmt: skip
    assert (after.first_at, after.last_at) == (gap.first_at, gap.last_at)
    acts.answer_episode(
        house.reg, by=house.tutor, store="C1", first_at=gap.first_at, last_at=gap.last_at, sort="gap",
        action="and the door was shut",
    )  # fmt: skip
    assert all_episodes(house)[0].action == "and the door was shut", "the last answer is shown"


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"sort": "cold"}, "sort"),
        ({"action": "  "}, "action"),
        ({"action": "x" * 501}, "action"),
        ({"result": "x" * 501}, "result"),
        ({"last_at": START - timedelta(days=9)}, "last_at"),
        ({"store": "C9"}, "store"),
    ],
)
def test_an_answer_that_says_nothing_is_refused(house: House, given: dict[str, Any], field: str) -> None:
    whole = {
        "by": house.technician, "store": "C1", "first_at": START - timedelta(hours=2), "last_at": START,
        "sort": "warm", "action": "door shut", **given,
    }  # fmt: skip
    assert refused(house, acts.answer_episode, house.reg, **whole).field == field


@pytest.mark.parametrize("seed", range(6))
def test_what_stood_in_a_warm_store_is_what_an_hourly_walk_found(stores: House, seed: int) -> None:
    """Carcasses are hung, carried between stores and used up at random; each hour all is written down."""
    chance = random.Random(seed)
    cold = freezer(stores)
    bodies: list[str] = []
    seen: list[tuple[datetime, set[str]]] = []
    for _hour in range(30):
        free = [place.code for place in questions.free_places(stores.reg)]
        match chance.choice(["hang", "carry", "carry", "bin", "rest"]):
            case "hang":
                bodies.append(stores.dressed(place=chance.choice(free)))
            case "carry" if bodies:
                acts.move_lot(
                    stores.reg, by=stores.student, code=chance.choice(bodies), to=chance.choice(free)
                )
            case "bin" if bodies:
                stores.bin(bodies.pop(chance.randrange(len(bodies))))
        here = {code for code in bodies if questions.lot(stores.reg, code).place.startswith(cold)}
        stores.clock.go(minutes=30)
        seen.append((stores.clock.now, here))
        stores.clock.go(minutes=30)
    first, last = sorted(chance.sample(range(30), 2))
    begins, ends = seen[first][0], seen[last][0]
    readings = [
        (seconds(begins) - 60, -200),
        (seconds(begins), 0),
        (seconds(ends), 0),
        (seconds(ends) + 60, -200),
    ]
    stores.clock.go(hours=2)
    acts.set_policy(stores.reg, by=stores.tutor, name="reading_minutes", value="10080", reason="one episode")
    acts.set_policy(stores.reg, by=stores.tutor, name="tolerance_minutes", value="0", reason="any time")
    bring_in(stores, readings, store=cold)
    (warm,) = [one for one in all_episodes(stores) if one.sort == "warm"]
    assert (warm.first_at, warm.last_at) == (begins, ends)
    stood = set().union(*(here for at, here in seen if begins <= at <= ends))
    assert set(warm.lots) == stood


# -------------------------------------------------------------------------------------------- store failure


def test_a_store_that_failed_holds_all_in_it_each_under_its_own_hold(stores: House) -> None:
    inside = [stores.dressed(place=f"C1.R1.0{hook}") for hook in (1, 2)]
    outside = stores.dressed(place=f"{freezer(stores)}.R1.01")
    pack = stores.pack(inside[0])
    acts.move_lot(stores.reg, by=stores.student, code=pack, to="C1.S1")
    done = acts.store_failed(stores.reg, by=stores.technician, store="C1", reason="compressor stopped")
    assert set(done.codes) == {*inside, pack}
    assert len(done.created) == len(set(done.created)) == 3
    assert [stores.state(code) for code in (*inside, pack, outside)] == ["on hold"] * 3 + ["hanging"]
    mine = {hold.code: hold.id for hold in questions.holds(stores.reg)}
    with pytest.raises(Refusal, match="You placed this hold"):
        acts.release_hold(stores.reg, by=stores.technician, hold=mine[inside[1]], reason="cold enough")
    acts.release_hold(stores.reg, by=stores.tutor, hold=mine[inside[1]], reason="4 degrees at the core")
    assert stores.state(inside[1]) == "hanging"
    assert stores.state(pack) == "on hold"
    acts.rebuild(stores.reg)
    assert questions.check(stores.reg) == ()
    assert stores.state(inside[1]) == "hanging"


def test_what_is_cut_later_from_what_stood_there_is_held_too(house: House) -> None:
    carcass = house.dressed(place="C1.R1.01")
    pack = house.pack(carcass)
    acts.store_failed(house.reg, by=house.technician, store="C1", reason="door stood open")
    assert house.state(pack) == "on hold"
    with pytest.raises(Refusal):
        house.dish((pack, 200))


def test_with_the_hour_given_what_was_carried_out_since_is_held_and_what_came_before_is_not(
    stores: House,
) -> None:
    cold = freezer(stores)
    before, since, still = (stores.dressed(place=f"C1.R1.0{hook}") for hook in (1, 2, 3))
    stores.clock.go(hours=1)
    acts.move_lot(stores.reg, by=stores.student, code=before, to=f"{cold}.R1.01")
    stores.clock.go(hours=1)
    failed_at = stores.clock.now
    stores.clock.go(hours=1)
    acts.move_lot(stores.reg, by=stores.student, code=since, to=f"{cold}.R1.02")
    stores.clock.go(hours=1)
    acts.store_failed(stores.reg, by=stores.technician, store="C1", reason="fuse out", happened_at=failed_at)
    assert [stores.state(code) for code in (before, since, still)] == ["hanging", "on hold", "on hold"]


@pytest.mark.parametrize(("store", "reason"), [("C9", "x"), ("C1", " "), ("C1", "tripped")])
def test_a_failure_of_nothing_or_without_a_word_is_refused(house: House, store: str, reason: str) -> None:
    refused(house, acts.store_failed, house.reg, by=house.tutor, store=store, reason=reason)
