"""A house in which every table is filled and every kind of entry written, for tests that need all of it."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.examination import Answered
from gametrace.facts.recall import recall_steps
from gametrace.register import acts, questions
from gametrace.register.acts import Mark


def live(house: House, backups: Path) -> None:
    """Every table gets a row; a backup lies in a folder `backups`."""
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
    acts.keep_backup(house.reg, by="", folder=backups)
    came = acts.expect_delivery(
        house.reg, by=house.tutor, supplier=house.supplier, on=house.reg.today(), bodies=2
    ).code
    acts.tick_expected(house.reg, by=house.tutor, expected=came, code=deer)
    _cut_at_a_table(house)
    _trace_at_length(house, pack)


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
        pence=150,
    )


def _trace_at_length(house: House, pack: str) -> None:
    by = house.tutor
    acts.save_set(house.reg, by=by, name="a pack", steps=[acts.Step("lots", (pack,))])
    acts.decide_bag(house.reg, by=by, code=pack, reason="it weighs the same", grams=400)
    recall = acts.open_recall(house.reg, by=by, codes=[pack], what="a pack", reason="the supplier rang").code
    acts.note_call(house.reg, by=by, recall=recall, whom="the supplier", answer="looks into it")
    acts.answer_step(house.reg, by=by, recall=recall, step="stop", answer="done")
    acts.begin_drill(house.reg, by=by, code=pack)


def live_on(house: House) -> None:
    """After `live`: every kind of entry that is not yet there."""
    _change_the_meat(house)
    _settle_what_is_open(house)
    _stop_and_lift(house)
    _strike(house)
    _let_go(house)


def _change_the_meat(house: House) -> None:
    reg, by = house.reg, house.tutor
    freezer = acts.add_store(reg, by=by, name="Deep", sort="freezer", rails=[("Rail", 2)], shelves=["A"]).code
    animal = house.dressed(tag="NB 0417", place="C1.R1.01")
    acts.reweigh(reg, by=by, code=animal, grams=39_000)
    pack, other = house.pack(animal, 2_000), house.pack(animal, 900, "loin")
    acts.correct_weight(reg, by=by, code=pack, grams=1_900, reason="tare left on")
    acts.close_lot(reg, by=by, code=animal, reason="put back on the rail")
    acts.move_lot(reg, by=by, code=pack, to="C1.S1")
    acts.repack(reg, by=by, code=other, pack_state="vacuum")
    acts.override_date(reg, by=by, code=other, to=reg.today() + timedelta(days=2), reason="looked at")
    dish = house.dish((other, 200), name="Loin")
    acts.change_dish(reg, by=by, code=dish, added=[(other, 50)], reason="two more came")
    acts.freeze_lot(reg, by=by, code=pack, place=f"{freezer}.S1")
    house.clock.go(days=1)
    acts.thaw_lot(
        reg, by=by, code=pack, method="fridge", place="C1.S1", happened_at=house.clock() - timedelta(hours=1)
    )


def _settle_what_is_open(house: House) -> None:
    reg, by = house.reg, house.tutor
    acts.settle_claim(reg, by=by, claim=1, status="agreed", pence=200, note="agreed")
    drill = questions.drill_book(reg)[0].code
    acts.end_drill(reg, by=by, drill=drill, found=[])
    (session,) = questions.open_sessions(reg)
    acts.close_session(reg, by=by, session=session.code, reason="the bell rang")
    acts.forget_student(reg, by=by, student=questions.roster(reg)[0].code, reason="left")
    acts.add_to_roster(reg, by=by, group="L3")
    next_one = acts.open_session(reg, by=by, stations=["table 1"]).code
    acts.lay_on_table(reg, by=by, session=next_one, station="table 1", code=house.dressed())
    came = acts.expect_delivery(reg, by=by, supplier=house.supplier, on=reg.today(), bodies=1).code
    acts.cancel_expected(reg, by=by, expected=came, reason="too warm")
    (recall,) = questions.recalls(reg)
    for step in recall_steps():
        acts.answer_step(reg, by=by, recall=recall.code, step=step.id, answer="done")
    acts.close_recall(reg, by=by, recall=recall.code, outcome="all binned")


def _stop_and_lift(house: House) -> None:
    reg, by = house.reg, house.tutor
    twice = [house.receive(tag="NB 0500") for _ in range(2)]
    acts.answer_finding(reg, by=by, code=twice[1], reasons={"tag-met-before": "two books"})
    held = acts.hold_set(reg, by=house.technician, steps=[acts.Step("lots", tuple(twice))], reason="rung")
    acts.release_set(reg, by=by, seq=held.seq, reason="it was another")
    acts.hold_set(reg, by=by, steps=[acts.Step("lots", (house.receive(),))], reason="rung again")
    acts.release_hold(reg, by=by, hold=house.hold(twice[0]), reason="looked at")
    house.held(Decision.REJECT, place="C1.R1.02")
    house.look(house.receive(), ("sign-tb", "not so", "lumps"))
    house.boar()
    house.answer_lab(house.boar(), "positive")
    acts.store_failed(reg, by=by, store="C1", reason="compressor stopped")


def _strike(house: House) -> None:
    again = house.receive(tag="typed twice")
    (seq,) = (one.seq for one in questions.strikable(house.reg, again)[:1])
    acts.strike_entry(house.reg, by=house.tutor, seq=seq, reason="typed twice")


def _let_go(house: House) -> None:
    reg, by = house.reg, house.tutor
    acts.set_pin(reg, by=house.technician, pin="2580")
    acts.clear_pin(reg, by=by, person=house.technician)
    acts.set_pin(reg, by=house.technician, pin="2580")
    acts.lift_pin(reg, initials=house.technician)
    acts.forget_person(reg, by=by, person=house.student, reason="left")
    stranger = acts.add_supplier(
        reg, by=by, name="Zebedee Quill", address="Nowhere", route="wild-direct", trained_hunter=""
    ).code
    acts.forget_card(reg, by=by, code=stranger, reason="asked to")
