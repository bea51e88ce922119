"""What is done with ten carcasses in a large house, and once a year with eighty-four, by public acts.

Each story is a list of parts, a part being what is done in one go: taken in; dressed, cut and minced a week
later; cooked the day after that; the bins collected. Everything in it is invented.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta

from gametrace.domain.deliveries import Answer, Basis, Delivery
from gametrace.register import acts
from gametrace.register.acts import Out, TagHandOver
from gametrace.register.opening import Register

TUTOR, HAND = "P001", "P002"
SUPPLIERS = 12
HOOKS = 200  # on each of two rails
FEAST_CARCASSES = 84
PARTS = ("taken in", "cut", "cooked", "collected")
DAYS_AFTER = (0, 6, 7, 9)  # of each part, from the day it was taken in
_BETWEEN = timedelta(seconds=15)
_DISHES = (
    "Venison pie", "Haunch with juniper", "Braised shank", "Saddle, quick-roast", "Game ragout",
    "Cottage pie", "Keema", "Meatballs", "Stew with barley", "Burger", "Chilli", "Casserole with prunes",
    "Ragu on pappardelle", "Faggots", "Stroganoff",
)  # fmt: skip
_OCCASIONS = ("Lunch", "Supper", "Friday dinner", "Open day", "Training restaurant")


class Clock:
    """Stands still until it is moved on."""

    def __init__(self, at: datetime) -> None:
        self.at = at

    def __call__(self) -> datetime:
        return self.at


@dataclass
class Codes:
    """What the parts of one story hand on to the next."""

    carcasses: list[str] = field(default_factory=list)
    haunches: list[str] = field(default_factory=list)
    saddles: list[str] = field(default_factory=list)
    packs: list[str] = field(default_factory=list)
    bins: list[str] = field(default_factory=list)


@dataclass
class Teller:
    """Does the acts of one story on a register, some seconds apart."""

    register: Register
    clock: Clock
    day: date
    species: str
    grams: int
    codes: Codes = field(default_factory=Codes)

    def do(self, act: Callable, *, by: str = HAND, **words):
        self.clock.at += _BETWEEN
        return act(self.register, by=by, **words)


def set_up(register: Register) -> None:
    """The larder, its people, a chill with hooks and shelves, a freezer, twelve suppliers."""
    acts.set_up_larder(
        register, name="Long Rigg Larder", address="Long Rigg, Westmere", registration_number="LR/417",
        jurisdiction="england-wales",
    )  # fmt: skip
    acts.enrol_person(register, name="Ida Marrow", initials="IM", role="tutor")
    acts.enrol_person(register, by=TUTOR, name="Wat Pell", initials="WP", role="technician")
    acts.add_store(
        register,
        by=TUTOR,
        name="Chill",
        sort="chill",
        rails=[("Rail", HOOKS), ("Far rail", HOOKS)],
        shelves=["A", "B", "C"],
    )
    acts.add_store(register, by=TUTOR, name="Freezer", sort="freezer", shelves=[f"F{n}" for n in range(1, 9)])
    for number in range(1, SUPPLIERS + 1):
        acts.add_supplier(
            register, by=TUTOR, name=f"Beat {number} of Long Rigg", address=f"Lodge {number}, Long Rigg",
            route="wild-direct", trained_hunter=f"Hunter {number}", certificate_number=f"TH-{number:03}",
        )  # fmt: skip
    _meet_hunters(register)


def _meet_hunters(register: Register) -> None:
    """One carcass from each beat, sent back: from then on the hunters are known by their cards."""
    clock = register.clock
    assert isinstance(clock, Clock)
    tell = Teller(register, clock, clock.at.date(), *SPECIES[clock.at.month])
    _take_in(tell, SUPPLIERS, hooks=False)
    for code in tell.codes.carcasses:
        tell.do(acts.dispose, by=TUTOR, code=code, product="returned", reason="not ready for it yet")


def _tag(number: int) -> str:
    return f"LRX{number:03}"  # the X is where the number of the batch goes


def _take_in(tell: Teller, count: int, *, hooks: bool) -> None:
    for number in range(1, count + 1):
        beat = (number - 1) % SUPPLIERS + 1
        delivery = Delivery(
            route="wild-direct", supplier=f"S{beat:03}", species=tell.species,
            sex="female" if tell.species == "fallow" else "male", origin="wild-shot",
            killed_on=tell.day - timedelta(days=1), kill_time="07:40", kill_place=f"Ride {number}, Long Rigg",
            tag=_tag(number), has_declaration=True, declaration_number=_tag(number),
            trained_person=f"Hunter {beat}", certificate_number=f"TH-{beat:03}",
            no_abnormal_characteristics=Answer.YES, no_abnormal_behaviour=Answer.YES,
            no_contamination=Answer.YES, grams=tell.grams + 110 * number,
            basis=Basis(in_skin=True, head_on=False, feet_on=False, pluck_in=False),
            readings=(("haunch", 42), ("shoulder", 45)), pence_per_kg=340,
            place=f"C1.R1.{number:02}" if hooks else "C1.S3", ammunition="not lead",
        )  # fmt: skip
        tell.codes.carcasses.append(tell.do(acts.receive_delivery, delivery=delivery).code)


def _dress(tell: Teller, code: str) -> None:
    skin = Out("skin", tell.grams * 9 // 100)
    dressed = tell.do(acts.dress_carcass, code=code, outputs=[skin], tag=TagHandOver("printed"))
    tell.codes.bins += dressed.created


def _cut(tell: Teller, code: str, shares: Sequence[tuple[str, int]], packed: Sequence[str] = ()) -> list[str]:
    """Weigh out shares of a hundred, say that the rest is scraps; the codes in the order of the shares."""
    outs = [
        Out(product, tell.grams * share // 100, place="C1.S1", is_pack=product in packed,
            pack_state="vacuum" if product in packed else "")
        for product, share in shares
    ]  # fmt: skip
    made = tell.do(acts.weigh_out, code=code, outputs=outs).created
    tell.do(acts.close_lot, code=code, reason="scraps and drip on the table")
    return list(made)


def _batch_in(tell: Teller) -> None:
    _take_in(tell, 10, hooks=True)


def _batch_cut(tell: Teller) -> None:
    codes, trims = tell.codes, []
    for code in codes.carcasses:
        _dress(tell, code)
        shares = (("haunch", 36), ("saddle", 16), ("trim", 14), ("bone", 21))
        haunch, saddle, trim, bone = _cut(tell, code, shares, packed=("haunch", "saddle"))
        codes.haunches.append(haunch)
        codes.saddles.append(saddle)
        trims.append(trim)
        codes.bins.append(bone)
    for half in (trims[:5], trims[5:]):
        mince = tell.do(acts.make_mix, inputs=[(code, None) for code in half], place="C1.S2").code
        each = tell.grams * 14 // 100 * 2
        outs = [Out("mince", each, place="C1.S2", is_pack=True, pack_state="chilled-loose") for _ in range(2)]
        codes.packs += tell.do(acts.weigh_out, code=mince, outputs=outs).created
        codes.bins += tell.do(
            acts.weigh_out, code=mince, outputs=[Out("binned", 140, reason="fell on the floor")]
        ).created
        tell.do(acts.close_lot, code=mince, reason="stuck in the mincer")
    bin_of = [(codes.packs[0], 90), (codes.packs[2], 80)]
    for code, grams in bin_of:
        codes.bins += tell.do(acts.dispose, code=code, grams=grams, reason="the bag leaked").created
    held = tell.do(acts.hold_lot, code=codes.saddles[9], reason="smells of the bag").code
    tell.do(acts.release_hold, by=TUTOR, hold=int(held), reason="the bag, not the meat")


def _batch_cook(tell: Teller) -> None:
    """Thirty dishes: the haunches, eight of the saddles and all the mince."""
    codes = tell.codes
    meats: list[tuple[str, int | None]] = [(code, tell.grams * 18 // 100) for code in codes.haunches]
    meats += [(code, tell.grams * 9 // 100 if at < 2 else None) for at, code in enumerate(codes.haunches)]
    meats += [(code, None) for code in codes.saddles[:8]] + [(code, None) for code in codes.haunches[:2]]
    for number, meat in enumerate(meats):
        pack, is_last = codes.packs[number % 4], number + 4 >= len(meats)
        name = f"{_DISHES[(number + tell.day.month) % len(_DISHES)]} of {tell.species}"
        dish = tell.do(
            acts.make_dish, name=name, occasion=_OCCASIONS[number % len(_OCCASIONS)], on=tell.clock().date(),
            portions=20, inputs=[meat, (pack, None if is_last else tell.grams // 40)],
        ).code  # fmt: skip
        if number % 6 == 0:
            tell.do(acts.record_cooking, code=dish, tenths_c=760, seconds=120)
            tell.do(acts.serve_dish, code=dish, portions=18, to_group="guests")


def _collect_and_eat(tell: Teller) -> None:
    _collect(tell)
    tell.do(
        acts.make_dish, name="What was left", occasion="Staff", on=tell.clock().date(), portions=9,
        inputs=[(code, None) for code in tell.codes.saddles[8:]],
    )  # fmt: skip


def _collect_and_freeze(tell: Teller) -> None:
    _collect(tell)
    for code in tell.codes.saddles[8:]:
        tell.do(acts.freeze_lot, code=code, place="F2.S1")


def _feast_collect(tell: Teller) -> None:
    _collect(tell)


def _collect(tell: Teller) -> None:
    for at in range(0, len(tell.codes.bins), 100):
        _collected(tell, tell.codes.bins[at : at + 100])


def _collected(tell: Teller, bins: Sequence[str]) -> None:
    tell.do(
        acts.collect_by_products, codes=bins, on=tell.clock().date(), collector="Rigg Carriers",
        document_number=f"CD {_tag(0)}", destination="Rigg Rendering",
    )  # fmt: skip


def _feast_in(tell: Teller) -> None:
    _take_in(tell, FEAST_CARCASSES, hooks=False)


def _feast_cut(tell: Teller) -> None:
    shares = (("haunch", 36), ("shoulder", 15), ("neck", 11), ("saddle", 14), ("trim", 10))
    meat: list[str] = []
    for code in tell.codes.carcasses:
        _dress(tell, code)
        meat += _cut(tell, code, shares)
    mixes = [
        tell.do(acts.make_mix, inputs=[(code, None) for code in meat[at : at + 50]], place="C1.S2").code
        for at in range(0, len(meat), 50)
    ]
    tell.codes.packs = [
        tell.do(acts.make_mix, inputs=[(code, None) for code in mixes], place="C1.S2").code,
    ]


def _feast_cook(tell: Teller) -> None:
    tell.do(
        acts.make_dish, name="Harvest pot", occasion="Harvest feast", on=tell.clock().date(), portions=4_000,
        inputs=[(tell.codes.packs[0], None)],
    )  # fmt: skip


BATCH = (_batch_in, _batch_cut, _batch_cook, _collect_and_eat)
YOUNG = (_batch_in, _batch_cut, _batch_cook, _collect_and_freeze)  # of this some is still here
FEAST = (_feast_in, _feast_cut, _feast_cook, _feast_collect)

# Month by month what may be shot in England and Wales then: facts/seasons says so and rules the acts.
SPECIES = {
    month: ("fallow", 30_000) if month in (11, 12, 1, 2, 3) else ("roe", 14_000) for month in range(1, 13)
}
PATTERN_YEAR = 2025


def morning(day: date) -> datetime:
    return datetime(day.year, day.month, day.day, 8, 0, tzinfo=UTC)
