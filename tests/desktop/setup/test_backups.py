"""Backups in the window: by hand, at the close, once a day, and what is in a copy."""

from __future__ import annotations

from pathlib import Path

import pytest

from gametrace.desktop.app import build_window
from gametrace.desktop.parts.words import Words
from gametrace.desktop.safekeeping import Safekeeping
from gametrace.register import acts, questions
from gametrace.register.opening import open_register


class Chooses:
    """A person who always chooses the same."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.file: Path | None = None

    def which_folder(self, title: str) -> Path:
        return self.folder

    def which_file(self, title: str, kinds: str) -> Path | None:
        return self.file

    def where_to_save(self, title: str, suggested: Path) -> Path:
        return self.folder / suggested.name


@pytest.fixture
def register(tmp_path: Path):
    """A larder that is not for practice: only those are backed up."""
    with open_register(tmp_path / "larder.register") as one:
        acts.set_up_larder(
            one, name="Hob Lane", address="", registration_number="", jurisdiction="england-wales"
        )
        tutor = acts.enrol_person(one, name="Ida Marrow", initials="IM", role="tutor").code
        acts.add_store(one, by=tutor, name="Chill", sort="chill", rails=[("rail", 4)], shelves=[])
        acts.add_supplier(one, by=tutor, name="Perrin", address="", route="wild-direct")
        yield one


@pytest.fixture
def window(register, qtbot, tmp_path: Path):
    made = build_window(register, papers=tmp_path)
    qtbot.addWidget(made)
    made.bench.set_person("P001")
    made.resize(1280, 800)
    made.show()
    return made


@pytest.fixture
def page(window, tmp_path: Path):
    window.go("setup", "backups")
    station = window.station("setup")
    station.backups.questions = Chooses(tmp_path / "stick")
    return station


def words(widget) -> str:
    return " ".join(one.text() for one in widget.findChildren(Words)).replace("\u200b", "")


def done(window, qtbot) -> None:
    qtbot.waitUntil(lambda: not window.bench.errands.is_busy, timeout=20_000)


def test_one_key_backs_up_and_the_page_says_so(window, page, qtbot, register, tmp_path: Path) -> None:
    assert "No backup has been kept yet" in words(page.view.backups)
    page.view.backups.now.click()
    done(window, qtbot)
    (copy,) = (tmp_path / "backups").glob("*.register")
    assert str(copy) in words(page.view.backups)
    assert questions.last_backup(register).by == "P001"


def test_a_stick_gets_a_copy_and_keeps_what_is_on_it(window, page, qtbot, tmp_path: Path) -> None:
    for _ in range(2):
        page.view.backups.stick.click()
        done(window, qtbot)
        acts.enrol_person(window.bench.register, by="P001", name="Wat", initials="W", role="student")
    assert len(list((tmp_path / "stick").glob("*.register"))) >= 1


def test_a_chosen_folder_is_remembered(window, page, tmp_path: Path) -> None:
    page.view.backups.choose.click()
    assert window.bench.settings.text("backup_folder") == str(tmp_path / "stick")
    assert str(tmp_path / "stick") in words(page.view.backups)


def test_a_copy_is_read_and_made_a_new_register(window, page, qtbot, register, tmp_path: Path) -> None:
    page.view.backups.now.click()
    done(window, qtbot)
    (page.backups.questions.file,) = (tmp_path / "backups").glob("*.register")
    page.view.copy_file.look.click()
    done(window, qtbot)
    assert "is whole" in words(page.view.copy_file)
    assert "Hob Lane" in words(page.view.copy_file)
    page.view.copy_file.restore.click()
    done(window, qtbot)
    with open_register(tmp_path / "stick" / "restored.register", create=False) as again:
        assert [one.name for one in questions.people(again)] == ["Ida Marrow"]


def test_a_file_that_is_no_copy_is_told_and_offers_no_restore(window, page, qtbot, tmp_path: Path) -> None:
    page.backups.questions.file = tmp_path / "notes.register"
    page.backups.questions.file.write_text("milk, eggs")
    page.view.copy_file.look.click()
    done(window, qtbot)
    assert "is not a register" in words(window.banner)
    assert page.view.copy_file.restore.isHidden()


def test_closing_keeps_a_copy_and_closes(window, register, tmp_path: Path) -> None:
    window.safekeeping = Safekeeping(window.bench, window)
    assert window.close()
    assert len(list((tmp_path / "backups").glob("*.register"))) == 1
    assert questions.is_backed_up(register)


def test_closing_without_anything_new_makes_no_copy(window, register, tmp_path: Path) -> None:
    acts.keep_backup(register, by="", folder=tmp_path / "stick")
    window.safekeeping = Safekeeping(window.bench, window)
    assert window.close()
    assert not (tmp_path / "backups").exists()


def test_a_close_whose_copy_fails_is_told_once_and_then_goes_through(window, tmp_path: Path) -> None:
    (tmp_path / "backups").write_text("a file where the folder should be")
    window.safekeeping = Safekeeping(window.bench, window)
    assert not window.close()
    assert "No backup could be made" in words(window.banner)
    assert window.close()


def test_once_a_day_a_copy_is_made_by_itself(window, register, qtbot, tmp_path: Path) -> None:
    keeping = Safekeeping(window.bench, window)
    keeping.look()
    done(window, qtbot)
    assert len(list((tmp_path / "backups").glob("*.register"))) == 1
    acts.enrol_person(register, by="P001", name="Wat", initials="W", role="student")
    keeping.look()
    done(window, qtbot)
    assert len(list((tmp_path / "backups").glob("*.register"))) == 1, "a day has not gone by"
