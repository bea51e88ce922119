"""The whole job on three invented carcasses, through the public acts alone, on an invented calendar.

A wild fallow doe, a park pricket and a farmed red hind: received, hung, dressed, broken down; mince of all
three; a dish of mince and haunch. Dates are fixed in the open season, so that the tour is the same any day.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from typing import Any

from gametrace.domain.deliveries import Answer, Basis, Delivery
from gametrace.register import acts
from gametrace.register.acts import Out, TagHandOver
from gametrace.register.opening import Register

FIRST_DAY = datetime(2026, 11, 10, 8, 30, tzinfo=UTC)


class SteppedClock:
    """A clock that stands still until it is moved on."""

    def __init__(self, at: datetime = FIRST_DAY) -> None:
        self.at = at

    def __call__(self) -> datetime:
        return self.at

    def pass_time(self, **span: int) -> None:
        self.at += timedelta(**span)


@dataclass(slots=True)
class Codes:
    """Every code the tour made, as tour.json lists them."""

    tutor: str = ""
    technician: str = ""
    suppliers: dict[str, str] = field(default_factory=dict)
    carcasses: dict[str, str] = field(default_factory=dict)
    trim: list[str] = field(default_factory=list)
    packs: list[str] = field(default_factory=list)
    mince: str = ""
    dish: str = ""


@dataclass(frozen=True, slots=True)
class Animal:
    """One invented animal: its paper, and how it weighs out (grams)."""

    name: str
    delivery: Delivery
    off: dict[str, int]
    cuts: tuple[Out, ...]


def set_up(register: Register, codes: Codes) -> None:
    """The larder, two people, a chill with a rail and shelves, three suppliers."""
    acts.set_up_larder(
        register,
        name="Sedgewick Hall larder",
        address="Stable Yard, Sedgewick, Westmere WM4 2QX",
        registration_number="WM/0417",
        jurisdiction="england-wales",
        is_practice=True,
    )
    codes.tutor = acts.enrol_person(register, name="Maud Tarrant", initials="MT", role="tutor").code
    codes.technician = acts.enrol_person(
        register, by=codes.tutor, name="Piers Lovel", initials="PL", role="technician"
    ).code
    acts.add_store(
        register,
        by=codes.tutor,
        name="Chill 1",
        sort="chill",
        rails=[("rail 1", 8)],
        shelves=["shelf 1", "shelf 2"],
    )
    for name, address, route, origin, hunter in (
        ("Ivo Brandreth, stalker", "Fell Cottage, Harrowdale", "wild-direct", "wild-shot", "Ivo Brandreth"),
        ("Larkenfield Park", "The Lodge, Larkenfield", "park-as-wild", "park", "Nan Prewett"),
        ("Coldwell Deer Farm", "Coldwell, Upper Thorle", "farmed-slaughterhouse", "field-farmed", ""),
    ):
        codes.suppliers[origin] = acts.add_supplier(
            register,
            by=codes.tutor,
            name=name,
            address=address,
            route=route,
            origin=origin,
            trained_hunter=hunter,
            certificate_number="TH-2291" if hunter else "",
            approval_number="UK 4417" if origin == "field-farmed" else "",
        ).code


def _declared(**fields: Any) -> Delivery:
    """A delivery with a card on which all three statements are answered yes."""
    return Delivery(
        has_declaration=True,
        no_abnormal_characteristics=Answer.YES,
        no_abnormal_behaviour=Answer.YES,
        no_contamination=Answer.YES,
        **fields,
    )


def _pack(product: str, grams: int, pack_state: str) -> Out:
    return Out(product, grams, pack_state=pack_state, is_pack=True, place="C1.S1")


def animals(codes: Codes) -> tuple[Animal, ...]:
    """The three animals of the tour."""
    feet_off = Basis(in_skin=True, head_on=True, feet_on=False, pluck_in=False)
    return (
        Animal(
            "doe",
            _declared(
                supplier=codes.suppliers["wild-shot"],
                species="fallow",
                sex="female",
                age_class="doe",
                origin="wild-shot",
                route="wild-direct",
                grams=38_400,
                basis=feet_off,
                tag="HD 0117",
                killed_on=date(2026, 11, 9),
                kill_time="15:20",
                kill_place="Harrowdale, north wood",
                declaration_number="HD 0117",
                trained_person="Ivo Brandreth",
                certificate_number="TH-2291",
                readings=(("haunch", 48), ("shoulder", 55)),
                pence_per_kg=310,
                place="C1.R1.01",
                inspection_notes="Clean gralloch, one chest shot.",
            ),
            {"skin": 3_620, "head": 2_350},
            (
                Out("haunch", 5_480, "left"),
                Out("haunch", 5_520, "right"),
                Out("saddle", 4_900),
                Out("shoulder", 5_050),
                Out("trim", 3_150),
                Out("bone", 6_980),
                Out("shot-damage", 940),
                Out("binned", 330, reason="membrane and blood"),
            ),
        ),
        Animal(
            "pricket",
            _declared(
                supplier=codes.suppliers["park"],
                species="fallow",
                sex="male",
                age_class="pricket",
                origin="park",
                route="park-as-wild",
                grams=36_200,
                basis=feet_off,
                tag="LP 88",
                killed_on=date(2026, 11, 9),
                kill_time="07:50",
                kill_place="Larkenfield Park, east paddock",
                declaration_number="LP 88",
                trained_person="Nan Prewett",
                certificate_number="TH-2291",
                readings=(("haunch", 51),),
                pence_per_kg=340,
                place="C1.R1.02",
            ),
            {"skin": 3_400, "head": 2_480},
            (
                Out("haunch", 10_150),
                Out("saddle", 4_420),
                Out("shoulder", 4_760),
                Out("trim", 4_210),
                Out("bone", 6_350),
                Out("binned", 320, reason="membrane"),
            ),
        ),
        Animal(
            "hind",
            Delivery(
                supplier=codes.suppliers["field-farmed"],
                species="red",
                sex="female",
                age_class="hind",
                origin="field-farmed",
                route="farmed-slaughterhouse",
                grams=66_000,
                basis=feet_off,
                tag="UK 310442 00731",
                killed_on=date(2026, 11, 8),
                kill_time="10:05",
                kill_place="slaughterhouse UK 4417",
                approval_number="UK 4417",
                readings=(("haunch", 34),),
                pence_per_kg=420,
                place="C1.R1.03",
                inspection_notes="Health mark seen.",
            ),
            {"skin": 6_300, "head": 4_100},
            (
                Out("haunch", 18_500),
                Out("saddle", 7_900),
                Out("shoulder", 8_700),
                Out("trim", 6_940),
                Out("bone", 12_600),
                Out("binned", 820, reason="membrane"),
            ),
        ),
    )


def receive_and_dress(register: Register, clock: SteppedClock, codes: Codes) -> None:
    """Three deliveries, six days on the rail, then dressed with the number handed on to the new tag."""
    for animal in animals(codes):
        codes.carcasses[animal.name] = acts.receive_delivery(
            register, by=codes.technician, delivery=animal.delivery
        ).code
        clock.pass_time(minutes=25)
    clock.pass_time(days=6)
    for animal in animals(codes):
        code = codes.carcasses[animal.name]
        acts.note_labels_printed(register, by=codes.technician, codes=[code], sort="carcass")
        acts.dress_carcass(
            register,
            by=codes.technician,
            code=code,
            tag=TagHandOver("printed"),
            outputs=[Out(product, grams) for product, grams in animal.off.items()],
        )
        clock.pass_time(minutes=40)


def break_down(register: Register, clock: SteppedClock, codes: Codes) -> None:
    """Weigh every tray; the trim of all three becomes one mince; packs of haunch and mince."""
    haunch = ""
    for animal in animals(codes):
        code = codes.carcasses[animal.name]
        trays = acts.weigh_out(register, by=codes.technician, code=code, outputs=animal.cuts)
        by_product = dict(zip((out.product for out in animal.cuts), trays.created, strict=True))
        codes.trim.append(by_product["trim"])
        haunch = haunch or by_product["haunch"]
        acts.close_lot(register, by=codes.technician, code=code, reason="clots and scraps on the table")
        clock.pass_time(minutes=50)
    codes.mince = acts.make_mix(
        register,
        by=codes.technician,
        inputs=[(code, None) for code in codes.trim],
        grams=14_260,
        place="C1.S1",
    ).code
    minced = acts.weigh_out(
        register,
        by=codes.technician,
        code=codes.mince,
        outputs=[_pack("mince", 2_000, "chilled-loose") for _ in range(7)],
    )
    steaks = acts.weigh_out(
        register,
        by=codes.technician,
        code=haunch,
        outputs=[_pack("steak", grams, "vacuum") for grams in (1_240, 1_260, 1_255)],
    )
    codes.packs = [*minced.created, *steaks.created]
    acts.note_labels_printed(register, by=codes.technician, codes=codes.packs, sort="pack")
    clock.pass_time(minutes=30)


def cook(register: Register, clock: SteppedClock, codes: Codes) -> None:
    """One dish from two packs of mince and part of a pack of haunch."""
    codes.dish = acts.make_dish(
        register,
        by=codes.tutor,
        name="Venison pie with haunch",
        occasion_kind="service",
        occasion="Tuesday supper",
        on=clock().date(),
        portions=24,
        inputs=[(codes.packs[0], None), (codes.packs[1], None), (codes.packs[7], 900)],
    ).code
    clock.pass_time(minutes=20)
