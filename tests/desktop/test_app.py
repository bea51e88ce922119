"""Opening: the window first, the register after; what cannot be opened is said in a sentence."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest

from gametrace.desktop import app as starting
from gametrace.desktop.app import build_window, close_register, open_and_fill
from gametrace.register import acts, questions
from gametrace.register.opening import open_register


@pytest.fixture
def closed(qtbot, tmp_path):
    """The window before any register is open."""
    window = build_window(papers=tmp_path)
    qtbot.addWidget(window)
    with qtbot.waitSignal(window.seen):
        window.show()
    yield window
    close_register(window)
    window.close()


def test_before_the_register_is_there_no_key_and_no_scan_does_harm(closed) -> None:
    closed.go("larder")
    closed.choose_person()
    assert closed.take_scan("26-00417-K") is False
    assert closed.current == ""


def test_a_new_register_opens_on_the_guide(closed, tmp_path) -> None:
    open_and_fill(closed, tmp_path / "new.register", False)
    assert closed.current == "setup"


@pytest.mark.parametrize("content", [b"not a register", b"SQLite format 3\x00" + b"\x00" * 40])
def test_a_file_that_is_no_register_is_refused_and_can_be_tried_again(closed, tmp_path, content) -> None:
    path = tmp_path / "larder.register"
    path.write_bytes(content)
    open_and_fill(closed, path, False)
    face = closed.wait_face
    assert face.currentWidget() is face.broken
    assert face.broken.title.text().endswith(".")
    assert path.read_bytes() == content
    path.unlink()
    closed.open_wanted.connect(lambda: open_and_fill(closed, path, False))
    face.again.click()
    assert closed.current == "setup"


def test_the_practice_register_is_laid_out_aside_and_marked_on_the_window(
    closed, tmp_path, monkeypatch, qtbot
) -> None:
    path = tmp_path / "practice.register"
    with open_register(path) as register:
        acts.set_up_larder(register, name="Fenmoor", address="", jurisdiction="scotland", is_practice=True)
    monkeypatch.setattr("gametrace.register.practice.practice_register", lambda: path)
    open_and_fill(closed, None, True)
    assert closed.wait_face.currentWidget() is closed.wait_face.busy
    qtbot.waitUntil(lambda: closed.current != "", timeout=10_000)
    assert closed.larder_name.text() == "Fenmoor · practice"
    assert "practice" in closed.windowTitle()


def test_two_windows_on_one_register_see_each_others_work(qtbot, larder, tmp_path) -> None:
    first, second = (build_window(larder.register, papers=tmp_path) for _ in range(2))
    for window in (first, second):
        qtbot.addWidget(window)
        window.bench.set_person(larder.tutor)
        window.show()
    first.bench.attempt("hold_lot", code=larder.packs[1], reason="label smudged")
    second.go("trace", larder.packs[1])
    assert second.station("trace").presenter.trace.state == "on hold"
    first.close()
    second.close()


def test_an_escaped_mistake_is_shown_and_the_window_stays(window, capsys) -> None:
    try:
        raise KeyError("hook")
    except KeyError as error:
        starting._escaped(window.bench, KeyError, error, None)
    assert window.banner.isVisible()
    assert "KeyError" in capsys.readouterr().err
    assert questions.people(window.bench.register)


def _written(path, entries: int = 0) -> None:
    with open_register(path) as register:
        acts.set_up_larder(register, name="Fenmoor", address="", jurisdiction="scotland")
        tutor = acts.enrol_person(register, name="Ada", initials="AB", role="tutor").code
        for number in range(entries):
            acts.add_store(register, by=tutor, name=f"Chill {number}", sort="chill", shelves=["one"])


def _changed_outside(path, statement: str) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(statement)
        connection.commit()


def _page(window):
    return window.stack.currentWidget()


def test_a_broken_journal_says_what_is_intact_and_is_only_looked_at(closed, tmp_path) -> None:
    path = tmp_path / "larder.register"
    _written(path, 4)
    _changed_outside(path, "UPDATE entry SET text = REPLACE(text, 'Chill 1', 'Chill 9') WHERE seq = 4")
    before = path.read_bytes()
    open_and_fill(closed, path, False)
    assert _page(closed).what.text() == (
        "The journal does not hold at entry 4: its text is not what was sealed."
    )
    assert _page(closed).intact.text().startswith("Entries 1 to 3, the last of them written on ")
    assert not closed.bench.is_open
    assert _page(closed).look.hasFocus() or _page(closed).focusProxy() is _page(closed).look
    _page(closed).look.click()
    assert closed.current in ("today", "setup")
    assert closed.larder_name.text().endswith("only looked at")
    said: list[str] = []
    closed.bench.refused.connect(said.append)
    assert closed.bench.attempt("add_store", name="C", sort="chill", shelves=["a"]) is None
    assert said == ["This register is open only to be looked at, so nothing was written."]
    closed.bench.register.close()
    assert path.read_bytes() == before


def test_a_break_among_the_older_entries_is_found_while_people_work(closed, tmp_path, qtbot) -> None:
    path = tmp_path / "larder.register"
    _written(path, 4)
    open_and_fill(closed, path, False)
    _changed_outside(path, "UPDATE entry SET text = REPLACE(text, 'Fenmoor', 'Foulmoor') WHERE seq = 1")
    starting._look_through(closed, path)
    qtbot.waitUntil(lambda: not closed.bench.is_open)
    assert _page(closed).what.text().startswith("The journal does not hold at entry 1:")
    assert _page(closed).intact.text() == "No entry of it can be vouched for."


def test_tables_that_are_behind_are_laid_out_anew_aside_with_progress(closed, tmp_path, qtbot) -> None:
    path = tmp_path / "larder.register"
    _written(path, 4)
    _changed_outside(path, "DELETE FROM happening WHERE seq > 3")
    open_and_fill(closed, path, False)
    face = closed.wait_face
    assert face.currentWidget() is face.busy
    assert "behind the journal" in face.busy.title.text()
    qtbot.waitUntil(lambda: closed.bench.is_open)
    assert closed.current == "today"
    assert len([p for p in questions.places(closed.bench.register) if p.kind == "store"]) == 4
    assert questions.check(closed.bench.register) == ()
