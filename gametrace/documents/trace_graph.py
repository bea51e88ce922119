"""The drawn trace: animals at the left, plates at the right, every band as thick as its grams.

What is drawn was decided in `trace_plan`; this module only finds it a place. Bands are a light grey with an
outline, so that words stand on them and a photocopy keeps them.
"""

from __future__ import annotations

from reportlab.platypus import Flowable

from gametrace.documents import brand
from gametrace.documents.marks import draw_mark
from gametrace.documents.pieces import printable
from gametrace.documents.trace_plan import Node, plan_of
from gametrace.documents.typesetting import cut_to, width_of
from gametrace.register.records import Trace

BAR = 3.2  # width of a node's bar, points
LABEL_HEIGHT = 19.0  # two lines of words
LEAST_THICKNESS = 0.4  # a gram is still seen


class TraceGraph(Flowable):
    """The drawing as a piece of a page."""

    def __init__(self, trace: Trace, width: float, height: float) -> None:
        super().__init__()
        self.width, self.height = width, height
        self.plan = plan_of(trace)
        self.columns = self.plan.layers()
        self.left: dict[str, float] = {}
        self.top: dict[str, float] = {}
        self.tall: dict[str, float] = {}
        self._order_columns()
        self._place()

    def draw(self) -> None:
        self._draw_bands()
        for column in self.columns:
            for key in column:
                self._draw_node(key, self.plan.nodes[key])

    def _order_columns(self) -> None:
        """Each column in the order of where its grams come from, so that few bands cross."""
        row: dict[str, int] = {}
        for column in self.columns:
            pulls = {key: self._pull(key, row) for key in column}
            if row:
                column.sort(key=pulls.__getitem__)
            row |= {key: at for at, key in enumerate(column)}

    def _pull(self, key: str, row: dict[str, int]) -> float:
        """The mean row of what it was made from, by grams; what came from nowhere stands last."""
        parents = [(row[start], grams) for (start, end), grams in self.plan.bands.items() if end == key]
        total = sum(grams for _, grams in parents)
        return sum(at * grams for at, grams in parents) / total if total else float(len(row))

    def _place(self) -> None:
        """Give every node its corner and height: the largest scale at which every column fits."""
        if not self.columns:
            return
        step = self.width / len(self.columns)
        fullest = max(sum(self.plan.nodes[key].weight for key in column) for column in self.columns)
        scale = self.height * 0.8 / fullest
        while scale * fullest > 8 and any(sum(self._slots(c, scale)) > self.height for c in self.columns):
            scale *= 0.93
        for at, column in enumerate(self.columns):
            slots = self._slots(column, scale)
            squeeze = min(1.0, self.height / sum(slots))
            gap = (self.height - sum(slots) * squeeze) / (len(column) + 1)
            y = self.height - gap
            for key, slot in zip(column, slots, strict=True):
                tall = max(self.plan.nodes[key].weight * scale, 1.2)
                self.left[key] = at * step
                self.top[key] = y - (slot * squeeze - tall) / 2
                self.tall[key] = tall
                y -= slot * squeeze + gap

    def _slots(self, column: list[str], scale: float) -> list[float]:
        return [max(self.plan.nodes[key].weight * scale + 4, LABEL_HEIGHT) for key in column]

    def _draw_bands(self) -> None:
        """From the top of each bar downwards, in the order of where the bands end and begin."""
        used_out = dict.fromkeys(self.plan.nodes, 0.0)
        used_in = dict.fromkeys(self.plan.nodes, 0.0)
        ends = sorted(self.plan.bands, key=self._from_top)
        for start, end in ends:
            grams = self.plan.bands[start, end]
            thick_out = self.tall[start] * grams / self.plan.nodes[start].weight
            thick_in = self.tall[end] * grams / self.plan.nodes[end].weight
            y_out, y_in = self.top[start] - used_out[start], self.top[end] - used_in[end]
            used_out[start] += thick_out
            used_in[end] += thick_in
            if self.left[end] > self.left[start]:
                self._ribbon((self.left[start] + BAR, y_out, thick_out), (self.left[end], y_in, thick_in))

    def _from_top(self, ends: tuple[str, str]) -> tuple[float, float, str]:
        start, end = ends
        return (-self.top[start], -self.top[end], end)

    def _ribbon(self, start: tuple[float, float, float], end: tuple[float, float, float]) -> None:
        (x1, y1, thick1), (x2, y2, thick2) = start, end
        low1, low2 = y1 - max(thick1, LEAST_THICKNESS), y2 - max(thick2, LEAST_THICKNESS)
        bend = (x2 - x1) * 0.5
        path = self.canv.beginPath()
        path.moveTo(x1, y1)
        path.curveTo(x1 + bend, y1, x2 - bend, y2, x2, y2)
        path.lineTo(x2, low2)
        path.curveTo(x2 - bend, low2, x1 + bend, low1, x1, low1)
        path.close()
        self.canv.setFillColor(brand.FAINT)
        self.canv.setStrokeColor(brand.LINE)
        self.canv.setLineWidth(0.3)
        self.canv.drawPath(path, stroke=1, fill=1)

    def _draw_node(self, key: str, node: Node) -> None:
        canvas, x, top, tall = self.canv, self.left[key], self.top[key], self.tall[key]
        canvas.setFillColor(brand.PINE if node.is_asked else brand.INK)
        canvas.rect(x, top - tall, BAR * 2 if node.is_asked else BAR, tall, stroke=0, fill=1)
        middle = top - tall / 2
        words_at = x + BAR + (8 if node.is_asked else 5)
        room = x + self.width / len(self.columns) - words_at - 6
        mark_at = words_at
        if node.state:
            words_at, room = words_at + 8.5, room - 8.5
        font = brand.BOLD if node.is_asked else brand.SEMIBOLD
        words = cut_to(printable(node.words), font, 7.2, room)
        second = cut_to(printable(node.second), brand.REGULAR, 6.6, room)
        wide = max(width_of(words, font, 7.2), width_of(second, brand.REGULAR, 6.6))
        is_on_band = node.grams_out == node.weight and tall > LABEL_HEIGHT
        if not is_on_band or sum(start == key for start, _ in self.plan.bands) > 1:
            # A patch keeps bands and their outlines from running through the words.
            canvas.setFillColor(brand.FAINT if is_on_band else brand.WHITE, alpha=0.75)
            canvas.rect(x + BAR + 3, middle - 9, words_at - x - BAR - 2 + wide, 17, stroke=0, fill=1)
            canvas.setFillAlpha(1)
        if node.state:
            draw_mark(canvas, node.state, mark_at, middle + 0.6, 6, brand.INK)
        canvas.setFillColor(brand.INK)
        canvas.setFont(font, 7.2)
        canvas.drawString(words_at, middle + 1, words)
        canvas.setFillColor(brand.QUIET)
        canvas.setFont(brand.REGULAR, 6.6)
        canvas.drawString(words_at, middle - 7, second)
