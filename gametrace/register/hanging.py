"""How long what hangs here has hung, against the plan: for every hook at once, and for the question it asks.

The plan itself is the domain's; the kitchen's own days come from its policies. Nothing is written here.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.hanging import HangingPlan, hanging_findings, hanging_plan
from gametrace.register.opening import Register
from gametrace.register.policies import policies_of
from gametrace.store import look_carcasses
from gametrace.store.engine import Connection


def hanging_plans(register: Register, codes: Iterable[str]) -> dict[str, HangingPlan]:
    """The plan of each animal whose day of killing is known, where there is one: made once a kind and age."""
    with register.store.reading() as connection:
        return plans_in(connection, codes)


def plans_in(connection: Connection, codes: Iterable[str]) -> dict[str, HangingPlan]:
    own = policies_of(connection).hanging_days or {}
    made: dict[tuple[str, str], HangingPlan | None] = {}
    found = {}
    for row in look_carcasses.carcass_rows(connection, [lot_id_of(code) for code in codes]):
        kind = (row.species, row.age_class)
        if kind not in made:
            made[kind] = hanging_plan(*kind, own.get(row.species))
        plan = made[kind]
        if plan is not None and row.killed_on:
            found[code_of(row.lot_id)] = plan
    return found


def asked_of_hanging(connection: Connection, lot: int, day: date) -> tuple[Finding, ...]:
    """What an animal's days from the kill ask on that day: a reason, where it hangs past its day."""
    rows = look_carcasses.carcass_rows(connection, [lot])
    if not rows or not rows[0].killed_on:
        return ()
    row = rows[0]
    found = hanging_findings(
        species=row.species,
        age_class=row.age_class,
        days_hung=(day - date.fromisoformat(row.killed_on)).days,
        own_days=(policies_of(connection).hanging_days or {}).get(row.species),
    )
    return tuple(one for one in found if one.severity is Severity.ASK)
