"""Sorts what wants a person into groups, and knows the usual word of a station's act."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.days import weekday_text
from gametrace.register.records import Duty

SHOWN = 8  # of one group, before "more" is asked for

_TITLES = {"now": "Now", "today": "Today", "this week": "This week"}
_ACTS = {
    "delivery": "Finish it",
    "larder": "To the larder",
    "block": "To the block",
    "pass": "To the pass",
    "trace": "Trace it",
    "visit": "Prepare",
    "cold": "To the cold stores",
    "bins": "To the bins",
    "expected": "What is expected",
    "setup": "Set it up",
}


@dataclass(frozen=True, slots=True)
class Group:
    """The duties of one 'when', each with the word of its act; `hidden` more are not shown."""

    when: str
    title: str
    lines: tuple[tuple[Duty, str], ...]
    hidden: int = 0

    @property
    def can_wait(self) -> bool:
        return self.when == "this week"


class View(Protocol):
    def show_groups(self, day: str, groups: Sequence[Group]) -> None: ...


class TodayPresenter:
    """Reads the duties and hands them to the view."""

    def __init__(self, view: View, bench: Bench) -> None:
        self._view = view
        self._bench = bench
        self._in_full: set[str] = set()

    def refresh(self) -> bool:
        """False on a day without duties."""
        duties = self._bench.ask("today")
        self._view.show_groups(weekday_text(self._bench.today()), self.groups(duties))
        return bool(duties)

    def show_all(self, when: str) -> None:
        self._in_full.add(when)
        self.refresh()

    def groups(self, duties: Sequence[Duty]) -> list[Group]:
        """In the order of urgency, the empty ones left out."""
        made = []
        for when, title in _TITLES.items():
            mine = [duty for duty in duties if duty.when == when]
            shown = mine if when in self._in_full else mine[:SHOWN]
            if mine:
                lines = tuple((duty, duty.act or _ACTS.get(duty.station, "Go there")) for duty in shown)
                made.append(Group(when, f"{title} · {len(mine)}", lines, len(mine) - len(shown)))
        return made
