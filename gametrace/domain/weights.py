"""Whether a carcass weighs what its kind usually does, said with the basis the range speaks of.

The trade's ranges and the published live weights share their numbers, so a range is a hint for
finding a slip of the pen or the wrong species. It never stops a delivery and converts no weight.
"""

from __future__ import annotations

from dataclasses import dataclass

from gametrace.domain.deliveries import Basis
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.quantities import kg_text
from gametrace.facts.sources import citation
from gametrace.facts.species import Species, age_classes
from gametrace.facts.species import species as species_called
from gametrace.facts.weights import WeightRange, weight_ranges

CHECK_THE_SCALE = (
    "Look at the scale, the species, the sex and how far the carcass is dressed; "
    "if the weight stands, say why."
)


@dataclass(frozen=True, slots=True)
class _Beast:
    """What was weighed: enough to name it and to choose the range."""

    kind: Species
    sex: str
    age_class: str | None
    grams: int  # of one body
    count: int
    basis: Basis

    @property
    def called(self) -> str:
        word = {"male": self.kind.males, "female": self.kind.females}.get(self.sex, "")
        name = self.kind.name
        return name if not word or name.endswith(word) else f"{name} {word}"

    @property
    def weight(self) -> str:
        return kg_text(self.grams) + (" each on average" if self.count > 1 else "")

    @property
    def dressed_as_the_trade_says(self) -> bool:
        return self.basis == Basis(in_skin=True, head_on=True, feet_on=False, pluck_in=False)

    @property
    def adult(self) -> bool:
        """An age not given counts as grown: that asks rather than lets a slip by."""
        classes = age_classes(self.kind.id, self.sex)
        return all(one.adult for one in classes if one.id == self.age_class)

    @property
    def aside(self) -> str:
        """Says how the beast differs from the range's basis, where it does."""
        return "" if self.dressed_as_the_trade_says else f" This one is {self.basis.words}."


def weight_findings(
    *,
    species: str,
    sex: str,
    age_class: str | None,
    grams: int,
    in_skin: bool,
    head_on: bool,
    feet_on: bool,
    pluck_in: bool,
    count: int = 1,
) -> tuple[Finding, ...]:
    """One finding: as usual, outside the usual, or nothing to measure it against.

    `grams` is the whole weight of `count` bodies; a batch is judged by its average.
    """
    kind = species_called(species)
    basis = Basis(in_skin=in_skin, head_on=head_on, feet_on=feet_on, pluck_in=pluck_in)
    beast = _Beast(kind, sex, age_class, grams // max(count, 1), count, basis)
    held = weight_ranges(kind.id, sex)
    if not held:
        sentence = f"No usual weight is held for {beast.called}; {beast.weight} is recorded."
        return (Finding("weight-no-range", Severity.NOTE, sentence),)
    if not beast.adult:
        return (_young(beast, held[0]),)
    ranges = _ranges_to_use(held, beast)
    for row in ranges:
        if row.usual and row.low_grams <= beast.grams <= row.high_grams:
            return (_as_usual(beast, row),)
    if all(row.basis == "live" for row in ranges) and beast.grams < ranges[0].low_grams:
        return (_below_live(beast, ranges[0]),)
    return (_unusual(beast, ranges),)


def _ranges_to_use(held: tuple[WeightRange, ...], beast: _Beast) -> tuple[WeightRange, ...]:
    """The trade's range for a carcass dressed as it speaks of; else any carcass range; else live."""
    as_dressed = tuple(row for row in held if row.basis == "head-on-feet-off")
    if beast.dressed_as_the_trade_says and as_dressed:
        return as_dressed
    carcass = tuple(row for row in held if row.basis != "live")
    return carcass or held


def _short_kg(grams: int) -> str:
    """A round figure for a range: 46 kg, 1.2 kg, 750 g. Measured weights are shown with `kg_text`."""
    if grams < 1000:
        return f"{grams} g"
    rest = f"{grams % 1000:03d}".rstrip("0")
    return f"{grams // 1000}{'.' if rest else ''}{rest} kg"


def _span(row: WeightRange) -> str:
    who = f"{row.qualifier}; " if row.qualifier else ""
    return f"{_short_kg(row.low_grams)} to {_short_kg(row.high_grams)} ({who}{row.basis_words})"


def _young(beast: _Beast, row: WeightRange) -> Finding:
    classes = age_classes(beast.kind.id, beast.sex)
    name = next((one.name for one in classes if one.id == beast.age_class), "young animal")
    sentence = (
        f"{beast.weight} for {beast.kind.name} {name}: the range held, {_span(row)}, "
        "is of grown animals and says little here."
    )
    return Finding("weight-young", Severity.NOTE, sentence, "", citation(row.source), row.status)


def _as_usual(beast: _Beast, row: WeightRange) -> Finding:
    sentence = f"{beast.weight} is within what is usual for {beast.called}: {_span(row)}.{beast.aside}"
    return Finding("weight-usual", Severity.NOTE, sentence, "", citation(row.source), row.status)


def _below_live(beast: _Beast, row: WeightRange) -> Finding:
    sentence = (
        f"{beast.weight} for {beast.called}: only a live range is held, {_span(row)}, "
        f"and a carcass weighs less.{beast.aside}"
    )
    return Finding("weight-live-only", Severity.NOTE, sentence, "", citation(row.source), row.status)


def _unusual(beast: _Beast, ranges: tuple[WeightRange, ...]) -> Finding:
    spans = "; ".join(_span(row) for row in ranges)
    sentence = f"{beast.weight} is outside what is usual for {beast.called}: {spans}.{beast.aside}"
    sources = "; ".join(dict.fromkeys(citation(row.source) for row in ranges))
    status = "; ".join(dict.fromkeys(row.status for row in ranges))
    return Finding("weight-unusual", Severity.ASK, sentence, CHECK_THE_SCALE, sources, status)
