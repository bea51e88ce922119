"""The few questions only the desktop itself can answer: where to save, which file to open, show this paper.

The one module that may open a dialog that waits. Tests and the tour hand in `Answers` instead.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog, QWidget


class DesktopQuestions:
    """Asks the person."""

    def __init__(self, parent: QWidget | None = None) -> None:
        self._parent = parent

    def where_to_save(self, title: str, suggested: Path) -> Path | None:
        chosen, _ = QFileDialog.getSaveFileName(self._parent, title, str(suggested))
        return Path(chosen) if chosen else None

    def which_file(self, title: str, kinds: str) -> Path | None:
        chosen, _ = QFileDialog.getOpenFileName(self._parent, title, "", kinds)
        return Path(chosen) if chosen else None

    def which_folder(self, title: str) -> Path | None:
        chosen = QFileDialog.getExistingDirectory(self._parent, title)
        return Path(chosen) if chosen else None

    def show_file(self, path: Path) -> bool:
        return QDesktopServices.openUrl(QUrl.fromLocalFile(str(path)))


class Answers:
    """Answers without asking: everything is saved in `folder` under the suggested name, nothing is shown."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.shown: list[Path] = []

    def where_to_save(self, title: str, suggested: Path) -> Path | None:
        return self.folder / suggested.name

    def which_file(self, title: str, kinds: str) -> Path | None:
        return None

    def which_folder(self, title: str) -> Path | None:
        return self.folder

    def show_file(self, path: Path) -> bool:
        self.shown.append(path)
        return True
