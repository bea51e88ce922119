"""The one-page trace: everything asked for on one A4 page, whatever the trace holds."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from fractions import Fraction
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from gametrace.documents.trace_folding import count_folded, folded
from gametrace.documents.trace_plan import MOST_IN_A_LAYER, plan_of
from gametrace.documents.trace_sheet import trace_pdf
from gametrace.register.records import Larder, Trace


def _only_page(pdf: bytes) -> str:
    pages = PdfReader(BytesIO(pdf)).pages
    assert len(pages) == 1
    return " ".join(pages[0].extract_text().split())


def test_the_sheet_says_where_it_is_from_and_where_the_rest_is(
    a_mince_trace: Trace, larder: Larder, noon: datetime
) -> None:
    text = _only_page(trace_pdf(a_mince_trace, larder, noon))
    for animal in a_mince_trace.animals:
        for words in (animal.code, animal.tag, animal.supplier, animal.supplier_address, animal.declaration):
            assert words in text
        assert f"{animal.share.numerator}/{animal.share.denominator}" in text
    assert "43.2 %" in text
    assert "killed 12 Nov 2026, 07:40, Harrow Wood, north ride" in text
    assert "No suspicion of environmental contamination: not stated" in text
    for lot in a_mince_trace.forward:
        assert lot.code in text
        assert lot.name in text


def test_the_balance_shows_what_is_unaccounted_once(
    an_animal_trace: Callable[[int], Trace], larder: Larder, noon: datetime
) -> None:
    text = _only_page(trace_pdf(an_animal_trace(6), larder, noon))
    assert "received 23.400 kg" in text
    assert text.count("unaccounted 0.400 kg") == 1


def test_nothing_unaccounted_is_still_shown(
    an_animal_trace: Callable[[int], Trace], larder: Larder, noon: datetime
) -> None:
    trace = an_animal_trace(6)
    assert trace.balance
    whole = replace(trace.balance, accounted_grams=23400, unaccounted_grams=0)
    assert "unaccounted 0.000 kg" in _only_page(trace_pdf(replace(trace, balance=whole), larder, noon))


def test_sixty_packs_are_folded_into_lines_and_stay_on_one_page_with_every_code(
    an_animal_trace: Callable[[int], Trace], larder: Larder, noon: datetime
) -> None:
    trace = an_animal_trace(60)
    text = _only_page(trace_pdf(trace, larder, noon))
    assert "15 packs haunch, left, 4.500 kg" in text
    assert "60 lots alike folded into 4 lines" in text
    for lot in trace.forward:
        assert lot.code in text


@pytest.mark.parametrize("packs", [1, 300, 1500])
def test_any_number_of_lots_stays_on_one_page(
    an_animal_trace: Callable[[int], Trace], larder: Larder, noon: datetime, packs: int
) -> None:
    text = _only_page(trace_pdf(an_animal_trace(packs), larder, noon))
    assert "unaccounted 0.400 kg" in text


def test_forty_animals_stay_on_one_page_and_the_others_are_counted(
    a_mince_trace: Trace, larder: Larder, noon: datetime
) -> None:
    one = a_mince_trace.animals[0]
    many = tuple(replace(one, code=f"26-{number:05d}-K", share=Fraction(1, 40)) for number in range(40))
    text = _only_page(trace_pdf(replace(a_mince_trace, animals=many), larder, noon))
    others = re.search(r"and (\d+) more animals", text)
    assert others
    left_off = int(others[1])
    assert text.count("tag 0417") == 40 - left_off
    assert str(Fraction(left_off, 40)) in text  # the others together, exactly
    assert "26-00039-K" in text


def test_a_supplier_without_a_state_or_a_lot_of_its_own_is_traced_too(
    an_animal_trace: Callable[[int], Trace], larder: Larder, noon: datetime
) -> None:
    trace = replace(an_animal_trace(4), code="S001", kind="supplier", name="Harrow Wood", state="", lot=None)
    assert "S001" in _only_page(trace_pdf(trace, larder, noon))


def test_an_empty_trace_is_a_page_that_says_so(larder: Larder, noon: datetime) -> None:
    empty = Trace("26-00417-K", "carcass", "fallow doe", "hanging", (), (), (), (), None, ())
    assert "Nothing further has been made of it." in _only_page(trace_pdf(empty, larder, noon))


@pytest.mark.parametrize(
    "words",
    [
        "<b>a & b</b>",
        "=1+1",
        '"quoted" <para>',
        "emoji 🦌",
        "שלום عربي",
        "w" * 10_000,
        "word " * 2_000,
        " ",
        "&#13;",
    ],
    ids=lambda words: repr(words[:8]),
)
def test_whatever_was_typed_is_printed_as_typed_on_one_page(
    a_mince_trace: Trace,
    an_animal_trace: Callable[[int], Trace],
    larder: Larder,
    noon: datetime,
    fill: Callable[[Any, str], Any],
    words: str,
) -> None:
    for trace in (a_mince_trace, an_animal_trace(12)):
        text = _only_page(trace_pdf(fill(trace, words), fill(larder, words), noon))
        assert trace.code in text
        if words.isascii() and len(words) < 100:
            assert "".join(words.split()) in "".join(text.split())


def test_a_practice_sheet_says_so(a_mince_trace: Trace, larder: Larder, noon: datetime) -> None:
    assert "PRACTICE REGISTER" in _only_page(trace_pdf(a_mince_trace, larder, noon))
    real = replace(larder, is_practice=False)
    assert "PRACTICE" not in _only_page(trace_pdf(a_mince_trace, real, noon))


def test_the_sheet_names_itself(a_mince_trace: Trace, larder: Larder, noon: datetime) -> None:
    reader = PdfReader(BytesIO(trace_pdf(a_mince_trace, larder, noon)))
    assert reader.metadata
    assert reader.metadata.title == "Trace of 26-01188-X"
    assert reader.metadata.author == larder.name
    assert "page 1 of 1" in _only_page(trace_pdf(a_mince_trace, larder, noon))


def test_equal_traces_give_equal_bytes(a_mince_trace: Trace, larder: Larder, noon: datetime) -> None:
    assert trace_pdf(a_mince_trace, larder, noon) == trace_pdf(a_mince_trace, larder, noon)


def test_folding_loses_no_lot_and_no_gram(an_animal_trace: Callable[[int], Trace]) -> None:
    forward = an_animal_trace(60).forward
    for most in (1, 2, 5, 7, 40, 100):
        lines = folded(forward, most)
        assert sorted(code for line in lines for code in line.codes) == sorted(lot.code for lot in forward)
        assert sum(line.grams for line in lines) == sum(lot.grams for lot in forward)
    assert count_folded(folded(forward, 7)) == (60, 4)


def test_few_lots_are_not_folded(an_animal_trace: Callable[[int], Trace]) -> None:
    forward = an_animal_trace(4).forward
    assert [line.codes for line in folded(forward, 20)] == [(lot.code,) for lot in forward]


def test_the_drawing_keeps_every_gram_of_every_link(an_animal_trace: Callable[[int], Trace]) -> None:
    trace = an_animal_trace(60)
    plan = plan_of(trace)
    assert sum(plan.bands.values()) == sum(link.grams for link in trace.links)
    assert all(len(layer) <= MOST_IN_A_LAYER for layer in plan.layers())


def test_the_thing_asked_for_stands_between_its_animals_and_its_plates(a_mince_trace: Trace) -> None:
    plan = plan_of(a_mince_trace)
    asked = [node for node in plan.nodes.values() if node.is_asked]
    assert [(node.words, node.layer) for node in asked] == [("26-01188-X", 2)]
