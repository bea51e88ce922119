"""The set-up page: what is asked at the right, where one is at the left."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.form import Form
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, clear, column, row
from gametrace.desktop.setup.backups_presenter import BackupsPresenter
from gametrace.desktop.setup.backups_sheet import BackupsSheet, CopySheet
from gametrace.desktop.setup.figures_page import FigureFile, FigureLines
from gametrace.desktop.setup.figures_presenter import FiguresPresenter
from gametrace.desktop.setup.forms import (
    LeaverForm,
    Listing,
    OldNameForm,
    PinAwayForm,
    PinForm,
    ScreenSheet,
    larder_form,
    person_form,
    store_form,
    supplier_form,
)
from gametrace.desktop.setup.presenter import SECTIONS, SetupPresenter
from gametrace.desktop.setup.supplier_file import SupplierFile, SupplierLines
from gametrace.desktop.setup.supplier_presenter import SupplierPresenter
from gametrace.desktop.station import Station
from gametrace.desktop.style import APART, GAP


class BookPage(QWidget):
    """A list, and one thing of it opened in its place. What else belongs under the list is `more`."""

    def __init__(
        self,
        lines: QWidget,
        file: SupplierFile | FigureFile,
        more: Sequence[QWidget] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.lines, self.file = lines, file
        self._all, self._one = ScrollColumn(), ScrollColumn()
        for item in (lines, *more):
            self._all.add(item)
        self._one.add(file)
        self._stack = QStackedWidget()
        for page in (self._all, self._one):
            page.add_stretch()
            self._stack.addWidget(page)
        self.setLayout(column(self._stack))

    def show_file(self, is_open: bool) -> None:
        self._stack.setCurrentWidget(self._one if is_open else self._all)
        if is_open:
            self._one.verticalScrollBar().setValue(0)
            self.file.back.setFocus()


class SetupView(QWidget):
    """Signals: section_chosen(str), first_delivery_wanted()."""

    section_chosen = Signal(str)
    first_delivery_wanted = Signal()

    def __init__(
        self,
        look: Look,
        keep: Callable[[str, bool | str], None],
        today: Callable[[], date],
        parent: QWidget | None = None,
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
        }
        self.leaver = LeaverForm()
        self.pin, self.pin_away = PinForm(), PinAwayForm()
        self.old_name = OldNameForm()
        self.this_screen = ScreenSheet(look, keep)
        self.backups, self.copy_file = BackupsSheet(), CopySheet()
        self.pages = QStackedWidget()
        self.suppliers = BookPage(SupplierLines(), SupplierFile(today), [self.forms["suppliers"]])
        self.figures = BookPage(FigureLines(), FigureFile(today))
        self._pages: dict[str, QWidget] = {"suppliers": self.suppliers, "figures": self.figures}
        for key, _ in SECTIONS:
            if key not in self._pages:
                self._pages[key] = self._plain_page(key)
            self.pages.addWidget(self._pages[key])
        side = ScrollColumn()
        for item in (self.title, self.step, self.begin, self.sections, self.waiting_title, self.waiting):
            side.add(item)
        side.add_stretch()
        keep_width(look, side, 280)
        self.setLayout(row(side, self.pages, gap=APART))
        self.sections.changed.connect(self.section_chosen)
        self.begin.clicked.connect(self.first_delivery_wanted)

    def _plain_page(self, key: str) -> ScrollColumn:
        page = ScrollColumn()
        for sheet in (self.forms.get(key), self.listings.get(key), *self._more(key)):
            if sheet is not None:
                page.add(sheet)
        page.add_stretch()
        return page

    def _more(self, key: str) -> tuple[QWidget, ...]:
        more: dict[str, tuple[QWidget, ...]] = {
            "people": (self.pin, self.pin_away, self.leaver, self.old_name),
            "screen": (self.this_screen,),
            "backups": (self.backups, self.copy_file),
        }
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
        self.view = SetupView(bench.look, bench.settings.keep, bench.today)
        super().__init__(bench, self.view, parent)
        self.suppliers = SupplierPresenter(self.view.suppliers, bench)
        self.figures = FiguresPresenter(self.view.figures, bench)
        self.backups = BackupsPresenter(self.view.backups, self.view.copy_file, bench)
        books = {"suppliers": self.suppliers, "figures": self.figures, "backups": self.backups}
        self.presenter = SetupPresenter(self.view, bench, books)
        presenter, forms = self.presenter, self.view.forms
        self.view.section_chosen.connect(presenter.show_section)
        self.view.first_delivery_wanted.connect(presenter.begin)
        forms["larder"].wanted.connect(presenter.keep_larder)
        forms["people"].wanted.connect(presenter.enrol)
        forms["stores"].wanted.connect(presenter.add_store)
        forms["suppliers"].wanted.connect(presenter.add_supplier)
        self.view.leaver.wanted.connect(presenter.forget)
        self.view.old_name.wanted.connect(presenter.forget_old_name)
        self.view.pin.wanted.connect(presenter.set_pin)
        self.view.pin_away.wanted.connect(presenter.clear_pin)

    def refresh(self) -> None:
        self.presenter.refresh()

    def open_code(self, code: str) -> None:
        """A section by its name, or a supplier's file by its code."""
        if code in dict(SECTIONS):
            self.presenter.show_section(code)
        elif self.bench.is_open:
            self.presenter.show_section("suppliers")
            self.suppliers.open(code)
