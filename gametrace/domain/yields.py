"""What came off a beast as shares of what went in, beside what is published and the larder's own median.

Everything is an exact Fraction until it is written as words. Published shares that do not come to the
whole are shown as printed with a warning; nothing is rescaled. It makes no league of anybody.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from gametrace.domain.findings import Finding, Severity
from gametrace.domain.quantities import kg_text
from gametrace.facts.sources import citation
from gametrace.facts.yields import WHOLE, PublishedYield, tolerance

ENOUGH_FOR_A_MEDIAN = 5  # common practice, no source
FEW = 10  # below this a median is shown with its count and a word of caution; common practice, no source

# A beast is held against the newest so many of its like, unless more are asked for: years ago others cut, and
# reading on takes seconds. Common practice, no source.
NEWEST = 500


def shares(parts: Mapping[str, int], weight_in: int) -> dict[str, Fraction]:
    """Each part's share of the weight in. They sum to 1 only when every gram was weighed."""
    if weight_in <= 0 or any(grams < 0 for grams in parts.values()):
        raise ValueError("shares are of a weight above nothing, in weights not below nothing")
    return {part: Fraction(grams, weight_in) for part, grams in parts.items()}


def boneless_of_bone_in(boneless_grams: int, bone_in_grams: int) -> Fraction:
    """How much of a cut on the bone was left when the bone was out."""
    return shares({"boneless": boneless_grams}, bone_in_grams)["boneless"]


def hundredths(share: Fraction) -> int:
    """A share in hundredths of a per cent, nearest, half up: only for words and drawings."""
    return (share * WHOLE + Fraction(1, 2)).__floor__()


def percent_text(share: Fraction, places: int = 1) -> str:
    """'39.4 %'. Rounded for the eye, half up."""
    scale = 10**places
    whole, rest = divmod((abs(share) * 100 * scale + Fraction(1, 2)).__floor__(), scale)
    figure = f"{whole}.{rest:0{places}d}" if places else str(whole)
    return f"{'-' if share < 0 else ''}{figure} %"


def closes(rows: Mapping[str, int], name: str = "These shares", source: str = "") -> Finding | None:
    """Whether shares in hundredths of a per cent come to 100; a warning with the sum where they do not."""
    total = sum(rows.values())
    if total == WHOLE:
        return None
    sentence = (
        f"{name}: the shares come to {percent_text(Fraction(total, WHOLE), 2)}, not 100. "
        "They are shown as printed; nothing was rescaled."
    )
    what = "Compare by the single figures; do not add them up."
    if not source:
        return Finding("yield-does-not-close", Severity.ASK, sentence, what)
    return Finding("yield-does-not-close", Severity.ASK, sentence, what, citation(source))


def published_closes(row: PublishedYield) -> Finding | None:
    """Whether a published row that should be whole is; a spread is taken at its low end."""
    if not row.whole:
        return None
    return closes({one.part: one.low for one in row.parts}, row.name, row.source)


def weights_close(parts: Mapping[str, int], weight_in: int) -> Finding | None:
    """Whether weights come to the weight in, to the gram; the difference in words where they do not."""
    left = weight_in - sum(parts.values())
    if not left:
        return None
    said = "are not accounted for" if left > 0 else "more came out than went in"
    return Finding(
        "weights-do-not-close",
        Severity.ASK,
        f"Of {kg_text(weight_in)}, {kg_text(abs(left))} {said}.",
        "Look for a tray, bone or skin that was not weighed, or one weighed twice.",
    )


def compare(part: str, share: Fraction, spreads: Iterable[PublishedYield]) -> tuple[Finding, ...]:
    """One finding a source: within what it prints, a little off it, or far off it (asks)."""
    return tuple(found for row in spreads if (found := _beside(part, share, row)) is not None)


def _beside(part: str, share: Fraction, row: PublishedYield) -> Finding | None:
    held = row.share(part)
    if held is None:
        return None
    low, high = Fraction(held.low, WHOLE), Fraction(held.high, WHOLE)
    printed = percent_text(low) if low == high else f"{percent_text(low)} to {percent_text(high)}"
    sentence = f"{part}: {percent_text(share)} of {row.of}. {row.name}, {_count(row.n)}: {printed}"
    give = Fraction(tolerance().parts_per_hundred, 100)
    cited, status = citation(row.source), row.status
    if low <= share <= high:
        return Finding("yield-as-published", Severity.NOTE, f"{sentence}.", "", cited, status)
    off = f"{percent_text(abs(share - (low if share < low else high)))} {'below' if share < low else 'above'}"
    sentence = f"{sentence}; {off}."
    if low * (1 - give) <= share <= high * (1 + give):
        return Finding("yield-near-published", Severity.NOTE, sentence, "", cited, status)
    ask = "Weigh again, or say why: shot damage, condition, or another way of cutting."
    return Finding("yield-far-from-published", Severity.ASK, sentence, ask, cited, status)


def _count(n: int) -> str:
    return {0: "number of animals not said", 1: "one animal"}.get(n, f"{n} animals")


@dataclass(frozen=True, slots=True)
class OwnMedian:
    """The larder's own middle figure with its range, count and, while there are few, a word of caution."""

    median: Fraction
    low: Fraction
    high: Fraction
    count: int
    caution: Finding | None


def median_of(own: Sequence[Fraction]) -> OwnMedian | None:
    """The larder's own median, once there are five; None before."""
    if len(own) < ENOUGH_FOR_A_MEDIAN:
        return None
    ordered = sorted(own, key=_in_order)
    half = len(ordered) // 2
    middle = ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2
    return OwnMedian(middle, ordered[0], ordered[-1], len(ordered), few_count(len(ordered)))


def _in_order(share: Fraction) -> int:
    """A whole number in the order of the shares, exactly: two of them differ by more than its last step.

    Thousands of fractions put in order by comparing them with each other take many times as long.
    """
    return (share.numerator << 128) // share.denominator  # no weight has anything near 64 bits


def few_count(count: int) -> Finding | None:
    """A word of caution where a figure rests on few animals; None where there are enough."""
    if count >= FEW:
        return None
    animals = "one animal" if count == 1 else f"{count} animals"
    if count < ENOUGH_FOR_A_MEDIAN:
        sentence = f"Only {animals} so far; the larder's own median is shown from {ENOUGH_FOR_A_MEDIAN} on."
    else:
        sentence = f"The median of only {animals}; one more may move it."
    return Finding("yield-few", Severity.NOTE, sentence, "", citation("common-practice"), "common practice")
