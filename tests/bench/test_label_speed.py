"""A thousand labels of a hundred lots on A4 sheets of 3 × 7, beside the same sheets without the square code.

The bar is the issue's: at most three times the time, at most a megabyte. Both sides are measured in one run.
"""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter

import pytest

from gametrace.documents.label_drawing import LabelDrawing
from gametrace.documents.labels import label_pdf
from gametrace.documents.qr import dark_path, qr_matrix
from gametrace.documents.stocks import STOCKS
from gametrace.register.records import LabelSheet

MOST_TIMES, MOST_BYTES = 3, 1_000_000


def _seconds(work: Callable[[], object]) -> float:
    begun = perf_counter()
    work()
    return perf_counter() - begun


def _sheets() -> list[LabelSheet]:
    lines = ("0.850 kg · fallow · raw", "Vacuum", "Packed 19 Nov 2026", "Killed 12 Nov 2026")
    return [
        LabelSheet(
            f"26-{number % 100:05d}-K", "pack", "Haunch, left", lines, "Use by 29 Nov 2026", larder="Fenmoor"
        )
        for number in range(1000)
    ]


@pytest.mark.bench
@pytest.mark.slow
def test_a_thousand_labels_of_a_hundred_lots(monkeypatch: pytest.MonkeyPatch) -> None:
    sheets, stock = _sheets(), STOCKS["a4-3x7"]
    label_pdf(sheets[:10], stock)  # fonts are read once
    with_code, without, size = [], [], 0
    for _ in range(3):
        qr_matrix.cache_clear()
        dark_path.cache_clear()
        begun = perf_counter()
        size = len(label_pdf(sheets, stock))
        with_code.append(perf_counter() - begun)
        with monkeypatch.context() as changed:
            changed.setattr(LabelDrawing, "_square_code", _no_code)
            without.append(_seconds(lambda: label_pdf(sheets, stock)))
    factor = min(with_code) / min(without)
    print(
        f"\n1,000 labels: {min(with_code):.2f} s with the code, {min(without):.2f} s without, "
        f"factor {factor:.2f}; {size / 1000:.0f} kB"
    )
    assert factor <= MOST_TIMES
    assert size <= MOST_BYTES


def _no_code(label: LabelDrawing) -> float:
    return label.right - 52
