"""Lines of plain text from scales. The forms are common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.scale_text import LONGEST_LINE, MOST_GRAMS, ScaleReading, read_line, settled


@pytest.mark.parametrize(
    ("line", "reading"),
    [
        ("ST,GS,+  12.340kg", (12_340, True, "kg", 1)),
        ("ST,NT,+0012.34 kg\r\n", (12_340, True, "kg", 10)),
        ("US,GS,+  12.340kg", (12_340, False, "kg", 1)),
        ("US   12.3 kg", (12_300, False, "kg", 100)),
        ("  12.34 kg", (12_340, None, "kg", 10)),
        ("  12,34 kg", (12_340, None, "kg", 10)),
        ("S S     250 g", (250, True, "g", 1)),
        ("S D     250 g", (250, False, "g", 1)),
        ("250.5 g", (251, None, "g", 1)),
        ("12.34 kg ?", (12_340, False, "kg", 10)),
        ("ST,GS,-   0.020kg", (-20, True, "kg", 1)),
        ("ST,GS,   0.000kg", (0, True, "kg", 1)),
        ("10 lb", (4536, None, "lb", 454)),
        ("16 oz", (454, None, "oz", 28)),
        ("Gross:  5.00 KG", (5000, None, "kg", 10)),
        (b"\x02ST,GS,+  12.340kg\x03\r\n", (12_340, True, "kg", 1)),
    ],
)
def test_a_line_is_read(line: str | bytes, reading: tuple[int, bool | None, str, int]) -> None:
    assert read_line(line) == ScaleReading(*reading)


@pytest.mark.parametrize(
    "line",
    [
        "",
        "   ",
        "12.34",  # no unit: never guessed
        "OL,GS,+  99.999kg",
        "TR,  1.000kg",
        "ST,GS,+ 12.340k",
        "ST,GS,+",
        "12.34 kg 5.00 kg",
        "1 2.34 kg",
        "12.34 stone",
        "+-12 kg",
        "９ kg",
        "١٢ kg",
        "99999 kg",
        "1.23456 kg",
        b"\xff\xfe12 kg",
        "x" * (LONGEST_LINE + 1),
        "ERR 4",
    ],
)
def test_what_is_not_certain_is_none(line: str | bytes) -> None:
    assert read_line(line) is None


@given(st.one_of(st.text(max_size=80), st.binary(max_size=80)))
def test_no_noise_ever_raises_or_weighs_more_than_a_carcass(line: str | bytes) -> None:
    reading = read_line(line)
    assert reading is None or abs(reading.grams) <= MOST_GRAMS


@given(st.text(alphabet="STUGNOL,+-. 0123456789kglboz?\r\n", max_size=40))
def test_noise_of_the_right_letters_never_raises(line: str) -> None:
    reading = read_line(line)
    assert reading is None or reading.unit in ("g", "kg", "lb", "oz")


@given(st.integers(0, MOST_GRAMS), st.sampled_from(["ST,GS,+", "US,NT,+", "", "ST "]))
def test_every_weight_written_is_read_back(grams: int, head: str) -> None:
    reading = read_line(f"{head}{grams // 1000:>4}.{grams % 1000:03d}kg")
    assert reading is not None
    assert reading.grams == grams


def test_a_scale_that_says_nothing_is_believed_when_it_repeats_itself() -> None:
    quiet = [read_line(f"  {text} kg") for text in ("12.30", "12.34", "12.34", "12.34")]
    held = [one for one in quiet if one is not None]
    assert settled(held) == held[-1]
    assert settled(held[:3]) is None
    assert settled([]) is None
    stable, moving = read_line("ST 1.0 kg"), read_line("US 1.0 kg")
    assert stable is not None
    assert moving is not None
    assert settled([stable]) == stable
    assert settled([moving] * 5) is None
