"""The licence or exception that answers a season or night rule: on show only where such a rule has spoken.

It takes down what the supplier gives. Whether it is genuine is not known here.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.delivery.fields import DropList
from gametrace.desktop.delivery.paper_part import line_edit
from gametrace.desktop.delivery.papers_asked import told_by
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.words import Words, column
from gametrace.domain.findings import Finding
from gametrace.facts.exceptions import ExceptionType, exception_types

ASKED_BY = frozenset({"season-closed", "season-unclear", "night-kill", "night-unclear"})
NONE_GIVEN = "Until one is given it goes in on hold."


def is_asked(findings: Sequence[Finding]) -> bool:
    """Whether a season or night rule wants an answer."""
    return any(finding.code in ASKED_BY for finding in findings)


class LicencePart(QWidget):
    """Signals: changed()."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._types: dict[str, ExceptionType] = {}
        self._offered = ("", "")
        self.type = DropList("Licence or exception", [("", "None given")])
        self.number = line_edit("Number of the licence or exception", 120)
        self.about = Words("", "quiet")
        self.number_field = Field("Its number", self.number, name="exception_number")
        self.setLayout(
            column(
                Field("Licence or exception", self.type, name="exception_type"),
                self.number_field,
                self.about,
                gap=8,
            )
        )
        self.type.picked.connect(self._picked)
        self.number.textEdited.connect(self._written)
        self.hide()
        self._say()

    def offer(self, jurisdiction: str, species: str) -> None:
        """The reasons this jurisdiction knows for this animal."""
        if (jurisdiction, species) == self._offered:
            return
        self._offered = (jurisdiction, species)
        held = exception_types(jurisdiction) if jurisdiction else ()
        kept = self.type.value()
        self._types = {one.id: one for one in held if not species or one.is_for(species) or one.id == kept}
        self.type.set_choices([("", "None given"), *((one.id, one.name) for one in self._types.values())])
        self._say()

    def ask(self, findings: Sequence[Finding]) -> bool:
        """Show it where a rule asks, or where something was given. True where it came or went."""
        wanted = is_asked(findings) or bool(self.type.value() or self.number.text().strip())
        if wanted != self.isHidden():
            return False
        self.setVisible(wanted)
        return True

    def values(self) -> dict[str, str]:
        return {"exception_type": self.type.value(), "exception_number": self.number.text().strip()}

    def set_values(self, exception_type: str, number: str) -> None:
        self.type.set_value(exception_type)
        self.number.setText(number)
        self.setVisible(bool(exception_type or number))
        self._say()

    def _picked(self, exception_type: str) -> None:
        self._say()
        self.changed.emit()

    def _written(self, text: str) -> None:
        self.changed.emit()

    def _say(self) -> None:
        chosen = self._types.get(self.type.value())
        self.number_field.setVisible(chosen is not None)
        if chosen is None:
            self.about.say(NONE_GIVEN)
            return
        self.number_field.label.say(chosen.asks[:1].upper() + chosen.asks[1:])
        self.about.say(f"{chosen.note} {told_by(chosen.source, chosen.status)}".strip())
