"""Notices for the door: one page whatever was typed, with every step and the number to ring."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from datetime import datetime
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from gametrace.documents.notices import Notice, notice_pdf, positive_notice, suspicion_notice
from gametrace.domain.boar import what_to_do_when_positive
from gametrace.domain.examination import what_to_do_on_suspicion, whom_to_ring
from gametrace.register.animal_file import AnimalFile, Call
from gametrace.register.records import Larder
from gametrace.register.visit_records import VisitSheet

SIGNS = (("tuberculosis", "pus in the lungs"),)


@pytest.fixture
def file(a_visit: Callable[[int], VisitSheet], noon: datetime) -> AnimalFile:
    given: dict[str, Any] = {
        "carcass": a_visit(1).deliveries[0],
        "looks": (),
        "marks": (),
        "calls": (Call("notifiable", "Keep it; a vet comes at three", "R. Lane", "AB", noon),),
        "calls_to_make": (),
        "pictures": (),
        "second_decision": "",
        "second_reason": "",
        "claims": (),
        "laboratory_reference": "TL-0417",
        "laboratory_result": "positive",
        "plan": None,
        "hanging": (),
        "estimates": (),
    }
    # The file grows with the register; papers read what is named above and nothing else.
    return AnimalFile(**{**{one.name: None for one in fields(AnimalFile)}, **given})  # type: ignore[arg-type]


def _only_page(pdf: bytes) -> str:
    pages = PdfReader(BytesIO(pdf)).pages
    assert len(pages) == 1
    return " ".join(pages[0].extract_text().split())


@pytest.mark.parametrize("jurisdiction", ["england-wales", "scotland", "northern-ireland", ""])
def test_a_suspicion_names_the_animal_the_sign_the_number_and_every_step(
    file: AnimalFile, larder: Larder, noon: datetime, jurisdiction: str
) -> None:
    text = _only_page(notice_pdf(suspicion_notice(file, SIGNS, jurisdiction), larder, noon))
    assert text.count("STOP") == 1
    assert "26-00417-K: fallow doe, tag 0417" in text
    assert "Chill 1 · rail 1 · hook 3" in text
    assert "A sign of tuberculosis was seen: pus in the lungs." in text
    assert "R. Lane said: Keep it; a vet comes at three" in text
    assert whom_to_ring(jurisdiction) in text
    for step in what_to_do_on_suspicion():
        assert step in text


def test_the_number_to_ring_is_the_published_one(file: AnimalFile, larder: Larder, noon: datetime) -> None:
    """03000 200 301: businesscompanion.info, 'Deer: carcase and offal disposal', seen."""
    text = _only_page(notice_pdf(suspicion_notice(file, SIGNS, "england-wales"), larder, noon))
    assert "03000 200 301" in text
    assert "(read there)" in text


def test_a_positive_boar_prints_every_step_and_says_locked(
    file: AnimalFile, larder: Larder, noon: datetime
) -> None:
    text = _only_page(notice_pdf(positive_notice(file), larder, noon))
    assert "Locked: 26-00417-K" in text
    assert "laboratory reference TL-0417" in text
    for step in what_to_do_when_positive():
        assert step in text


@pytest.mark.parametrize(
    "words", ["<b>a & b</b>", '"quoted" <para>', "emoji 🦌", "שלום عربي", "w" * 10_000, "word " * 2_000, " "],
    ids=lambda words: repr(words[:8]),
)  # fmt: skip
def test_whatever_was_typed_stays_on_one_page(
    file: AnimalFile, larder: Larder, noon: datetime, fill: Callable[[Any, str], Any], words: str
) -> None:
    hostile = fill(file, words)
    for notice in (suspicion_notice(hostile, [(words, words)] * 4, "scotland"), positive_notice(hostile)):
        text = _only_page(notice_pdf(notice, fill(larder, words), noon))
        assert "26-00417-K" in text
        if words.isascii() and len(words) < 100:
            assert "".join(words.split()) in "".join(text.split())
    everything = Notice(words, (words,) * 20, words, words, (words,) * 20, words)
    _only_page(notice_pdf(everything, larder, noon))


def test_equal_notices_give_equal_bytes(file: AnimalFile, larder: Larder, noon: datetime) -> None:
    notice = suspicion_notice(file, SIGNS, "england-wales")
    assert notice_pdf(notice, larder, noon) == notice_pdf(notice, larder, noon)
    assert "PRACTICE REGISTER" in _only_page(notice_pdf(notice, larder, noon))
