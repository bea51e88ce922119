"""A register on a server opened only to be looked at: it is the server that refuses to write."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from larder_house import House
from server import Server
from sqlalchemy import Connection

from gametrace.domain.errors import Trouble
from gametrace.register import acts, questions
from gametrace.register.opening import Register, look_at_register

WRITES = (
    "INSERT INTO setting (key, value) VALUES ('x', 'y')",
    "UPDATE entry SET text = '' WHERE seq = 1",
    "DELETE FROM lot",
    "DROP TABLE hold",
    "CREATE TABLE more (a INTEGER)",
    "UPDATE gametrace_register SET version = 9",
    "TRUNCATE stop",
)


@pytest.fixture
def looked(house: House) -> Iterator[Register]:
    """As the officer's view opens it."""
    house.receive()
    with house.reg.looked_at() as register:
        yield register


@pytest.mark.parametrize("statement", WRITES)
def test_the_server_refuses_every_kind_of_writing(looked: Register, statement: str) -> None:
    with pytest.raises(Trouble, match="may only be read"), looked.store.reading() as connection:
        connection.exec_driver_sql(statement)


@pytest.mark.parametrize("begin", ["", "BEGIN", "BEGIN ISOLATION LEVEL SERIALIZABLE"])
def test_whatever_is_begun_in_such_a_session_the_server_itself_refuses(looked: Register, begin: str) -> None:
    """Past our own transactions: the session was told so when it began."""
    import psycopg

    raw = looked.store._engine.raw_connection()
    try:
        if begin:
            raw.driver_connection.execute(begin)
        with pytest.raises(psycopg.errors.ReadOnlySqlTransaction):
            raw.driver_connection.execute("DELETE FROM lot")
    finally:
        raw.close()


def test_a_look_cannot_be_turned_into_writing_on_the_way(looked: Register) -> None:
    with pytest.raises(Trouble, match="may only be read"), looked.store.reading() as connection:
        _write_after_all(connection)


def _write_after_all(connection: Connection) -> None:
    connection.exec_driver_sql("SELECT COUNT(*) FROM lot")
    connection.exec_driver_sql("SET TRANSACTION READ WRITE")


def test_a_usual_open_begins_its_questions_read_only_too(house: House) -> None:
    with pytest.raises(Trouble, match="may only be read"), house.reg.store.reading() as connection:
        connection.exec_driver_sql("DELETE FROM lot")
    house.receive()


def test_an_act_is_refused_in_a_sentence_and_nothing_is_written(looked: Register, house: House) -> None:
    before = questions.seal(house.reg)
    with pytest.raises(Trouble, match="only to be looked at"):
        acts.add_supplier(looked, by=house.tutor, name="Nobody", address="Nowhere")
    assert questions.seal(house.reg) == before == questions.seal(looked)


def test_students_names_are_out_of_sight_and_what_is_written_meanwhile_is_seen(
    looked: Register, house: House
) -> None:
    with looked.store.reading() as connection:
        cards = "".join(connection.exec_driver_sql("SELECT card FROM name_card").scalars())
    assert "Ida Marrow" in cards
    assert "Una Skerry" not in cards
    count = len(questions.in_the_house(looked))
    house.receive()
    assert len(questions.in_the_house(looked)) == count + 1


def test_an_older_register_asks_to_be_opened_once_in_the_usual_way(house: House) -> None:
    with house.reg.store.writing() as connection:
        connection.exec_driver_sql("UPDATE gametrace_register SET version = 1")
    with pytest.raises(Trouble, match="another version"):
        look_at_register(house.path)


def test_where_there_is_no_register_nothing_is_made(server: Server) -> None:
    with pytest.raises(Trouble, match="There is no register"):
        look_at_register(server.new_place())
