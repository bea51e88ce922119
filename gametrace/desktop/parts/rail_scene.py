"""The rails as they are: a steel line for each, hooks along it, the carcasses that hang there.

Every hook is a button of its own, so that it can be reached by key, by touch and by a screen reader. Arrows
walk along a rail and from rail to rail. Knows records of carcasses, not the register. What did not change is
not drawn again: a move touches two hooks of a hundred.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import (
    QAbstractButton,
    QFrame,
    QHBoxLayout,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from gametrace.desktop.assets import paint_drawing
from gametrace.desktop.look import Look
from gametrace.desktop.parts.state_sign import paint_sign, role_of
from gametrace.desktop.parts.words import Words
from gametrace.desktop.style import TEXT
from gametrace.domain.hanging import HangingPlan
from gametrace.domain.quantities import kg_text
from gametrace.register.records import Carcass, Hook, Rail

# The drawing of a species, by build. What is not named hangs by the brace or as ground game.
BUILD = {
    "red": "large",
    "red-sika-hybrid": "large",
    "sika": "medium",
    "fallow": "medium",
    "wild-boar": "medium",
    "roe": "small",
    "muntjac": "small",
    "chinese-water-deer": "small",
}
GROUND_GAME = frozenset({"rabbit", "brown-hare", "mountain-hare"})
HOOK_WIDTH, HOOK_HEIGHT, FOOT, RAIL_Y = 128, 250, 80, 8
SIGN, LINE = 30, 24


def hook_words(hook: Hook, plan: HangingPlan | None = None) -> str:
    """What a hook says to an ear."""
    if hook.carcass is None:
        return f"Hook {hook.number}, empty"
    one = hook.carcass
    hung = "" if one.days_hung is None else f", {one.days_hung} days"
    skin = "in the skin" if one.in_skin else "skinned"
    ready = f", ready from day {plan.ready_from_days}, by day {plan.by_days}" if plan else ""
    said = f"{one.code} {one.title}, {skin}{hung}{ready}, {kg_text(one.lot.grams)}, {one.lot.state}"
    return f"Hook {hook.number}: {said}"


def is_over(one: Carcass, plan: HangingPlan | None) -> bool:
    """It hangs past the last day of its plan."""
    return plan is not None and one.days_hung is not None and one.days_hung > plan.by_days


def days_line(one: Carcass, plan: HangingPlan | None) -> str:
    """'day 5 of 6–8': days since the kill, and from when to when it is to come down."""
    if one.days_hung is None:
        return ""
    if plan is None:
        return f"day {one.days_hung}"
    first, last = plan.ready_from_days, plan.by_days
    return f"day {one.days_hung} of {last if first == last else f'{first}–{last}'}"


class HookButton(QAbstractButton):
    """One hook with what hangs on it, drawn."""

    walked = Signal(int, int)  # steps along, steps down

    def __init__(
        self, look: Look, hook: Hook, plan: HangingPlan | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._look = look
        self.hook, self.plan = hook, plan
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAccessibleName(hook_words(hook, plan))
        look.changed.connect(self.update)

    def set_hook(self, hook: Hook, plan: HangingPlan | None) -> None:
        """What hangs there now; drawn again only where that is something else."""
        if (hook, plan) != (self.hook, self.plan):
            self.hook, self.plan = hook, plan
            self.setAccessibleName(hook_words(hook, plan))
            self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(HOOK_WIDTH), self._look.px(HOOK_HEIGHT))

    def keyPressEvent(self, event) -> None:
        steps = {
            Qt.Key.Key_Left: (-1, 0),
            Qt.Key.Key_Right: (1, 0),
            Qt.Key.Key_Up: (0, -1),
            Qt.Key.Key_Down: (0, 1),
        }
        if (step := steps.get(event.key())) is not None:
            self.walked.emit(*step)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event) -> None:
        look, painter = self._look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.isChecked():
            painter.fillRect(self.rect(), look.colour("chosen"))
        painter.setPen(QPen(look.colour("quiet"), look.px(5)))
        painter.drawLine(0, look.px(RAIL_Y), self.width(), look.px(RAIL_Y))
        if self.hook.carcass is not None:
            self._paint_carcass(painter, self.hook.carcass)
        else:
            self._paint_bare(painter)
        if self.hasFocus():
            painter.setPen(QPen(look.colour("pine"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(2, 2, -2, -2))

    def _paint_bare(self, painter: QPainter) -> None:
        """An empty hook and its number."""
        look, middle, rail = self._look, self.width() / 2, self._look.px(RAIL_Y)
        path = QPainterPath()
        path.moveTo(middle, rail)
        path.lineTo(middle, rail + look.px(16))
        path.arcTo(QRectF(middle - look.px(5), rail + look.px(12), look.px(10), look.px(12)), 90, -240)
        painter.setPen(QPen(look.colour("quiet"), 2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(path)
        painter.setPen(look.colour("quiet"))
        painter.setFont(look.font(TEXT))
        box = QRectF(0, rail + look.px(30), self.width(), look.px(26))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(self.hook.number))

    def _paint_carcass(self, painter: QPainter, one: Carcass) -> None:
        look = self._look
        top = look.px(RAIL_Y - 2)
        high = self.height() - look.px(FOOT + 2) - top
        wide = high * 96 / 208
        box = QRectF((self.width() - wide) / 2, top, wide, high)
        if not paint_drawing(painter, drawing_of(one), look.palette.ink, box):
            painter.setPen(QPen(look.colour("ink"), 1))
            painter.setBrush(look.colour("hide" if one.in_skin else "flesh"))
            painter.drawPath(plain_body(box.adjusted(10, 24, -10, -10)))
        sign, gap = look.px(SIGN), look.px(6)
        line = self.height() - look.px(FOOT)
        font = look.font(TEXT, bold=True)
        number = short_code(one.code)
        wide = QFontMetrics(font).horizontalAdvance(number)
        left = max(0.0, (self.width() - sign - gap - wide) / 2)
        paint_sign(painter, QRectF(left, line, sign, sign), one.lot.state, look, one.days_hung)
        painter.setFont(font)
        painter.setPen(look.colour("ink"))
        beside = QRectF(left + sign + gap, line, self.width() - left - sign - gap, sign)
        painter.drawText(beside, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, number)
        role = role_of(one.lot.state)
        painter.setFont(look.font(TEXT))
        painter.setPen(look.colour(role if role in ("amber", "plum") else "quiet"))
        box = QRectF(0, line + sign, self.width(), look.px(LINE))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, one.lot.state)
        over = is_over(one, self.plan)
        days, font = days_line(one, self.plan), look.font(TEXT, bold=over)
        if QFontMetrics(font).horizontalAdvance(days) > self.width():
            font.setPixelSize(look.px(TEXT - 3))
        painter.setFont(font)
        painter.setPen(look.colour("amber" if over else "quiet"))
        painter.drawText(box.translated(0, look.px(LINE)), Qt.AlignmentFlag.AlignCenter, days)


def short_code(code: str) -> str:
    """The running number as people call it across the larder: '417' of '26-00417-K'."""
    parts = code.split("-")
    return parts[1].lstrip("0") or parts[1] if len(parts) == 3 else code


def drawing_of(one: Carcass) -> str:
    """The name of the drawing for what hangs there."""
    build = BUILD.get(one.species)
    if build is None:
        return "hanging-ground-game" if one.species in GROUND_GAME else "hanging-brace"
    return f"hanging-{build}-{'in-skin' if one.in_skin else 'skinned'}"


def plain_body(box: QRectF) -> QPainterPath:
    """A hanging body without a drawing of its own: hind legs up, shoulders wide, neck down."""
    x, y, w, h = box.left(), box.top(), box.width(), box.height()
    path = QPainterPath()
    path.moveTo(x + w * 0.28, y)
    path.cubicTo(x + w * 0.18, y + h * 0.2, x + w * 0.2, y + h * 0.3, x + w * 0.12, y + h * 0.45)
    path.cubicTo(x - w * 0.02, y + h * 0.62, x + w * 0.08, y + h * 0.78, x + w * 0.3, y + h * 0.84)
    path.lineTo(x + w * 0.4, y + h)
    path.lineTo(x + w * 0.6, y + h)
    path.lineTo(x + w * 0.7, y + h * 0.84)
    path.cubicTo(x + w * 0.92, y + h * 0.78, x + w * 1.02, y + h * 0.62, x + w * 0.88, y + h * 0.45)
    path.cubicTo(x + w * 0.8, y + h * 0.3, x + w * 0.82, y + h * 0.2, x + w * 0.72, y)
    path.lineTo(x + w * 0.6, y)
    path.cubicTo(x + w * 0.62, y + h * 0.12, x + w * 0.54, y + h * 0.18, x + w * 0.5, y + h * 0.2)
    path.cubicTo(x + w * 0.46, y + h * 0.18, x + w * 0.38, y + h * 0.12, x + w * 0.4, y)
    path.closeSubpath()
    return path


class _Rail(QScrollArea):
    """One rail; grows by the height of a scroll bar when it is longer than the page is wide."""

    def __init__(self, line: QWidget, length: int, height: int) -> None:
        super().__init__()
        self._length, self._height = length, height
        self.setWidget(line)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFixedHeight(height)

    def resizeEvent(self, event) -> None:
        is_long = self._length > self.width()
        policy = Qt.ScrollBarPolicy.ScrollBarAlwaysOn if is_long else Qt.ScrollBarPolicy.ScrollBarAlwaysOff
        self.setHorizontalScrollBarPolicy(policy)
        self.setFixedHeight(self._height + (self.horizontalScrollBar().sizeHint().height() if is_long else 0))
        super().resizeEvent(event)


class RailScene(QWidget):
    """All rails of one store, one under the other, each scrolling sideways where it is long.

    Signals: chosen(str, str): place code and carcass code ('' on an empty hook).
    """

    chosen = Signal(str, str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._rows: list[list[HookButton]] = []
        self._chosen_place = ""
        self._places: list[tuple[str, list[str]]] = []
        self._plans: Mapping[str, HangingPlan] = {}
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(4)

    def set_rails(self, rails: Sequence[Rail], plans: Mapping[str, HangingPlan] | None = None) -> None:
        """Draw these; `plans` are the hanging plans of what hangs there, by its number."""
        self._plans = plans or {}
        places = [(rail.name, [hook.place for hook in rail.hooks]) for rail in rails]
        if places == self._places:
            for buttons, rail in zip(self._rows, rails, strict=True):
                for button, hook in zip(buttons, rail.hooks, strict=True):
                    button.set_hook(hook, self._plan_of(hook))
            return
        self._places = places
        focused = next((b.hook.place for b in self._buttons() if b.hasFocus()), "")
        while self._layout.count():
            widget = self._layout.takeAt(0).widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self._rows = [self._add_rail(rail) for rail in rails]
        for button in self._buttons():
            if button.hook.place == self._chosen_place:
                button.setChecked(True)
            if button.hook.place == focused:
                button.setFocus()

    def _plan_of(self, hook: Hook) -> HangingPlan | None:
        return self._plans.get(hook.carcass.code) if hook.carcass else None

    def _add_rail(self, rail: Rail) -> list[HookButton]:
        self._layout.addWidget(Words(rail.name, "quiet", wrap=False))
        line = QWidget()
        line.setProperty("role", "ground")
        hooks = QHBoxLayout(line)
        hooks.setContentsMargins(0, 0, 0, 0)
        hooks.setSpacing(0)
        row = [HookButton(self._look, hook, self._plan_of(hook)) for hook in rail.hooks]
        for button in row:
            hooks.addWidget(button)
            button.clicked.connect(self._clicked)
            button.walked.connect(self._walk)
        hooks.addStretch(1)
        scroll = _Rail(line, len(row) * self._look.px(HOOK_WIDTH), self._look.px(HOOK_HEIGHT))
        self._layout.addWidget(scroll)
        return row

    def _buttons(self) -> list[HookButton]:
        return [button for row in self._rows for button in row]

    def hook_button(self, place: str) -> HookButton | None:
        return next((button for button in self._buttons() if button.hook.place == place), None)

    def hook_count(self) -> int:
        return len(self._buttons())

    def hung(self) -> list[str]:
        """Numbers of what hangs here."""
        return [button.hook.carcass.code for button in self._buttons() if button.hook.carcass]

    def take_down(self, code: str) -> HangingPlan | None:
        """The hook it hung on is bare now; gives its plan."""
        for button in self._buttons():
            if button.hook.carcass is not None and button.hook.carcass.code == code:
                plan = button.plan
                button.set_hook(replace(button.hook, carcass=None), None)
                return plan
        return None

    def hang(self, carcass: Carcass, plan: HangingPlan | None) -> None:
        """It hangs on its hook now."""
        if (button := self.hook_button(carcass.lot.place)) is not None:
            button.set_hook(replace(button.hook, carcass=carcass), plan)

    def choose_place(self, place: str) -> None:
        """Mark one hook as chosen, without telling."""
        self._chosen_place = place
        for button in self._buttons():
            button.setChecked(button.hook.place == place)

    def _clicked(self) -> None:
        button = self.sender()
        if isinstance(button, HookButton):
            self.choose_place(button.hook.place)
            carcass = button.hook.carcass
            self.chosen.emit(button.hook.place, carcass.code if carcass else "")

    def _walk(self, along: int, down: int) -> None:
        button = self.sender()
        at = next(((r, row.index(button)) for r, row in enumerate(self._rows) if button in row), None)
        if at is None:
            return
        row = at[0] + down
        if not 0 <= row < len(self._rows) or not self._rows[row]:
            return
        place = at[1] + along
        if along and not 0 <= place < len(self._rows[row]):
            return
        target = self._rows[row][min(place, len(self._rows[row]) - 1)]
        target.setFocus(Qt.FocusReason.OtherFocusReason)
        scroll = _scroll_of(target)
        if scroll is not None:
            scroll.ensureWidgetVisible(target, 24, 0)


def _scroll_of(widget: QWidget) -> QScrollArea | None:
    parent = widget.parentWidget()
    while parent is not None and not isinstance(parent, QScrollArea):
        parent = parent.parentWidget()
    return parent
