"""The kitchen's own figures as a page shows them: each as it is now, beside what the sources say.

It words and gathers; `policies` holds the figures and the act that sets one.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from gametrace.domain.hanging import hanging_plan
from gametrace.domain.quantities import celsius_text, tenths_percent_text
from gametrace.facts.by_products import ByProduct, by_product, by_products, readings
from gametrace.facts.hanging import HangingRange, all_hanging_ranges, hanging_ranges
from gametrace.facts.origins import ORIGIN_MEANINGS, ORIGINS
from gametrace.facts.sources import citation
from gametrace.facts.species import species
from gametrace.facts.temperatures import TemperatureLimit, chill_limit, limits, probe_check
from gametrace.facts.yields import MassBalance, mass_balances
from gametrace.register import label_stocks
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant, iso_day_text
from gametrace.register.money_figures import MONEY, is_money, money_title, money_words
from gametrace.register.opening import Register
from gametrace.register.policies import Policies
from gametrace.store import journal, look_door, look_visit
from gametrace.store.engine import Connection

DOOR, COLD, BLOCK = "At the door", "In the cold stores", "On the block"
HANGING, NOT_FOOD, KEEPING = "Hanging", "What is not for food", "Keeping the register"
_HANGING, _CATEGORY = "hanging_days.", "category."
_NOBODY = "No source held here names a figure."

_TITLES = {
    "accepted_origins": (DOOR, "Origins this kitchen buys", "origins"),
    "own_limit_tenths_c": (DOOR, "Own temperature limit at the door", "celsius"),
    "probe_days": (DOOR, "Days a probe's check holds", "days"),
    "chill_limit_tenths_c": (COLD, "Own limit of a chill", "celsius"),
    "freezer_limit_tenths_c": (COLD, "Own limit of a freezer", "celsius"),
    "tolerance_minutes": (COLD, "How long above the limit before it counts", "minutes"),
    "reading_minutes": (COLD, "How far apart readings may lie", "minutes"),
    "backup_days": (KEEPING, "Days after which a new backup is asked for", "days"),
    "unweighed_amber_tenths": (BLOCK, "Unweighed: amber, and a reason at closing, past", "percent"),
    "unweighed_red_tenths": (BLOCK, "Unweighed: red past", "percent"),
    "scale_step_grams": (BLOCK, "The step of the scale", "grams"),
    "lock_minutes": (
        KEEPING,
        "Minutes of rest after which a name with a PIN is asked for it (0: never)",
        "minutes",
    ),
}


@dataclass(frozen=True, slots=True)
class Said:
    """What a source says, in a sentence, with its name and standing."""

    words: str
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class OwnFigure:
    """One figure. `value` is as set_policy takes it, '' where the kitchen set none."""

    name: str
    group: str
    title: str
    sort: str  # origins | celsius | days | minutes | percent | grams | range | category
    value: str
    words: str  # as it is now
    starts_with: str  # what holds where nothing is set
    said: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class PolicyChange:
    """One setting of a figure."""

    at: datetime
    by: str  # initials
    name: str
    title: str
    old: str
    new: str
    reason: str


def own_figures(register: Register) -> tuple[OwnFigure, ...]:
    """Every figure a kitchen may set, in the order of the page."""
    with register.store.reading() as connection:
        kept = look_door.policies(connection)
    jurisdiction = register.larder.jurisdiction
    names = [
        *_TITLES,
        *(f"{_HANGING}{kind}" for kind in _kinds_hung()),
        *(f"{_CATEGORY}{item.id}" for item in by_products()),
    ]
    return tuple(_figure(name, kept.get(name, ""), jurisdiction) for name in names)


def _kinds_hung() -> tuple[str, ...]:
    return tuple(dict.fromkeys(kind for row in all_hanging_ranges() for kind in row.species))


def _figure(name: str, value: str, jurisdiction: str) -> OwnFigure:
    group, title, sort = described(name)
    starts = value_words(name, "")
    return OwnFigure(
        name, group, title, sort, value, value_words(name, value), starts, _said(name, jurisdiction)
    )


def described(name: str) -> tuple[str, str, str]:
    """(group, title, sort) of a figure by its name."""
    if is_money(name):
        return MONEY, money_title(name), "money"
    if name.startswith(_HANGING):
        kind = species(name.removeprefix(_HANGING))
        return HANGING, f"Days from the kill, {kind.name}", "range"
    if name.startswith(_CATEGORY):
        item = name.removeprefix(_CATEGORY).replace("-", " ")
        return NOT_FOOD, f"Category of: {item}", "category"
    return _TITLES[name]


def value_words(name: str, value: str) -> str:
    """A figure in words; for '' what the program starts with."""
    if is_money(name):
        return money_words(name, value)
    if name.startswith(_HANGING):
        return _days_words(name.removeprefix(_HANGING), value)
    if name.startswith(_CATEGORY):
        return _category_words(by_product(name.removeprefix(_CATEGORY)), value)
    sort = _TITLES[name][2]
    if sort == "origins":
        names = [ORIGINS[one] for one in value.split(",") if one]
        return ", ".join(names) if names else "every origin but unknown"
    if name == "own_limit_tenths_c" and not value:
        return "none: the game rules' limits alone"
    if name == "probe_days" and not value:
        return f"{probe_check().days} days"
    number = int(value) if value else getattr(Policies(), name)
    if sort == "percent":
        return f"{tenths_percent_text(number)} of the weight in"
    return celsius_text(number) if sort == "celsius" else _counted(number, sort)


def _counted(number: int, unit: str) -> str:
    if unit == "minutes" and number >= 120 and number % 60 == 0:
        return f"{number // 60} hours"
    return f"{number} {unit.removesuffix('s') if number == 1 else unit}"


def _days_words(kind: str, value: str) -> str:
    if value:
        first, last = value.split("-")
        return f"day {first} to day {last}"
    plan = hanging_plan(kind)
    return f"day {plan.ready_from_days} to day {plan.by_days}" if plan else "no days held"


def _category_words(item: ByProduct, value: str) -> str:
    if not value:
        return f"category {item.category}, not yet confirmed with the authority"
    category, said_by, on = value.split("|")
    return f"category {category}, said by {said_by.strip()}, {iso_day_text(on[:10])}"


# -- what the sources say ---------------------------------------------------------------------------------


def _said(name: str, jurisdiction: str) -> tuple[Said, ...]:
    if name.startswith(_HANGING):
        return tuple(_range(row) for row in hanging_ranges(name.removeprefix(_HANGING)))
    if name.startswith(_CATEGORY):
        return _category_said(by_product(name.removeprefix(_CATEGORY)))
    held = limits()
    match name:
        case "accepted_origins":
            return tuple(
                Said(
                    f"{name[:1].upper()}{name[1:]}: {ORIGIN_MEANINGS[one]}", "", "common practice, no source"
                )
                for one, name in ORIGINS.items()
                if one != "unknown"
            )
        case "own_limit_tenths_c":
            return tuple(_limit(held[group]) for group in ("large", "small", "offal"))
        case "probe_days":
            check = probe_check()
            return (Said(f"{check.days} days. {check.note}", citation(check.source), check.status),)
        case "chill_limit_tenths_c" if jurisdiction:
            return (_limit(held["large"]), _limit(held["small"]), _limit(chill_limit(jurisdiction)))
        case "chill_limit_tenths_c":
            return (_limit(held["large"]), _limit(held["small"]))
        case "freezer_limit_tenths_c":
            return (_limit(held["frozen"]),)
        case "unweighed_amber_tenths" | "unweighed_red_tenths":
            return tuple(_balance(row) for row in mass_balances())
    return (Said(_NOBODY, "", ""),)


def _balance(row: MassBalance) -> Said:
    low, high = tenths_percent_text(row.low_tenths), tenths_percent_text(row.high_tenths)
    words = f"{low} to {high} of the weight in found again. {row.note}"
    return Said(words, citation(row.source), row.status)


def _range(row: HangingRange) -> Said:
    """One source's own days; sources differ, and none of them is a rule."""
    words = f"{row.low_days} to {row.high_days} days" + (f", {row.how}" if row.how else "")
    return Said(f"{words}. {row.note}".strip(), citation(row.source), row.status)


def _limit(limit: TemperatureLimit) -> Said:
    figure = "no figure" if limit.tenths_c is None else celsius_text(limit.tenths_c)
    words = f"{limit.name[:1].upper()}{limit.name[1:]}: {figure}. {limit.note}".strip()
    return Said(words, citation(limit.source), limit.status)


def _category_said(item: ByProduct) -> tuple[Said, ...]:
    default = Said(
        f"Put down as category {item.category}. {item.note}".strip(), citation(item.source), item.status
    )
    differing = tuple(
        Said(f"Category {one.category}: {one.words}", citation(one.source), one.status)
        for one in readings(item.id)
    )
    return differing or (default,)


# -- what was changed -------------------------------------------------------------------------------------


def policy_changes(register: Register) -> tuple[PolicyChange, ...]:
    """Every setting ever, newest first."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        return changes_between(read, connection)[::-1]


def changes_between(
    read: Assembler, connection: Connection, first: str = "", last: str = "~"
) -> tuple[PolicyChange, ...]:
    """Settings written in a span of UTC instants, in order."""
    found = look_visit.entries_of_kind(connection, "policy.set", first, last)
    return tuple(
        PolicyChange(
            at=instant(entry.written_at),
            by=read.initials(entry.by),
            name=entry.body["name"],
            title=described(entry.body["name"])[1],
            old=value_words(entry.body["name"], entry.body["was"]),
            new=value_words(entry.body["name"], entry.body["value"]),
            reason=entry.body["reason"],
        )
        for entry in journal.entries(connection, found)
        if not entry.body["name"].startswith(label_stocks.PREFIX)  # sizes of paper are no figures
    )
