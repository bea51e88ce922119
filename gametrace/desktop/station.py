"""The ground every station stands on: when it reads, when it is stale, and its four faces."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.empty_face import Faces
from gametrace.desktop.style import APART, GAP
from gametrace.domain.errors import Trouble


class Station(QWidget):
    """One page of the window. A subclass gives `name`, `title`, its view, and `refresh`.

    `refresh` reads from the register and redraws; it is called when the page is first shown and whenever an
    act has changed something. While hidden a station is only marked stale.
    """

    name = ""
    title = ""

    def __init__(self, bench: Bench, page: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.faces = Faces(page)
        self.setProperty("role", "ground")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(APART, GAP, APART, GAP)
        layout.addWidget(self.faces)
        self.setAccessibleName(self.title)
        self._is_stale = True
        bench.refresh.changed.connect(self._act_was_done)
        self.faces.again_wanted.connect(self.reload)

    # -- for subclasses ---------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Read anew and redraw."""

    def on_scan(self, code: str) -> bool:
        """Take a scanned or typed code. False lets Trace have it. The code is already in its full form."""
        return False

    def open_code(self, code: str) -> None:
        """Somebody was sent here with this code."""

    def open_page(self, code: str, page: str) -> None:
        """The same, to a page that was named, or ''. A station that has but one leaves it."""
        self.open_code(code)

    def set_person(self, code: str) -> None:
        """Somebody else is at the keyboard."""

    # -- the rest ---------------------------------------------------------------------------------------

    def reload(self) -> None:
        """Refresh, or show the broken face."""
        if not self.bench.is_open:
            return
        self._is_stale = False
        self.faces.show_page()
        try:
            self.refresh()
        except Trouble as trouble:
            self._show_broken(trouble.sentence, trouble.what_to_do)
        except Exception as error:  # a page that cannot be drawn must not take the window with it
            self.bench.report_bug(error)
            self._show_broken(
                "This page could not be read.", "Try again; if it stays so, see what happened above."
            )

    def _show_broken(self, what: str, what_to_do: str) -> None:
        safe = "Everything acknowledged before is on disk. Nothing was changed by opening this page."
        self.faces.show_broken(what, safe, what_to_do)

    def _act_was_done(self, changes: object) -> None:
        self._is_stale = True
        if self.isVisible():
            self.reload()

    def showEvent(self, event) -> None:
        super().showEvent(event)
        if self._is_stale:
            self.reload()
