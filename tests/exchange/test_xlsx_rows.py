"""Spreadsheets' own files: read as their CSV would be, and looked into before anything reads them."""

from __future__ import annotations

import zipfile
from datetime import date, datetime, time
from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import Workbook

from gametrace.domain.errors import Refusal
from gametrace.exchange import xlsx_rows
from gametrace.exchange.old_sheet import guessed_mapping, old_rows, read_sheet

HEADS = ("Date in", "Supplier", "Tag", "Species", "Sex", "Weight kg", "Date of kill", "Time shot")
GOOD = (datetime(2025, 11, 3), "Perrin Ashdown", 101, "Fallow", "F", 38.5, date(2025, 11, 1), time(7, 40))

KNOWN = {"Perrin Ashdown": ("S001", "wild-direct", "wild-shot")}

# By hand, so that the reader is not only held against its own writer. Names and parts as ISO/IEC 29500-1 has
# them (from memory); 45964 is 3 November 2025 counted from 30 December 1899, as spreadsheets count days.
_TYPES = (
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Override PartName="/xl/workbook.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>'
    '<Override PartName="/xl/styles.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>'
    '<Override PartName="/xl/worksheets/sheet1.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>'
)
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_RELS = "http://schemas.openxmlformats.org/package/2006/relationships"


def by_hand(rows: str) -> dict[str, str]:
    def linked(*targets: str) -> str:
        links = "".join(
            f'<Relationship Id="r{at}" Type="{_OFFICE}/{target.split()[0]}" Target="{target.split()[1]}"/>'
            for at, target in enumerate(targets, start=1)
        )
        return f'<Relationships xmlns="{_RELS}">{links}</Relationships>'

    styles = (
        '<fonts count="1"><font/></fonts>'
        '<fills count="1"><fill><patternFill patternType="none"/></fill></fills>'
        '<borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs>'
        '<cellXfs count="2"><xf/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs>'
    )
    sheets = '<sheets><sheet name="Book" sheetId="1" r:id="r1"/></sheets>'
    return {
        "[Content_Types].xml": _TYPES,
        "_rels/.rels": linked("officeDocument xl/workbook.xml"),
        "xl/workbook.xml": f'<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}">{sheets}</workbook>',
        "xl/_rels/workbook.xml.rels": linked("worksheet worksheets/sheet1.xml", "styles styles.xml"),
        "xl/styles.xml": f'<styleSheet xmlns="{_MAIN}">{styles}</styleSheet>',
        "xl/worksheets/sheet1.xml": f'<worksheet xmlns="{_MAIN}"><sheetData>{rows}</sheetData></worksheet>',
    }


def packed(parts: dict[str, str]) -> bytes:
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as file:
        for name, text in parts.items():
            file.writestr(name, text)
    return out.getvalue()


def workbook(path: Path, **sheets: tuple) -> Path:
    book = Workbook()
    book.remove(book.active)
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    book.save(path)
    return path


def test_a_sheet_made_by_hand_is_read_as_its_csv_would_be(tmp_path: Path) -> None:
    def words(at: str, said: str) -> str:
        return f'<c r="{at}" t="inlineStr"><is><t>{said}</t></is></c>'

    heads = words("A1", "Date") + words("B1", "Supplier") + words("C1", "Kg")
    cells = f'<c r="A3" s="1"><v>45964</v></c>{words("B3", "Caf&#233; &amp; Sons")}<c r="C3"><v>41.6</v></c>'
    rows = f'<row r="1">{heads}</row><row r="3">{cells}<c r="D3"><f>C3*2</f><v>83.2</v></c></row>'
    path = tmp_path / "old.xlsx"
    path.write_bytes(packed(by_hand(rows)))
    sheet = read_sheet(path)
    assert sheet.heads == ("Date", "Supplier", "Kg")
    assert sheet.rows == ((3, ("2025-11-03", "Café & Sons", "41.6", "83.2")),)  # row 2 is empty


def test_days_times_and_numbers_become_deliveries(tmp_path: Path) -> None:
    sheet = read_sheet(workbook(tmp_path / "old.xlsx", Book=(HEADS, GOOD)))
    (row,) = old_rows(sheet, guessed_mapping(sheet.heads), KNOWN)
    assert row.problems == ()
    assert row.delivery.grams == 38_500
    assert row.delivery.tag == "101"
    assert row.delivery.killed_on == date(2025, 11, 1)
    assert row.delivery.kill_time == "07:40"
    assert row.delivery.received_at.isoformat() == "2025-11-03T12:00:00+00:00"


def test_a_title_above_the_heads_is_passed_over_and_a_day_may_hold_its_time(tmp_path: Path) -> None:
    timed = (datetime(2025, 11, 3, 9, 30), *GOOD[1:4], "doe", 38.5, datetime(2025, 11, 1, 16, 5), None)
    book = workbook(tmp_path / "old.xlsx", Book=(("Game book of 2025",), (), HEADS, timed))
    sheet = read_sheet(book)
    assert sheet.heads == HEADS
    (row,) = old_rows(sheet, guessed_mapping(sheet.heads), KNOWN)
    assert row.problems == ()
    assert (row.number, row.delivery.sex, row.delivery.kill_time) == (4, "female", "16:05")
    assert row.delivery.received_at.isoformat() == "2025-11-03T09:30:00+00:00"
    assert row.notes == ()  # the time stood there


def test_what_is_wrong_with_a_row_is_said_under_the_lists_own_heads(tmp_path: Path) -> None:
    wrong = ("4 Nov 25", "", 102, "Fallow", "?", "abc")
    sheet = read_sheet(workbook(tmp_path / "old.xlsx", Book=(HEADS, wrong)))
    (row,) = old_rows(sheet, guessed_mapping(sheet.heads), KNOWN)
    told = " ".join(row.problems)
    assert "Date in: “4 Nov 25” is not a day with its whole year" in told
    assert "Supplier: no supplier stands there." in told
    assert "Sex: “?” is not a sex" in told
    assert "Weight kg: 'abc'" in told
    with pytest.raises(Refusal, match="Its heads are “Date in”, “Supplier”"):
        old_rows(sheet, {"grams": "Kilos"}, KNOWN)


def test_of_several_sheets_one_has_to_be_named(tmp_path: Path) -> None:
    path = workbook(tmp_path / "old.xlsx", Deer=(HEADS, GOOD), Birds=(HEADS, GOOD), Empty=())
    with pytest.raises(Refusal, match="“Deer”, “Birds”"):
        read_sheet(path)
    assert len(read_sheet(path, "birds").rows) == 1
    with pytest.raises(Refusal, match="no sheet called “Fish”"):
        read_sheet(path, "Fish")


def test_an_empty_sheet_beside_the_list_is_no_question(tmp_path: Path) -> None:
    assert len(read_sheet(workbook(tmp_path / "old.xlsx", Notes=(), Book=(HEADS, GOOD))).rows) == 1


def test_figures_worked_out_by_the_spreadsheet_carry_no_crumbs(tmp_path: Path) -> None:
    sheet = read_sheet(workbook(tmp_path / "old.xlsx", Book=(("Kg", "Is it"), (0.1 + 0.2, True))))
    assert sheet.rows == ((2, ("0.3", "yes")),)


@pytest.mark.parametrize("part", ["xl/worksheets/sheet1.xml", "xl/_rels/workbook.xml.rels"])
def test_a_part_that_declares_anything_of_its_own_is_refused(tmp_path: Path, part: str) -> None:
    parts = by_hand("")
    parts[part] = '<!DOCTYPE lol [<!ENTITY a "aaaa">]>' + parts[part]
    path = tmp_path / "old.xlsx"
    path.write_bytes(packed(parts))
    with pytest.raises(Refusal, match="belong in no list"):
        read_sheet(path)


def test_a_file_that_unpacks_beyond_measure_is_refused_before_it_is_unpacked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(xlsx_rows, "MOST_UNPACKED", 100_000)
    path = tmp_path / "old.xlsx"
    path.write_bytes(packed(by_hand(" " * 200_000)))
    assert path.stat().st_size < 5_000
    with pytest.raises(Refusal, match="unpacks to more"):
        read_sheet(path)


@pytest.mark.parametrize("cut", [30, 200, 900])
def test_a_torn_file_is_refused_in_a_sentence(tmp_path: Path, cut: int) -> None:
    path = workbook(tmp_path / "old.xlsx", Book=(HEADS, GOOD))
    path.write_bytes(path.read_bytes()[:-cut])
    with pytest.raises(Refusal, match="damaged"):
        read_sheet(path)


def test_a_zip_of_something_else_is_refused_in_a_sentence(tmp_path: Path) -> None:
    path = tmp_path / "old.xlsx"
    path.write_bytes(packed({"readme.txt": "hello"}))
    with pytest.raises(Refusal, match="cannot be read as a spreadsheet"):
        read_sheet(path)


def test_a_sheet_too_wide_or_too_long_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal, match="too wide"):
        read_sheet(workbook(tmp_path / "wide.xlsx", Book=(tuple("abc"), tuple("x" * 90))))
    with pytest.raises(Refusal, match="rows"):
        read_sheet(workbook(tmp_path / "long.xlsx", Book=(("a",), *(("x",),) * 5_001)))
