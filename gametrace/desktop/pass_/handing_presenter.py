"""Meat handed over without a dish: past the last gate, once, and its note on paper where it was supplied."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Any
from uuid import uuid4

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.going_in import InRow
from gametrace.desktop.parts.use_by import due_role, due_words, meat_name
from gametrace.desktop.pass_.handing_page import NEW, HandingPage
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text, pounds_text


@dataclass(frozen=True, slots=True)
class Gone:
    """One line of what was handed over."""

    code: str
    to: str
    what: str
    on: date
    is_supply: bool


class HandingPresenter:
    def __init__(self, page: HandingPage, bench: Bench) -> None:
        self.page, self.bench = page, bench
        self._lots: dict[str, Any] = {}
        self._key = uuid4().hex
        page.hand_wanted.connect(self.hand)
        page.out_wanted.connect(self.take_out)
        page.note_wanted.connect(self.print_note)
        page.form.turned.connect(self._turned)

    def refresh(self) -> None:
        issues, supplies = self.bench.ask("issues"), self.bench.ask("supplies")
        gone = [
            *(Gone(one.code, f"{one.sort} {one.charged_to}", _charged(one), one.on, False) for one in issues),
            *(
                Gone(
                    one.code,
                    one.customer.name,
                    _what(one.grams, one.fields[0][1].partition(",")[0]),
                    one.dispatched_on,
                    True,
                )
                for one in supplies
            ),
        ]
        self.page.set_gone(sorted(gone, key=lambda one: one.code, reverse=True))
        self.page.form.set_customers(self.bench.ask("customers"))
        if not self.page.form.day.text():
            self.page.form.day.set_value(self.bench.today())

    def add(self, code: str) -> None:
        """A scan or a pick: past the gate of where it goes, or refused with the reason."""
        if code in self._lots:
            self.page.loud.refuse(f"{meat_name(self._lots[code])}, {code}, is on the list already.")
            self.page.going.show_code(code)
            return
        question = "check_for_business" if self.page.form.is_supply() else "check_for_plate"
        found = self.bench.guarded(
            partial(self.bench.ask, question, code), on_refusal=partial(self._refuse_lot, code)
        )
        if found is None:
            return
        self._lots[code] = found
        self._show_rows()
        self.page.loud.done(f"{meat_name(found)}, {kg_text(found.grams)}, is to go.")
        self.page.going.show_code(code)

    def take_out(self, code: str) -> None:
        self._lots.pop(code, None)
        self.page.loud.hush()
        self._show_rows()

    def _turned(self) -> None:
        self.page.loud.hush()

    def _show_rows(self) -> None:
        today = self.bench.today()
        rows = [
            InRow(
                one.code,
                meat_name(one),
                one.state,
                one.grams,
                f"use by {due_words(one.use_by, today)}" if one.use_by else "",
                due_role(one.use_by, today) or "quiet",
            )
            for one in self._lots.values()
        ]
        self.page.going.set_rows(rows)
        self.page.say_total()

    def _refuse_lot(self, code: str, refusal: Refusal) -> None:
        state = "on hold"
        with suppress(Refusal):
            state = self.bench.ask("lot", code).state
        self.page.loud.refuse(str(refusal), state if state != "ready" else "on hold")

    def hand(self) -> None:
        """Write it down, once a form; a supply prints its note."""
        form = self.page.form
        form.trouble.hide()
        given = self.bench.guarded(self._given, on_refusal=self._refuse)
        if given is None:
            return
        act = "supply_lot" if form.is_supply() else "issue_lot"
        changes = self.bench.attempt(act, on_refusal=self._refuse, key=self._key, **given)
        if changes is None:
            return
        self._key = uuid4().hex
        self._lots.clear()
        self._show_rows()
        form.clear()
        if act == "supply_lot":
            self.page.loud.done(f"Supplied as {', '.join(changes.created)}.")
            self.print_note(changes.code)
        else:
            self.page.loud.done(f"Issued to {given['charged_to']} as {', '.join(changes.created)}.")
        self.refresh()

    def _given(self) -> dict[str, Any]:
        form = self.page.form
        day = form.value("on") or self.bench.today()
        inputs = self.page.going.taken()
        if not inputs:
            raise Refusal("Nothing has been chosen yet.", "Scan what leaves.", "inputs")
        if not form.is_supply():
            return {
                "inputs": inputs,
                "sort": form.to.value(),
                "charged_to": form.value("charged_to"),
                "on": day,
                "purpose": form.value("purpose"),
            }
        return {
            "inputs": inputs,
            "customer": self._customer(),
            "dispatched_on": day,
            "owner_before": form.value("owner_before"),
            "owner_after": form.value("owner_after"),
        }

    def _customer(self) -> str:
        """The one chosen, or a new one added first: it stays chosen whatever else is refused."""
        form = self.page.form
        chosen = str(form.customers.value())
        if chosen != NEW:
            return chosen
        changes = self.bench.attempt("add_customer", on_refusal=self._refuse, **form.new_customer())
        if changes is None:
            raise Refusal("The customer is not whole yet.", "Mend what is marked.", "sort")
        form.set_customers(self.bench.ask("customers"))
        form.customers.set_value(changes.code)
        form.set_customers(self.bench.ask("customers"))
        for name in form.new_customer():
            form.fields[name].inner.clear()
        return str(changes.code)

    def _refuse(self, refusal: Refusal) -> None:
        name = {"dispatched_on": "on"}.get(refusal.field, refusal.field)
        if name in self.page.form.fields:
            self.page.form.refuse(Refusal(refusal.sentence, refusal.what_to_do, name))
        else:
            self.page.loud.refuse(str(refusal))

    def print_note(self, code: str) -> None:
        note = self.bench.guarded(partial(self.bench.ask, "supply_note", code))
        if note is None:
            return
        draw = partial(_drawn, note, self.bench.ask("larder"), self.bench.now())
        self.bench.to_paper(draw, f"supply-note-{note.reference}.pdf", "The supply note is kept as")


def _charged(issue: Any) -> str:
    """What a class or restaurant had and what its code is charged for it."""
    what = _what(issue.grams, issue.name)
    return what if issue.pence is None else f"{what}, {pounds_text(issue.pence)}"


def _what(grams: int, name: str) -> str:
    return f"{kg_text(grams)} {name}"


def _drawn(note: Any, larder: Any, at: Any) -> bytes:
    from gametrace.documents.supply_note import supply_note_pdf

    return supply_note_pdf(note, larder, at)
