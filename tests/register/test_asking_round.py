"""Questions about many lots in one act; joined, cut, saved, held together and lifted together."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.domain.lot_sets import How
from gametrace.register import acts, questions
from gametrace.register.acts import Step


def codes(house: House, *steps: Step) -> set[str]:
    return set(questions.gather(house.reg, steps).codes)


@pytest.fixture
def meat(house: House) -> dict[str, str]:
    """Two animals; a pack and trim of each; mince of both; a dish of the mince on Friday, one on Thursday."""
    first = house.dressed(place="C1.R1.01", kill_place="Long Wood", declaration_number="D-7")
    second = house.dressed(place="C1.R1.02", kill_place="Other Wood", killed_on=date(2026, 11, 9))
    made = {"first": first, "second": second}
    made["pack1"] = house.pack(first, place="C1.S1")
    made["pack2"] = house.pack(second, place="C1.S2")
    made["trim1"], made["trim2"] = house.trim(first), house.trim(second)
    made["mince"] = house.mix((made["trim1"], None), (made["trim2"], None))
    made["thursday"] = house.dish((made["pack1"], 200), on=date(2026, 11, 12))
    made["friday"] = house.dish((made["mince"], 300), name="Pie", on=date(2026, 11, 13))
    return made


def test_everything_these_animals_touched_and_everything_beside_them(
    house: House, meat: dict[str, str]
) -> None:
    touched = codes(house, Step("touched", (meat["first"],)))
    assert touched == {meat[name] for name in ("first", "pack1", "trim1", "mince", "thursday", "friday")}
    assert codes(house, Step("mixed", (meat["trim1"],))) == {meat["trim2"], meat["second"]}
    assert codes(house, Step("behind", (meat["mince"],))) == {
        meat[name] for name in ("mince", "trim1", "trim2", "first", "second")
    }


def test_by_supplier_place_day_declaration_and_hunter(house: House, meat: dict[str, str]) -> None:
    everything = {*meat.values()}
    assert codes(house, Step("supplier", (house.supplier,))) == everything
    assert codes(house, Step("supplier", ("perrin ashdown",))) == everything
    assert codes(house, Step("hunter", ("Perrin Ashdown",))) == everything
    from_first = codes(house, Step("touched", (meat["first"],)))
    assert codes(house, Step("place", ("long wood",))) == from_first
    assert codes(house, Step("declaration", ("d-7",))) == from_first
    assert codes(house, Step("killed", ("2026-11-10",))) == from_first
    assert codes(house, Step("received", ("2026-11-12",))) == everything
    with pytest.raises(Refusal, match="No supplier is called"):
        codes(house, Step("supplier", ("Nobody",)))
    with pytest.raises(Refusal, match="No declaration names"):
        codes(house, Step("hunter", ("Nobody",)))


def test_these_three_less_what_was_cooked_before_friday(house: House, meat: dict[str, str]) -> None:
    asked = (
        Step("touched", (meat["pack1"], meat["mince"], meat["pack2"])),
        Step("cooked", ("", "2026-11-12"), How.LESS),
    )
    found = questions.gather(house.reg, asked)
    assert set(found.codes) == {meat[name] for name in ("pack1", "pack2", "mince", "friday")}
    assert found.words == (
        f"all made of {meat['pack1']}, {meat['mince']}, {meat['pack2']}, "
        "less what was cooked up to 12 Nov 2026"
    )
    assert found.counts == (5, 1)
    here = questions.gather(house.reg, (*asked, Step("here", (), How.BOTH)))
    assert set(here.codes) == {meat[name] for name in ("pack1", "pack2", "mince")}


def test_everything_in_a_store_between_two_times_knows_what_was_moved_out(house: House) -> None:
    first = house.dressed(place="C1.R1.01")
    house.clock.go(hours=2)
    second = acts.add_store(house.reg, by=house.tutor, name="Second", sort="chill", shelves=["Top"]).code
    pack = house.pack(first, place="C1.S1")
    house.clock.go(hours=2)  # 13:00
    acts.move_lot(house.reg, by=house.technician, code=pack, to=f"{second}.S1")
    house.clock.go(hours=2)

    def stood(store: str, start: int, end: int) -> set[str]:
        span = [datetime(2026, 11, 12, hour, 30, tzinfo=UTC).isoformat() for hour in (start, end)]
        return codes(house, Step("store", (store, *span)))

    assert stood("C1", 8, 9) == {first}
    assert stood("C1", 11, 12) == {first, pack}
    assert stood("C1", 13, 14) == {first}
    assert stood(second, 13, 14) == {pack}
    assert stood(second, 9, 12) == set()
    with pytest.raises(Refusal, match="There is no store"):
        stood("X9", 9, 10)


def test_a_pack_that_was_used_up_is_not_in_the_store_afterwards(house: House) -> None:
    first = house.dressed(place="C1.R1.01")
    pack = house.pack(first, place="C1.S1")
    house.clock.go(hours=3)
    house.dish((pack, None))
    house.clock.go(hours=3)
    late = ("C1", "2026-11-12T14:00:00+00:00", "2026-11-12T15:00:00+00:00")
    early = ("C1", "2026-11-12T10:00:00+00:00", "2026-11-12T11:00:00+00:00")
    assert pack in codes(house, Step("store", early))
    assert pack not in codes(house, Step("store", late))


def test_a_set_is_saved_with_its_questions_and_asked_again(house: House, meat: dict[str, str]) -> None:
    asked = (Step("touched", (meat["first"],)), Step("lots", (meat["friday"],), How.LESS))
    code = acts.save_set(house.reg, by=house.student, name="first less pie", steps=asked).code
    saved = questions.saved_sets(house.reg)[0]
    assert (saved.code, saved.name, saved.steps, saved.lots) == (code, "first less pie", asked, 5)
    house.pack(meat["first"])  # made later: the question finds it, what was saved does not
    assert len(questions.gather(house.reg, saved.steps).codes) == 6
    assert len(codes(house, Step("saved", (code,)))) == 5
    with pytest.raises(Refusal, match="needs a name"):
        acts.save_set(house.reg, by=house.student, name=" ", steps=asked)
    with pytest.raises(Refusal, match="find nothing"):
        acts.save_set(house.reg, by=house.student, name="x", steps=(Step("place", ("Nowhere",)),))


def test_a_set_is_held_in_one_entry_a_hold_each_and_reaches_what_is_made_later(
    house: House, meat: dict[str, str]
) -> None:
    count = questions.seal(house.reg).count
    asked = (Step("lots", (meat["first"], meat["pack2"])),)
    done = acts.hold_set(house.reg, by=house.technician, steps=asked, reason="supplier rang")
    assert questions.seal(house.reg).count == count + 1
    assert done.codes == (meat["first"], meat["pack2"])
    assert len(set(done.created)) == 2
    assert {house.state(meat[name]) for name in ("first", "pack1", "mince", "friday", "pack2")} == {"on hold"}
    assert house.state(meat["trim2"]) != "on hold"
    again = acts.hold_set(house.reg, by=house.technician, steps=asked, reason="supplier rang", key="k1")
    repeat = acts.hold_set(house.reg, by=house.technician, steps=asked, reason="supplier rang", key="k1")
    assert repeat.was_repeat
    assert repeat.created == again.created
    assert questions.check(house.reg) == ()
    with pytest.raises(Refusal, match="another person"):
        acts.release_set(house.reg, by=house.technician, seq=done.seq, reason="fine")
    for one in (done, again):
        acts.release_set(house.reg, by=house.tutor, seq=one.seq, reason="the supplier was wrong")
    assert house.state(meat["pack2"]) == "ready"
    with pytest.raises(Refusal, match="lifted already"):
        acts.release_set(house.reg, by=house.tutor, seq=done.seq, reason="fine")
    assert questions.check(house.reg) == ()


def test_what_has_left_for_good_is_not_held(house: House, meat: dict[str, str]) -> None:
    gone = house.bin(meat["pack2"])
    with pytest.raises(Refusal, match="Nothing of this is here"):
        acts.hold_set(house.reg, by=house.tutor, steps=(Step("lots", (gone,)),), reason="x")


def test_everything_a_cutter_or_a_table_touched_in_a_session(house: House) -> None:
    beast = house.dressed(grams=30_000)
    other = house.dressed(grams=20_000)
    cutter = acts.add_to_roster(house.reg, by=house.tutor, group="L3 B", names=["Ann Rowan"]).created[0]
    session = acts.open_session(house.reg, by=house.tutor, group="L3 B").code
    for station, code in (("table 1", beast), ("table 2", other)):
        acts.lay_on_table(house.reg, by=house.tutor, session=session, station=station, code=code)
    haunch = house.out(beast, acts.Out("haunch", 4_000, side="left"), cutter=cutter)[0]
    neck = house.out(other, acts.Out("neck", 1_000))[0]
    assert codes(house, Step("cutter", (cutter,))) == {beast, haunch}
    assert codes(house, Step("session", (session.lower(),))) == {beast, other, haunch, neck}
    assert codes(house, Step("station", ("table 2",))) == {other, neck}
    both = (Step("session", (session,)), Step("cutter", (cutter,), How.BOTH))
    assert codes(house, *both) == {beast, haunch}
    assert {hit.code for hit in questions.find(house.reg, cutter)} >= {f"cutter {cutter}"}
    assert questions.trace(house.reg, f"cutter {cutter}").animals[0].code == beast
