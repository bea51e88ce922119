"""The shape of a register file: strict, whole numbers, private, ours."""

import sqlite3
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest
from larder_house import House
from sqlalchemy.exc import IntegrityError
from whole_house import live

from gametrace.register import acts, questions
from gametrace.register.opening import default_path
from gametrace.store.engine import APPLICATION_ID, SCHEMA_VERSION
from gametrace.store.tables import KEPT_TABLES, READING_TABLES, metadata


@pytest.fixture
def raw(house: House) -> Iterator[sqlite3.Connection]:
    connection = sqlite3.connect(house.path)
    yield connection
    connection.close()


def test_every_table_is_strict(raw: sqlite3.Connection) -> None:
    """But the index of words, which is SQLite's own and is filled from a strict table."""
    rows = raw.execute("SELECT name, strict FROM pragma_table_list WHERE schema = 'main'").fetchall()
    ours = [(name, strict) for name, strict in rows if not name.startswith(("sqlite_", "lot_index"))]
    assert {name for name, strict in ours if not strict} == set()
    assert {name for name, _ in ours} == set(metadata.tables)


def test_columns_hold_text_and_whole_numbers_only(raw: sqlite3.Connection) -> None:
    for table in metadata.tables:
        kinds = {row[2] for row in raw.execute(f"PRAGMA table_info({table})")}
        assert kinds <= {"TEXT", "INTEGER"} | ({"BLOB"} if table == "attachment" else set()), table


def test_a_fraction_cannot_be_written_as_a_weight(house: House, raw: sqlite3.Connection) -> None:
    house.receive()
    with pytest.raises(sqlite3.IntegrityError, match="cannot store REAL"):
        raw.execute("UPDATE lot SET grams_left = 0.5")


@pytest.mark.parametrize("table", ["lineage", "stop", "lot_entry"])
def test_the_graph_has_no_row_ids_and_lineage_can_be_walked_both_ways(
    raw: sqlite3.Connection, table: str
) -> None:
    wr = raw.execute("SELECT wr FROM pragma_table_list WHERE name = ?", (table,)).fetchone()[0]
    assert wr == 1
    plans = " ".join(
        row[3]
        for side in ("child", "parent")
        for row in raw.execute(f"EXPLAIN QUERY PLAN SELECT grams FROM lineage WHERE {side} = 1")
    )
    assert "SCAN" not in plans
    assert "COVERING INDEX lineage_down" in plans


def test_the_file_says_whose_it_is(raw: sqlite3.Connection) -> None:
    assert raw.execute("PRAGMA application_id").fetchone()[0] == APPLICATION_ID
    assert raw.execute("PRAGMA user_version").fetchone()[0] == SCHEMA_VERSION
    assert raw.execute("PRAGMA journal_mode").fetchone()[0] == "wal"


@pytest.mark.parametrize(
    ("pragma", "value"),
    [("foreign_keys", 1), ("synchronous", 2), ("journal_mode", "wal"), ("secure_delete", 1)],
)
def test_every_connection_of_ours_is_set_safely(house: House, pragma: str, value: object) -> None:
    for manner in (house.reg.store.reading, house.reg.store.writing):
        with manner() as connection:
            assert connection.exec_driver_sql(f"PRAGMA {pragma}").scalar() == value


def test_foreign_keys_are_enforced(house: House) -> None:
    with pytest.raises(IntegrityError), house.reg.store.writing() as connection:
        connection.exec_driver_sql("INSERT INTO lineage VALUES (1, 2, 3)")


def test_a_new_register_and_its_companions_are_for_its_owner_only(house: House) -> None:
    house.receive()
    for path in house.path.parent.iterdir():
        assert stat.S_IMODE(path.stat().st_mode) == 0o600, path.name


def test_a_backup_is_private_whole_and_no_part_is_left(house: House, tmp_path: Path) -> None:
    code = house.receive()
    target = acts.back_up(house.reg, tmp_path / "stick" / "copy.register")
    assert stat.S_IMODE(target.stat().st_mode) == 0o600
    assert [path.name for path in target.parent.iterdir()] == ["copy.register"]
    from gametrace.register.opening import open_register

    with open_register(target, create=False) as copy:
        assert questions.seal(copy) == questions.seal(house.reg)
        assert questions.carcass(copy, code).code == code
        assert questions.check(copy) == ()


def test_a_backup_is_never_written_over_the_register_itself(house: House) -> None:
    from gametrace.domain.errors import Trouble

    for target in (house.path, house.path.parent):
        with pytest.raises(Trouble, match="cannot be written over"):
            acts.back_up(house.reg, target)
    assert questions.check(house.reg) == ()


def test_every_table_is_either_kept_or_can_be_rebuilt() -> None:
    assert set(KEPT_TABLES) | set(READING_TABLES) == set(metadata.tables)
    assert not set(KEPT_TABLES) & set(READING_TABLES)


def test_every_reading_table_is_filled_by_some_act(house: House) -> None:
    """Otherwise the comparison after a rebuild would compare nothing with nothing."""
    live(house, house.path.parent / "backups")
    with house.reg.store.reading() as connection:
        empty = {
            table
            for table in READING_TABLES
            if not connection.exec_driver_sql(f"SELECT COUNT(*) FROM {table}").scalar()
        }
    assert empty == set()


def test_the_larder_s_own_register_lives_in_the_user_s_data_folder() -> None:
    """platformdirs: the data folder of the user, on each system."""
    assert default_path().name == "larder.register"
    assert default_path().parent.name == "gametrace"


def test_a_path_may_hold_what_means_something_in_a_url(tmp_path: Path) -> None:
    odd = tmp_path / "a?b#c%20d & ü" / "lar?der=1#.register"
    house = House(odd)
    code = house.receive()
    house.close()
    from gametrace.register.opening import open_register

    with open_register(odd, create=False) as again:
        assert questions.carcass(again, code).code == code
    assert [path.name for path in odd.parent.iterdir()] == [odd.name]
