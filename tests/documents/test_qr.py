"""The square code: dark modules, whole dots, and what is refused."""

from __future__ import annotations

import re

import pytest
import qrcode
from hypothesis import given
from hypothesis import strategies as st

from gametrace.documents.qr import dark_path, module_mm, qr_matrix
from gametrace.domain.errors import Refusal

ROLL_DOT_MM = 0.125  # a printer sold as 203 dpi has 8 dots a millimetre
DOT_300_MM = 25.4 / 300


def _painted(path: str, size: int) -> list[list[bool]]:
    """The modules a path paints, worked out from its rectangles alone."""
    modules = [[False] * size for _ in range(size)]
    for rectangle in re.findall(r"(\d+) (\d+) (\d+) (\d+) re", path):
        x, y, width, height = map(int, rectangle)
        for row in range(size - y - height, size - y):
            for column in range(x, x + width):
                assert not modules[row][column], "two rectangles overlap"
                modules[row][column] = True
    return modules


def test_a_lot_code_needs_only_the_smallest_symbol_at_level_q() -> None:
    # ISO/IEC 18004: version 1 has 21 modules and holds 16 alphanumeric characters at level Q.
    assert len(qr_matrix("26-00417-K")) == 21


def test_the_matrix_is_the_encoders_own() -> None:
    code = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_Q, border=0)
    code.add_data("26-00417-K")
    assert [list(row) for row in qr_matrix("26-00417-K")] == code.get_matrix()


@given(st.integers(1, 12).flatmap(lambda size: st.lists(
    st.lists(st.booleans(), min_size=size, max_size=size), min_size=size, max_size=size)))  # fmt: skip
def test_the_path_paints_exactly_the_dark_modules_and_none_twice(rows: list[list[bool]]) -> None:
    matrix = tuple(tuple(row) for row in rows)
    assert _painted(dark_path(matrix), len(rows)) == rows


def test_runs_that_repeat_in_the_next_row_are_merged() -> None:
    matrix = qr_matrix("26-00417-K")
    dark = sum(sum(row) for row in matrix)
    assert dark_path(matrix).count("re") < dark / 2


@pytest.mark.parametrize("dot_mm", [ROLL_DOT_MM, DOT_300_MM])
@pytest.mark.parametrize("box_mm", [14.6, 16, 18.2, 22, 31, 60])
def test_a_module_is_a_whole_number_of_dots_and_of_the_published_size(dot_mm: float, box_mm: float) -> None:
    module = module_mm(21, box_mm, dot_mm)
    assert module / dot_mm == pytest.approx(round(module / dot_mm))
    # GS1 General Specifications for a QR code: 0.396 mm to 0.990 mm.
    assert 0.396 <= module <= 0.990
    assert module * (21 + 8) <= box_mm + 1e-9


def test_four_dots_of_a_roll_printer_are_half_a_millimetre() -> None:
    assert module_mm(21, 14.5, ROLL_DOT_MM) == 0.5


def test_a_code_that_cannot_fit_is_refused_with_a_sentence() -> None:
    with pytest.raises(Refusal, match=r"needs 14\.5 mm and this label leaves it 12\.0 mm.*larger label"):
        module_mm(21, 12, ROLL_DOT_MM)
