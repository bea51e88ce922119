"""The register of many years is what the acts would have written: its tables are what its journal plays to.

The long form is run by hand: packaging/large.
"""

from __future__ import annotations

import sqlite3
import sys
from pathlib import Path

import pytest

HARNESS = Path(__file__).resolve().parents[2] / "packaging" / "harness"
sys.path.insert(0, str(HARNESS))

import years_register  # noqa: E402 -- scripts, not part of the package
import years_story  # noqa: E402

from gametrace.register import acts, questions  # noqa: E402
from gametrace.register.opening import open_register  # noqa: E402
from gametrace.store.health import fingerprint  # noqa: E402
from gametrace.store.tables import READING_TABLES  # noqa: E402


@pytest.fixture(scope="module")
def years(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("years") / "years.register"
    years_register.make(path, 0.003)
    return path


def test_its_tables_are_what_a_rebuild_makes_of_its_journal(years: Path) -> None:
    with open_register(years, clock=years_story.Clock(years_register.TODAY)) as register:
        assert [finding.sentence for finding in questions.check(register)] == []
        with register.store.reading() as connection:
            before = {table: fingerprint(connection, table) for table in READING_TABLES}
        acts.rebuild(register)
        with register.store.reading() as connection:
            assert {table: fingerprint(connection, table) for table in READING_TABLES} == before


def test_it_holds_what_a_busy_house_makes_of_ten_carcasses(years: Path) -> None:
    counted = years_register.counts(years)
    batches = 30
    assert counted["carcasses"] == 10 * batches + years_story.FEAST_CARCASSES + years_story.SUPPLIERS
    assert counted["dishes"] > 30 * batches
    assert counted["lots"] >= 100 * batches
    assert counted["lineage rows"] >= 130 * batches


def test_its_entries_follow_one_another_in_time_and_no_hook_holds_two_animals(years: Path) -> None:
    connection = sqlite3.connect(years)
    try:
        written = [when for (when,) in connection.execute("SELECT written_at FROM happening ORDER BY seq")]
        tags = [tag for (tag,) in connection.execute("SELECT tag FROM carcass")]
    finally:
        connection.close()
    assert written == sorted(written)
    assert len(set(tags)) >= len(tags) - years_story.SUPPLIERS


def test_the_harvest_pot_has_five_hundred_lots_above_it(years: Path) -> None:
    with open_register(years, clock=years_story.Clock(years_register.TODAY)) as register:
        (pot,) = [hit for hit in questions.find(register, "Harvest pot") if hit.kind == "dish"]
        told = questions.trace(register, pot.code)
    assert len(told.back) + len(told.animals) >= 500
    assert len(told.animals) == years_story.FEAST_CARCASSES
