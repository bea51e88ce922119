"""The whole register in files that need no program of ours: CSV, the journal line by line, one SQLite copy.

Into a new or empty folder, whole or not at all. What the tables hold is worded by the register.
"""

from __future__ import annotations

import csv
import shutil
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from gametrace.domain.errors import Refusal, Trouble
from gametrace.exchange.csv_out import deliveries_csv, harmless
from gametrace.register import questions
from gametrace.register.clock import wall_text
from gametrace.register.open_tables import OpenTable, journal_lines, still_copy, tables_of
from gametrace.register.opening import Register
from gametrace.register.records import Larder, Seal

JOURNAL, COPY, DICTIONARY, ABOUT = "journal.jsonl", "register.sqlite", "dictionary.csv", "about.txt"
_ALL = 1_000_000_000


@dataclass(frozen=True, slots=True)
class Exported:
    folder: Path
    files: int
    seal: Seal


def export_to(register: Register, folder: Path) -> Exported:
    """Write everything into `folder`. Raises Trouble where it cannot be written; then nothing is left."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise Refusal(f"{folder} is not an empty folder.", "Name a new one; nothing is written over.", "out")
    half = folder.with_name(folder.name + ".part")
    try:
        shutil.rmtree(half, ignore_errors=True)
        (half / "tables").mkdir(parents=True, mode=0o700)
        with still_copy(register, half / COPY) as still:
            seal = _write_all(still, half)
        files = sum(one.is_file() for one in half.rglob("*"))
        if folder.exists():
            folder.rmdir()
        half.replace(folder)
    except OSError as error:
        raise Trouble(
            f"The export cannot be written to {folder}: {error.strerror}.", "Choose another place."
        ) from error
    finally:
        shutil.rmtree(half, ignore_errors=True)
    return Exported(folder, files, seal)


def _write_all(register: Register, folder: Path) -> Seal:
    tables = tables_of(register)
    with (folder / JOURNAL).open("wb") as file:
        file.writelines(journal_lines(register))
    for table in tables:
        heads = [column.head for column in table.columns]
        _write_csv(folder / "tables" / f"{table.name}.csv", heads, table.rows())
    found = questions.deliveries(register, limit=_ALL)[::-1]
    (folder / "deliveries.csv").write_bytes(deliveries_csv(found).encode())
    _write_csv(folder / DICTIONARY, DICTIONARY_HEADS, dictionary_rows(tables))
    seal = questions.seal(register)
    words = about_text(register.larder, seal, wall_text(register.clock()))
    (folder / ABOUT).write_text(words, encoding="utf-8")
    return seal


def _write_csv(path: Path, heads: Sequence[str], rows: Iterable[Sequence[object]]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\r\n")
        writer.writerow([harmless(head) for head in heads])
        writer.writerows([harmless(cell) for cell in row] for row in rows)


DICTIONARY_HEADS = ("file", "what it holds", "column", "kind", "unit", "what the column holds")


def dictionary_rows(tables: Iterable[OpenTable]) -> Iterable[Sequence[object]]:
    """A row a column, from the declarations of the tables themselves."""
    for table in tables:
        for column in table.columns:
            file = f"tables/{table.name}.csv"
            yield file, table.about, column.head, column.kind, column.unit, column.about


def about_text(larder: Larder, seal: Seal, at: str) -> str:
    practice = "THIS IS A PRACTICE REGISTER: everything in it is invented.\n\n" if larder.is_practice else ""
    return f"""{practice}{larder.name or "A larder without a name"}
{larder.address}
Exported {at} from gametrace. {seal.count} entries; the seal of the last one is
{seal.head}

{JOURNAL}      every act, one line each, in order; this is the register itself
tables/            what the program reads from it, a CSV file a table
deliveries.csv     a line a delivery with every declared field
{DICTIONARY}     what every column holds, and its unit
{COPY}    the register as one SQLite file. It holds everything, the names of people of the house
                   too: give it to nobody who may not see those.

All CSV: UTF-8, days and instants as ISO 8601, instants in UTC, grams and pence and tenths of a degree as
whole numbers. An apostrophe stands before a cell that a spreadsheet might take for a formula.

{CHECK_WORDS}"""


CHECK_WORDS = """How anyone can check the seal
-----------------------------
Each line of journal.jsonl is one JSON object. It holds the fields of the entry (seq, kind, version,
happened_at, written_at, by, key, body), 'previous', which is the seal of the line before (64 noughts
in the first line), and, last of all, 'seal'.

What was sealed is the line as it stands in the file, byte for byte, but without ',"seal":"..."': cut
the last 75 bytes off the line (not counting the line break) and put '}' back. The SHA-256 of that,
in hexadecimal, is the seal. In Python, with nothing but its own library:

    import hashlib, json
    previous = "0" * 64
    with open("journal.jsonl", "rb") as journal:
        for number, line in enumerate(journal, start=1):
            line = line.rstrip(b"\\n")
            entry = json.loads(line)
            sealed = line[:-75] + b"}"
            assert hashlib.sha256(sealed).hexdigest() == entry["seal"], number
            assert entry["previous"] == previous and entry["seq"] == number, number
            previous = entry["seal"]
    print(number, previous)

Change one letter of any entry, leave one out or swap two, and it stops there. If it runs through
and prints the number of entries and the seal that stand on a paper or in a backup's note, then every
entry up to there is the one that was there when that paper was printed. What it cannot show is that
what was typed in was true, or that nothing was left untyped. (The sealed text is JSON as RFC 8785
spells it, so it can also be made again from the fields; the recipe above does not need that.)
"""
