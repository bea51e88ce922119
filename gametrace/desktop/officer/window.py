"""The window an officer is left alone with. Its register is open read-only: the database refuses to write.

There is no strip, no set-up and no key to another page; it is left with a person's name, and their PIN where
they have one.
"""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.officer.leaving import LeavingPage
from gametrace.desktop.officer.presenter import OfficerPresenter
from gametrace.desktop.officer.view import OfficerView
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.notice import Banner
from gametrace.desktop.parts.words import Words, row
from gametrace.desktop.scanning import Scanning
from gametrace.desktop.style import APART, GAP
from gametrace.domain.errors import Refusal

LISTEN_MS = 2_000


class OfficerWindow(QMainWindow):
    """Signals: left(str, str): a person wants the register back, with a PIN. closed()."""

    left = Signal(str, str)
    closed = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.view = OfficerView(bench.look)
        self.presenter = OfficerPresenter(self.view, bench)
        self._build()
        self._connect()
        self._watch: Any = bench.guarded(bench.register.watch)
        self._again: Any = None
        self.leaving: LeavingPage | None = None
        self._listening = QTimer(self)
        self._listening.setInterval(LISTEN_MS)
        self._listening.timeout.connect(self._listen)
        self._listening.start()
        self.presenter.show_day()
        self.view.setFocus()

    def _build(self) -> None:
        larder = self.bench.ask("larder")
        practice = " · practice" if larder.is_practice else ""
        self.setWindowTitle(f"gametrace, officer's view{practice}")
        name = Words(f"{larder.name or 'A larder without a name'}{practice}", "heading", wrap=False)
        shut = Words("Officer's view: the register is open only to be looked at.", "quiet", wrap=False)
        self.leave_button = Button("Leave this view")
        self.banner = Banner(self.bench.look)
        self.stack = QStackedWidget()
        self.stack.addWidget(self.view)
        middle = QWidget()
        middle.setProperty("role", "ground")
        layout = QVBoxLayout(middle)
        layout.setContentsMargins(APART, GAP, APART, GAP)
        layout.setSpacing(GAP)
        layout.addLayout(row(name, shut, 1, self.leave_button))
        layout.addWidget(self.banner)
        layout.addWidget(self.stack, 1)
        self.setCentralWidget(middle)
        self.resize(1280, 800)

    def _connect(self) -> None:
        view, presenter, bench = self.view, self.presenter, self.bench
        view.asked.connect(presenter.ask)
        view.typed.connect(presenter.suggest)
        view.print_answer_wanted.connect(presenter.print_answer)
        view.day_wanted.connect(presenter.show_day_again)
        view.day.turned.connect(presenter.turn)
        view.day.print_wanted.connect(presenter.print_day)
        view.day.followed.connect(presenter.ask)
        self.leave_button.clicked.connect(self._ask_who)
        bench.done.connect(self.banner.done)
        bench.refused.connect(self.banner.refused)
        bench.trouble.connect(self._trouble)
        bench.bug.connect(self.banner.refused)
        self.banner.again_wanted.connect(self._try_again)
        self.scanning = Scanning(self)
        self.scanning.scanned.connect(self._scanned)
        self.scanning.start()

    def _scanned(self, text: str) -> None:
        if self.stack.currentWidget() is self.view:
            self.presenter.ask(text)

    def _listen(self) -> None:
        """Another station may have written: the day on view is read anew."""
        has_heard = self._watch is not None and self._watch.has_heard()
        if has_heard and self.view.pages.currentWidget() is self.view.day:
            self.presenter.show_day_again()

    def _trouble(self, sentence: str, again: Any) -> None:
        self._again = again
        self.banner.trouble(sentence, can_retry=again is not None)

    def _try_again(self) -> None:
        again, self._again = self._again, None
        if again is not None:
            again()

    # -- leaving ----------------------------------------------------------------------------------------

    def _ask_who(self) -> None:
        if self.leaving is not None:
            return
        page = self.bench.guarded(partial(LeavingPage, self.bench))
        if page is None:
            return
        self.leaving = page
        page.left.connect(self.left)
        page.stayed.connect(self.stay)
        self.stack.addWidget(page)
        self.stack.setCurrentWidget(page)
        page.setFocus()

    def stay(self) -> None:
        page, self.leaving = self.leaving, None
        if page is not None:
            self.stack.removeWidget(page)
            page.deleteLater()
        self.view.setFocus()

    def refuse(self, refusal: Refusal) -> None:
        """The person may not take the register back."""
        if self.leaving is not None:
            self.leaving.refuse(refusal)

    def closeEvent(self, event) -> None:
        self.scanning.stop()
        self._listening.stop()
        if self._watch is not None:
            self._watch.close()
            self._watch = None
        self.bench.errands.close()
        self.bench.register.close()
        self.closed.emit()
        super().closeEvent(event)
