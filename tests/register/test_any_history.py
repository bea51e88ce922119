"""Any history of acts, refusals included, against a plain model kept beside the register.

After every step: each lot's weights are what the model says, nothing is below nothing, and the stops are the
unlifted holds handed down the graph. At the end: the check is empty, rebuilt tables are equal, reopening
changes nothing, and tracing forward and back are the same relation.
"""

from __future__ import annotations

import shutil
import tempfile
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from pathlib import Path

from hypothesis import event
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule
from larder_house import DRESSED, Clock, House

from gametrace.domain.codes import code_of
from gametrace.domain.deliveries import Basis, Decision
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.opening import open_register
from gametrace.store.health import fingerprint
from gametrace.store.tables import READING_TABLES

STEP = 20  # grams a tray may read over the balance
MEAT = {"carcass", "part", "pack", "mix"}
GONE = {"by-product", "waste", "drying", "returned"}
ALL_STOPS = {Decision.HOLD: "hold", Decision.SPECIMEN: "specimen", Decision.REJECT: "rejected"}

parts = st.fractions(Fraction(1, 50), Fraction(21, 20), max_denominator=50)
pick = st.integers(0, 10_000)


@dataclass
class Known:
    """One lot as the model knows it."""

    kind: str
    grams_in: int
    made: int
    in_skin: bool = False
    aside: int = 0
    state: str = "whole"
    parents: dict[str, int] = field(default_factory=dict)


_FOLDER = Path(tempfile.mkdtemp(prefix="any-history-"))
_TEMPLATE = _FOLDER / "template.register"


def template() -> Path:
    """A larder set up once; every history starts from a copy of it."""
    if not _TEMPLATE.exists():
        half = _FOLDER / "half.register"
        House(half).close()
        half.rename(_TEMPLATE)
    return _TEMPLATE


class AnyHistory(RuleBasedStateMachine):
    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp(dir=_FOLDER))
        self.path = Path(shutil.copy(template(), self.folder / "larder.register"))
        self.clock = Clock()
        self.reg = open_register(self.path, clock=self.clock)
        self.house = object.__new__(House)
        self.house.reg, self.house.path, self.house.clock = self.reg, self.path, self.clock
        self.house.tutor, self.house.technician = "P001", "P002"
        self.house.student, self.house.officer, self.house.supplier = "P003", "P004", "S001"
        self.house._tags = 0
        self.lots: dict[str, Known] = {}
        self.holds: dict[int, tuple[str, str]] = {}  # open ones: number -> (lot, sort)
        self.seal = questions.seal(self.reg)

    # ------------------------------------------------------------------------------ the model's own sums

    def given(self, code: str) -> int:
        return sum(lot.parents.get(code, 0) for lot in self.lots.values())

    def left(self, code: str) -> int:
        lot = self.lots[code]
        return lot.made - self.given(code) - lot.aside

    def stops(self, code: str) -> set[str]:
        """Walk up from the lot: every open hold on it or on anything in it."""
        reached, todo = set(), [code]
        while todo:
            one = todo.pop()
            if one not in reached:
                reached.add(one)
                todo += self.lots[one].parents
        return {sort for lot, sort in self.holds.values() if lot in reached}

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

    # --------------------------------------------------------------------------------------------- acts

    @initialize()
    def two_carcasses_are_on_the_block_and_one_hangs(self) -> None:
        for carcass, grams in enumerate((30_000, 17_000)):
            self.receive(grams, Decision.ACCEPT, False)
            for product, is_pack in (("trim", False), ("haunch", True)):
                code = list(self.lots)[3 * carcass]
                created = self.house.out(code, acts.Out(product, 2_000, is_pack=is_pack))
                self.lots[code].state = "open"
                kind = "pack" if is_pack else "part"
                self.add(created, kind=kind, grams_in=2_000, made=2_000, parents={code: 2_000})
                self.seal = questions.seal(self.reg)
        self.receive(21_000, Decision.ACCEPT, True)

    @rule(
        grams=st.integers(200, 60_000),
        decision=st.sampled_from([Decision.ACCEPT] * 5 + list(Decision)),
        in_skin=st.sampled_from([True, False, False]),
    )
    def receive(self, grams: int, decision: Decision, in_skin: bool) -> None:
        code = self.attempt(
            True, self.house.receive, grams=grams, decision=decision, decision_reason="as seen",
            basis=Basis() if in_skin else DRESSED,
        )  # fmt: skip
        self.add(code, kind="carcass", grams_in=grams, made=grams, in_skin=in_skin)
        holds = questions.carcass(self.reg, code).holds
        assert [hold.sort for hold in holds] == ([ALL_STOPS[decision]] if decision in ALL_STOPS else [])
        self.holds.update({hold.id: (code, hold.sort) for hold in holds})

    @rule(number=pick, part=parts, off=st.fractions(0, Fraction(1, 30)))
    def dress(self, number: int, part: Fraction, off: Fraction) -> None:
        code = next((one for one, lot in self.lots.items() if lot.in_skin), "") or self.choose(number)
        left = self.left(code)
        skin, missing = int(left * part) or 1, int(left * off)
        after = left - skin
        lot = self.lots[code]
        allowed = "rejected" not in self.stops(code) and lot.in_skin and left > 0 and after > 0
        changes = self.attempt(
            allowed, self.house.dress, code, skin, grams_after=max(after - missing, 0), notes="skinned"
        )
        if changes is not None:
            lot.in_skin, lot.aside = False, lot.aside + after - max(after - missing, 0)
            self.add(changes.created, kind="by-product", grams_in=skin, made=skin, parents={code: skin})

    @rule(
        number=pick, part=parts, more=st.sampled_from([0, 0, 0, 1, STEP, STEP + 1]),
        product=st.sampled_from(["trim", "haunch", "bone", "binned"]), is_pack=st.booleans(),
    )  # fmt: skip
    def weigh_out(self, number: int, part: Fraction, more: int, product: str, is_pack: bool) -> None:
        code = self.choose(number, "carcass", "part", "pack")
        lot, left = self.lots[code], self.left(code)
        grams = left + more if more else int(left * part) or 1
        is_meat = product in ("trim", "haunch")
        stops = self.stops(code)
        allowed = (
            lot.kind in MEAT and left > 0 and not lot.in_skin and not stops & {"hold", "rejected"}
            and grams <= left + STEP and (stops or not is_meat or not self.is_past(code))
        )  # fmt: skip
        kind = {"bone": "by-product", "binned": "waste"}.get(product, "pack" if is_pack else "part")
        created = self.attempt(
            bool(allowed), self.house.out, code, acts.Out(product, grams, is_pack=is_pack and is_meat)
        )
        if created is not None:
            lot.state = "open"
            lot.aside -= max(0, grams - left)
            self.add(created, kind=kind, grams_in=grams, made=grams, parents={code: grams})
            self.settle(code)

    @rule(number=pick, reason=st.sampled_from(["", "looked", "looked again"]))
    def close(self, number: int, reason: str) -> None:
        code = self.choose(number, "carcass")
        left = self.left(code)
        lot = self.lots[code]
        allowed = lot.state == "open" and (bool(reason) or left * 100 <= lot.grams_in * 2)
        if self.attempt(allowed, acts.close_lot, self.reg, by="P002", code=code, reason=reason):
            lot.aside += left
            lot.state = "closed"

    @rule(numbers=st.lists(pick, min_size=1, max_size=3), part=parts, lost=st.sampled_from([0, 0, 1, 7]))
    def mix(self, numbers: list[int], part: Fraction, lost: int) -> None:
        taken = self._taken(numbers, part)
        total = sum(taken.values())
        allowed = all(self.may_go_to_a_plate(code, grams) for code, grams in taken.items()) and total > lost
        code = self.attempt(allowed, self.house.mix, *taken.items(), grams=total - lost)
        if code is not None:
            self.add(code, kind="mix", grams_in=total, made=total - lost, parents=taken)
            for parent in taken:
                self.settle(parent)

    @rule(numbers=st.lists(pick, min_size=1, max_size=3), part=parts)
    def dish(self, numbers: list[int], part: Fraction) -> None:
        taken = self._taken(numbers, part)
        allowed = all(self.may_go_to_a_plate(code, grams) for code, grams in taken.items())
        code = self.attempt(allowed, self.house.dish, *taken.items())
        if code is not None:
            total = sum(taken.values())
            self.add(code, kind="dish", grams_in=total, made=total, parents=taken)
            for parent in taken:
                self.settle(parent)

    def _taken(self, numbers: list[int], part: Fraction) -> dict[str, int]:
        codes = dict.fromkeys(self.choose(number, "part", "pack", "mix") for number in numbers)
        return {code: int(self.left(code) * part) or 1 for code in codes}

    @rule(number=pick, part=parts)
    def dispose(self, number: int, part: Fraction) -> None:
        code = self.choose(number, *MEAT)
        left = self.left(code)
        grams = int(left * part) or 1
        allowed = self.lots[code].kind in MEAT and 0 < grams <= left
        binned = self.attempt(allowed, self.house.bin, code, grams)
        if binned is not None:
            self.add(binned, kind="waste", grams_in=grams, made=grams, parents={code: grams})
            self.settle(code)

    @rule(number=pick, lost=st.integers(-30, 400), reason=st.sampled_from(["", "a warm week"]))
    def reweigh(self, number: int, lost: int, reason: str) -> None:
        code = self.choose(number, *MEAT)
        left = self.left(code)
        grams = left - lost
        allowed = (
            self.lots[code].kind in MEAT and left > 0 and grams > 0 and lost >= -STEP
            and (bool(reason) or lost * 100 <= left * 10)
        )  # fmt: skip
        changes = self.attempt(
            allowed, acts.reweigh, self.reg, by="P003", code=code, grams=grams, reason=reason
        )
        if changes is not None and lost > 0:
            self.add(changes.created, kind="drying", grams_in=lost, made=lost, parents={code: lost})
        elif changes is not None:
            assert changes.created == ()

    @rule(number=pick, by=st.integers(-3_000, 3_000))
    def correct_weight(self, number: int, by: int) -> None:
        code = self.choose(number)
        lot = self.lots[code]
        grams = lot.grams_in + by
        is_closed = lot.state == "closed"
        room = lot.aside + STEP if is_closed else self.left(code)
        allowed = by != 0 and grams > 0 and by >= -room and len(lot.parents) < 2 and lot.made == lot.grams_in
        for parent in lot.parents:
            above = self.lots[parent]
            allowed &= by <= (above.aside + STEP if above.state == "closed" else self.left(parent))
        if not self.attempt(
            allowed, acts.correct_weight, self.reg, by="P001", code=code, grams=grams, reason="misread"
        ):
            return
        lot.grams_in = lot.made = grams
        lot.aside += by if is_closed else 0
        for parent in lot.parents:
            lot.parents[parent] += by
            above = self.lots[parent]
            above.aside -= by if above.state == "closed" else 0
            if self.left(parent) == 0:
                above.state = "closed"
        if self.left(code) == 0:
            lot.state = "closed"

    @rule(number=pick, by=st.sampled_from(["P001", "P003", "P003", "P003"]))
    def hold(self, number: int, by: str) -> None:
        code = self.choose(number)
        hold = self.attempt(True, self.house.hold, code, by=by)
        self.holds[hold] = (code, "hold")

    @rule(number=pick, by=st.sampled_from(["P001", "P002", "P002", "P003", "P004"]))
    def release(self, number: int, by: str) -> None:
        if not self.holds:
            return
        hold = sorted(self.holds)[number % len(self.holds)]
        placed_by = {one.id: one.placed_by for one in questions.holds(self.reg, open_only=False)}[hold]
        initials = {person.code: person.initials for person in questions.people(self.reg)}
        allowed = self.holds[hold][1] == "hold" and by in ("P001", "P002") and placed_by != initials[by]
        if self.attempt(allowed, acts.release_hold, self.reg, by=by, hold=hold, reason="looked at it"):
            del self.holds[hold]

    @rule(number=pick, hook=st.integers(1, 4))
    def move(self, number: int, hook: int) -> None:
        code, place = self.choose(number, *MEAT), f"C1.R2.{hook:02d}"
        taken = {
            questions.lot(self.reg, one).place: one
            for one, lot in self.lots.items()
            if lot.kind in MEAT and self.left(one) > 0
        }
        allowed = self.lots[code].kind in MEAT and self.left(code) > 0 and place not in taken
        self.attempt(allowed, acts.move_lot, self.reg, by="P003", code=code, to=place)

    @rule(
        number=pick, place=st.sampled_from(["Long Wood", "Short Wood"]),
        species=st.sampled_from(["red", "fallow"]),
    )  # fmt: skip
    def amend(self, number: int, place: str, species: str) -> None:
        carcasses = [one for one, lot in self.lots.items() if lot.kind == "carcass"]
        code = carcasses[number % len(carcasses)]
        was = questions.carcass(self.reg, code)
        changes = {"kill_place": place, "species": species, "age_class": ""}
        allowed = (was.kill_place, was.species, was.age_class) != (place, species, "")
        self.attempt(
            allowed, acts.amend_carcass, self.reg, by="P003", code=code, changes=changes, reason="misread"
        )

    @rule(number=pick)
    def print_a_label(self, number: int) -> None:
        codes = [self.choose(number)]
        self.attempt(True, acts.note_labels_printed, self.reg, by="P003", codes=codes, sort="pack")

    @rule(hours=st.sampled_from([1, 1, 5, 5, 20, 20, 100]))
    def time_goes_by(self, hours: int) -> None:
        self.clock.go(hours=hours)

    @rule()
    def the_window_is_closed_and_opened(self) -> None:
        before = self._tables()
        self.reg.close()
        self.reg = self.house.reg = open_register(self.path, clock=self.clock, create=False)
        assert questions.seal(self.reg) == self.seal
        assert self._tables() == before

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
        assert questions.check(self.reg) == ()
        before = self._tables()
        acts.rebuild(self.reg)
        assert self._tables() == before
        back: set[tuple[str, str]] = set()
        forward: set[tuple[str, str]] = set()
        for code, lot in self.lots.items():
            trace = questions.trace(self.reg, code)
            assert sum(animal.share for animal in trace.animals) == 1
            assert sum(animal.grams for animal in trace.animals) == lot.made
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
            questions.label_sheets(self.reg, [code])


TestAnyHistory = AnyHistory.TestCase
