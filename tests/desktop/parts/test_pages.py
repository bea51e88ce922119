"""A long list asks for what is in sight, keeps little, and looks like a list to the table."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import pytest

from gametrace.desktop.look import Look
from gametrace.desktop.parts.pages import A_PAGE, PAGES_KEPT, Pages
from gametrace.desktop.parts.table import Column, RecordTable


class One(NamedTuple):
    code: str


class Asked:
    def __init__(self) -> None:
        self.pages: list[int] = []

    def __call__(self, first: int, many: int) -> Sequence[Any]:
        self.pages.append(first)
        return [One(f"no {row}") for row in range(first, min(first + many, 1_000_000))]


@pytest.fixture
def asked() -> Asked:
    return Asked()


@pytest.fixture
def table(qtbot, asked: Asked) -> RecordTable:
    found = RecordTable(Look(), "Long", (Column("code", "Code", lambda one: one.code),), lambda one: one.code)
    qtbot.addWidget(found)
    found.resize(600, 600)
    found.set_records(Pages(1_000_000, asked))
    found.show()
    return found


def test_a_million_rows_are_shown_by_asking_for_what_is_in_sight(table, asked: Asked, qtbot) -> None:
    table.scrollTo(table.records_model.index(765_432, 0))
    table.grab()
    assert table.records_model.rowCount() == 1_000_000
    assert table.records_model.record(765_432).code == "no 765432"
    assert len(asked.pages) < 6


def test_only_some_pages_are_kept_and_the_oldest_goes_first(asked: Asked) -> None:
    pages = Pages(1_000_000, asked)
    for page in range(PAGES_KEPT + 5):
        assert pages[page * A_PAGE].code == f"no {page * A_PAGE}"
    assert len(pages.seen()) == PAGES_KEPT * A_PAGE
    assert pages.seen()[0][0] == 5 * A_PAGE


def test_the_chosen_row_stays_chosen_when_the_list_is_made_anew(table, asked: Asked) -> None:
    table.selectRow(3)
    again = Pages(1_000_000, asked)
    assert again[0]
    table.set_records(again)
    assert table.current_id() == "no 3"


def test_a_long_list_keeps_its_order_whatever_head_is_pressed(table) -> None:
    table.records_model.sort(0)
    assert table.records_model.record(0).code == "no 0"


def test_a_short_list_in_pages_is_sorted_like_any_other(table) -> None:
    table.set_records(Pages(3, lambda first, many: [One("b"), One("a"), One("c")]))
    table.records_model.sort(0)
    assert [one.code for one in table.records_model.records()] == ["a", "b", "c"]


def test_a_row_beyond_the_end_is_no_row(asked: Asked) -> None:
    pages = Pages(7, asked)
    assert pages[-1].code == "no 6"
    assert [one.code for one in pages[2:4]] == ["no 2", "no 3"]
    with pytest.raises(IndexError):
        pages[7]
