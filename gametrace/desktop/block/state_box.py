"""Boxes with codes behind their words: the state of a cut, and who cut it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QComboBox, QWidget

from gametrace.facts.cut_tree import states


class CodeBox(QComboBox):
    """A choice of (code, words); `value()` is the code, '' for the first, which says that nothing is said."""

    def __init__(self, name: str, nothing: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._nothing = nothing
        self.setMaxVisibleItems(12)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(6)  # the list it opens is as wide as it needs
        self.set_choices(())

    def set_choices(self, choices: Sequence[tuple[str, str]]) -> None:
        """The chosen one stays chosen where it is still there."""
        kept = self.value()
        with QSignalBlocker(self):
            self.clear()
            self.addItem(self._nothing, "")
            for code, words in choices:
                self.addItem(words, code)
        self.set_value(kept)

    def value(self) -> str:
        return self.currentData() or ""

    def set_value(self, code: str) -> None:
        self.setCurrentIndex(max(0, self.findData(code)))


class StateBox(CodeBox):
    """Bone in, boneless, diced, minced; or as the cut is usually. Cured is a mix, cooked is a dish."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("State of the cut", "any state", parent)
        self.set_choices([(one.id, one.name) for one in states() if not one.made_by])
