"""The second decision, out of the skin: both looks and weights, the decision, the price, the claim."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.examination.money_sheets import ClaimSheet, PriceSheet, SettleSheet
from gametrace.desktop.look import Look
from gametrace.desktop.parts.form import Form
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, clear, column, row
from gametrace.domain.deliveries import Decision

DECISIONS = tuple((one.value, one.value[0].upper() + one.value[1:]) for one in Decision)


class SecondPage(QWidget):
    """Signals: decide_wanted()."""

    decide_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.standing = Words("", "large")
        self.facts = column(gap=8)
        self.decision = Form("Decide again, out of the skin", "Decide")
        self.decision.choice("decision", "Decision", DECISIONS, columns=2)
        self.decision.line("reason", "Why", hint="saddle hit, trimmed out", most=500)
        self.decision.finish()
        self.price = PriceSheet()
        self.claim = ClaimSheet()
        self.settle = SettleSheet()
        columns = []
        for parts in (
            (self.standing, self.facts),
            (self.decision, self.price),
            (self.settle, self.claim),
        ):
            made = ScrollColumn()
            for part in parts:
                made.add(part)
            made.add_stretch()
            columns.append(made)
        across = row(*columns, gap=16)
        for at, stretch in enumerate((9, 13, 12)):
            across.setStretch(at, stretch)
        self.setLayout(across)
        self.decision.wanted.connect(self.decide_wanted)

    def show_facts(self, facts: Sequence[tuple[str, str]]) -> None:
        clear(self.facts)
        for label, value in facts:
            self.facts.addLayout(column(Words(label, "quiet"), Words(value), gap=0))
