"""Puts the Tab order of a page as the eye reads it, and lets Enter move on from field to field.

Fields that come and go (age classes, more temperatures) would otherwise be last in the window's own order.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QLayout,
    QLineEdit,
    QPlainTextEdit,
    QScrollArea,
    QWidget,
)

from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.pick_list import PickList

_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
_FIELDS = (QLineEdit, QComboBox, QPlainTextEdit, QAbstractButton)


def reading_order(root: QWidget) -> Iterator[QWidget]:
    """Every widget that takes the focus, in the order of the layouts."""
    if isinstance(root, QScrollArea):
        inside = root.widget()
        if inside is not None:
            yield from reading_order(inside)
        return
    if isinstance(root, _FIELDS):
        yield root
        return
    layout = root.layout()
    if layout is not None:
        yield from _of_layout(layout)
    if root.focusPolicy() != Qt.FocusPolicy.NoFocus and root.focusProxy() is None:
        yield root


def _of_layout(layout: QLayout) -> Iterator[QWidget]:
    for at in range(layout.count()):
        item = layout.itemAt(at)
        if item is None:
            continue
        widget, inner = item.widget(), item.layout()
        if widget is not None:
            yield from reading_order(widget)
        elif inner is not None:
            yield from _of_layout(inner)


def set_reading_order(root: QWidget) -> None:
    """Make Tab follow the layouts below `root`."""
    order = list(reading_order(root))
    for first, second in pairwise(order):
        QWidget.setTabOrder(first, second)


class EnterMovesOn(QObject):
    """Watches the fields below a page: Enter leaves a field for the next, as it is.

    On a row of choices or a toggle the arrows and Space choose and Enter moves on: a hand in a hurry must not
    write what nobody said, least of all on a hunter's statement. Any other button Enter presses. Shift+Enter
    makes a new line in a longer text. Lists keep their own Enter. Past a day Enter does not stop at its
    buttons.
    Signals: left(): Enter was pressed in a field; the page moves the focus on.
    """

    left = Signal()

    def __init__(self, page: QWidget) -> None:
        super().__init__(page)
        self._page = page

    def watch(self) -> None:
        """Look after every field there is now; may be called again when others came."""
        for kind in (QLineEdit, QComboBox, QPlainTextEdit):
            for widget in self._page.findChildren(kind):
                widget.installEventFilter(self)
        for button in self._page.findChildren(QAbstractButton):
            if not isinstance(button, BigButton):
                button.installEventFilter(self)

    def eventFilter(self, watched, event) -> bool:
        if event.type() != QEvent.Type.KeyPress or event.key() not in _ENTER:
            return False
        if event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier):
            return False
        if isinstance(watched, QLineEdit) and isinstance(watched.parentWidget(), PickList):
            return False
        if isinstance(watched, QPlainTextEdit) and event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            return False
        if isinstance(watched, QAbstractButton):
            if not watched.isCheckable():
                watched.click()
                return True
            if watched.group() is not None and not isinstance(watched.parentWidget(), ChoiceRow):
                watched.click()  # a drawing in the grid of species: the arrows only walk there
        self.left.emit()
        while self._is_beside(watched):
            self.left.emit()
        return True

    def _is_beside(self, left: QObject) -> bool:
        """The hand went from a day to its own 'today': one more Enter would write today over the day."""
        now = QApplication.focusWidget()
        own = left.parent() if isinstance(left, QLineEdit) else None
        return isinstance(now, QAbstractButton) and isinstance(own, OptionalDate) and now.parent() is own
