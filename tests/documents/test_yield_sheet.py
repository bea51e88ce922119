"""The yield sheet: weights, shares, spreads and costs of one beast or a session, the same bytes each time."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

sys.path.insert(0, str(Path(__file__).parent.parent / "register"))

from larder_house import House

from gametrace.documents.yield_sheet import yield_sheet_pdf
from gametrace.register import questions
from gametrace.register.acts import Out

NOON = datetime(2026, 11, 12, 12, 5, tzinfo=UTC)


@pytest.fixture
def house(tmp_path: Path) -> Iterator[House]:
    one = House(tmp_path / "larder.register")
    yield one
    one.close()


def cut(house: House, **given: object) -> str:
    doe = house.dressed(**given)
    left, right, _, _ = house.out(
        doe,
        Out("haunch", 8_000, side="left"),
        Out("haunch", 8_200, side="right"),
        Out("loin", 3_800),
        Out("bone", 20_000),
    )
    house.out(left, Out("topside", 6_000), Out("bone", 2_000))
    house.out(right, Out("topside", 6_200), Out("bone", 2_000))
    return doe


def sheet(house: House, *codes: str, session: str = "") -> bytes:
    animals = [(questions.yield_of(house.reg, one), questions.cost_picture(house.reg, one)) for one in codes]
    return yield_sheet_pdf(animals, house.reg.larder, NOON, session)


def text_of(pdf: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(pdf)).pages]


def test_one_animals_weights_shares_sides_and_costs_are_on_it(house: House) -> None:
    said = " ".join(text_of(sheet(house, cut(house))))
    for words in (
        "haunch",
        "16.200 kg",
        "40.5 %",
        "Left and right",
        "8.000 kg",
        "75.0 %",
        "£128.00",
        "in all",
    ):
        assert words in said
    assert "No sales value is set for" in said
    assert "not known" in said


def test_a_price_nobody_wrote_down_is_said_and_never_nothing(house: House) -> None:
    said = " ".join(text_of(sheet(house, cut(house, pence_per_kg=None))))
    assert "No price is written down" in said
    assert "£0.00" not in said


def test_a_session_has_a_sheet_for_each_animal_under_its_name(house: House) -> None:
    codes = [cut(house), cut(house)]
    pages = text_of(sheet(house, *codes, session="Level 3, Thursday"))
    for code in codes:
        assert any(f"Yield: {code}" in page and "Level 3, Thursday" in page for page in pages)


def test_the_same_sheet_is_the_same_bytes(house: House) -> None:
    doe = cut(house)
    assert sheet(house, doe) == sheet(house, doe)


def test_of_no_animal_there_is_no_sheet(house: House) -> None:
    with pytest.raises(ValueError, match="at least one"):
        sheet(house)
