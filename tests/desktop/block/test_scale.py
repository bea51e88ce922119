"""A scale on a serial port, played over a pseudo-terminal."""

from __future__ import annotations

import os
import sys

import pytest

from gametrace.desktop.block.scale import ScaleLink, ScalePort

if sys.platform == "win32":
    pytest.skip("a pseudo-terminal is not to be had here", allow_module_level=True)

import pty
import tty


class PlayedScale:
    """The scale's end of the cable."""

    def __init__(self) -> None:
        self.own, other = pty.openpty()
        tty.setraw(other)
        self.port = os.ttyname(other)
        os.close(other)
        self._is_pulled = False

    def say(self, *lines: str, end: str = "\r\n") -> None:
        for line in lines:
            os.write(self.own, (line + end).encode("ascii"))

    def hear(self) -> bytes:
        return os.read(self.own, 100)

    def pull(self) -> None:
        """The cable is pulled out."""
        if not self._is_pulled:
            self._is_pulled = True
            os.close(self.own)


@pytest.fixture
def scale():
    made = PlayedScale()
    yield made
    made.pull()


@pytest.fixture
def link():
    made = ScaleLink()
    yield made
    made.leave()


def join(qtbot, link: ScaleLink, scale: PlayedScale, asks: str = "") -> None:
    """Wait until the port is open, as a scale that is switched on later would."""
    with qtbot.waitSignal(link.opened):
        link.join(ScalePort(scale.port, asks=asks))
    if not asks:
        scale.say("")  # the end of the line it was in the middle of


def test_a_scale_that_speaks_by_itself_is_read_until_it_stands_still(qtbot, scale, link):
    seen = []
    link.read.connect(seen.append)
    join(qtbot, link, scale)
    scale.say("US,GS,+  1.900kg", "US,GS,+  2.480kg")
    qtbot.waitUntil(lambda: len(seen) == 2)
    assert link.weight() is None
    scale.say("ST,GS,+  2.514kg")
    qtbot.waitUntil(lambda: len(seen) == 3)
    assert link.weight().grams == 2_514


def test_the_end_of_a_line_it_came_into_is_no_weight(qtbot, scale, link):
    """514 g heard of 2.514 kg would be a wrong weight that looks right."""
    seen = []
    link.read.connect(seen.append)
    with qtbot.waitSignal(link.opened):
        link.join(ScalePort(scale.port))
    scale.say("514 g", "ST,GS,+  2.514kg")
    qtbot.waitUntil(lambda: len(seen) == 1)
    assert seen[0].grams == 2_514


def test_a_scale_that_says_nothing_of_standing_still_does_so_after_three_alike(qtbot, scale, link):
    seen = []
    link.read.connect(seen.append)
    join(qtbot, link, scale)
    scale.say("2514 g", "2515 g", "2515 g")
    qtbot.waitUntil(lambda: len(seen) == 3)
    assert link.weight() is None
    scale.say("2515 g", end="\r")
    qtbot.waitUntil(lambda: len(seen) == 4)
    assert link.weight().grams == 2_515


def test_a_line_that_comes_in_pieces_and_noise_between_are_no_weights(qtbot, scale, link):
    seen = []
    link.read.connect(seen.append)
    join(qtbot, link, scale)
    scale.say("\x02ST,GS,+  1", end="")
    scale.say(".250kg\x03", "OL", "#" * 500, "ST,GS,+  1.300kg")
    qtbot.waitUntil(lambda: len(seen) == 2)
    assert [one.grams for one in seen] == [1_250, 1_300]


def test_a_scale_that_waits_to_be_asked_is_asked(qtbot, scale, link):
    join(qtbot, link, scale, asks="P\\r\\n")
    link.ask()
    assert scale.hear() == b"P\r\n"
    scale.say("S S      0.842 kg")
    qtbot.waitUntil(lambda: link.weight() is not None)
    assert link.weight().grams == 842


def test_a_pulled_cable_is_said_in_a_sentence(qtbot, scale, link):
    join(qtbot, link, scale)
    scale.say("ST,GS,+  2.514kg")
    qtbot.waitUntil(lambda: link.weight() is not None)
    with qtbot.waitSignal(link.lost) as lost:
        scale.pull()
    assert lost.args[0] == f"The scale on {scale.port} does not answer: look at its cable."
    assert link.joined is None
    assert link.weight() is None


def test_a_port_that_is_not_there_is_said_in_a_sentence(qtbot, link, tmp_path):
    with qtbot.waitSignal(link.lost) as lost:
        link.join(ScalePort(str(tmp_path / "no-port")))
    assert "does not answer" in lost.args[0]


# -- in the window ----------------------------------------------------------------------------------------


@pytest.fixture
def weighing(qtbot, roe_larder, roe_window, scale):
    """The weighing line of an open block, the played scale joined by the set-up page."""
    beast = roe_larder.dressed()
    roe_window.go("block")
    station = roe_window.station("block")
    station.page.choosing.scale.click()
    station.page.scale.port.setText(scale.port)
    with qtbot.waitSignal(station.presenter.scale.link.opened):
        station.page.scale.join.click()
    scale.say("")
    station.presenter.open(beast)
    yield station.page.cutting.weighing
    station.presenter.scale.close()


def test_the_weight_of_the_scale_is_taken_into_the_field_and_weighed(qtbot, scale, weighing, roe_window):
    scale.say("ST,GS,+  2.514kg")
    qtbot.waitUntil(lambda: "2.514 kg" in weighing.scale.words.text())
    weighing.scale.key.click()
    assert weighing.grams.value() == 2_514
    weighing.weigh.click()
    assert "2.51" in weighing.said.text()
    assert roe_window.bench.settings.text("scale_port") == scale.port


def test_a_weight_asked_for_while_the_scale_moves_comes_when_it_rests(qtbot, scale, weighing):
    scale.say("US,GS,+  2.4kg")
    qtbot.waitUntil(lambda: "moving" in weighing.scale.words.text())
    weighing.scale.key.click()
    assert weighing.grams.text() == ""
    scale.say("ST,GS,+  2.514kg")
    qtbot.waitUntil(lambda: weighing.grams.value_or_none() == 2_514)


def test_an_empty_scale_gives_no_weight(qtbot, scale, weighing):
    scale.say("ST,GS,-  0.002kg")
    qtbot.waitUntil(lambda: "still" in weighing.scale.words.text())
    weighing.scale.key.click()
    assert "Is the tray on it?" in weighing.said.text()


def test_without_its_cable_typing_still_works_and_it_is_joined_again(qtbot, scale, weighing, roe_larder):
    weighing.grams.edit.setText("1.25")
    scale.pull()
    qtbot.waitUntil(lambda: "look at its cable" in weighing.said.text())
    assert "Typing the weight still works" in weighing.said.text()
    assert weighing.grams.text() == "1.25"
    assert weighing.scale.key.text() == "Try again"
    weighing.weigh.click()
    assert weighing.grams.text() == ""  # it is weighed
    weighing.scale.key.click()
    qtbot.waitUntil(lambda: weighing.scale.key.text() == "Try again" and bool(weighing.said.text()))


def test_a_scale_that_never_answers_is_given_up(qtbot, weighing, roe_window):
    presenter = roe_window.station("block").presenter.scale
    presenter._patience.setInterval(50)
    weighing.scale.key.click()
    qtbot.waitUntil(lambda: "does not stand still" in weighing.said.text())
