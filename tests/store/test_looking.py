"""A register opened only to be looked at: it is the database that refuses, not a button that is missing."""

import shutil
import sqlite3
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy.exc import OperationalError

sys.path.insert(0, str(Path(__file__).parents[1] / "register"))

from larder_house import House

from gametrace.domain.errors import Trouble
from gametrace.register import acts, questions
from gametrace.register.opening import Register, look_at_register

WRITES = (
    "INSERT INTO setting (key, value) VALUES ('x', 'y')",
    "UPDATE entry SET text = '' WHERE seq = 1",
    "DELETE FROM lot",
    "DROP TABLE hold",
    "CREATE TABLE more (a INTEGER)",
    "PRAGMA user_version = 9",
)


@pytest.fixture
def house(tmp_path: Path) -> Iterator[House]:
    one = House(tmp_path / "larder.register")
    yield one
    one.close()


@pytest.fixture
def looked(house: House) -> Iterator[Register]:
    house.receive()
    with look_at_register(house.path, clock=house.clock) as register:
        yield register


@pytest.mark.parametrize("statement", WRITES)
def test_the_database_refuses_every_kind_of_writing(looked: Register, statement: str) -> None:
    with (
        pytest.raises((OperationalError, Trouble), match=r"readonly|only be read|read"),
        looked.store.reading() as connection,
    ):
        connection.exec_driver_sql(statement)


def test_even_with_query_only_taken_back_the_file_stays_shut(looked: Register) -> None:
    """Two locks: the connection's, and the way the file was opened."""
    raw = looked.store._engine.raw_connection()
    try:
        raw.execute("PRAGMA query_only = OFF")
        with pytest.raises(sqlite3.OperationalError, match="readonly"):
            raw.execute("DELETE FROM lot")
    finally:
        raw.close()


def test_an_act_is_refused_in_a_sentence_and_nothing_is_written(looked: Register, house: House) -> None:
    before = questions.seal(house.reg)
    with pytest.raises(Trouble, match="only to be looked at"):
        acts.add_supplier(looked, by=house.tutor, name="Nobody", address="Nowhere")
    assert questions.seal(house.reg) == before == questions.seal(looked)


def test_students_names_cannot_be_read_and_everybody_else_s_can(looked: Register, house: House) -> None:
    people = {one.code: one for one in questions.people(looked)}
    assert people[house.student].initials == house.student
    assert "Una" not in people[house.student].name
    assert people[house.tutor].initials == "IM"
    with looked.store.reading() as connection:
        cards = connection.exec_driver_sql("SELECT card FROM name_card").scalars().all()
    assert "Ida Marrow" in "".join(cards)
    assert "Una Skerry" not in "".join(cards)


def test_what_is_written_meanwhile_is_seen(looked: Register, house: House) -> None:
    count = len(questions.in_the_house(looked))
    house.receive()
    assert len(questions.in_the_house(looked)) == count + 1


def test_a_file_that_may_only_be_read_can_be_looked_at(house: House, tmp_path: Path) -> None:
    code = house.receive()
    house.close()
    copy = tmp_path / "stick" / "copy.register"
    copy.parent.mkdir()
    shutil.copy(house.path, copy)
    copy.chmod(0o400)
    with look_at_register(copy) as register:
        assert questions.lot(register, code).code == code


@pytest.mark.parametrize("name", ["nothing.register", "."])
def test_what_is_no_register_is_said_in_a_sentence(tmp_path: Path, name: str) -> None:
    with pytest.raises(Trouble, match=r"no register|is a folder"):
        look_at_register(tmp_path / name)


def test_an_older_register_asks_to_be_opened_once_in_the_usual_way(house: House) -> None:
    house.close()
    with sqlite3.connect(house.path) as connection:
        connection.execute("PRAGMA user_version = 1")
    connection.close()
    with pytest.raises(Trouble, match="another version"):
        look_at_register(house.path)
