"""The rows of the picture of cost: by joint or by cut, weight against cost, in one way of spreading."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from gametrace.domain.quantities import kg_text, pounds_text
from gametrace.domain.yields import percent_text

NOT_FOOD, NOT_CUT = "not for food", ""


@dataclass(frozen=True, slots=True)
class CutBar:
    """One product, or one joint with all that came off it. `pence` is None where it is not known."""

    key: str
    name: str
    is_meat: bool
    grams: int
    pence: int | None
    of_weight: Fraction
    of_cost: Fraction | None

    @property
    def per_kg(self) -> Fraction | None:
        return None if self.pence is None or not self.grams else Fraction(self.pence * 1000, self.grams)

    def words(self, bought_per_kg: Fraction | None) -> str:
        """What is drawn of it, for a line under the picture and for an ear."""
        said = f"{self.name}: {kg_text(self.grams)}, {percent_text(self.of_weight)} of the weight"
        if self.pence is None or self.per_kg is None:
            return f"{said}. What it costs is not known."
        if not self.pence:
            return f"{said}. It carries no cost: the meat carries it all."
        said += f", {percent_text(self.of_cost or Fraction(0))} of the cost: {pounds_text(self.pence)}, "
        said += f"{pounds_text(round(self.per_kg))} a kilo"
        if bought_per_kg:
            tenths = round(self.per_kg * 10 / bought_per_kg)
            said += f", {tenths // 10}.{tenths % 10} times the price bought at"
        return f"{said}."


def bars_of(picture: Any, method: str, *, by_joint: bool) -> tuple[CutBar, ...]:
    """Meat in the order it hangs together, then what is not for food; weights come to the whole."""
    grams: dict[str, int] = {}
    pence: dict[str, int | None] = {}
    names: dict[str, str] = {}
    meat: dict[str, bool] = {}
    for row in picture.rows:
        key = _key(row, by_joint)
        names.setdefault(key, _name(row, by_joint, key))
        meat.setdefault(key, row.is_meat)
        grams[key] = grams.get(key, 0) + row.grams
        before, more = pence.get(key, 0), row.pence[method]
        pence[key] = None if before is None or more is None else before + more
    if picture.unaccounted_grams > 0:
        names["unaccounted"], meat["unaccounted"] = "unaccounted", False
        grams["unaccounted"], pence["unaccounted"] = picture.unaccounted_grams, 0
    whole, paid = sum(grams.values()), picture.paid[method]
    bars = [
        CutBar(
            key=key,
            name=names[key],
            is_meat=meat[key],
            grams=grams[key],
            pence=pence[key],
            of_weight=Fraction(grams[key], whole or 1),
            of_cost=None if pence[key] is None or not paid else Fraction(pence[key] or 0, paid),
        )
        for key in grams
    ]
    return tuple(sorted(bars, key=lambda bar: (not bar.is_meat, -(bar.per_kg or 0), -bar.grams)))


def _key(row: Any, by_joint: bool) -> str:
    if not row.is_meat:
        return f"{NOT_FOOD}.{row.product}"
    return row.joint if by_joint and row.product != NOT_CUT else row.product


def _name(row: Any, by_joint: bool, key: str) -> str:
    if not (by_joint and row.is_meat and row.product != NOT_CUT):
        return row.name
    from gametrace.facts.cuts import product

    return product(key).name
