"""Questions about the block: a lot with its balance, sessions and their tables, the roster, own cut names."""

from __future__ import annotations

from datetime import date
from typing import Any

from gametrace.domain.break_down import break_down
from gametrace.domain.codes import code_of
from gametrace.domain.cut_changes import CutChange, kitchen_tree
from gametrace.domain.errors import Refusal
from gametrace.facts.cut_tree import Cut
from gametrace.register.assembling import Assembler
from gametrace.register.block_records import (
    AnimalThere,
    BlockView,
    CutLine,
    CuttingSession,
    OnTable,
    SessionView,
    StationView,
    Student,
    TrayLine,
)
from gametrace.register.clock import instant
from gametrace.register.lot_facts import LotFacts, lot_facts
from gametrace.register.opening import Register
from gametrace.register.policies import Policies, policies_of
from gametrace.register.tables_kept import animals_in, kitchen_changes
from gametrace.store import look_lots, look_sessions
from gametrace.store.engine import Connection


def block_view(register: Register, code: str) -> BlockView:
    """One lot on the block: what went in, every tray so far, what is still unweighed."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        asked = lot_facts(connection, code, register.today())
        return _view(read, asked, policies_of(connection))


def _view(read: Assembler, asked: LotFacts, own: Policies) -> BlockView:
    rows = look_lots.children_rows(read.connection, asked.id)
    cut = look_sessions.cutting_rows(read.connection, [row.id for row in rows])
    trays = tuple(
        TrayLine(
            code=tray.code,
            name=tray.name,
            kind=tray.kind,
            grams=row.given,
            at=tray.made_at,
            by=tray.made_by,
            product=row.product,
            side=row.side,
            station=cut[row.id].station if row.id in cut else "",
            cutter=cut[row.id].cutter if row.id in cut else "",
        )
        for tray, row in zip(read.lots(rows), rows, strict=True)
    )
    is_closed, is_begun = asked.status == "closed", asked.status != "whole"
    laid = look_sessions.where_laid(read.connection, asked.id)
    return BlockView(
        lot=read.lots_by_id([asked.id])[asked.id],
        is_closed=is_closed,
        grams_in=asked.grams_in,
        trays=trays,
        unweighed_grams=asked.grams_left,
        unaccounted_grams=asked.unaccounted,
        balance=break_down(
            asked.grams_in,
            [(tray.kind, tray.product, tray.grams) for tray in trays],
            asked.unaccounted if is_closed else asked.grams_left,
            amber_tenths=own.unweighed_amber_tenths if is_begun else 1000,  # not begun, nothing is missing
            red_tenths=own.unweighed_red_tenths if is_begun else 1000,
        ),
        product=asked.product,
        side=asked.side,
        session=laid.session if laid else "",
        station=laid.station if laid else "",
    )


# -- sessions ---------------------------------------------------------------------------------------------


def open_sessions(register: Register) -> tuple[CuttingSession, ...]:
    """Sessions not closed yet, today's or left open overnight; the newest first."""
    return _sessions(register, open_only=True)


def sessions(register: Register) -> tuple[CuttingSession, ...]:
    """Every session, open ones first, then the newest."""
    return _sessions(register, open_only=False)


def _sessions(register: Register, *, open_only: bool) -> tuple[CuttingSession, ...]:
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        found = look_sessions.session_rows(connection, open_only=open_only)
        return tuple(_session(read, row) for row in found)


def _session(read: Assembler, row: Any) -> CuttingSession:
    return CuttingSession(
        code=row.code,
        on=date.fromisoformat(row.on_day),
        group=row.group_code,
        tutor=read.initials(row.tutor),
        stations=tuple(one.name for one in look_sessions.station_rows(read.connection, row.code)),
        opened_at=instant(row.opened_at),
        closed_at=instant(row.closed_at) if row.closed_at else None,
        reason=row.reason,
    )


def session(register: Register, code: str) -> SessionView:
    """A session with what lies on each table, the balance of each lot, and who cut what."""
    with register.store.reading() as connection:
        row = look_sessions.session_row(connection, code)
        if row is None:
            raise Refusal(f"There is no session {code[:20]}.", "Choose one from the list.", "session")
        read, today = Assembler(connection, register.today()), register.today()
        own = policies_of(connection)
        there: dict[str, list[OnTable]] = {}
        for laid in look_sessions.laid_rows(connection, row.code):
            view = _view(read, lot_facts(connection, code_of(laid.lot_id), today), own)
            animals = _animals(connection, read, laid.lot_id)
            there.setdefault(laid.station, []).append(OnTable(view, animals, laid.reason, laid.closed_by))
        said = _session(read, row)
        return SessionView(
            session=said,
            stations=tuple(StationView(name, tuple(there.get(name, ()))) for name in said.stations),
            cuts=tuple(_cut(one) for one in look_sessions.cut_in(connection, row.code)),
        )


def _animals(connection: Connection, read: Assembler, lot: int) -> tuple[AnimalThere, ...]:
    found = read.lots_by_id(animals_in(connection, lot))
    return tuple(AnimalThere(one.code, one.name) for one in found.values())


def _cut(row: Any) -> CutLine:
    return CutLine(
        cutter=row.cutter,
        name=row.name,
        code=code_of(row.id),
        kind=row.kind,
        product=row.product,
        side=row.side,
        grams=row.given,
        out_of=code_of(row.parent),
        station=row.station,
        at=instant(row.made_at),
    )


def roster(register: Register, *, active_only: bool = True) -> tuple[Student, ...]:
    """The students by code. Names stand apart from everything they cut."""
    with register.store.reading() as connection:
        cards = Assembler(connection, register.today()).cards
        return tuple(
            Student(row.code, cards.get(row.code, {}).get("name", ""), row.group_code, bool(row.is_active))
            for row in look_sessions.student_rows(connection)
            if row.is_active or not active_only
        )


# -- the cut tree -----------------------------------------------------------------------------------------


def cut_tree(register: Register, species: str) -> Cut:
    """How this kitchen takes an animal of that kind apart: the facts with its own changes laid over."""
    with register.store.reading() as connection:
        return kitchen_tree(species, kitchen_changes(connection, species))


def cut_changes(register: Register, species: str) -> tuple[CutChange, ...]:
    """The kitchen's own changes that hold for a kind; `by` is the initials."""
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        return tuple(
            CutChange(
                cut=one.cut,
                reason=one.reason,
                by=read.initials(one.by),
                name=one.name,
                parent=one.parent,
                synonyms=one.synonyms,
                left_out=one.left_out,
            )
            for one in kitchen_changes(connection, species)
        )
