"""The recall on paper: every lot, person, answer and step, whatever was typed, with the texts to send."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from io import BytesIO

import pytest
from pypdf import PdfReader

from gametrace.documents.recall_report import recall_pdf
from gametrace.facts.recall import recall_steps
from gametrace.facts.sources import citation
from gametrace.register.recall_sheets import CallMade, RecallSheet, Service, StepNow, ToCall
from gametrace.register.records import Larder
from gametrace.register.visit_records import VisitSheet


@pytest.fixture
def sheet(a_visit: Callable[[int], VisitSheet], noon: datetime) -> RecallSheet:
    animals = a_visit(3).deliveries
    steps = tuple(
        StepNow(one.id, one.name, citation(one.source), one.status, one.note) for one in recall_steps()
    )
    return RecallSheet(
        code="R001",
        what="haunch <b>of</b> fallow",
        reason="the supplier rang & said so",
        opened_at=noon,
        opened_by="IM",
        closed_at=None,
        closed_by="",
        outcome="",
        named=(animals[0].lot,),
        animals=animals,
        affected=tuple(one.lot for one in animals),
        services=(Service("service", "Thursday lunch", "13 Nov 2026", ("26-00011-L",), 12),),
        to_call=(
            ToCall("the food team", "told at once", ""),
            ToCall("The Gannet Inn", "supplied", "01632 960103"),
        ),
        calls=(CallMade("the food team", "keep it and wait", noon, "WP"),),
        steps=(replace(steps[0], answer="done", said="all on hold", at=noon, by="IM"), *steps[1:]),
    )


def words_of(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages).split())


def test_every_lot_person_answer_and_step_is_on_it(
    sheet: RecallSheet, larder: Larder, noon: datetime
) -> None:
    words = words_of(recall_pdf(sheet, larder, noon))
    for lot in sheet.affected:
        assert lot.code in words
    for expected in (
        "haunch <b>of</b> fallow",
        "the supplier rang & said so",
        "still running",
        "keep it and wait",
        "Not rung yet: The Gannet Inn (supplied), 01632 960103.",
        "Thursday lunch",
        "done: all on hold",
        "no answer yet",
        "Food Standards Agency, Food incidents",
        "The authority's wording, once it gives one, goes before these.",
        "Serve and sell no more of it.",
    ):
        assert expected in words, expected
    assert all(step.words[:40] in words for step in sheet.steps)


def test_an_ended_recall_says_how_and_the_same_sheet_gives_the_same_bytes(
    sheet: RecallSheet, larder: Larder, noon: datetime
) -> None:
    ended = replace(sheet, closed_at=noon, closed_by="IM", outcome="nothing was wrong")
    pdf = recall_pdf(ended, larder, noon)
    assert "How it ended: nothing was wrong" in words_of(pdf)
    assert "still running" not in words_of(pdf)
    assert pdf == recall_pdf(ended, larder, noon)


def test_a_thousand_affected_lots_run_over_pages_with_the_head_repeated(
    sheet: RecallSheet, larder: Larder, noon: datetime
) -> None:
    many = replace(sheet, affected=sheet.affected * 100)
    pages = PdfReader(BytesIO(recall_pdf(many, larder, noon))).pages
    assert len(pages) > 5
    assert "kg now" in pages[3].extract_text()
