"""Acts of a cutting session: open it, lay animals on its tables, close it. Weighing is the block's.

A session has a day, a group, a tutor and tables. It may stay open overnight: it is what the register says it
is, so it resumes as it was left. One animal lies on a table; a second needs a reason.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from gametrace.domain.break_down import strangers
from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.register.block import refuse_in_skin
from gametrace.register.lot_facts import LotFacts, refuse_for_block
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.tables_kept import animals_in
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_sessions, rows
from gametrace.store.engine import Connection

MOST_STATIONS = 20


def open_session(
    register: Register,
    *,
    by: str,
    group: str = "",
    tutor: str = "",
    stations: Sequence[str] = ("table 1", "table 2"),
    on: date | None = None,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Begin a cutting session. The tutor is the one at the keyboard unless another is named.

    Changes.code is its code, 'B001'.
    """
    group_words = clean(group, "group", most=60)
    names = [clean(name, "stations", most=40, needed="A table needs a name.") for name in stations]
    if not 1 <= len(names) <= MOST_STATIONS:
        raise Refusal(f"A session has between 1 and {MOST_STATIONS} tables.", "Count them again.", "stations")
    if len({name.casefold() for name in names}) < len(names):
        raise Refusal("Two tables have one name.", "Give each its own.", "stations")

    def decide(work: Work) -> Plan:
        teaches = tutor or by
        if rows.active_role(work.connection, teaches) != "tutor":
            raise Refusal("A session is led by a tutor.", "Choose the tutor who is in the room.", "tutor")
        day = on or work.day
        if day > work.day:
            raise Refusal("That day is still to come.", "Open the session when it begins.", "on")
        code = rows.next_code(work.connection, "session", "B")
        body = {
            "session": code,
            "on": day.isoformat(),
            "group": group_words,
            "tutor": teaches,
            "stations": names,
        }
        return Plan(body, created=(code,))

    return perform(register, "session.opened", decide, by=by, happened_at=happened_at, key=key)


def lay_on_table(
    register: Register,
    *,
    by: str,
    session: str,
    station: str,
    code: str,
    reason: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Lay a carcass, a side or a part on a table of an open session; laid again, it moves there.

    Where another animal lies on that table, a reason is asked: trim of both would soon be one.
    """
    why = clean(reason, "reason", most=500)

    def decide(work: Work) -> Plan:
        _open_session(work.connection, session)
        if station not in _stations(work.connection, session):
            raise Refusal(
                f"There is no “{station[:40]}” in {session}.", "Choose one of its tables.", "station"
            )
        lot = work.lot(code)
        refuse_for_block(lot)
        refuse_in_skin(work, lot)
        _refuse_elsewhere(work.connection, lot, session, station)
        others = _others_there(work.connection, lot, session, station)
        if others and not why:
            raise Refusal(
                f"On {station} lies {', '.join(others)}: {lot.code} would be a second animal there.",
                "Take another table, or say why both lie on one.",
                "reason",
            )
        body = {
            "session": session,
            "station": station,
            "lot": lot.id,
            "reason": why if others else "",
            "beside": list(others),
        }
        return Plan(body, codes=(lot.code,))

    return perform(register, "session.laid", decide, by=by, happened_at=happened_at, key=key)


def close_session(
    register: Register,
    *,
    by: str,
    session: str,
    reason: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """End a session. What lies open on a table needs a reason; it stays on the block, weighed so far."""
    why = clean(reason, "reason", most=500)

    def decide(work: Work) -> Plan:
        _open_session(work.connection, session)
        unfinished = [one for one in look_sessions.laid_rows(work.connection, session) if _is_unfinished(one)]
        if unfinished and not why:
            told = ", ".join(
                f"{code_of(one.lot_id)} on {one.station} with {kg_to_the_gram(one.grams_left)}"
                for one in unfinished
            )
            raise Refusal(
                f"Not all is weighed: {told}.",
                "Weigh and close it, leave the session open, or say why it ends so.",
                "reason",
            )
        body: dict[str, Any] = {
            "session": session,
            "reason": why,
            "unfinished": [one.lot_id for one in unfinished],
        }
        return Plan(body)

    return perform(register, "session.closed", decide, by=by, happened_at=happened_at, key=key)


def _open_session(connection: Connection, session: str) -> None:
    row = look_sessions.session_row(connection, session)
    if row is None:
        raise Refusal(f"There is no session {session[:20]}.", "Choose one from the list.", "session")
    if row.closed_at is not None:
        raise Refusal(f"Session {session} is closed.", "Open a new one.", "session")


def _stations(connection: Connection, session: str) -> tuple[str, ...]:
    return tuple(row.name for row in look_sessions.station_rows(connection, session))


def _is_unfinished(laid: Any) -> bool:
    return bool(laid.status != "closed" and laid.grams_left > 0)


def _refuse_elsewhere(connection: Connection, lot: LotFacts, session: str, station: str) -> None:
    laid = look_sessions.where_laid(connection, lot.id)
    if laid is None:
        return
    if laid.session != session:
        raise Refusal(
            f"{lot.code} lies on {laid.station} of session {laid.session}, which is still open.",
            "Close that session first.",
            "session",
        )
    if laid.station == station:
        raise Refusal(f"{lot.code} lies on {station} already.", "Go on with it there.", "station")


def _others_there(connection: Connection, lot: LotFacts, session: str, station: str) -> tuple[str, ...]:
    """The codes of other animals on that table, where this lot would bring a stranger to them."""
    here: set[int] = set()
    for laid in look_sessions.laid_rows(connection, session):
        if laid.station == station and laid.lot_id != lot.id and _is_unfinished(laid):
            here |= animals_in(connection, laid.lot_id)
    coming = animals_in(connection, lot.id)
    if not strangers(here, coming):
        return ()
    return tuple(code_of(one) for one in sorted(here))
