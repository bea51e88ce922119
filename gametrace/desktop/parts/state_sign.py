"""The five signs of a state, told by shape before colour, and the word beside it.

ready: a filled disc. hanging: a ring with the days in it. hold: a square with a bar across. stopped: a cross
in a square. spent: an empty dashed ring. In black and white, at arm's length, they still differ.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.words import Words
from gametrace.desktop.style import TEXT

# state word of a lot -> (shape, colour role)
SIGNS: dict[str, tuple[str, str]] = {
    "ready": ("disc", "steel"),
    "hanging": ("ring", "steel"),
    "on hold": ("bar", "amber"),
    "rejected": ("cross", "plum"),
    "locked": ("cross", "plum"),
    "specimen": ("cross", "plum"),
    "out of date": ("cross", "plum"),
    "spent": ("empty", "quiet"),
    "served": ("empty", "quiet"),
    "gone": ("empty", "quiet"),
}


def role_of(state: str) -> str:
    """The palette role of a state."""
    return SIGNS.get(state, SIGNS["spent"])[1]


def shown_state(state: str) -> str:
    """The word of a state beside its sign; nothing where all is in order."""
    return "" if state == "ready" else state


def paint_sign(painter: QPainter, rect: QRectF, state: str, look: Look, days: int | None = None) -> None:
    """Draw the sign of `state` into the square in the middle of `rect`."""
    shape, role = SIGNS.get(state, SIGNS["spent"])
    colour = look.colour(role)
    side = min(rect.width(), rect.height())
    thick = max(2.0, side / 9)
    box = QRectF(0, 0, side - thick, side - thick)
    box.moveCenter(rect.center())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(colour, thick)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if shape == "disc":
        painter.setBrush(colour)
        painter.drawEllipse(box)
    elif shape == "ring":
        painter.drawEllipse(box)
        _paint_days(painter, box, look, days)
    elif shape == "bar":
        painter.drawRect(box)
        half = side / 6
        painter.fillRect(QRectF(box.left(), box.center().y() - half, box.width(), 2 * half), colour)
    elif shape == "cross":
        painter.drawRect(box)
        inner = box.adjusted(side / 5, side / 5, -side / 5, -side / 5)
        painter.drawLine(inner.topLeft(), inner.bottomRight())
        painter.drawLine(inner.topRight(), inner.bottomLeft())
    else:
        pen.setDashPattern([1.6, 1.4])
        painter.setPen(pen)
        painter.drawEllipse(box)
    painter.restore()


def _paint_days(painter: QPainter, box: QRectF, look: Look, days: int | None) -> None:
    if days is None:
        return
    text = str(days) if days < 100 else "99+"
    font = look.font(TEXT, bold=True)
    font.setPixelSize(max(9, int(box.height() * (0.58 if len(text) < 3 else 0.4))))
    painter.setFont(font)
    painter.setPen(look.colour("ink"))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)


def paint_finding(painter: QPainter, rect: QRectF, severity: str, look: Look) -> None:
    """A finding's mark: note an open circle, ask a flat bar, stop the crossed square."""
    side = min(rect.width(), rect.height())
    if severity == "stop":
        paint_sign(painter, rect, "rejected", look)
        return
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    box = QRectF(0, 0, side - 4, side - 4)
    box.moveCenter(rect.center())
    if severity == "ask":
        painter.fillRect(box.adjusted(0, side / 5, 0, -side / 5), look.colour("amber"))
        painter.setPen(QPen(look.colour("sheet"), max(2.0, side / 9)))
        middle = box.center()
        painter.drawLine(
            QPointF(box.left() + side / 5, middle.y()), QPointF(box.right() - side / 5, middle.y())
        )
    else:
        painter.setPen(QPen(look.colour("steel"), max(2.0, side / 9)))
        painter.drawEllipse(box.adjusted(side / 8, side / 8, -side / 8, -side / 8))
    painter.restore()


class SignFace(QWidget):
    """The sign alone. `days` shows inside the ring of what hangs."""

    def __init__(self, look: Look, state: str = "", *, days: int | None = None, size: int = 24, parent=None):
        super().__init__(parent)
        self._look, self._state, self._days, self._size = look, state, days, size
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(state)
        look.changed.connect(self.update)

    def set_state(self, state: str, days: int | None = None) -> None:
        self._state, self._days = state, days
        self.setAccessibleName(state)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(self._size), self._look.px(self._size))

    def paintEvent(self, event) -> None:
        painter = QPainter(self)
        if self._state in ("note", "ask", "stop"):
            paint_finding(painter, QRectF(self.rect()), self._state, self._look)
        else:
            paint_sign(painter, QRectF(self.rect()), self._state, self._look, self._days)


class StateSign(QWidget):
    """Sign and word, and why where there is a why."""

    def __init__(
        self,
        look: Look,
        state: str = "",
        reason: str = "",
        *,
        days: int | None = None,
        wrap: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.face = SignFace(look, state, days=days, size=28)
        self.words = Words("", wrap=wrap)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self.face, 0, Qt.AlignmentFlag.AlignTop)
        layout.addWidget(self.words, 1)
        self.set_state(state, reason, days)

    def set_state(self, state: str, reason: str = "", days: int | None = None) -> None:
        self.face.set_state(state, days)
        text = f"{state}: {reason}" if reason else state
        self.words.say(text)
        self.words.setProperty("role", {"amber": "amber", "plum": "plum"}.get(role_of(state), "strong"))
        self.words.style().polish(self.words)
        self.setAccessibleName(text)
