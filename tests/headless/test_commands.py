"""The command line: the keys programs read, the sentences people read, the exit codes both rely on."""

from __future__ import annotations

import csv
import io
import json
import shutil
import sqlite3
from fractions import Fraction
from io import StringIO
from pathlib import Path
from typing import Any

import pytest

from gametrace.headless.commands import run
from gametrace.register import acts, questions
from gametrace.register.opening import open_register


def answer(capsys: pytest.CaptureFixture[str], *words: str) -> Any:
    assert run(words) == 0
    return json.loads(capsys.readouterr().out)


def test_trace_of_a_dish_has_the_promised_keys_and_exact_shares(
    toured: Path, told: dict[str, Any], capsys: pytest.CaptureFixture[str]
) -> None:
    told_trace = answer(capsys, "trace", told["dish"], "--register", str(toured / "tour.register"), "--json")
    assert {"code", "kind", "state", "animals", "forward", "balance", "findings"} <= told_trace.keys()
    for animal in told_trace["animals"]:
        assert {
            "code",
            "tag",
            "species",
            "sex",
            "origin_type",
            "killed_at",
            "place",
            "supplier",
            "grams",
            "share",
        } <= animal.keys()
    assert sum(Fraction(animal["share"]) for animal in told_trace["animals"]) == 1
    assert {animal["origin_type"] for animal in told_trace["animals"]} == {
        "wild-shot",
        "park",
        "field-farmed",
    }


def test_trace_of_an_animal_has_its_balance_and_all_that_was_made_of_it(
    toured: Path, told: dict[str, Any], capsys: pytest.CaptureFixture[str]
) -> None:
    told_trace = answer(capsys, "trace", "hd 0117", "--register", str(toured / "tour.register"), "--json")
    balance = told_trace["balance"]
    assert balance["received_grams"] == 38_400
    assert balance["accounted_grams"] + balance["unaccounted_grams"] == 38_400
    assert told["dish"] in {lot["code"] for lot in told_trace["forward"]}
    assert all({"code", "kind", "grams", "state", "where"} <= lot.keys() for lot in told_trace["forward"])


def test_the_list_of_a_trace_opens_in_a_spreadsheet(
    toured: Path, told: dict[str, Any], capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["trace", told["dish"], "--register", str(toured / "tour.register"), "--csv"]) == 0
    rows = list(csv.reader(io.StringIO(capsys.readouterr().out)))
    assert set(told["carcasses"].values()) <= {cell for row in rows for cell in row}


def test_a_supplier_can_be_traced_by_name(toured: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told_trace = answer(
        capsys, "trace", "coldwell deer farm", "--register", str(toured / "tour.register"), "--json"
    )
    assert told_trace["kind"] == "supplier"
    assert [animal["species"] for animal in told_trace["animals"]] == ["red"]


def test_a_mistyped_code_is_caught_and_said_on_standard_error(
    toured: Path, told: dict[str, Any], capsys: pytest.CaptureFixture[str]
) -> None:
    wrong = told["dish"][:-1] + ("A" if told["dish"][-1] != "A" else "C")
    assert run(["trace", wrong, "--register", str(toured / "tour.register")]) == 1
    assert "check character" in capsys.readouterr().err


# Common practice, no source: fallow does 1 November to 31 March; statute: Deer Act 1991 Sch.1 as replaced
# by SI 2007/2183 art.5.
@pytest.mark.parametrize(
    ("day", "is_open"),
    [("2026-10-31", False), ("2026-11-01", True), ("2027-03-31", True), ("2027-04-01", False)],
)
def test_season_answers_for_both_boundary_days(
    day: str, is_open: bool, capsys: pytest.CaptureFixture[str]
) -> None:
    words = [
        "season",
        "--species",
        "fallow",
        "--sex",
        "female",
        "--on",
        day,
        "--in",
        "england-wales",
        "--origin",
        "wild-shot",
        "--json",
    ]
    told = answer(capsys, *words)
    assert told["open"] is is_open
    assert {"open", "opens", "closes", "source", "status", "note"} <= told.keys()


def test_season_says_null_where_the_sources_disagree(capsys: pytest.CaptureFixture[str]) -> None:
    told = answer(
        capsys,
        "season",
        "--species",
        "red",
        "--sex",
        "female",
        "--on",
        "2027-03-10",
        "--in",
        "northern-ireland",
        "--origin",
        "wild-shot",
        "--json",
    )
    assert told["open"] is None
    assert told["note"]


def test_an_unknown_species_is_one_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    words = ["season", "--species", "moose", "--sex", "male", "--on", "2026-11-01", "--in", "scotland"]
    assert run(words) == 1
    assert "moose" in capsys.readouterr().err


def test_labels_and_the_visit_are_written_as_pdf(toured: Path, told: dict[str, Any], tmp_path: Path) -> None:
    register = str(toured / "tour.register")
    labels, visit = tmp_path / "labels.pdf", tmp_path / "deep" / "visit.pdf"
    assert run(["label", told["dish"], told["packs"][0], "--register", register, "--out", str(labels)]) == 0
    assert (
        run(
            [
                "visit",
                "--from",
                "2026-11-01",
                "--to",
                "2026-11-30",
                "--register",
                register,
                "--out",
                str(visit),
            ]
        )
        == 0
    )
    assert labels.read_bytes()[:5] == visit.read_bytes()[:5] == b"%PDF-"


def test_a_period_that_ends_before_it_begins_writes_nothing(
    toured: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "visit.pdf"
    words = [
        "visit",
        "--from",
        "2026-11-30",
        "--to",
        "2026-11-01",
        "--register",
        str(toured / "tour.register"),
        "--out",
        str(out),
    ]
    assert run(words) == 1
    assert not out.exists()
    assert "ends before it begins" in capsys.readouterr().err


def test_check_exits_one_with_the_finding_when_an_entry_was_altered_and_rebuild_then_refuses(
    toured: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    altered = tmp_path / "altered.register"
    shutil.copy(toured / "tour.register", altered)
    with sqlite3.connect(altered) as connection:
        connection.execute("UPDATE entry SET text = replace(text, '38400', '38900') WHERE seq = 8")
    connection.close()
    assert run(["check", "--register", str(altered)]) == 1
    assert "entry 8" in capsys.readouterr().out
    assert run(["rebuild", "--register", str(altered)]) == 1
    assert "entry 8" in capsys.readouterr().err


def test_tables_changed_behind_the_journal_are_found_and_rebuilt(
    toured: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    copy = tmp_path / "copy.register"
    shutil.copy(toured / "tour.register", copy)
    with sqlite3.connect(copy) as connection:
        connection.execute(
            "UPDATE lot SET grams_left = grams_left + 500, grams_in = grams_in + 500 WHERE id = 260000010"
        )
    connection.close()
    assert run(["check", "--register", str(copy)]) == 1
    assert run(["rebuild", "--register", str(copy)]) == 0
    assert run(["check", "--register", str(copy)]) == 0
    assert "Whole" in capsys.readouterr().out


def test_a_register_that_is_not_there_is_not_made_by_asking(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    missing = tmp_path / "none.register"
    assert run(["check", "--register", str(missing)]) == 1
    assert not missing.exists()
    assert "There is no register" in capsys.readouterr().err


def test_a_backup_is_a_whole_register_of_its_own(
    toured: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    copy = tmp_path / "stick" / "larder.register"
    assert run(["backup", "--register", str(toured / "tour.register"), "--out", str(copy)]) == 0
    assert str(copy) in capsys.readouterr().out
    assert run(["check", "--register", str(copy)]) == 0


def test_a_backup_is_read_and_made_a_new_register(
    toured: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    copy, new = tmp_path / "stick" / "larder.register", tmp_path / "again.register"
    run(["backup", "--register", str(toured / "tour.register"), "--out", str(copy)])
    assert run(["restore", str(copy)]) == 0
    assert "Whole. Name a new file" in capsys.readouterr().out
    assert run(["restore", str(copy), str(new)]) == 0
    assert run(["check", "--register", str(new)]) == 0
    assert run(["restore", str(copy), str(new)]) == 1, "never over a register"
    assert "there already" in capsys.readouterr().err


def test_a_register_moves_to_a_new_file_with_its_seal(
    toured: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    new = tmp_path / "moved.register"
    assert run(["move", str(toured / "tour.register"), str(new)]) == 0
    seal = capsys.readouterr().out.split("seal ")[1].split(".")[0]
    assert run(["check", "--register", str(new)]) == 0
    assert seal in capsys.readouterr().out


def test_a_servers_address_stays_as_it_is_written(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", "--register", "postgresql+psycopg://nobody@127.0.0.1:1/none"]) == 1
    assert "server does not answer" in capsys.readouterr().err


def test_deliveries_of_a_period_are_lines_or_csv_with_every_one_of_them(
    toured: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    period = ["deliveries", "--from", "2000-01-01", "--to", "2099-12-31"]
    register = ["--register", str(next(toured.glob("*.register")))]
    assert run([*period, *register, "--csv"]) == 0
    rows = list(csv.DictReader(StringIO(capsys.readouterr().out, newline="")))
    assert run([*period, *register]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[-1] == f"{len(rows)} in all."
    assert rows
    assert all(row["code"] in line for row, line in zip(rows, lines, strict=False))
    assert [row["received_at_utc"] for row in rows] == sorted(row["received_at_utc"] for row in rows)


def test_deliveries_of_a_period_that_ends_before_it_begins_are_refused(
    toured: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    register = str(next(toured.glob("*.register")))
    assert run(["deliveries", "--from", "2026-02-01", "--to", "2026-01-01", "--register", register]) == 1
    assert "ends before it begins" in capsys.readouterr().err


def test_a_forgotten_pin_is_taken_away_by_a_command_and_the_register_keeps_that_it_was(
    toured: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "larder.register"
    shutil.copy(toured / "tour.register", path)
    with open_register(path) as register:
        tutor = next(one for one in questions.people(register) if one.role == "tutor")
        acts.set_pin(register, by=tutor.code, pin="2580")
    assert run(("pin", "--register", str(path), tutor.initials)) == 0
    assert "Today" in capsys.readouterr().out
    with open_register(path) as register:
        assert not any(one.has_pin for one in questions.people(register))
        assert any("taken away outside the window" in one.sentence for one in questions.today(register))
    assert run(("pin", "--register", str(path), tutor.initials)) == 1
    assert "has no PIN" in capsys.readouterr().err
