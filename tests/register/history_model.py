"""What a history of acts is held against: a plain model of every lot, and what must be true after each step.

After every step: each lot's weights are what the model says, nothing is below nothing, and the stops are the
unlifted holds handed down the graph. At the end: the check is empty, rebuilt tables are equal, and tracing
forward and back are the same relation. The acts themselves are in `history_machine` and `test_any_history`.
"""

from __future__ import annotations

import shutil
import tempfile
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, datetime
from fractions import Fraction
from pathlib import Path

from hypothesis import event
from hypothesis.stateful import RuleBasedStateMachine, invariant
from larder_house import Clock, House

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.opening import Register, open_register
from gametrace.store.health import fingerprint
from gametrace.store.tables import READING_TABLES

MEAT = {"carcass", "part", "pack", "mix"}


@dataclass
class Known:
    """One lot as the model knows it."""

    kind: str
    grams_in: int
    made: int
    in_skin: bool = False
    aside: int = 0
    state: str = "whole"
    stays: list[tuple[datetime, str]] = field(default_factory=list)  # since when it hangs where
    parents: dict[str, int] = field(default_factory=dict)


_FOLDER = Path(tempfile.mkdtemp(prefix="any-history-"))
_TEMPLATE = _FOLDER / "template.register"


def larder(path: Path) -> Path:
    """A larder set up at `path`: once in earnest, then copied (on a server there is no file to copy)."""
    if _TEMPLATE.exists():
        return Path(shutil.copy(_TEMPLATE, path))
    house = House(path)
    acts.add_store(house.reg, by=house.tutor, name="Freezer", sort="freezer", rails=[("Rail 1", 4)])
    house.close()
    if path.exists():
        shutil.copy(path, _TEMPLATE)
    return path


def standing(reg: Register) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table that says how things stand: no stories, nothing that was struck."""
    with reg.store.reading() as connection:
        query = connection.exec_driver_sql
        struck = {row.id for row in query("SELECT id FROM lot WHERE kind = 'struck'")}
        found = {}
        for table in sorted(set(READING_TABLES) - {"happening", "lot_entry"}):
            rows = [row._asdict() for row in query(f"SELECT * FROM {table}")]
            found[table] = sorted(
                tuple(map(str, row.values()))
                for row in rows
                if not struck & {row.get("lot_id"), row.get("id") if table == "lot" else None}
                and not str(row.get("release_reason", "")).startswith("struck: ")
                and not (table == "claim" and row["status"] == "struck")
            )
    return found


class HistoryModel(RuleBasedStateMachine):
    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp(dir=_FOLDER))
        self.path = larder(self.folder / "larder.register")
        self.clock = Clock()
        self.reg = open_register(self.path, clock=self.clock)
        self.house = object.__new__(House)
        self.house.reg, self.house.path, self.house.clock = self.reg, self.path, self.clock
        self.house.tutor, self.house.technician = "P001", "P002"
        self.house.student, self.house.officer, self.house.supplier = "P003", "P004", "S001"
        self.house._tags = 0
        self.lots: dict[str, Known] = {}
        self.holds: dict[int, tuple[str, str]] = {}  # open ones: number -> (lot, sort)
        self.last_hold = 0
        self.tables: dict[str, str] = {}  # lot -> the table it lies on
        self.session = acts.open_session(self.reg, by="P001", stations=["left", "right"]).code
        self.student = acts.add_to_roster(self.reg, by="P001").code
        self.seal = questions.seal(self.reg)

    # ------------------------------------------------------------------------------ the model's own sums

    def given(self, code: str) -> int:
        return sum(lot.parents.get(code, 0) for lot in self.lots.values())

    def left(self, code: str) -> int:
        lot = self.lots[code]
        return lot.made - self.given(code) - lot.aside

    def meat(self, code: str) -> Fraction:
        """What share of a lot is meat: all of an animal, of the rest what its parents brought."""
        lot = self.lots[code]
        if lot.kind == "carcass":
            return Fraction(1)
        return sum((self.meat(one) * grams for one, grams in lot.parents.items()), Fraction(0)) / lot.grams_in

    def stops(self, code: str) -> set[str]:
        """Walk up from the lot: every open hold on it or on anything in it."""
        reached, todo = set(), [code]
        while todo:
            one = todo.pop()
            if one not in reached:
                reached.add(one)
                todo += self.lots[one].parents
        return {sort for lot, sort in self.holds.values() if lot in reached}

    def animals(self, code: str) -> set[str]:
        """The animals anything of which is in a lot."""
        parents = self.lots[code].parents
        return set().union(*map(self.animals, parents)) if parents else {code}

    def is_past(self, code: str) -> bool:
        use_by = questions.lot(self.reg, code).use_by
        return use_by is not None and use_by < self.reg.today()

    def choose(self, number: int, *likely: str) -> str:
        """A lot: three times in four one of the likely kinds with something left, else any at all."""
        some = [code for code, lot in self.lots.items() if lot.kind in likely and self.left(code) > 0]
        if number % 4 == 0 or not some:
            some = list(self.lots)
        return some[number // 4 % len(some)]

    def add(self, codes: tuple[str, ...] | str, **known: object) -> None:
        for code in (codes,) if isinstance(codes, str) else codes:
            assert code not in self.lots, "a number was given out twice"
            self.lots[code] = Known(**known)  # type: ignore[arg-type]

    def settle(self, code: str) -> None:
        if self.left(code) == 0 and self.lots[code].kind in MEAT:
            self.lots[code].state = "closed"

    def may_go_to_a_plate(self, code: str, grams: int) -> bool:
        kind = self.lots[code].kind
        return (
            not self.stops(code) and not self.is_past(code) and kind in MEAT - {"carcass"}
            and 0 < grams <= self.left(code)
        )  # fmt: skip

    def attempt(self, is_allowed: bool, act: object, *args: object, **given: object) -> object:
        """Do it; it is refused exactly when the model says so, and a refusal writes nothing."""
        result, refusal = None, None
        try:
            result = act(*args, **given)  # type: ignore[operator]
        except Refusal as refused:
            refusal = refused
        event(f"{getattr(act, '__name__', act)} {'refused' if refusal else 'done'}")
        assert bool(is_allowed) == (refusal is None), refusal or f"{act} was not refused"
        if refusal is not None:
            assert refusal.sentence.endswith("."), refusal.sentence
            assert questions.seal(self.reg) == self.seal
            return None
        assert questions.seal(self.reg).count == self.seal.count + 1
        self.seal = questions.seal(self.reg)
        return result

    def held(self, code: str, sorts: list[str]) -> None:
        """These holds, and no others, are new on the lot."""
        with self.reg.store.reading() as connection:
            rows = connection.exec_driver_sql(
                "SELECT id, lot_id, sort FROM hold WHERE id > ? ORDER BY id", (self.last_hold,)
            ).all()
        assert [(code_of(row.lot_id), row.sort) for row in rows] == [(code, sort) for sort in sorts]
        self.holds.update({row.id: (code, row.sort) for row in rows})
        self.last_hold += len(rows)

    # --------------------------------------------------------------------------------- after every step

    @invariant()
    def every_lot_weighs_what_the_model_says(self) -> None:
        with self.reg.store.reading() as connection:
            rows = connection.exec_driver_sql(
                "SELECT id, kind, grams_in, grams_made, grams_left, unaccounted FROM lot"
            ).all()
            edges = connection.exec_driver_sql("SELECT parent, child, grams FROM lineage").all()
            stops = connection.exec_driver_sql("SELECT lot_id, hold_id FROM stop").all()
        assert {code_of(row.id) for row in rows} == set(self.lots)
        given: dict[int, int] = defaultdict(int)
        for edge in edges:
            given[edge.parent] += edge.grams
            assert edge.grams > 0
            assert self.lots[code_of(edge.child)].parents[code_of(edge.parent)] == edge.grams
        for row in rows:
            lot = self.lots[code_of(row.id)]
            assert row.grams_left >= 0
            assert row.grams_in == row.grams_left + row.unaccounted + given[row.id]
            assert (row.kind, row.grams_in, row.grams_made, row.grams_left) == (
                lot.kind, lot.grams_in, lot.made, self.left(code_of(row.id)),
            )  # fmt: skip
        assert len(edges) == sum(len(lot.parents) for lot in self.lots.values())
        assert {(code_of(row.lot_id), row.hold_id) for row in stops} == self._handed_down()

    def _handed_down(self) -> set[tuple[str, int]]:
        children: dict[str, set[str]] = defaultdict(set)
        for code, lot in self.lots.items():
            for parent in lot.parents:
                children[parent].add(code)
        reached = set()
        for hold, (held, _) in self.holds.items():
            todo = [held]
            while todo:
                one = todo.pop()
                if (one, hold) not in reached:
                    reached.add((one, hold))
                    todo += children[one]
        return reached

    def standing(self) -> dict[str, list[tuple[object, ...]]]:
        return standing(self.reg)

    def _tables(self) -> dict[str, str]:
        with self.reg.store.reading() as connection:
            return {table: fingerprint(connection, table) for table in READING_TABLES}

    # -------------------------------------------------------------------------------------- at the end

    def teardown(self) -> None:
        try:
            self._end()
        finally:
            self.reg.close()
            shutil.rmtree(self.folder)

    def _end(self) -> None:
        self.the_house_is_as_the_model_says()
        assert questions.check(self.reg) == ()
        before = self._tables()
        acts.rebuild(self.reg)
        assert self._tables() == before
        self.the_house_is_as_the_model_says()
        back: set[tuple[str, str]] = set()
        forward: set[tuple[str, str]] = set()
        for code, lot in self.lots.items():
            if lot.kind == "struck":
                assert questions.trace(self.reg, code).animals == ()
                continue
            trace = questions.trace(self.reg, code)
            assert sum(animal.share for animal in trace.animals) == 1
            assert sum(animal.grams for animal in trace.animals) == round(lot.made * self.meat(code))
            back |= {(animal.code, code) for animal in trace.animals if animal.code != code}
            if lot.kind == "carcass":
                forward |= {(code, below.code) for below in trace.forward}
                balance = trace.balance
                assert balance is not None
                assert sum(row.grams for row in balance.rows) == balance.received_grams == lot.grams_in
                assert balance.accounted_grams + balance.unaccounted_grams == lot.grams_in
        assert back == forward
        # Today and the visit speak of whatever there is without falling over.
        questions.today(self.reg)
        questions.waiting(self.reg)
        questions.visit_sheet(self.reg, first=date(2026, 1, 1), last=date(2027, 12, 31))
        for code in self.lots:
            assert questions.story(self.reg, code)
            if self.lots[code].kind != "struck":
                questions.label_sheets(self.reg, [code])

    def the_house_is_as_the_model_says(self) -> None:
        """What the acts beyond the meat have left behind: the machine that adds them says."""
