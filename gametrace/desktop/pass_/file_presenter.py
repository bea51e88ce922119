"""The page of a dish at work: read, its forms written down, its menu held against the records."""

from __future__ import annotations

from functools import partial
from typing import Any
from uuid import uuid4

from gametrace.desktop.bench import Bench
from gametrace.desktop.pass_.file_page import FilePage
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Severity
from gametrace.facts.species import species as species_called

_SAID = {
    "cook": "Written down: cooked.",
    "hold": "Written down: kept hot.",
    "serve": "Written down: served.",
    "cool": "Written down: cooled.",
    "left": "Written down: left over.",
    "reheat": "Written down: reheated.",
    "besides": "Written down. Type the next, or go on.",
    "menu": "The line is kept.",
    "change": "Put right.",
}


class FilePresenter:
    """Holds the code of the dish in sight; '' before one was opened."""

    def __init__(self, page: FilePage, bench: Bench) -> None:
        self.page, self.bench = page, bench
        self._key = uuid4().hex
        page.wanted.connect(self.write)
        page.menu_changed.connect(self.check_menu)

    def open(self, code: str) -> bool:
        """Show this dish, its forms empty. False where it is none, and the reason is said."""
        file = self.bench.guarded(partial(self.bench.ask, "dish_file", code))
        if file is None:
            return False
        for form in self.page.forms.values():
            form.clear()
        self.page.loud.hush()
        self._show(file)
        self.page.forms["menu"].set_claims(file.claims)
        self.page.show_form(self._next_form(file))
        return True

    def refresh(self) -> None:
        if self.page.code:
            self._show(self.bench.ask("dish_file", self.page.code))

    def _show(self, file: Any) -> None:
        self.page.show_file(file)
        shelves = [
            (place.code, place.name)
            for place in self.bench.ask("free_places")
            if place.kind == "shelf" and place.sort == "chill"
        ]
        self.page.forms["left"].set_shelves(shelves)
        self.page.forms["change"].set_inputs(
            [(one.lot.code, f"{one.lot.name} {one.lot.code}") for one in file.inputs]
        )
        check = self.bench.ask("menu_check", file.lot.code, ())
        kinds = dict.fromkeys(one.species for one in check.animals if one.species)
        self.page.forms["menu"].set_species([(key, species_called(key).name) for key in kinds])
        if self.page.form() == "menu":
            self.check_menu()

    def _next_form(self, file: Any) -> str:
        """What is usually written down next."""
        sorts = {one.sort for one in file.records}
        if any(one.is_cooked for one in file.inputs) and "reheat" not in sorts:
            return "reheat"
        if not sorts & {"cooking", "reheat"}:
            return "cook"
        if file.here and "cooling" in sorts:
            return "left"
        return "serve" if file.here else "menu"

    def scanned(self, code: str) -> None:
        """Meat scanned over a dish's page went into it too."""
        self.page.show_form("change")
        self.page.forms["change"].set_code(code)

    def write(self, name: str) -> None:
        """What stands in the form, written down once: a second Enter finds it there already."""
        form = self.page.forms[name]
        form.trouble.hide()
        given = self.bench.guarded(form.given, on_refusal=form.refuse)
        if given is None:
            return
        changes = self.bench.attempt(
            form.act_name, on_refusal=form.refuse, code=self.page.code, key=self._key, **given
        )
        if changes is None:
            return
        self._key = uuid4().hex
        self._say(name, changes)
        if name != "menu":
            form.clear()
        form.setFocus()

    def _say(self, name: str, changes: Any) -> None:
        self.page.loud.done(_SAID[name])
        said = [one for one in changes.findings if one.severity is not Severity.NOTE]
        self.page.findings.set_findings([] if name == "menu" else said or changes.findings)
        if name == "left" and changes.created:
            self.page.loud.done(f"{_SAID[name]} Its number is {changes.code}.")

    def check_menu(self) -> None:
        form = self.page.forms["menu"]
        if not self.page.code:
            return
        check = self.bench.guarded(
            partial(self.bench.ask, "menu_check", self.page.code, form.claims()), on_refusal=self._unreadable
        )
        if check is not None:
            form.show_check(check)

    def _unreadable(self, refusal: Refusal) -> None:
        self.page.forms["menu"].refuse(refusal)
