"""The yield sheet: one animal or several of a session, each on its page: weights, shares, spreads, costs.

Frozen answers of the register in, PDF bytes out. It compares with what is published as it is printed there,
and says where a figure is not known; it judges nobody's work.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from fractions import Fraction
from io import BytesIO

from reportlab.lib.colors import Color
from reportlab.platypus import Flowable, KeepTogether, PageBreak, Spacer

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, Face, Paper
from gametrace.documents.pieces import escaped, markup, pair, pairs_grid, paragraph, ruled_tables
from gametrace.documents.wording import counted, instant, kg, percent, pounds
from gametrace.domain.findings import rests_on
from gametrace.register.costs import CostPicture, PictureRow
from gametrace.register.records import Larder
from gametrace.register.yield_measures import Compared, Spread
from gametrace.register.yield_reading import part_name
from gametrace.register.yields import SideBySide, YieldOf

METHOD_WORDS = {"weight": "by weight", "points": "by points", "sales value": "by sales value"}
NOT_KNOWN = "not known"


def yield_sheet_pdf(
    animals: Sequence[tuple[YieldOf, CostPicture]], larder: Larder, printed_at: datetime, session: str = ""
) -> bytes:
    """The sheet of each animal, in the order given. `session` names the class or day they were cut in."""
    if not animals:
        raise ValueError("a yield sheet is of at least one animal")
    buffer = BytesIO()
    title = session or f"Yield of {animals[0][0].animal.code}"
    paper = Paper(
        buffer, Face(title, larder.name, instant(printed_at), larder.is_practice), "What a beast came to"
    )
    story: list[Flowable] = []
    for at, (found, picture) in enumerate(animals):
        story += [PageBreak()] if at else []
        story += _sheet(found, picture, session)
    paper.write(story)
    return buffer.getvalue()


def _sheet(found: YieldOf, picture: CostPicture, session: str) -> list[Flowable]:
    one = found.animal
    title = f"Yield: {escaped(one.code, 40)}, {escaped(one.name, 80)}"
    cuts = [line for line in found.compared if line.measure.kind == "cuts"]
    meat = [line for line in found.compared if line.measure.kind != "cuts"]
    story: list[Flowable] = [
        markup(title, brand.TITLE),
        *([paragraph(session, brand.BODY)] if session else []),
        Spacer(1, 6),
        pairs_grid(_head(found, picture), TEXT_WIDTH, 4),
    ]
    if cuts:
        story += [paragraph("Shares of what lay on the block", brand.HEADING), *_shares(cuts, found)]
    if meat:
        story += [paragraph("Meat and bone", brand.HEADING), *_shares(meat, found)]
    if found.sides:
        story.append(KeepTogether([paragraph("Left and right", brand.HEADING), *_sides(found.sides)]))
    story += [paragraph("What it cost", brand.HEADING), *_costs(picture)]
    notes = [one.sentence for one in (*found.findings, *picture.findings)]
    story += [paragraph(words, brand.SMALL) for words in dict.fromkeys(notes)]
    return story


def _head(found: YieldOf, picture: CostPicture) -> list[Flowable]:
    one, bought = found.animal, picture.purchase
    price = "" if bought is None or bought.pence is None else pounds(bought.pence)
    left = "closed" if one.is_finished else f"{kg(one.left_grams)} still to weigh"
    return [
        pair("Received", kg(one.grams_received)),
        pair("As", bought.basis if bought else ""),
        pair("On the block", kg(one.grams_in)),
        pair("Break-down", left),
        pair("Unaccounted on the block", kg(one.unaccounted_grams)),
        pair("Bought for", price),
        pair(
            "At", f"{pounds(bought.pence_per_kg)} a kg" if bought and bought.pence_per_kg is not None else ""
        ),
        pair("Cut by", ", ".join(one.cutters)),
    ]


def _shares(lines: Sequence[Compared], found: YieldOf) -> list[Flowable]:
    heads = ("part", "of", "weight", "share", "", "own median", "published, as printed there")
    widths = [TEXT_WIDTH * part for part in (0.18, 0.14, 0.09, 0.08, 0.2, 0.1, 0.21)]
    most = max((_top(line) for line in lines), default=Fraction(1))
    rows = [
        (
            line.measure.name,
            line.measure.of,
            "" if line.grams is None else kg(line.grams),
            percent(line.share),
            _Strip(line, most, widths[4] - 8),
            percent(line.others.median.median) if line.others.median else "under five",
            "; ".join(_spread(one) for one in line.others.published) or "nothing found",
        )
        for line in lines
    ]
    sources = dict.fromkeys(
        f"{one.name}, {_count(one.animals)}: {rests_on(one.source, one.status)}."
        for line in lines
        for one in line.others.published
    )
    beside = f"Median of {counted(found.like_it, 'animal')} of this larder: {found.like_words}."
    few = next((line.others.few.sentence for line in lines if line.others.few), "")
    return [
        *ruled_tables(heads, rows, widths, right=(2, 3, 5)),
        Spacer(1, 3),
        paragraph(" ".join(words for words in (beside, few) if words), brand.SMALL, 600),
        *(paragraph(words, brand.SMALL) for words in sources),
    ]


def _top(line: Compared) -> Fraction:
    own = [point.share for point in line.others.own]
    return max([line.share, *own, *(one.high for one in line.others.published)])


def _spread(one: Spread) -> str:
    figure = percent(one.low) if one.low == one.high else f"{percent(one.low)} to {percent(one.high)}"
    return figure if one.is_of_its_sex else f"{figure} (the other sex)"


def _count(animals: int) -> str:
    return "number of animals not said" if not animals else counted(animals, "animal")


def _sides(sides: Sequence[SideBySide]) -> list[Flowable]:
    heads = ("part", "left", "right", "boneless, left", "boneless, right", "cut by, left / right")
    widths = [TEXT_WIDTH * part for part in (0.24, 0.13, 0.13, 0.14, 0.14, 0.22)]
    rows = [
        (
            one.name,
            kg(one.grams[0]),
            kg(one.grams[1]),
            *("" if share is None else percent(share) for share in one.boneless),
            " / ".join(who or "–" for who in one.cutters) if any(one.cutters) else "",
        )
        for one in sides
    ]
    return ruled_tables(heads, rows, widths, right=(1, 2, 3, 4))


def _costs(picture: CostPicture) -> list[Flowable]:
    """Every row's weight and its cost, three ways; each way's column comes to what was paid."""
    heads = (
        "what came off",
        "weight",
        "of the weight",
        *METHOD_WORDS.values(),
        f"a kg, {METHOD_WORDS[picture.method]}",
    )
    widths = [TEXT_WIDTH * part for part in (0.27, 0.11, 0.12, 0.12, 0.12, 0.13, 0.13)]
    rows = [_cost_row(row, picture) for row in picture.rows]
    if picture.unaccounted_grams:
        share = percent(Fraction(picture.unaccounted_grams, picture.grams))
        rows.append(("unaccounted", kg(picture.unaccounted_grams), share, "", "", "", ""))
    paid = tuple(_pounds(picture.paid[way]) for way in METHOD_WORDS)
    rows.append(("in all", kg(picture.grams), "", *paid, ""))
    why = dict.fromkeys(words for way in METHOD_WORDS for words in picture.why_unknown[way])
    came_back = [*(picture.purchase.credits if picture.purchase else ()), *picture.sold]
    said = [f"{pounds(one.pence)}: {one.words}." for one in came_back]
    return [
        *ruled_tables(heads, rows, widths, right=(1, 2, 3, 4, 5, 6)),
        Spacer(1, 3),
        *(paragraph(words, brand.SMALL) for words in (*said, *why)),
    ]


def _cost_row(row: PictureRow, picture: CostPicture) -> tuple[str, ...]:
    per_kg = row.per_kg(picture.method)
    is_own_joint = row.joint in (row.product, "") or not row.product
    return (
        row.name if is_own_joint else f"{row.name} ({part_name(row.joint)})",
        kg(row.grams),
        percent(Fraction(row.grams, picture.grams)),
        *(_pounds(row.pence[way]) for way in METHOD_WORDS),
        "" if not per_kg else pounds(round(per_kg)),
    )


def _pounds(pence: int | None) -> str:
    return NOT_KNOWN if pence is None else pounds(pence)


class _Strip(Flowable):
    """One share drawn: published hatch, the larder's own as dots, its median a bar, this animal a diamond."""

    def __init__(self, line: Compared, most: Fraction, width: float) -> None:
        super().__init__()
        self.line, self.most = line, most or Fraction(1)
        self.width, self.height = width, 11

    def draw(self) -> None:
        canvas, middle = self.canv, self.height / 2
        canvas.setStrokeColor(brand.LINE)
        canvas.setLineWidth(0.4)
        canvas.line(0, middle, self.width, middle)
        for one in self.line.others.published:
            left, right = self._x(one.low), self._x(one.high)
            wide = max(right - left, 3)
            canvas.setStrokeColor(brand.INK)
            canvas.setLineWidth(0.6)
            canvas.setDash([] if one.is_of_its_sex else [1, 1])
            canvas.rect((left + right - wide) / 2, 0.5, wide, self.height - 1, stroke=1, fill=0)
            canvas.setDash([])
        canvas.setFillColor(Color(0.4, 0.47, 0.55, alpha=0.5))
        for point in self.line.others.own:
            canvas.circle(self._x(point.share), middle, 1.3, stroke=0, fill=1)
        canvas.setFillColor(brand.INK)
        if self.line.others.median:
            canvas.rect(
                self._x(self.line.others.median.median) - 0.6, 1, 1.2, self.height - 2, stroke=0, fill=1
            )
        x, size = self._x(self.line.share), 3.2
        path = canvas.beginPath()
        path.moveTo(x, middle + size)
        for across, up in ((size, 0), (0, -size), (-size, 0)):
            path.lineTo(x + across, middle + up)
        path.close()
        canvas.drawPath(path, stroke=0, fill=1)

    def _x(self, share: Fraction) -> float:
        return float(share / self.most) * (self.width - 8) + 4
