"""The act that settles a dish's line on the menu: only what every animal in the pot shows is printed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from gametrace.domain.menu_claims import Claim
from gametrace.domain.menu_line import menu_line
from gametrace.register.opening import Register
from gametrace.register.pot import checked_claims, pot_of_lot, refuse_what_the_menu_denies
from gametrace.register.records import Changes
from gametrace.register.servings import dish_of
from gametrace.register.work import Plan, Work, perform


def write_menu_line(
    register: Register,
    *,
    by: str,
    code: str,
    claims: Sequence[Claim],
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Keep what the menu says of a dish. A contradicted claim is refused; one not shown is left off the line.

    Changes.findings says of each claim how it stands.
    """
    wanted = checked_claims(claims)

    def decide(work: Work) -> Plan:
        dish = dish_of(work, code)
        animals = pot_of_lot(work.connection, dish.id)
        refuse_what_the_menu_denies(dish.name, wanted, animals)
        said = menu_line(wanted, animals)
        body = {
            "lot": dish.id,
            "claims": [[ruling.claim.kind, ruling.claim.value] for ruling in said.shown],
            "line": said.text,
        }
        findings = tuple(ruling.finding() for ruling in (*said.shown, *said.left_off))
        return Plan(body, codes=(dish.code,), findings=findings)

    return perform(register, "dish.menu", decide, by=by, happened_at=happened_at, key=key)
