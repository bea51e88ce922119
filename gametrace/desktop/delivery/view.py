"""The Delivery station: taking in, what became of it, and what is still to finish."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cached_property, partial
from typing import TypeVar

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QStackedWidget, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.delivery.decision_part import DecisionPart
from gametrace.desktop.delivery.done_page import DonePage
from gametrace.desktop.delivery.every_page import EveryPage
from gametrace.desktop.delivery.finish_page import FinishPage, WaitingList
from gametrace.desktop.delivery.finishing import Finishing
from gametrace.desktop.delivery.fold import Fold, move_past_folds
from gametrace.desktop.delivery.form import DeliveryForm
from gametrace.desktop.delivery.pictures_part import PicturesPart
from gametrace.desktop.delivery.presenter import DeliveryPresenter, first_gaps
from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.guide.kind import GUIDE_KEY, Body, Kind
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.station import Station
from gametrace.domain.deliveries import Basis

_Page = TypeVar("_Page", bound=QWidget)

_LIST, _EVERY = "To finish", "Every delivery"
ENOUGH = "Supplier, species and weight are enough; the rest can wait."


class NewPage(QWidget):
    """The form beside its findings. Ctrl+Enter takes it in from any field.

    Signals: wanted(): take it in.
    """

    wanted = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.form = DeliveryForm(look, today)
        self.pictures = Fold("Pictures", partial(PicturesPart, look))
        self.form.paper.add_last(self.pictures)
        self.decision = DecisionPart(look)
        sides = row(self.form, self.decision, gap=24)
        sides.setStretch(0, 5)
        sides.setStretch(1, 2)
        self.setLayout(sides)
        self.setFocusProxy(self.form.paper.supplier)
        self.form.left.connect(self.move_on)
        self.decision.left.connect(self.move_on)
        self.form.grew.connect(self.set_order)
        self.pictures.grew.connect(self.form.paper.grew)
        self.decision.wanted.connect(self.wanted)
        self.set_order()

    def move_on(self) -> None:
        move_past_folds(self)

    def set_order(self) -> None:
        set_reading_order(self)


class DeliveryView(QWidget):
    """Five pages under one line of words: new, done, the list to finish, one to finish, every delivery.

    Signals: new_wanted(), list_wanted(). made(page): one of the other pages, the first time.
    guide_wanted(): which kind is the beast of the form on show?
    """

    new_wanted = Signal()
    list_wanted = Signal()
    made = Signal(object)
    guide_wanted = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = Words("New delivery", "title", wrap=False)
        self.hint = Words(ENOUGH, "quiet")
        self._can_wait = ""
        self.is_begun = False  # whether any of the pages was shown yet
        self.new = Button("New delivery")
        self.waiting = Button("To finish")
        self._look, self._today = look, today
        self.stack = QStackedWidget()
        head = row(self.title, self.hint, self.new, self.waiting)
        head.setStretch(1, 1)
        self.setLayout(column(head, self.stack, gap=8))
        self.layout().setStretch(1, 1)
        self.setFocusProxy(self.stack)
        self.new.clicked.connect(self.new_wanted)
        self.waiting.clicked.connect(self.list_wanted)
        self.new.hide()
        guide = QShortcut(QKeySequence(GUIDE_KEY), self)
        guide.activated.connect(self._guide_key)

    # Each page is made when first wanted, inside the window: a page that wanders through several parents
    # before it is shown is measured and styled at every step, which is half of the first look's time.

    @cached_property
    def new_page(self) -> NewPage:
        return self._added(NewPage(self._look, self._today))

    @cached_property
    def done_page(self) -> DonePage:
        return self._added(DonePage(self._look))

    @cached_property
    def waiting_list(self) -> WaitingList:
        return self._added(WaitingList())

    @cached_property
    def every_page(self) -> EveryPage:
        return self._added(EveryPage(self._look))

    @cached_property
    def finish_page(self) -> FinishPage:
        return self._added(FinishPage(self._look, self._today))

    def _added(self, page: _Page) -> _Page:
        self.stack.addWidget(page)
        if isinstance(page, NewPage | FinishPage):
            page.form.guide_wanted.connect(self.guide_wanted)
        self.made.emit(page)
        return page

    @property
    def form_shown(self) -> DeliveryForm | None:
        """The form on show, where the page has one."""
        page = self.stack.currentWidget()
        return page.form if isinstance(page, NewPage | FinishPage) else None

    def _guide_key(self) -> None:
        if self.form_shown is not None:
            self.guide_wanted.emit()

    @property
    def is_new_shown(self) -> bool:
        return self.stack.count() > 0 and self.stack.currentWidget() is self.new_page

    def show_new(self) -> None:
        self._show(self.new_page, "New delivery", self._can_wait or ENOUGH)

    def say_can_wait(self, words: str) -> None:
        """What of the new delivery can be finished later, in one quiet line."""
        self._can_wait = words
        if self.is_new_shown:
            self.hint.say(words or ENOUGH)

    def show_done(self) -> None:
        self._show(self.done_page, "Taken in")
        self.done_page.number.setFocus(Qt.FocusReason.OtherFocusReason)

    @property
    def is_list_shown(self) -> bool:
        return self.title.text() == _LIST

    def show_list(self) -> None:
        self._show(self.waiting_list, _LIST)

    @property
    def is_every_shown(self) -> bool:
        return self.title.text() == _EVERY

    def show_every(self) -> None:
        self._show(self.every_page, _EVERY)

    def show_finish(self) -> None:
        self._show(self.finish_page, "Finish a delivery")

    def say_waiting(self, count: int) -> None:
        words = f"{count} to finish" if count else "Nothing to finish"
        self.waiting.setText(words)
        self.waiting.setAccessibleName(words)

    def _show(self, page: QWidget, title: str, hint: str = "") -> None:
        self.is_begun = True
        self.title.say(title)
        self.hint.say(hint)
        self.stack.setCurrentWidget(page)
        self.setFocusProxy(page)
        self.new.setVisible(page is not self.new_page)
        page.setFocus(Qt.FocusReason.OtherFocusReason)


class DeliveryStation(Station):
    """F1."""

    name = "delivery"
    title = "Delivery"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.page = DeliveryView(bench.look, bench.today)
        super().__init__(bench, self.page, parent)
        self.setFocusProxy(self.page)
        self.faces.act_wanted.connect(partial(bench.go, "setup"))
        self.page.guide_wanted.connect(self._to_guide)

    @cached_property
    def presenter(self) -> DeliveryPresenter:
        return DeliveryPresenter(self.page, self.bench)

    @cached_property
    def finishing(self) -> Finishing:
        made = Finishing(self.page, self.bench)
        self.presenter.finish_wanted.connect(made.open)
        return made

    def showEvent(self, event) -> None:
        super().showEvent(event)
        found = self.bench.handed(self.name)
        if isinstance(found, Kind):
            self._take_kind(found)
        # Later, for nothing takes the focus while it is still being shown.
        QTimer.singleShot(0, self, self._take_focus)

    def _to_guide(self) -> None:
        """What is known so far goes along, so that nothing is asked twice."""
        form = self.page.form_shown
        if form is None:
            return
        beast = form.beast
        kind = Kind(beast.species.value(), beast.sex.value(), beast.age_class.value())
        basis = beast.basis.value()
        is_touched = basis != Basis()  # else nobody has said yet whether the head is there
        head_on = basis.head_on if is_touched else True
        self.bench.hand("guide", Body(kind, in_skin=basis.in_skin, head_on=head_on))

    def _take_kind(self, found: Kind) -> None:
        """What was found in the guide, into the form that is open, else into a new one."""
        if self.page.form_shown is None:
            self.page.show_new()
        form = self.page.form_shown
        if form is not None:
            form.beast.take_kind(found.species, found.sex, found.age_class)
            form.beast.species.setFocus()

    def _take_focus(self) -> None:
        """The hand is where it was left, or on the first field."""
        if not self.isVisible() or self.faces.currentWidget() is not self.page:
            return
        page = self.page.stack.currentWidget() or self.page
        last = self.focusWidget()
        target = last if last is not None and page.isAncestorOf(last) and last.isVisible() else page
        target.setFocus(Qt.FocusReason.OtherFocusReason)

    def refresh(self) -> None:
        gaps = first_gaps(self.bench)
        if gaps:
            what = ", ".join(gaps)
            self.faces.show_empty(
                "Delivery",
                f"Every carcass is taken in here. Before the first one, write down: {what}.",
                "Go to Set-up",
            )
            return
        self.presenter.refresh()
        self.finishing.refresh()
        if not self.page.is_begun:
            self.page.show_new()

    def on_scan(self, code: str) -> bool:
        return self.finishing.scanned(code)

    def open_code(self, code: str) -> None:
        self.finishing.open(code)
