"""Which papers and pictures the route and origin ask for, beside the fields that hold them.

What is not expected is said quietly and never nagged about.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.words import Words, clear, column
from gametrace.domain.findings import rests_on
from gametrace.facts.papers import PaperRule, images_for, papers_for
from gametrace.facts.sources import citation

DEMANDS = {
    "must": "must be there",
    "should": "should be there",
    "not-expected": "not expected here",
}
NOT_ASKED = "not asked for here"
_FIELDS = {  # the field of the form that shows a paper
    "declaration": "has_declaration",
    "tag": "tag",
    "killed_on": "killed_on",
    "kill_time": "kill_time",
    "kill_place": "kill_place",
    "approval_number": "approval_number",
}


def rules_for(route: str, origin: str, group: str) -> tuple[PaperRule, ...]:
    """Must before should before not expected. Before a species is chosen, as for a large animal."""
    order = tuple(DEMANDS)
    found = papers_for(route, origin, group or "large")
    return tuple(sorted(found, key=lambda rule: order.index(rule.demand)))


def demand_words(route: str, origin: str, group: str) -> dict[str, str]:
    """By field of the form: how far it is asked for on this way to the door."""
    said = dict.fromkeys(_FIELDS.values(), NOT_ASKED)
    for rule in rules_for(route, origin, group):
        if rule.proof in _FIELDS:
            said[_FIELDS[rule.proof]] = DEMANDS[rule.demand]
    return said


def told_by(source: str, status: str) -> str:
    """The source with its standing, once."""
    told = rests_on(citation(source), status)
    return told[:1].upper() + told[1:]


def is_shown(rule: PaperRule, values: Mapping[str, Any]) -> bool:
    return bool(values.get(_FIELDS.get(rule.proof, "")))


class PapersAsked(QWidget):
    """The papers of this way to the door, one line each, and the pictures worth keeping."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines = column(gap=8)
        self.setLayout(self._lines)
        self._shown: object = None

    def show_for(self, route: str, origin: str, group: str, values: Mapping[str, Any]) -> None:
        rules = rules_for(route, origin, group)
        shown = [(rule, is_shown(rule, values)) for rule in rules]
        images = images_for(route, origin, group or "large")
        if (shown, images) == self._shown:
            return
        self._shown = (shown, images)
        clear(self._lines)
        for rule, is_there in shown:
            self._add(rule, is_there)
        if images:
            self.layout().addWidget(Words("Worth a picture", "strong"))
            for one in images:
                self.layout().addWidget(
                    Words(f"{one.name[:1].upper()}{one.name[1:]}. {one.note}".strip(), "quiet")
                )

    def _add(self, rule: PaperRule, is_there: bool) -> None:
        name = rule.name[:1].upper() + rule.name[1:]
        asked = "here" if is_there else DEMANDS[rule.demand]
        role = "strong" if rule.demand == "must" and not is_there else ""
        quiet = "quiet" if rule.demand == "not-expected" else role
        self.layout().addWidget(Words(f"{name}: {asked}", quiet))
        why = f"{rule.note} {told_by(rule.source, rule.status)}".strip()
        self.layout().addWidget(Words(why, "quiet"))
