"""What the door rules on origin, licence and night, and what a correction does to a stop."""

from datetime import UTC, date, datetime
from typing import Any

import pytest
from larder_house import DRESSED, House

from gametrace.domain.deliveries import Basis, Decision
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Severity
from gametrace.register import acts, questions

LICENCE = {"exception_type": "ew-season-licence", "exception_number": "L 12"}
AT_NETHERBY = {"latitude_millionths": 55_050_000, "longitude_millionths": -2_950_000}


def codes(house: House, code: str, *severities: Severity) -> list[str]:
    wanted = severities or tuple(Severity)
    return [f.code for f in questions.carcass(house.reg, code).findings if f.severity in wanted]


def amend(house: House, code: str, **changes: Any) -> None:
    acts.amend_carcass(house.reg, by=house.student, code=code, changes=changes, reason="seen later")


@pytest.mark.parametrize("given", [{"route": "gift-unknown"}, {"origin": "unknown"}])
@pytest.mark.parametrize("decision", [Decision.ACCEPT, Decision.TRIM, Decision.HOLD])
def test_a_gift_or_unknown_beast_is_a_specimen_or_refused(
    house: House, given: dict[str, Any], decision: Decision
) -> None:
    with pytest.raises(Refusal, match="never goes to a plate") as refused:
        house.held(decision, **given)
    assert refused.value.field == "decision"
    for allowed, state in ((Decision.SPECIMEN, "specimen"), (Decision.REJECT, "rejected")):
        assert house.state(house.held(allowed, **given)) == state


@pytest.mark.parametrize("given", [{"route": "gift-unknown"}, {"origin": "unknown"}])
def test_an_origin_found_out_later_makes_it_and_its_packs_a_specimen_for_ever(
    house: House, given: dict[str, Any]
) -> None:
    deer = house.dressed()
    pack = house.pack(deer)
    amend(house, deer, **given)
    assert house.state(deer) == house.state(pack) == "specimen"
    for hold in questions.carcass(house.reg, deer).holds:
        for by in (house.tutor, house.technician):
            with pytest.raises(Refusal, match="for ever"):
                acts.release_hold(house.reg, by=by, hold=hold.id, reason="looks fine")
    acts.correct_weight(house.reg, by=house.tutor, code=deer, grams=40_100, reason="misread")
    assert len(questions.carcass(house.reg, deer).holds) == 1
    assert questions.check(house.reg) == ()


def out_of_season(house: House, **given: Any) -> str:
    """A fallow doe killed on 10 October: the close season of Schedule 1 to the Deer Act 1991."""
    house.clock.now = datetime(2026, 10, 12, 9, 0, tzinfo=UTC)
    return house.receive(killed_on=date(2026, 10, 10), **given)


def test_a_licence_given_at_the_door_turns_the_stop_into_a_note(house: House) -> None:
    assert house.state(out_of_season(house, **LICENCE)) == "hanging"


def test_a_licence_given_later_turns_the_stop_into_a_note_and_a_person_lifts_the_hold(house: House) -> None:
    deer = out_of_season(house)
    assert "season-closed" in codes(house, deer, Severity.STOP)
    amend(house, deer, **LICENCE)
    assert codes(house, deer, Severity.STOP) == []
    assert "exception-given" in codes(house, deer, Severity.NOTE)
    (hold,) = questions.carcass(house.reg, deer).holds
    assert house.state(deer) == "on hold"
    acts.release_hold(house.reg, by=house.tutor, hold=hold.id, reason="licence L 12 seen")
    amend(house, deer, kill_place="Short Wood")
    assert house.state(deer) == "hanging", "nothing new is held against it"


@pytest.mark.parametrize(
    "given",
    [
        {"exception_type": "ew-night-licence", "exception_number": "L 12"},
        {"exception_type": "ew-season-licence", "exception_number": " "},
        {"exception_number": "L 12"},
    ],
)
def test_a_licence_that_does_not_answer_leaves_the_stop(house: House, given: dict[str, Any]) -> None:
    deer = out_of_season(house, **given)
    assert house.state(deer) == "on hold"
    assert "season-closed" in codes(house, deer, Severity.STOP)


def test_an_unknown_kind_of_licence_is_refused(house: House) -> None:
    with pytest.raises(Refusal) as refused:
        house.receive(exception_type="royal-favour")
    assert refused.value.field == "exception_type"


def test_a_kill_at_night_is_held_where_time_and_place_are_known(house: House) -> None:
    """Deer Act 1991, section 3: no taking from one hour after sunset to one hour before sunrise.

    On 10 November the sun sets at this place soon after four; three in the morning is night anywhere.
    """
    by_day = house.receive(kill_time="12:00", **AT_NETHERBY)
    by_night = house.receive(kill_time="03:00", **AT_NETHERBY)
    licensed = house.receive(
        kill_time="03:00", exception_type="ew-night-licence", exception_number="N 3", **AT_NETHERBY
    )
    without_place = house.receive(kill_time="03:00")
    assert "night-kill" not in codes(house, by_day)
    assert "night-kill" in codes(house, by_night)
    assert "exception-given" in codes(house, licensed)
    assert "night-kill" not in codes(house, licensed)
    assert house.state(without_place) == "hanging", "without a place it is a note and no more"
    assert not [c for c in codes(house, without_place, Severity.STOP) if c.startswith("night")]


@pytest.mark.parametrize(
    ("name", "value"), [("latitude_millionths", 90_000_001), ("longitude_millionths", -180_000_001)]
)
def test_a_place_off_the_map_is_refused(house: House, name: str, value: int) -> None:
    with pytest.raises(Refusal) as refused:
        house.receive(**{name: value})
    assert refused.value.field == name


def test_the_kitchen_s_own_origins_ask_and_never_stop(house: House) -> None:
    acts.set_policy(house.reg, by=house.tutor, name="accepted_origins", value="park", reason="our menu")
    deer = house.receive()
    assert "origin-not-bought-here" in codes(house, deer, Severity.ASK)
    assert house.state(deer) == "hanging"


# ------------------------------------------------------------------------- count, basis, day of dispatch


def test_count_basis_and_day_of_dispatch_can_be_put_right(house: House) -> None:
    birds = house.receive(species="pheasant", sex="unknown", age_class="", count=12, grams=14_000)
    amend(house, birds, count=11)
    assert questions.carcass(house.reg, birds).title == "pheasant × 11"
    deer = house.receive()
    amend(house, deer, basis=Basis(in_skin=True, head_on=True), dispatched_on=date(2026, 11, 11))
    animal = questions.carcass(house.reg, deer)
    assert animal.basis_words == animal.basis_now == "in the skin, head on, feet off, pluck out"
    assert animal.dispatched_on == date(2026, 11, 11)
    sheet = questions.visit_sheet(house.reg, first=date(2026, 11, 1), last=date(2026, 11, 30))
    changed = {one.field: one for one in sheet.amendments}
    basis = changed["basis"]
    assert basis.old == "in the skin, head off, feet off, pluck out"


def test_a_basis_put_right_after_dressing_leaves_what_hangs_there_now(house: House) -> None:
    deer = house.receive()
    house.dress(deer)
    now = questions.carcass(house.reg, deer).basis_now
    amend(house, deer, basis=Basis(in_skin=True, head_on=True))
    animal = questions.carcass(house.reg, deer)
    assert animal.basis_words.startswith("in the skin, head on")
    assert animal.basis_now == now


@pytest.mark.parametrize(
    "changes", [{"count": 0}, {"count": 1_001}, {"count": 2}, {"dispatched_on": date(2026, 11, 13)}]
)
def test_a_count_or_day_that_cannot_be_is_refused(house: House, changes: dict[str, Any]) -> None:
    deer = house.receive()
    with pytest.raises(Refusal):
        amend(house, deer, **changes)


def test_a_hare_that_turns_out_to_be_a_roe_is_no_batch_and_is_not_cut_in_the_skin(house: House) -> None:
    beast = house.receive(species="brown-hare", sex="unknown", age_class="", grams=3_600)
    assert questions.lot(house.reg, beast).kind == "batch"
    amend(house, beast, species="roe")
    assert questions.lot(house.reg, beast).kind == "carcass"
    with pytest.raises(Refusal):
        house.pack(beast, 100)
    assert questions.check(house.reg) == ()


# ------------------------------------------------------------------------------------ skin or feathers


@pytest.mark.parametrize(
    ("species", "product"), [("pheasant", "feathers"), ("pheasant", "skin"), ("brown-hare", "skin")]
)
def test_small_game_is_dressed_with_its_feathers_or_its_skin_weighed(
    house: House, species: str, product: str
) -> None:
    birds = house.receive(species=species, sex="unknown", age_class="", grams=3_600)
    acts.dress_carcass(
        house.reg, by=house.student, code=birds, outputs=[acts.Out(product, 300)],
        tag=acts.TagHandOver("printed"),
    )  # fmt: skip
    assert not questions.carcass(house.reg, birds).in_skin


def test_a_deer_has_no_feathers(house: House) -> None:
    with pytest.raises(Refusal, match="skin has not been weighed"):
        acts.dress_carcass(
            house.reg, by=house.student, code=house.receive(), outputs=[acts.Out("feathers", 300)],
            tag=acts.TagHandOver("printed"),
        )  # fmt: skip


def test_a_side_on_a_hook_shows_on_the_rail(house: House) -> None:
    deer = house.receive(basis=DRESSED, place="C1.R1.01")
    (side,) = house.out(deer, acts.Out("haunch", 9_000, side="left", place="C1.R1.02"))
    hooks = {h.place: h for s in questions.larder_view(house.reg) for r in s.rails for h in r.hooks}
    assert hooks["C1.R1.01"].carcass is not None
    assert hooks["C1.R1.01"].lot is None
    assert hooks["C1.R1.02"].carcass is None
    assert hooks["C1.R1.02"].lot == questions.lot(house.reg, side)
    assert (hooks["C1.R1.03"].carcass, hooks["C1.R1.03"].lot) == (None, None)
