"""Old lists copied from paper: a trial row by row, all or nothing, both times in every entry."""

import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "register"))

from larder_house import House

from gametrace.domain.errors import Refusal, Trouble
from gametrace.exchange import old_sheet
from gametrace.exchange.old_sheet import guessed_mapping, old_rows, read_sheet
from gametrace.headless import copying
from gametrace.headless.commands import run
from gametrace.register import acts, keeping, questions

HEADS = (
    "Date in,Supplier,Tag,Species,Sex,Weight kg,Date of kill,Time shot,Place,Declaration no,Temp,Notes\r\n"
)
GOOD = (
    "03/11/2025,Perrin Ashdown,0101,Fallow,F,38.5,01/11/2025,07:40,Long Wood,D-1,4.2,clean\r\n"
    '2025-11-05,perrin ashdown,0102,roe deer,male,"16,2",04/11/2025,,Long Wood,D-2,,\r\n'
)


@pytest.fixture
def house(tmp_path: Path) -> Iterator[House]:
    one = House(tmp_path / "larder.register")
    yield one
    one.close()


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    path = tmp_path / "old.csv"
    path.write_bytes((HEADS + GOOD).encode())
    return path


def copied(house: House, path: Path, *more: str) -> int:
    return run(["copy", str(path), "--register", str(house.path), "--by", house.tutor, *more])


def test_who_copies_is_named_by_initials_and_asked_for_a_pin_where_there_is_one(
    house: House, sheet: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    initials = next(one.initials for one in questions.people(house.reg) if one.code == house.tutor)
    asked = ["copy", str(sheet), "--register", str(house.path), "--by"]
    assert run([*asked, "nobody"]) == 1
    assert f"{initials} ({house.tutor})" in capsys.readouterr().err
    acts.set_pin(house.reg, by=house.tutor, pin="2580")
    monkeypatch.setattr(copying, "getpass", lambda _prompt: "2580")
    assert run([*asked, initials.lower()]) == 0


def test_a_trial_tells_every_row_and_writes_nothing(
    house: House, sheet: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = questions.seal(house.reg)
    assert copied(house, sheet) == 0
    told = capsys.readouterr().out
    assert "received_on from “Date in”" in told
    assert "row 2:" in told
    assert "row 3:" in told
    assert "Nothing was yet" in told
    assert questions.seal(house.reg) == before
    assert keeping.check(house.reg) == ()


def test_written_rows_say_they_were_copied_and_carry_both_times(house: House, sheet: Path) -> None:
    assert copied(house, sheet, "--write") == 0
    newest, oldest = questions.deliveries(house.reg, limit=10)
    assert (oldest.tag, oldest.species, oldest.sex, oldest.grams_received) == (
        "0101",
        "fallow",
        "female",
        38_500,
    )
    assert (newest.grams_received, newest.species) == (16_200, "roe")
    assert oldest.killed_at == "2025-11-01T07:40"
    assert oldest.readings == (("carcass", 42),)
    assert oldest.received_at.date() == date(2025, 11, 3)
    assert oldest.written_at.year >= 2026
    (line,) = [one for one in questions.story(house.reg, oldest.code) if "received" in one.sentence]
    assert "copied from old.csv, row 2 (no time on the paper, noon stands in)" in line.sentence
    assert line.is_late
    sheet_of_period = questions.visit_sheet(house.reg, first=date(2025, 11, 1), last=date(2026, 12, 31))
    assert any("copied from old.csv" in one.sentence for one in sheet_of_period.late_entries)


def test_what_is_not_here_any_more_is_unaccounted_with_the_reason_and_the_register_whole(
    house: House, sheet: Path
) -> None:
    assert copied(house, sheet, "--write") == 0
    for one in questions.deliveries(house.reg, limit=10):
        assert one.lot.grams == 0
        trace = questions.trace(house.reg, one.code)
        assert trace.balance is not None
        assert trace.balance.unaccounted_grams == one.grams_received
    assert questions.in_the_house(house.reg) == ()
    assert keeping.check(house.reg) == ()


def test_what_still_hangs_stays_in_the_house(house: House, sheet: Path) -> None:
    assert copied(house, sheet, "--write", "--still-here") == 0
    assert len(questions.in_the_house(house.reg)) == 2


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ("03/11/2025,Nobody,0103,Fallow,F,38.5,01/11/2025,,,,,", "not in the supplier book"),
        ("03/11/2025,Perrin Ashdown,0103,Unicorn,F,38.5,01/11/2025,,,,,", "not a species"),
        ("03/11/25,Perrin Ashdown,0103,Fallow,F,38.5,01/11/2025,,,,,", "not a day with its whole year"),
        ("03/11/2025,Perrin Ashdown,0103,Fallow,F,much,01/11/2025,,,,,", "not a weight"),
        ("03/11/2025,Perrin Ashdown,0103,Fallow,F,38.5,09/11/2025,,,,,", "kill"),
        ("03/11/2035,Perrin Ashdown,0103,Fallow,F,38.5,01/11/2025,,,,,", "still to come"),
        (",Perrin Ashdown,0103,Fallow,F,38.5,01/11/2025,,,,,", "no day stands there"),
    ],
)
def test_one_row_that_cannot_be_keeps_all_of_them_out(
    house: House, sheet: Path, capsys: pytest.CaptureFixture[str], row: str, why: str
) -> None:
    sheet.write_bytes((HEADS + GOOD + row + "\r\n").encode())
    before = questions.seal(house.reg)
    assert copied(house, sheet, "--write") == 1
    told = capsys.readouterr().out
    assert "row 4: REFUSED" in told
    assert why in told
    assert "1 of 3 rows are refused; nothing was written." in told
    assert questions.seal(house.reg) == before
    assert keeping.check(house.reg) == ()


def test_who_may_not_write_copies_nothing(
    house: House, sheet: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["copy", str(sheet), "--register", str(house.path), "--by", house.officer, "--write"]) == 1
    assert "officer" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"PK\x03\x04rest", "damaged"),
        (b"\xd0\xcf\x11\xe0rest", "old spreadsheet's own file"),
        (b"", "no rows"),
        (b"a,b\r\n", "no rows"),
        (b"a\0b", "not a text file"),
        (b"a" * (old_sheet.MOST_BYTES + 1), "MB are read at most"),
        (b"a,b\r\n" + b"x" * 2_000 + b",y\r\n", "endless cell"),
        (b"a\r\n" + b"x\r\n" * 5_001, "rows"),
    ],
)
def test_a_file_that_will_not_do_is_refused_in_a_sentence(tmp_path: Path, content: bytes, why: str) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(content)
    with pytest.raises(Refusal, match=why):
        read_sheet(path)


def test_a_file_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(Trouble, match="cannot be read"):
        read_sheet(tmp_path / "none.csv")


def test_a_list_with_semicolons_and_old_letters_is_read(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes("Date;Supplier;Species;Kg\r\n01.11.2025;Caf\xe9;Roe;16\r\n".encode("cp1252"))
    sheet = read_sheet(path)
    assert guessed_mapping(sheet.heads) == {
        "received_on": "Date",
        "supplier": "Supplier",
        "species": "Species",
        "grams": "Kg",
    }
    (row,) = old_rows(sheet, guessed_mapping(sheet.heads), {"Café": ("S001", "wild-direct", "wild-shot")})
    assert row.delivery is not None
    assert row.delivery.grams == 16_000


def test_columns_are_named_by_hand_where_the_heads_do_not_tell(
    house: House, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(b"A,B,C,D\r\n2025-11-05,Perrin Ashdown,Roe,16\r\n")
    assert copied(house, path) == 1
    assert "No column is named for received_on, supplier, species, grams" in capsys.readouterr().err
    maps = [x for pair in ("received_on=A", "supplier=B", "species=C", "grams=D") for x in ("--map", pair)]
    assert copied(house, path, *maps) == 0


def test_nothing_half_done_is_left_when_the_writing_breaks_off(
    house: House, sheet: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from gametrace.register import copying

    def breaks(*_: object) -> None:
        raise RuntimeError("power cut")

    before = questions.seal(house.reg)
    monkeypatch.setattr(copying, "_close", breaks)
    rows = old_rows(
        read_sheet(sheet),
        guessed_mapping(read_sheet(sheet).heads),
        {"Perrin Ashdown": (house.supplier, "wild-direct", "wild-shot")},
    )
    with pytest.raises(RuntimeError):
        acts.copy_old_records(house.reg, by=house.tutor, source="old.csv", rows=rows, write=True)
    assert questions.seal(house.reg) == before
