"""Whether the warmest reading of a carcass is within the limit of the game rules.

The highest reading rules. Above the limit is a reason to hold and chill, not by itself to reject;
within it is no promise about the meat.
"""

from __future__ import annotations

from collections.abc import Sequence

from gametrace.domain.findings import Finding, Severity
from gametrace.domain.quantities import celsius_text
from gametrace.facts.seasons import JURISDICTIONS
from gametrace.facts.sources import citation
from gametrace.facts.species import species as species_called
from gametrace.facts.temperatures import TemperatureLimit, chill_limit, limit_for, limit_for_group

# Readings taken here are of offal and have their own limit.
OFFAL_PLACES = frozenset({"pluck", "offal", "liver", "heart", "kidney", "kidneys", "lungs"})


def temperature_findings(
    *,
    species: str,
    readings: Sequence[tuple[str, int]],
    killed_at_known: bool,
    jurisdiction: str,
) -> tuple[Finding, ...]:
    """One finding for the meat and one for offal, where read; one if nothing was read.

    With the jurisdiction not set up yet ('') the kitchen's own law is left unsaid.
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
