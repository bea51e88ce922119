"""The shape of a register file: strict, whole numbers, private, ours."""

import sqlite3
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest
from larder_house import House
from sqlalchemy.exc import IntegrityError

from gametrace.domain.deliveries import Decision
from gametrace.domain.examination import Answered
from gametrace.register import acts, questions
from gametrace.register.acts import Mark
from gametrace.register.opening import default_path
from gametrace.store.engine import APPLICATION_ID, SCHEMA_VERSION
from gametrace.store.tables import KEPT_TABLES, READING_TABLES, metadata


@pytest.fixture
def raw(house: House) -> Iterator[sqlite3.Connection]:
    connection = sqlite3.connect(house.path)
    yield connection
    connection.close()


def test_every_table_is_strict(raw: sqlite3.Connection) -> None:
    """But the index of words, which is SQLite's own and is filled from a strict table."""
    rows = raw.execute("SELECT name, strict FROM pragma_table_list WHERE schema = 'main'").fetchall()
    ours = [(name, strict) for name, strict in rows if not name.startswith(("sqlite_", "lot_index"))]
    assert {name for name, strict in ours if not strict} == set()
    assert {name for name, _ in ours} == set(metadata.tables)


def test_columns_hold_text_and_whole_numbers_only(raw: sqlite3.Connection) -> None:
    for table in metadata.tables:
        kinds = {row[2] for row in raw.execute(f"PRAGMA table_info({table})")}
        assert kinds <= {"TEXT", "INTEGER"} | ({"BLOB"} if table == "attachment" else set()), table


def test_a_fraction_cannot_be_written_as_a_weight(house: House, raw: sqlite3.Connection) -> None:
    house.receive()
    with pytest.raises(sqlite3.IntegrityError, match="cannot store REAL"):
        raw.execute("UPDATE lot SET grams_left = 0.5")


@pytest.mark.parametrize("table", ["lineage", "stop", "lot_entry"])
def test_the_graph_has_no_row_ids_and_lineage_can_be_walked_both_ways(
    raw: sqlite3.Connection, table: str
) -> None:
    wr = raw.execute("SELECT wr FROM pragma_table_list WHERE name = ?", (table,)).fetchone()[0]
    assert wr == 1
    plans = " ".join(
        row[3]
        for side in ("child", "parent")
        for row in raw.execute(f"EXPLAIN QUERY PLAN SELECT grams FROM lineage WHERE {side} = 1")
    )
    assert "SCAN" not in plans
    assert "COVERING INDEX lineage_down" in plans


def test_the_file_says_whose_it_is(raw: sqlite3.Connection) -> None:
    assert raw.execute("PRAGMA application_id").fetchone()[0] == APPLICATION_ID
    assert raw.execute("PRAGMA user_version").fetchone()[0] == SCHEMA_VERSION
    assert raw.execute("PRAGMA journal_mode").fetchone()[0] == "wal"


@pytest.mark.parametrize(
    ("pragma", "value"),
    [("foreign_keys", 1), ("synchronous", 2), ("journal_mode", "wal"), ("secure_delete", 1)],
)
def test_every_connection_of_ours_is_set_safely(house: House, pragma: str, value: object) -> None:
    for manner in (house.reg.store.reading, house.reg.store.writing):
        with manner() as connection:
            assert connection.exec_driver_sql(f"PRAGMA {pragma}").scalar() == value


def test_foreign_keys_are_enforced(house: House) -> None:
    with pytest.raises(IntegrityError), house.reg.store.writing() as connection:
        connection.exec_driver_sql("INSERT INTO lineage VALUES (1, 2, 3)")


def test_a_new_register_and_its_companions_are_for_its_owner_only(house: House) -> None:
    house.receive()
    for path in house.path.parent.iterdir():
        assert stat.S_IMODE(path.stat().st_mode) == 0o600, path.name


def test_a_backup_is_private_whole_and_no_part_is_left(house: House, tmp_path: Path) -> None:
    code = house.receive()
    target = acts.back_up(house.reg, tmp_path / "stick" / "copy.register")
    assert stat.S_IMODE(target.stat().st_mode) == 0o600
    assert [path.name for path in target.parent.iterdir()] == ["copy.register"]
    from gametrace.register.opening import open_register

    with open_register(target, create=False) as copy:
        assert questions.seal(copy) == questions.seal(house.reg)
        assert questions.carcass(copy, code).code == code
        assert questions.check(copy) == ()


def test_a_backup_is_never_written_over_the_register_itself(house: House) -> None:
    from gametrace.domain.errors import Trouble

    for target in (house.path, house.path.parent):
        with pytest.raises(Trouble, match="cannot be written over"):
            acts.back_up(house.reg, target)
    assert questions.check(house.reg) == ()


def test_every_table_is_either_kept_or_can_be_rebuilt() -> None:
    assert set(KEPT_TABLES) | set(READING_TABLES) == set(metadata.tables)
    assert not set(KEPT_TABLES) & set(READING_TABLES)


def _serve_and_hand_on(house: House, pack: str, dish: str) -> None:
    by, day = house.tutor, house.reg.today()
    acts.record_cooling(house.reg, by=by, code=dish, tenths_c=50, minutes=60)
    acts.note_ingredients(house.reg, by=by, code=dish, ingredients=[acts.Ingredient("cream")])
    acts.write_menu_line(house.reg, by=by, code=dish, claims=[acts.Claim("species", "venison")])
    acts.serve_dish(house.reg, by=by, code=dish, portions=1)
    acts.keep_left_over(house.reg, by=by, code=dish, portions=6)
    acts.note_covers(house.reg, by=by, occasion="Lunch", on=day, covers=3)
    acts.issue_lot(house.reg, by=by, inputs=[(pack, 50)], charged_to="L2", on=day)
    inn = acts.add_customer(house.reg, by=by, name="Inn", address="Quay").code
    acts.supply_lot(house.reg, by=by, customer=inn, inputs=[(pack, 50)], dispatched_on=day)


def test_every_reading_table_is_filled_by_some_act(house: House) -> None:
    """Otherwise the comparison after a rebuild would compare nothing with nothing."""
    deer = house.receive(tag="")
    acts.amend_carcass(house.reg, by=house.tutor, code=deer, changes={"tag": "1"})
    house.dress(deer)
    pack = house.pack(deer)
    dish = house.dish((pack, 100))
    acts.price_dish(house.reg, by=house.tutor, code=dish, price_pence=1_450)
    _serve_and_hand_on(house, pack, dish)
    house.mix((pack, 100), others=[acts.Other("salt", 10)])
    house.hold(pack)
    acts.note_labels_printed(house.reg, by=house.tutor, codes=[pack], sort="pack")
    _work_the_door_and_the_stores(house, deer)
    acts.keep_backup(house.reg, by="", folder=house.path.parent / "backups")
    came = acts.expect_delivery(
        house.reg, by=house.tutor, supplier=house.supplier, on=house.reg.today(), bodies=2
    ).code
    acts.tick_expected(house.reg, by=house.tutor, expected=came, code=deer)
    _cut_at_a_table(house)
    _trace_at_length(house, pack)
    with house.reg.store.reading() as connection:
        empty = {
            table
            for table in READING_TABLES
            if not connection.exec_driver_sql(f"SELECT COUNT(*) FROM {table}").scalar()
        }
    assert empty == set()


def test_the_larder_s_own_register_lives_in_the_user_s_data_folder() -> None:
    """platformdirs: the data folder of the user, on each system."""
    assert default_path().name == "larder.register"
    assert default_path().parent.name == "gametrace"


def test_a_path_may_hold_what_means_something_in_a_url(tmp_path: Path) -> None:
    odd = tmp_path / "a?b#c%20d & ü" / "lar?der=1#.register"
    house = House(odd)
    code = house.receive()
    house.close()
    from gametrace.register.opening import open_register

    with open_register(odd, create=False) as again:
        assert questions.carcass(again, code).code == code
    assert [path.name for path in odd.parent.iterdir()] == [odd.name]


def _cut_at_a_table(house: House) -> None:
    """A session, a student and an own cut name, each once."""
    reg, by, deer = house.reg, house.tutor, house.dressed()
    session = acts.open_session(reg, by=by, group="L3", stations=["table 1"]).code
    student = acts.add_to_roster(reg, by=by, group="L3").code
    acts.lay_on_table(reg, by=by, session=session, station="table 1", code=deer)
    acts.weigh_out(reg, by=by, code=deer, outputs=[acts.Out("neck", 900)], cutter=student)
    acts.change_cut(reg, by=by, species="fallow", cut="rump", name="rump end", reason="as we teach it")


def _work_the_door_and_the_stores(house: House, deer: str) -> None:
    """Every later act once: looks, calls, pictures, claims, results, temperatures, bins, policies."""
    reg, by, other = house.reg, house.tutor, house.technician
    acts.examine_carcass(
        reg, by=by, code=deer, answers=[Answered("smell", "as it should be")], marks=[Mark(400, 500, "entry")]
    )
    acts.record_call(reg, by=by, code=deer, about="kill_time", answer="at first light", spoken_by="Perrin")
    acts.attach_picture(reg, by=by, code=deer, what="tag", content=b"\xff\xd8\xff small")
    acts.decide_again(reg, by=by, code=deer, decision=Decision.TRIM, reason="bruised shoulder")
    acts.amend_supplier(reg, by=by, supplier=house.supplier, damage_rule="bought price", claim_days=5)
    acts.raise_claim(reg, by=by, code=deer, grams=900, reason="shoulder lost")
    boar = house.receive(species="wild-boar", sex="male", age_class="boar", grams=60_000)
    acts.record_result(reg, by=by, code=boar, reference="LAB 7", result="negative")
    probe = acts.add_probe(reg, by=by, name="blue probe").code
    acts.check_probe(reg, by=by, probe=probe, ice_tenths_c=1)
    acts.take_round(reg, by=by, readings=[("C1", 41)], probe=probe)
    acts.import_readings(reg, by=by, store="C1", readings=[(60, 30), (120, 31)], name="log.csv", mapping={})
    acts.answer_episode(
        reg, by=by, store="C1", first_at=reg.clock(), last_at=reg.clock(), sort="warm", action="door shut"
    )
    acts.set_policy(reg, by=by, name="probe_days", value="14", reason="as our plan says")
    skin = house.out(house.dressed(), acts.Out("bone", 100))[0]
    acts.collect_by_products(
        reg,
        by=other,
        codes=[skin],
        on=reg.today(),
        collector="Grice",
        document_number="CD 1",
        destination="renderer",
    )


def _trace_at_length(house: House, pack: str) -> None:
    by = house.tutor
    acts.save_set(house.reg, by=by, name="a pack", steps=[acts.Step("lots", (pack,))])
    acts.decide_bag(house.reg, by=by, code=pack, reason="it weighs the same", grams=400)
    recall = acts.open_recall(house.reg, by=by, codes=[pack], what="a pack", reason="the supplier rang").code
    acts.note_call(house.reg, by=by, recall=recall, whom="the supplier", answer="looks into it")
    acts.answer_step(house.reg, by=by, recall=recall, step="stop", answer="done")
    acts.begin_drill(house.reg, by=by, code=pack)
