"""Mince from several lots: takes codes in past the last gate, and makes the mix once."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any
from uuid import uuid4

from gametrace.desktop.bench import Bench
from gametrace.desktop.block.dating import date_words, shelf_choices
from gametrace.desktop.block.mixing import MixingPage
from gametrace.desktop.block.trays import Tray
from gametrace.desktop.parts.going_in import InRow
from gametrace.desktop.parts.use_by import due_role, due_words, meat_name
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text


class MixingPresenter:
    """`made(code)` is called with the code of a mix just made."""

    def __init__(self, page: MixingPage, bench: Bench, made: Callable[[str], None]) -> None:
        self.page, self.bench, self._made = page, bench, made
        self._lots: dict[str, Any] = {}
        self._key = uuid4().hex
        page.add_wanted.connect(self.add)
        page.out_wanted.connect(self.take_out)
        page.make_wanted.connect(self.make)
        page.changed.connect(self._say_date)
        page.ingredient.wanted.connect(self.add_ingredient)
        page.ingredient.changed.connect(self._say_asked)

    def refresh(self) -> None:
        found = [
            one
            for one in self.bench.ask("stock")
            if one.kind in ("part", "mix") and one.code not in self._lots
        ]
        found.sort(key=lambda one: not one.name.startswith("trim"))
        self.page.set_stock([Tray(one.code, meat_name(one), one.grams, state=one.state) for one in found])
        self.page.place.set_places(shelf_choices(self.bench, self.page.packed.value()))
        self._say_date()

    def add(self, code: str) -> None:
        """Put a lot in, unless the last gate refuses it; says so where it is in already."""
        if code in self._lots:
            self.page.loud.refuse(f"{self._lots[code].name} {code} is in already.")
            self.page.going_in.show_code(code)
            return
        found = self.bench.guarded(partial(self.bench.ask, "check_for_plate", code), on_refusal=self._refuse)
        if found is None:
            return
        self._lots[code] = found
        self.page.loud.done(f"{found.name}, {kg_text(found.grams)}, goes in.")
        self._show_rows()

    def take_out(self, code: str) -> None:
        self._lots.pop(code, None)
        self.page.loud.hush()
        self._show_rows()

    def add_ingredient(self) -> None:
        """One more thing besides meat, unless it may not go in; what is missing of its packet is asked."""
        face = self.page.ingredient
        try:
            other = face.other(self.bench.acts.Other)
            found = self.bench.ask("check_ingredient", other)
        except Refusal as refusal:
            face.refuse(refusal.field, str(refusal))
            return
        self.page.besides.set_others((*self.page.besides.others(), other))
        self.page.end_ingredient()
        asks = [f"{one.sentence} {one.what_to_do}" for one in found if one.severity != "note"]
        if asks:
            self.page.loud.refuse(" ".join(asks), "on hold")
        else:
            self.page.loud.done(f"{other.name}, {kg_text(other.grams)}, goes in.")

    def _say_asked(self) -> None:
        """What its name suggests and the packet has not been read for, while it is typed."""
        face = self.page.ingredient
        try:
            found = self.bench.ask("check_ingredient", face.other(self.bench.acts.Other))
        except Refusal:
            face.say_asked("")
            return
        face.say_asked(" ".join(one.sentence for one in found if one.severity != "note"))

    def make(self) -> None:
        page = self.page
        taken = self.bench.guarded(page.going_in.taken, on_refusal=self._refuse)
        if taken is None:
            return
        try:
            grams = page.grams.value()
        except Refusal as refusal:
            self._refuse(refusal)
            return
        changes = self.bench.attempt(
            "make_mix",
            on_refusal=self._refuse,
            product=page.product.value(),
            inputs=taken,
            others=page.besides.others(),
            grams=grams,
            place=page.place.value(),
            pack_state=page.packed.value(),
            key=self._key,
        )
        if changes is None:
            return
        self._key = uuid4().hex
        self._lots.clear()
        page.clear()
        self._made(changes.code)

    def _show_rows(self) -> None:
        self.refresh()
        today = self.bench.today()
        self.page.going_in.set_rows(
            [
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
        )

    def _refuse(self, refusal: Refusal) -> None:
        if refusal.field == "grams" and self.page.grams.text().strip():
            self.page.grams_field.refuse(str(refusal))
        else:
            self.page.loud.refuse(str(refusal))

    def _say_date(self) -> None:
        self.page.grams_field.clear_refusal()
        day, rule = date_words(
            self.bench,
            self.page.packed.value(),
            self.page.product.value(),
            list(self._lots.values()),
            [one.use_by for one in self.page.besides.others()],
        )
        self.page.date.say(day)
        self.page.rule.say(rule)
