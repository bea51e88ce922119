"""The words of a dish's page: each record in a line with its sign, each plate, each left-over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from gametrace.desktop.parts.days import day_text
from gametrace.domain.cooking import time_text
from gametrace.domain.findings import Severity
from gametrace.domain.quantities import celsius_text, kg_text

if TYPE_CHECKING:
    from gametrace.register.plate_records import DishFile, KitchenRecord

_HEAT = {
    "cooking": "Cooked: {heat} at the core for {time}",
    "hot hold": "Kept hot at {heat}{below}",
    "cooling": "Cooled to {heat} in {time}",
    "reheat": "Reheated: {heat} at the core for {time}",
}
_HARDEST = (Severity.STOP, Severity.ASK, Severity.NOTE)


@dataclass(frozen=True, slots=True)
class Line:
    """One line: when, words, quiet words below it, and a sign ('' for none)."""

    words: str
    also: str = ""
    sign: str = ""


def clock(moment: Any) -> str:
    """'12:31' on the larder's clock."""
    from gametrace.register.clock import wall_text

    return wall_text(moment).rpartition(", ")[2]


def heat_lines(file: DishFile) -> Iterator[Line]:
    for one in file.records:
        words = _HEAT[one.sort].format(
            heat=celsius_text(one.tenths_c),
            time=time_text(one.seconds),
            below=f", {time_text(one.seconds)} below the figure" if one.seconds else "",
        )
        yield Line(f"{clock(one.at)}  {words}", _ruling(one), _sign(one))


def _sign(record: KitchenRecord) -> str:
    found = {finding.severity for finding in record.findings}
    return next((one.value for one in _HARDEST if one in found), "")


def _ruling(record: KitchenRecord) -> str:
    hardest = sorted(record.findings, key=lambda one: _HARDEST.index(one.severity))
    said = [one.sentence for one in hardest if one.severity is not Severity.NOTE]
    by = " · ".join(filter(None, (f"probe {record.probe}" if record.probe else "", record.by)))
    note = f" · note: {record.note}" if record.note else ""
    return "\n".join([f"{by}{note}", *said])


def plate_lines(file: DishFile) -> Iterator[Line]:
    for one in file.servings:
        yield Line(f"{clock(one.at)}  {portions(one.portions)} served", one.to_group or "to whom: not said")
    for left in file.left_overs:
        if left.is_waste:
            yield Line(f"{clock(left.at)}  {portions(left.portions)} to waste", left.note)
        else:
            date = f"use by {day_text(left.use_by)}" if left.use_by else ""
            also = " · ".join(part for part in (date, left.date_rule, left.note) if part)
            yield Line(f"{clock(left.at)}  {portions(left.portions)} back to stock, {left.code}", also)


def input_lines(file: DishFile) -> Iterator[Line]:
    for one in file.inputs:
        cooked = "cooked before; " if one.is_cooked else ""
        state = one.lot.state if one.lot.state_reason else ""
        yield Line(f"{kg_text(one.grams)} {one.lot.name}", f"{cooked}{one.lot.code}", state)
    for change in file.changes:
        yield Line(f"{clock(change.at)}  {change.sentence}", change.by)


def besides_words(file: DishFile) -> tuple[str, str]:
    """What else is in it, and the allergens."""
    names = ", ".join(f"{one.name} ({one.lot})" if one.lot else one.name for one in file.ingredients)
    return names, file.allergens


def counted(file: DishFile) -> str:
    """'20 made · 12 served · 8 here'."""
    left = sum(one.portions for one in file.left_overs)
    parts = [f"{file.portions} made", f"{file.served} served"]
    if left:
        parts.append(f"{left} left over")
    parts.append(f"{file.here} here")
    return " · ".join(parts)


def portions(count: int) -> str:
    return f"{count} portion" if count == 1 else f"{count} portions"


def none_said(lines: Sequence[Line], words: str) -> list[Line]:
    """The lines, or one that says what is missing."""
    return list(lines) or [Line("", words)]
