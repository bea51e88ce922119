"""A register of every version that was ever written opens in the newest, with the same animals in the pot.

The files beside this test are never changed: one is added when the tables change (raise SCHEMA_VERSION).
"""

from __future__ import annotations

import gzip
import shutil
import sqlite3
from datetime import UTC, datetime
from pathlib import Path

import pytest

from gametrace.register import questions
from gametrace.register.opening import open_register
from gametrace.store.engine import SCHEMA_VERSION

KEPT = sorted((Path(__file__).parent / "registers").glob("*.gz"))
AFTER_THE_DISH = datetime(2026, 12, 1, 9, 0, tzinfo=UTC)
ON_THE_PLATE = {"26-00001-P", "26-00002-N", "26-00003-L"}


@pytest.fixture(params=KEPT, ids=lambda file: file.name.split(".")[0])
def old(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    path = tmp_path / "old.register"
    path.write_bytes(gzip.decompress(request.param.read_bytes()))
    return path


def sealed(path: Path) -> list[tuple[str, str]]:
    connection = sqlite3.connect(path)
    try:
        return connection.execute("SELECT text, seal FROM entry ORDER BY seq").fetchall()
    finally:
        connection.close()


def test_it_opens_whole_and_its_entries_are_untouched(old: Path) -> None:
    before = sealed(old)
    with open_register(old, clock=lambda: AFTER_THE_DISH) as register:
        assert questions.check(register) == ()
        (dish,) = questions.dishes(register)
        assert {animal.code for animal in questions.trace(register, dish.code).animals} == ON_THE_PLATE
    assert sealed(old) == before
    connection = sqlite3.connect(old)
    assert connection.execute("PRAGMA user_version").fetchone()[0] == SCHEMA_VERSION
    connection.close()


def test_tables_that_stop_short_of_the_journal_are_played_on(old: Path) -> None:
    open_register(old).close()
    connection = sqlite3.connect(old)
    connection.execute("DELETE FROM happening WHERE seq > 20")
    connection.execute("DELETE FROM dish")
    connection.commit()
    connection.close()
    told: list[tuple[int, int]] = []
    with open_register(old, progress=lambda done, of: told.append((done, of))) as register:
        assert questions.check(register) == ()
        assert len(questions.dishes(register)) == 1
    assert told[-1][0] == told[-1][1] > 20


def test_a_register_of_a_version_to_come_is_refused_untouched(old: Path, tmp_path: Path) -> None:
    connection = sqlite3.connect(old)
    connection.execute(f"PRAGMA user_version = {SCHEMA_VERSION + 1}")
    connection.commit()
    connection.close()
    shutil.copy(old, tmp_path / "copy")
    with pytest.raises(Exception, match="newer gametrace"):
        open_register(old)
    assert old.read_bytes() == (tmp_path / "copy").read_bytes()
