"""The side view of the beast: a part fills as it is weighed, and a press on a part picks the product.

It faces the way the chosen side faces. Whole joints fill solid, joints of which only cuts are weighed are
hatched, the rest is outline: it reads without colour.
"""

from __future__ import annotations

import math
import re
from functools import cache
from xml.etree import ElementTree

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QBrush, QPainter, QPainterPath, QPen, QTransform
from PySide6.QtWidgets import QSizePolicy, QWidget

from gametrace.desktop.assets import drawing_path
from gametrace.desktop.block.products import PARTS, Weighed
from gametrace.desktop.look import Look

_NOTHING = Weighed(frozenset(), frozenset())
_WORDS = {"shank-fore": "fore shank", "shank-hind": "hind shank"}


@cache
def beast_paths() -> dict[str, QPainterPath]:
    """The parts of the drawing by their ids; empty where the drawing is not there."""
    path = drawing_path("beast-parts")
    if path is None:
        return {}
    root = ElementTree.parse(path).getroot()
    return {
        one.get("id", ""): _read_path(one.get("d", ""))
        for one in root.iter()
        if one.tag.endswith("path") and one.get("id")
    }


def _read_path(text: str) -> QPainterPath:
    """A path of absolute M, L, C and Z, which is all our drawing has."""
    made = QPainterPath()
    for letter, body in re.findall(r"([MLCZ])([^MLCZ]*)", text):
        n = [float(one) for one in body.replace(",", " ").split()]
        points = [QPointF(n[i], n[i + 1]) for i in range(0, len(n) - 1, 2)]
        if letter == "M":
            made.moveTo(points[0])
            for point in points[1:]:
                made.lineTo(point)
        elif letter == "L":
            for point in points:
                made.lineTo(point)
        elif letter == "C":
            for i in range(0, len(points) - 2, 3):
                made.cubicTo(points[i], points[i + 1], points[i + 2])
        else:
            made.closeSubpath()
    return made


class Beast(QWidget):
    """One side of it. Arrows walk over the parts, Enter or a press picks.

    Signals: part_chosen(str): an id of PARTS.
    """

    part_chosen = Signal(str)

    def __init__(self, look: Look, side: str = "left", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._side = side
        self._weighed = _NOTHING
        self._chosen = ""
        self._at = ""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        look.changed.connect(self.update)
        self._say()

    def show_side(self, side: str, weighed: Weighed, chosen: str = "") -> None:
        """Face this way, fill what is weighed, and mark the part that is meant now."""
        self._side, self._weighed, self._chosen = side, weighed, chosen
        self._say()
        self.update()

    def _say(self) -> None:
        filled = [_WORDS.get(one, one) for one in PARTS if one in self._weighed.whole]
        self.setAccessibleName(f"The {self._side} side of the beast. Arrows walk, Enter picks a joint")
        self.setAccessibleDescription("Weighed: " + (", ".join(filled) or "nothing yet"))

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(300), self._look.px(280))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(96), self._look.px(90))

    # -- where things lie -------------------------------------------------------------------------------

    def _transform(self) -> QTransform:
        bounds = QRectF()
        for path in beast_paths().values():
            bounds = bounds.united(path.boundingRect())
        if bounds.isEmpty():
            return QTransform()
        room = QRectF(self.rect()).adjusted(6, 6, -6, -6)
        scale = min(room.width() / bounds.width(), room.height() / bounds.height())
        turn = QTransform()
        turn.translate(room.center().x(), room.center().y())
        turn.scale(-scale if self._side == "right" else scale, scale)
        turn.translate(-bounds.center().x(), -bounds.center().y())
        return turn

    def centre_of(self, part: str) -> QPointF:
        """Where a part lies in this widget: for tests, and for the walk of the arrows."""
        return self._transform().map(beast_paths()[part].boundingRect().center())

    def part_at(self, point: QPointF) -> str:
        """The part under a finger; the nearest one within the breadth of half a target."""
        turn = self._transform()
        mapped = {part: turn.map(path) for part, path in beast_paths().items() if part in PARTS}
        for part, path in mapped.items():
            if path.contains(point):
                return part
        reach = self._look.px(22)
        near = [(_distance(path.boundingRect(), point), part) for part, path in mapped.items()]
        best = min(near, default=(math.inf, ""))
        return best[1] if best[0] <= reach else ""

    # -- painting ---------------------------------------------------------------------------------------

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        turn = self._transform()
        paths = beast_paths()
        ghost = look.colour("line")
        ghost.setAlphaF(0.25)
        for name in ("far-legs", "head"):
            if name in paths:
                painter.fillPath(turn.map(paths[name]), ghost)
        for part in PARTS:
            if part in paths and part != self._chosen:
                self._paint_part(painter, turn.map(paths[part]), part)
        if self._chosen in paths:
            self._paint_part(painter, turn.map(paths[self._chosen]), self._chosen)
        if self.hasFocus():
            painter.setPen(QPen(look.colour("pine"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(2, 2, -2, -2), 4, 4)

    def _paint_part(self, painter: QPainter, path: QPainterPath, part: str) -> None:
        look = self._look
        painter.fillPath(path, look.colour("sheet"))
        if part in self._weighed.whole:
            painter.fillPath(path, look.colour("pine"))
        elif part in self._weighed.cut:
            painter.fillPath(path, QBrush(look.colour("pine"), Qt.BrushStyle.BDiagPattern))
        is_meant = part == self._chosen
        pen = QPen(look.colour("amber" if is_meant else "ink"), 4 if is_meant else 1.4)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.strokePath(path, pen)
        if part == self._at and self.hasFocus() and not is_meant:
            painter.strokePath(path, QPen(look.colour("pine"), 4))

    # -- hands ------------------------------------------------------------------------------------------

    def mousePressEvent(self, event) -> None:
        if part := self.part_at(event.position()):
            self._at = part
            self.part_chosen.emit(part)

    def keyPressEvent(self, event) -> None:
        key = event.key()
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1}.get(key)
        if step is not None:
            at = PARTS.index(self._at) if self._at in PARTS else (-1 if step > 0 else 0)
            self._at = PARTS[(at + step) % len(PARTS)]
            self.update()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and self._at:
            self.part_chosen.emit(self._at)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event) -> None:
        self._at = self._at or self._chosen or PARTS[0]
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event) -> None:
        super().focusOutEvent(event)
        self.update()


def _distance(box: QRectF, point: QPointF) -> float:
    across = max(box.left() - point.x(), 0.0, point.x() - box.right())
    down = max(box.top() - point.y(), 0.0, point.y() - box.bottom())
    return math.hypot(across, down)
