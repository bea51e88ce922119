"""Tables of a paper: every word of every cell as it was written, inside its column, under its head."""

from __future__ import annotations

from io import BytesIO

import pytest
from pypdf import PdfReader

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH, Face, Paper
from gametrace.documents.pieces import long_table, markup, ruled_tables

FACE = Face("A list", "A larder", "25 Nov 2026, 09:00", is_practice=False)


def printed(*pieces) -> list[str]:
    buffer = BytesIO()
    Paper(buffer, FACE, "A list").write(pieces)
    return [page.extract_text() for page in PdfReader(buffer).pages]


@pytest.mark.parametrize(
    "words", ['<b>Reed & Sons</b> "x"', "a (b) \\c) (", "Ångström Éire 5 °C − ½", "&lt;br/&gt;", "Tj ET Q"]
)
def test_whatever_stands_in_a_cell_is_printed_as_it_was_written(words: str) -> None:
    (page,) = printed(*ruled_tables(("name", "kg"), [(words, "1.000")], (300, 60), right=(1,)))
    assert words in page


def test_a_word_longer_than_its_column_goes_on_below_and_stays_inside_it() -> None:
    (table,) = ruled_tables(("name", "kg"), [("W" * 60, "1.000")], (100, 60))
    assert table.wrap(TEXT_WIDTH, 500)[1] > 3 * brand.CELL.leading
    (page,) = printed(table)
    assert "".join(page.split()).count("W") == 60


def test_a_long_list_goes_over_the_pages_with_its_head_on_each_and_every_row_once() -> None:
    rows = ((f"row {number}.", markup(f"<b>{number}</b> kg")) for number in range(500))
    pages = printed(*long_table(("what", "weight"), rows, (200, 100)))
    assert len(pages) > 5
    assert all("what" in page and "weight" in page for page in pages)
    whole = "\n".join(pages)
    assert all(whole.count(f"row {number}.") == 1 for number in range(500))


def test_the_rows_of_a_long_list_are_made_when_the_page_comes_to_them() -> None:
    made: list[int] = []

    def rows():
        for number in range(1_000):
            made.append(number)
            yield (f"row {number}",)

    tables = long_table(("what",), rows(), (200,))
    next(tables)
    assert len(made) < 400


def test_no_head_is_left_alone_at_the_foot_of_a_page() -> None:
    (table,) = ruled_tables(("what",), [("one",), ("two",)], (200,))
    height = table.wrap(200, 500)[1]
    assert table.split(200, height / 3) == []
    first, rest = table.split(200, height - 1)
    tall = first.wrap(200, 500)[1] + rest.wrap(200, 500)[1]
    assert tall > height  # the head came again
