"""Days on which game may not be killed or sold, apart from its season.

It rules on Sundays and Christmas Day, and on the time of sale. It does not know whether a bird was
lawfully taken: the season, the licence and the supplier's word answer for that.
"""

from __future__ import annotations

from datetime import date

from gametrace.domain.dates import day_words
from gametrace.domain.findings import Finding, Severity
from gametrace.facts.sale import SaleRule, sale_rules
from gametrace.facts.seasons import JURISDICTIONS, check_jurisdiction, forbidden_days
from gametrace.facts.sources import citation
from gametrace.facts.species import species as species_called


def forbidden_day_findings(*, species: str, killed_on: date, jurisdiction: str) -> tuple[Finding, ...]:
    """A stop where that game may not be killed on that day of the week or year; else nothing."""
    kind = species_called(species)
    for row in forbidden_days(jurisdiction):
        is_weekday = killed_on.weekday() == row.weekday
        if kind.id in row.species and (is_weekday or (killed_on.month, killed_on.day) == row.month_day):
            called = "a Sunday" if is_weekday else "Christmas Day"
            sentence = f"{day_words(killed_on)} was {called}. {row.note}"
            ask = "Hold it, and read the day on the card again; ask the supplier when it was killed."
            return (Finding("forbidden-day", Severity.STOP, sentence, ask, citation(row.source), row.status),)
    return ()


def sale_findings(*, species: str, jurisdiction: str, on: date) -> tuple[Finding, ...]:
    """What the law says about selling that game on a day; nothing where no rule is held.

    A bar that was only remembered asks; one that was read stops.
    """
    kind = species_called(species)
    where = JURISDICTIONS[check_jurisdiction(jurisdiction)]
    return tuple(
        _sale_finding(rule, kind.name, where, on)
        for rule in sale_rules(kind.id, jurisdiction)
        if rule.valid_from is None or on >= rule.valid_from
    )


def _sale_finding(rule: SaleRule, animal: str, where: str, on: date) -> Finding:
    source, status = citation(rule.source), rule.status
    if not rule.bars_on(on):
        return Finding("sale-rule", Severity.NOTE, rule.note, "", source, status)
    sentence = f"{day_words(on)} lies in the days when {animal} may not be sold in {where}. {rule.note}"
    ask = "Do not put it on a menu or sell it until the days are over; ask the local authority."
    severity = Severity.ASK if status == "memory" else Severity.STOP
    return Finding("sale-barred", severity, sentence, ask, source, status)
