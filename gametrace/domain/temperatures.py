"""Whether the warmest reading of a carcass is within the limit of the game rules, and of the kitchen's own.

The highest reading rules. Above the limit is a reason to hold and chill, not by itself to reject;
within it is no promise about the meat. The law's figure and the kitchen's own are never mixed.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from gametrace.domain.dates import day_words
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.quantities import celsius_text
from gametrace.facts.seasons import JURISDICTIONS
from gametrace.facts.sources import citation
from gametrace.facts.species import species as species_called
from gametrace.facts.temperatures import (
    TemperatureLimit,
    chill_limit,
    limit_for,
    limit_for_group,
    probe_check,
)

OWN_LIMIT = "the kitchen's own limit"

# Readings taken here are of offal and have their own limit.
OFFAL_PLACES = frozenset({"pluck", "offal", "liver", "heart", "kidney", "kidneys", "lungs"})


def temperature_findings(
    *,
    species: str,
    readings: Sequence[tuple[str, int]],
    killed_at_known: bool,
    jurisdiction: str,
    own_limit_tenths_c: int | None = None,
) -> tuple[Finding, ...]:
    """One finding for the meat and one for offal, where read; one if nothing was read.

    With the jurisdiction not set up yet ('') the kitchen's own law is left unsaid. A limit of the
    kitchen's own adds a question of its own where the meat keeps to the law's figure and not to it.
    """
    kind = species_called(species)
    chill = chill_limit(jurisdiction) if jurisdiction else None
    meat_limit = limit_for(kind.id)
    meat = [one for one in readings if one[0].strip().lower() not in OFFAL_PLACES]
    offal = [one for one in readings if one[0].strip().lower() in OFFAL_PLACES]
    if not readings:
        return (_none_taken(kind.name, meat_limit),)
    findings = []
    if meat:
        findings.append(_judge(meat, meat_limit, chill, killed_at_known))
        findings += _by_own_limit(meat, meat_limit, own_limit_tenths_c)
    if offal:
        findings.append(_judge(offal, limit_for_group("offal"), chill, killed_at_known))
    return tuple(findings)


def _none_taken(animal: str, limit: TemperatureLimit) -> Finding:
    figure = celsius_text(limit.tenths_c or 0)
    return Finding(
        "no-temperature",
        Severity.ASK,
        f"No temperature has been taken of the {animal}; the limit for {limit.name} is {figure}.",
        "Take it deep in the haunch, behind the shoulder and inside the ribs, or say why it was not taken.",
        citation(limit.source),
        limit.status,
    )


def _judge(
    readings: Sequence[tuple[str, int]],
    limit: TemperatureLimit,
    chill: TemperatureLimit | None,
    killed_at_known: bool,
) -> Finding:
    place, warmest = max(readings, key=lambda one: one[1])
    figure = limit.tenths_c or 0
    where = f" ({place.strip()})" if place.strip() else ""
    taken = f"The warmest reading is {celsius_text(warmest)}{where}"
    if warmest <= figure:
        sentence = f"{taken}, within the {celsius_text(figure)} limit for {limit.name}."
        return Finding(
            "temperature-within", Severity.NOTE, sentence, "", citation(limit.source), limit.status
        )
    above = f"{taken}, above the {celsius_text(figure)} limit for {limit.name}."
    sentence = above + _beside_chill(warmest, chill)
    return Finding(
        "too-warm",
        Severity.STOP,
        sentence,
        _what_to_do(killed_at_known),
        citation(limit.source),
        limit.status,
    )


def _beside_chill(warmest: int, chill: TemperatureLimit | None) -> str:
    """How the reading stands to the kitchen's own law, which is another figure."""
    if chill is None:
        return ""
    where = JURISDICTIONS[chill.jurisdiction]
    if chill.tenths_c is None:
        return f" A kitchen's own law in {where} names no figure."
    stands = "also above" if warmest > chill.tenths_c else "not above"
    return (
        f" It is {stands} the {celsius_text(chill.tenths_c)} at which a kitchen in {where} must keep food "
        f"chilled ({citation(chill.source)})."
    )


def _what_to_do(killed_at_known: bool) -> str:
    if killed_at_known:
        return (
            "Hold it, chill it and take it again. If it is still falling, that and the known time of "
            "killing are a reason to hold rather than to reject."
        )
    return (
        "Hold it, chill it and take it again, and ask when it was killed: without that nobody can say "
        "whether it is still cooling. If it does not fall, reject it."
    )


def _by_own_limit(
    readings: Sequence[tuple[str, int]], limit: TemperatureLimit, own_limit_tenths_c: int | None
) -> list[Finding]:
    """The kitchen's own figure, which is no law: asked about where the law's was kept and it was not."""
    warmest = max(reading for _, reading in readings)
    if own_limit_tenths_c is None or not own_limit_tenths_c < warmest <= (limit.tenths_c or 0):
        return []
    sentence = (
        f"The warmest reading, {celsius_text(warmest)}, keeps to the law's figure for {limit.name} and is "
        f"above this kitchen's own limit of {celsius_text(own_limit_tenths_c)}."
    )
    ask = "Chill it and take it again, or say why it is taken in."
    return [Finding("above-own-limit", Severity.ASK, sentence, ask, OWN_LIMIT, "own")]


def probe_findings(
    *, probe: str, last_checked_on: date | None, on: date, days: int | None = None
) -> tuple[Finding, ...]:
    """A question where the probe's last check is older than the days, lies ahead, or is not known.

    `days` is the kitchen's own; without it the days of the facts are used.
    """
    rule = probe_check()
    most_days = rule.days if days is None else days
    name = f"Probe {probe.strip()}" if probe.strip() else "The probe"
    if last_checked_on is None:
        sentence = f"{name} has no check on record."
    elif last_checked_on > on:
        sentence = f"{name} was last checked on {day_words(last_checked_on)}, which lies ahead."
    elif (on - last_checked_on).days > most_days:
        sentence = (
            f"{name} was last checked on {day_words(last_checked_on)}, "
            f"{(on - last_checked_on).days} days ago; {most_days} are allowed here."
        )
    else:
        return ()
    source, status = (citation(rule.source), rule.status) if days is None else (OWN_LIMIT, "own")
    ask = "Check it in melting ice and write the check down, or say why it is trusted."
    return (Finding("probe-not-checked", Severity.ASK, sentence, ask, source, status),)
