"""Every field that is typed into, given anything at all: it reads it, or says what to write and keeps it.

The figures themselves are held against a second reader in tests/domain/test_any_figure.py.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import Qt

from gametrace.desktop.cold.boiling_edit import BoilingEdit
from gametrace.desktop.delivery.kill_details import MapEdit, map_text, parse_map
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.days import day_text, parse_day, parse_time, weekday_text
from gametrace.desktop.parts.kilo_edit import CelsiusEdit, KiloEdit, PenceEdit
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.time_edit import TimeEdit
from gametrace.desktop.setup.figure_editors import RangeEditor, WholeEditor
from gametrace.desktop.setup.presenter import parse_places
from gametrace.domain.errors import Refusal

TODAY = date(2026, 11, 25)
ODD = [
    "=1+1", "=HYPERLINK(1)", "<b>5</b>", "<img src=x>", "&amp;", "٥", "５", "५", "5²", "½", "1e1", "0x5",
    "5_0", "--5", "5,2", "5.2", "52", "600", "60.0", "-0", "0", "9" * 60, "12/11", "12.11.26", "31/2", "0/0",
    "29 Feb", "29/2/2027", "1/1/0000", "31/12/9999", "12 nov", "nov 12", "١٢/١١", "2026-11-12", "2026-13-01",
    "today", "tomorrow", "7.40", "0740", "7pm", "19h05", "24:00", "7:60", "0am", "13pm", "noon", "٧:٤٠",
    "54.3, -2.1", "54,3 -2,1", "91, 0", "0, 181", "54.3", "1e2, 3", "\u202e5", "\u200b", "\x00", "'; DROP",
    "not stated", "-", "?", "10, 8", "10;8", "5 5", "１０", "   ",
]  # fmt: skip
TEXTS = st.sampled_from(ODD) | st.text(max_size=60) | st.text("0123456789/.,:- apm°", max_size=12)


def make(kind: str):
    match kind:
        case "kilos":
            return KiloEdit()
        case "celsius":
            return CelsiusEdit()
        case "pence":
            return PenceEdit()
        case "boiling":
            return BoilingEdit()
        case "count":
            return CountEdit("How many")
        case "time":
            return TimeEdit()
        case "map":
            return MapEdit()
    return OptionalDate("Killed on", lambda: TODAY, looks_back=kind == "day behind")


KINDS = ["kilos", "celsius", "pence", "boiling", "count", "time", "map", "day behind", "day ahead"]


@pytest.mark.parametrize("kind", KINDS)
def test_a_field_reads_it_or_says_what_to_write_and_loses_nothing(qtbot, look, kind: str) -> None:
    field = make(kind)
    qtbot.addWidget(field)

    @settings(suppress_health_check=[HealthCheck.differing_executors])
    @given(TEXTS)
    def tried(typed: str) -> None:
        field.clear()
        field.edit.setText(typed)
        kept = field.text()  # a line edit takes out what no line can hold
        field._settle()
        told = None
        try:
            value = field.value()
        except Refusal as refusal:
            told = refusal
        assert bool(told) == bool(field.sentence.text()) == bool(field.edit.property("wrong"))
        if told is not None:
            assert field.text() == kept, "what was typed stays"
            assert told.sentence.endswith(".")
            assert field.sentence.textFormat() == Qt.TextFormat.PlainText
        elif value not in (None, ""):
            before = field.text()
            field.set_text(before)
            assert (field.value(), field.text()) == (value, before), "what is shown reads back as itself"

    tried()


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("typed", ["=1+1", "<b>5</b>", "٥", "５", "1e1", "5²", "\u202e5"])
def test_no_formula_markup_or_foreign_digit_is_taken(qtbot, look, kind: str, typed: str) -> None:
    field = make(kind)
    qtbot.addWidget(field)
    field.set_text(typed)
    with pytest.raises(Refusal):
        field.value()
    assert field.text() == typed


# ------------------------------------------------------------------------------------------ days and times

FORMS = [
    lambda d: f"{d.day}/{d.month}/{d.year}",
    lambda d: f"{d.day:02d}.{d.month:02d}.{d.year}",
    lambda d: f"{d.day}-{d.month}-{d.year}",
    lambda d: d.isoformat(),
    day_text,
    lambda d: day_text(d).upper(),
    lambda d: day_text(d).replace(" ", ""),
]


@pytest.mark.parametrize("form", FORMS)
@given(day=st.dates(date(1000, 1, 1), date(9999, 12, 31)))
def test_a_whole_day_reads_as_itself_in_every_way_of_writing_it(form, day: date) -> None:
    assert parse_day(form(day), TODAY) == day


@given(today=st.dates(date(2, 1, 1), date(9990, 1, 1)), ago=st.integers(-30, 334))
def test_a_day_behind_without_a_year_is_the_last_such_day(today: date, ago: int) -> None:
    day = today - timedelta(days=ago)
    assert parse_day(f"{day.day}/{day.month}", today) == day


@given(today=st.dates(date(2, 1, 1), date(9990, 1, 1)), ahead=st.integers(-182, 182))
def test_a_day_planned_without_a_year_is_the_nearest_one(today: date, ahead: int) -> None:
    day = today + timedelta(days=ahead)
    assert parse_day(f"{day.day}/{day.month}", today, looks_back=False) == day


@given(text=TEXTS, today=st.dates(date(2, 1, 1), date(9990, 1, 1)), looks_back=st.booleans())
def test_any_text_is_a_day_or_refused_in_words(text: str, today: date, looks_back: bool) -> None:
    try:
        day = parse_day(text, today, looks_back=looks_back)
    except Refusal as refusal:
        told = refusal
    else:
        if day is not None and day.year > 999:
            assert parse_day(weekday_text(day)[4:], today) == day
        return
    assert told.sentence.endswith(".")


@pytest.mark.parametrize("hour", range(24))
def test_every_minute_reads_as_itself_in_every_way_of_writing_it(hour: int) -> None:
    half, twelve = ("am", hour or 12) if hour < 12 else ("pm", hour - 12 or 12)
    for minute in (0, 1, 9, 10, 40, 59):
        meant = f"{hour:02d}:{minute:02d}"
        for written in (
            meant, f"{hour}:{minute:02d}", f"{hour}.{minute:02d}", f"{hour}h{minute:02d}",
            meant.replace(":", ""), f"{twelve}:{minute:02d} {half}",
            f"{twelve}.{minute:02d}{half.upper()}",
        ):  # fmt: skip
            assert parse_time(written) == meant, written


@given(TEXTS)
def test_any_text_is_a_time_or_refused_in_words(text: str) -> None:
    try:
        clock = parse_time(text)
    except Refusal as refusal:
        told = refusal
    else:
        assert clock == "" or (len(clock) == 5 and clock.isascii() and "00:00" <= clock <= "23:59")
        return
    assert told.sentence.endswith(".")


# ------------------------------------------------------------------------------------------- map and set-up


@given(st.integers(-90_000_000, 90_000_000), st.integers(-180_000_000, 180_000_000))
def test_a_place_on_the_map_reads_back_to_the_millionth(latitude: int, longitude: int) -> None:
    written = map_text((latitude, longitude))
    assert parse_map(written) == (latitude, longitude)
    assert parse_map(written.replace(", ", ";").replace(".", ",")) == (latitude, longitude)


@given(TEXTS, TEXTS)
def test_any_count_of_hooks_and_shelves_is_read_or_refused(rails: str, shelves: str) -> None:
    try:
        read = parse_places({"rails": rails, "shelves": shelves, "name": "C", "sort": "chill"})
    except Refusal as refusal:
        assert refusal.field in ("rails", "shelves")  # noqa: PT017 - both outcomes are right ones
        return
    assert rails.isascii()
    assert all(0 <= hooks <= 999 for _name, hooks in read["rails"])
    assert len(read["shelves"]) <= 99


@pytest.mark.parametrize("sort", ["days", "range"])
def test_any_text_is_an_own_figure_or_refused(qtbot, look, sort: str) -> None:
    editor = RangeEditor() if sort == "range" else WholeEditor("days")
    qtbot.addWidget(editor)

    @given(TEXTS, TEXTS)
    def tried(one: str, other: str) -> None:
        if isinstance(editor, RangeEditor):
            editor.first.setText(one)
            editor.last.setText(other)
        else:
            editor.edit.setText(one)
        try:
            value = editor.value()
        except Refusal as refusal:
            assert refusal.field == "value"  # noqa: PT017 - both outcomes are right ones
            return
        assert value.isascii()
        assert value.replace("-", "").isdigit()

    tried()
