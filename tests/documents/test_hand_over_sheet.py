"""One page to hand over, whatever it is of: what it must say, on one page, in black."""

import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

sys.path.insert(0, str(Path(__file__).parents[1] / "register"))

from larder_house import House

from gametrace.documents.hand_over_sheet import hand_over_pdf
from gametrace.register import questions


@pytest.fixture
def house(tmp_path: Path) -> Iterator[House]:
    one = House(tmp_path / "larder.register")
    yield one
    one.close()


def text_of(house: House, code: str) -> str:
    pages = PdfReader(BytesIO(hand_over_pdf(questions.hand_over(house.reg, code)))).pages
    assert len(pages) == 1
    return " ".join(pages[0].extract_text().split())


def test_an_animal_s_page_has_its_paper_its_balance_and_where_the_rest_is(house: House) -> None:
    doe = house.dressed(tag="0417")
    pie = house.dish((house.pack(doe, 3_000), None), name="Pie")
    text = text_of(house, doe)
    for words in (
        doe, "Perrin Ashdown, Far Farm, Netherby", "Long Wood", "10 Nov 2026, 07:40", "40.000 kg", "0417",
        "unaccounted", pie, questions.seal(house.reg).head, "one step back",
    ):  # fmt: skip
        assert words in text


def test_a_lot_s_page_has_the_animals_in_it_and_a_dish_s_its_way(house: House) -> None:
    does = [house.dressed(), house.dressed()]
    trims = [house.trim(one, 900) for one in does]
    mince = house.mix(*((one, None) for one in trims))
    dish = house.dish((mince, 1_000), name="Ragout")
    for code in (mince, dish):
        text = text_of(house, code)
        for one in (*does, *trims):
            assert one in text
    assert "12" in text


def test_a_supplier_s_page_has_the_address_the_papers_and_the_deliveries(house: House) -> None:
    codes = [house.receive() for _ in range(3)]
    text = text_of(house, "Perrin Ashdown")
    for words in ("Far Farm, Netherby", "Trained hunter: Perrin Ashdown, TH-77", *codes):
        assert words in text


def test_a_page_stays_one_page_and_keeps_its_foot_however_much_there_is(house: House) -> None:
    doe = house.dressed(inspection_notes="long words " * 40)
    for number in range(70):
        house.pack(doe, 400, product="haunch" if number % 2 else "shoulder")
    for _ in range(60):
        house.receive()
    for code in (doe, "Perrin Ashdown"):
        text = text_of(house, code)
        assert questions.seal(house.reg).head in text
        assert "more in the register" in text or "folded" in text
