"""The shape that stands beside every state word, drawn in one ink so that it survives a photocopy.

Ready is a filled disc, hanging a ring, on hold a square with a bar across, stopped a cross in a square,
spent a dashed ring, served a ring in a ring (a plate). The shape never stands without its word.
"""

from __future__ import annotations

from typing import Any

from reportlab.lib.colors import Color
from reportlab.platypus import Flowable

from gametrace.documents.brand import BLACK, INK
from gametrace.domain.findings import Severity
from gametrace.domain.lots import LotState

_STOPPED = {
    LotState.LOCKED.value,
    LotState.REJECTED.value,
    LotState.SPECIMEN.value,
    LotState.OUT_OF_DATE.value,
}


def draw_mark(canvas: Any, state: str, x: float, y: float, size: float, ink: Color = BLACK) -> None:
    """Draw the shape of `state` into the square with its lower left corner at x, y."""
    canvas.saveState()
    canvas.setStrokeColor(ink)
    canvas.setFillColor(ink)
    canvas.setLineWidth(size * 0.13)
    canvas.setLineCap(0)
    edge, middle = size * 0.07, size / 2
    if state == LotState.READY:
        canvas.circle(x + middle, y + middle, middle * 0.9, stroke=0, fill=1)
    elif state == LotState.ON_HOLD:
        canvas.rect(x + edge, y + edge, size - 2 * edge, size - 2 * edge)
        canvas.rect(x + edge, y + size * 0.38, size - 2 * edge, size * 0.24, stroke=0, fill=1)
    elif state in _STOPPED:
        canvas.rect(x + edge, y + edge, size - 2 * edge, size - 2 * edge)
        canvas.line(x + edge, y + edge, x + size - edge, y + size - edge)
        canvas.line(x + edge, y + size - edge, x + size - edge, y + edge)
    else:
        if state in (LotState.SPENT, LotState.GONE):
            canvas.setDash(size * 0.18, size * 0.14)
        canvas.circle(x + middle, y + middle, middle * 0.85)
        if state == LotState.SERVED:
            canvas.circle(x + middle, y + middle, middle * 0.4)
    canvas.restoreState()


def draw_finding_mark(canvas: Any, severity: str, x: float, y: float, size: float) -> None:
    """A note is a small disc, an ask an open oblong to be filled, a stop the square of a hold."""
    if severity == Severity.STOP:
        draw_mark(canvas, LotState.ON_HOLD.value, x, y, size, INK)
    elif severity == Severity.ASK:
        canvas.setStrokeColor(INK)
        canvas.setLineWidth(size * 0.13)
        canvas.rect(x, y + size * 0.2, size, size * 0.6)
    else:
        canvas.setFillColor(INK)
        canvas.circle(x + size / 2, y + size / 2, size * 0.24, stroke=0, fill=1)


class FindingMark(Flowable):
    """A finding's shape as a piece of a table cell."""

    def __init__(self, severity: str, size: float = 7) -> None:
        super().__init__()
        self.severity = severity
        self.width = self.height = size

    def draw(self) -> None:
        """Drawn once in a paper and then shown wherever it stands: a year's pack holds thousands."""
        form = f"finding.{self.severity}.{self.height:g}"
        if not self.canv.hasForm(form):
            self.canv.beginForm(form, -1, -2, self.width + 1, self.height + 1)
            draw_finding_mark(self.canv, self.severity, 0, -1, self.height)
            self.canv.endForm()
        self.canv.doForm(form)


class Mark(Flowable):
    """A state's shape as a piece of a table cell."""

    def __init__(self, state: str, size: float = 7) -> None:
        super().__init__()
        self.state = state
        self.width = self.height = size

    def draw(self) -> None:
        draw_mark(self.canv, self.state, 0, -1, self.height, INK)
