"""Every state is told by word and shape: with all colour taken away, at 70 cm, by half of normal sight."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QImage, QPainter

from gametrace.desktop.block.trays import Tray, TrayList
from gametrace.desktop.larder.lot_button import LotButton
from gametrace.desktop.look import Look
from gametrace.desktop.parts import rail_scene, state_sign
from gametrace.desktop.parts.state_sign import SIGNS, paint_finding, paint_sign
from gametrace.desktop.parts.trace_layout import Node
from gametrace.desktop.parts.trace_node import NodeButton
from gametrace.desktop.style import TEXT
from gametrace.domain.findings import Severity
from gametrace.domain.lots import LotState
from gametrace.register import questions

# A letter is told by half of normal sight (6/12) when it is 10 minutes of arc high, and a stroke or gap in it
# when it is 2 minutes wide: Snellen's chart, as every optician's; read in H. Snellen, Probebuchstaben, 1862
# (from memory). A pixel of the design is 1/96 inch.
MM_A_PIXEL = 25.4 / 96
MINUTES_AT_70_CM = 60 * 180 / 3.14159 / 700  # of arc, a millimetre


class Grey(Look):
    """A look in black on white: every role the same ink, every ground the same paper."""

    def colour(self, role: str) -> QColor:
        return QColor("white" if role in ("ground", "sheet", "chosen") else "black")


@pytest.fixture
def grey(look: Look) -> Grey:
    return Grey()


def minutes(pixels: float) -> float:
    return pixels * MM_A_PIXEL * MINUTES_AT_70_CM


def on_paper(side: int, paint) -> QImage:
    image = QImage(side, side, QImage.Format.Format_Grayscale8)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    paint(painter)
    painter.end()
    return image


def differing(one: QImage, other: QImage) -> float:
    """The share of all pixels that are plainly lighter or darker."""
    size = one.width() * one.height()
    pairs = zip(bytes(one.constBits()), bytes(other.constBits()), strict=True)
    return sum(abs(a - b) > 100 for a, b in pairs) / size


def sign(state: str, look: Look, side: int = 24) -> QImage:
    return on_paper(side, lambda painter: paint_sign(painter, QRectF(0, 0, side, side), state, look))


@pytest.mark.parametrize("side", [24, 28, 30])
def test_the_shapes_differ_in_black_and_white(grey: Grey, side: int) -> None:
    shapes = {shape: state for state, (shape, _role) in SIGNS.items()}
    assert len(shapes) == 5
    for one, other in combinations(shapes.values(), 2):
        assert differing(sign(one, grey, side), sign(other, grey, side)) > 0.08, (one, other)


def test_a_colour_never_tells_apart_what_a_shape_does_not() -> None:
    for _state, (shape, role) in SIGNS.items():
        assert {other for kind, other in SIGNS.values() if kind == shape} == {role}, shape


def test_the_severities_of_a_finding_differ_in_black_and_white(grey: Grey) -> None:
    drawn = [
        on_paper(24, lambda painter, one=one: paint_finding(painter, QRectF(0, 0, 24, 24), one.value, grey))
        for one in Severity
    ]
    for one, other in combinations(drawn, 2):
        assert differing(one, other) > 0.08


def test_signs_and_words_are_large_enough_at_70_cm(look: Look) -> None:
    assert minutes(rail_scene.SIGN) > 10
    assert minutes(max(2.0, rail_scene.SIGN / 9)) > 2
    assert minutes(QFontMetricsF(look.font(TEXT)).xHeight()) > 10


STATES = [state.value for state in LotState if state not in (LotState.SERVED, LotState.GONE, LotState.SPENT)]


def one_carcass(larder):
    return questions.larder_view(larder.register)[0].rails[0].hooks[0]


def test_on_a_hook_each_state_looks_and_sounds_its_own_way_without_colour(qtbot, larder, grey: Grey) -> None:
    hook = one_carcass(larder)
    drawn, said = {}, set()
    for state in STATES:
        lot = replace(hook.carcass.lot, state=state)
        button = rail_scene.HookButton(grey, replace(hook, carcass=replace(hook.carcass, lot=lot)))
        qtbot.addWidget(button)
        button.resize(button.sizeHint())
        drawn[state] = button.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
        said.add(button.accessibleName())
    assert len(said) == len(STATES)
    for one, other in combinations(STATES, 2):
        assert drawn[one] != drawn[other], (one, other)


def test_words_and_days_fit_under_a_hook(look: Look) -> None:
    plain = QFontMetricsF(look.font(TEXT))
    assert max(plain.horizontalAdvance(state) for state in SIGNS) <= rail_scene.HOOK_WIDTH
    small = look.font(TEXT)
    small.setPixelSize(look.px(TEXT - 3))  # what days take that are too wide at the usual size
    assert QFontMetricsF(small).horizontalAdvance("day 12 of 10–14") <= rail_scene.HOOK_WIDTH


def test_on_a_shelf_each_state_looks_and_sounds_its_own_way_without_colour(qtbot, larder, grey: Grey) -> None:
    lot = questions.lot(larder.register, larder.packs[1])
    drawn, said = {}, set()
    for state in STATES:
        button = LotButton(grey, replace(lot, state=state))
        qtbot.addWidget(button)
        button.resize(230, 60)
        drawn[state] = button.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
        said.add(button.accessibleName())
    assert len(said) == len(STATES)
    for one, other in combinations(STATES, 2):
        assert drawn[one] != drawn[other], (one, other)


def test_the_words_of_a_state_are_in_the_drawer_too(window, larder) -> None:
    window.go("larder")
    held = larder.animals[2]
    window.station("larder").presenter.choose(held)
    texts = [
        sign.words.text() for sign in window.station("larder").findChildren(state_sign.StateSign)
        if sign.isVisible()
    ]  # fmt: skip
    assert any(text.startswith("on hold") for text in texts), texts


KEPT_BACK = ("on hold", "rejected", "locked", "specimen", "out of date")


def test_what_keeps_a_thing_from_a_plate_is_a_word_in_a_trace_too(qtbot, grey) -> None:
    pictures = {}
    for state in KEPT_BACK:
        node = NodeButton(grey, Node("26-00001-X", "pack", "mince", "26-00001-X", 500, state), None)
        qtbot.addWidget(node)
        node.resize(256, 56)
        pictures[state] = node.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
        assert state in node.accessibleName()
    for one, other in combinations(KEPT_BACK, 2):
        assert differing(pictures[one], pictures[other]) > 0.005, (one, other)


def test_a_tray_kept_back_says_so_by_its_word(qtbot, grey) -> None:
    trays = TrayList(grey)
    qtbot.addWidget(trays)
    trays.resize(320, 80)
    pictures = {}
    for state in KEPT_BACK:
        trays.set_trays([Tray("26-00001-X", "trim", 500, state=state)])
        pictures[state] = trays.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
        assert state in trays.item(0).data(Qt.ItemDataRole.AccessibleTextRole)
    for one, other in combinations(KEPT_BACK, 2):
        assert differing(pictures[one], pictures[other]) > 0.004, (one, other)
