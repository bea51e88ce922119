"""The main window: larder, scan field and person in the first row, the strip in the second, a station below.

It opens no register (`app` does) and draws no station; it decides where a scan or a code goes. Nothing of the
register is imported here, so that the window can be seen before it is read.
"""

from __future__ import annotations

import time
from functools import cached_property, partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QSize, Qt, QTimer, Signal
from PySide6.QtGui import QKeySequence, QPixmap, QShortcut
from PySide6.QtWidgets import QApplication, QLineEdit, QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.listening import Listening
from gametrace.desktop.main_key import KEYS, main_button
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.words import Words, row
from gametrace.desktop.scanning import Scanning, looks_like_code
from gametrace.desktop.stations import BY_NAME, ON_STRIP, station_class
from gametrace.desktop.strip import Strip
from gametrace.desktop.style import APART
from gametrace.domain.errors import Refusal, Trouble

if TYPE_CHECKING:
    from gametrace.desktop.parts.empty_face import Faces
    from gametrace.desktop.parts.notice import Banner
    from gametrace.desktop.station import Station

# Layouts pass words on to each other; a picture taken before the last turn shows cut lines.
_TURNS_TO_SETTLE = 6


class _Stack(QStackedWidget):
    """Its pages never make the window larger than the screen: they scroll inside."""

    def minimumSizeHint(self) -> QSize:
        return QSize(640, 320)


class Window(QMainWindow):
    """Signals: seen(): once, after the first paint. open_wanted(): try the register again. closed()."""

    seen = Signal()
    open_wanted = Signal()
    closed = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self._stations: dict[str, Station] = {}
        self._current = ""
        self._scan_refusal = ""  # what the last wrong code was answered with
        self._again = None
        self._is_seen = False
        self.listening = Listening(bench, self)
        self.locking: Any = None  # made once somebody has a PIN
        self.officer: Any = None  # the officer's window, while it stands in this one's place
        self.safekeeping: Any = None  # whoever wants copies made by themselves sets it
        self.setWindowTitle("gametrace")
        self._build()
        self._connect()

    def _build(self) -> None:
        look = self.bench.look
        self.larder_name = Words("gametrace", "heading", wrap=False)
        self.scan_field = QLineEdit()
        self.scan_field.setProperty("role", "scan")
        self.scan_field.setPlaceholderText("scan, or type a code, tag, word")
        self.scan_field.setAccessibleName("Scan, or type a code, a tag or a word, then Enter")
        self.scan_field.setMaxLength(200)
        self.scan_field.setMaximumWidth(look.px(620))
        self.person_button = Button("Who is here?")
        self.setup_button = Button("Set-up")
        self.paper_button = Button("Paper", name="Labels and paper, Ctrl+P")
        self.strip = Strip(look)
        self.stack = _Stack()
        head = row(
            self.larder_name, 1, self.scan_field, 1, self.paper_button, self.setup_button, self.person_button
        )
        head.setStretch(2, 4)
        top = QWidget()
        rows = QVBoxLayout(top)
        rows.setContentsMargins(APART, 8, APART, 0)
        rows.setSpacing(4)
        rows.addLayout(head)
        rows.addWidget(self.strip)
        self._rows = rows
        middle = QWidget()
        middle.setProperty("role", "ground")
        layout = QVBoxLayout(middle)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(top)
        layout.addWidget(self.stack, 1)
        self.setCentralWidget(middle)
        self.resize(1280, 800)

    def _connect(self) -> None:
        bench = self.bench
        self.scanning = Scanning(self)
        self.scanning.scanned.connect(self.take_scan)
        self.scanning.start()
        self.scan_field.returnPressed.connect(self._typed)
        self.scan_field.textEdited.connect(self._letter_typed)
        self.strip.wanted.connect(self.go)
        self.person_button.clicked.connect(self.choose_person)
        self.setup_button.clicked.connect(self._to_setup)
        self.paper_button.clicked.connect(partial(self.go, "paper", ""))
        bench.done.connect(self._done)
        bench.refused.connect(self._refused)
        bench.trouble.connect(self._trouble)
        bench.bug.connect(self._bug_met)
        bench.went.connect(self.go)
        bench.officer_wanted.connect(self._to_officer)
        bench.person_changed.connect(self._person_changed)
        bench.refresh.changed.connect(self._act_was_done)
        for entry in ON_STRIP:
            shortcut = QShortcut(QKeySequence(entry.key), self)
            shortcut.activated.connect(partial(self.go, entry.name))
        paper = QShortcut(QKeySequence("Ctrl+P"), self)
        paper.activated.connect(partial(self.go, "paper"))
        find = QShortcut(QKeySequence("Ctrl+F"), self)
        find.activated.connect(self._to_scan_field)
        change = QShortcut(QKeySequence("Ctrl+L"), self)
        change.activated.connect(self.choose_person)
        for keys in KEYS:
            main = QShortcut(QKeySequence(keys), self)
            main.setAutoRepeat(False)
            main.activated.connect(self._press_main_button)

    # Both are made when first needed: the first paint waits for neither.

    @cached_property
    def banner(self) -> Banner:
        from gametrace.desktop.parts.notice import Banner

        made = Banner(self.bench.look)
        made.again_wanted.connect(self._try_again)
        made.more_wanted.connect(self._show_bug)
        self.stack.currentChanged.connect(made.let_go)
        self._rows.addWidget(made)
        return made

    @cached_property
    def wait_face(self) -> Faces:
        """Shown where the register could not be opened."""
        from gametrace.desktop.parts.empty_face import Faces

        made = Faces(QWidget())
        made.again_wanted.connect(self.open_wanted)
        self.stack.addWidget(made)
        return made

    # -- stations ---------------------------------------------------------------------------------------

    def station(self, name: str) -> Station:
        """A station, built when first asked for."""
        if name not in self._stations:
            made = station_class(name)(self.bench)
            self._stations[name] = made
            self.stack.addWidget(made)
        return self._stations[name]

    @property
    def current(self) -> str:
        return self._current

    def go(self, name: str, code: str = "") -> None:
        """Show a station, with a code where somebody was sent there for it.

        'examination/laboratory' names a page of the station as well.
        """
        name, _, page = name.partition("/")
        if name not in BY_NAME or not self.bench.is_open:
            return
        station = self.station(name)
        self._current = name
        self.strip.set_current(name)
        self.stack.setCurrentWidget(station)
        if code:
            self.bench.guarded(partial(station.open_page, code, page))
        if self.focusWidget() is None or not self.focusWidget().isVisible():
            station.setFocus()

    def grab_station(self, name: str) -> QPixmap:
        """A picture of the window with that station in it, after whatever it still had to lay out."""
        self.go(name)
        for _ in range(_TURNS_TO_SETTLE):
            QApplication.sendPostedEvents()
            QApplication.processEvents()
        return self.grab()

    # -- scans and codes --------------------------------------------------------------------------------

    def _typed(self) -> None:
        text = self.scan_field.text().strip()
        now = time.monotonic_ns() // 1_000_000
        if text and not self.scanning.is_repeat(text, now) and self.take_scan(text):
            self.scan_field.clear()

    def _letter_typed(self, _text: str) -> None:
        """From the first letter on, what it may mean is listed under the box."""
        if self.bench.is_open:
            from gametrace.desktop.suggesting import suggest_under

            self.scan_field.textEdited.disconnect(self._letter_typed)
            self.suggestions = suggest_under(self)

    def take_scan(self, text: str) -> bool:
        """A scan, or what was typed in the scan field: to the station that wants it, else to Trace."""
        if not self.bench.is_open or not text.strip() or (self.locking and self.locking.is_locked):
            return False
        code = self._full_code(text)
        if code is None:
            return False
        self.banner.let_go_of(self._scan_refusal)
        station = self._stations.get(self._current)
        if station is not None and self.bench.guarded(partial(station.on_scan, code)):
            return True
        self.go("trace", code)
        return True

    def _full_code(self, text: str) -> str | None:
        """A lot code in its full form, other text as it is; None, with the reason shown, if it is wrong."""
        if not looks_like_code(text):
            return text.strip()
        try:
            return self.bench.questions.normal_code(text)
        except Refusal as refusal:
            near = ", ".join(hit.code for hit in self.bench.ask("find", text, limit=3))
            self._scan_refusal = f"{refusal} Near to it: {near}." if near else str(refusal)
            self.banner.refused(self._scan_refusal)
        except Trouble as trouble:
            self._trouble(str(trouble), partial(self.take_scan, text))
        return None

    def _to_setup(self) -> None:
        self.go("setup")

    def _to_officer(self) -> None:
        from gametrace.desktop.officer.entering import enter

        enter(self)

    def _press_main_button(self) -> None:
        page = self.stack.currentWidget()
        button = main_button(page, self.focusWidget()) if page is not None else None
        if button is not None:
            button.click()

    def _to_scan_field(self) -> None:
        self.scan_field.setFocus()
        self.scan_field.selectAll()

    # -- what is known of the register ------------------------------------------------------------------

    def register_opened(self) -> None:
        """The register is there: name it, fill the strip, show the first page."""
        self._say_larder()
        self._fill_strip()
        self._say_person()
        self.go("today" if self._larder.name else "setup")
        self.listening.start()

    def say_broken(self, what: str, what_to_do: str) -> None:
        """The register could not be opened."""
        safe = "Nothing was changed."
        self.wait_face.show_broken(what, safe, what_to_do, can_retry=True)
        self.stack.setCurrentWidget(self.wait_face)

    def register_lost(self) -> None:
        """The register may not be worked with any longer: let go of it, whatever page is shown next."""
        self.listening.stop()
        self.safekeeping = None
        self.bench.close()

    def _say_larder(self) -> None:
        larder = self._larder = self.bench.ask("larder")
        name = larder.name or "A new larder"
        practice = " · practice" if larder.is_practice else ""
        practice += " · only looked at" if self.bench.register.is_only_looked_at else ""
        shown = name if len(name) <= 32 else name[:31] + "…"
        self.larder_name.say(shown + practice)
        self.setWindowTitle(f"{name}{practice} – gametrace")

    def _fill_strip(self) -> None:
        waiting = self.bench.guarded(partial(self.bench.ask, "waiting"))
        if waiting is not None:
            self.strip.set_waiting(waiting.counts, waiting.words)

    def _act_was_done(self, changes: Any) -> None:
        if changes is not None and changes.kind in ("pin.set", "pin.cleared"):
            self._say_person()
        elif changes is not None and changes.kind == "policy.set" and self.locking:
            self.locking.read_policy()
        self._say_larder()
        self._fill_strip()
        self.listening.act_was_done()

    # -- who is at the keyboard -------------------------------------------------------------------------

    def choose_person(self) -> None:
        from gametrace.desktop.who import WhoPage

        if not self.bench.is_open:
            return
        page = WhoPage(self.bench)
        page.chosen.connect(self._person_chosen)
        self._who = page
        self.stack.addWidget(page)
        self.stack.setCurrentWidget(page)
        page.setFocus()

    def _person_chosen(self, code: str) -> None:
        page = self._who
        self.stack.removeWidget(page)
        page.deleteLater()
        if code:
            self.bench.set_person(code)
        self.go(self._current or "today")
        self.station(self._current).setFocus()  # else the hand is left in the scan field

    def _person_changed(self, code: str) -> None:
        self._say_person()
        for station in self._stations.values():
            station.set_person(code)

    def _say_person(self) -> None:
        people = self.bench.guarded(partial(self.bench.ask, "people")) or ()
        active = [one for one in people if one.is_active]
        wanted = self.bench.person or self.bench.settings.text("person")
        if self.locking is None and any(one.has_pin for one in active):
            from gametrace.desktop.locking import Locking

            self.locking = Locking(self)
        person = next((one for one in active if one.code == wanted), None)
        if person is None and len(active) == 1:
            person = active[0]
        self.bench.person = person.code if person else ""
        words = f"{person.initials} · {person.role}" if person else "Who is here?"
        self.person_button.setText(words)
        self.person_button.setAccessibleName(f"At the keyboard: {words}. Press to change, or Ctrl+L")
        register = self.bench.register
        if person and person.has_pin and not (register.is_only_looked_at or register.has_shown(person.code)):
            self.locking.lock(person.code)

    # -- trouble ----------------------------------------------------------------------------------------

    def _done(self, sentence: str) -> None:
        self.banner.done(sentence)

    def _refused(self, sentence: str) -> None:
        self.banner.refused(sentence)

    def _bug_met(self, sentence: str) -> None:
        self.banner.bug(sentence)

    def _trouble(self, sentence: str, again) -> None:
        self._again = again
        self.banner.trouble(sentence, can_retry=again is not None)

    def _try_again(self) -> None:
        again, self._again = self._again, None
        if again is not None:
            again()

    def _show_bug(self) -> None:
        from gametrace.desktop.bug_page import show_bug

        show_bug(self)

    # -- Qt ---------------------------------------------------------------------------------------------

    def keyPressEvent(self, event) -> None:
        if event.key() == Qt.Key.Key_Escape and "banner" in self.__dict__ and self.banner.isVisible():
            self.banner.hide()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event) -> None:
        super().paintEvent(event)
        if not self._is_seen:
            self._is_seen = True
            QTimer.singleShot(0, self, self.seen.emit)

    def closeEvent(self, event) -> None:
        if self.safekeeping is not None and not self.safekeeping.may_close():
            event.ignore()  # the banner says why no copy could be made; the next close goes through
            return
        self.scanning.stop()
        self.listening.stop()
        self.bench.errands.close()
        self.closed.emit()
        super().closeEvent(event)
