"""Whether an animal of that kind and sex was in season where and on the day it was killed.

It rules on the close season by day, not on the hour (`gametrace.domain.night`). A kill out of season may
be lawful, so it asks for the licence or exception, takes one that is given, and never calls it a crime.
"""

from __future__ import annotations

from calendar import isleap
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from gametrace.domain.dates import day_words
from gametrace.domain.exceptions import Given, answered_by
from gametrace.domain.findings import Finding, Severity
from gametrace.facts.origins import FARMED_ORIGINS, check_origin
from gametrace.facts.seasons import (
    JURISDICTIONS,
    MonthDay,
    SeasonRow,
    check_jurisdiction,
    exception_words,
    farmed_exemption,
    season_rows,
)
from gametrace.facts.sources import citation
from gametrace.facts.species import Species, check_sex
from gametrace.facts.species import species as species_called


@dataclass(frozen=True, slots=True)
class SeasonRuling:
    """In season, out of season, or (None) not to be settled from what is known.

    `opens` and `closes` are the open period that holds the day, else the next one; None where the
    season is all year or there is no rule.
    """

    open: bool | None
    opens: date | None
    closes: date | None
    source: str
    status: str
    note: str


def rule_season(*, species: str, sex: str, killed_on: date, jurisdiction: str, origin: str) -> SeasonRuling:
    """The ruling for one animal; an unknown word raises `UnknownFact` with the words that are known."""
    kind = species_called(species)
    check_sex(sex)
    check_jurisdiction(jurisdiction)
    check_origin(origin)
    if sex == "unknown":
        male = _rule_for_sex(kind, "male", killed_on, jurisdiction, origin)
        female = _rule_for_sex(kind, "female", killed_on, jurisdiction, origin)
        return _both_sexes(male, female)
    return _rule_for_sex(kind, sex, killed_on, jurisdiction, origin)


def _rule_for_sex(kind: Species, sex: str, killed_on: date, jurisdiction: str, origin: str) -> SeasonRuling:
    ruling = _rule_wild(kind, sex, killed_on, jurisdiction)
    if not kind.deer or origin not in FARMED_ORIGINS:
        return ruling
    farmed = farmed_exemption(jurisdiction)
    if farmed.exempt:
        return SeasonRuling(True, None, None, citation(farmed.source), farmed.status, farmed.note)
    if ruling.open is False:
        return replace(ruling, open=None, status=farmed.status, note=farmed.note)
    return ruling


def _rule_wild(kind: Species, sex: str, killed_on: date, jurisdiction: str) -> SeasonRuling:
    mine = tuple(
        row
        for row in season_rows()
        if kind.id in row.species and row.sex in (sex, "both") and row.jurisdiction == jurisdiction
    )
    rows = tuple(row for row in mine if row.in_force(killed_on))
    for row in rows:
        if row.hinges_on and (row.opens is None or _period_holding(row, killed_on)):
            return _ruling(row, None, None, row.hinges_on)
    plain = tuple(row for row in rows if not row.hinges_on)
    if not plain:
        return _no_rule(kind, killed_on, jurisdiction)
    row = plain[0]
    if row.all_year or row.closed_all_year:
        return _ruling(row, row.all_year, None, row.note)
    period = _period_holding(row, killed_on)
    if period is not None:
        return _ruling(row, True, period, row.note)
    return _ruling(row, False, _next_period(mine, killed_on), row.note)


def _ruling(
    row: SeasonRow, is_open: bool | None, period: tuple[date, date] | None, note: str
) -> SeasonRuling:
    opens, closes = period if period is not None else (None, None)
    return SeasonRuling(is_open, opens, closes, citation(row.source), row.status, note)


def _no_rule(kind: Species, killed_on: date, jurisdiction: str) -> SeasonRuling:
    where = JURISDICTIONS[jurisdiction]
    note = f"The facts hold no season for {kind.name} in {where} on {day_words(killed_on)}."
    return SeasonRuling(None, None, None, "no source held", "unresolved", note)


def _on(year: int, month_day: MonthDay) -> date:
    """The day in that year; 29 February means the last of February."""
    month, day = month_day
    if (month, day) == (2, 29):
        return date(year, 2, 29 if isleap(year) else 28)
    return date(year, month, day)


def _periods(row: SeasonRow, around: date) -> Iterator[tuple[date, date]]:
    """The row's open periods that begin in the year before, of and after a day, in order."""
    if row.opens is None or row.closes is None:
        return
    runs_over_new_year = row.closes < row.opens
    for year in range(max(around.year - 1, date.min.year), min(around.year + 2, date.max.year)):
        yield _on(year, row.opens), _on(year + runs_over_new_year, row.closes)


def _period_holding(row: SeasonRow, day: date) -> tuple[date, date] | None:
    for opens, closes in _periods(row, day):
        if opens <= day <= closes:
            return opens, closes
    return None


def _next_period(rows: tuple[SeasonRow, ...], day: date) -> tuple[date, date] | None:
    """The first period to open after a day, by the rows that are law when it opens."""
    coming = [
        period
        for row in rows
        if not row.hinges_on
        for period in _periods(row, day)
        if period[0] > day and row.in_force(period[0])
    ]
    return min(coming, default=None)


def _both_sexes(male: SeasonRuling, female: SeasonRuling) -> SeasonRuling:
    """With the sex unknown: open or closed only where that holds for either sex."""
    if male == female:
        return male
    opens = max((r.opens for r in (male, female) if r.opens is not None), default=None)
    closes = min((r.closes for r in (male, female) if r.closes is not None), default=None)
    if opens is None or closes is None or closes < opens:
        opens = closes = None
    agreed = male.open if male.open == female.open else None
    note = " ".join(dict.fromkeys(r.note for r in (male, female) if r.note))
    if agreed is None:
        opens = closes = None
        note = f"The answer differs for a male and a female, and the sex is not known. {note}".strip()
    source = "; ".join(dict.fromkeys(r.source for r in (male, female) if r.source))
    status = male.status if male.status == female.status else f"{male.status}; {female.status}"
    return SeasonRuling(agreed, opens, closes, source, status, note)


def season_findings(
    *,
    species: str,
    sex: str,
    killed_on: date,
    jurisdiction: str,
    origin: str,
    exception: Given | None = None,
) -> tuple[Finding, ...]:
    """The ruling as one finding: in season, not to be settled, or out of season.

    An `exception` that lifts the close season, (type, number), turns what it answers into a note.
    """
    found = _season_finding(species, sex, killed_on, jurisdiction, origin)
    kind = species_called(species)
    return (answered_by(found, exception, lifts="season", species=kind.id, where=jurisdiction),)


def _season_finding(species: str, sex: str, killed_on: date, jurisdiction: str, origin: str) -> Finding:
    ruling = rule_season(
        species=species, sex=sex, killed_on=killed_on, jurisdiction=jurisdiction, origin=origin
    )
    kind = species_called(species)
    animal = f"{kind.name} {_sex_word(kind, sex)}"
    where, day = JURISDICTIONS[jurisdiction], day_words(killed_on)
    if ruling.open is None:
        sentence = f"Whether {day} is in season for {animal} in {where} is not settled. {ruling.note}"
        ask = "Ask the supplier and the local authority, and write down what they say."
        return Finding("season-unclear", Severity.ASK, sentence, ask, ruling.source, ruling.status)
    if ruling.open:
        sentence = f"{day} is in season for {animal} in {where}{_until(ruling)}."
        if ruling.note:
            sentence = f"{sentence} {ruling.note}"
        return Finding("season-open", Severity.NOTE, sentence, "", ruling.source, ruling.status)
    sentence = f"{day} is in the close season for {animal} in {where}{_until(ruling)}."
    if ruling.note:
        sentence = f"{sentence} {ruling.note}"
    ask = _ask_for_licence(kind, jurisdiction)
    return Finding("season-closed", Severity.STOP, sentence, ask, ruling.source, ruling.status)


def _sex_word(kind: Species, sex: str) -> str:
    unknown = "deer of unknown sex" if kind.deer and "deer" not in kind.name else "of unknown sex"
    return {"male": kind.males, "female": kind.females}.get(sex, unknown)


def _until(ruling: SeasonRuling) -> str:
    if ruling.opens is None or ruling.closes is None:
        return ""
    days = f"{day_words(ruling.opens)} to {day_words(ruling.closes)}"
    return f" (open {days})" if ruling.open else f" (next open {days})"


def _ask_for_licence(kind: Species, jurisdiction: str) -> str:
    may_be = exception_words(jurisdiction) if kind.deer else "a licence"
    return (
        f"Hold it. The kill may still be lawful under {may_be}: "
        "ask the supplier for the licence or exception, its type and its number, and record both."
    )
