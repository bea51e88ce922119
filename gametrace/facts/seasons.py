"""Open seasons by kind, sex and jurisdiction, each row with the days it was law.

Rows only: which row rules on a kill is decided in `gametrace.domain.seasons`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cache

from gametrace.facts.loading import BadFact, Row, checked_rows, one_of
from gametrace.facts.species import species

JURISDICTIONS: dict[str, str] = {
    "england-wales": "England and Wales",
    "scotland": "Scotland",
    "northern-ireland": "Northern Ireland",
}

MonthDay = tuple[int, int]


@dataclass(frozen=True, slots=True)
class SeasonRow:
    """One open season. Both end days are open; a closing on 29 February is the last of February.

    A row with `hinges_on` covers days (or, without days, the year) on which no answer can be given.
    """

    id: str
    species: tuple[str, ...]
    sex: str
    jurisdiction: str
    opens: MonthDay | None
    closes: MonthDay | None
    all_year: bool
    valid_from: date | None
    valid_to: date | None
    source: str
    status: str
    note: str
    closed_all_year: bool = False
    hinges_on: str = ""

    def in_force(self, day: date) -> bool:
        """Whether the row was law on that day."""
        begun = self.valid_from is None or day >= self.valid_from
        return begun and (self.valid_to is None or day <= self.valid_to)


@dataclass(frozen=True, slots=True)
class FarmedExemption:
    """What a jurisdiction says about the close season of farmed deer."""

    id: str
    jurisdiction: str
    exempt: bool
    source: str
    status: str
    note: str


def check_jurisdiction(jurisdiction: str) -> str:
    """The jurisdiction, if the facts know it."""
    if jurisdiction not in JURISDICTIONS:
        raise one_of("jurisdiction", jurisdiction, tuple(JURISDICTIONS))
    return jurisdiction


def _month_day(row: Row, name: str) -> MonthDay | None:
    if name not in row:
        return None
    month, day = row[name]
    date(2024, month, day)  # a leap year, so that the last of February can be written as 29
    return int(month), int(day)


def _season_row(row: Row) -> SeasonRow:
    built = SeasonRow(
        id=row["id"],
        species=tuple(species(name).id for name in row["species"]),
        sex=row["sex"],
        jurisdiction=check_jurisdiction(row["jurisdiction"]),
        opens=_month_day(row, "opens"),
        closes=_month_day(row, "closes"),
        all_year=row.get("all_year", False),
        valid_from=row.get("valid_from"),
        valid_to=row.get("valid_to"),
        source=row["source"],
        status=row["status"],
        note=row["note"],
        closed_all_year=row.get("closed_all_year", False),
        hinges_on=row.get("hinges_on", ""),
    )
    if built.sex not in ("male", "female", "both"):
        raise BadFact(f"seasons.toml: '{built.id}' has the sex '{built.sex}'.")
    if (built.opens is None) != (built.closes is None):
        raise BadFact(f"seasons.toml: '{built.id}' has only one of its two days.")
    if built.opens is None and not (built.all_year or built.closed_all_year or built.hinges_on):
        raise BadFact(f"seasons.toml: '{built.id}' says nothing.")
    return built


@cache
def season_rows() -> tuple[SeasonRow, ...]:
    """Every season row, in file order."""
    return tuple(_season_row(row) for row in checked_rows("seasons", "season"))


@cache
def farmed_exemption(jurisdiction: str) -> FarmedExemption:
    """What the jurisdiction says about farmed deer in the close season."""
    check_jurisdiction(jurisdiction)
    for row in checked_rows("seasons", "farmed_exemption"):
        if row["jurisdiction"] == jurisdiction:
            return FarmedExemption(
                id=row["id"],
                jurisdiction=jurisdiction,
                exempt=row["exempt"],
                source=row["source"],
                status=row["status"],
                note=row["note"],
            )
    raise BadFact(f"seasons.toml says nothing of farmed deer in {JURISDICTIONS[jurisdiction]}.")


@cache
def exception_words(jurisdiction: str) -> str:
    """What may make a kill in the close season lawful there, as words for a sentence."""
    check_jurisdiction(jurisdiction)
    for row in checked_rows("seasons", "exception"):
        if row["jurisdiction"] == jurisdiction:
            return str(row["words"])
    raise BadFact(f"seasons.toml names no exceptions for {JURISDICTIONS[jurisdiction]}.")


@dataclass(frozen=True, slots=True)
class ForbiddenDays:
    """Days of any season on which some game may not be killed. `weekday` as in the calendar: Sunday is 6."""

    id: str
    jurisdiction: str
    species: tuple[str, ...]
    weekday: int
    month_day: MonthDay
    source: str
    status: str
    note: str


@cache
def forbidden_days(jurisdiction: str) -> tuple[ForbiddenDays, ...]:
    """The rows of a jurisdiction; most have none."""
    check_jurisdiction(jurisdiction)
    return tuple(
        ForbiddenDays(
            id=row["id"],
            jurisdiction=jurisdiction,
            species=tuple(species(name).id for name in row["species"]),
            weekday=row["weekday"],
            month_day=(row["month_day"][0], row["month_day"][1]),
            source=row["source"],
            status=row["status"],
            note=row["note"],
        )
        for row in checked_rows("seasons", "forbidden_day")
        if row["jurisdiction"] == jurisdiction
    )
