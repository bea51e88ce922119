"""Building the sample again gives the same two years, and a larder at work whatever day it ends on."""

import re
import sqlite3
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from gametrace.register import questions
from gametrace.register.clock import wall_instant
from gametrace.register.opening import open_register
from gametrace.store.journal import entries


def _without_cards(value: Any) -> Any:
    """An entry's body without the digests of name cards, which are salted anew at each building."""
    if isinstance(value, dict):
        return {name: _without_cards(one) for name, one in value.items() if name != "card"}
    return [_without_cards(one) for one in value] if isinstance(value, list) else value


def _told(path):
    with open_register(path, create=False) as register, register.store.reading() as connection:
        return [
            (one.seq, one.kind, one.happened_at, one.written_at, one.by, one.key, _without_cards(one.body))
            for one in entries(connection)
        ]


def test_the_same_seed_and_last_day_tell_the_same_story(build, sample, tmp_path):
    again = tmp_path / "again.register"
    assert build(again) == sample.marks
    assert _told(again) == _told(sample.path)


def test_a_summer_ending_is_whole_and_alive_too(build, tmp_path):
    last_day = date(2026, 7, 31)  # a Friday in the holidays, with the female seasons shut
    out = tmp_path / "summer.register"
    marks = build(out, last_day=last_day)
    morning = wall_instant(last_day + timedelta(days=1), 8)
    with open_register(out, clock=lambda: morning, create=False) as register:
        assert questions.check(register) == ()
        assert [lot.code for lot in questions.open_blocks(register)] == [marks["open block"]]
        found = questions.deliveries(register, limit=1_000)
        codes = {finding.code for one in found for finding in one.findings}
        assert {code for code in codes if code.startswith("season")} == {"season-open"}


def test_the_built_file_is_one_plain_file(sample):
    """Everything stands in the file itself: "immutable" leaves what may lie beside it unread."""
    connection = sqlite3.connect(f"file:{sample.path}?mode=ro&immutable=1", uri=True)
    try:
        assert connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        assert connection.execute("SELECT COUNT(*) FROM entry").fetchone()[0] == len(_told(sample.path))
    finally:
        connection.close()


def test_the_words_the_readme_tells_to_search_for_find_something(fenmoor):
    readme = (Path(__file__).parents[2] / "sample_db" / "README.md").read_text(encoding="utf-8")
    table = readme.split("## What to look for")[1].split("## How it is made")[0]
    words = re.findall(r"`([A-Z][^`]+)`", table)
    assert len(words) >= 20
    for one in words:
        assert questions.find(fenmoor, one), one
