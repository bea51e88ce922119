"""What a dish at work asks for: a cook too short, a cooling not finished, plates of a day gone by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.register.cooking_records import COOLING, records_of, unanswered_stop
from gametrace.register.records import Duty
from gametrace.register.servings import portions_gone
from gametrace.store import look_lots
from gametrace.store.engine import Connection


def pass_duties(connection: Connection, dishes: Sequence[Any], today: date) -> Iterator[Duty]:
    """One sentence a dish and a matter; each leads to the dish's own page."""
    made = look_lots.dish_details(connection, [row.id for row in dishes])
    for row in dishes:
        code = code_of(row.id)
        named = f"{code} {row.name}"
        records = records_of(connection, row.id, {})
        here = made[row.id].portions - portions_gone(connection, row.id)
        if here and (why := unanswered_stop(records)):
            yield Duty("now", f"{named} may not be served: {why}", "pass", code, "To the dish")
        cooled = [one for one in records if one.sort == COOLING][-1:]
        if here and any(one.code == "cooling-under-way" for last in cooled for one in last.findings):
            yield Duty("now", f"{named} is still cooling: measure it again.", "pass", code, "To the dish")
        if here and date.fromisoformat(made[row.id].on_day) < today:
            words = f"{here} portion{'' if here == 1 else 's'}"
            sentence = f"{named}: {words} neither served nor written down as left over."
            yield Duty("today", sentence, "pass", code, "To the dish")
