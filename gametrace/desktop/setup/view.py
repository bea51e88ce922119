"""The set-up page: what is asked at the right, where one is at the left."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.form import Form
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, clear, row
from gametrace.desktop.setup.forms import (
    LeaverForm,
    Listing,
    ScreenSheet,
    larder_form,
    person_form,
    store_form,
    supplier_form,
)
from gametrace.desktop.setup.presenter import SECTIONS, SetupPresenter
from gametrace.desktop.station import Station
from gametrace.desktop.style import APART, GAP


class SetupView(QWidget):
    """Signals: section_chosen(str), first_delivery_wanted()."""

    section_chosen = Signal(str)
    first_delivery_wanted = Signal()

    def __init__(
        self, look: Look, keep: Callable[[str, bool | str], None], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setProperty("role", "ground")
        self.title = Words("", "title")
        self.step = Words("", "large")
        self.sections = ChoiceRow(SECTIONS, name="Set-up", columns=1)
        self.waiting_title = Words("Can wait", "heading")
        self.waiting = QVBoxLayout()
        self.begin = BigButton("Take in the first delivery")
        self.forms: dict[str, Form] = {
            "larder": larder_form(),
            "people": person_form(),
            "stores": store_form(),
            "suppliers": supplier_form(),
        }
        self.listings = {
            "people": Listing("Enrolled"),
            "stores": Listing("Stores"),
            "suppliers": Listing("Suppliers"),
        }
        self.leaver = LeaverForm()
        self.this_screen = ScreenSheet(look, keep)
        self.pages = QStackedWidget()
        self._pages: dict[str, ScrollColumn] = {}
        for key, _ in SECTIONS:
            page = ScrollColumn()
            for sheet in (self.forms.get(key), self.listings.get(key), *self._more(key)):
                if sheet is not None:
                    page.add(sheet)
            page.add_stretch()
            self._pages[key] = page
            self.pages.addWidget(page)
        side = ScrollColumn()
        for item in (self.title, self.step, self.begin, self.sections, self.waiting_title, self.waiting):
            side.add(item)
        side.add_stretch()
        side.setFixedWidth(look.px(400))
        self.setLayout(row(side, self.pages, gap=APART))
        self.sections.changed.connect(self.section_chosen)
        self.begin.clicked.connect(self.first_delivery_wanted)

    def _more(self, key: str) -> tuple[QWidget, ...]:
        more: dict[str, tuple[QWidget, ...]] = {"people": (self.leaver,), "screen": (self.this_screen,)}
        return more.get(key, ())

    # -- what the presenter calls -----------------------------------------------------------------------

    def show_section(self, key: str) -> None:
        self.sections.set_value(key)
        self.pages.setCurrentWidget(self._pages[key])

    def focus_form(self, key: str) -> None:
        if key in self.forms:
            self.forms[key].focus_first()

    def show_guide(self, title: str, step: str) -> None:
        """The first run: one thing at a time, no sections."""
        self.title.say(title)
        self.step.say(step)
        self.step.setVisible(bool(step))
        self.sections.hide()
        self.begin.hide()

    def show_all(self, title: str, *, may_begin: bool) -> None:
        """Afterwards: every section."""
        self.title.say(title)
        self.step.hide()
        self.sections.show()
        self.begin.setVisible(may_begin)

    def show_waiting(self, sentences: Sequence[str]) -> None:
        clear(self.waiting)
        self.waiting.setSpacing(GAP // 2)
        self.waiting_title.setVisible(bool(sentences))
        for sentence in sentences:
            self.waiting.addWidget(Words(sentence))


class SetupStation(Station):
    """The guide of the first run, and the page behind 'Set-up' later."""

    name = "setup"
    title = "Set-up"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.view = SetupView(bench.look, bench.settings.keep)
        super().__init__(bench, self.view, parent)
        self.presenter = SetupPresenter(self.view, bench)
        presenter, forms = self.presenter, self.view.forms
        self.view.section_chosen.connect(presenter.show_section)
        self.view.first_delivery_wanted.connect(presenter.begin)
        forms["larder"].wanted.connect(presenter.keep_larder)
        forms["people"].wanted.connect(presenter.enrol)
        forms["stores"].wanted.connect(presenter.add_store)
        forms["suppliers"].wanted.connect(presenter.add_supplier)
        self.view.leaver.wanted.connect(presenter.forget)

    def refresh(self) -> None:
        self.presenter.refresh()

    def open_code(self, code: str) -> None:
        if code in dict(SECTIONS):
            self.presenter.show_section(code)
