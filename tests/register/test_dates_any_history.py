"""Any history of packing, mixing, freezing, thawing and dates by hand: what never happens to a date.

No change gains a day but freezing and a tutor's own date; what was frozen once says so in all that is made of
it, with its first day; nothing thawed is frozen raw again; nothing frozen goes to a plate. Tables played anew
are equal.
"""

from __future__ import annotations

import shutil
import tempfile
from datetime import date, timedelta
from pathlib import Path

from history_model import larder
from hypothesis import event, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule
from larder_house import Clock, House

from gametrace.domain.errors import Refusal
from gametrace.facts.shelf_life import thaw_methods
from gametrace.register import acts, questions
from gametrace.register.opening import open_register
from gametrace.register.records import Lot

PACKED = ("chilled-loose", "vacuum", "modified-atmosphere", "frozen")
pick = st.integers(0, 10_000)
_FOLDER = Path(tempfile.mkdtemp(prefix="any-dates-"))


class AnyDates(RuleBasedStateMachine):
    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp(dir=_FOLDER))
        self.clock = Clock()
        self.reg = open_register(larder(self.folder / "one.register"), clock=self.clock)
        self.house = object.__new__(House)
        self.house.reg, self.house.clock, self.house._tags = self.reg, self.clock, 0
        self.house.tutor, self.house.technician = "P001", "P002"
        self.house.student, self.house.supplier = "P003", "S001"
        self.codes: list[str] = []
        self.parents: dict[str, list[str]] = {}

    @initialize()
    def a_carcass_is_cut(self) -> None:
        carcass = self.house.dressed()
        for product in ("trim", "haunch", "trim"):
            self.add(self.house.out(carcass, acts.Out(product, 4_000)), [])

    def add(self, made: tuple[str, ...], parents: list[str]) -> None:
        self.codes += made
        self.parents |= dict.fromkeys(made, parents)

    def lot(self, code: str) -> Lot:
        return questions.lot(self.reg, code)

    def choose(self, number: int) -> str:
        return self.codes[number % len(self.codes)]

    def attempt(self, act: str, /, **given: object) -> tuple[str, ...] | None:
        try:
            done = getattr(acts, act)(self.reg, **{"by": "P003", **given})
        except Refusal:
            event(f"{act} refused")
            return None
        event(f"{act} done")
        return tuple(done.created)

    def gains_nothing(self, made: tuple[str, ...], before: list[Lot], state: str) -> None:
        """What is chilled ends with the first of its parents; what was frozen or thawed is not forgotten."""
        firsts = [one.first_frozen_on for one in before if one.first_frozen_on]
        for code in made:
            lot = self.lot(code)
            if state != "frozen":
                ends = [one.use_by for one in before if one.use_by]
                assert lot.use_by is not None
                assert all(lot.use_by <= end for end in ends)
            else:
                assert all(one.thawed_on is None for one in before)
            assert lot.first_frozen_on == (
                min(firsts) if firsts else self.reg.today() if state == "frozen" else None
            )
            assert any(one.thawed_on for one in before) == (lot.thawed_on is not None)

    @rule(number=pick, state=st.sampled_from(PACKED), count=st.integers(1, 3))
    def pack(self, number: int, state: str, count: int) -> None:
        code = self.choose(number)
        before = [self.lot(code)]
        each = max(1, before[0].grams // 8)
        made = self.attempt("pack_many", code=code, count=count, grams_each=each, pack_state=state)
        if made is not None:
            assert state == "frozen" or before[0].pack_state != "frozen"
            self.gains_nothing(made, before, state)
            self.add(made, [code])

    @rule(
        numbers=st.lists(pick, min_size=1, max_size=3), state=st.sampled_from(PACKED), ends=st.integers(0, 9)
    )
    def mix(self, numbers: list[int], state: str, ends: int) -> None:
        codes = list(dict.fromkeys(self.choose(number) for number in numbers))
        before = [self.lot(code) for code in codes]
        last = self.reg.today() + timedelta(days=ends)
        made = self.attempt(
            "make_mix",
            inputs=[(one.code, max(1, one.grams // 3)) for one in before],
            others=[acts.Other("rusk", 20, lot="1", allergens=["gluten"], use_by=last)],
            pack_state=state,
        )
        if made is not None:
            assert all(one.pack_state != "frozen" for one in before)
            self.gains_nothing(made, before, state)
            if state != "frozen":
                assert (self.lot(made[0]).use_by or last) <= last
            self.add(made, codes)

    @rule(number=pick)
    def freeze(self, number: int) -> None:
        before = self.lot(self.choose(number))
        if self.attempt("freeze_lot", code=before.code, reason="") is not None:
            after = self.lot(before.code)
            assert before.thawed_on is None
            assert before.use_by is None or self.reg.today() <= before.use_by
            assert after.first_frozen_on == (before.first_frozen_on or self.reg.today())

    @rule(number=pick, method=st.sampled_from(sorted(thaw_methods())))
    def thaw(self, number: int, method: str) -> None:
        before = self.lot(self.choose(number))
        if self.attempt("thaw_lot", code=before.code, method=method) is not None:
            self.same_or_sooner(before)
            assert self.lot(before.code).thawed_on == self.reg.today()

    @rule(number=pick, state=st.sampled_from(PACKED))
    def repack(self, number: int, state: str) -> None:
        before = self.lot(self.choose(number))
        if self.attempt("repack", code=before.code, pack_state=state) is not None:
            self.same_or_sooner(before)

    def same_or_sooner(self, before: Lot) -> None:
        after = self.lot(before.code)
        assert after.use_by is not None
        assert before.use_by is None or after.use_by <= before.use_by
        assert after.first_frozen_on == before.first_frozen_on

    @rule(number=pick, days=st.integers(-2, 40), by=st.sampled_from(["P001", "P002", "P003"]))
    def date_by_hand(self, number: int, days: int, by: str) -> None:
        code = self.choose(number)
        to = self.reg.today() + timedelta(days=days)
        done = self.attempt("override_date", by=by, code=code, to=to, reason="tested")
        if done is not None:
            assert by == "P001"
            assert days >= 0
            assert self.lot(code).use_by == to

    @rule(number=pick)
    def cook(self, number: int) -> None:
        before = self.lot(self.choose(number))
        made = self.attempt(
            "make_dish",
            name="Pie",
            occasion="lunch",
            on=date(2026, 11, 20),
            portions=4,
            inputs=[(before.code, max(1, before.grams // 4))],
        )
        if made is not None:
            assert before.pack_state != "frozen"
            assert before.use_by is None or before.use_by >= self.reg.today()

    @rule(days=st.sampled_from([1, 1, 2, 5, 30, 100]))
    def days_go_by(self, days: int) -> None:
        self.clock.go(days=days)

    @rule()
    def a_new_carcass_is_cut(self) -> None:
        self.add(self.house.out(self.house.dressed(), acts.Out("trim", 3_000)), [])

    @invariant()
    def a_thawed_lot_was_frozen_before(self) -> None:
        for code in self.codes:
            lot = self.lot(code)
            if lot.thawed_on is not None:
                assert lot.first_frozen_on is not None
                assert lot.first_frozen_on <= lot.thawed_on
                assert lot.pack_state != "frozen"
            if lot.pack_state == "frozen":
                assert lot.first_frozen_on is not None

    def teardown(self) -> None:
        try:
            assert questions.check(self.reg) == ()
            questions.label_sheets(self.reg, self.codes)
            for code in self.codes:
                assert questions.story(self.reg, code)
        finally:
            self.reg.close()
            shutil.rmtree(self.folder)


TestAnyDates = AnyDates.TestCase
TestAnyDates.settings = settings(max_examples=25, stateful_step_count=25)
