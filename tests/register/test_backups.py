"""Copies that are known to be good, which of them stay, and a new register made from one."""

from __future__ import annotations

import os
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from larder_house import House

from gametrace.domain.errors import Refusal, Trouble
from gametrace.domain.rotation import kept
from gametrace.register import acts, questions
from gametrace.register.opening import open_register


def copies(folder: Path) -> list[Path]:
    return sorted(folder.glob("*"))


@pytest.mark.file
def test_a_backup_is_dated_whole_and_noted_with_its_seal(house: House, tmp_path: Path) -> None:
    house.receive()
    before = questions.seal(house.reg)
    acts.keep_backup(house.reg, by=house.tutor, folder=tmp_path / "stick")
    (copy,) = copies(tmp_path / "stick")
    assert copy.name == "larder 2026-11-12 09.00.00.register"
    assert copy.stat().st_mode & 0o777 == 0o600
    found = questions.look_into(copy)
    assert (found.larder, found.count, found.seal, found.findings) == (
        "Hob Lane Larder", before.count, before.head, (),
    )  # fmt: skip
    last = questions.last_backup(house.reg)
    assert (last.where, last.count, last.by) == (str(copy), before.count, house.tutor)


def test_nothing_new_asks_for_no_new_copy(house: House, tmp_path: Path) -> None:
    assert not questions.is_backed_up(house.reg)
    acts.keep_backup(house.reg, by="", folder=tmp_path / "b")
    assert questions.is_backed_up(house.reg)
    house.receive()
    assert not questions.is_backed_up(house.reg)


def test_a_copy_that_could_not_be_made_is_not_noted(house: House, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    before = questions.seal(house.reg)
    with pytest.raises(Trouble, match="No backup could be made"):
        acts.keep_backup(house.reg, by=house.tutor, folder=tmp_path / "file" / "b")
    assert questions.seal(house.reg) == before
    assert questions.last_backup(house.reg) is None


def test_a_copy_of_a_register_with_a_broken_journal_is_not_kept(house: House, tmp_path: Path) -> None:
    house.receive()
    with house.reg.store.writing() as connection:
        connection.exec_driver_sql("UPDATE entry SET text = replace(text, 'Hob', 'Bob') WHERE seq = 1")
    with pytest.raises(Trouble, match=r"not good, so it was not kept|Nothing was carried over"):
        acts.keep_backup(house.reg, by=house.tutor, folder=tmp_path / "b")
    assert copies(tmp_path / "b") == []


def test_a_restore_makes_a_new_register_with_the_same_seal(house: House, tmp_path: Path) -> None:
    deer = house.receive()
    acts.keep_backup(house.reg, by=house.tutor, folder=tmp_path / "b")
    house.receive()
    (copy,) = copies(tmp_path / "b")
    again = tmp_path / "again.register"
    found = acts.restore(copy, again)
    with open_register(again, clock=house.clock, create=False) as register:
        assert questions.seal(register).head == found.seal
        assert [one.code for one in questions.deliveries(register)] == [deer]
    assert found.carcasses == 1


@pytest.mark.file
def test_nothing_is_restored_over_a_file(house: House, tmp_path: Path) -> None:
    acts.keep_backup(house.reg, by="", folder=tmp_path / "b")
    with pytest.raises(Refusal, match="there already"):
        acts.restore(copies(tmp_path / "b")[0], house.path)


def test_looking_into_a_copy_leaves_its_bytes_alone_and_names_what_is_wrong(
    house: House, tmp_path: Path
) -> None:
    house.receive()
    acts.keep_backup(house.reg, by="", folder=tmp_path / "b")
    (copy,) = copies(tmp_path / "b")
    raw = copy.read_bytes()
    assert questions.look_into(copy).findings == ()
    assert copy.read_bytes() == raw
    assert copies(tmp_path / "b") == [copy], "nothing is left beside it"
    place = raw.index(b"Hob Lane Larder", raw.index(b'"kind":"larder.set"') - 400)
    copy.write_bytes(raw[:place] + b"Bob" + raw[place + 3 :])
    assert [one.code for one in questions.look_into(copy).findings] == ["seal-broken"]
    with pytest.raises(Trouble, match="not whole"):
        acts.restore(copy, tmp_path / "again.register")
    assert not (tmp_path / "again.register").exists()


def test_copies_rotate_and_other_files_in_the_folder_are_left_alone(house: House, tmp_path: Path) -> None:
    folder = tmp_path / "b"
    folder.mkdir()
    (folder / "holiday.jpg").write_text("x")
    (folder / "larder of 2024.register").write_text("x")
    for _ in range(14):
        house.clock.go(hours=24)
        house.receive()
        acts.keep_backup(house.reg, by="", folder=folder)
    names = [path.name for path in copies(folder)]
    assert "holiday.jpg" in names
    assert "larder of 2024.register" in names
    assert len(names) - 2 == len(kept([datetime(2026, 11, 13 + n, 9, tzinfo=UTC) for n in range(14)]))


@given(st.lists(st.integers(0, 900), min_size=1, max_size=200))
def test_the_newest_and_the_last_of_each_recent_day_stay(hours: list[int]) -> None:
    times = {datetime(2026, 1, 1, tzinfo=UTC) + timedelta(hours=n) for n in hours}
    chosen = kept(times)
    assert chosen <= times
    assert max(times) in chosen
    days = sorted({at.date() for at in times}, reverse=True)[:7]
    for day in days:
        assert max(at for at in times if at.date() == day) in chosen
    assert len(chosen) <= 3 + 7 + 5 + 12


def test_a_backup_older_than_set_is_asked_for_on_the_day_s_page(house: House, tmp_path: Path) -> None:
    house.receive()
    assert any("No backup" in duty.sentence for duty in questions.today(house.reg))
    acts.keep_backup(house.reg, by="", folder=tmp_path / "b")
    assert not any("No backup" in duty.sentence for duty in questions.today(house.reg))
    house.clock.go(days=2)
    assert any("No backup" in duty.sentence for duty in questions.today(house.reg))


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_may_not_be_written_is_told_in_a_sentence(house: House, tmp_path: Path) -> None:
    (tmp_path / "locked").mkdir(mode=0o500)
    with pytest.raises(Trouble, match="No backup could be made"):
        acts.keep_backup(house.reg, by="", folder=tmp_path / "locked")
