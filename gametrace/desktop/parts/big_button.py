"""Buttons: the one main action of a page, and the plain ones beside it."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget


class BigButton(QPushButton):
    """The one main action of a page. Space or a press on it; Enter too when it has the focus."""

    def __init__(self, words: str, parent: QWidget | None = None) -> None:
        super().__init__(words, parent)
        self.setProperty("role", "main")
        self.setAccessibleName(words)
        self.setAutoDefault(True)


class Button(QPushButton):
    """Any other act. `quiet` draws it as underlined words."""

    def __init__(
        self, words: str, *, quiet: bool = False, name: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(words, parent)
        if quiet:
            self.setProperty("role", "plain")
        self.setAccessibleName(name or words)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
