"""What the rulings about tables read: which animals are in a lot, where it lies, who is on the roster.

Shared by the acts on the block and by its questions; nothing here writes.
"""

from __future__ import annotations

from gametrace.domain.cut_changes import CutChange, kitchen_tree
from gametrace.domain.errors import Refusal
from gametrace.register.lot_facts import LotFacts
from gametrace.store import look_sessions
from gametrace.store.engine import Connection
from gametrace.store.lineage import edges_above


def animals_in(connection: Connection, lot: int) -> frozenset[int]:
    """The animals anything of which is in a lot: an animal itself is in itself."""
    edges = edges_above(connection, [lot])
    children = {edge.child for edge in edges}
    return frozenset({lot, *(edge.parent for edge in edges)} - children)


def table_words(
    connection: Connection, lot: LotFacts, session: str, station: str, cutter: str
) -> dict[str, str]:
    """The keys an entry gets for where and by whom something was cut; none where nothing was said.

    A lot that lies on a table of an open session is cut there. Refuses another table than it lies on.
    """
    laid = look_sessions.where_laid(connection, lot.id)
    if (session or station) and laid is None:
        raise Refusal(
            f"{lot.code} lies on no table of an open session.", "Lay it on its table first.", "station"
        )
    if laid is not None and (session not in ("", laid.session) or station not in ("", laid.station)):
        raise Refusal(
            f"{lot.code} lies on {laid.station} of session {laid.session}.",
            "Go to that table, or lay it on this one first.",
            "station",
        )
    if cutter and not look_sessions.is_on_roster(connection, cutter):
        raise Refusal(f"{cutter[:20]} is not on the roster.", "Choose a code from the list.", "cutter")
    said = {"cutter": cutter} if cutter else {}
    return {"session": laid.session, "station": laid.station, **said} if laid is not None else said


def kitchen_changes(connection: Connection, species: str) -> tuple[CutChange, ...]:
    """The kitchen's own changes to a tree; `by` is the code of the person."""
    return tuple(
        CutChange(
            cut=row.cut,
            reason=row.reason,
            by=row.person,
            name=row.name,
            parent=row.parent,
            synonyms=tuple(row.synonyms.split("\n")) if row.synonyms else (),
            left_out=bool(row.left_out),
        )
        for row in look_sessions.cut_change_rows(connection, species)
    )


def kitchen_name(connection: Connection, species: str, product: str) -> str:
    """What this kitchen calls a cut where it changed the name; '' where it did not."""
    changed = kitchen_changes(connection, species) if species else ()
    if not any(one.cut == product and one.name for one in changed):
        return ""
    found = kitchen_tree(species, changed).find(product)
    return found.name if found else ""
