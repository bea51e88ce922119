"""The rows of a spreadsheet's own file (Office Open XML, ISO/IEC 29500) as text, as its CSV would have them.

openpyxl reads the sheet; before that the file is looked at as what it is, a zip of XML from somebody else.
"""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from datetime import date, datetime, time
from io import BytesIO
from typing import Any
from zipfile import BadZipFile, ZipFile

from gametrace.domain.errors import Refusal

MOST_UNPACKED = 60_000_000
MOST_PARTS = 500
_XML = (".xml", ".rels")
Rows = Iterator[tuple[int, tuple[str, ...]]]


def rows_of(content: bytes, name: str, wanted: str = "", most_columns: int = 80) -> Rows:
    """(row number, cells) of the sheet called `wanted`, or of the only one that holds anything.

    A cell with a formula is what the spreadsheet last made of it. Refuses what is no such file, what
    unpacks beyond measure, and several sheets where none was named. One column more than the most is read,
    so that a sheet too wide is noticed.
    """
    _look_inside(content, name)
    from openpyxl import load_workbook  # late: only who brings such a file waits for it

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of looks and extensions that no list needs
            book = load_workbook(BytesIO(content), read_only=True, data_only=True, keep_links=False)
        sheet = _chosen(book, name, wanted)
        rows = sheet.iter_rows(max_col=most_columns + 1, values_only=True)
        yield from ((number, _texts(cells)) for number, cells in enumerate(rows, start=1))
    except Refusal:
        raise
    except Exception as error:  # whatever a damaged file makes the reader stumble over
        raise Refusal(
            f"{name} cannot be read as a spreadsheet: {type(error).__name__}.",
            "Open and save it anew, or save it as CSV (UTF-8).",
            "file",
        ) from error


def _look_inside(content: bytes, name: str) -> None:
    advice = "Save the list as CSV (UTF-8), then try that."
    try:
        with ZipFile(BytesIO(content)) as packed:
            parts = packed.infolist()
            if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_UNPACKED:
                raise Refusal(f"{name} unpacks to more than is read.", advice, "file")
            if any(_gives_orders(packed.read(part)) for part in parts if part.filename.endswith(_XML)):
                raise Refusal(f"{name} holds instructions that belong in no list.", advice, "file")
    except (BadZipFile, NotImplementedError, RuntimeError, OSError, EOFError) as error:
        raise Refusal(f"{name} is damaged, or locked with a password.", advice, "file") from error


def _gives_orders(part: bytes) -> bool:
    """Whether XML declares anything of its own, or hides that in another encoding."""
    return b"<!DOCTYPE" in part or b"<!ENTITY" in part or b"\0" in part[:100]


def _chosen(book: Any, name: str, wanted: str) -> Any:
    seen = [sheet for sheet in book.worksheets if sheet.sheet_state == "visible"]
    if wanted:
        found = [sheet for sheet in seen if sheet.title.casefold() == wanted.casefold()]
    else:
        found = [sheet for sheet in seen if _holds_anything(sheet)]
    if len(found) == 1:
        return found[0]
    names = ", ".join(f"“{sheet.title[:40]}”" for sheet in (found or seen)[:10])
    if not found:
        sentence = f"{name} has no sheet called “{wanted[:40]}”." if wanted else f"{name} holds no rows."
        raise Refusal(sentence, f"It has: {names}.", "sheet")
    raise Refusal(f"{name} has several sheets: {names}.", 'Name one: --sheet "Deliveries".', "sheet")


def _holds_anything(sheet: Any) -> bool:
    return any(cell is not None for row in sheet.iter_rows(max_row=50, values_only=True) for cell in row)


def _texts(cells: tuple[Any, ...]) -> tuple[str, ...]:
    texts = [_text(cell) for cell in cells]
    while texts and not texts[-1]:
        texts.pop()
    return tuple(texts)


def _text(cell: Any) -> str:
    match cell:
        case None:
            return ""
        case bool():
            return "yes" if cell else "no"
        case datetime() if cell.time() == time():
            return cell.date().isoformat()
        case datetime():
            return cell.strftime("%Y-%m-%d %H:%M")
        case date():
            return cell.isoformat()
        case time():
            return cell.strftime("%H:%M")
        case float():
            return f"{cell:.15g}"  # as many figures as a spreadsheet keeps
        case _:
            return str(cell)
