"""The drawer at the right: what was chosen, what may be done with it, and its whole story under that."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QPushButton, QSizePolicy, QStackedWidget, QWidget

from gametrace.desktop.keeping.form import KeepingForm
from gametrace.desktop.larder.act_form import (
    ActForm,
    CorrectForm,
    DisposeForm,
    HoldForm,
    MoveForm,
    ReleaseForm,
    WeighForm,
)
from gametrace.desktop.larder.dress_form import DressForm
from gametrace.desktop.larder.file_part import FilePart, FileTold
from gametrace.desktop.larder.hanging_part import HangingPart, Hung
from gametrace.desktop.larder.strike_form import StrikeForm
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.state_sign import StateSign
from gametrace.desktop.parts.words import Words, clear, column, rule
from gametrace.domain.findings import Finding

ACROSS = 2


@dataclass(frozen=True, slots=True)
class Told:
    """What the drawer shows of one lot, already in words."""

    code: str
    title: str
    state: str
    why: str
    days: int | None
    line: str
    acts: tuple[tuple[str, str], ...]  # name and words, the main one first
    findings: tuple[Finding, ...]
    facts: tuple[tuple[str, str], ...]
    story: tuple[str, ...]
    hung: Hung = field(default_factory=Hung)
    file: FileTold = field(default_factory=FileTold)


class LotPage(QWidget):
    """Signals: act_wanted(str): an act by its name."""

    act_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.code = Words("", "title", wrap=False)
        self.title = Words("", "large")
        self.sign = StateSign(look)
        self.line = Words("", "quiet")
        self.main = BigButton("")
        self.main.clicked.connect(self._main_pressed)
        self._main_act = ""
        self._told: Told | None = None
        self._shown_acts: tuple[tuple[str, str], ...] = ()
        self._acts = QGridLayout()
        self._acts.setSpacing(4)
        self.buttons: dict[str, QPushButton] = {}
        self.panel = FindingPanel(look, asks=False)
        self.facts = QGridLayout()
        self.facts.setHorizontalSpacing(12)
        self.facts.setVerticalSpacing(4)
        self.facts.setColumnStretch(1, 1)
        self.story = column(gap=8)
        self.strike = Button("Strike an entry", quiet=True)
        self.strike.setProperty("act", "strike")
        self.strike.clicked.connect(self._pressed)
        self.hanging = HangingPart(look)
        self.file = FilePart(look)
        self.setLayout(
            column(
                column(self.code, self.title, self.sign, self.line, gap=4),
                self.main,
                self._acts,
                self.hanging,
                self.file,
                rule(),
                Words("Its story", "heading"),
                self.story,
                self.strike,
                rule(),
                Words("Its paper", "heading"),
                self.facts,
                rule(),
                Words("What the rules say", "heading"),
                self.panel,
                1,
            )
        )

    def show_told(self, told: Told) -> None:
        is_other = self.code.text() != told.code
        self.hanging.show_hung(told.hung, is_other=is_other)
        self.file.show_file(told.file)
        self.code.say(told.code)
        self.title.say(told.title)
        self.sign.set_state(told.state, told.why, told.days)
        self.line.say(told.line)
        self._show_acts(told.acts)
        was, self._told = self._told, told
        if was is None or told.story != was.story:
            self._show_story(told.story)
        if was is None or told.facts != was.facts:
            self._show_facts(told.facts)
        if is_other:
            self.panel.forget()
        self.panel.set_findings(told.findings)

    def _show_story(self, story: Sequence[str]) -> None:
        clear(self.story)
        for sentence in story:
            self.story.addWidget(Words(sentence))

    def _show_facts(self, facts: Sequence[tuple[str, str]]) -> None:
        clear(self.facts)
        for at, (label, value) in enumerate(facts):
            name = Words(label, "quiet", wrap=False)
            self.facts.addWidget(name, at, 0, Qt.AlignmentFlag.AlignTop)
            self.facts.addWidget(Words(value), at, 1)

    def _show_acts(self, acts: Sequence[tuple[str, str]]) -> None:
        if acts == self._shown_acts:
            return
        self._shown_acts = tuple(acts)
        focused = next((name for name, button in self.buttons.items() if button.hasFocus()), "")
        clear(self._acts)
        self.buttons = {}
        self.main.setVisible(bool(acts))
        if not acts:
            return
        self._main_act, words = acts[0]
        self.main.setText(words)
        self.main.setAccessibleName(words)
        self.buttons[self._main_act] = self.main
        before: QWidget = self.main
        for at, (name, words) in enumerate(acts[1:]):
            button = Button(words)
            button.setAutoDefault(True)
            button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            button.setProperty("act", name)
            button.clicked.connect(self._pressed)
            self._acts.addWidget(button, at // ACROSS, at % ACROSS)
            QWidget.setTabOrder(before, button)
            self.buttons[name] = button
            before = button
        if focused in self.buttons:
            self.buttons[focused].setFocus()

    def _pressed(self) -> None:
        button = self.sender()
        if isinstance(button, QPushButton):
            self.act_wanted.emit(button.property("act"))

    def _main_pressed(self) -> None:
        self.act_wanted.emit(self._main_act)


class Drawer(QStackedWidget):
    """Nothing chosen, a lot, or the form of one act.

    Signals: act_wanted(str): from the lot's page. wanted(str): the form of that act is to be done.
    left(): back from a form.
    """

    act_wanted = Signal(str)
    wanted = Signal(str)
    left = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.hint = Words("Choose a carcass on the rail or a lot on a shelf, or scan its tag.", "large")
        nothing = QWidget()
        nothing.setLayout(column(self.hint, 1, margin=8))
        self.page = LotPage(look)
        self.lot_scroll = ScrollColumn()
        self.lot_scroll.add(self.page)
        self.forms: dict[str, ActForm] = {
            "move": MoveForm(),
            "weigh": WeighForm(),
            "hold": HoldForm(),
            "release": ReleaseForm(),
            "dress": DressForm(),
            "correct": CorrectForm(),
            "dispose": DisposeForm(),
            "keeping": KeepingForm(today),
            "strike": StrikeForm(),
        }
        self._scrolls: dict[str, ScrollColumn] = {}
        self.addWidget(nothing)
        self.addWidget(self.lot_scroll)
        for name, form in self.forms.items():
            scroll = ScrollColumn()
            scroll.add(form)
            self._scrolls[name] = scroll
            self.addWidget(scroll)
            form.wanted.connect(self._form_wanted)
            form.left.connect(self.left)
        self.page.act_wanted.connect(self.act_wanted)
        self._nothing = nothing

    @property
    def form_name(self) -> str:
        """The act whose form is on show; '' where none is."""
        current = self.currentWidget()
        return next((name for name, scroll in self._scrolls.items() if scroll is current), "")

    def show_nothing(self, words: str = "") -> None:
        self.hint.say(words or "Choose a carcass on the rail or a lot on a shelf, or scan its tag.")
        self.setCurrentWidget(self._nothing)

    def show_lot(self, told: Told) -> None:
        """The lot's page; an open form of it stays open over it."""
        self.page.show_told(told)
        if not self.form_name:
            self.setCurrentWidget(self.lot_scroll)

    def show_page(self, *, at_top: bool = True) -> None:
        self.setCurrentWidget(self.lot_scroll)
        if at_top:
            self.lot_scroll.verticalScrollBar().setValue(0)

    def show_form(self, name: str) -> ActForm:
        scroll = self._scrolls[name]
        self.setCurrentWidget(scroll)
        scroll.verticalScrollBar().setValue(0)
        form = self.forms[name]
        form.clear_refusals()
        form.setFocus(Qt.FocusReason.OtherFocusReason)
        return form

    def _form_wanted(self) -> None:
        if self.form_name:
            self.wanted.emit(self.form_name)
