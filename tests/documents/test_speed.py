"""A thousand labels beside the same without the square code: recorded, and only a wild factor fails."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from time import perf_counter
from typing import Any

import pytest

from gametrace.documents import label_drawing as drawing
from gametrace.documents.labels import label_pdf
from gametrace.documents.qr import dark_path, qr_matrix
from gametrace.documents.stocks import STOCKS
from gametrace.register.records import LabelSheet


def _seconds(work: Callable[[], object]) -> float:
    begun = perf_counter()
    work()
    return perf_counter() - begun


@pytest.mark.bench
@pytest.mark.slow
def test_a_thousand_square_codes_cost_few_times_the_labels_without_them(
    labels: tuple[LabelSheet, ...],
    monkeypatch: pytest.MonkeyPatch,
    record_property: Callable[[str, Any], None],
) -> None:
    sheets = [replace(labels[1], code=f"26-{number:05d}-K") for number in range(1000)]
    stock = STOCKS["a4-3x7"]
    label_pdf(sheets[:10], stock)  # fonts are read once
    qr_matrix.cache_clear()
    dark_path.cache_clear()
    first = _seconds(lambda: label_pdf(sheets, stock))
    again = _seconds(lambda: label_pdf(sheets, stock))
    monkeypatch.setattr(drawing.LabelDrawing, "_square_code", lambda label: label.right - 52)
    bare = _seconds(lambda: label_pdf(sheets, stock))
    record_property("seconds", (first, again, bare))
    record_property("factor", first / bare)
    assert first / bare < 30
