"""The way of the meat as a machine for hypothesis: any history of acts, refusals included.

`test_any_history` adds the acts about the meat and the house, and runs it.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from fractions import Fraction
from typing import Any

from history_model import MEAT, HistoryModel, Known
from hypothesis import event
from hypothesis import strategies as st
from hypothesis.stateful import initialize, rule
from larder_house import DRESSED

from gametrace.domain.codes import code_of
from gametrace.domain.deliveries import Basis, Decision
from gametrace.domain.errors import Refusal
from gametrace.domain.examination import Answered
from gametrace.register import acts, questions
from gametrace.register.asking_round import lots_step
from gametrace.register.opening import open_register

STEP = 20  # grams a tray may read over the balance
HOOKS = [f"{rail}.{hook:02d}" for rail in ("C1.R2", "F2.R1") for hook in (1, 2, 3, 4)]
SLIPS = [
    "receive", "cut", "bin", "dish", "mix", "weigh", "move", "close", "hold", "label",
    "dress", "look", "decide", "lab", "claim", "freeze", "repack", "date", "serve", "left", "cool", "lay",
    "set", "round", "collect",
]  # fmt: skip
ALL_STOPS = {Decision.HOLD: "hold", Decision.SPECIMEN: "specimen", Decision.REJECT: "rejected"}

parts = st.fractions(Fraction(1, 50), Fraction(21, 20), max_denominator=50)
pick = st.integers(0, 10_000)


class MeatHistory(HistoryModel):
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
        self.and_the_house_stands()

    def and_the_house_stands(self) -> None:
        """What a machine with more acts begins with besides."""

    @rule(
        grams=st.integers(200, 60_000),
        decision=st.sampled_from([Decision.ACCEPT] * 5 + list(Decision)),
        in_skin=st.sampled_from([True, False, False]),
        beast=st.sampled_from(["fallow", "fallow", "wild-boar"]),
    )
    def receive(self, grams: int, decision: Decision, in_skin: bool, beast: str = "fallow") -> None:
        is_boar = beast == "wild-boar"
        code = self.attempt(
            True, self.house.receive, grams=grams, decision=decision, decision_reason="as seen",
            basis=Basis() if in_skin else DRESSED, species=beast,
            **({"sex": "male", "age_class": ""} if is_boar else {}),
        )  # fmt: skip
        self.add(code, kind="carcass", grams_in=grams, made=grams, in_skin=in_skin)
        sorts = [ALL_STOPS[decision]] if decision in ALL_STOPS else []
        self.held(code, sorts + (["result"] if is_boar and decision is not Decision.REJECT else []))

    @rule(number=pick, part=parts, off=st.fractions(0, Fraction(1, 30)))
    def dress(self, number: int, part: Fraction, off: Fraction) -> None:
        code = next((one for one, lot in self.lots.items() if lot.in_skin), "") or self.choose(number)
        left = self.left(code)
        skin, missing = int(left * part) or 1, int(left * off)
        after = left - skin
        lot = self.lots[code]
        allowed = (
            not self.stops(code) & {"rejected", "locked"} and lot.in_skin and left > 0 and after > 0
        )  # fmt: skip
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
            lot.kind in MEAT and left > 0 and not lot.in_skin and not stops - {"specimen"}
            and grams <= left + STEP and (stops or not is_meat or not self.is_past(code))
        )  # fmt: skip
        kind = {"bone": "by-product", "binned": "waste"}.get(product, "pack" if is_pack else "part")
        created = self.attempt(
            bool(allowed), self.house.out, code, acts.Out(product, grams, is_pack=is_pack and is_meat),
            cutter=self.student if more else "",
        )  # fmt: skip
        if created is not None:
            lot.state = "open"
            lot.aside -= max(0, grams - left)
            self.add(created, kind=kind, grams_in=grams, made=grams, parents={code: grams})
            self.settle(code)

    @rule(number=pick, table=st.sampled_from(["left", "right"]), reason=st.sampled_from(["", "", "no room"]))
    def lay(self, number: int, table: str, reason: str) -> None:
        code = self.choose(number, "carcass", "part")
        lot = self.lots[code]
        here: set[str] = set()
        for one, where in self.tables.items():
            if where == table and one != code and self.left(one) > 0 and self.lots[one].state != "closed":
                here |= self.animals(one)
        is_strange = bool(here and self.animals(code) - here)
        allowed = (
            lot.kind in MEAT and self.left(code) > 0 and not lot.in_skin
            and not self.stops(code) - {"specimen"} and self.tables.get(code) != table
            and (bool(reason) or not is_strange)
        )  # fmt: skip
        done = self.attempt(
            allowed, acts.lay_on_table, self.reg, by="P003", session=self.session, station=table, code=code,
            reason=reason,
        )  # fmt: skip
        if done is not None:
            self.tables[code] = table
            assert questions.block_view(self.reg, code).station == table

    @rule(number=pick, reason=st.sampled_from(["", "looked", "looked again"]))
    def close(self, number: int, reason: str) -> None:
        code = self.choose(number, "carcass")
        left = self.left(code)
        lot = self.lots[code]
        allowed = lot.state == "open" and (bool(reason) or left * 100 <= lot.grams_in * 2)
        if self.attempt(allowed, acts.close_lot, self.reg, by="P002", code=code, reason=reason):
            lot.aside += left
            lot.state = "closed"

    @rule(
        numbers=st.lists(pick, min_size=1, max_size=3), part=parts, lost=st.sampled_from([0, 0, 1, 7]),
        salt=st.sampled_from([0, 0, 0, 1, 90]),
    )  # fmt: skip
    def mix(self, numbers: list[int], part: Fraction, lost: int, salt: int) -> None:
        taken = self._taken(numbers, part)
        total = sum(taken.values()) + salt
        others = [acts.Other("salt", salt, allergens=[])] if salt else []
        allowed = all(self.may_go_to_a_plate(code, grams) for code, grams in taken.items()) and total > lost
        code = self.attempt(allowed, self.house.mix, *taken.items(), grams=total - lost, others=others)
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
        allowed &= not lot.parents or sum(lot.parents.values()) == lot.grams_in  # nothing besides meat in it
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
        self.attempt(True, self.house.hold, code, by=by)
        self.held(code, ["hold"])

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

    @rule(number=pick, place=st.sampled_from(HOOKS))
    def move(self, number: int, place: str) -> None:
        code = self.choose(number, *MEAT)
        taken = {
            questions.lot(self.reg, one).place: one
            for one, lot in self.lots.items()
            if lot.kind in MEAT and self.left(one) > 0
        }
        allowed = self.lots[code].kind in MEAT and self.left(code) > 0 and place not in taken
        allowed &= self.lots[code].kind == "carcass" or not place.startswith("F")  # it is not frozen
        if self.attempt(allowed, acts.move_lot, self.reg, by="P003", code=code, to=place):
            self.lots[code].stays.append((self.clock.now, place))

    @rule(
        number=pick, place=st.sampled_from(["Long Wood", "Short Wood"]),
        species=st.sampled_from(["red", "fallow"]),
    )  # fmt: skip
    def amend(self, number: int, place: str, species: str) -> None:
        carcasses = [one for one, lot in self.lots.items() if lot.kind == "carcass"]
        code = carcasses[number % len(carcasses)]
        was = questions.carcass(self.reg, code)
        if was.species == "wild-boar":
            species = "wild-boar"  # a boar that turns out to be none has tests of its own
        changes = {"kill_place": place, "species": species, "age_class": ""}
        allowed = (was.kill_place, was.species, was.age_class) != (place, species, "")
        self.attempt(
            allowed, acts.amend_carcass, self.reg, by="P003", code=code, changes=changes, reason="misread"
        )

    @rule(what=st.sampled_from(SLIPS), number=pick, part=parts)
    def a_slip_is_struck(self, what: str, number: int, part: Fraction) -> None:
        """Whatever was done last may be struck, and everything stands as it stood, to the gram."""
        code = self.choose(number, "pack", "part", "carcass")
        grams = int(self.left(code) * part) or 1
        slips = {
            "receive": lambda: self.house.receive(decision=Decision.HOLD, decision_reason="slip"),
            "cut": lambda: self.house.out(code, acts.Out("trim", grams), acts.Out("bone", 5)),
            "bin": lambda: self.house.bin(code, grams),
            "dish": lambda: self.house.dish((code, grams)),
            "mix": lambda: self.house.mix((code, grams), grams=max(1, grams - 3)),
            "weigh": lambda: acts.reweigh(self.reg, by="P003", code=code, grams=grams, reason="slip"),
            "move": lambda: acts.move_lot(self.reg, by="P003", code=code, to="C1.S1"),
            "close": lambda: acts.close_lot(self.reg, by="P003", code=code, reason="slip"),
            "hold": lambda: self.house.hold(code, by="P003"),
            "label": lambda: acts.note_labels_printed(self.reg, by="P003", codes=[code], sort="pack"),
            **self.slips_of_a_hurry(number, code),
        }
        before = self.standing()
        try:
            slips[what]()
        except Refusal:
            return
        event(f"{what} struck")
        done = questions.seal(self.reg).count
        acts.strike_entry(self.reg, by="P001", seq=done, reason="a slip")
        assert self.standing() == before
        self.seal = questions.seal(self.reg)
        assert self.seal.count == done + 1
        with self.reg.store.reading() as connection:
            query = connection.exec_driver_sql
            self.last_hold = query("SELECT COALESCE(MAX(id), 0) FROM hold").scalar_one()
            for row in query("SELECT id FROM lot WHERE kind = 'struck'"):
                self.lots.setdefault(code_of(row.id), Known("struck", 0, 0, state="closed"))

    def slips_of_a_hurry(self, number: int, code: str) -> dict[str, Callable[[], object]]:
        """What is served, looked at, kept and written down too fast."""
        reg, house = self.reg, self.house
        beast, pot = self.choose(number, "carcass"), self.choose(number * 4 + 1, "dish")
        hung = next((one for one, lot in self.lots.items() if lot.in_skin), beast)
        bone, soon = self.choose(number * 4 + 1, "by-product", "waste"), reg.today() + timedelta(days=1)
        answers = [Answered("smell", "not so", "slip")]
        by: dict[str, Any] = {"by": "P003"}
        return {
            "dress": lambda: house.dress(hung, 100),
            "look": lambda: acts.examine_carcass(reg, **by, code=beast, answers=answers, marks=[]),
            "decide": lambda: acts.decide_again(
                reg, **by, code=beast, decision=Decision.SPECIMEN, reason="slip"
            ),
            "lab": lambda: house.answer_lab(beast, "positive", by="P002"),
            "claim": lambda: acts.raise_claim(reg, **by, code=beast, grams=100, reason="slip"),
            "freeze": lambda: acts.freeze_lot(reg, **by, code=code, place="F2.R1.04", reason="slip"),
            "repack": lambda: acts.repack(reg, **by, code=code, pack_state="vacuum"),
            "date": lambda: acts.override_date(reg, by="P001", code=code, to=soon, reason="slip"),
            "serve": lambda: acts.serve_dish(reg, **by, code=pot, portions=2),
            "left": lambda: acts.bin_left_over(reg, **by, code=pot, portions=2, reason="slip"),
            "cool": lambda: acts.record_cooling(reg, **by, code=pot, tenths_c=90, minutes=200),
            "lay": lambda: acts.lay_on_table(
                reg, **by, session=self.session, station="left", code=code, reason="slip"
            ),
            "set": lambda: acts.hold_set(reg, **by, steps=[lots_step([beast, code])], reason="slip"),
            "round": lambda: acts.take_round(reg, **by, readings=[("C1", 99), ("F2", 0)]),
            "collect": lambda: acts.collect_by_products(
                reg, **by, codes=[bone], on=reg.today(), collector="Grice", document_number="CD 9",
                destination="the yard",
            ),
        }  # fmt: skip

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
