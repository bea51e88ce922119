"""Any night at the pass: whatever is changed, left over, binned, issued and supplied, no gram is lost."""

from __future__ import annotations

import tempfile
from contextlib import suppress
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.store.lineage import descendants

ACTS = (
    "dish", "change", "give back", "keep", "bin", "serve", "issue", "supply", "hold", "cool", "right",
    "strike",
)  # fmt: skip
step = st.tuples(st.sampled_from(ACTS), st.integers(0, 9), st.integers(0, 9), st.integers(1, 700))


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.lists(step, min_size=1, max_size=14))
def test_no_gram_is_lost_or_found_in_any_night(night: list[tuple[str, int, int, int]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        house = House(Path(folder) / "night.register")
        try:
            _play(house, night)
        finally:
            house.close()


def _play(house: House, night: list[tuple[str, int, int, int]]) -> None:
    animals = [house.dressed(), house.dressed(species="red", age_class="hind", grams=60_000)]
    lots = [house.pack(animal, grams) for animal in animals for grams in (900, 1_300)]
    dishes = [house.dish((lots[0], 300), (lots[2], 200), portions=9)]
    inn = acts.add_customer(house.reg, by=house.tutor, name="Inn", address="Quay 4").code
    begun = questions.seal(house.reg).count
    for act, first, second, size in night:
        lot, dish = lots[first % len(lots)], dishes[second % len(dishes)]
        with suppress(Refusal):
            if act == "strike":
                _strike_any(house, begun, size)
            else:
                made = _do(house, act, lot, dish, size, inn)
                (dishes if act == "dish" else lots).extend(made)
        _nothing_lost(house, animals)
    assert questions.check(house.reg) == ()


def _strike_any(house: House, begun: int, which: int) -> None:
    """Anything of the night, refused where something rests on it."""
    written = questions.seal(house.reg).count - begun
    seq = begun + 1 + which % max(1, written)
    acts.strike_entry(house.reg, by=house.tutor, seq=seq, reason="a slip")


def _do(house: House, act: str, lot: str, dish: str, size: int, inn: str) -> tuple[str, ...]:
    reg, by, day = house.reg, house.tutor, house.reg.today()
    portions = size % 9 + 1
    if act == "dish":
        return (house.dish((lot, size), portions=9),)
    if act == "change":
        acts.change_dish(reg, by=by, code=dish, added=[(lot, size)], reason="short")
    elif act == "give back":
        acts.change_dish(reg, by=by, code=dish, not_used=[(lot, size)], reason="not used")
    elif act == "keep":
        return acts.keep_left_over(reg, by=by, code=dish, portions=portions, reason="cooled in parts").created
    elif act == "bin":
        acts.bin_left_over(reg, by=by, code=dish, portions=portions, reason="burnt")
    elif act == "serve":
        acts.serve_dish(reg, by=by, code=dish, portions=portions)
    elif act == "cool":
        acts.record_cooling(reg, by=by, code=dish, tenths_c=size, minutes=size)
    elif act == "right":
        acts.correct_weight(reg, by=by, code=lot, grams=size, reason="misread")
    elif act == "issue":
        acts.issue_lot(reg, by=by, inputs=[(lot, size)], charged_to="L2", on=day)
    elif act == "supply":
        acts.supply_lot(reg, by=by, customer=inn, inputs=[(lot, size)], dispatched_on=day)
    elif not questions.holds(reg):
        house.hold(lot)
    return ()


def _nothing_lost(house: House, animals: list[str]) -> None:
    with house.reg.store.reading() as connection:
        wrong = connection.exec_driver_sql(
            "SELECT lot.id FROM lot LEFT JOIN lineage ON lineage.parent = lot.id GROUP BY lot.id "
            "HAVING lot.grams_in <> lot.grams_left + lot.unaccounted + COALESCE(SUM(lineage.grams), 0) "
            "OR lot.grams_left < 0"
        ).fetchall()
        fed = connection.exec_driver_sql(
            "SELECT lot.id FROM lot JOIN lineage ON lineage.child = lot.id GROUP BY lot.id "
            "HAVING lot.grams_in <> SUM(lineage.grams)"
        ).fetchall()
        holds = connection.exec_driver_sql("SELECT id, lot_id FROM hold WHERE released_at IS NULL").fetchall()
        reached = {(hold, lot) for hold, at in holds for lot in {at, *descendants(connection, at)}}
        stops = {tuple(row) for row in connection.exec_driver_sql("SELECT hold_id, lot_id FROM stop")}
    assert wrong == fed == []
    assert stops == reached
    for code in animals:
        balance = questions.trace(house.reg, code).balance
        assert balance is not None
        assert sum(row.grams for row in balance.rows) == balance.received_grams
