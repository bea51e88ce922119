"""An answer about a close season as plain values for JSON: what `gametrace season --json` prints."""

from __future__ import annotations

from datetime import date
from typing import Any, Protocol


class SeasonAnswer(Protocol):
    """What the domain answers about one day: open, closed, or no rule (None)."""

    @property
    def open(self) -> bool | None: ...
    @property
    def opens(self) -> date | None: ...
    @property
    def closes(self) -> date | None: ...
    @property
    def source(self) -> str: ...
    @property
    def status(self) -> str: ...
    @property
    def note(self) -> str: ...


def season_json(answer: SeasonAnswer) -> dict[str, Any]:
    """`open` stays None where no rule is known: 'no rule' is not 'open'. Days are ISO dates or None."""
    return {
        "open": answer.open,
        "opens": _iso(answer.opens),
        "closes": _iso(answer.closes),
        "source": answer.source,
        "status": str(answer.status),
        "note": answer.note,
    }


def _iso(day: date | str | None) -> str | None:
    """A day as ISO text; a rule may also give '' for 'no such day'."""
    if isinstance(day, date):
        return day.isoformat()
    return day or None
