"""The pack's own text, as pypdf reads it, held against the register row by row for random periods."""

import random
import re
import sys
from collections.abc import Iterator
from datetime import date, timedelta
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

sys.path.insert(0, str(Path(__file__).parents[1] / "register"))

from larder_house import House

from gametrace.documents.visit_pack import visit_pdf
from gametrace.documents.wording import day, instant, kg_number, local_day
from gametrace.domain.deliveries import Decision
from gametrace.register import acts, questions

FIRST = date(2026, 11, 12)


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    """Twelve days: on each something comes in, some of it refused, held, corrected, late, mixed, served."""
    one = House(tmp_path_factory.mktemp("house") / "larder.register")
    dice = random.Random(17)
    for number in range(12):
        codes = [one.dressed(grams=dice.randrange(20_000, 45_000)) for _ in range(dice.randrange(1, 4))]
        if number % 3 == 0:
            one.held(Decision.REJECT)
        if number % 4 == 1:
            one.hold(one.receive(), reason=f"smells odd, day {number}")
        if number % 4 == 2:
            acts.correct_weight(
                one.reg, by=one.tutor, code=codes[0], grams=19_500, reason=f"misread {number}"
            )
        if number % 5 == 3:
            one.receive(received_at=one.clock.now - timedelta(hours=20))
        trims = [one.trim(code, 900) for code in codes]
        if len(trims) > 1:
            mince = one.mix(*((trim, None) for trim in trims))
            one.dish((mince, 500), name=f"Ragout {number}", on=FIRST + timedelta(days=number))
        acts.close_lot(one.reg, by=one.tutor, code=codes[-1], reason="the rest was boned out unweighed")
        one.clock.go(days=1)
    yield one
    one.close()


def flat(text: str) -> str:
    """Lines break where the paper is narrow: compared without any spacing."""
    return re.sub(r"\s+", "", text)


def drawn(seed: int) -> tuple[date, date]:
    dice = random.Random(seed)
    first = FIRST + timedelta(days=dice.randrange(0, 11))
    return first, first + timedelta(days=dice.randrange(0, 6))


def rows_of(sheet) -> dict[str, list[tuple[str, ...]]]:
    """Section by section, the cells of every row that the register says belongs to the period, in order."""
    deliveries = [
        (local_day(c.received_at), c.code, c.title, c.supplier.name, kg_number(c.grams_received))
        for c in sheet.deliveries
    ]
    return {
        "deliveries": deliveries,
        "holds": [(one.code, one.reason, one.placed_by, instant(one.placed_at)) for one in sheet.holds],
        "corrections": [
            (instant(one.at), one.by, one.code, one.field, one.old, one.new, one.reason)
            for one in sheet.amendments
        ],
        "late": [
            (str(one.seq), instant(one.happened_at), instant(one.written_at)) for one in sheet.late_entries
        ],
        "mixes": [
            (
                one.code,
                one.name,
                instant(one.at),
                one.by,
                *(f"{c} {n} {kg_number(g)}" for c, n, g in one.parts),
            )
            for one in sheet.making.mixed
        ],
        "broken": [
            (one.code, one.name, instant(one.at), one.by, kg_number(one.grams_in), kg_number(one.meat_grams))
            for one in sheet.making.broken
        ],
        "dishes": [(one.code, one.name, day(one.on), one.occasion) for one in sheet.making.dishes],
        "eight": [tuple(value for _, value in row) for row in sheet.eight_fields],
        "dealer": [tuple(value for _, value in row) for row in sheet.dealer_rows],
    }


@pytest.mark.parametrize("seed", [1, 2, 3, 4])
def test_every_row_of_the_register_stands_in_the_pack_with_its_cells_in_order(
    house: House, seed: int
) -> None:
    first, last = drawn(seed)
    sheet = questions.visit_sheet(house.reg, first=first, last=last)
    text = flat(" ".join(page.extract_text() for page in PdfReader(BytesIO(visit_pdf(sheet))).pages))
    for section, rows in rows_of(sheet).items():
        for row in rows:
            assert _in_order(text, [flat(cell) for cell in row]), (section, row)


def _in_order(text: str, cells: list[str]) -> bool:
    """Whether the cells follow each other somewhere, each soon after the one before."""
    start = text.find(cells[0])
    while start >= 0:
        at = start + len(cells[0])
        for cell in cells[1:]:
            found = text.find(cell, at, at + 900)
            if found < 0:
                break
            at = found + len(cell)
        else:
            return True
        start = text.find(cells[0], start + 1)
    return False


@pytest.mark.parametrize("seed", [1, 2, 3, 4])
def test_nothing_of_another_day_is_listed_as_received(house: House, seed: int) -> None:
    first, last = drawn(seed)
    sheet = questions.visit_sheet(house.reg, first=first, last=last)
    here = {one.code for one in sheet.deliveries}
    every = questions.deliveries(house.reg, limit=1_000)
    meant = {one.code for one in every if first <= one.received_at.date() <= last}
    assert here == meant
    text = flat(" ".join(page.extract_text() for page in PdfReader(BytesIO(visit_pdf(sheet))).pages))
    glance = text[text.index("Deliveriesataglance:", text.index("Contents") + 2_000) :]
    glance = glance[: glance.index("Deliveries,everydeclaredfield")]
    for one in every:
        assert (flat(one.code) in glance) is (one.code in here)


def test_every_head_is_on_every_page_its_table_goes_on_to(house: House) -> None:
    sheet = questions.visit_sheet(house.reg, first=FIRST, last=FIRST + timedelta(days=12))
    pages = [flat(page.extract_text()) for page in PdfReader(BytesIO(visit_pdf(sheet))).pages]
    for number, page in enumerate(pages, start=1):
        assert f"page{number}of" in page
        if "Regulation931/2011,article3,theeightfields" not in page and "26-0" in page and "(a)" in page:
            assert "(h)dateofdispatch" in page
