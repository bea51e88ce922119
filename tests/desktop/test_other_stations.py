"""Two windows on one register: each learns what the other wrote, and neither loses what is half typed."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QLineEdit

from gametrace.desktop.app import build_window
from gametrace.domain.errors import Trouble
from gametrace.register import acts, questions
from gametrace.register.opening import open_register


@pytest.fixture
def other(roe_larder):
    """A second station's register, open on the same file."""
    with open_register(roe_larder.register.path, clock=roe_larder.clock) as one:
        yield one


@pytest.fixture
def window(roe_larder, qtbot, tmp_path: Path):
    made = build_window(roe_larder.register, papers=tmp_path)
    qtbot.addWidget(made)
    made.bench.set_person(roe_larder.tutor)
    made.resize(1280, 800)
    made.show()
    return made


def test_what_another_station_wrote_is_shown_within_a_second(window, other, roe_larder, qtbot) -> None:
    code = roe_larder.in_skin()
    window.go("larder")
    acts.hold_lot(other, by=roe_larder.technician, code=code, reason="smells of gas")
    with qtbot.waitSignal(window.bench.refresh.changed, timeout=1_000 + 2_000):
        pass
    assert window.bench.last_seq == questions.seal(other).count


def test_what_is_half_typed_stays_when_another_station_writes(window, other, roe_larder, qtbot) -> None:
    window.go("delivery")
    fields = [one for one in window.station("delivery").findChildren(QLineEdit) if one.isVisible()]
    half = next(one for one in fields if one.accessibleName() == "Weight")
    half.insert("41,")
    acts.add_supplier(other, by=roe_larder.tutor, name="New Man", address="Nab", route="wild-direct")
    with qtbot.waitSignal(window.bench.refresh.changed, timeout=3_000):
        pass
    assert half.text() == "41,"


def test_the_windows_own_acts_are_not_told_to_it_twice(window, roe_larder, qtbot) -> None:
    code = roe_larder.in_skin()
    window.bench.look_for_others()
    told: list[object] = []
    window.bench.refresh.changed.connect(told.append)
    window.bench.attempt("hold_lot", code=code, reason="smells of gas")
    qtbot.wait(700)
    assert len(told) == 1


def test_an_act_whose_answer_was_lost_is_written_once_when_it_is_done_again(
    window, roe_larder, monkeypatch
) -> None:
    code = roe_larder.in_skin()
    real = acts.hold_lot

    def answer_lost(*given, **named):
        real(*given, **named)
        raise Trouble("The server does not answer.", "Check the cable.")

    monkeypatch.setattr(acts, "hold_lot", answer_lost)
    assert window.bench.attempt("hold_lot", code=code, reason="smells of gas") is None
    monkeypatch.setattr(acts, "hold_lot", real)
    assert window.bench.attempt("hold_lot", code=code, reason="smells of gas").was_repeat
    assert len(questions.holds(roe_larder.register)) == 1
    assert not window.bench.attempt("hold_lot", code=code, reason="smells of gas").was_repeat
