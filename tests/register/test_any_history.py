"""Any history of the meat together with what is learnt of it and done about it, against a plain model.

Added to the machine of the meat: looks, the second decision, pictures, calls, claims, laboratory results,
collections, stores that fail, probes, rounds, loggers' files, policies and the supplier book; and, from
`recall_history`, what is announced, gathered, recalled and drilled.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from history_machine import pick
from history_model import MEAT
from hypothesis import strategies as st
from hypothesis.stateful import rule
from recall_history import RecallHistory

from gametrace.domain.codes import code_of
from gametrace.domain.deliveries import Decision
from gametrace.domain.examination import Answered
from gametrace.register import acts, questions

LONG_AGO, LATER = datetime(2026, 1, 1, tzinfo=UTC), datetime(2028, 1, 1, tzinfo=UTC)
FOR_EVER = {"rejected", "specimen", "locked"}
SECOND = {Decision.HOLD: "hold", Decision.SPECIMEN: "specimen", Decision.REJECT: "rejected"}
# Looked at on any body whatever came with it; the last only asks.
POINTS = ["smell", "prescapular", "sign-tb", "flies"]
PRICE = 320  # pence a kilo, of every delivery of the house


@dataclass
class Told:
    """What is known of one animal beyond its meat."""

    looks: dict[tuple[str, str], tuple[str, str]] = field(
        default_factory=dict
    )  # (stage, point): answer, note
    decided: str = ""
    result: str = ""
    pictures: list[str] = field(default_factory=list)
    calls: int = 0


@dataclass
class Asked:
    """One claim as the model knows it."""

    code: str
    grams: int
    pence: int
    status: str = "raised"
    settled: int | None = None


class AnyHistory(RecallHistory):
    def __init__(self) -> None:
        super().__init__()
        self.told: dict[str, Told] = {}
        self.claims: dict[int, Asked] = {}
        self.collected: set[str] = set()
        self.readings: dict[str, dict[int, int]] = {"C1": {}, "F2": {}}
        self.policies: dict[str, str] = {}
        self.probes: list[str] = []
        self.damage_rule, self.claim_days = "none", 0

    def and_the_house_stands(self) -> None:
        self.agree("bought price", 60)
        self.receive(45_000, Decision.ACCEPT, False, "wild-boar")
        first = next(iter(self.lots))
        for place in ("C1.R2.01", "F2.R1.01"):  # it has stood in both stores
            acts.move_lot(self.reg, by="P003", code=first, to=place)
            self.lots[first].stays.append((self.clock.now, place))
            self.seal = questions.seal(self.reg)
            self.clock.go(hours=2)

    def beast(self, number: int) -> tuple[str, Told | None]:
        """A code, five times in six an animal's; what is known of it where it is one."""
        code = self.choose(number * 4 if number % 6 == 0 else number * 4 + 1, "carcass")
        return code, self.told.setdefault(code, Told()) if self.lots[code].kind == "carcass" else None

    # ------------------------------------------------------------------------------- what is learnt of it

    def stop_signs(self, told: Told) -> set[tuple[str, str]]:
        return {
            (point, note)
            for (_stage, point), (answer, note) in told.looks.items()
            if answer == "not so" and point != "flies"
        }

    @rule(
        number=pick, point=st.sampled_from(POINTS), note=st.sampled_from(["sour", "worse"]),
        answer=st.sampled_from(["as it should be", "not so", "not looked at"]), mark=st.integers(0, 1_250),
    )  # fmt: skip
    def examine(self, number: int, point: str, note: str, answer: str, mark: int) -> None:
        code, told = self.beast(number)
        marks = [acts.Mark(mark, 500, "entry")]
        allowed = told is not None and mark <= 1_000
        done = self.attempt(
            allowed, acts.examine_carcass, self.reg, by="P003", code=code,
            answers=[Answered(point, answer, note)], marks=marks,
        )  # fmt: skip
        if done is not None and told is not None:
            before = self.stop_signs(told)
            stage = "in the skin" if self.lots[code].in_skin else "out of the skin"
            told.looks[stage, point] = (answer, note)
            self.held(code, ["hold"] if self.stop_signs(told) - before else [])

    @rule(number=pick, decision=st.sampled_from(list(Decision)), reason=st.sampled_from(["", "seen", "seen"]))
    def decide_again(self, number: int, decision: Decision, reason: str) -> None:
        code, told = self.beast(number)
        allowed = (
            told is not None and not self.lots[code].in_skin and not told.decided
            and (bool(reason) or decision is Decision.ACCEPT)
            and not (self.stops(code) & FOR_EVER and decision in (Decision.ACCEPT, Decision.TRIM))
        )  # fmt: skip
        done = self.attempt(
            allowed, acts.decide_again, self.reg, by="P002", code=code, decision=decision, reason=reason
        )
        if done is not None and told is not None:
            told.decided = decision.value
            self.held(code, [SECOND[decision]] if decision in SECOND else [])

    @rule(
        number=pick, content=st.sampled_from([b"\xff\xd8\xff one", b"\x89PNG\r\n\x1a\n two", b"GIF89a", b""])
    )
    def attach(self, number: int, content: bytes) -> None:
        code, told = self.beast(number)
        known = content.startswith((b"\xff", b"\x89"))
        if self.attempt(
            known, acts.attach_picture, self.reg, by="P003", code=code, what="tag", content=content
        ):
            (told or self.told.setdefault(code, Told())).pictures.append(hashlib.sha256(content).hexdigest())

    @rule(number=pick, said=st.sampled_from(["at first light", " "]))
    def ring(self, number: int, said: str) -> None:
        code, told = self.beast(number)
        if self.attempt(
            told is not None and said != " ", acts.record_call, self.reg, by="P001", code=code,
            about="kill_time", answer=said, spoken_by="P. Ashdown",
        ) and told is not None:  # fmt: skip
            told.calls += 1

    @rule(
        number=pick, result=st.sampled_from(["negative", "negative", "positive"]),
        by=st.sampled_from(["P001", "P001", "P002", "P003"]),
    )  # fmt: skip
    def laboratory(self, number: int, result: str, by: str) -> None:
        waits = sorted({code for code, sort in self.holds.values() if sort == "result"})
        code, told = self.beast(number)
        if waits and number % 3:
            code = waits[number % len(waits)]
            told = self.told.setdefault(code, Told())
        # P002 took every boar in and so holds it; a positive letter may be opened by anybody.
        allowed = (
            code in waits and told is not None and told.result != "positive"
            and (by == "P001" or (by == "P002" and result == "positive"))
        )  # fmt: skip
        done = self.attempt(
            allowed, acts.record_result, self.reg, by=by, code=code, reference="LAB 7", result=result
        )
        if done is None or told is None:
            return
        told.result = result
        if result == "negative":
            self.holds = {k: v for k, v in self.holds.items() if v != (code, "result")}
        self.held(code, ["locked"] if result == "positive" else [])

    # -------------------------------------------------------------------------------------------- claims

    @rule(
        rule_=st.sampled_from(["bought price", "cut price", "fixed", "none"]),
        days=st.sampled_from([0, 1, 60]),
    )
    def agree(self, rule_: str, days: int) -> None:
        changed = (rule_, days) != (self.damage_rule, self.claim_days)
        if self.attempt(
            changed, acts.amend_supplier, self.reg, by="P001", supplier="S001", damage_rule=rule_,
            claim_days=days, damage_pence=1_500 if rule_ == "fixed" else 0,
            reason="agreed",
        ):  # fmt: skip
            self.damage_rule, self.claim_days = rule_, days

    @rule(number=pick, tenths=st.sampled_from([1, 4, 6, 10, 11]))
    def claim(self, number: int, tenths: int) -> None:
        code, told = self.beast(number)
        if self.claims and number % 2:  # again on the same animal: the claims before count, or do not
            code = list(self.claims.values())[number // 2 % len(self.claims)].code
            told = self.told[code]
        lot = self.lots[code]
        grams = lot.grams_in * tenths // 10 or 1
        open_grams = sum(c.grams for c in self.claims.values() if c.code == code and c.status != "refused")
        allowed = told is not None and self.damage_rule != "none" and grams + open_grams <= lot.grams_in
        if told is not None and self.claim_days:
            received = questions.carcass(self.reg, code).received_at.date()
            allowed &= self.reg.today() <= received + timedelta(days=self.claim_days)
        price = 1_100 if self.damage_rule == "cut price" else None
        done = self.attempt(
            allowed, acts.raise_claim, self.reg, by="P002", code=code, grams=grams, reason="shot",
            cut_pence_per_kg=price,
        )  # fmt: skip
        if done is not None:
            whole, rest = divmod(grams * (price or PRICE), 1_000)
            pence = 1_500 if self.damage_rule == "fixed" else whole + (rest >= 500)
            self.claims[int(done.code)] = Asked(code, grams, pence)  # type: ignore[attr-defined]

    @rule(
        number=pick,
        status=st.sampled_from(["agreed", "credited", "refused"]),
        pence=st.sampled_from([None, 99]),
    )
    def settle_a_claim(self, number: int, status: str, pence: int | None) -> None:
        if not self.claims:
            return
        claim = sorted(self.claims)[number % len(self.claims)]
        known = self.claims[claim]
        allowed = known.status in ("raised", "agreed")
        if self.attempt(
            allowed, acts.settle_claim, self.reg, by="P001", claim=claim, status=status, pence=pence
        ):
            due = known.pence if known.settled is None else known.settled
            known.settled = 0 if status == "refused" else due if pence is None else pence
            known.status = status

    # ------------------------------------------------------------------------------------------ the house

    @rule(numbers=st.lists(pick, min_size=1, max_size=3), is_named=st.sampled_from([True, True, False]))
    def collect(self, numbers: list[int], is_named: bool) -> None:
        codes = {self.choose(number * 4 + 1, "by-product", "waste") for number in numbers}
        allowed = is_named and all(
            self.lots[code].kind in ("by-product", "waste") and code not in self.collected
            and ("locked" in (stops := self.stops(code)) or not stops & {"hold", "result"})
            for code in codes
        )  # fmt: skip
        if self.attempt(
            allowed, acts.collect_by_products, self.reg, by="P003", codes=sorted(codes), on=self.reg.today(),
            collector="Grice", document_number="CD 4" if is_named else "", destination="the yard",
        ):  # fmt: skip
            self.collected |= codes

    @rule(store=st.sampled_from(["C1", "F2", "C9"]), hours=st.sampled_from([0, 3, 30]))
    def store_fails(self, store: str, hours: int) -> None:
        since = self.clock.now - timedelta(hours=hours)
        there = [
            code for code, lot in self.lots.items()
            if lot.kind in MEAT and self.left(code) > 0 and self.stood_in(code, store, since)
        ]  # fmt: skip
        done = self.attempt(
            bool(there), acts.store_failed, self.reg, by="P002", store=store, reason="tripped",
            happened_at=since if hours else None,
        )  # fmt: skip
        if done is not None:
            assert sorted(done.codes) == sorted(there)  # type: ignore[attr-defined]
            for hold, code in zip(done.created, done.codes, strict=True):  # type: ignore[attr-defined]
                self.holds[int(hold)] = (code, "hold")
            self.last_hold += len(there)

    def stood_in(self, code: str, store: str, since: datetime) -> bool:
        stays = self.lots[code].stays
        ends = [*(at for at, _ in stays[1:]), LATER]
        return any(
            place.startswith(store) and until >= since
            for (_, place), until in zip(stays, ends, strict=False)
        )  # fmt: skip

    @rule(tenths=st.lists(st.integers(-510, 610), min_size=1, max_size=2))
    def take_a_round(self, tenths: list[int]) -> None:
        readings = list(zip(("C1", "F2"), tenths, strict=False))
        allowed = all(-500 <= one <= 600 for one in tenths)
        if self.attempt(allowed, acts.take_round, self.reg, by="P003", readings=readings):
            for store, one in readings:
                self.readings[store][int(self.clock.now.timestamp())] = one

    @rule(
        store=st.sampled_from(["C1", "F2", "C9"]), ahead=st.sampled_from([0, 0, 0, 400]),
        file=st.dictionaries(st.integers(1, 60), st.integers(-250, 150), min_size=1, max_size=12),
    )  # fmt: skip
    def bring_a_logger(self, store: str, ahead: int, file: dict[int, int]) -> None:
        now = int(self.clock.now.timestamp()) + ahead
        found = {now + ahead - 600 * (ago - 1): tenths for ago, tenths in file.items()}
        allowed = store in self.readings and max(found) <= int(self.clock.now.timestamp()) + 300
        if self.attempt(
            allowed, acts.import_readings, self.reg, by="P003", store=store, readings=sorted(found.items()),
            name="a.csv", mapping={},
        ):  # fmt: skip
            self.readings[store] |= found

    @rule(
        name=st.sampled_from(["own_limit_tenths_c", "probe_days", "tolerance_minutes", "colour"]),
        value=st.sampled_from(["", "40", "50", "7.5"]), by=st.sampled_from(["P001", "P002", "P003"]),
    )  # fmt: skip
    def set_a_figure(self, name: str, value: str, by: str) -> None:
        allowed = (
            name != "colour" and value != "7.5" and by != "P003" and self.policies.get(name, "") != value
        )
        if self.attempt(allowed, acts.set_policy, self.reg, by=by, name=name, value=value, reason="our plan"):
            self.policies[name] = value

    @rule(is_new=st.booleans(), ice=st.sampled_from([None, 2, -3]))
    def probe(self, is_new: bool, ice: int | None) -> None:
        if is_new or not self.probes:
            self.probes.append(self.attempt(True, acts.add_probe, self.reg, by="P001", name="blue").code)  # type: ignore[attr-defined]
        else:
            self.attempt(
                ice is not None,
                acts.check_probe,
                self.reg,
                by="P003",
                probe=self.probes[-1],
                ice_tenths_c=ice,
            )

    # ---------------------------------------------------------------------------------------- at the end

    def the_house_is_as_the_model_says(self) -> None:
        super().the_house_is_as_the_model_says()
        for store, known in self.readings.items():
            assert questions.temperatures(self.reg, store, LONG_AGO, LATER) == tuple(sorted(known.items()))
        for code, told in self.told.items():
            if self.lots[code].kind != "carcass":
                continue
            file = questions.animal_file(self.reg, code)
            assert {(one.stage, one.point): (one.answer, one.note) for one in file.looks} == told.looks
            assert [one.hash for one in file.pictures] == told.pictures
            assert len(file.calls) == told.calls
        with self.reg.store.reading() as connection:
            query = connection.exec_driver_sql
            assert {
                row.id: Asked(code_of(row.lot_id), row.grams, row.pence, row.status, row.settled_pence)
                for row in query("SELECT * FROM claim WHERE status <> 'struck'")
            } == self.claims
            assert query("SELECT COUNT(*) FROM collected").scalar_one() == len(self.collected)
            assert query("SELECT COUNT(*) FROM second_decision").scalar_one() == sum(
                bool(told.decided) for told in self.told.values()
            )
        assert {line.code for line in questions.bins(self.reg) if line.document_number} == self.collected
        own = questions.policies(self.reg)
        for name, value in self.policies.items():
            default = {"own_limit_tenths_c": None, "probe_days": None, "tolerance_minutes": 60}[name]
            assert getattr(own, name) == (int(value) if value else default)
        assert [one.code for one in questions.probes(self.reg)] == self.probes
        questions.episodes(self.reg, LONG_AGO, LATER)
        weeks = questions.bin_weeks(self.reg, LONG_AGO.date(), LATER.date())
        fallen = sum(line.grams for line in questions.bins(self.reg))
        assert sum(sum(week.grams_by_category.values()) for week in weeks) == fallen
        questions.hanging_plans(self.reg, list(self.lots))


TestAnyHistory = AnyHistory.TestCase
