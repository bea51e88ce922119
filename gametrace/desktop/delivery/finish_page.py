"""Deliveries to finish: the list of them, and one with the same form it was taken in with."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from functools import partial

from PySide6.QtCore import Qt, Signal, SignalInstance
from PySide6.QtWidgets import QWidget

from gametrace.desktop.delivery.calls_part import CallsPart
from gametrace.desktop.delivery.fold import Fold, move_past_folds
from gametrace.desktop.delivery.form import DeliveryForm
from gametrace.desktop.delivery.missing_list import REASONS, MissingList
from gametrace.desktop.delivery.paper_part import line_edit
from gametrace.desktop.delivery.pictures_part import PicturesPart
from gametrace.desktop.delivery.reading_order import EnterMovesOn, set_reading_order
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.state_sign import StateSign
from gametrace.desktop.parts.words import Words, column, row, rule
from gametrace.domain.findings import Finding


class WaitingList(QWidget):
    """Enter on a row finishes it; the buttons act on the row in hand.

    Signals: chosen(str): a carcass to finish. examine_wanted(str): one to look over. every_wanted(): the
    list of all deliveries.
    """

    chosen = Signal(str)
    examine_wanted = Signal(str)
    every_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.none = Words("Nothing waits here: every delivery in the house is written out in full.", "large")
        self.list = PickList("Deliveries to finish")
        self.finish = BigButton("Finish it")
        self.examine = Button("Examine it")
        self.examine.setAutoDefault(True)
        self.every = Button("Every delivery")
        self.acts = QWidget()
        self.acts.setLayout(row(self.finish, self.examine))
        self.setLayout(column(self.none, self.list, row(self.acts, self.every, 1), gap=8))
        self.layout().setStretch(1, 1)
        self.setFocusProxy(self.list)
        self.list.picked.connect(self.chosen)
        self.finish.clicked.connect(partial(self._act, self.chosen))
        self.examine.clicked.connect(partial(self._act, self.examine_wanted))
        self.every.clicked.connect(self.every_wanted)

    def set_choices(self, choices: Sequence[Choice]) -> None:
        self.list.set_choices(choices)
        self.list.begin()
        self.none.setVisible(not choices)
        self.acts.setVisible(bool(choices))
        self.list.setVisible(bool(choices))
        self.layout().setStretch(0, 0 if choices else 1)

    def _act(self, wanted: SignalInstance) -> None:
        if code := self.list.value():
            wanted.emit(code)


class FinishPage(QWidget):
    """One delivery to fill in or put right.

    Signals: wanted(): write it down. changed(): a value or a reason. examine_wanted(): look it over.
    """

    wanted = Signal()
    examine_wanted = Signal()
    changed = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.form = DeliveryForm(look, today)
        self.form.beast.basis.setEnabled(False)
        self.form.beast.count.setEnabled(False)
        self.title = Words("", "heading")
        self.sign = StateSign(look)
        self.evidence = Words("", "strong")
        self.missing = MissingList()
        self.calls = Fold("Calls about the card", CallsPart)
        self.pictures = Fold("Pictures", partial(PicturesPart, look))
        self.panel = FindingPanel(look)
        self.reason = line_edit("Why a value that was given is changed", 500)
        self.reason_field = Field(
            "Why is what was written changed?", self.reason, name="reason",
            hint="The old value stays on view with the reason.",
        )  # fmt: skip
        self.trouble = Words("", "amber")
        self.act = BigButton("Write it down")
        self.examine = Button("Examine it")
        self.examine.setAutoDefault(True)
        self.scrolled = scroll = ScrollColumn()
        for part in (self.sign, self.evidence, self.missing, self.calls, self.pictures, self.panel):
            scroll.add(part)
        scroll.add_stretch()
        acts = row(self.act, self.examine, gap=8)
        acts.setStretch(0, 1)
        self.side = QWidget()
        self.side.setLayout(column(self.title, scroll, rule(), self.reason_field, self.trouble, acts, gap=8))
        self.side.layout().setStretch(1, 1)
        sides = row(self.form, self.side, gap=24)
        sides.setStretch(0, 5)
        sides.setStretch(1, 2)
        self.setLayout(sides)
        self.setFocusProxy(self.form.paper.supplier)
        self._enter = EnterMovesOn(self.side)
        self._enter.left.connect(self._move_on)
        self.form.left.connect(self._move_on)
        self.form.grew.connect(self._grew)
        self.form.changed.connect(self.changed)
        self.panel.changed.connect(self.changed)
        self.missing.wanted.connect(self.go_to)
        for fold in (self.calls, self.pictures):
            fold.grew.connect(self._grew)
        self.act.clicked.connect(self.wanted)
        self.examine.clicked.connect(self.examine_wanted)
        self.trouble.hide()
        self._grew()

    def show_one(
        self, *, title: str, state: str, why: str, days: int | None, missing: Sequence[str], evidence: str
    ) -> None:
        self.title.say(title)
        self.sign.set_state(state, why, days)
        self.missing.show_missing(missing)
        self.say_evidence(evidence)
        self._grew()

    def say_evidence(self, words: str) -> None:
        """The papers in a few words: complete, n missing, lawfully absent."""
        self.evidence.say(f"Papers: {words}" if words else "")

    def go_to(self, field: str) -> None:
        """The hand to what is missing."""
        if field == REASONS:
            self.panel.focus_first_ask()
            return
        wanted = self.form.fields.get(field)
        if wanted is not None:
            self.form.ensureWidgetVisible(wanted, 8, 24)
            wanted.inner.setFocus(Qt.FocusReason.OtherFocusReason)

    def set_findings(self, findings: Sequence[Finding]) -> None:
        self.panel.set_findings(findings)
        self._grew()

    def ask_reason(self, is_needed: bool) -> None:
        self.reason_field.setVisible(is_needed)

    def refuse(self, field: str, sentence: str) -> None:
        """At its field, else above the main action."""
        if field == "reason" and not self.reason_field.isHidden():
            self.reason_field.refuse(sentence)
        elif not self.form.refuse(field, sentence):
            self.trouble.say(sentence)
            self.trouble.show()

    def clear_refusals(self) -> None:
        self.form.clear_refusals()
        self.trouble.hide()
        self.reason_field.clear_refusal()

    def _move_on(self) -> None:
        move_past_folds(self)

    def _grew(self) -> None:
        self._enter.watch()
        set_reading_order(self)
