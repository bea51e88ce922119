"""What the pass wrote, told in sentences: one function a kind of entry. `stories` gathers them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.cooking import time_text
from gametrace.domain.quantities import celsius_text, kg_to_the_gram
from gametrace.register.clock import iso_day_text

_SORTS = {
    "cooking": "cooked: {heat} at the core for {time}",
    "hot hold": "kept hot at {heat}{below}",
    "cooling": "cooled to {heat} in {time}",
    "reheat": "reheated to {heat} for {time}",
}


def _recorded(_read: Any, body: dict[str, Any]) -> str:
    time = time_text(body["seconds"])
    below = f", {time} below the figure" if body["seconds"] else ""
    words = _SORTS[body["sort"]].format(heat=celsius_text(body["tenths_c"]), time=time, below=below)
    probe = f", probe {body['probe']}" if body["probe"] else ""
    return f"{code_of(body['lot'])} {words}{probe}" + (f" ({body['note']})" if body["note"] else "")


def _ingredients(_read: Any, body: dict[str, Any]) -> str:
    names = ", ".join(one["name"] for one in body["ingredients"])
    return f"Also in {code_of(body['lot'])}: {names}"


def _menu(_read: Any, body: dict[str, Any]) -> str:
    return f"Menu line of {code_of(body['lot'])}: “{body['line']}”"


def _served(_read: Any, body: dict[str, Any]) -> str:
    to = f" to {body['to_group']}" if body["to_group"] else ""
    return f"{_portions(body)} of {code_of(body['lot'])} served{to}"


def _portions(body: dict[str, Any]) -> str:
    count = body["portions"]
    return f"{count} portion" if count == 1 else f"{count} portions"


def _changed(_read: Any, body: dict[str, Any]) -> str:
    parts = [f"{kg_to_the_gram(grams)} of {code_of(lot)} went in too" for lot, grams in body["added"]]
    parts += [f"{kg_to_the_gram(grams)} of {code_of(lot)} did not go in" for lot, grams in body["not_used"]]
    if body["portions"] != body["was_portions"]:
        parts.append(f"{body['portions']} portions, not {body['was_portions']}")
    return f"{code_of(body['lot'])} put right: {'; '.join(parts)} ({body['reason']})"


def _left_over(_read: Any, body: dict[str, Any]) -> str:
    output = body["output"]
    where = "binned" if output["kind"] == "waste" else "left over, back to stock"
    words = f"{_portions(body)} of {code_of(body['lot'])} {where} as {code_of(output['lot'])}"
    if output["use_by"]:
        words += f", use by {iso_day_text(output['use_by'])}: {output['date_rule']}"
    return words + (f" ({output['note']})" if output["note"] else "")


def _covers(_read: Any, body: dict[str, Any]) -> str:
    return f"{body['covers']} covers at {body['occasion']}, {iso_day_text(body['on_day'])}"


def _issued(_read: Any, body: dict[str, Any]) -> str:
    words = f"Issued to {body['sort']} {body['charged_to']}: {_gone(body)}"
    return words + (f" for {body['purpose']}" if body["purpose"] else "")


def _supplied(_read: Any, body: dict[str, Any]) -> str:
    day = iso_day_text(body["dispatched_on"])
    return f"Supplied to customer {body['customer']} on {day}: {_gone(body)}"


def _customer(_read: Any, body: dict[str, Any]) -> str:
    return f"Customer {body['customer']} added"


def _gone(body: dict[str, Any]) -> str:
    return ", ".join(
        f"{output['name']} {kg_to_the_gram(output['grams'])} of {code_of(output['parent'])} as "
        f"{code_of(output['lot'])}"
        for output in body["outputs"]
    )


TELLERS: dict[str, Callable[[Any, dict[str, Any]], str]] = {
    "kitchen.recorded": _recorded,
    "dish.ingredients": _ingredients,
    "dish.menu": _menu,
    "dish.served": _served,
    "dish.changed": _changed,
    "dish.left-over": _left_over,
    "covers.noted": _covers,
    "lots.issued": _issued,
    "lots.supplied": _supplied,
    "customer.added": _customer,
}
