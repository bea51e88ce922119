"""What the law asks of a kitchen's records, each sentence with its source, and the old books."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cache

from gametrace.facts.loading import STANDINGS, checked_rows, one_of
from gametrace.facts.seasons import check_jurisdiction
from gametrace.facts.sources import source


@dataclass(frozen=True, slots=True)
class LawSentence:
    """One sentence, and what it rests on."""

    id: str
    words: str
    source: str
    status: str
    note: str

    @property
    def rests_on(self) -> str:
        """The source, how well it is known, and the day it was read: for every place the sentence stands."""
        held = source(self.source)
        day = f"{held.read_on.day} {held.read_on:%b %Y}"
        return f"{held.citation}; {STANDINGS[self.status]}, {day}"


@dataclass(frozen=True, slots=True)
class OldBook:
    """A book that dealers had, or have, to keep. `valid_to` is its last day, where it ended."""

    id: str
    name: str
    jurisdiction: str
    sorts: tuple[str, ...]  # received | sold | disposed
    year_begins: tuple[int, int]  # month, day
    years_kept: int
    valid_to: date | None
    source: str
    status: str
    note: str

    def holds_on(self, day: date) -> bool:
        return self.valid_to is None or day <= self.valid_to

    def year_of(self, day: date) -> tuple[date, date]:
        """The book's year that a day falls in, both days included."""
        month, first = self.year_begins
        begins = date(day.year, month, first)
        if day < begins:
            begins = date(day.year - 1, month, first)
        ends = date(begins.year + 1, month, first)
        return begins, date.fromordinal(ends.toordinal() - 1)


@cache
def law_sentences() -> tuple[LawSentence, ...]:
    return tuple(
        LawSentence(row["id"], row["words"], row["source"], row["status"], row["note"])
        for row in checked_rows("traceability", "sentence")
    )


def law_sentence(sentence_id: str) -> LawSentence:
    for held in law_sentences():
        if held.id == sentence_id:
            return held
    raise one_of("sentence on law", sentence_id, tuple(one.id for one in law_sentences()))


@cache
def old_books() -> tuple[OldBook, ...]:
    return tuple(
        OldBook(
            row["id"],
            row["name"],
            check_jurisdiction(row["jurisdiction"]),
            tuple(row["sorts"]),
            (row["year_begins"][0], row["year_begins"][1]),
            row["years_kept"],
            row.get("valid_to"),
            row["source"],
            row["status"],
            row["note"],
        )
        for row in checked_rows("traceability", "book")
    )


def old_book(book_id: str) -> OldBook:
    for held in old_books():
        if held.id == book_id:
            return held
    raise one_of("old book", book_id, tuple(one.id for one in old_books()))
