"""Reads one beast's cost and yields and words them for the pages; yields in groups are read aside."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from fractions import Fraction
from functools import partial
from typing import Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.costs.bars import bars_of
from gametrace.desktop.costs.cost_page import METHODS, CostPage
from gametrace.desktop.costs.sides_plot import SideRow
from gametrace.desktop.costs.yield_page import YieldPage
from gametrace.desktop.costs.yield_plot import Published, YieldRow
from gametrace.desktop.errands import Stopped
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import rests_on
from gametrace.domain.quantities import kg_text, pounds_text
from gametrace.domain.yields import NEWEST, percent_text

_FAR = "yield-far-from-published"
_SET_VALUES = "Set them under “Values”, or choose another way of spreading: 1 or 2."


class CostPresenter(QObject):
    """The picture of cost."""

    def __init__(self, page: CostPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self.code = ""
        self.picture: Any = None
        self._is_chosen = False  # somebody switched the way of spreading
        page.method_wanted.connect(self.show_method)
        page.depth_wanted.connect(self._draw)
        page.moved.connect(self._test)

    def show(self, code: str) -> None:
        self.code = code
        self.picture = self.bench.ask("cost_picture", code)
        if not self._is_chosen:
            self.page.method.set_value(self.picture.method)
        self.page.headline.say(_bought(self.picture))
        self.page.notes.say("  ".join(f"{one.sentence}" for one in self.picture.findings[:3]))
        self.page.notes.setVisible(bool(self.picture.findings))
        self._draw()

    def show_method(self, method: str) -> None:
        self._is_chosen = True
        self.page.method.set_value(method)
        if self.picture is not None:
            self._draw()

    def switch(self, number: int) -> None:
        """1, 2 or 3."""
        self.show_method(METHODS[number - 1][0])

    def _draw(self, _depth: str = "") -> None:
        picture, method = self.picture, self.page.method.value()
        bars = bars_of(picture, method, by_joint=self.page.detail.value() == "joint")
        why = " ".join(picture.why_unknown[method])
        if why and "sales value" in why:
            why = f"{why} {_SET_VALUES}"
        elif why:
            why = f"{why} Write it on the delivery, and the picture is here."
        paid, grams = picture.paid[method], picture.grams
        bought = None if paid is None or not grams else Fraction(paid * 1000, grams)
        self.page.show_bars(bars, bought, why)

    def _test(self, product: str) -> None:
        """By sales value and cut by cut, a butcher's test stands beside it."""
        page = self.page
        words = ""
        if product and page.method.value() == "sales value" and page.detail.value() == "cut":
            try:
                words = _test_words(self.bench.ask("butchers_test", self.code, product))
            except Refusal:
                words = ""  # what is not for food has no test; what has no price is said above
        page.say_test(words)


def _test_words(test: Any) -> str:
    credited = pounds_text(round(test.credits))
    if test.usable_pence <= 0:
        return f"A butcher's test cannot be made: all else would fetch {credited}, more than the whole cost."
    factor = round(test.factor * 100)
    a_kilo = pounds_text(round(test.usable_per_kg))
    return (
        f"Butcher's test: with all else credited at its sales value, {credited}, it costs {a_kilo} a kilo, "
        f"{factor // 100}.{factor % 100:02d} times the price."
    )


def _bought(picture: Any) -> str:
    """'24-00003-1, fallow doe: £69.23 for 19.78 kg, in the skin, head off, at £3.50 a kilo.'"""
    one, name = picture.purchase, f"{picture.code}, {picture.name}"
    if one is None:
        paid = picture.paid[picture.method]
        bears = (
            "what it cost is not known" if paid is None else f"{pounds_text(paid)} of what was paid lie in it"
        )
        return f"{name}: {kg_text(picture.grams)}; {bears}."
    if one.pence is None:
        return f"{name}: {kg_text(one.grams)}, {one.basis}; no price was written down."
    said = f"{name}: {pounds_text(one.pence)} for {kg_text(one.grams)}, {one.basis}"
    said += f", at {pounds_text(one.pence_per_kg)} a kilo"
    if one.credited_pence:
        said += f"; {pounds_text(one.credited_pence)} credited"
    if picture.sold:
        said += f"; {pounds_text(sum(sold.pence for sold in picture.sold))} for by-products sold"
    return f"{said}."


class YieldPresenter(QObject):
    """Shares, sides and groups."""

    def __init__(self, page: YieldPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self.code = ""
        self.found: Any = None
        self._reading = self._errand = 0
        self._lines: dict[str, list[Any]] = {"shares": [], "meat": []}
        self._last = "shares"  # the plot whose chosen row is put in groups
        page.mode_wanted.connect(self.show_mode)
        page.group_wanted.connect(self._read_groups)
        page.reach_wanted.connect(self._read_groups)
        page.print_wanted.connect(self.print_sheet)

    def show(self, code: str) -> None:
        """Every beast of its kind is read to stand beside it: aside, so that the hand stays free."""
        if self._reading:
            self.bench.errands.stop(self._reading)
        if code != self.code:
            self._none("")
        self.code = code
        read = partial(_read, self.bench.questions.yield_of, self.bench.register, code)
        self._reading = self.bench.errands.run(read, done=self._show, failed=self._not_shown)

    def _none(self, why: str) -> None:
        self.found = None
        self.page.headline.say(why)
        self.page.notes.say("")
        self.page.set_rows((), (), ())
        self.page.print_button.setEnabled(False)

    def _not_shown(self, error: Exception) -> None:
        if isinstance(error, Refusal):
            self._none(f"{error.sentence} {error.what_to_do}")
        else:
            self.bench.errand_failed(error)

    def _show(self, found: Any) -> None:
        self._reading, self.found = 0, found
        self.page.print_button.setEnabled(True)
        one = self.found.animal
        state = "" if one.is_finished else f", {kg_text(one.left_grams)} still to weigh"
        self.page.headline.say(
            f"{one.code}, {one.name}: {kg_text(one.grams_in)} lay on the block{state}. "
            f"Beside {self.found.like_it} of the larder's own ({self.found.like_words})."
        )
        self.page.notes.say("  ".join(dict.fromkeys(found.sentence for found in self.found.findings)))
        self._lines = {
            "shares": [line for line in self.found.compared if line.measure.kind == "cuts"],
            "meat": [line for line in self.found.compared if line.measure.kind != "cuts"],
        }
        self.page.set_rows(
            [_row(line) for line in self._lines["shares"]],
            [_row(line) for line in self._lines["meat"]],
            [_sides(one) for one in self.found.sides],
        )
        if self.page.mode.value() == "groups":
            self._read_groups()

    def show_mode(self, mode: str) -> None:
        self._last = mode if mode in self._lines else self._last
        self.page.show_mode(mode)
        if mode == "groups":
            self._read_groups()

    def _read_groups(self, _by: str = "") -> None:
        """Every beast chosen is read for this: aside, with its progress, so that the hand stays free."""
        if self.found is None:
            return
        if self._errand:
            self.bench.errands.stop(self._errand)
        by, reach = self.page.group.value(), self.page.reach.value()
        species = "" if by == "species" else self.found.animal.species
        at = (self.page.shares if self._last == "shares" else self.page.meat).chosen
        lines = self._lines[self._last]
        measure = lines[at].measure if at < len(lines) else None
        ask = partial(self.bench.questions.yields, self.bench.register, by=by, species=species)
        if reach == "newest":
            ask = partial(ask, newest=NEWEST)
        elif reach == "year":
            ask = partial(ask, first=self.bench.today() - timedelta(days=365))
        self.page.reading.say("Reading.")
        self._errand = self.bench.errands.run(
            partial(_grouped, ask),
            done=partial(self._groups_read, measure),
            failed=self._groups_failed,
            progress=self._groups_on_the_way,
        )

    def _groups_on_the_way(self, done: int, of: int) -> None:
        self.page.reading.say(f"Reading: {done:,} of {of:,} animals.")

    def _groups_failed(self, error: Exception) -> None:
        if not isinstance(error, Stopped):  # one that was stopped has another after it, which says its own
            self.page.reading.say("")
        self.bench.errand_failed(error)

    def _groups_read(self, measure: Any, sheet: Any) -> None:
        self._errand = 0
        self.page.reading.say(_counted(len(sheet.animals), is_cut_off=sheet.is_cut_off))
        rows = []
        for group in sheet.groups:
            found = next((one for one in group.measures if _same(one.measure, measure)), None)
            if found is not None:
                rows.append(_group_row(group.words, found))
        self.page.set_groups(rows)

    def print_sheet(self) -> None:
        """The yield sheet of this beast, made off the GUI thread."""
        if self.found is None:
            return
        picture = self.bench.ask("cost_picture", self.code)
        make = partial(_paper, self.found, picture, self.bench.ask("larder"), self.bench.now())
        self.bench.to_paper(make, f"yield {self.code}.pdf", "The yield sheet is in")


def _paper(found: Any, picture: Any, larder: Any, printed_at: Any) -> bytes:
    from gametrace.documents.yield_sheet import yield_sheet_pdf

    return yield_sheet_pdf([(found, picture)], larder, printed_at)


def _read(ask: Callable[..., Any], register: Any, code: str, progress: Any) -> Any:
    progress(0, 1)
    return ask(register, code)


def _grouped(ask: Callable[..., Any], progress: Any) -> Any:
    return ask(progress=progress)


def _counted(animals: int, *, is_cut_off: bool) -> str:
    words = "One animal" if animals == 1 else f"{animals:,} animals"
    return f"{words}; older ones are left out." if is_cut_off else f"{words}."


def _same(one: Any, other: Any) -> bool:
    """The same share, on whichever side."""
    return other is not None and (one.kind, one.part, one.of) == (other.kind, other.part, other.of)


def _row(line: Any) -> YieldRow:
    others = line.others
    words = (
        f"{_of(line.measure)}: {percent_text(line.share)}. {_own_words(others)} {_printed(others.published)}"
    )
    asked = " ".join(one.what_to_do for one in line.findings if one.code == _FAR)
    return YieldRow(
        name=line.measure.name,
        share=line.share,
        own=tuple(point.share for point in others.own),
        median=others.median.median if others.median else None,
        published=tuple(Published(one.low, one.high, one.is_of_its_sex) for one in others.published),
        is_far=any(one.code == _FAR for one in line.findings),
        words=f"{words} {asked}".strip(),
    )


def _group_row(words: str, found: Any) -> YieldRow:
    return YieldRow(
        name=words,
        share=None,
        own=tuple(point.share for point in found.own),
        median=found.median.median if found.median else None,
        published=tuple(Published(one.low, one.high, one.is_of_its_sex) for one in found.published),
        is_far=False,
        words=f"{words}. {_of(found.measure)}. {_own_words(found)} {_printed(found.published)}".strip(),
    )


def _of(measure: Any) -> str:
    name = measure.name[:1].upper() + measure.name[1:]
    return (
        name
        if measure.of == "the same cut on the bone"
        else f"{name}, of the {measure.of}".replace(
            "of the gralloched in the skin", "of the beast in its skin"
        )
    )


def _own_words(others: Any) -> str:
    if others.median is None:
        return others.few.sentence if others.few else ""
    low, high = others.range
    said = f"The larder's own {others.median.count}: median {percent_text(others.median.median)}, "
    said += f"{percent_text(low)} to {percent_text(high)}."
    return f"{said} {others.few.sentence}" if others.few else said


def _printed(published: Any) -> str:
    if not published:
        return "Nothing is published on it here."
    said = []
    for one in published:
        figure = percent_text(one.low)
        figure = figure if one.low == one.high else f"{figure} to {percent_text(one.high)}"
        count = {0: "number not said", 1: "one animal"}.get(one.animals, f"{one.animals} animals")
        sex = "" if one.is_of_its_sex else ", of the other sex"
        said.append(f"{figure} ({rests_on(one.source, one.status)}; {count}{sex})")
    return f"Published: {'; '.join(said)}."


def _sides(one: Any) -> SideRow:
    return SideRow(one.name, one.grams, one.boneless, one.cutters)
