"""Old lists of deliveries, CSV or XLSX, read row by row for copying: columns mapped, figures and days read.

It guesses the mapping from the heads and reads; the register rules and writes.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from io import StringIO
from pathlib import Path
from typing import Any

from gametrace.domain.deliveries import Delivery
from gametrace.domain.errors import Refusal, Trouble
from gametrace.domain.quantities import parse_grams, parse_pence, parse_tenths_c
from gametrace.facts.species import all_species
from gametrace.register.clock import wall_instant
from gametrace.register.copying import MOST_ROWS, OldRow

MOST_BYTES = 5_000_000
MOST_COLUMNS = 80
MOST_CELL = 1_000

# field: words a head may hold, lower case; the first head that fits is taken
FIELDS: dict[str, tuple[str, ...]] = {
    "received_on": ("received", "date in", "delivered", "delivery date", "date"),
    "received_time": ("time in", "time received"),
    "supplier": ("supplier", "from", "source", "estate", "stalker"),
    "tag": ("tag", "number", "no."),
    "species": ("species", "animal", "game"),
    "sex": ("sex",),
    "count": ("count", "head", "bodies", "how many"),
    "grams": ("weight", "kg", "kilo"),
    "killed_on": ("killed", "shot", "date of kill"),
    "kill_time": ("kill time", "time of kill", "time shot"),
    "kill_place": ("place", "where", "beat", "location"),
    "declaration_number": ("declaration",),
    "tenths_c": ("temperature", "temp", "°c"),
    "pence_per_kg": ("price", "£"),
    "inspection_notes": ("note", "remark", "comment"),
}
NEEDED = ("received_on", "supplier", "species", "grams")
_SEX = {
    "": "unknown",
    **dict.fromkeys(("m", "male", "buck", "stag"), "male"),
    **dict.fromkeys(("f", "female", "doe", "hind"), "female"),
}
_TIME = re.compile(r"([01]?\d|2[0-3])[:.]([0-5]\d)(?::[0-5]\d)?", re.ASCII)
_DAY_AND_TIME = (("received_on", "received_time"), ("killed_on", "kill_time"))


@dataclass(frozen=True, slots=True)
class OldSheet:
    """A file as it was read: its name, its heads, its rows as text."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]  # (row number, cells)


def read_sheet(path: Path, wanted: str = "") -> OldSheet:
    """Read a CSV or XLSX file, of this the sheet called `wanted` where there are several.

    Refuses what is too large, neither of the two, or without rows.
    """
    try:
        size = path.stat().st_size
        if size > MOST_BYTES:
            raise Refusal(
                f"{path.name} has {size / 1e6:.1f} MB; {MOST_BYTES // 1_000_000} MB are read at most.",
                "Part the list by years.",
                "file",
            )
        content = path.read_bytes()
    except OSError as error:
        raise Trouble(f"{path} cannot be read: {error.strerror}.", "Check the name.") from error
    if content.startswith(b"\xd0\xcf\x11\xe0"):
        raise Refusal(
            f"{path.name} is an old spreadsheet's own file, or one with a password.",
            "Save it there as XLSX or CSV (UTF-8), then try that.",
            "file",
        )
    if content.startswith(b"PK\x03\x04"):
        from gametrace.exchange.xlsx_rows import rows_of

        return _sheet(path.name, rows_of(content, path.name, wanted, MOST_COLUMNS))
    return _sheet(path.name, _csv_rows(path.name, _text(content, path.name)))


def _text(content: bytes, name: str) -> str:
    for encoding in ("utf-8-sig", "cp1252"):
        try:
            text = content.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text
    raise Refusal(f"{name} is not a text file.", "Save the list as CSV (UTF-8).", "file")


def _csv_rows(name: str, text: str) -> Iterator[tuple[int, list[str]]]:
    first = text.partition("\n")[0]
    mark = max(",;\t", key=first.count)
    try:
        yield from enumerate(csv.reader(StringIO(text, newline=""), delimiter=mark), start=1)
    except csv.Error as error:
        raise Refusal(
            f"{name} cannot be read as CSV: {error}.", "Save it anew as CSV (UTF-8).", "file"
        ) from error


def _sheet(name: str, rows: Iterable[tuple[int, Sequence[str]]]) -> OldSheet:
    read: list[tuple[int, tuple[str, ...]]] = []
    for number, row in rows:
        if len(row) > MOST_COLUMNS or any(len(cell) > MOST_CELL for cell in row):
            raise Refusal(f"Row {number} is too wide or holds an endless cell.", "Mend it there.", "file")
        filled = sum(bool(cell.strip()) for cell in row)
        if filled > 1 or (filled and read):  # one cell alone above the heads is a title
            read.append((number, tuple(cell.strip() for cell in row)))
        if len(read) > MOST_ROWS + 1:
            raise Refusal(f"More than {MOST_ROWS:,} rows.", "Part the list by years.", "file")
    if len(read) < 2:
        raise Refusal(f"{name} holds no rows under its heads.", "Choose another file.", "file")
    return OldSheet(name, read[0][1], tuple(read[1:]))


def guessed_mapping(heads: Sequence[str]) -> dict[str, str]:
    """Field to head, by the words in the heads; each head once. A person looks at it before anything else."""
    left = list(dict.fromkeys(head for head in heads if head))
    found: dict[str, str] = {}
    for exact in (True, False):
        for field, words in FIELDS.items():
            if field in found:
                continue
            for head in left:
                plain = " ".join(head.lower().replace("_", " ").split())
                if plain in words if exact else any(word in plain for word in words):
                    found[field] = head
                    left.remove(head)
                    break
    return found


def old_rows(
    sheet: OldSheet, mapping: Mapping[str, str], suppliers: Mapping[str, tuple[str, str, str]]
) -> tuple[OldRow, ...]:
    """Every row as a delivery, or what is wrong with it. `suppliers`: name to (code, route, origin)."""
    for field, head in mapping.items():
        if field not in FIELDS:
            raise Refusal(f"There is no field called {field}.", f"Use: {', '.join(FIELDS)}.", "mapping")
        if head not in sheet.heads:
            raise Refusal(f"There is no column “{head[:60]}” in {sheet.name}.", _heads(sheet), "mapping")
    if missing := [field for field in NEEDED if field not in mapping]:
        raise Refusal(
            f"No column is named for {', '.join(missing)}.",
            f'Name it, for example: --map received_on="Date in". {_heads(sheet)}',
            "mapping",
        )
    at = {field: sheet.heads.index(head) for field, head in mapping.items()}
    known = {name.casefold(): held for name, held in suppliers.items()}
    return tuple(_row(number, cells, at, known, mapping) for number, cells in sheet.rows)


def _heads(sheet: OldSheet) -> str:
    named = ", ".join(f"“{head[:40]}”" for head in sheet.heads if head)
    return f"Its heads are {named}."


def _row(
    number: int,
    cells: tuple[str, ...],
    at: Mapping[str, int],
    known: Mapping[str, tuple[str, str, str]],
    heads: Mapping[str, str],
) -> OldRow:
    given = {field: cells[place] if place < len(cells) else "" for field, place in at.items()}
    for day, time in _DAY_AND_TIME:
        _part(given, day, time)
    problems: list[str] = []
    notes: list[str] = []
    fields: dict[str, Any] = {}

    def take(name: str, read: Any) -> Any:
        try:
            return read(given[name]) if given.get(name) else None
        except Refusal as refusal:
            problems.append(f"{heads[name]}: {refusal.sentence}")
            return None

    supplier = known.get(given["supplier"].casefold())
    if supplier is None:
        problems.append(f"{heads['supplier']}: {_not_known(given['supplier'])}")
    else:
        fields["supplier"], fields["route"], fields["origin"] = supplier
    fields["species"] = take("species", _species) or ""
    fields["sex"] = take("sex", _sex) or "unknown"
    fields["grams"] = take("grams", parse_grams) or 0
    fields["count"] = take("count", _count) or 1
    fields["killed_on"] = take("killed_on", _day)
    fields["kill_time"] = take("kill_time", _time) or ""
    fields["pence_per_kg"] = take("pence_per_kg", parse_pence)
    tenths = take("tenths_c", parse_tenths_c)
    fields["readings"] = (("carcass", tenths),) if tenths is not None else ()
    for name in ("tag", "kill_place", "declaration_number", "inspection_notes"):
        fields[name] = given.get(name, "")
    fields["has_declaration"] = bool(fields["declaration_number"])
    day, time = take("received_on", _day), take("received_time", _time)
    if not given["received_on"]:
        problems.append(f"{heads['received_on']}: no day stands there.")
    if day is not None:
        hour, minute = (int(part) for part in (time or "12:00").split(":"))
        fields["received_at"] = wall_instant(day, hour, minute)
        if not time:
            notes.append("no time on the paper, noon stands in")
    if problems:
        return OldRow(number, None, tuple(problems))
    return OldRow(number, Delivery(**fields), (), tuple(notes))


def _part(given: dict[str, str], day: str, time: str) -> None:
    """A spreadsheet may hold day and time in one cell; a column of its own for the time goes before it."""
    first, _, last = given.get(day, "").rpartition(" ")
    if first and _TIME.fullmatch(last):
        given[day], given[time] = first, given.get(time) or last


def _not_known(supplier: str) -> str:
    if not supplier:
        return "no supplier stands there."
    return f"“{supplier[:60]}” is not in the supplier book; add it first."


def _species(text: str) -> str:
    plain = " ".join(text.casefold().replace("deer", "").split())
    for one in all_species():
        if plain in (one.id, one.name.casefold(), one.name.casefold().replace(" deer", "")):
            return one.id
    raise Refusal(f"“{text[:40]}” is not a species known here.", "", "species")


def _sex(text: str) -> str:
    if (found := _SEX.get(text.strip().casefold())) is None:
        raise Refusal(f"“{text[:40]}” is not a sex; write male or female.", "", "sex")
    return found


def _count(text: str) -> int:
    if not (text.isascii() and text.isdigit()):
        raise Refusal(f"“{text[:40]}” is not a whole number.", "", "count")
    return int(text)


def _day(text: str) -> date:
    for form in ("%Y-%m-%d", "%d/%m/%Y", "%d.%m.%Y", "%d-%m-%Y", "%d %b %Y", "%d %B %Y"):
        try:
            return datetime.strptime(text, form).date()
        except ValueError:
            continue
    raise Refusal(f"“{text[:40]}” is not a day with its whole year, as 4 November 2024 is.", "", "day")


def _time(text: str) -> str:
    match = _TIME.fullmatch(text)
    if match is None:
        raise Refusal(f"“{text[:40]}” is not a time.", "", "time")
    return f"{int(match[1]):02d}:{match[2]}"
