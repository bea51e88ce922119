"""The kitchen's own figures and choices, each set with a reason, shown beside what the sources say.

A policy never changes a fact or a law; it adds the kitchen's own line next to it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from gametrace.domain.costing import METHODS
from gametrace.domain.errors import Refusal
from gametrace.facts.by_products import by_product
from gametrace.facts.cuts import product
from gametrace.facts.loading import UnknownFact
from gametrace.facts.origins import check_origin
from gametrace.facts.species import species
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_door
from gametrace.store.engine import Connection

OUR_WEIGHT, THEIR_WEIGHT = "our weight", "supplier's weight"


@dataclass(frozen=True, slots=True)
class Policies:
    """The kitchen's own figures, typed. None or empty where it set none."""

    accepted_origins: frozenset[str] = frozenset()
    own_limit_tenths_c: int | None = None
    probe_days: int | None = None
    chill_limit_tenths_c: int = 50  # inference: the usual college figure; the kitchen sets its own
    freezer_limit_tenths_c: int = -150
    tolerance_minutes: int = 60
    unweighed_amber_tenths: int = 20  # tenths of a per cent of the weight in; inference
    unweighed_red_tenths: int = 50
    scale_step_grams: int = 20  # a scale in 20 g steps; common practice, no source
    reading_minutes: int = 720  # how far apart readings of a store may lie before it is a gap
    lock_minutes: int = 10  # a name with a PIN is asked for it again after so long; 0 is never. Inference
    backup_days: int = 2  # inference: a day's work may be typed again, a week's not
    hanging_days: dict[str, tuple[int, int]] | None = None
    categories: dict[str, tuple[int, str, str]] | None = None  # item: category, said by, ISO day
    cost_spread: str = "weight"  # how a cost is spread over cuts: see costing.METHODS
    priced_on: str = OUR_WEIGHT  # which weight a price a kilo is paid on
    vat_hundredths: int | None = None  # hundredths of a per cent; None: the rate the facts begin with
    gross_profit_hundredths: int | None = None
    prices: dict[str, int] | None = None  # product: pence a kilo it would fetch
    points: dict[str, int] | None = None  # product: tenths of a value point

    def limit_of(self, sort: str) -> int:
        """The kitchen's own limit for a chill or a freezer, tenths of a degree."""
        return self.freezer_limit_tenths_c if sort == "freezer" else self.chill_limit_tenths_c


def _whole(low: int, high: int) -> Callable[[str], object]:
    def check(value: str) -> int:
        number = int(value)
        if not low <= number <= high:
            raise ValueError
        return number

    return check


def _origins(value: str) -> frozenset[str]:
    return frozenset(check_origin(one) for one in value.split(",") if one)


def _days(value: str) -> tuple[int, int]:
    first, last = (int(part) for part in value.split("-"))
    if not 0 <= first <= last <= 60:
        raise ValueError
    return first, last


def _category(value: str) -> tuple[int, str, str]:
    category, said_by, on = value.split("|")
    if category not in ("1", "2", "3") or not said_by.strip():
        raise ValueError
    return int(category), said_by.strip(), datetime.fromisoformat(on).date().isoformat()


def _one_of(*known: str) -> Callable[[str], object]:
    def check(value: str) -> str:
        if value not in known:
            raise ValueError
        return value

    return check


_SINGLE: dict[str, Callable[[str], object]] = {
    "accepted_origins": _origins,
    "own_limit_tenths_c": _whole(-50, 150),
    "probe_days": _whole(1, 366),
    "chill_limit_tenths_c": _whole(-20, 150),
    "freezer_limit_tenths_c": _whole(-400, 0),
    "tolerance_minutes": _whole(0, 1_440),
    "unweighed_amber_tenths": _whole(0, 500),
    "unweighed_red_tenths": _whole(0, 500),
    "scale_step_grams": _whole(1, 500),
    "reading_minutes": _whole(5, 10_080),
    "backup_days": _whole(1, 60),
    "cost_spread": _one_of(*METHODS),
    "priced_on": _one_of(OUR_WEIGHT, THEIR_WEIGHT),
    "vat_hundredths": _whole(0, 10_000),
    "gross_profit_hundredths": _whole(0, 9_900),
    "lock_minutes": _whole(0, 240),
}
_UNWEIGHED = ("unweighed_amber_tenths", "unweighed_red_tenths")
_HANGING, _CATEGORY = "hanging_days.", "category."
_PRICE, _POINTS = "price.", "points."
_pence_a_kilo, _tenths_of_a_point = _whole(0, 100_000), _whole(0, 10_000)


def set_policy(
    register: Register,
    *,
    by: str,
    name: str,
    value: str,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Set one of the kitchen's own figures. An empty value takes it back to what the program starts with.

    Names: accepted_origins ("park,wild-shot"), own_limit_tenths_c, probe_days, chill_limit_tenths_c,
    freezer_limit_tenths_c, tolerance_minutes, reading_minutes, backup_days, unweighed_amber_tenths and
    unweighed_red_tenths (tenths of a per cent), scale_step_grams, hanging_days.<species> ("7-10"),
    category.<by-product> ("3|who said so|2026-11-25"), cost_spread (weight, points or sales value),
    priced_on (our weight or supplier's weight), vat_hundredths, gross_profit_hundredths,
    lock_minutes, price.<product> (pence a kilo it would fetch), points.<product> (tenths of a value point).
    """
    why = clean(reason, "reason", most=500, needed="The kitchen's own figure needs a reason.")
    kept = clean(value, "value", most=300)
    _check(name, kept)

    def decide(work: Work) -> Plan:
        was = look_door.policies(work.connection).get(name, "")
        if was == kept:
            raise Refusal("That is what it is already.", "Change the figure first.", "value")
        if name in _UNWEIGHED:
            _check_amber_before_red(policies_of(work.connection), name, kept)
        return Plan({"name": name, "value": kept, "was": was, "reason": why})

    return perform(register, "policy.set", decide, by=by, happened_at=happened_at, key=key)


def _check_amber_before_red(held: Policies, name: str, value: str) -> None:
    starts = Policies()
    both = {one: getattr(held, one) for one in _UNWEIGHED}
    both[name] = int(value) if value else getattr(starts, name)
    if both[_UNWEIGHED[0]] > both[_UNWEIGHED[1]]:
        raise Refusal("Amber would come after red.", "Red begins where amber has been for a while.", "value")


def _check(name: str, value: str) -> None:
    try:
        if name.startswith(_HANGING):
            species(name.removeprefix(_HANGING))
        elif name.startswith(_CATEGORY):
            by_product(name.removeprefix(_CATEGORY))
        elif name.startswith((_PRICE, _POINTS)):
            if not product(name.partition(".")[2]).is_meat:
                raise Refusal("What is not meat has no price of its own here.", "Choose a cut.", "name")
        elif name not in _SINGLE:
            raise Refusal(f"There is no figure called {name}.", "Choose one from the list.", "name")
        if not name.startswith(_CATEGORY) and not (value.isascii() and "_" not in value):
            raise ValueError  # int() would read these digits; no keyboard at the door writes them
        if value:
            _read(name, value)
    except (ValueError, UnknownFact) as error:
        raise Refusal(f"“{value}” does not fit here.", "Look at the example beside it.", "value") from error


def _read(name: str, value: str) -> object:
    if name.startswith(_HANGING):
        return _days(value)
    if name.startswith(_CATEGORY):
        return _category(value)
    if name.startswith(_PRICE):
        return _pence_a_kilo(value)
    if name.startswith(_POINTS):
        return _tenths_of_a_point(value)
    return _SINGLE[name](value)


def policies_of(connection: Connection) -> Policies:
    """The kitchen's own figures as they stand."""
    kept = {name: value for name, value in look_door.policies(connection).items() if value}
    single = {name: _read(name, value) for name, value in kept.items() if name in _SINGLE}
    return Policies(
        **single,  # type: ignore[arg-type]  # each reader returns its field's type
        hanging_days={
            name.removeprefix(_HANGING): _days(value)
            for name, value in kept.items()
            if name.startswith(_HANGING)
        },
        categories={
            name.removeprefix(_CATEGORY): _category(value)
            for name, value in kept.items()
            if name.startswith(_CATEGORY)
        },
        prices=_by_product(kept, _PRICE),
        points=_by_product(kept, _POINTS),
    )


def _by_product(kept: dict[str, str], prefix: str) -> dict[str, int]:
    return {name.removeprefix(prefix): int(value) for name, value in kept.items() if name.startswith(prefix)}


def scale_step(connection: Connection) -> int:
    """What one tray may read over the balance: the step of this kitchen's scale, grams."""
    return policies_of(connection).scale_step_grams


def policies(register: Register) -> Policies:
    with register.store.reading() as connection:
        return policies_of(connection)
