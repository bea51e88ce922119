"""A larder in use, and a slip of each kind of entry that can be struck: its name, dots as underscores."""

from __future__ import annotations

from datetime import date, timedelta

from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.ingredients import Ingredient
from gametrace.register import acts, questions
from gametrace.register.asking_round import Step

FRIDAY = date(2026, 11, 13)


def last(house: House) -> int:
    return questions.seal(house.reg).count


def strike(house: House, seq: int, by: str = "") -> None:
    acts.strike_entry(house.reg, by=by or house.tutor, seq=seq, reason="a slip")


class Slips:
    """A house in use, and one slip of each kind that can be struck: name of the kind, dots as underscores."""

    def __init__(self, house: House) -> None:
        reg, self.house = house.reg, house
        acts.amend_supplier(
            reg, by=house.tutor, supplier="S001", damage_rule="bought price", claim_days=30, reason="agreed"
        )
        acts.add_store(reg, by=house.tutor, name="Freezer", sort="freezer", shelves=["Top"])
        self.freezer = next(one for one in questions.places(reg) if one.kind == "shelf" and one.store == "F2")
        self.beast = house.receive(grams=30_000, place="C1.R1.01")
        house.look(self.beast, ("smell", "as it should be"), marks=[acts.Mark(100, 100, "entry")])
        self.boar = house.boar()
        self.carcass = house.dressed(grams=30_000)
        self.claim = int(self.a_claim().code)
        self.expected = acts.expect_delivery(
            reg, by=house.student, supplier="S001", on=FRIDAY, bodies=1, species="fallow"
        ).code
        self.pack, self.trim = house.pack(self.carcass, 900, pack_state="vacuum"), house.trim(self.carcass)
        self.other = house.pack(self.carcass, 700, pack_state="vacuum")
        self.frozen = house.pack(self.carcass, 800, pack_state="vacuum")
        acts.freeze_lot(reg, by=house.student, code=self.frozen, place=self.freezer.code)
        self.bone = house.out(self.carcass, acts.Out("bone", 1_000))[0]
        self.dish = house.dish((self.other, 600))
        acts.record_cooking(reg, by=house.student, code=self.dish, tenths_c=800, seconds=60)
        self.session = acts.open_session(reg, by=house.tutor, stations=["left", "right"]).code
        acts.lay_on_table(
            reg, by=house.tutor, session=self.session, station="left", code=self.trim, reason="no room"
        )
        self.probe = acts.add_probe(reg, by=house.tutor, name="blue").code
        acts.check_probe(reg, by=house.student, probe=self.probe, ice_tenths_c=1)
        acts.take_round(reg, by=house.student, readings=[("C1", 20), ("F2", -190)])
        self.customer = acts.add_customer(reg, by=house.tutor, name="The Anchor", address="Quay").code

    def a_claim(self) -> object:
        return acts.raise_claim(
            self.house.reg, by=self.house.technician, code=self.carcass, grams=500, reason="shot"
        )

    def now(self) -> int:
        return int(self.house.clock.now.timestamp())

    def do(self, kind: str) -> None:
        getattr(self, kind.replace(".", "_").replace("-", "_"))()

    def delivery_received(self) -> None:
        self.house.receive()

    def carcass_dressed(self) -> None:
        self.house.dress(self.beast, grams_after=26_500)

    def lot_divided(self) -> None:
        self.house.pack(self.carcass)

    def lots_joined(self) -> None:
        self.house.dish((self.trim, 200))

    def lots_issued(self) -> None:
        acts.issue_lot(
            self.house.reg,
            by=self.house.tutor,
            inputs=[(self.trim, 100)],
            charged_to="K2",
            on=FRIDAY - timedelta(days=1),
        )

    def lots_supplied(self) -> None:
        acts.supply_lot(
            self.house.reg, by=self.house.tutor, customer=self.customer, inputs=[(self.pack, None)],
            dispatched_on=FRIDAY - timedelta(days=1),
        )  # fmt: skip

    def lot_weighed(self) -> None:
        acts.reweigh(self.house.reg, by=self.house.student, code=self.beast, grams=29_500)

    def lot_closed(self) -> None:
        acts.close_lot(self.house.reg, by=self.house.student, code=self.carcass, reason="boned out")

    def lot_moved(self) -> None:
        acts.move_lot(self.house.reg, by=self.house.student, code=self.beast, to="C1.R1.02")

    def lot_frozen(self) -> None:
        acts.freeze_lot(self.house.reg, by=self.house.student, code=self.pack, place=self.freezer.code)

    def lot_thawed(self) -> None:
        acts.thaw_lot(self.house.reg, by=self.house.student, code=self.frozen, method="fridge", place="C1.S1")

    def lot_repacked(self) -> None:
        acts.repack(self.house.reg, by=self.house.student, code=self.pack, pack_state="modified-atmosphere")

    def date_overridden(self) -> None:
        soon = FRIDAY + timedelta(days=1)
        acts.override_date(self.house.reg, by=self.house.tutor, code=self.pack, to=soon, reason="smells")

    def session_laid(self) -> None:
        acts.lay_on_table(
            self.house.reg, by=self.house.tutor, session=self.session, station="right", code=self.trim,
            reason="room",
        )  # fmt: skip

    def labels_printed(self) -> None:
        acts.note_labels_printed(self.house.reg, by=self.house.student, codes=[self.pack], sort="pack")

    def hold_placed(self) -> None:
        self.house.hold(self.carcass)

    def set_held(self) -> None:
        steps = [Step("touched", (self.carcass,))]
        acts.hold_set(self.house.reg, by=self.house.technician, steps=steps, reason="asked")

    def store_failed(self) -> None:
        acts.store_failed(self.house.reg, by=self.house.technician, store="C1", reason="tripped")

    def carcass_examined(self) -> None:
        self.house.look(
            self.beast, ("smell", "not so", "sour"), ("prescapular", "not so", "pus"),
            marks=[acts.Mark(9, 9, "exit")], by=self.house.student,
        )  # fmt: skip

    def carcass_decided(self) -> None:
        acts.decide_again(
            self.house.reg, by=self.house.technician, code=self.carcass, decision=Decision.REJECT, reason="x"
        )

    def laboratory_answered(self) -> None:
        self.house.answer_lab(self.boar, "negative")

    def call_recorded(self) -> None:
        acts.record_call(
            self.house.reg, by=self.house.student, code=self.beast, about="kill_time", answer="seven",
            spoken_by="the stalker",
        )  # fmt: skip

    def picture_attached(self) -> None:
        picture = b"\xff\xd8\xff one"
        acts.attach_picture(
            self.house.reg, by=self.house.student, code=self.beast, what="tag", content=picture
        )

    def claim_raised(self) -> None:
        self.a_claim()

    def claim_settled(self) -> None:
        acts.settle_claim(self.house.reg, by=self.house.tutor, claim=self.claim, status="credited", pence=90)

    def expected_arrived(self) -> None:
        acts.tick_expected(self.house.reg, by=self.house.student, expected=self.expected, code=self.beast)

    def bag_decided(self) -> None:
        acts.decide_bag(self.house.reg, by=self.house.tutor, code=self.pack, reason="same weight", grams=900)

    def kitchen_recorded(self) -> None:
        acts.record_cooling(self.house.reg, by=self.house.student, code=self.dish, tenths_c=40, minutes=60)

    def dish_ingredients(self) -> None:
        milk = Ingredient("milk", allergens=frozenset({"milk"}))
        acts.note_ingredients(self.house.reg, by=self.house.student, code=self.dish, ingredients=[milk])

    def dish_served(self) -> None:
        acts.serve_dish(self.house.reg, by=self.house.student, code=self.dish, portions=4)

    def dish_left_over(self) -> None:
        acts.bin_left_over(
            self.house.reg, by=self.house.student, code=self.dish, portions=3, reason="stood too long"
        )

    def probe_checked(self) -> None:
        acts.check_probe(self.house.reg, by=self.house.student, probe=self.probe, boiling_tenths_c=1_001)

    def round_taken(self) -> None:  # at the very instant of the round before
        acts.take_round(self.house.reg, by=self.house.student, readings=[("C1", 99)])

    def readings_imported(self) -> None:
        readings = [(self.now() - 600, 30), (self.now(), 88)]
        acts.import_readings(
            self.house.reg, by=self.house.student, store="C1", readings=readings, name="a.csv", mapping={}
        )

    def excursion_answered(self) -> None:
        acts.answer_episode(
            self.house.reg, by=self.house.tutor, store="C1", first_at=self.house.clock.now,
            last_at=self.house.clock.now, sort="warm", action="door shut",
        )  # fmt: skip

    def by_products_collected(self) -> None:
        acts.collect_by_products(
            self.house.reg, by=self.house.student, codes=[self.bone], on=self.house.reg.today(),
            collector="Grice", document_number="CD 4", destination="the yard",
        )  # fmt: skip
