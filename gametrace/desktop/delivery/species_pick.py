"""Species chosen by their drawings: deer and boar first, birds and small game behind one press."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QGridLayout, QSizePolicy, QWidget

from gametrace.desktop.assets import paint_drawing
from gametrace.desktop.look import Look
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.words import column
from gametrace.desktop.style import TEXT
from gametrace.facts.species import Species, all_species

# The weight of either stays in sight at 1280 x 800. Small game is drawn beside its name, not over it.
ACROSS = {"large": 4, "small": 3}
_HEIGHT = {"large": 104, "small": 48}
_LEAST = 16  # the smallest type of a name
_NAMES = {
    "chinese-water-deer": "water deer",
    "red-sika-hybrid": "hybrid",
    "red-legged-partridge": "redleg",
    "woodpigeon": "pigeon",
}


def short_name(kind: Species) -> str:
    """The name where there is little room; the whole one is said to the ear."""
    return _NAMES.get(kind.id, kind.name)


def across(look: Look, sort: str) -> int:
    """How many stand beside each other; of the long names of small game fewer in larger type."""
    return ACROSS[sort] - (1 if sort == "small" and look.scale > 1 else 0)


class SpeciesButton(QAbstractButton):
    """One animal, drawn, with its name under it, or beside it where it is small game."""

    def __init__(self, look: Look, kind: Species, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self.kind = look, kind
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(f"Species: {kind.name}")
        look.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(90), self._look.px(_HEIGHT[self._sort]))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(72), self._look.px(_HEIGHT[self._sort]))

    @property
    def _sort(self) -> str:
        return "small" if self.kind.group == "small" else "large"

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        ground, ink = ("ink", "sheet") if self.isChecked() else ("sheet", "ink")
        painter.setPen(QPen(look.colour("line"), 1))
        painter.setBrush(look.colour(ground))
        painter.drawRoundedRect(box, 4, 4)
        words = self._words_box(box)
        drawing = self._drawing_box(box)
        colour = getattr(look.palette, ink)
        if not paint_drawing(painter, self.kind.id, colour, drawing):
            paint_drawing(painter, "bird", colour, drawing)
        painter.setPen(look.colour(ink))
        self._paint_name(painter, words)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(look.colour("pine"), 4))
            painter.drawRoundedRect(box.adjusted(2, 2, -2, -2), 4, 4)
            painter.setPen(QPen(look.colour("sheet"), 1))
            painter.drawRoundedRect(box.adjusted(5, 5, -5, -5), 3, 3)

    def _drawing_box(self, box: QRectF) -> QRectF:
        if self._sort == "small":
            return QRectF(box.left() + 4, box.top() + 8, self._look.px(32), box.height() - 16)
        return QRectF(box.left() + 8, box.top() + 5, box.width() - 16, box.height() - self._look.px(50))

    def _words_box(self, box: QRectF) -> QRectF:
        if self._sort == "small":
            return box.adjusted(self._look.px(32) + 5, 2, -3, -2)
        return QRectF(box.left() + 3, box.bottom() - self._look.px(46), box.width() - 6, self._look.px(43))

    def _paint_name(self, painter: QPainter, box: QRectF) -> None:
        """As large as there is room for, a name of two words in two lines where it must be."""
        look = self._look
        font = look.font(TEXT, bold=self.isChecked())
        lines = [short_name(self.kind)]
        if _widest(font, lines) > box.width() and _least(font, lines, look) > box.width():
            lines = lines[0].split(" ", 1)
        while _widest(font, lines) > box.width() and font.pixelSize() > look.px(_LEAST):
            font.setPixelSize(font.pixelSize() - 1)
        painter.setFont(font)
        step = look.px(19)
        top = box.bottom() - look.px(24) - (len(lines) - 1) * step
        if self._sort == "small":
            top = box.center().y() - len(lines) * step / 2
        for at, line in enumerate(lines):
            high = step if self._sort == "small" else look.px(24)
            painter.drawText(
                QRectF(box.left(), top + at * step, box.width(), high), Qt.AlignmentFlag.AlignCenter, line
            )

    def keyPressEvent(self, event) -> None:
        """Up and down go by rows; along a row the group does it."""
        rows = across(self._look, self._sort)
        steps = {Qt.Key.Key_Up: -rows, Qt.Key.Key_Down: rows, Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        step = steps.get(event.key())
        pick = self.parent()
        while pick is not None and not isinstance(pick, SpeciesPick):
            pick = pick.parent()
        if step is not None and pick is not None:
            pick.walk(self, step)
            return
        super().keyPressEvent(event)


def _widest(font: QFont, lines: list[str]) -> int:
    metrics = QFontMetrics(font)
    return max(metrics.horizontalAdvance(line) for line in lines)


def _least(font: QFont, lines: list[str], look: Look) -> int:
    """How wide they are in the smallest type a name is written in."""
    small = QFont(font)
    small.setPixelSize(look.px(_LEAST))
    return _widest(small, lines)


class SpeciesPick(QWidget):
    """The animals in rows. `value()` is '' until one is chosen.

    Signals: changed(str): a species, by a person. shown_other(): other animals are on show.
    """

    changed = Signal(str)
    shown_other = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sort = ChoiceRow(
            [("large", "Deer and boar"), ("small", "Birds and small game")],
            value="large",
            name="Kind of game",
        )
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        self._grids: dict[str, QWidget] = {}
        self.buttons: dict[str, SpeciesButton] = {}
        for sort in ("large", "small"):
            grid_widget = QWidget()
            grid = QGridLayout(grid_widget)
            grid.setContentsMargins(0, 0, 0, 0)
            grid.setSpacing(4)
            kinds = [kind for kind in all_species() if (kind.group == "small") == (sort == "small")]
            for kind in kinds:
                button = SpeciesButton(look, kind)
                self._group.addButton(button)
                self.buttons[kind.id] = button
            self._grids[sort] = grid_widget
        self._look = look
        self._lay_out()
        look.changed.connect(self._lay_out)
        layout = column(self.sort, *self._grids.values(), gap=8)
        self.setLayout(layout)
        self.sort.changed.connect(self._show_sort)
        self._group.buttonClicked.connect(self._clicked)
        self._show_sort("large")

    def _lay_out(self) -> None:
        for sort, widget in self._grids.items():
            grid, rows = widget.layout(), across(self._look, sort)
            assert isinstance(grid, QGridLayout)
            kinds = [b for b in self.buttons.values() if (b.kind.group == "small") == (sort == "small")]
            for at, button in enumerate(kinds):
                grid.addWidget(button, at // rows, at % rows)

    def value(self) -> str:
        return next((name for name, button in self.buttons.items() if button.isChecked()), "")

    def set_value(self, species: str) -> None:
        """Choose without telling; '' chooses none."""
        self._group.setExclusive(False)
        for name, button in self.buttons.items():
            button.setChecked(name == species)
            if not species:
                # Qt lets Tab stop at the one chosen last; on an empty form the hand starts at the first.
                button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._group.setExclusive(True)
        sort = "small" if species and self.buttons[species].kind.group == "small" else "large"
        self.sort.set_value(sort)
        self._show_sort(sort)

    def choose(self, species: str) -> None:
        """Choose as a person does, telling."""
        self.buttons[species].click()

    def walk(self, button: SpeciesButton, step: int) -> None:
        """The focus to another animal of those on show."""
        shown = [
            one for one in self.buttons.values() if not one.isHidden() and one.parent() is button.parent()
        ]
        at = shown.index(button) + step
        if 0 <= at < len(shown):
            shown[at].setFocus(Qt.FocusReason.TabFocusReason)

    def _show_sort(self, sort: str) -> None:
        for name, grid in self._grids.items():
            grid.setVisible(name == sort)
        self.shown_other.emit()

    def setFocus(self, reason: Qt.FocusReason = Qt.FocusReason.OtherFocusReason) -> None:
        """To the chosen animal or the first. No focus proxy: with one, Tab passes by the kinds of game."""
        chosen = self.buttons.get(self.value())
        shown = [b for b in self.buttons.values() if not b.parentWidget().isHidden()]
        (chosen if chosen in shown else shown[0]).setFocus(reason)

    def _clicked(self, button: SpeciesButton) -> None:
        self.changed.emit(button.kind.id)
