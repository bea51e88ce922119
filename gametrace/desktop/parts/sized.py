"""Widths and heights given in the pixels of the design, kept right when the size of everything is changed."""

from __future__ import annotations

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look


class _Kept(QObject):
    """Belongs to its widget and goes with it."""

    def __init__(self, look: Look, widget: QWidget, width: int, height: int) -> None:
        super().__init__(widget)
        self._look, self._widget, self._width, self._height = look, widget, width, height
        look.changed.connect(self.apply)
        self.apply()

    def apply(self) -> None:
        if self._width:
            self._widget.setFixedWidth(self._look.px(self._width))
        if self._height:
            self._widget.setFixedHeight(self._look.px(self._height))


def keep_width(look: Look, widget: QWidget, width: int) -> None:
    """A fixed width in pixels of the design."""
    _Kept(look, widget, width, 0)


def keep_height(look: Look, widget: QWidget, height: int) -> None:
    """A fixed height in pixels of the design."""
    _Kept(look, widget, 0, height)
