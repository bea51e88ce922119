"""A register on a PostgreSQL server answers as a file does, and keeps its promises without the cable."""

from __future__ import annotations

import sqlite3
import time
from contextlib import closing
from pathlib import Path

import pytest
import stations
from larder_house import House
from server import Server

from gametrace.domain.errors import Refusal, Trouble
from gametrace.register import acts, keeping, questions
from gametrace.register.acts import Out, TagHandOver
from gametrace.register.opening import open_register


def cook(house: House) -> tuple[str, str]:
    """A doe to a dish by way of the block; their codes."""
    doe = house.receive(tag="Wald 7")
    acts.dress_carcass(
        house.reg, by=house.tutor, code=doe, outputs=[Out("skin", 3_000)], tag=TagHandOver("printed")
    )
    loin = acts.weigh_out(
        house.reg, by=house.tutor, code=doe, outputs=[Out("loin", 2_000, is_pack=True, pack_state="vacuum")]
    ).code
    dish = acts.make_dish(
        house.reg, by=house.tutor, name="Loin, beetroot", occasion="Lunch", on=house.reg.today(), portions=9,
        inputs=[(loin, 1_500)],
    ).code  # fmt: skip
    return doe, dish


def told(reg, dish: str) -> list[tuple[str, int, object]]:
    return [(animal.code, animal.grams, animal.share) for animal in questions.trace(reg, dish).animals]


def test_a_dish_is_traced_to_its_animal_and_the_check_is_empty(house: House) -> None:
    doe, dish = cook(house)
    assert told(house.reg, dish) == [(doe, 1_500, 1)]
    assert questions.check(house.reg) == ()
    assert keeping.rebuild(house.reg) == questions.seal(house.reg).count
    assert questions.check(house.reg) == ()


def test_words_are_found_whatever_their_case_as_in_a_file(house: House) -> None:
    doe, dish = cook(house)
    assert [animal.code for animal in questions.trace(house.reg, "wALD 7").animals] == [doe]
    assert dish in [hit.code for hit in questions.find(house.reg, "LOIN, beet")]


def test_a_refused_act_writes_nothing(house: House) -> None:
    doe = house.receive()
    before = questions.seal(house.reg)
    with pytest.raises(Refusal, match="in the skin"):
        acts.weigh_out(house.reg, by=house.tutor, code=doe, outputs=[Out("loin", 500)])
    assert questions.seal(house.reg) == before


def test_it_moves_to_a_file_and_back_with_its_seal_unchanged(
    house: House, server: Server, tmp_path: Path
) -> None:
    _, dish = cook(house)
    head = questions.seal(house.reg)
    file, back = tmp_path / "moved.register", server.new_place()
    assert keeping.move(house.reg, file) == head
    for place in (file, back):
        if place is back:
            with open_register(file, clock=house.clock) as moved:
                assert keeping.move(moved, back) == head
        with open_register(place, clock=house.clock, create=False) as moved:
            assert questions.seal(moved) == head
            assert told(moved, dish) == told(house.reg, dish)
            assert questions.check(moved) == ()
            assert questions.people(moved) == questions.people(house.reg)


def test_nothing_is_moved_over_a_register(house: House, tmp_path: Path) -> None:
    file = tmp_path / "there.register"
    keeping.move(house.reg, file)
    with pytest.raises(Trouble, match="already holds a register"):
        keeping.move(house.reg, file)


def test_a_backup_of_a_server_is_a_whole_file(house: House, tmp_path: Path) -> None:
    _, dish = cook(house)
    kept = acts.back_up(house.reg, tmp_path / "copy.register")
    with closing(sqlite3.connect(kept)) as raw:
        assert raw.execute("SELECT COUNT(*) FROM entry").fetchone()[0] == questions.seal(house.reg).count
    with open_register(kept, clock=house.clock, create=False) as copy:
        assert questions.check(copy) == ()
        assert told(copy, dish) == told(house.reg, dish)


def test_a_pulled_cable_is_told_in_a_sentence_and_the_same_act_is_written_once(server: Server) -> None:
    house = House(server.new_place())
    doe = house.receive()
    server.stop()
    with pytest.raises(Trouble, match="server does not answer"):
        acts.hold_lot(house.reg, by=house.tutor, code=doe, reason="smell", key="k1")
    server.start()
    first = acts.hold_lot(house.reg, by=house.tutor, code=doe, reason="smell", key="k1")
    again = acts.hold_lot(house.reg, by=house.tutor, code=doe, reason="smell", key="k1")
    assert (first.seq, again.was_repeat) == (again.seq, True)
    assert len(questions.holds(house.reg)) == 1
    assert questions.check(house.reg) == ()
    house.close()


def test_another_stations_act_is_heard_and_hearing_outlives_the_server(server: Server) -> None:
    place = server.new_place()
    house = House(place)
    watch = house.reg.watch()
    assert not watch.has_heard()
    with open_register(place, clock=house.clock) as other:
        acts.enrol_person(other, by=house.tutor, name="Pip Rudd", initials="PR", role="student")
    assert heard(watch)
    assert not watch.has_heard()
    server.stop()
    assert not watch.has_heard()
    server.start()
    assert heard(watch), "after the server was away everything may have changed"
    watch.close()
    house.close()


def heard(watch) -> bool:
    """Whether it hears while we keep asking; loopback needs a moment, a busy machine a longer one."""
    end = time.monotonic() + 10
    while time.monotonic() < end:
        if watch.has_heard():
            return True
    return False


def test_one_registers_acts_are_not_heard_by_another_on_the_same_server(server: Server) -> None:
    one, two = House(server.new_place()), House(server.new_place())
    watch = one.reg.watch()
    two.receive()
    assert not any(watch.has_heard() for _ in range(200))
    for house in (one, two):
        house.close()
    watch.close()


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("larder@127", "nobody@127"), "server does not"),
        (("/postgres?", "/elsewhere?"), "server does not answer|no such database"),
        (("psycopg://", "nothing://"), "cannot be read"),
    ],
)
def test_an_address_that_leads_nowhere_is_told_in_a_sentence(
    server: Server, change: tuple[str, str], words: str
) -> None:
    with pytest.raises(Trouble, match=words):
        open_register(server.new_place().replace(*change), create=False)


def test_no_register_is_made_where_none_was_asked_for(server: Server) -> None:
    with pytest.raises(Trouble, match="There is no register"):
        open_register(server.new_place(), create=False)


def test_a_password_is_never_shown(server: Server) -> None:
    place = server.new_place().replace("larder@", "larder:secret@")
    with open_register(place) as register:
        assert "secret" not in register.place


def test_a_newer_register_is_refused(house: House) -> None:
    with house.reg.store.writing() as connection:
        connection.exec_driver_sql("UPDATE gametrace_register SET version = version + 1")
    with pytest.raises(Trouble, match="newer gametrace"):
        open_register(house.path, create=False)


def test_an_older_register_has_its_tables_played_anew(house: House) -> None:
    _, dish = cook(house)
    with house.reg.store.writing() as connection:
        connection.exec_driver_sql("UPDATE gametrace_register SET version = 0")
        connection.exec_driver_sql("DELETE FROM dish")
    with open_register(house.path, clock=house.clock, create=False) as register:
        assert [lot.code for lot in questions.dishes(register)] == [dish]


@pytest.mark.slow
def test_eight_stations_at_once_lose_and_double_nothing(server: Server) -> None:
    outcome = stations.run(server.new_place(), 8, 25, seed=3)
    assert outcome.wrong == []
    assert outcome.acts > 60
