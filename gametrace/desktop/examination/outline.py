"""The outline of the beast on which shots, exits, bruises and dirt are marked, by a press or from a list.

The drawing is the block's. It faces left; the right side is its mirror, and marks keep the drawing's places.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QBrush, QPainter, QPen, QTransform
from PySide6.QtWidgets import QSizePolicy, QWidget

from gametrace.desktop.block.beast import beast_paths
from gametrace.desktop.block.products import PARTS
from gametrace.desktop.examination.card import Spot
from gametrace.desktop.look import Look

PLACES = ("head", *PARTS)
PLACE_WORDS = {"shank-fore": "fore shank", "shank-hind": "hind shank"}
KINDS = (("entry", "Entry"), ("exit", "Exit"), ("bruise", "Bruise"), ("dirt", "Dirt"))
_ROLES = {"entry": "plum", "exit": "plum", "bruise": "amber", "dirt": "ink"}


@cache
def drawing_bounds() -> QRectF:
    """Of the whole drawing; empty where it is not there."""
    bounds = QRectF()
    for path in beast_paths().values():
        bounds = bounds.united(path.boundingRect())
    return bounds


def place_of(x_thousandths: int, y_thousandths: int) -> str:
    """The part a mark lies on, or the nearest one, in words."""
    bounds, paths = drawing_bounds(), beast_paths()
    point = QPointF(
        bounds.left() + bounds.width() * x_thousandths / 1000,
        bounds.top() + bounds.height() * y_thousandths / 1000,
    )
    there = {place: paths[place] for place in PLACES if place in paths}
    found = next((place for place, path in there.items() if path.contains(point)), "")
    if not found and there:
        found = min(there, key=lambda place: _distance(there[place].boundingRect(), point))
    return PLACE_WORDS.get(found, found)


def middle_of(place: str) -> tuple[int, int]:
    """The thousandths of the middle of a part."""
    bounds, paths = drawing_bounds(), beast_paths()
    if place not in paths or bounds.isEmpty():
        return 500, 500
    middle = paths[place].boundingRect().center()
    return (
        round(1000 * (middle.x() - bounds.left()) / bounds.width()),
        round(1000 * (middle.y() - bounds.top()) / bounds.height()),
    )


class Outline(QWidget):
    """One side of it with its marks; those of the other look are drawn thin.

    A press marks; arrows walk over the parts and Enter marks the part.
    Signals: marked(int, int): thousandths.
    """

    marked = Signal(int, int)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.side = "left"
        self._spots: tuple[Spot, ...] = ()
        self._earlier: tuple[Spot, ...] = ()
        self._at = ""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setCursor(Qt.CursorShape.CrossCursor)
        look.changed.connect(self.update)
        self._say()

    def show_spots(self, side: str, spots: Sequence[Spot], earlier: Sequence[Spot]) -> None:
        self.side, self._spots, self._earlier = side, tuple(spots), tuple(earlier)
        self._say()
        self.update()

    def _say(self) -> None:
        self.setAccessibleName(f"Outline, {self.side} side. Arrows walk over the parts, Enter marks")
        here = [
            f"{one.what} at {place_of(one.x_thousandths, one.y_thousandths)}"
            for one in self._spots
            if one.side == self.side
        ]
        self.setAccessibleDescription("; ".join(here) or "no marks")

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(300), self._look.px(220))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(180), self._look.px(140))

    # -- where things lie -------------------------------------------------------------------------------

    def _transform(self) -> QTransform:
        bounds = drawing_bounds()
        turn = QTransform()
        if bounds.isEmpty():
            return turn
        room = QRectF(self.rect()).adjusted(6, 6, -6, -6)
        scale = min(room.width() / bounds.width(), room.height() / bounds.height())
        turn.translate(room.center().x(), room.center().y())
        turn.scale(-scale if self.side == "right" else scale, scale)
        turn.translate(-bounds.center().x(), -bounds.center().y())
        return turn

    def point_of(self, x_thousandths: int, y_thousandths: int) -> QPointF:
        """Where a mark lies in this widget."""
        bounds = drawing_bounds()
        return self._transform().map(
            QPointF(
                bounds.left() + bounds.width() * x_thousandths / 1000,
                bounds.top() + bounds.height() * y_thousandths / 1000,
            )
        )

    def thousandths_of(self, point: QPointF) -> tuple[int, int] | None:
        """The place pressed; None beside the drawing."""
        bounds = drawing_bounds()
        inverted, is_possible = self._transform().inverted()
        if bounds.isEmpty() or not is_possible:
            return None
        at = inverted.map(point)
        x = round(1000 * (at.x() - bounds.left()) / bounds.width())
        y = round(1000 * (at.y() - bounds.top()) / bounds.height())
        return (x, y) if 0 <= x <= 1000 and 0 <= y <= 1000 else None

    # -- painting ---------------------------------------------------------------------------------------

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        turn, paths = self._transform(), beast_paths()
        ghost = look.colour("line")
        ghost.setAlphaF(0.25)
        if "far-legs" in paths:
            painter.fillPath(turn.map(paths["far-legs"]), ghost)
        for place in PLACES:
            if place in paths:
                path = turn.map(paths[place])
                painter.fillPath(path, look.colour("sheet"))
                painter.strokePath(path, QPen(look.colour("line"), 1.2))
        if self._at in paths and self.hasFocus():
            painter.strokePath(turn.map(paths[self._at]), QPen(look.colour("pine"), 4))
        for spots, is_now in ((self._earlier, False), (self._spots, True)):
            for spot in spots:
                if spot.side == self.side:
                    self._paint_spot(painter, spot, is_now=is_now)
        if self.hasFocus():
            painter.setPen(QPen(look.colour("pine"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(2, 2, -2, -2), 4, 4)

    def _paint_spot(self, painter: QPainter, spot: Spot, *, is_now: bool) -> None:
        """Entry a filled disc, exit a ring, bruise a hatched square, dirt a triangle."""
        look = self._look
        colour = look.colour(_ROLES.get(spot.what, "ink"))
        size = look.px(9)
        box = QRectF(0, 0, 2 * size, 2 * size)
        box.moveCenter(self.point_of(spot.x_thousandths, spot.y_thousandths))
        painter.setPen(QPen(colour, 3 if is_now else 1.2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if spot.what == "entry":
            painter.setBrush(colour if is_now else QBrush(Qt.BrushStyle.NoBrush))
            inner = box.adjusted(size * 0.4, size * 0.4, -size * 0.4, -size * 0.4)
            painter.drawEllipse(inner)
            painter.drawLine(QPointF(box.center().x(), box.top()), QPointF(box.center().x(), box.bottom()))
        elif spot.what == "exit":
            painter.setBrush(look.colour("sheet"))
            painter.drawEllipse(box)
        elif spot.what == "bruise":
            painter.setBrush(QBrush(colour, Qt.BrushStyle.BDiagPattern))
            painter.drawRect(box)
        else:
            painter.setBrush(look.colour("sheet"))
            painter.drawPolygon([QPointF(box.center().x(), box.top()), box.bottomLeft(), box.bottomRight()])

    # -- hands ------------------------------------------------------------------------------------------

    def mousePressEvent(self, event) -> None:
        if (at := self.thousandths_of(event.position())) is not None:
            self.marked.emit(*at)

    def keyPressEvent(self, event) -> None:
        key = event.key()
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1}.get(key)
        if step is not None:
            at = PLACES.index(self._at) if self._at in PLACES else (-1 if step > 0 else 0)
            self._at = PLACES[(at + step) % len(PLACES)]
            self.update()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and self._at:
            self.marked.emit(*middle_of(self._at))
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event) -> None:
        self._at = self._at or PLACES[0]
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event) -> None:
        super().focusOutEvent(event)
        self.update()


def _distance(box: QRectF, point: QPointF) -> float:
    across = max(box.left() - point.x(), 0.0, point.x() - box.right())
    down = max(box.top() - point.y(), 0.0, point.y() - box.bottom())
    return math.hypot(across, down)
