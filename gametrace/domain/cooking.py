"""What a core temperature and its time come to by two published tables, and hot holding, cooling, reheating.

It asks for the longer time of the two and names both. It never calls food safe: it says what was asked for
and what was recorded; the kitchen's own food safety plan decides.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from gametrace.domain.findings import Finding, Severity
from gametrace.domain.quantities import celsius_text
from gametrace.facts.cooking import CookTable, cook_table, cooling, hot_hold, meat_rule, reheating
from gametrace.facts.sources import citation

_AT_70, _SECONDS_AT_70 = 700, 120  # both tables pass through 2 minutes at 70 C
LOWEST_TENTHS_C = 600  # neither table has a line below
HIGHEST_TENTHS_C = 1300  # above this a probe in meat was misread
_PLAN = "Cook on until it is reached, or follow the kitchen's own food safety plan and write down which."


def seconds_needed(tenths_c: int, table_id: str) -> int:
    """How long one table asks for at a core temperature of 60 C or more, in whole seconds, never too short.

    On a printed line, what is printed. Between lines, the table's own z line, but never less than the
    printed line next above it, so that cooler is never shorter.
    """
    if not LOWEST_TENTHS_C <= tenths_c <= HIGHEST_TENTHS_C:
        raise ValueError("the tables speak of core temperatures from 60 C up")
    table = cook_table(table_id)
    for line, seconds in table.lines:
        if tenths_c == line:
            return seconds
        if tenths_c < line:
            return max(seconds, seconds_by_z(tenths_c, table.z_tenths))
    return seconds_by_z(tenths_c, table.z_tenths)


def seconds_by_z(tenths_c: int, z_tenths: int) -> int:
    """2 minutes at 70 C carried to another temperature by a z value, rounded up to the second."""
    power = Decimal(_AT_70 - tenths_c) / Decimal(z_tenths)
    return int((_SECONDS_AT_70 * Decimal(10) ** power).to_integral_value(ROUND_CEILING))


@dataclass(frozen=True, slots=True)
class CookDemand:
    """The longer of the two tables' times at one temperature, and both."""

    seconds: int
    business_seconds: int
    committee_seconds: int
    from_table: str  # 'business', 'committee' or 'both'


def cook_demand(tenths_c: int) -> CookDemand:
    """What is asked for at this core temperature."""
    business, committee = seconds_needed(tenths_c, "business"), seconds_needed(tenths_c, "committee")
    longer = "both" if business == committee else "business" if business > committee else "committee"
    return CookDemand(max(business, committee), business, committee, longer)


def cook_findings(tenths_c: int, seconds: int, *, meat: str = "minced") -> tuple[Finding, ...]:
    """One finding: as long as both tables ask, or short of them; for a whole cut, with the words on pink.

    `meat` is whole, minced (also diced and rolled), boar or offal; minced where nobody said.
    """
    if seconds < 0:
        raise ValueError("a time cannot be below nothing")
    tables = (cook_table("business"), cook_table("committee"))
    cited = "; ".join(citation(table.source) for table in tables)
    status = "; ".join(table.status for table in tables)
    held = f"{celsius_text(tenths_c)} at the core for {time_text(seconds)}"
    if tenths_c > HIGHEST_TENTHS_C:
        sentence = f"{celsius_text(tenths_c)} cannot be the core of a piece of meat."
        return (Finding("cook-not-a-core", Severity.ASK, sentence, "Read the probe again."),)
    if tenths_c < LOWEST_TENTHS_C:
        return (_short(meat, f"{held}: below 60 °C, where neither table has a line.", cited, status),)
    demand = cook_demand(tenths_c)
    asked = _asked(demand, tables)
    if seconds >= demand.seconds:
        return (Finding("cook-as-asked", Severity.NOTE, f"{held}: as long as {asked}.", "", cited, status),)
    return (_short(meat, f"{held}: shorter than {asked}.", cited, status),)


def _asked(demand: CookDemand, tables: tuple[CookTable, CookTable]) -> str:
    business, committee = tables
    return (
        f"the longer of {time_text(demand.business_seconds)} ({business.name}) and "
        f"{time_text(demand.committee_seconds)} ({committee.name})"
    )


def _short(meat: str, sentence: str, cited: str, status: str) -> Finding:
    rule = meat_rule(meat)
    source = f"{cited}; {citation(rule.source)}"
    sentence = f"{sentence} {rule.note}"
    if rule.may_be_pink:
        ask = "Write down that the outside was sealed, or cook on."
        return Finding("cook-pink-whole", Severity.ASK, sentence, ask, source, f"{status}; {rule.status}")
    return Finding("cook-short", Severity.STOP, sentence, _PLAN, source, f"{status}; {rule.status}")


def hot_hold_findings(tenths_c: int, minutes_below: int, jurisdiction: str) -> tuple[Finding, ...]:
    """Food kept hot: at or above the figure, below it for a while, or below it too long."""
    rule = hot_hold(jurisdiction)
    limit, cited = rule.tenths_c or 0, citation(rule.source)
    if tenths_c >= limit and not minutes_below:
        sentence = f"{celsius_text(tenths_c)}, kept hot at or above {celsius_text(limit)}."
        return (Finding("hot-hold-kept", Severity.NOTE, sentence, "", cited, rule.status),)
    sentence = f"{celsius_text(tenths_c)}, {minutes_below} minutes below {celsius_text(limit)}. {rule.note}"
    if minutes_below < rule.minutes:
        ask = "Serve it within that time, cool it at once, or throw it away; it may be below only once."
        return (Finding("hot-hold-below", Severity.ASK, sentence, ask, cited, rule.status),)
    ask = "Do not serve it. Throw it away and write down why."
    return (Finding("hot-hold-too-long", Severity.STOP, sentence, ask, cited, rule.status),)


def cooling_findings(minutes: int, tenths_c: int) -> tuple[Finding, ...]:
    """How long cooling took, or has taken so far, and how cold it is now."""
    rule = cooling()
    limit, cited = rule.tenths_c or 0, citation(rule.source)
    sentence = f"{celsius_text(tenths_c)} after {minutes} minutes. {rule.note}"
    if minutes > rule.minutes:
        ask = "Say why, and what becomes of it by the kitchen's own food safety plan."
        return (Finding("cooling-slow", Severity.ASK, sentence, ask, cited, rule.status),)
    if tenths_c > limit:
        ask = "Cool on: smaller pieces, shallow trays, ice or a blast chiller."
        return (Finding("cooling-under-way", Severity.NOTE, sentence, ask, cited, rule.status),)
    return (Finding("cooling-done", Severity.NOTE, sentence, "", cited, rule.status),)


def reheat_findings(
    tenths_c: int, seconds: int, jurisdiction: str, *, times_before: int = 0
) -> tuple[Finding, ...]:
    """Reheating: by the figure in law where there is one, else by the cooking tables; a second time asks."""
    rule = reheating(jurisdiction)
    again: tuple[Finding, ...] = ()
    if times_before:
        sentence = "It has been reheated before; kitchens reheat once."
        ask = "Throw it away, or say what the kitchen's own food safety plan allows."
        words = citation("common-practice")
        again = (Finding("reheat-again", Severity.ASK, sentence, ask, words, "common practice"),)
    if rule.tenths_c is None:
        return (*again, *cook_findings(tenths_c, seconds))
    sentence = f"Reheated to {celsius_text(tenths_c)}. {rule.note}"
    cited = citation(rule.source)
    if tenths_c >= rule.tenths_c:
        return (*again, Finding("reheat-as-asked", Severity.NOTE, sentence, "", cited, rule.status))
    ask = f"Heat on to {celsius_text(rule.tenths_c)}, or write down that it would spoil."
    return (*again, Finding("reheat-short", Severity.ASK, sentence, ask, cited, rule.status))


def time_text(seconds: int) -> str:
    """'2 min', '13 min 38 s', '45 s'."""
    minutes, rest = divmod(seconds, 60)
    return " ".join([f"{minutes} min"] * bool(minutes) + [f"{rest} s"] * bool(rest or not minutes))
