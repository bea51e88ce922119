"""Every kind of entry is undone, replaced by its own kind, or says why it stays; none is forgotten."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from history_model import standing
from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.domain.ingredients import Ingredient
from gametrace.register import acts, questions
from gametrace.register.asking_round import Step
from gametrace.register.undoing import STAYS, UNDO
from gametrace.store.projection import KINDS

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


def test_no_kind_is_forgotten_and_none_is_both_struck_and_kept() -> None:
    assert set(UNDO) | set(STAYS) == KINDS
    assert not set(UNDO) & set(STAYS)


@pytest.mark.parametrize("kind", sorted(UNDO))
def test_a_slip_of_any_kind_is_struck_and_everything_stands_as_it_stood(house: House, kind: str) -> None:
    slips = Slips(house)
    before, codes = standing(house.reg), last(house)
    slips.do(kind)
    assert last(house) == codes + 1
    assert questions.strikable_of(house.reg, [kind])[0].seq == last(house)
    assert standing(house.reg) != before
    strike(house, last(house))
    assert standing(house.reg) == before
    assert questions.check(house.reg) == ()
    acts.rebuild(house.reg)
    assert standing(house.reg) == before
    sentences = [str(group) for group in questions.day_page(house.reg).groups]
    assert f"[entry {codes + 1}, struck]" in "".join(sentences)  # both are told, the slip and the striking


@pytest.mark.parametrize("kind", sorted(STAYS))
def test_what_stays_says_what_is_done_in_place_of_striking(kind: str) -> None:
    assert STAYS[kind].endswith(".")


def test_of_two_servings_the_wrong_one_is_struck_and_its_portions_are_here_again(house: House) -> None:
    slips = Slips(house)
    slips.dish_served()
    wrong = last(house)
    acts.serve_dish(house.reg, by=house.student, code=slips.dish, portions=8)
    strike(house, wrong)
    file = questions.dish_file(house.reg, slips.dish)
    assert [one.portions for one in file.servings] == [8]
    assert file.here == 4


def test_a_freezing_is_not_struck_once_it_was_thawed_or_used(house: House) -> None:
    slips = Slips(house)
    slips.lot_frozen()
    frozen = last(house)
    acts.thaw_lot(house.reg, by=house.student, code=slips.pack, method="fridge", place="C1.S1")
    with pytest.raises(Refusal, match=r"rests on it: .* thawed"):
        strike(house, frozen)
    strike(house, last(house))
    strike(house, frozen)
    assert questions.lot(house.reg, slips.pack).pack_state == "vacuum"


def test_striking_is_no_way_round_a_tutors_own_date(house: House) -> None:
    Slips(house).date_overridden()
    with pytest.raises(Refusal, match="technician may not write this"):
        strike(house, last(house), by=house.technician)


def test_an_earlier_look_stands_again_and_a_later_one_is_struck_first(house: House) -> None:
    slips = Slips(house)
    slips.carcass_examined()
    first = last(house)
    house.look(slips.beast, ("flies", "not so"))
    with pytest.raises(Refusal, match="rests on it"):
        strike(house, first)
    strike(house, last(house))
    strike(house, first)
    assert [(one.point, one.answer) for one in questions.animal_file(house.reg, slips.beast).looks] == [
        ("smell", "as it should be")
    ]
    assert questions.lot(house.reg, slips.beast).state == "hanging"


def test_a_look_that_stopped_the_animal_is_struck_by_another_person(house: House) -> None:
    slips = Slips(house)
    house.look(slips.beast, ("prescapular", "not so", "pus"), by=house.technician)
    with pytest.raises(Refusal, match="another person strikes it"):
        strike(house, last(house), by=house.technician)
    strike(house, last(house))


def test_a_record_that_keeps_a_dish_back_is_struck_by_another_person(house: House) -> None:
    slips = Slips(house)
    acts.record_hot_hold(house.reg, by=house.technician, code=slips.dish, tenths_c=400, minutes_below=300)
    with pytest.raises(Refusal, match="another person strikes it"):
        strike(house, last(house), by=house.technician)
    strike(house, last(house))
    acts.serve_dish(house.reg, by=house.student, code=slips.dish, portions=1)


def test_a_cooling_record_stays_while_a_left_over_rests_on_it(house: House) -> None:
    slips = Slips(house)
    slips.kitchen_recorded()
    cooled = last(house)
    acts.keep_left_over(house.reg, by=house.student, code=slips.dish, portions=2)
    with pytest.raises(Refusal, match=r"2 portions of .* left over"):
        strike(house, cooled)


def test_a_result_of_the_wrong_boar_is_struck_and_it_waits_again_with_all_made_of_it(house: House) -> None:
    slips = Slips(house)
    house.answer_lab(slips.boar, "negative")
    answered = last(house)
    house.dress(slips.boar)
    trim = house.trim(slips.boar)
    strike(house, answered)
    assert house.state(slips.boar) == house.state(trim) == "on hold"
    house.answer_lab(slips.boar, "negative")
    assert house.state(trim) != "on hold"


def test_a_positive_result_typed_for_another_boar_is_unlocked_by_a_second_person_only(house: House) -> None:
    slips = Slips(house)
    house.answer_lab(slips.boar, "positive", by=house.technician)
    with pytest.raises(Refusal, match="another person strikes it"):
        strike(house, last(house), by=house.technician)
    strike(house, last(house))
    assert house.state(slips.boar) == "on hold"


def test_the_number_of_a_struck_claim_is_never_given_out_again(house: House) -> None:
    slips = Slips(house)
    slips.claim_raised()
    struck = last(house)
    strike(house, struck)
    assert [one.id for one in questions.open_claims(house.reg)] == [slips.claim]
    with pytest.raises(Refusal, match="no claim number 2"):
        acts.settle_claim(house.reg, by=house.tutor, claim=2, status="refused")
    assert int(slips.a_claim().code) == 3  # type: ignore[attr-defined]


def test_a_delivery_typed_twice_is_struck_with_everything_that_was_said_of_it(house: House) -> None:
    slips = Slips(house)
    before = standing(house.reg)
    twice = house.receive(kill_time="")
    received = last(house)
    changes = {"kill_time": "07:10", "species": "red", "age_class": ""}
    acts.amend_carcass(house.reg, by=house.student, code=twice, changes=changes, reason="misread")
    acts.correct_weight(house.reg, by=house.technician, code=twice, grams=41_000, reason="misread")
    said = last(house)
    acts.attach_picture(house.reg, by=house.student, code=twice, what="tag", content=b"\xff\xd8\xff one")
    acts.tick_expected(house.reg, by=house.student, expected=slips.expected, code=twice)
    with pytest.raises(Refusal, match=r"picture of the tag .*came as expected"):
        strike(house, received)
    for seq in range(last(house), said, -1):
        strike(house, seq)
    strike(house, received)
    assert standing(house.reg) == before


def test_a_dish_that_was_put_right_gives_back_what_is_in_it_now(house: House) -> None:
    slips = Slips(house)
    before = standing(house.reg)
    dish = house.dish((slips.trim, 300))
    made = last(house)
    acts.change_dish(
        house.reg, by=house.student, code=dish, not_used=[(slips.trim, 100)], added=[(slips.pack, 50)],
        reason="less went in",
    )  # fmt: skip
    strike(house, made)
    assert standing(house.reg) == before


def test_a_collection_struck_waits_for_the_collector_again_and_a_struck_tray_does_not(house: House) -> None:
    slips = Slips(house)
    slips.by_products_collected()
    strike(house, last(house))
    assert [one.document_number for one in questions.bins(house.reg) if one.code == slips.bone] == [""]
    house.out(slips.carcass, acts.Out("bone", 500))
    strike(house, last(house))
    with house.reg.store.reading() as connection:
        waiting = connection.exec_driver_sql("SELECT COUNT(*) FROM bin_waiting").scalar_one()
    assert waiting == 1


@pytest.mark.parametrize("part", [5_000, None])
def test_a_weight_put_right_goes_with_the_tray_that_never_was(house: House, part: int | None) -> None:
    """Also where the lot above was used up by it, so that the grams came from what nobody weighed."""
    slips = Slips(house)
    before = standing(house.reg)
    tray = house.trim(slips.carcass, part or house.left(slips.carcass))
    cut = last(house)
    acts.correct_weight(house.reg, by=house.tutor, code=tray, grams=4_800, reason="misread")
    strike(house, cut)
    assert standing(house.reg) == before
    mix = house.mix((slips.trim, None))
    mixed = last(house)
    acts.correct_weight(house.reg, by=house.tutor, code=mix, grams=480, reason="misread")
    strike(house, mixed)
    assert standing(house.reg) == before
