"""The tables of a session side by side: what is cut on each, its own bar, what is still unweighed of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QHBoxLayout, QScrollArea, QSizePolicy, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.balance_bar import fill_part
from gametrace.desktop.parts.sized import keep_height
from gametrace.desktop.parts.words import clear
from gametrace.desktop.style import TEXT
from gametrace.domain.quantities import kg_text

HIGH = 58
_LEVEL_ROLE = {"even": "quiet", "amber": "amber", "red": "plum"}


@dataclass(frozen=True, slots=True)
class TableFace:
    """One table as its tab shows it. `code` is '' where nothing lies on it."""

    name: str
    code: str = ""
    what: str = ""
    grams_in: int = 0
    parts: tuple[tuple[str, int], ...] = ()  # sort, grams
    left: int = 0
    level: str = "even"
    animals: int = 0

    @property
    def told(self) -> str:
        """In words, for who cannot see the bar."""
        if not self.code:
            return f"{self.name}: free"
        several = f", {self.animals} animals" if self.animals > 1 else ""
        past = {"amber": ", past the amber line", "red": ", past the red line"}.get(self.level, "")
        return f"{self.name}: {self.what} {self.code}{several}, {kg_text(self.left)} unweighed{past}"


class TableTab(QAbstractButton):
    """One table. Pressed, it is the one in hand."""

    def __init__(self, look: Look, face: TableFace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self.face = look, face
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(look.px(HIGH))
        self.setMinimumWidth(look.px(190))
        self.setMaximumWidth(look.px(420))
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.show_face(face)

    def show_face(self, face: TableFace) -> None:
        self.face = face
        self.setAccessibleName(face.told)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(240), self._look.px(HIGH))

    def keyPressEvent(self, event) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event) -> None:
        look, face, painter = self._look, self.face, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter.fillRect(box, look.colour("chosen" if self.isChecked() else "sheet"))
        painter.setPen(QPen(look.colour("pine" if self.hasFocus() else "line"), 3 if self.hasFocus() else 1))
        painter.drawRect(box)
        if self.isChecked():
            painter.fillRect(QRectF(box.left(), box.top(), 5, box.height()), look.colour("ink"))
        room = box.adjusted(14, 4, -8, -(look.px(12)))
        upper = QRectF(room.left(), room.top(), room.width(), room.height() / 2)
        lower = QRectF(room.left(), room.center().y(), room.width(), room.height() / 2)
        middle = Qt.AlignmentFlag.AlignVCenter
        left, right = middle | Qt.AlignmentFlag.AlignLeft, middle | Qt.AlignmentFlag.AlignRight
        painter.setFont(look.font(TEXT, bold=True))
        painter.setPen(look.colour("ink"))
        painter.drawText(upper, left, self._cut(painter, face.name, upper.width() * 0.6))
        painter.setFont(look.font(TEXT))
        if not face.code:
            painter.setPen(look.colour("quiet"))
            painter.drawText(lower, left, "free")
            return
        painter.setPen(look.colour(_LEVEL_ROLE[face.level]))
        figure = kg_text(face.left)
        painter.drawText(upper, right, figure)
        painter.setPen(look.colour("quiet" if face.animals < 2 else "amber"))
        words = f"{face.what} {face.code[3:]}" if face.animals < 2 else f"{face.animals} animals, {face.what}"
        painter.drawText(lower, left, self._cut(painter, words, lower.width()))
        self._paint_bar(painter, QRectF(room.left(), box.bottom() - look.px(10), room.width(), look.px(7)))

    def _paint_bar(self, painter: QPainter, bar: QRectF) -> None:
        look, face = self._look, self.face
        painter.fillRect(bar, look.colour("sheet"))
        at, total = bar.left(), max(face.grams_in, sum(grams for _, grams in face.parts), 1)
        for sort, grams in face.parts:
            wide = bar.width() * grams / total
            fill_part(painter, QRectF(at, bar.top(), wide, bar.height()), sort, look)
            at += wide
        painter.setPen(QPen(look.colour("ink" if face.level == "even" else _LEVEL_ROLE[face.level]), 1.4))
        painter.drawRect(bar)

    def _cut(self, painter: QPainter, words: str, room: float) -> str:
        return painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, int(room))


class SessionStrip(QScrollArea):
    """Signals: table_wanted(str): a table by its name."""

    table_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._group = QButtonGroup(self)
        self._tabs: dict[str, TableTab] = {}
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._inside = QWidget()
        self._inside.setProperty("role", "ground")
        self._line = QHBoxLayout(self._inside)
        self._line.setContentsMargins(0, 0, 0, 0)
        self._line.setSpacing(8)
        self.setWidget(self._inside)
        self.setAccessibleName("Tables of the session")
        keep_height(look, self, HIGH + 2)

    def set_tables(self, faces: Sequence[TableFace], here: str) -> None:
        """Show these; `here` is the table in hand. The same tables again only get their new figures."""
        if [face.name for face in faces] != list(self._tabs):
            for tab in self._tabs.values():
                self._group.removeButton(tab)
            clear(self._line)
            self._tabs = {}
            for face in faces:
                tab = TableTab(self._look, face)
                tab.clicked.connect(partial(self.table_wanted.emit, face.name))
                self._group.addButton(tab)
                self._line.addWidget(tab)
                self._tabs[face.name] = tab
            self._line.addStretch(1)
        self._group.setExclusive(False)
        for face in faces:
            self._tabs[face.name].show_face(face)
            self._tabs[face.name].setChecked(face.name == here)
        self._group.setExclusive(True)

    def tab(self, name: str) -> TableTab:
        return self._tabs[name]

    def tables(self) -> tuple[str, ...]:
        return tuple(self._tabs)
