"""Where each fact was read: statute, paper, page or the word of the trade."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cache

from gametrace.facts.loading import UnknownFact, read_subject


@dataclass(frozen=True, slots=True)
class Source:
    """One published thing, or 'common practice, no source'."""

    id: str
    title: str
    address: str
    read_on: date
    note: str

    @property
    def citation(self) -> str:
        """The words a person reads beside a finding."""
        return self.title


@cache
def sources() -> tuple[Source, ...]:
    """Every source, in file order."""
    return tuple(
        Source(
            id=row["id"],
            title=row["title"],
            address=row["address"],
            read_on=row["read_on"],
            note=row["note"],
        )
        for row in read_subject("sources")["source"]
    )


def source(source_id: str) -> Source:
    """The source with this id."""
    for held in sources():
        if held.id == source_id:
            return held
    raise UnknownFact(f"There is no source with the id '{source_id}' in the facts.")


def citation(source_id: str) -> str:
    """The readable words of a source."""
    return source(source_id).citation
