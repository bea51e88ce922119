"""Fills the by-products page, settles a category once for all, and writes a collection down."""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.labelling import ask_for_labels
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.pages import Pages
from gametrace.domain.by_products import Confirmed, category_findings, missing_on_document
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text
from gametrace.facts.by_products import category

if TYPE_CHECKING:
    from gametrace.register.bins import BinLine, BinPaper

Week = tuple[date, dict[int, int]]  # its Monday, and grams by category


class BinsPresenter(QObject):
    """One view, one bench."""

    def __init__(self, view: Any, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.page, self.bench = view, view.waiting, bench
        self._waiting: list[BinLine] = []
        self._unsettled: list[str] = []
        self._key = uuid.uuid4().hex
        self.page.category_chosen.connect(self._category_chosen)
        self.page.collect_wanted.connect(self._collect)
        self.page.written.connect(self._say_missing)
        self.page.ticked.connect(self._say_ticked)
        self.page.labels_wanted.connect(self._labels)
        self.view.settling.wanted.connect(self._settle)
        self.view.settling.later.connect(self._next_item)

    def refresh(self) -> None:
        self._waiting = list(self.bench.ask("bins", only_waiting=True))
        numbers = sorted({line.category for line in self._waiting})
        chosen = self.page.category.value()
        if chosen not in {str(number) for number in numbers}:
            chosen = str(max(numbers)) if numbers else ""
        self.page.set_categories([(str(n), self._category_words(n)) for n in numbers], chosen)
        self._show_category(chosen)
        self._unsettled = self._items_unsettled()
        self._show_item()
        items = ", ".join(item.replace("-", " ") for item in sorted(self._unsettled))
        self.page.unsettled.say(f"Not confirmed with the authority yet: {items}." if items else "")
        self.page.unsettled.setVisible(bool(items))
        self.view.show_weeks(self._weeks())
        self.view.show_papers(Pages(self.bench.ask("bin_paper_count"), self._papers))

    def _weeks(self) -> Pages:
        """Every week since the first by-product, the newest first, also those in which nothing fell."""
        begun = self.bench.ask("bins_since")
        self._this_week = _monday(self.bench.today())
        return Pages((self._this_week - _monday(begun)).days // 7 + 1 if begun else 0, self._some_weeks)

    def _some_weeks(self, first: int, many: int) -> list[Week]:
        mondays = [self._this_week - timedelta(weeks=week) for week in range(first, first + many)]
        found = self.bench.ask("bin_weeks", mondays[-1], mondays[0] + timedelta(days=6))
        fallen = {week.first_day: week.grams_by_category for week in found}
        return [(monday, fallen.get(monday, {})) for monday in mondays]

    def _papers(self, first: int, many: int) -> Sequence[BinPaper]:
        return self.bench.ask("bin_papers", limit=many, first=first)

    # -- what waits -------------------------------------------------------------------------------------

    def _category_words(self, number: int) -> str:
        grams = sum(line.grams for line in self._waiting if line.category == number)
        return f"Category {number}: {kg_text(grams)}"

    def _category_chosen(self, number: str) -> None:
        self._show_category(number)

    def _show_category(self, number: str) -> None:
        page = self.page
        if not number:
            page.label.say("Nothing waits for the collector.")
            page.meaning.say("")
            page.list.set_rows([])
            return
        held = category(int(number))
        page.label.say(f"On the bin: {held.name}, {held.bin_label}")
        page.meaning.say(held.meaning)
        page.list.set_rows(
            [(line.code, _line(line)) for line in self._waiting if line.category == int(number)]
        )

    def _say_ticked(self) -> None:
        ticked = set(self.page.list.values())
        grams = sum(line.grams for line in self._waiting if line.code in ticked)
        self.page.count.say(f"{self.page.list.count()} wait; {len(ticked)} ticked, {kg_text(grams)}")
        self._say_missing()

    # -- a collection -----------------------------------------------------------------------------------

    def _given(self) -> dict[str, str]:
        larder, page = self.bench.ask("larder"), self.page
        origin = f"{larder.name}, {larder.address}" if larder.name and larder.address else ""
        day = page.on.value_or_none()
        return {
            "origin": origin,
            "carrier": page.edits["collector"].text(),
            "destination": page.edits["destination"].text(),
            "description": " ".join(page.list.values()),
            "day": day_text(day) if day else "",
            "signature": page.edits["signature"].text(),
        }

    def _say_missing(self) -> None:
        missing = missing_on_document(self._given())
        self.page.missing.say(f"Still missing on the document: {'; '.join(missing)}." if missing else "")
        self.page.missing.setVisible(bool(missing))

    def _labels(self) -> None:
        if codes := self.page.list.values():
            ask_for_labels(self.bench, codes, back="bins")
        else:
            self.bench.refused.emit("Nothing is ticked. Tick what needs a label.")

    def _collect(self) -> None:
        page = self.page
        page.clear_refusals()
        try:
            on = page.on.value()
        except Refusal as refusal:
            page.refuse("on", str(refusal))
            return
        if on is None:
            page.refuse("on", "Write down the day of collection.")
            return
        try:
            paid = page.paid.value() if page.paid.text().strip() else None
        except Refusal as refusal:
            page.refuse("pence", str(refusal))
            return
        signed = page.edits["signature"].text().strip()
        done = self.bench.attempt(
            "collect_by_products",
            on_refusal=self._refused,
            codes=page.list.values(),
            on=on,
            collector=page.edits["collector"].text(),
            destination=page.edits["destination"].text(),
            document_number=page.edits["document_number"].text(),
            note=f"signed by {signed}" if signed else "",
            pence=paid,
            key=self._key,
        )
        if done is not None:
            self._key = uuid.uuid4().hex
            self.page.clear_fields()
            self._say_missing()
            self.bench.done.emit(f"{len(done.codes)} collected; the paper is kept with its number.")

    def _refused(self, refusal: Refusal) -> None:
        self.page.refuse(refusal.field, str(refusal))

    # -- categories settled once ------------------------------------------------------------------------

    def _items_unsettled(self) -> list[str]:
        confirmed = self._confirmed()
        items = dict.fromkeys(line.item for line in self._waiting)
        found = [item for item in items if category_findings(item, confirmed)]
        now = self.view.settling.item
        return sorted(found, key=lambda item: (item != now, item))

    def _confirmed(self) -> dict[str, Confirmed]:
        kept = self.bench.ask("policies").categories or {}
        return {item: Confirmed(n, who, date.fromisoformat(on)) for item, (n, who, on) in kept.items()}

    def _show_item(self) -> None:
        item = self._unsettled[0] if self._unsettled else ""
        findings = category_findings(item, self._confirmed()) if item else ()
        self.view.settling.show_item(item, findings, has_more=len(self._unsettled) > 1)

    def _next_item(self) -> None:
        self._unsettled = [*self._unsettled[1:], self._unsettled[0]]
        self._show_item()

    def _settle(self, item: str) -> None:
        part = self.view.settling
        part.clear_refusals()
        who = part.who.text().strip().replace("|", "/")
        try:
            on = part.on.value()
        except Refusal as refusal:
            part.refuse("on", str(refusal))
            return
        for name, value, sentence in (
            ("category", part.category.value(), "Choose what they said."),
            ("who", who, "Write down who said so."),
            ("on", on, "Write down the day they said it."),
        ):
            if not value:
                part.refuse(name, sentence)
                return
        number = part.category.value()
        self.bench.attempt(
            "set_policy",
            on_refusal=self._settle_refused,
            said=f"{item.replace('-', ' ')}: category {number}, settled with {who}.",
            name=f"category.{item}",
            value=f"{number}|{who}|{on.isoformat()}",
            reason=f"{who} said so on {day_text(on)}",
            key=uuid.uuid4().hex,
        )

    def _settle_refused(self, refusal: Refusal) -> None:
        self.view.settling.refuse(refusal.field, str(refusal))


def _monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _line(line: BinLine) -> str:
    why = f": {line.reason}" if line.reason else ""
    return f"{line.name}, {kg_text(line.grams)}, {day_text(line.made_on)}, {line.code}{why}"
