"""What a stranger may hand in: texts, labels, files. None of it runs, leaves its place or fills the memory.

CSV formulas are in tests/exchange/test_csv_out.py, markup on paper in tests/documents, sizes of loggers'
files in tests/exchange/test_logger_refusals.py, pictures in tests/exchange/test_pictures.py.
"""

from __future__ import annotations

import ast
import sqlite3
import stat
import time
from contextlib import closing
from pathlib import Path

import pytest

import gametrace
from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.errors import Refusal, Trouble
from gametrace.register import acts, questions
from gametrace.register.opening import open_register
from gametrace.register.practice import throw_away

HOUSE = Path(gametrace.__file__).parent
MODULES = sorted(HOUSE.rglob("*.py"))
# What speaks to a network or runs what it is given. A server's address a person gives is SQLAlchemy's job.
NEVER = {
    "socket", "ssl", "http", "urllib.request", "requests", "ftplib", "smtplib", "PySide6.QtNetwork",
    "subprocess", "pickle", "marshal", "shelve",
}  # fmt: skip


@pytest.fixture
def register(tmp_path: Path):
    with open_register(tmp_path / "larder.register") as made:
        acts.set_up_larder(made, name="Fenmoor", address="", jurisdiction="scotland")
        acts.enrol_person(made, name="Ada", initials="AB", role="tutor")
        yield made


@pytest.mark.parametrize(
    "text",
    [
        "２６-００４１７-Ｅ", "26-00417-ı", "26-00417-ſ", "26\u202e-00417-E", "26-00417-E\x00",
        "26-00417-E;DROP",        "-26-00417-E", "26--00417-E", "26-417-E", "26-0000417-E0", "../26-00417-E", "file:///etc/passwd",
        "https://example.org/26-00417-E", "BEGIN:VCARD", "' OR 1=1 --", "%", "", "\x1b[2J",
    ],
)  # fmt: skip
def test_a_scan_is_a_code_by_the_one_grammar_or_it_is_refused(text: str) -> None:
    with pytest.raises(Refusal):
        lot_id_of(text)


def test_every_code_given_out_is_read_as_itself_in_either_case() -> None:
    for lot in (260000417, 260000001, 269999999):
        assert lot_id_of(code_of(lot)) == lot_id_of(code_of(lot).lower().replace("-", " ")) == lot


@pytest.mark.parametrize(
    "text", ["x" * 1_000_000, "%" * 5_000, "_" * 5_000, "(" * 50_000, " " * 1_000_000, "\u202e" * 5_000]
)
def test_any_pasted_text_is_answered_or_refused_at_once(register, text: str) -> None:
    began = time.perf_counter()
    with pytest.raises(Refusal):
        questions.trace(register, text)
    assert len(questions.find(register, text)) <= 1_000
    assert time.perf_counter() - began < 5


@pytest.mark.parametrize(
    "content",
    [
        b"MZ\x90\x00", b"\x7fELF", b"#!/bin/sh\n", b"<svg onload='x'/>", b"<?xml version='1.0'?>", b"GIF89a",
        b"PK\x03\x04", b" %PDF-1.7", b"\xff\xd8", b"",
    ],
)  # fmt: skip
def test_an_attachment_is_known_by_its_bytes_and_anything_else_is_refused(register, content: bytes) -> None:
    before = questions.seal(register)
    with pytest.raises(Refusal):
        acts.attach_picture(register, by="P001", code="26-00001-P", what="card", content=content)
    assert questions.seal(register) == before


def test_a_register_is_private_even_when_a_copy_was_not(tmp_path: Path) -> None:
    path = tmp_path / "larder.register"
    open_register(path).close()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    path.chmod(0o664)
    with open_register(path) as register:
        acts.set_up_larder(register, name="Fenmoor", address="", jurisdiction="scotland")
        for file in tmp_path.iterdir():  # the companions as well
            assert stat.S_IMODE(file.stat().st_mode) == 0o600


@pytest.mark.parametrize(
    "statement",
    [
        "CREATE TRIGGER heard AFTER INSERT ON entry BEGIN DELETE FROM hold; END",
        "CREATE VIEW extra AS SELECT text FROM entry",
    ],
)
def test_a_register_that_brings_its_own_instructions_is_not_opened(tmp_path: Path, statement: str) -> None:
    path = tmp_path / "larder.register"
    open_register(path).close()
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(statement)
        connection.commit()
    before = path.read_bytes()
    with pytest.raises(Trouble, match="does not belong in a register"):
        open_register(path)
    assert path.read_bytes() == before


def test_a_table_that_is_not_ours_is_found_by_the_check(tmp_path: Path) -> None:
    path = tmp_path / "larder.register"
    open_register(path).close()
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE extra (a)")
        connection.commit()
    with open_register(path) as register:
        assert [one.sentence for one in questions.check(register)] == [
            "The table extra does not belong in a register."
        ]


def test_the_practice_folder_goes_with_the_window_and_no_other_does(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setattr("tempfile.gettempdir", lambda: str(tmp_path))
    ours, other = tmp_path / "gametrace-practice-1", tmp_path / "my larder"
    for folder in (ours, other):
        folder.mkdir()
        (folder / "practice.register").write_bytes(b"x")
        throw_away(folder / "practice.register")
    assert not ours.exists()
    assert other.exists()


@pytest.mark.parametrize("module", MODULES, ids=[str(one.relative_to(HOUSE)) for one in MODULES])
def test_nothing_in_the_program_calls_out_or_runs_what_it_is_given(module: Path) -> None:
    tree = ast.parse(module.read_text())
    names: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {one.name for one in node.names}
        elif isinstance(node, ast.ImportFrom):
            names.add(node.module or "")
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id not in ("eval", "exec", "compile", "__import__")
    assert not {one for one in names for never in NEVER if one == never or one.startswith(never + ".")}
