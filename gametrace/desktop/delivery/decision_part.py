"""The third column: what the rules say of what is typed so far, and what is decided."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.delivery.paper_part import line_edit
from gametrace.desktop.delivery.reading_order import EnterMovesOn
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, rule
from gametrace.domain.deliveries import Decision
from gametrace.domain.findings import Finding, Severity

DECISIONS = (
    (Decision.ACCEPT, "Accept"),
    (Decision.TRIM, "Trim"),
    (Decision.HOLD, "Hold"),
    (Decision.SPECIMEN, "Specimen"),
    (Decision.REJECT, "Reject"),
)
_ACT = {
    Decision.HOLD: "Take it in on hold",
    Decision.SPECIMEN: "Take it in as a specimen",
    Decision.REJECT: "Refuse it",
}


_NARROW = 168  # px: one choice over the other
SCROLLS_OVER = 1.25  # size of type: over it the decision does not fit under the findings

NEVER_SERVED = (
    "A gift, a road casualty or a beast of unknown origin never goes to a plate: Specimen or Reject."
)


def act_words(decision: Decision | None, has_stop: bool) -> str:
    """What the main action is called; a stop finding lands even an accepted beast on hold."""
    if decision is None:
        return "Choose Specimen or Reject"
    if decision in _ACT:
        return _ACT[decision]
    return "Take it in on hold" if has_stop else "Take it in"


class DecisionPart(QWidget):
    """Signals: wanted(): the main action. changed(): another decision. left(): Enter in a field."""

    wanted = Signal()
    changed = Signal()
    left = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.panel = FindingPanel(
            look, empty="What the rules say of it is written here while you fill it in."
        )
        self.decision = ChoiceRow(DECISIONS, value=Decision.ACCEPT, name="Decision", columns=3)
        self.reason = line_edit("Why it is not simply accepted", 500)
        self.reason_field = Field("Why?", self.reason, name="decision_reason")
        self.evidence = Words("", "strong")
        self.never = Words(NEVER_SERVED, "amber")
        self.never.hide()
        self.trouble = Words("", "amber")
        self.trouble.hide()
        self.act = BigButton("Take it in")
        scroll = ScrollColumn()
        scroll.add(self.panel)
        parts: tuple[QWidget, ...] = (rule(), self.never, self.decision, self.reason_field, self.trouble)
        if look.scale > SCROLLS_OVER:  # only the main action stands still
            for part in parts:
                scroll.add(part)
            parts = ()
            scroll.setMinimumWidth(look.px(_NARROW))
        scroll.add_stretch()
        scroll.setMinimumHeight(look.px(64))
        heading = Words("What the rules say", "heading")
        self.setLayout(column(heading, self.evidence, scroll, *parts, self.act, gap=8))
        self.layout().setStretch(2, 1)
        self.say_evidence("")
        self._enter = EnterMovesOn(self)
        self._enter.left.connect(self.left)
        self._enter.watch()
        self.decision.changed.connect(self._decided)
        self.act.clicked.connect(self.wanted)
        self._say()

    def chosen(self) -> Decision | None:
        """None where nothing is chosen, which happens only where acceptance is not open."""
        value = self.decision.value()
        return Decision(value) if value else None

    def allow(self, allowed: Collection[str]) -> None:
        """Only these can be chosen. Another choice that stands is taken back, never changed for another."""
        for value in self.decision.values():
            self.decision.button(value).setEnabled(value in allowed)
        is_open = Decision.ACCEPT.value in allowed
        self.never.setVisible(not is_open)
        if self.decision.value() not in allowed:
            self.decision.set_value(Decision.ACCEPT.value if is_open else "")
            self._say()

    def say_evidence(self, words: str) -> None:
        """The papers in a few words: complete, n missing, lawfully absent."""
        self.evidence.say(f"Papers: {words}" if words else "")
        self.evidence.setVisible(bool(words))

    def set_findings(self, findings: Sequence[Finding]) -> None:
        self.panel.set_findings(findings)
        self._enter.watch()
        self._say()

    def refuse(self, sentence: str) -> None:
        """A refusal that belongs to no field of the form."""
        self.trouble.say(sentence)
        self.trouble.show()

    def clear_refusals(self) -> None:
        self.trouble.hide()
        if self.reason_field.trouble.isVisibleTo(self.reason_field):
            self.reason_field.clear_refusal()

    def start_anew(self) -> None:
        self.panel.forget()
        self.say_evidence("")
        self.allow([one.value for one in Decision])
        self.decision.set_value(Decision.ACCEPT)
        self.reason.clear()
        self.clear_refusals()
        self._say()

    def _decided(self, decision: str) -> None:
        self.clear_refusals()
        self._say()
        self.changed.emit()

    def _say(self) -> None:
        decision = self.chosen()
        has_stop = any(finding.severity == Severity.STOP for finding in self.panel.findings())
        words = act_words(decision, has_stop)
        self.act.setText(words)
        self.act.setAccessibleName(words)
        self.reason_field.setVisible(decision not in (None, Decision.ACCEPT))
