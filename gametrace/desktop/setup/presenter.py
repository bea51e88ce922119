"""Leads through the first set-up one step at a time, and keeps larder, people, stores and suppliers later."""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.form import Form
from gametrace.domain.errors import Refusal
from gametrace.register.records import Changes

SECTIONS = (
    ("larder", "The larder"),
    ("people", "People"),
    ("stores", "Stores"),
    ("suppliers", "Suppliers"),
    ("figures", "Our own figures"),
    ("backups", "Backups"),
    ("screen", "This screen"),
)
# The guide: section, what it is called there, and the only fields it asks.
GUIDE = (
    ("larder", "Name the larder", ("name", "jurisdiction")),
    ("people", "You, at the keyboard", ("name", "initials", "role")),
    ("stores", "One cold store", ("name", "sort", "rails", "shelves")),
    ("suppliers", "Who brings the first animal", ("name", "address", "route", "origin")),
)


class SetupPresenter:
    """`view` is a SetupView."""

    def __init__(self, view: Any, bench: Bench, books: dict[str, Any]) -> None:
        self._view, self._bench = view, bench
        self._books = books
        self._section = "larder"
        self._was_guiding = False

    # -- reading ----------------------------------------------------------------------------------------

    def refresh(self) -> None:
        larder = self._bench.ask("larder")
        people = [one for one in self._bench.ask("people") if one.is_active]
        places = self._bench.ask("places")
        suppliers = self._bench.ask("suppliers")
        self._show_lists(people, places)
        done = {"larder": larder.name, "people": people, "stores": places, "suppliers": suppliers}
        step = next((at for at, (key, _, _) in enumerate(GUIDE) if not done[key]), None)
        if step is not None:
            self._guide(step)
        else:
            self._all(larder)
        gaps = self._bench.ask("setup_gaps")
        now = step is not None
        self._view.show_waiting([gap.sentence for gap in gaps if not now or gap.when != "now"])

    def _guide(self, step: int) -> None:
        key, words, fields = GUIDE[step]
        self._was_guiding = True
        self._section = key
        self._view.show_guide("Before the first delivery", f"Step {step + 1} of {len(GUIDE)}: {words}")
        self._view.forms[key].ask_only(fields)
        self._view.show_section(key)
        self._view.focus_form(key)

    def _all(self, larder: Any) -> None:
        for form in self._view.forms.values():
            form.ask_all()
        self._view.forms["larder"].set_values(
            {
                "name": larder.name,
                "jurisdiction": larder.jurisdiction,
                "address": larder.address,
                "registration_number": larder.registration_number,
            }
        )
        self._view.show_all("Ready" if self._was_guiding else "Set-up", may_begin=self._was_guiding)
        self._read_book()
        self._view.show_section(self._section)

    def _show_lists(self, people: list, places: tuple) -> None:
        listings = self._view.listings
        listings["people"].show_lines(
            [f"{one.initials}   {one.name}, {one.role}{' · PIN' if one.has_pin else ''}" for one in people]
        )
        with_pin = [(one.code, one.name) for one in people if one.has_pin]
        self._view.pin_away.who.set_choices(with_pin)
        self._view.pin_away.setVisible(bool(with_pin))
        today = self._bench.today()
        old = [(one.code, one.name) for one in self._bench.ask("kept_names") if one.may_go(today)]
        self._view.old_name.who.set_choices(old)
        self._view.old_name.setVisible(bool(old))
        self._view.pin.setVisible(bool(self._bench.person))
        others = [(one.code, one.name) for one in people if one.code != self._bench.person]
        self._view.leaver.who.set_choices(others)
        self._view.leaver.setVisible(bool(others))
        hooks = Counter(place.store for place in places if place.kind == "hook")
        shelves = Counter(place.store for place in places if place.kind == "shelf")
        listings["stores"].show_lines(
            [
                f"{one.name}, {one.sort}: "
                f"{_many(hooks[one.code], 'hook')}, {_many(shelves[one.code], 'shelf')}"
                for one in places
                if one.kind == "store"
            ]
        )

    def show_section(self, key: str) -> None:
        self._section = key
        self._read_book()
        self._view.show_section(key)

    def _read_book(self) -> None:
        """The long sections are read only while they are looked at."""
        if book := self._books.get(self._section):
            book.refresh()

    # -- acting -----------------------------------------------------------------------------------------

    def keep_larder(self) -> None:
        form = self._view.forms["larder"]
        values = {"address": "", "registration_number": "", **form.values()}
        self._do(form, "set_up_larder", "The larder is written down.", **values)

    def enrol(self) -> None:
        form = self._view.forms["people"]
        values = form.values()
        changes = self._do(form, "enrol_person", f"{values['name']} is enrolled.", **values)
        if changes is not None:
            form.clear(keep=("role",))
            if not self._bench.person:
                self._bench.set_person(changes.code)

    def add_store(self) -> None:
        form = self._view.forms["stores"]
        values = form.values()
        given = self._bench.guarded(lambda: parse_places(values), on_refusal=form.refuse)
        if given is None:
            return
        changes = self._do(form, "add_store", f"{values['name']} is there.", **given)
        if changes is not None:
            form.clear(keep=("sort",))

    def add_supplier(self) -> None:
        form = self._view.forms["suppliers"]
        values = form.values()
        changes = self._do(form, "add_supplier", f"{values['name']} is written down.", **values)
        if changes is not None:
            form.clear(keep=("origin",))
            if not self._was_guiding:
                self._books["suppliers"].open(changes.code)

    def forget(self) -> None:
        form = self._view.leaver
        changes = self._do(form, "forget_person", "The name is gone; the work stays.", **form.values())
        if changes is not None:
            form.clear()

    def forget_old_name(self) -> None:
        form = self._view.old_name
        if self._do(form, "forget_card", "The name is gone; the records stay.", **form.values()) is not None:
            form.clear()

    def set_pin(self) -> None:
        form = self._view.pin
        values = form.values()
        if values["pin"] != values["again"]:
            form.refuse(Refusal("The two are not the same.", "Type both again.", "again"))
            return
        changes = self._do(form, "set_pin", "Your PIN is set.", pin=values["pin"])
        if changes is not None:
            form.clear()

    def clear_pin(self) -> None:
        form = self._view.pin_away
        if self._do(form, "clear_pin", "That PIN is gone.", **form.values()) is not None:
            form.clear()

    def begin(self) -> None:
        self._was_guiding = False
        self._bench.go("delivery")

    def _do(self, form: Form, act: str, said: str, **given: Any) -> Changes | None:
        form.clear_refusals()
        return self._bench.attempt(act, on_refusal=form.refuse, said=said, **given)


def parse_places(values: dict[str, str]) -> dict[str, Any]:
    """The store form as typed values: '10, 8' hooks, '3' shelves."""
    counts = [part for part in re.split(r"[,;+ ]+", values["rails"]) if part]
    if not all(re.fullmatch("[0-9]{1,3}", part) for part in counts):
        raise Refusal(
            "Write how many hooks each rail has.", "10 is one rail of ten; 10, 8 are two rails.", "rails"
        )
    shelves = values["shelves"] or "0"
    if not re.fullmatch("[0-9]{1,2}", shelves):
        raise Refusal("Write how many shelves there are.", "For example 3, or nothing.", "shelves")
    return {
        "name": values["name"],
        "sort": values["sort"],
        "rails": [(f"rail {at}", int(count)) for at, count in enumerate(counts, 1)],
        "shelves": [f"shelf {at}" for at in range(1, int(shelves) + 1)],
    }


def _many(count: int, word: str) -> str:
    if count == 0:
        return f"no {'shelves' if word == 'shelf' else word + 's'}"
    plural = "shelves" if word == "shelf" else word + "s"
    return f"{count} {word if count == 1 else plural}"
