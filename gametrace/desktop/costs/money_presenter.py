"""A dish's price, and the kitchen's own values: what is typed becomes an act, what is refused goes back."""

from __future__ import annotations

import re
from functools import partial
from typing import Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.costs.dish_page import DishPage
from gametrace.desktop.costs.values_page import ValuesPage
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_to_the_gram, pounds_text
from gametrace.domain.yields import percent_text


def rate_of(text: str, field: str) -> int:
    """Hundredths of a per cent from '20', '17.5' or '0'."""
    return _scaled(text, field, 2, "Write per cent, for example 20 or 0.")


def tenths_of(text: str, field: str) -> int:
    """Tenths from '4' or '1.2'."""
    return _scaled(text, field, 1, "Write points, for example 4 or 1.2.")


def _scaled(text: str, field: str, places: int, example: str) -> int:
    plain = text.strip().replace(",", ".").removesuffix("%").strip()
    match = re.fullmatch(rf"([0-9]{{1,4}})(?:\.([0-9]{{1,{places}}}))?", plain)
    if match is None:
        raise Refusal(f"“{text.strip()[:20]}” cannot be read.", example, field)
    return int(match[1]) * 10**places + int((match[2] or "").ljust(places, "0") or 0)


class DishPresenter(QObject):
    """The price of one dish."""

    def __init__(self, page: DishPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self.code = ""
        self.found: Any = None
        page.keep_wanted.connect(self.keep)

    def show(self, code: str) -> None:
        is_other = code != self.code
        self.code = code
        self.found = found = self.bench.ask("dish_cost", code)
        is_class = found.occasion_kind == "class"
        self.page.show_form(
            is_class=is_class, has_price=found.price_pence is not None or found.heads is not None
        )
        if is_other:
            self._fill()
        self._redraw()

    def _fill(self) -> None:
        found, page = self.found, self.page
        page.clear_refusals()
        page.price.set_value(found.price_pence)
        whole, rest = divmod(found.vat_hundredths, 100)
        page.vat.setText(f"{whole}.{rest:02d}".rstrip("0").rstrip("."))
        page.other.set_value(found.other_pence)
        page.heads.set_value(found.heads)
        page.reason.clear()

    def _redraw(self) -> None:
        found = self.found
        self.page.show_dish(
            f"{found.name}, {found.code}: {found.portions} portions, {found.occasion_kind} {found.occasion}.",
            _figures(found),
            " ".join(found.why_unknown),
            _lines(found),
            "  ".join(
                f"{one.sentence} {one.what_to_do}".strip()
                for one in found.findings
                if one.code != "cost-unknown"
            ),
        )
        self.page.show_parts(_parts(found))

    def keep(self) -> None:
        self.page.clear_refusals()
        given = self.bench.guarded(self._typed, on_refusal=self._refused)
        if given is None:
            return
        said = (
            "The class is charged at cost." if self.found.occasion_kind == "class" else "The price is kept."
        )
        done = self.bench.attempt("price_dish", on_refusal=self._refused, said=said, code=self.code, **given)
        if done is not None:
            self.page.reason.clear()
            self.show(self.code)

    def _typed(self) -> dict[str, Any]:
        page, is_class = self.page, self.found.occasion_kind == "class"
        return {
            "price_pence": None if is_class else _read(page.price, "price_pence"),
            "vat_hundredths": rate_of(page.vat.text(), "vat_hundredths"),
            "other_pence": _read(page.other, "other_pence"),
            "heads": _read(page.heads, "heads") if is_class else None,
            "reason": page.reason.text(),
        }

    def _refused(self, refusal: Refusal) -> None:
        self.page.refuse(refusal.field, f"{refusal.sentence} {refusal.what_to_do}".strip())


def _read(edit: Any, field: str) -> Any:
    """What was typed, its refusal put to the field of this page."""
    try:
        return edit.value()
    except Refusal as refusal:
        raise Refusal(refusal.sentence, refusal.what_to_do, field) from refusal


def _pounds(pence: Any) -> str:
    return "not known" if pence is None else pounds_text(round(pence))


def _figures(found: Any) -> list[tuple[str, str]]:
    figures = [(_pounds(found.food_pence), "food cost"), (_pounds(found.a_portion), "a portion")]
    if found.occasion_kind == "class":
        charged = found.charged
        if charged:
            low, high = min(charged), max(charged)
            each = pounds_text(low) if low == high else f"{pounds_text(low)} or {pounds_text(high)}"
            figures.append((each, f"each of {len(charged)}"))
        return figures
    if found.margin is not None:
        figures += [
            (pounds_text(found.net_and_vat[0]), "price without VAT"),
            (percent_text(found.margin.food_cost), "food cost of it"),
            (percent_text(found.margin.gross_profit), "gross profit of it"),
            (pounds_text(round(found.margin.gross_profit_pence)), "gross profit a portion"),
        ]
    elif found.price_wanted is not None:
        figures.append(
            (pounds_text(found.price_wanted), f"reaches {found.target_hundredths // 100} % gross profit")
        )
    return figures


def _lines(found: Any) -> list[tuple[str, str, str]]:
    lines = [("What went in", "", "")]
    lines += [
        (f"{one.name}, {one.code}", kg_to_the_gram(one.grams), _pounds(one.pence[found.method]))
        for one in found.went_in
    ]
    if found.other_pence is not None:
        lines.append(("all else on the plates", "–", pounds_text(found.other_pence)))
    if back := found.back_pence[found.method]:
        lines.append(("of it back in stock, left over", "–", pounds_text(back)))
    lines.append(("From which animals", "", ""))
    lines += [
        (f"{one.name}, {one.code}", percent_text(one.share), _pounds(one.pence)) for one in found.animals
    ]
    ways = {"weight": "by weight", "points": "by value points", "sales value": "by sales value"}
    lines.append(("The meat, three ways of spreading", "", ""))
    lines += [
        (words + (" (this kitchen's)" if way == found.method else ""), "–", _pounds(found.meat_pence[way]))
        for way, words in ways.items()
    ]
    return lines


def _parts(found: Any) -> list[tuple[str, int]]:
    """The price of one portion taken apart; whole pence that come to it."""
    if found.margin is None or found.margin.gross_profit_pence < 0:
        return []
    net, vat = found.net_and_vat
    meat = round(found.meat_pence[found.method] / found.portions)
    other = round(found.a_portion) - meat if found.other_pence is not None else 0
    parts = [("game in it", meat), ("all else on the plate", other)]
    return [*parts, ("gross profit", net - meat - other), ("VAT", vat)]


class ValuesPresenter(QObject):
    """The kitchen's own values."""

    def __init__(self, page: ValuesPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self._shown: Any = None
        page.moved.connect(self._moved)
        page.keep_wanted.connect(self.keep)
        page.choices_wanted.connect(self.keep_choices)

    def refresh(self) -> None:
        own = self.bench.ask("policies")
        self.page.method.set_value(own.cost_spread)
        self.page.priced_on.set_value(own.priced_on)
        self.page.set_products(self.bench.ask("product_values"))
        self._moved(self.page.table.current())

    def _moved(self, one: Any) -> None:
        if one is None:
            return
        if self._shown is None or one != self._shown:
            self._shown = one
            self.page.show_product(one, _about(one))

    def keep(self) -> None:
        """Price and points, each an act of its own; only what is different is written."""
        one = self._shown
        if one is None:
            return
        self.page.clear_refusals()
        given = self.bench.guarded(partial(self._typed, one), on_refusal=self._refused)
        if given is None:
            return
        if not given:
            self._refused(Refusal("Nothing is different.", "Change the price or the points first.", "price"))
        for name, value in given:
            done = self.bench.attempt(
                "set_policy",
                on_refusal=self._refused,
                said=f"{one.name}: kept.",
                name=name,
                value=value,
                reason=self.page.reason.text(),
            )
            if done is None:
                return
        if given:
            self.page.reason.clear()
            self.refresh()

    def _typed(self, one: Any) -> list[tuple[str, str]]:
        page = self.page
        price = None if not page.price.text().strip() else _read(page.price, "price")
        was = None if one.price_from else one.pence_per_kg
        given = []
        if price != was:
            given.append((f"price.{one.product}", "" if price is None else str(price)))
        typed = page.points.text().strip()
        points = "" if not typed else str(tenths_of(typed, "points"))
        if points != ("" if one.points is None else str(int(one.points * 10))):
            given.append((f"points.{one.product}", points))
        return given

    def keep_choices(self) -> None:
        own = self.bench.ask("policies")
        wanted = [
            ("cost_spread", self.page.method.value(), own.cost_spread),
            ("priced_on", self.page.priced_on.value(), own.priced_on),
        ]
        changed = [(name, value) for name, value, was in wanted if value != was]
        if not changed:
            self._refused(Refusal("Nothing is different.", "Choose another way first.", "reason"))
        for name, value in changed:
            reason = self.page.reason.text()
            given = {"name": name, "value": value, "reason": reason}
            if self.bench.attempt("set_policy", on_refusal=self._refused, said="Kept.", **given) is None:
                return
        if changed:
            self.page.reason.clear()

    def _refused(self, refusal: Refusal) -> None:
        self.page.refuse(refusal.field, f"{refusal.sentence} {refusal.what_to_do}".strip())


def _about(one: Any) -> str:
    said = f"* The price of the {one.price_from.replace('-', ' ')} it comes from. " if one.price_from else ""
    if one.points_are_own:
        return f"{said}The points are this kitchen's own."
    if one.points is None:
        return f"{said}No points are held for it."
    return f"{said}Points: {one.points_source}; {one.points_status}."
