"""What is worked out while a delivery is typed, the same for a new one and for one that is finished later."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from functools import partial
from typing import Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.delivery.card_bodies import declared
from gametrace.desktop.delivery.form import DeliveryForm
from gametrace.desktop.parts.days import day_text
from gametrace.domain.deliveries import Delivery
from gametrace.domain.findings import Finding
from gametrace.domain.shared_declarations import DeclaredBody


def findings_of(bench: Bench, delivery: Delivery) -> tuple[Finding, ...] | None:
    """What the rules would say; None where it could not be asked, which is then on view."""
    return bench.guarded(partial(bench.acts.preview_delivery, bench.register, delivery))


def evidence_words(delivery: Delivery) -> str:
    """The papers in a few words; '' before there is an animal."""
    if not delivery.species:
        return ""
    from gametrace.register.paper_state import evidence

    return evidence(delivery)


def show_licence(bench: Bench, form: DeliveryForm, species: str, found: Sequence[Finding]) -> None:
    """The licence is asked for where a season or night rule has spoken, and put away where none does."""
    licence = form.beast.licence
    licence.offer(bench.ask("larder").jurisdiction, species)
    if licence.ask(found):
        form.beast.grew.emit()


def show_card(bench: Bench, form: DeliveryForm, values: dict[str, Any], own: str = "") -> None:
    """Which bodies of this card are in already."""
    number = values["declaration_number"] if values["has_declaration"] else ""
    there = bench.ask("on_declaration", values["supplier"], number) if number else ()
    others = tuple(one for one in there if one.code != own)
    if own:
        this = next((declared(one) for one in there if one.code == own), None)
    else:
        this = DeclaredBody(
            number=values["tag"],
            killed_on=values.get("killed_on"),
            kill_time=values.get("kill_time", ""),
            kill_place=values["kill_place"],
        )
    form.paper.on_card.show_bodies(number, others, this)


def same_batch_words(bench: Bench, values: dict[str, Any]) -> str:
    """Another batch of this kind that this supplier brought today, for it is easily entered twice."""
    today = bench.today()
    same = [
        one
        for one in bench.ask("deliveries", first=today, last=today)
        if one.supplier.code == values["supplier"] and one.species == values["species"]
    ]
    if not same:
        return ""
    named = ", ".join(f"{one.code} ({one.count})" for one in same)
    return f"In already today from this supplier: {named}. Another delivery gets another number."


def probe_choices(bench: Bench) -> list[tuple[str, str]]:
    """Each probe with the day of its last check."""
    return [(one.code, f"{one.code} {one.name}, {_checked(one.checked_at)}") for one in bench.ask("probes")]


def _checked(at: datetime | None) -> str:
    from gametrace.register.clock import wall_day

    return f"checked {day_text(wall_day(at))}" if at else "never checked"
