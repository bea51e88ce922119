"""The square code of a lot: which modules are dark, how large one may be printed, and the path that draws it.

A module is a whole number of printer dots, or a printer rounds some of them and scanners stumble. The four
light modules around the code that ISO/IEC 18004 asks for are part of its box. Nothing here places text.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil

import qrcode
from qrcode.constants import ERROR_CORRECT_Q

from gametrace.domain.errors import Refusal

QUIET_MODULES = 4
SMALLEST_MODULE_MM = 0.396  # GS1 General Specifications, range for a QR code: 0.396 to 0.990 mm
LARGEST_MODULE_MM = 0.990

Matrix = tuple[tuple[bool, ...], ...]


@lru_cache(maxsize=2048)
def qr_matrix(words: str) -> Matrix:
    """Rows from the top, True where dark, without the light border. Error correction level Q.

    The mask is searched for, as the standard asks, by the encoder.
    """
    code = qrcode.QRCode(error_correction=ERROR_CORRECT_Q, border=0)
    code.add_data(words)
    code.make(fit=True)
    return tuple(tuple(bool(module) for module in row) for row in code.get_matrix())


def module_mm(modules: int, box_mm: float, dot_mm: float) -> float:
    """The largest module that fits: a whole number of dots, never under what scanners can be sure of."""
    dots = int(min(box_mm / (modules + 2 * QUIET_MODULES), LARGEST_MODULE_MM) / dot_mm + 1e-9)
    if dots * dot_mm < SMALLEST_MODULE_MM - 1e-9:
        raise Refusal(
            f"The square code does not fit: it needs {smallest_box_mm(modules, dot_mm):.1f} mm "
            f"and this label leaves it {max(box_mm, 0):.1f} mm.",
            "Choose a larger label.",
            "stock",
        )
    return dots * dot_mm


def smallest_box_mm(modules: int, dot_mm: float) -> float:
    """The least room a code of this many modules needs, its light border included."""
    dots = ceil(SMALLEST_MODULE_MM / dot_mm - 1e-9)
    return (modules + 2 * QUIET_MODULES) * dots * dot_mm


@lru_cache(maxsize=2048)
def dark_path(matrix: Matrix) -> str:
    """Every dark module as one PDF path in module units, the origin at the lower left, filled once.

    A run of dark modules that repeats in the row below grows downwards instead of starting anew, so that
    a label costs some hundred small rectangles less.
    """
    size = len(matrix)
    finished: list[tuple[int, int, int, int]] = []
    growing: dict[tuple[int, int], int] = {}  # (start, length) -> the row where it began
    for row in range(size + 1):
        runs = set(_runs(matrix[row])) if row < size else set()
        for run, began in list(growing.items()):
            if run not in runs:
                start, length = run
                finished.append((start, size - row, length, row - began))
                del growing[run]
        for run in runs:
            growing.setdefault(run, row)
    return " ".join(f"{x} {y} {w} {h} re" for x, y, w, h in sorted(finished)) + " f"


def _runs(row: tuple[bool, ...]) -> list[tuple[int, int]]:
    """(start, length) of each stretch of dark modules."""
    runs, start = [], None
    for at, is_dark in enumerate((*row, False)):
        if is_dark and start is None:
            start = at
        elif not is_dark and start is not None:
            runs.append((start, at - start))
            start = None
    return runs
