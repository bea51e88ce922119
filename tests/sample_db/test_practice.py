"""The practice register: private, fresh, never over another file, built once for a day."""

import stat
from datetime import date
from pathlib import Path

import pytest

from gametrace.domain.errors import Trouble
from gametrace.register import practice


class _Builder:
    """Stands in for the builder, which takes seconds: writes a word and counts."""

    def __init__(self) -> None:
        self.last_days: list[date] = []

    def build(self, out: Path, *, last_day: date) -> dict[str, str]:
        self.last_days.append(last_day)
        out.write_text(f"two years to {last_day}")
        return {}


@pytest.fixture
def builder(tmp_path, monkeypatch):
    made = _Builder()
    monkeypatch.setattr(practice, "_builder", lambda _sample: made)
    monkeypatch.setattr(practice, "user_cache_path", lambda *_args, **_options: tmp_path / "cache")
    return made


def _mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_a_copy_is_private_and_so_is_its_folder(builder, tmp_path):
    copy = practice.practice_register(tmp_path / "mine", today=date(2026, 11, 25))
    assert _mode(copy) == 0o600
    assert _mode(copy.parent) == 0o700
    assert copy.read_text() == "two years to 2026-11-24"


def test_without_a_folder_it_gets_a_private_one_of_its_own(builder, monkeypatch, tmp_path):
    monkeypatch.setattr(practice.tempfile, "tempdir", str(tmp_path))
    copy = practice.practice_register()
    assert copy.parent.parent == tmp_path
    assert _mode(copy.parent) == 0o700


def test_a_second_copy_leaves_the_first_alone(builder, tmp_path):
    first = practice.practice_register(tmp_path / "mine")
    first.write_text("practised on")
    second = practice.practice_register(tmp_path / "mine")
    assert second != first
    assert first.read_text() == "practised on"


def test_it_is_built_once_a_day_and_old_days_are_thrown_away(builder, tmp_path):
    for today in (date(2026, 11, 25), date(2026, 11, 25), date(2026, 11, 26)):
        practice.practice_register(tmp_path / "mine", today=today)
    assert builder.last_days == [date(2026, 11, 24), date(2026, 11, 25)]
    kept = [one.name for one in (tmp_path / "cache" / "practice").iterdir()]
    assert len(kept) == 1
    assert kept[0].startswith("2026-11-25-")


def test_without_the_sample_it_says_so(builder, monkeypatch, tmp_path):
    elsewhere = tmp_path / "elsewhere" / "gametrace" / "__init__.py"
    monkeypatch.setattr(practice.gametrace, "__file__", str(elsewhere))
    with pytest.raises(Trouble, match="sample_db"):
        practice.practice_register(tmp_path / "mine")


def test_no_room_is_trouble_with_a_sentence(builder, tmp_path):
    blocked = tmp_path / "a file"
    blocked.write_text("")
    with pytest.raises(Trouble, match="cannot be laid out"):
        practice.practice_register(blocked / "mine")


def test_the_real_builder_is_found_beside_the_program():
    assert hasattr(practice._builder(practice._sample_folder()), "build")
