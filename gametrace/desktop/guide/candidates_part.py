"""The kinds as the answers rank them: what speaks for each and against it, and what that rests on."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row, rule
from gametrace.domain.identification import Candidate

NOTHING_YET = "Answer what can be seen: the kinds are ranked here, with what speaks for and against each."
NOTHING_TO_TELL = "Nothing on such a body tells the kind. Go by what the supplier declared, and write it so."
_NAMES = {"chinese-water-deer": "water deer", "red-sika-hybrid": "a hybrid"}  # where there is little room
ONLY_BY_EYE = "By eye only: a picture and a key are never certain."


class CandidatesPart(QWidget):
    """Signals: chosen(str): this kind, to be named by sex and age."""

    chosen = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.empty = Words(NOTHING_YET, "quiet")
        self.hybrid = Words("", "amber")
        self.eye = Words(ONLY_BY_EYE, "quiet")
        self.listed = ScrollColumn()
        self.buttons: dict[str, Button | BigButton] = {}
        self.setLayout(
            column(Words("Which it may be", "heading"), self.empty, self.hybrid, self.eye, self.listed, gap=8)
        )
        self.layout().setStretch(4, 1)
        self.show_candidates((), None, "")

    def show_candidates(
        self, found: Sequence[Candidate], first: Candidate | None, hybrid: str, *, can_be_told: bool = True
    ) -> None:
        """Best first. The one that leads alone has the main button; none has it where two come out alike."""
        self.empty.say(NOTHING_YET if can_be_told else NOTHING_TO_TELL)
        self.empty.setVisible(not found)
        self.eye.setVisible(bool(found))
        self.hybrid.say(hybrid)
        self.hybrid.setVisible(bool(hybrid))
        self.listed.start_anew()
        self.listed.body.setSpacing(8)
        self.buttons = {}
        for one in found:
            self._add(one, is_first=first is not None and one.species == first.species)
        self.listed.add_stretch()
        self.listed.updateGeometry()  # it never scrolls sideways: it must be as wide as its widest button

    def _add(self, one: Candidate, *, is_first: bool) -> None:
        words = f"It is {_NAMES.get(one.species, one.name)}"
        button = BigButton(words) if is_first else Button(words)
        button.setAccessibleName(f"It is {one.name}")
        button.clicked.connect(partial(self.chosen.emit, one.species))
        self.buttons[one.species] = button
        fits, against = len(one.fits), len(one.against)
        told = "not by eye" if _is_cross(one) else f"{fits} for, {against} against"
        head = row(column(Words(_start(one.name), "heading"), Words(told, "strong"), gap=0), button, gap=8)
        head.setStretch(0, 1)
        if len(self.buttons) > 1:
            self.listed.add(rule())
        self.listed.add(head)
        if _is_cross(one):
            self.listed.add(Words(one.words))
        for title, lines in (("For", one.fits), ("Possible", one.possible), ("Against", one.against)):
            if lines:
                self.listed.add(Words(f"{title}: {' '.join(lines)}"))
        for rests in one.rests:
            self.listed.add(Words(rests, "quiet"))


def _is_cross(one: Candidate) -> bool:
    return one.species.endswith("hybrid")


def _start(words: str) -> str:
    return words[:1].upper() + words[1:]
