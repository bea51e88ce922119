"""Look-alikes side by side: two columns of drawings, mark by mark where the two differ."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from gametrace.desktop.guide.trait_card import TraitCards, drawing_of
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row, rule
from gametrace.domain.findings import rests_on
from gametrace.domain.look_alikes import Difference, Shown, differences
from gametrace.facts.identification import LookAlikes, all_look_alikes
from gametrace.facts.sources import citation


class PairsPage(QWidget):
    """Signals: chosen(str): a kind of the pair, to be named by sex and age."""

    chosen = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.pairs = ChoiceRow(
            [(one.id, f"{at} {_title(one)}") for at, one in enumerate(all_look_alikes(), 1)],
            name="Look-alikes",
            columns=3,
        )
        self.why = Words("", "large")
        self.split = Words("", "strong")
        self.source = Words("", "quiet")
        self.side_by_side = ScrollColumn()
        self.setLayout(column(self.pairs, self.why, self.split, self.source, self.side_by_side, gap=8))
        self.layout().setStretch(4, 1)
        self.setFocusProxy(self.pairs)
        self.pairs.changed.connect(self.show_pair)
        self.show_pair(all_look_alikes()[0].id)

    def press(self, number: int) -> bool:
        """The pair with this number; False where there is none."""
        values = self.pairs.values()
        if not 1 <= number <= len(values):
            return False
        self.pairs.button(values[number - 1]).setFocus(Qt.FocusReason.OtherFocusReason)
        self.pairs.choose(values[number - 1])
        return True

    def show_pair(self, pair_id: str) -> None:
        pair = next(one for one in all_look_alikes() if one.id == pair_id)
        self.pairs.set_value(pair_id)
        self.why.say(pair.why)
        self.split.say(f"What splits them: {pair.split_by[:1].lower()}{pair.split_by[1:]}")
        self.source.say(rests_on(citation(pair.source), pair.status))
        self.side_by_side.start_anew()
        self.side_by_side.add(self._columns(pair))
        self.side_by_side.add_stretch()
        self.side_by_side.verticalScrollBar().setValue(0)

    def _columns(self, pair: LookAlikes) -> QWidget:
        made = QWidget()
        grid = QGridLayout(made)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(24)
        grid.setVerticalSpacing(8)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(2, 1)
        for at, (name, species) in enumerate(zip(pair.names, pair.species, strict=True), 1):
            button = Button("It is this", name=f"It is this: {name}")
            button.clicked.connect(partial(self.chosen.emit, species))
            head = row(Words(name[:1].upper() + name[1:], "heading"), button, gap=8)
            head.setStretch(0, 1)
            grid.addLayout(head, 0, at)
        for at, one in enumerate(differences(pair)):
            line = 2 * at + 1
            grid.addWidget(rule(), line, 0, 1, 3)
            grid.addWidget(_asked(one), line + 1, 0, Qt.AlignmentFlag.AlignTop)
            grid.addLayout(self._shown(one, one.one), line + 1, 1)
            grid.addLayout(self._shown(one, one.other), line + 1, 2)
        return made

    def _shown(self, difference: Difference, one: Shown):
        names = [drawing_of(difference.question, answer) for answer in one.answers]
        made = column(
            TraitCards(self._look, names, one.words), Words(one.words), Words(one.rests_on, "quiet"), 1, gap=4
        )
        return made


def _asked(one: Difference) -> QWidget:
    made = QWidget()
    overlap = Words("The two may overlap here." if one.may_overlap else "", "quiet")
    overlap.setVisible(one.may_overlap)
    made.setLayout(column(Words(one.asks, "strong"), overlap, 1, gap=4))
    made.setFixedWidth(150)
    return made


def _title(one: LookAlikes) -> str:
    """'Muntjac doe, water deer': short enough for a button at the largest size."""
    first, second = (name.replace("dark, menil or white", "dark") for name in one.names)
    second = second.replace("Chinese ", "").removesuffix(" doe").removesuffix(" buck")
    return f"{first[:1].upper()}{first[1:]}, {second}"
