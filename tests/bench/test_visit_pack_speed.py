"""The pack of a year of five hundred carcasses, printed: the aim is under five seconds with the reading."""

from __future__ import annotations

import sys
import time
from datetime import date, timedelta
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "register"))

from larder_house import House

from gametrace.documents.visit_pack import visit_pdf
from gametrace.register import acts, questions

FIRST = date(2026, 11, 12)
CARCASSES = 500


@pytest.mark.bench
def test_what_the_pack_of_a_year_takes(tmp_path: Path) -> None:
    house = House(tmp_path / "larder.register")
    for number in range(CARCASSES):
        doe = house.dressed()
        pack, trim = house.pack(doe, 3_000), house.trim(doe, 2_000)
        if number % 2:
            house.dish((pack, None), (trim, None), name=f"Ragout {number}", on=house.reg.today())
        acts.close_lot(house.reg, by=house.tutor, code=doe, reason="boned out unweighed")
        if number % 2:
            house.clock.go(days=1)
    last = FIRST + timedelta(days=CARCASSES)
    visit_pdf(questions.visit_sheet(house.reg, first=FIRST, last=FIRST))  # fonts are read once
    begun, worked = time.perf_counter(), time.process_time()
    sheet = questions.visit_sheet(house.reg, first=FIRST, last=last)
    asked = time.perf_counter() - begun
    pdf = visit_pdf(sheet)
    took, worked = time.perf_counter() - begun, time.process_time() - worked
    house.close()
    print(
        f"\npack of {len(sheet.deliveries)} carcasses: {took:.2f} s ({worked:.2f} s of the processor), of it "
        f"{asked:.2f} s reading; {len(pdf) / 1e6:.1f} MB"
    )
    assert len(sheet.deliveries) == CARCASSES
