"""The seal: recomputed with nothing but hashlib and json, and broken in every way we could think of."""

import hashlib
import json
import shutil
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from larder_house import House

from gametrace.domain.errors import Trouble
from gametrace.register import acts, questions
from gametrace.register.opening import open_register


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A closed register with a dozen entries of many kinds."""
    house = House(tmp_path_factory.mktemp("kept") / "larder.register")
    deer = house.receive(kill_place="Wood with ümlaut & 🦌")
    house.dress(deer)
    pack, trim = house.pack(deer), house.trim(deer)
    house.hold(pack)
    acts.release_hold(house.reg, by=house.tutor, hold=1, reason="fine")
    house.dish((house.mix((trim, 300)), None), (pack, 200))
    acts.forget_person(house.reg, by=house.tutor, person=house.student, reason="left")
    house.close()
    return house.path


@pytest.fixture
def copy(kept: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(kept, tmp_path / "copy.register"))


def rows_of(path: Path) -> list[tuple[int, str, str, str]]:
    connection = sqlite3.connect(path)
    try:
        return connection.execute("SELECT seq, key, text, seal FROM entry ORDER BY seq").fetchall()
    finally:
        connection.close()


def write(path: Path, *statements: tuple[str, tuple[Any, ...]]) -> None:
    connection = sqlite3.connect(path)
    with connection:
        for statement, values in statements:
            connection.execute(statement, values)
    connection.close()


def found_in(path: Path) -> dict[str, str]:
    with open_register(path) as register:
        return {finding.code: finding.sentence for finding in questions.check(register)}


def test_a_whole_register_has_no_findings(copy: Path) -> None:
    assert found_in(copy) == {}


def test_anyone_can_recompute_the_chain_with_sha_256_and_json_alone(kept: Path) -> None:
    previous = "0" * 64
    for number, (seq, key, text, seal) in enumerate(rows_of(kept), 1):
        entry = json.loads(text)
        assert (entry["seq"], entry["key"], entry["previous"]) == (seq, key, previous)
        assert seq == number
        # For text and whole numbers RFC 8785 is JSON with sorted keys and nothing between (keys are ASCII).
        assert json.dumps(entry, sort_keys=True, separators=(",", ":"), ensure_ascii=False) == text
        previous = hashlib.sha256(text.encode("utf-8")).hexdigest()
        assert seal == previous
    with open_register(kept) as register:
        assert questions.seal(register).head == previous


def test_no_entry_holds_a_fraction(kept: Path) -> None:
    def refuse(text: str) -> float:
        raise AssertionError(text)

    for _, _, text, _ in rows_of(kept):
        json.loads(text, parse_float=refuse)


def test_every_name_is_outside_the_sealed_entries(kept: Path) -> None:
    journal = " ".join(text for _, _, text, _ in rows_of(kept))
    for name in ("Ida", "Marrow", "Wat", "Pell", "Una", "Skerry", "Odo", "Finch", "Perrin", "Ashdown"):
        assert name not in journal


def test_any_byte_of_any_text_or_seal_flipped_is_found_at_its_entry(kept: Path, tmp_path: Path) -> None:
    """A bit of every seventh byte, so that neighbours in words and numbers are all met."""
    for seq, _, text, seal in rows_of(kept)[::4]:
        for column, value in (("text", text.encode()), ("seal", seal.encode())):
            for place in range(seq % 7, len(value), 37):
                bad = bytearray(value)
                bad[place] ^= 1
                copy = Path(shutil.copy(kept, tmp_path / "flipped.register"))
                write(copy, (f"UPDATE entry SET {column} = CAST(? AS TEXT) WHERE seq = ?", (bytes(bad), seq)))
                assert f"at entry {seq}:" in found_in(copy)["seal-broken"]


def test_a_text_that_is_no_longer_text_is_found_and_not_a_crash(copy: Path) -> None:
    write(copy, ("UPDATE entry SET text = CAST(x'FF80' AS TEXT) WHERE seq = 3", ()))
    assert "entry 3" in found_in(copy)["seal-broken"]


def deleted(seq: int) -> list[tuple[str, tuple[Any, ...]]]:
    return [("DELETE FROM entry WHERE seq = ?", (seq,))]


def swapped(one: int, two: int) -> list[tuple[str, tuple[Any, ...]]]:
    return [
        ("UPDATE entry SET seq = -1 WHERE seq = ?", (one,)),
        ("UPDATE entry SET seq = ? WHERE seq = ?", (one, two)),
        ("UPDATE entry SET seq = ? WHERE seq = -1", (two,)),
    ]


@pytest.mark.parametrize("seq", [1, 5, 9])
def test_a_deleted_entry_is_found(copy: Path, seq: int) -> None:
    write(copy, *deleted(seq))
    assert f"entry {seq} is missing" in found_in(copy)["seal-broken"]


def test_the_last_entry_deleted_is_found_by_the_tables(copy: Path) -> None:
    write(copy, *deleted(len(rows_of(copy))))
    assert "tables-differ" in found_in(copy)


def test_a_deleted_entry_closed_up_by_renumbering_is_found(copy: Path) -> None:
    last = len(rows_of(copy))
    moved = [("UPDATE entry SET seq = ? WHERE seq = ?", (n - 1, n)) for n in range(6, last + 1)]
    write(copy, *deleted(5), *moved)
    assert "entry 5" in found_in(copy)["seal-broken"]


def test_two_entries_swapped_are_found(copy: Path) -> None:
    write(copy, *swapped(6, 7))
    assert "entry 6" in found_in(copy)["seal-broken"]


def test_an_entry_put_in_between_is_found(copy: Path) -> None:
    rows = rows_of(copy)
    moved = [("UPDATE entry SET seq = ? WHERE seq = ?", (n + 1, n)) for n in range(len(rows), 5, -1)]
    forged = rows[4][2].replace('"seq":5', '"seq":6')
    seal = hashlib.sha256(forged.encode()).hexdigest()
    write(copy, *moved, ("INSERT INTO entry VALUES (6, 'forged', ?, ?)", (forged, seal)))
    assert "entry 6" in found_in(copy)["seal-broken"]


def test_an_entry_forged_with_a_right_seal_of_its_own_breaks_the_next_link(copy: Path) -> None:
    _, _, text, _ = rows_of(copy)[7]
    forged = text.replace('"by":"P002"', '"by":"P001"')
    assert forged != text
    seal = hashlib.sha256(forged.encode()).hexdigest()
    write(copy, ("UPDATE entry SET text = ?, seal = ? WHERE seq = 8", (forged, seal)))
    assert "entry 9" in found_in(copy)["seal-broken"]


def test_a_whole_chain_forged_to_the_end_still_differs_from_the_tables(copy: Path) -> None:
    previous = ""
    for seq, _, text, seal in rows_of(copy):
        if seq == 8:
            text = text.replace('"grams":40000', '"grams":41000')
        if seq > 8:
            entry = json.loads(text)
            entry["previous"] = previous
            text = json.dumps(entry, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
        previous = hashlib.sha256(text.encode()).hexdigest() if seq >= 8 else seal
        write(copy, ("UPDATE entry SET text = ?, seal = ? WHERE seq = ?", (text, previous, seq)))
    assert set(found_in(copy)) == {"tables-differ"}


def test_the_idempotency_key_beside_an_entry_is_sealed_too(copy: Path) -> None:
    write(copy, ("UPDATE entry SET key = 'other' WHERE seq = 4", ()))
    assert "entry 4" in found_in(copy)["seal-broken"]


@pytest.mark.parametrize("code", ["P001", "S001", "H001"])
def test_a_name_card_changed_behind_the_journal_is_found(copy: Path, code: str) -> None:
    write(copy, ("UPDATE name_card SET card = replace(card, 'r', 'x') WHERE code = ?", (code,)))
    assert code in found_in(copy)["card-changed"]


def test_the_salt_goes_with_the_card_so_that_a_name_cannot_be_guessed_from_its_digest(kept: Path) -> None:
    enrolled = [json.loads(text) for _, _, text, _ in rows_of(kept) if '"kind":"person.enrolled"' in text]
    card = '{"initials":"US","name":"Una Skerry"}'
    digests = [entry["body"]["card"] for entry in enrolled]
    assert len(set(digests)) == 4
    assert hashlib.sha256(card.encode()).hexdigest() not in digests


CHANGED = [
    "UPDATE lot SET grams_left = grams_left + 1 WHERE id = (SELECT MIN(id) FROM lot)",
    "UPDATE lineage SET grams = grams + 1",
    "DELETE FROM hold",
    "INSERT INTO stop SELECT MAX(lot.id), 1 FROM lot",
    "UPDATE carcass SET kill_place = 'Elsewhere'",
    "UPDATE finding SET severity = 'stop'",
    "UPDATE person SET is_active = 1",
    "DELETE FROM lot_entry",
]


@pytest.mark.parametrize("statement", CHANGED)
def test_a_table_changed_behind_the_journal_is_found_and_rebuilt(copy: Path, statement: str) -> None:
    write(copy, (statement, ()))
    assert found_in(copy).keys() & {"tables-differ", "weights-do-not-balance", "loose-end"}
    with open_register(copy) as register:
        acts.rebuild(register)
        assert questions.check(register) == ()


def test_a_broken_journal_is_not_played_and_the_tables_stay(copy: Path) -> None:
    write(copy, ("UPDATE entry SET text = replace(text, '40000', '41000') WHERE seq = 8", ()))
    with open_register(copy) as register:
        before = questions.deliveries(register)
        with pytest.raises(Trouble, match="entry 8"):
            acts.rebuild(register)
        assert questions.deliveries(register) == before


def test_a_rebuild_says_how_far_it_is(copy: Path) -> None:
    told: list[tuple[int, int]] = []
    with open_register(copy) as register:
        played = acts.rebuild(register, lambda done, of: told.append((done, of)))
    assert told[-1] == (played, played)


def test_an_act_refused_leaves_no_half_entry(house: House) -> None:
    deer = house.dressed()
    before = questions.seal(house.reg)
    with pytest.raises(Exception, match="more than is left"):
        house.out(deer, acts.Out("haunch", 39_000), acts.Out("haunch", 39_000))
    assert questions.seal(house.reg) == before
    assert questions.check(house.reg) == ()
