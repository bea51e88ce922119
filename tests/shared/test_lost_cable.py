"""A cable that goes at the worst moment: nothing is written twice or lost, and nobody waits for ever."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, suppress
from pathlib import Path

import pytest
from cable import Cable
from larder_house import House
from PySide6.QtWidgets import QLineEdit
from server import Server

from gametrace.desktop.app import build_window
from gametrace.domain.errors import Trouble
from gametrace.register import acts, questions
from gametrace.register.opening import open_register
from gametrace.store.shared import SharedStore


@pytest.fixture
def cable(server: Server) -> Iterator[Cable]:
    one = Cable(server.port)
    yield one
    one.close()


@pytest.fixture
def far_house(server: Server, cable: Cable) -> Iterator[House]:
    """A house whose server is at the other end of the cable."""
    one = House(server.new_place().replace(f":{server.port}/", f":{cable.port}/"))
    yield one
    one.close()


@pytest.mark.parametrize("lost", [b"COMMIT", b"INSERT INTO hold"])
def test_an_act_whose_answer_was_lost_on_the_way_is_written_once(
    far_house: House, cable: Cable, lost: bytes
) -> None:
    """After COMMIT it is on disk, before that nothing of it is; who does it again need not know which."""
    doe = far_house.receive()
    count = questions.seal(far_house.reg).count
    cable.loses_answer_to = lost
    hold = {"by": far_house.tutor, "code": doe, "reason": "smell", "key": "k1"}
    with pytest.raises(Trouble, match="server does not answer"):
        acts.hold_lot(far_house.reg, **hold)
    again = acts.hold_lot(far_house.reg, **hold)
    assert again.was_repeat is (lost == b"COMMIT")
    assert questions.seal(far_house.reg).count == count + 1
    assert len(questions.holds(far_house.reg)) == 1
    assert questions.check(far_house.reg) == ()


def test_the_window_says_so_keeps_what_is_half_typed_and_does_it_once(
    far_house: House, cable: Cable, qtbot, tmp_path: Path
) -> None:
    doe = far_house.receive()
    window = build_window(far_house.reg, papers=tmp_path)
    qtbot.addWidget(window)
    window.bench.set_person(far_house.tutor)
    window.show()
    window.go("delivery")
    fields = [one for one in window.station("delivery").findChildren(QLineEdit) if one.isVisible()]
    half = next(one for one in fields if one.accessibleName() == "Weight")
    half.insert("41,")
    cable.loses_answer_to = b"COMMIT"
    told: list[str] = []
    window.bench.trouble.connect(lambda sentence, _again: told.append(sentence))
    assert window.bench.attempt("hold_lot", code=doe, reason="smell") is None
    assert "server does not answer" in told[0]
    assert window.banner.isVisible()
    window._try_again()  # what the button in the banner does
    assert len(told) == 1
    assert half.text() == "41,"
    assert len(questions.holds(far_house.reg)) == 1
    window.close()


def test_a_station_that_died_in_the_middle_of_an_act_does_not_stop_the_others(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(SharedStore, "begin_to_write", SharedStore.begin_to_write.replace("'30s'", "'300ms'"))
    with ExitStack() as dead, open_register(house.path, clock=house.clock) as other:
        dead.enter_context(suppress(Trouble))
        dead.enter_context(other.store.writing())  # and never another word
        house.receive()
    assert questions.check(house.reg) == ()


def test_who_has_to_wait_too_long_is_told_so_in_a_sentence(
    server: Server, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(SharedStore, "begin_to_write", SharedStore.begin_to_write.replace("'10s'", "'100ms'"))
    house = House(server.new_place())
    with (
        open_register(house.path, clock=house.clock) as other,
        other.store.writing(),
        pytest.raises(Trouble, match="Another station is busy"),
    ):
        house.receive()
    house.receive()
    house.close()
