"""A plain heading with something behind it that most deliveries do not need: made when first opened."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QPushButton, QScrollArea, QSizePolicy, QVBoxLayout, QWidget


class PassedBy(QPushButton):
    """Tab stops at it; Enter in the field before goes past it."""


class FoldHead(PassedBy):
    """The heading itself."""


class Fold(QWidget):
    """Space or a press opens and closes it. Tab stops at it; Enter in the field before goes past it.

    Signals: grew(): opened, closed, or made.
    """

    grew = Signal()

    def __init__(self, title: str, make: Callable[[], QWidget], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title, self._said, self._make = title, "", make
        self._inner: QWidget | None = None
        self.head = FoldHead()
        self.head.setProperty("role", "plain")
        self.head.setCheckable(True)
        self.head.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self.head)
        self.setFocusProxy(self.head)
        self.head.toggled.connect(self._toggled)
        self._show_head()

    @property
    def is_made(self) -> bool:
        return self._inner is not None

    @property
    def is_open(self) -> bool:
        return self.head.isChecked()

    @property
    def inner(self) -> Any:
        """What is behind the heading, made now if it was not."""
        if self._inner is None:
            self._inner = self._make()
            self._inner.setParent(self)
            self._inner.setVisible(self.is_open)
            self.layout().addWidget(self._inner)
            self.grew.emit()
        return self._inner

    def say(self, said: str) -> None:
        """What it holds, in a word or two behind the heading."""
        self._said = said
        self._show_head()

    def set_open(self, is_open: bool) -> None:
        self.head.setChecked(is_open)

    def _toggled(self, is_open: bool) -> None:
        if is_open:
            self.inner.show()
            QTimer.singleShot(0, self, self._into_sight)
        elif self._inner is not None:
            self._inner.hide()
        self._show_head()
        self.grew.emit()

    def _into_sight(self) -> None:
        """What was opened by hand is looked at."""
        around = self.parentWidget()
        while around is not None and not isinstance(around, QScrollArea):
            around = around.parentWidget()
        if around is not None and self.head.hasFocus():
            around.ensureWidgetVisible(self, 0, 8)
            around.ensureWidgetVisible(self.head, 0, 8)

    def _show_head(self) -> None:
        words = f"{self._title}: {self._said}" if self._said else self._title
        self.head.setText(f"{'–' if self.is_open else '+'} {words}")
        self.head.setAccessibleName(f"{words}. {'Open' if self.is_open else 'Folded'}; Space turns it")


def move_past_folds(page: QWidget) -> None:
    """The hand to the next field, past what most deliveries leave alone."""
    for _ in range(12):
        page.focusNextPrevChild(True)
        if not isinstance(page.focusWidget(), PassedBy):
            return
