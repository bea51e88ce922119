"""Pictures and loggers' readings kept by their hash: every way they can be damaged is found by the check."""

from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path

import pytest
from larder_house import House

from gametrace.domain.errors import Trouble
from gametrace.register import acts, questions
from gametrace.register.opening import open_register

CARD = b"\xff\xd8\xff\xe0" + bytes(range(256)) * 4


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A closed register with one picture of a card and one logger's file."""
    house = House(tmp_path_factory.mktemp("kept") / "larder.register")
    deer = house.receive()
    acts.attach_picture(house.reg, by=house.student, code=deer, what="declaration", content=CARD)
    acts.import_readings(
        house.reg, by=house.student, store="C1", readings=[(1_000, 30), (1_600, 31)], name="a", mapping={}
    )
    house.close()
    return house.path


@pytest.fixture
def copy(kept: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(kept, tmp_path / "copy.register"))


def found_in(path: Path) -> list[str]:
    with open_register(path) as register:
        return [finding.code for finding in questions.check(register)]


def damage(path: Path, statement: str, *values: object) -> None:
    connection = sqlite3.connect(path)
    with connection:
        assert connection.execute(statement, values).rowcount == 1
    connection.close()


def test_whole_attachments_are_not_mentioned(copy: Path) -> None:
    assert found_in(copy) == []


@pytest.mark.parametrize("at", [0, 1, len(CARD) // 2, len(CARD) - 1])
@pytest.mark.parametrize("bit", [1, 128])
def test_a_bit_flipped_anywhere_in_a_picture_is_found(copy: Path, at: int, bit: int) -> None:
    spoilt = bytearray(CARD)
    spoilt[at] ^= bit
    damage(copy, "UPDATE attachment SET content = ? WHERE media_type = 'image/jpeg'", bytes(spoilt))
    assert found_in(copy) == ["attachment-changed"]


@pytest.mark.parametrize("content", [b"", CARD[:-1], CARD + b"\0"])
def test_a_picture_cut_short_or_grown_is_found(copy: Path, content: bytes) -> None:
    damage(copy, "UPDATE attachment SET content = ? WHERE media_type = 'image/jpeg'", content)
    assert found_in(copy) == ["attachment-changed"]


@pytest.mark.parametrize("media_type", ["image/jpeg", "application/x-gametrace-readings"])
def test_an_attachment_that_is_gone_is_found(copy: Path, media_type: str) -> None:
    damage(copy, "DELETE FROM attachment WHERE media_type = ?", media_type)
    assert found_in(copy) == ["attachment-missing"]


def test_an_attachment_under_another_hash_is_found_missing_and_changed(copy: Path) -> None:
    damage(copy, "UPDATE attachment SET hash = ? WHERE media_type = 'image/jpeg'", "0" * 64)
    assert sorted(found_in(copy)) == ["attachment-changed", "attachment-missing"]


def test_a_byte_flipped_in_a_logger_s_file_is_found_and_nothing_is_rebuilt_on_it(copy: Path) -> None:
    with open_register(copy) as register, register.store.reading() as connection:
        whole = connection.exec_driver_sql(
            "SELECT content FROM attachment WHERE media_type LIKE '%readings'"
        ).scalar_one()
    spoilt = bytearray(whole)
    spoilt[len(spoilt) // 2] ^= 1
    damage(copy, "UPDATE attachment SET content = ? WHERE media_type LIKE '%readings'", bytes(spoilt))
    assert found_in(copy) == ["attachment-changed"]
    with open_register(copy) as register:
        before = questions.last_readings(register)
        with pytest.raises(Trouble, match="not what was sealed"):
            acts.rebuild(register)
        assert questions.last_readings(register) == before


def test_a_picture_of_which_only_the_row_says_another_hash_is_found(copy: Path) -> None:
    damage(copy, "UPDATE picture SET original_hash = ?", "0" * 64)
    assert found_in(copy) == ["tables-differ"]
