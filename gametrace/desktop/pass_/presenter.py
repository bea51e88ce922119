"""The pass at work: packs past the last gate into a dish, the dish made once, meat out with a reason."""

from __future__ import annotations

from collections import Counter
from contextlib import suppress
from functools import partial
from typing import Any
from uuid import uuid4

from gametrace.desktop.bench import Bench
from gametrace.desktop.keeping.asking import Keeping
from gametrace.desktop.labelling import ask_for_labels
from gametrace.desktop.parts.days import weekday_text
from gametrace.desktop.parts.going_in import InRow
from gametrace.desktop.parts.pages import Pages
from gametrace.desktop.parts.use_by import due_role, due_words, meat_name
from gametrace.desktop.pass_.pages import PassView
from gametrace.desktop.pass_.saying import Said, said_of
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text


class PassPresenter:
    """`refresh` gives True where there is anything to show."""

    def __init__(self, view: PassView, bench: Bench) -> None:
        self.view, self.bench = view, bench
        self._lots: dict[str, Any] = {}  # what goes in, as it stood when it was scanned
        self._traces: dict[str, Any] = {}
        self._key = uuid4().hex
        self._bin_key = uuid4().hex
        self._workers: dict[str, Any] = {}  # of the pages that are made when first shown
        self._picks_for = "dish"  # what the stock is chosen for
        view.page_wanted.connect(self.show_page)
        view.made_page.connect(self._work)
        view.dish.make_wanted.connect(self.make)
        view.dish.stock_wanted.connect(partial(self.choose_for, "dish"))
        view.dish.out_wanted.connect(self.take_out)
        view.dish.changed.connect(self._say)
        self.keeping = Keeping(view.stock.keeping, bench)
        view.stock.keep_wanted.connect(self.keeping.open)
        view.stock.keeping.wanted.connect(partial(self.keeping.do, self._kept))
        view.made.next_wanted.connect(self.next_dish)
        view.made.open_wanted.connect(self.open_dish)
        view.dishes.open_wanted.connect(self.open_dish)
        view.stock.add_wanted.connect(self._picked)
        view.stock.bin_wanted.connect(self.bin)
        for priced in (view.made, view.dishes):
            priced.price_wanted.connect(partial(bench.go, "costs"))
        for page in (view.made, view.stock, view.dishes):
            page.trace_wanted.connect(partial(bench.go, "trace"))
            page.label_wanted.connect(self._print)

    def refresh(self) -> bool:
        """Read the lists anew; nothing typed is touched."""
        stock = self.bench.ask("stock")
        dishes = Pages(self.bench.ask("dish_count"), self._dishes)
        self.view.stock.set_stock(stock)
        self.view.dishes.set_dishes(dishes)
        self._traces.clear()
        if not self.view.dish.day.inner.text():
            self.view.dish.day.inner.set_value(self.bench.today())
        self._say_stock(stock)
        self._say()
        for worker in self._workers.values():
            worker.refresh()
        if stock or dishes or self.bench.ask("supplies", 1):
            return True
        return self._may_hand_over()

    def _may_hand_over(self) -> bool:
        """Nothing is packed, but a whole carcass may go to another business: the page for that is shown."""
        if not self.bench.ask("block_candidates"):
            return False
        if self.view.page() == "dish":
            self.view.show_page("handing")
        return True

    def _dishes(self, first: int, many: int) -> Any:
        return self.bench.ask("dishes", limit=many, first=first)

    def _say_stock(self, stock: Any) -> None:
        today = self.bench.today()
        roles = Counter(due_role(one.use_by, today) for one in stock)
        words = [f"{len(stock)} in stock" if stock else "Nothing is packed: packs come from the block"]
        if roles["amber"]:
            words.append(f"{roles['amber']} due within 2 days")
        if roles["plum"]:
            words.append(
                f"{roles['plum']} past its date" if roles["plum"] == 1 else f"{roles['plum']} past their date"
            )
        self.view.words.say(" · ".join(words))

    def _work(self, name: str) -> None:
        """A page was made: whoever works it comes with it."""
        page = self.view.page_of(name)
        if name == "file":
            from gametrace.desktop.pass_.file_presenter import FilePresenter

            self._workers[name] = FilePresenter(page, self.bench)
            page.price_wanted.connect(partial(self.bench.go, "costs"))
            page.back_wanted.connect(partial(self.show_page, "dishes"))
            page.trace_wanted.connect(partial(self.bench.go, "trace"))
            page.story_wanted.connect(partial(self.bench.go, "larder"))
            page.label_wanted.connect(partial(self._print, page))
        elif name == "services":
            from gametrace.desktop.pass_.services_presenter import ServicesPresenter

            self._workers[name] = ServicesPresenter(page, self.bench)
            page.open_wanted.connect(self.open_dish)
        else:
            from gametrace.desktop.pass_.handing_presenter import HandingPresenter

            self._workers[name] = HandingPresenter(page, self.bench)
            page.stock_wanted.connect(partial(self.choose_for, "handing"))
        self._workers[name].refresh()

    def open_dish(self, code: str) -> None:
        """One dish with its records."""
        self.view.page_of("file")
        if self._workers["file"].open(code):
            self.show_page("file")  # the hand is on the form that usually comes next

    def opens(self, code: str) -> bool:
        """Whether this was a dish; then it is open now."""
        if is_dish := self._is_dish(code):
            self.open_dish(code)
        return is_dish

    def choose_for(self, page: str) -> None:
        """To the stock, for what goes into the dish or for what leaves."""
        self.show_page("stock")
        self._picks_for = page
        self.view.stock.say_for(page)

    def _picked(self, code: str) -> None:
        (self.hand_over if self._picks_for == "handing" else self.add)(code)

    def hand_over(self, code: str) -> None:
        self.show_page("handing")
        self._workers["handing"].add(code)

    def scanned(self, code: str) -> None:
        """A scan belongs to the page in sight: what leaves, what went in after all, else the dish."""
        page = self.view.page()
        if page == "handing":
            self._workers["handing"].add(code)
        elif page in ("file", "dishes", "services") and self._is_dish(code):
            self.open_dish(code)
        elif page == "file":
            self._workers["file"].scanned(code)
        else:
            self.add(code)

    def _is_dish(self, code: str) -> bool:
        with suppress(Refusal):
            return bool(self.bench.ask("lot", code).kind == "dish")
        return False

    def show_page(self, name: str) -> None:
        if name == "stock":
            self._picks_for = "dish"
            self.view.stock.say_for("dish")
        self.view.show_page(name)
        self.view.stock.loud.hush()
        self.view.dishes.loud.hush()
        self.view.setFocus()

    # -- what goes in ---------------------------------------------------------------------------------------

    def add(self, code: str) -> None:
        """A pack scanned or picked: past the last gate, or refused with the reason."""
        if self.view.page() == "made":
            self.next_dish()
        self.view.show_page("dish")
        dish = self.view.dish
        if code in self._lots:
            dish.loud.refuse(f"{meat_name(self._lots[code])}, {code}, is in already.")
            dish.going_in.show_code(code)
            return
        found = self.bench.guarded(
            partial(self.bench.ask, "check_for_plate", code), on_refusal=partial(self._refuse_lot, code)
        )
        if found is None:
            return
        self._lots[code] = found
        self._show_rows()
        dish.loud.done(f"{meat_name(found)}, {kg_text(found.grams)}, goes in.")
        dish.going_in.show_code(code)

    def take_out(self, code: str) -> None:
        self._lots.pop(code, None)
        self.view.dish.loud.hush()
        self._show_rows()

    def _show_rows(self) -> None:
        today = self.bench.today()
        self.view.dish.going_in.set_rows(
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

    def _refuse_lot(self, code: str, refusal: Refusal) -> None:
        """Loudly, with the sign of the state that keeps it out."""
        state = "on hold"
        with suppress(Refusal):  # a number never given out: the refusal says so
            state = self.bench.ask("lot", code).state
        self.view.dish.loud.refuse(str(refusal), state if state != "ready" else "on hold")

    def _say(self) -> None:
        if not self.bench.is_open:
            return
        dish = self.view.dish
        taken = dish.going_in.taken_or_less()
        dish.say_total(len(taken), sum(grams for _, grams in taken), dish.portions.inner.value_or_none())
        said = self.bench.guarded(partial(self._said, taken))
        dish.said.show_said(said or Said())

    def _said(self, taken: list[tuple[str, int]]) -> Said:
        for code, _ in taken:
            if code not in self._traces:
                self._traces[code] = self.bench.ask("trace", code)
        return said_of((grams, self._traces[code]) for code, grams in taken)

    # -- the dish -------------------------------------------------------------------------------------------

    def make(self) -> None:
        """The dish, once a form: a second Enter finds it made already."""
        given = self.bench.guarded(self._given, on_refusal=self._refuse)
        if given is None:
            return
        changes = self.bench.attempt("make_dish", on_refusal=self._refuse, key=self._key, **given)
        if changes is None:
            return
        grams = sum(grams for _, grams in given["inputs"])
        about = (
            f"{given['portions']} portions, {kg_text(grams)}, for {given['occasion']} on "
            f"{weekday_text(given['on'])}"
        )
        self.view.made.show_dish(changes.code, given["name"], about)
        self.view.show_page("made")
        self.view.made.next.setFocus()

    def _given(self) -> dict[str, Any]:
        dish = self.view.dish
        portions = dish.portions.inner.value()
        if portions is None:
            raise Refusal("The number of portions is missing.", "Count the plates.", "portions")
        try:
            day = dish.day.inner.value()
        except Refusal as refusal:
            raise Refusal(refusal.sentence, refusal.what_to_do, "on") from refusal
        return {
            "name": dish.name.inner.text(),
            "occasion_kind": dish.kind.value(),
            "occasion": dish.occasion.inner.text(),
            "on": day or self.bench.today(),
            "portions": portions,
            "inputs": dish.going_in.taken(),
        }

    def _refuse(self, refusal: Refusal) -> None:
        self.view.dish.refuse(refusal.field, str(refusal))

    def next_dish(self) -> None:
        self._key = uuid4().hex
        self._lots.clear()
        self._show_rows()
        self.view.dish.next_dish()
        self.view.show_page("dish")
        self.view.dish.name.inner.setFocus()

    def _kept(self, said: str) -> None:
        self.view.stock.end_keeping()
        self.view.stock.loud.done(said)

    # -- out, and on paper ----------------------------------------------------------------------------------

    def bin(self, code: str) -> None:
        face = self.view.stock.binning
        try:
            grams = face.grams.inner.value()
        except Refusal as refusal:
            face.refuse("grams", str(refusal))
            return
        changes = self.bench.attempt(
            "dispose",
            on_refusal=self._refuse_bin,
            code=code,
            grams=grams,
            product=face.way.value(),
            reason=face.reason.inner.text(),
            key=self._bin_key,
        )
        if changes is None:
            return
        self._bin_key = uuid4().hex
        self.view.stock.end_binning()
        self.view.stock.loud.done(f"{code} went out of stock, written as {changes.code}.")

    def _refuse_bin(self, refusal: Refusal) -> None:
        self.view.stock.binning.refuse(refusal.field, str(refusal))

    def _print(self, code: str) -> None:
        ask_for_labels(self.bench, [code], back="pass")
