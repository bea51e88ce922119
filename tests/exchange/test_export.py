"""The whole register in open files: read back with nothing of ours and found to be the same."""

import csv
import hashlib
import json
import sqlite3
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "register"))

from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal, Trouble
from gametrace.exchange.csv_out import harmless
from gametrace.exchange.export import ABOUT, COPY, DICTIONARY, JOURNAL, export_to
from gametrace.headless.commands import run
from gametrace.register import acts, questions
from gametrace.register.open_tables import tables_of
from gametrace.register.opening import look_at_register

AWKWARD = '=HYPERLINK("http://a.example","x")\u2028 "quoted", ; £ é \U0001f98c'


@pytest.fixture
def house(tmp_path: Path) -> Iterator[House]:
    one = House(tmp_path / "larder.register")
    one.receive(inspection_notes=AWKWARD, tag="@tag")
    doe = one.dressed()
    one.dish((one.pack(doe, 3_000), None), name="-2+3 pie")
    one.held(Decision.REJECT)
    acts.take_round(
        one.reg,
        by=one.student,
        probe=acts.add_probe(one.reg, by=one.tutor, name="Probe").code,
        readings=[(next(p.code for p in questions.places(one.reg) if p.kind == "store"), 31)],
    )
    yield one
    one.close()


@pytest.fixture
def folder(house: House, tmp_path: Path) -> Path:
    return export_to(house.reg, tmp_path / "out").folder


def test_an_outsider_with_sha_256_and_json_recomputes_the_chain(house: House, folder: Path) -> None:
    """These lines use nothing of the program: they are the recipe that is printed in about.txt."""
    previous, number = "0" * 64, 0
    with (folder / JOURNAL).open("rb") as journal:
        for number, line in enumerate(journal, start=1):
            line = line.rstrip(b"\n")
            entry = json.loads(line)
            sealed = line[:-75] + b"}"
            assert hashlib.sha256(sealed).hexdigest() == entry["seal"], number
            assert (entry["previous"], entry["seq"]) == (previous, number)
            previous = entry["seal"]
    seal = questions.seal(house.reg)
    assert (number, previous) == (seal.count, seal.head)


def recipe() -> str:
    """The lines of Python as about.txt prints them."""
    from gametrace.exchange.export import CHECK_WORDS

    return "\n".join(line[4:] for line in CHECK_WORDS.splitlines() if line.startswith("    "))


def test_the_printed_recipe_runs_and_ends_with_the_seal(
    house: House, folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(folder)
    exec(compile(recipe(), "recipe", "exec"), {})  # our own lines, to see that they are right
    seal = questions.seal(house.reg)
    assert capsys.readouterr().out.split() == [str(seal.count), seal.head]
    assert seal.head in (folder / ABOUT).read_text(encoding="utf-8")


def change_a_letter(lines: list[bytes]) -> None:
    lines[4] = lines[4].replace(b"Marrow", b"Narrow").replace(b"Chill", b"Thill").replace(b"P00", b"Q00")


def leave_one_out(lines: list[bytes]) -> None:
    del lines[4]


def swap_two(lines: list[bytes]) -> None:
    lines[4], lines[5] = lines[5], lines[4]


@pytest.mark.parametrize("spoil", [change_a_letter, leave_one_out, swap_two])
def test_the_recipe_stops_at_whatever_was_changed(
    folder: Path, monkeypatch: pytest.MonkeyPatch, spoil: object
) -> None:
    path = folder / JOURNAL
    lines = path.read_bytes().splitlines(keepends=True)
    spoil(lines)  # type: ignore[operator]
    path.write_bytes(b"".join(lines))
    monkeypatch.chdir(folder)
    with pytest.raises(AssertionError) as stopped:
        exec(compile(recipe(), "recipe", "exec"), {})
    assert stopped.value.args == (5,)


def test_every_table_reads_back_equal_by_python_s_csv(house: House, folder: Path) -> None:
    with look_at_register(house.path, with_students=True) as register:
        tables = tables_of(register)
        assert {one.name for one in tables} == {path.stem for path in (folder / "tables").iterdir()}
        for table in tables:
            with (folder / "tables" / f"{table.name}.csv").open(encoding="utf-8", newline="") as file:
                heads, *rows = csv.reader(file)
            assert heads == [column.head for column in table.columns]
            assert rows == [[harmless(cell) for cell in row] for row in table.rows()], table.name
        assert sum(len(list(table.rows())) for table in tables) > 40


def test_every_table_reads_back_equal_by_pandas(house: House, folder: Path) -> None:
    pandas = pytest.importorskip("pandas", reason="pandas is not installed; the same is held by csv above")
    with look_at_register(house.path, with_students=True) as register:
        for table in tables_of(register):
            frame = pandas.read_csv(folder / "tables" / f"{table.name}.csv", dtype=str, keep_default_na=False)
            assert frame.to_numpy().tolist() == [[harmless(c) for c in row] for row in table.rows()]


def test_no_cell_anywhere_begins_as_a_formula_would(folder: Path) -> None:
    """OWASP, 'CSV Injection': what begins with = + - @ may be run by a spreadsheet."""
    for path in folder.rglob("*.csv"):
        with path.open(encoding="utf-8", newline="") as file:
            for row in csv.reader(file):
                for cell in row:
                    assert not cell.startswith(("=", "@", "+", "\t")), (path.name, cell)
                    assert not cell.startswith("-") or cell[1:].isdigit(), (path.name, cell)


def test_lots_are_named_by_their_code_and_instants_say_that_they_are_utc(house: House, folder: Path) -> None:
    with (folder / "tables" / "lot.csv").open(encoding="utf-8", newline="") as file:
        lots = list(csv.DictReader(file))
    assert {row["code"] for row in lots} >= {one.code for one in questions.stock(house.reg)}
    assert all(row["made_at_utc"].endswith("Z") for row in lots)
    assert "unaccounted_grams" in lots[0]
    with (folder / "tables" / "store_reading.csv").open(encoding="utf-8", newline="") as file:
        (reading,) = csv.DictReader(file)
    assert reading["at_utc"] == "2026-11-12T09:00:00Z"
    assert reading["tenths_c"] == "31"


def test_the_dictionary_names_every_column_of_every_file(folder: Path) -> None:
    with (folder / DICTIONARY).open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    for path in (folder / "tables").iterdir():
        with path.open(encoding="utf-8", newline="") as file:
            heads = next(csv.reader(file))
        assert [row["column"] for row in rows if row["file"] == f"tables/{path.name}"] == heads
    units = {row["column"]: row["unit"] for row in rows}
    assert units["grams_left"] == "g"
    assert units["made_at_utc"] == "instant, ISO 8601, UTC"
    assert units["pence_per_kg"] == "pence"
    assert all(row["what it holds"] for row in rows)


def test_people_of_the_house_are_in_no_csv_and_suppliers_are(folder: Path) -> None:
    told = "".join(path.read_text(encoding="utf-8") for path in folder.rglob("*.csv"))
    assert "Perrin Ashdown" in told
    for name in ("Una Skerry", "Ida Marrow", "Wat Pell"):
        assert name not in told


def test_the_sqlite_copy_is_a_plain_file_with_every_entry(house: House, folder: Path) -> None:
    assert not list(folder.glob("*-wal"))
    connection = sqlite3.connect(f"file:{folder / COPY}?mode=ro&immutable=1", uri=True)
    try:
        assert connection.execute("PRAGMA journal_mode").fetchone()[0] in ("delete", "off")
        assert (
            connection.execute("SELECT COUNT(*) FROM entry").fetchone()[0] == questions.seal(house.reg).count
        )
    finally:
        connection.close()


def test_nothing_is_ever_written_over(house: House, folder: Path) -> None:
    with pytest.raises(Refusal, match="not an empty folder"):
        export_to(house.reg, folder)


def test_a_place_that_cannot_be_written_is_said_and_nothing_is_left(house: House, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises((Refusal, Trouble)):
        export_to(house.reg, tmp_path / "file" / "out")
    assert (tmp_path / "file").read_text() == "x"


def test_the_command_writes_it_and_says_the_seal(
    house: House, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["export", "--register", str(house.path), "--out", str(tmp_path / "all")]) == 0
    assert questions.seal(house.reg).head in capsys.readouterr().out
    assert (tmp_path / "all" / JOURNAL).exists()
