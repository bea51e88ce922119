"""Which bodies of one declaration are in already, and what the declaration lacks of each.

One declaration may cover several bodies; each has its own number, day, time and place on it.
"""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.words import Words, column
from gametrace.domain.findings import rests_on
from gametrace.domain.shared_declarations import DeclaredBody, shared_declaration_findings
from gametrace.register.records import Carcass


def bodies_words(bodies: Iterable[Carcass]) -> str:
    """'On this card already: 26-00417-E fallow doe, tag 0417.'"""
    named = [f"{one.code} {one.title}{f', tag {one.tag}' if one.tag else ''}" for one in bodies]
    return f"In already on this card: {'; '.join(named)}." if named else ""


def declared(one: Carcass) -> DeclaredBody:
    """A body as its declaration lists it."""
    return DeclaredBody(
        number=one.tag, killed_on=one.killed_on, kill_time=one.kill_time, kill_place=one.kill_place
    )


class CardBodies(QWidget):
    """Quiet while the card covers one body. It tells; nothing here is answered."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bodies = Words("", "strong")
        self.lacks = Words("", "amber")
        self.source = Words("", "quiet")
        self.setLayout(column(self.bodies, self.lacks, self.source, gap=4))
        self.hide()

    def show_bodies(self, number: str, there: Iterable[Carcass], this: DeclaredBody | None = None) -> None:
        """`this` is the body on the form, once it has anything of its own."""
        bodies = tuple(there)
        listed = [declared(one) for one in bodies]
        if this is not None and (this.number or this.killed_on):
            listed.append(this)
        found = shared_declaration_findings(number, listed)
        self.bodies.say(bodies_words(bodies))
        self.lacks.say(" ".join(f"{one.sentence} {one.what_to_do}" for one in found))
        self.lacks.setVisible(bool(found))
        self.source.say(rests_on(found[0].source, found[0].status) if found else "")
        self.source.setVisible(bool(found))
        self.setVisible(bool(bodies))
