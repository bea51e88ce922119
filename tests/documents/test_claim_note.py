"""The claim note: what was lost, by which rule, with the pictures; any text, any picture, the same bytes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace
from datetime import datetime
from io import BytesIO
from typing import Any

import pytest
from PIL import Image
from pypdf import PdfReader

from gametrace.documents.claim_note import MOST_PICTURES, claim_note_pdf
from gametrace.register.animal_file import AnimalFile, Claim, LookLine, MarkLine
from gametrace.register.records import Larder
from gametrace.register.visit_records import VisitSheet

# The worked example of the trade: 0.6 kg of loin lost at 3.00 a kilo in the skin is 1.80. Inference.
LOST, PRICE, SUM = 600, 300, 180


@pytest.fixture
def claim(noon: datetime) -> Claim:
    return Claim(
        3, "26-00417-K", "bought price", LOST, SUM, "Loin shot through", noon, "raised", None, ""
    )  # fmt: skip


@pytest.fixture
def file(a_visit: Callable[[int], VisitSheet], claim: Claim) -> AnimalFile:
    one = replace(a_visit(1).deliveries[0], pence_per_kg=PRICE)
    given: dict[str, Any] = {
        "carcass": one,
        "looks": (
            LookLine("in the skin", "smell", "as it should be", ""),
            LookLine("out of the skin", "shot", "not so", "saddle hit, splinters"),
        ),
        "marks": (
            MarkLine("out of the skin", 400, 300, "left", "entry"),
            MarkLine("out of the skin", 420, 320, "right", "exit"),
            MarkLine("out of the skin", 500, 320, "right", "exit"),
        ),
        "calls": (),
        "calls_to_make": (),
        "pictures": (),
        "second_decision": "accept with trim",
        "second_reason": "Loin trimmed out",
        "claims": (claim,),
        "laboratory_reference": "",
        "laboratory_result": "",
        "plan": None,
        "hanging": (),
        "estimates": (),
    }
    # The file grows with the register; papers read what is named above and nothing else.
    return AnimalFile(**{**{one.name: None for one in fields(AnimalFile)}, **given})  # type: ignore[arg-type]


def _text(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(pdf)).pages)


def _pixels(kind: str, width: int = 64, height: int = 48) -> bytes:
    buffer = BytesIO()
    Image.new("RGB", (width, height), "#7F3F00").save(buffer, kind)
    return buffer.getvalue()


def test_the_note_says_who_what_how_much_and_why(
    file: AnimalFile, claim: Claim, larder: Larder, noon: datetime
) -> None:
    text = _text(claim_note_pdf(file, claim, larder, [], noon))
    for words in (
        "Claim 3: 26-00417-K, fallow doe",
        "Harrow Wood Estate",
        larder.name,
        "£1.80",
        "0.600 kg at £3.00 a kg",
        "weight lost at the price bought at",
        "Loin shot through",
        "23.400 kg, in the skin",
        "23.600 kg",
        "HW-112",
        "accept with trim: Loin trimmed out",
        "saddle hit, splinters",
        "exit, 2 places",
        "12 Nov 2026, 12:05",
    ):
        assert words in text
    assert "smell" not in text, "what was as it should be is no part of a claim"


def test_a_price_put_right_since_does_not_make_a_working_that_does_not_add_up(
    file: AnimalFile, claim: Claim, larder: Larder, noon: datetime
) -> None:
    later = replace(file, carcass=replace(file.carcass, pence_per_kg=PRICE + 50))
    text = _text(claim_note_pdf(later, claim, larder, [], noon))
    assert "as worked out when it was raised" in text
    assert "0.600 kg at" not in text


@pytest.mark.parametrize(
    ("status", "pence", "note", "said"),
    [
        ("agreed", SUM, "", "agreed, £1.80"),
        ("refused", 0, "a clean shot, they say", "a clean shot, they say"),
    ],
)
def test_a_settled_claim_says_how_it_was_settled(
    file: AnimalFile,
    claim: Claim,
    larder: Larder,
    noon: datetime,
    status: str,
    pence: int,
    note: str,
    said: str,
) -> None:
    settled = replace(claim, status=status, settled_pence=pence, settled_note=note)
    assert said in _text(claim_note_pdf(file, settled, larder, [], noon))


def test_pictures_stand_on_the_note_with_their_words(
    file: AnimalFile, claim: Claim, larder: Larder, noon: datetime
) -> None:
    pictures = [("wound", _pixels("JPEG")), ("carcass", _pixels("PNG", 30, 900))]
    pdf = claim_note_pdf(file, claim, larder, pictures, noon)
    drawn = sum(len(page.images) for page in PdfReader(BytesIO(pdf)).pages)
    assert drawn == 2
    assert "Picture 1: wound" in _text(pdf)
    assert "Picture 2: carcass" in _text(pdf)


@pytest.mark.parametrize(
    "content", [b"", b"%PDF-1.4", b"\xff\xd8\xff" + b"x" * 50, _pixels("JPEG")[:200], _pixels("GIF")]
)
def test_bytes_that_are_no_picture_cost_that_picture_and_not_the_note(
    file: AnimalFile, claim: Claim, larder: Larder, noon: datetime, content: bytes
) -> None:
    text = _text(claim_note_pdf(file, claim, larder, [("wound", content)], noon))
    assert "cannot be drawn here" in text
    assert "£1.80" in text


def test_many_pictures_are_counted_where_they_stop(
    file: AnimalFile, claim: Claim, larder: Larder, noon: datetime
) -> None:
    pictures = [("wound", _pixels("PNG"))] * (MOST_PICTURES + 3)
    assert "3 more are in the register" in _text(claim_note_pdf(file, claim, larder, pictures, noon))


@pytest.mark.parametrize(
    "words", ["<b>a & b</b>", '"quoted" <para>', "emoji 🦌", "שלום عربي", "w" * 10_000, "word " * 2_000, " "],
    ids=lambda words: repr(words[:8]),
)  # fmt: skip
def test_whatever_was_typed_is_printed_as_typed(
    file: AnimalFile,
    claim: Claim,
    larder: Larder,
    noon: datetime,
    fill: Callable[[Any, str], Any],
    words: str,
) -> None:
    filled = fill(claim, words)
    pdf = claim_note_pdf(fill(file, words), filled, fill(larder, words), [(words, _pixels("PNG"))], noon)
    text = _text(pdf)
    assert claim.code in text
    if words.isascii() and len(words) < 100:
        assert "".join(words.split()) in "".join(text.split())


def test_equal_claims_give_equal_bytes_and_practice_is_said(
    file: AnimalFile, claim: Claim, larder: Larder, noon: datetime
) -> None:
    pictures = [("wound", _pixels("JPEG")), ("carcass", _pixels("PNG"))]
    first = claim_note_pdf(file, claim, larder, pictures, noon)
    assert first == claim_note_pdf(file, claim, larder, pictures, noon)
    assert "PRACTICE REGISTER" in _text(first)
    assert PdfReader(BytesIO(first)).metadata.title == "Claim 3, 26-00417-K"  # type: ignore[union-attr]
