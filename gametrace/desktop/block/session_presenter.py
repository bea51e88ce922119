"""Sessions: begins, shows and closes them, lays lots on their tables, keeps the roster.

`BlockPresenter` leads between the pages; this one knows which session and which table are in hand.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property, partial
from typing import TYPE_CHECKING, Any
from uuid import uuid4

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.block.laying import LayingPage
from gametrace.desktop.block.session_strip import TableFace
from gametrace.desktop.parts.days import day_text, weekday_text
from gametrace.domain.errors import Refusal

if TYPE_CHECKING:
    from gametrace.desktop.block.session_page import SessionPage


class SessionPresenter(QObject):
    """`view` is the open session in hand, or None. `laid(code)` is called once a lot lies on its table."""

    def __init__(
        self,
        laying: LayingPage,
        bench: Bench,
        make_page: Callable[[], SessionPage],
        laid: Callable[[str], None],
    ) -> None:
        super().__init__(laying)
        self.laying, self.bench, self._make_page, self._laid = laying, bench, make_page, laid
        self._has_page = False
        self.view: Any = None
        self.wanted_table = ""  # the free table that was pressed, for what is chosen next
        self._code = ""
        self.laying_code = ""
        laying.lay_wanted.connect(self._lay)

    @cached_property
    def page(self) -> SessionPage:
        """The page of sessions, made when it is first wanted."""
        page = self._make_page()
        self._has_page = True
        page.begin.wanted.connect(self._begin)
        page.roster.add_wanted.connect(self._add_students)
        page.roster.forget_wanted.connect(self._forget_student)
        page.now.close_wanted.connect(self._close)
        page.now.other_wanted.connect(self.take_up)
        page.now.trace_wanted.connect(partial(self.bench.go, "trace"))
        return page

    # -- what is open -------------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Read the sessions anew; the one in hand stays in hand while it is open."""
        found = self.bench.ask("open_sessions")
        codes = [one.code for one in found]
        if self._code not in codes:
            self._code = codes[0] if codes else ""
        was_open = self.view is not None
        self.view = self.bench.ask("session", self._code) if self._code else None
        if not self._has_page:
            return
        if was_open != (self.view is not None):
            self.page.show_now(not was_open)
        self.page.roster_key.setVisible(self.view is not None)
        self._show(found)

    def show_page(self) -> None:
        """The open session, or where one is begun."""
        self.page.show_now(self.view is not None)
        self.refresh()

    def _show(self, found: Any) -> None:
        page = self.page
        page.roster.set_roster(self.bench.ask("roster"))
        tutors = [one for one in self.bench.ask("people") if one.role == "tutor" and one.is_active]
        page.begin.tutor.set_choices([(one.code, f"{one.initials}, {one.name}") for one in tutors])
        page.now.set_others([(one.code, _short(one)) for one in found if one.code != self._code])
        if self.view is None:
            return
        one = self.view.session
        told = [weekday_text(one.on), f"led by {one.tutor}"]
        if one.on < self.bench.today():
            told.append("left open since then")
        title = f"Session {one.code}" + (f", {one.group}" if one.group else "")
        page.now.show_session(title, " · ".join(told), self.faces(), self.view.cuts)

    def take_up(self, code: str) -> None:
        """Another open session is the one in hand."""
        self._code = code
        self.refresh()

    def faces(self) -> list[TableFace]:
        return [_face(station) for station in self.view.stations] if self.view is not None else []

    def table_of(self, code: str) -> str:
        """The table of the session in hand on which a lot lies; ''."""
        for station in self.view.stations if self.view is not None else ():
            if any(lot.view.lot.code == code for lot in station.lots):
                return str(station.name)
        return ""

    def at_work(self, table: str) -> str:
        """The code of what is being cut at a table; '' where it is free."""
        face = next((one for one in self.faces() if one.name == table), None)
        return face.code if face is not None else ""

    def cutters(self) -> list[tuple[str, str]]:
        """The roster for the box of who cuts, the session's own group first."""
        group = self.view.session.group if self.view is not None else ""
        students = sorted(self.bench.ask("roster"), key=lambda one: (one.group != group, one.code))
        return [(one.code, f"{one.code} {one.name}".strip()) for one in students]

    # -- acts ---------------------------------------------------------------------------------------------

    def _begin(self) -> None:
        sheet = self.page.begin
        sheet.clear_refusals()
        given = self.bench.guarded(self._given, on_refusal=self._refuse_begin)
        if given is None:
            return
        changes = self.bench.attempt("open_session", on_refusal=self._refuse_begin, key=uuid4().hex, **given)
        if changes is not None:
            sheet.group.clear()
            self.take_up(changes.code)
            self.page.show_now(True)
            self.page.now.lay.setFocus()

    def _given(self) -> dict[str, Any]:
        sheet = self.page.begin
        count = sheet.tables.value()
        if count is None:
            raise Refusal("How many tables are there?", "Write a number.", "stations")
        return {
            "group": sheet.group.text(),
            "tutor": sheet.tutor.value(),
            "stations": [f"table {at}" for at in range(1, count + 1)],
            "on": sheet.on.value(),
        }

    def _refuse_begin(self, refusal: Refusal) -> None:
        self.page.begin.refuse(refusal.field, str(refusal))

    def _close(self, reason: str) -> None:
        done = self.bench.attempt(
            "close_session",
            on_refusal=self._refuse_close,
            said=f"Session {self._code} is closed.",
            session=self._code,
            reason=reason,
            key=uuid4().hex,
        )
        if done is not None:
            self.page.now.done()

    def _refuse_close(self, refusal: Refusal) -> None:
        self.page.now.refuse(str(refusal))

    def ask_table(self, code: str, what: str) -> None:
        """Ask on which table a lot goes; where a free one was pressed before, it goes there at once."""
        self.laying_code = code
        faces = self.faces()
        free = next((face.name for face in faces if not face.code), faces[0].name)
        self.laying.begin(what, faces, self.wanted_table or free)
        if self.wanted_table:
            self._lay(self.wanted_table, "")

    def _lay(self, table: str, reason: str) -> None:
        code = self.laying_code
        done = self.bench.attempt(
            "lay_on_table",
            on_refusal=partial(self._refuse_laying, table),
            session=self._code,
            station=table,
            code=code,
            reason=reason,
            key=uuid4().hex,
        )
        if done is not None:
            self.wanted_table = ""
            self._laid(code)

    def _refuse_laying(self, table: str, refusal: Refusal) -> None:
        if refusal.field == "reason":
            self.laying.ask_reason(table, str(refusal))
        else:
            self.laying.refuse(str(refusal))

    def _add_students(self, typed: str) -> None:
        from gametrace.desktop.block.roster_sheet import names_from

        sheet, names = self.page.roster, names_from(typed)
        if not names:
            sheet.refuse("names", "Write how many codes, or names with commas between.")
            return
        changes = self.bench.attempt(
            "add_to_roster",
            on_refusal=self._refuse_roster,
            group=self.page.begin.group.text() or (self.view.session.group if self.view else ""),
            names=names,
            key=uuid4().hex,
        )
        if changes is not None:
            sheet.done()
            first, last = changes.created[0], changes.created[-1]
            self.bench.done.emit(f"Given out: {first if first == last else f'{first} to {last}'}.")

    def _forget_student(self, code: str, reason: str) -> None:
        done = self.bench.attempt(
            "forget_student",
            on_refusal=self._refuse_roster,
            said=f"{code} is off the roster, and any name with it.",
            student=code,
            reason=reason,
            key=uuid4().hex,
        )
        if done is not None:
            self.page.roster.done()

    def _refuse_roster(self, refusal: Refusal) -> None:
        self.page.roster.refuse(refusal.field, str(refusal))


def _short(one: Any) -> str:
    return f"{one.code} {one.group or day_text(one.on)}"


def _face(station: Any) -> TableFace:
    """A table as its tab shows it: what came last and is not closed."""
    held = station.at_work
    if held is None:
        return TableFace(station.name)
    balance = held.view.balance
    return TableFace(
        name=station.name,
        code=held.view.lot.code,
        what=held.view.lot.name,
        grams_in=balance.grams_in,
        parts=balance.parts,
        left=balance.left_grams,
        level=balance.level,
        animals=len(station.animals),
    )
