"""Setting plain text on a canvas: how large it may be, where its lines break, where it must end.

For papers with fixed places (labels, the drawn trace). Running text is ReportLab's paragraphs' work.
"""

from __future__ import annotations

from reportlab.pdfbase.pdfmetrics import stringWidth

ELLIPSIS = "…"
_LOOKED_AT = 400  # characters: no fixed place on any paper holds more


def width_of(text: str, font: str, size: float) -> float:
    return float(stringWidth(text, font, size))


def fitting_size(text: str, font: str, width: float, largest: float, smallest: float) -> float:
    """The largest size at which `text` fits `width`, in half points, never under `smallest`."""
    at_one = width_of(text[:_LOOKED_AT], font, 1)
    if not at_one:
        return largest
    return max(smallest, min(largest, int(2 * width / at_one) / 2))


def cut_to(text: str, font: str, size: float, width: float) -> str:
    """`text`, or as much of its beginning as fits with '…' after it."""
    text = text[:_LOOKED_AT]
    if width_of(text, font, size) <= width:
        return text
    while text and width_of(text + ELLIPSIS, font, size) > width:
        text = text[:-1].rstrip()
    return text + ELLIPSIS


def wrapped(text: str, font: str, size: float, width: float, most: int) -> list[str]:
    """`text` in at most `most` lines; the last one ends with '…' where there was more."""
    lines: list[str] = []
    rest = text[:_LOOKED_AT].strip()
    while rest and len(lines) < most - 1 and width_of(rest, font, size) > width:
        at = _break_at(rest, font, size, width)
        lines.append(rest[:at].rstrip())
        rest = rest[at:].lstrip()
    if rest:
        lines.append(cut_to(rest, font, size, width))
    return lines


def _break_at(text: str, font: str, size: float, width: float) -> int:
    """Where the first line ends: after the last whole word that fits, else inside a word too long."""
    fits = 1
    while fits < len(text) and width_of(text[: fits + 1], font, size) <= width:
        fits += 1
    if fits < len(text) and text[fits] == " ":
        return fits
    blank = text.rfind(" ", 0, fits)
    return blank if blank > 0 else fits
