"""The words of a trace: shares, times, declarations as people read them. Exact where that is short."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from gametrace.desktop.parts.days import day_text
from gametrace.domain.quantities import kg_text
from gametrace.register.clock import wall_day
from gametrace.register.records import Trace, TraceAnimal, TraceLot

_LONGEST_EXACT = 100_000  # a denominator above this says nothing to a reader


def share_text(share: Fraction) -> str:
    """'all of it', or '25.5 % (12/47)'."""
    if share == 1:
        return "all of it"
    tenths = round(share * 1000)
    about = f"{tenths // 10}.{tenths % 10} %" if tenths else "under 0.1 %"
    if share.denominator > _LONGEST_EXACT:
        return about
    return f"{about} ({share.numerator}/{share.denominator})"


def killed_text(killed_at: str) -> str:
    """'12 Nov 2026, 07:40' from what the record holds."""
    if not killed_at:
        return "day not stated"
    day, _, time = killed_at.partition("T")
    return day_text(date.fromisoformat(day)) + (f", {time}" if time else ", time not stated")


def animal_title(animal: TraceAnimal) -> str:
    tag = f", supplier's tag {animal.tag}" if animal.tag else ", no supplier's tag"
    return f"{animal.code} {animal.name}{tag}"


def animal_share(animal: TraceAnimal) -> str:
    return f"{kg_text(animal.grams)}, {share_text(animal.share)}"


def animal_lines(animal: TraceAnimal) -> tuple[str, ...]:
    """Killing, supplier, declaration: a line each."""
    place = animal.place or "place not stated"
    address = animal.supplier_address or "address not stated"
    origin = animal.origin_type.replace("-", " ")
    lines = [
        f"{origin}, killed {killed_text(animal.killed_at)}, {place}",
        f"from {animal.supplier or 'supplier not stated'}, {address}",
        f"declaration {animal.declaration or 'none'}",
    ]
    if animal.statements:
        lines.append("; ".join(f"{one.words}: {one.answer}" for one in animal.statements))
    return tuple(lines)


def headline(trace: Trace) -> str:
    """'26-00417-K fallow doe', or a supplier's name."""
    return trace.name if trace.kind == "supplier" else f"{trace.code} {trace.name}"


def summary(trace: Trace) -> str:
    """One sentence that answers both questions."""
    animals = len(trace.animals)
    dishes = sum(1 for lot in trace.forward if lot.kind == "dish")
    packs = sum(1 for lot in trace.forward if lot.kind in ("pack", "mix"))
    came = "one animal" if animals == 1 else f"{animals} animals"
    went = [_count(packs, "pack or mix", "packs and mixes"), _count(dishes, "dish", "dishes")]
    went = [words for words in went if words]
    return f"From {came}; on into {' and '.join(went)}." if went else f"From {came}."


def _count(number: int, one: str, many: str) -> str:
    return "" if not number else f"1 {one}" if number == 1 else f"{number} {many}"


def nowhere(trace: Trace) -> str:
    """Why the list of where it went is empty."""
    if trace.kind == "dish" and trace.lot is not None:
        portions = f", {trace.lot.portions} portions" if trace.lot.portions else ""
        return f"A plate is the end of the way: made {day_text(wall_day(trace.lot.made_at))}{portions}."
    return "Nothing has been made of it yet."


def lot_sentence(lot: TraceLot) -> str:
    """All that is known of one line of the list, uncut."""
    where = lot.where or "place not stated"
    more = f", {lot.detail}" if lot.detail and lot.detail not in where else ""
    weight = f"{kg_text(lot.grams_from)} of {kg_text(lot.grams)}"
    return f"{lot.code} {lot.name}, made {day_text(wall_day(lot.when))}: {weight}, {lot.state}, {where}{more}"
