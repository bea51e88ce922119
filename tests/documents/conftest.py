"""Invented sheets, built by hand: the documents are pure functions of them and need no register."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from typing import Any

import pytest

from gametrace.domain.findings import Finding, Severity
from gametrace.register.records import (
    Amendment,
    Balance,
    BalanceRow,
    Carcass,
    Hold,
    LabelSheet,
    Larder,
    Lot,
    Seal,
    Statement,
    StoryLine,
    Supplier,
    Trace,
    TraceAnimal,
    TraceLink,
    TraceLot,
)
from gametrace.register.visit_records import (
    CallMade,
    ClaimMade,
    Collected,
    DecidedAgain,
    Evidence,
    Looked,
    ProbeChecked,
    Round,
    StoreCover,
    StoreFailed,
    SupplierFile,
    VisitSheet,
    Warmth,
    WeekOfBins,
)

NOON = datetime(2026, 11, 12, 12, 5, tzinfo=UTC)
LARDER = Larder(
    "Fenmoor College larder",
    "2 Weir Lane, Fenmoor, FM1 2AB",
    "FM/2019/0417",
    "england-wales",
    is_practice=True,
)
ESTATE = Supplier(
    "S001", "Harrow Wood Estate", "The Lodge, Harrow Wood, FM9 4ZZ", "01632 960417", "wild-direct",
    "wild-shot",
    "council registration FM-88", "A. Penhale", "TH-2019-204",
)  # fmt: skip
STATEMENTS = (
    Statement("No abnormal characteristics", "yes"),
    Statement("No abnormal behaviour before killing", "yes"),
    Statement("No suspicion of environmental contamination", "not stated"),
)
FINDINGS = (
    Finding(
        "season.open", Severity.NOTE, "In season: fallow doe, 1 Nov to 31 Mar.", "",
        "Deer Act 1991, schedule 1", "seen in the source",
    ),
    Finding(
        "paper.statement", Severity.ASK, "The card does not say whether contamination was suspected.",
        "Ring the estate and write down the answer.", "Regulation 853/2004, Annex III, Section IV",
        "secondary",
    ),
    Finding(
        "temperature.warm", Severity.STOP, "The shoulder was 8.1 °C on arrival, above 7 °C.",
        "Hold it, measure again, and ask the local authority if in doubt.", "Regulation 853/2004",
        "secondary",
    ),
)  # fmt: skip


def lot(code: str = "26-00417-K", **changes: Any) -> Lot:
    plain = Lot(
        code, "carcass", "fallow doe", "fallow", "hanging", "", 23400, 23400, "CH1.R1.3",
        "Chill 1 · rail 1 · hook 3", NOON, "AB",
    )  # fmt: skip
    return replace(plain, **changes)


def carcass(code: str = "26-00417-K", **changes: Any) -> Carcass:
    plain = Carcass(
        lot=lot(code), tag="0417", species="fallow", species_name="fallow deer", sex="female",
        age_class="doe",
        count=1, origin="wild-shot", origin_words="wild, shot", route="wild-direct",
        route_words="wild, direct from the hunter", supplier=ESTATE, received_at=NOON,
        written_at=NOON + timedelta(minutes=4), dispatched_on=date(2026, 11, 12),
        killed_on=date(2026, 11, 12),
        kill_time="07:40", kill_place="Harrow Wood, north ride", has_declaration=True,
        declaration_number="HW-112",
        statements=STATEMENTS, trained_person="A. Penhale", certificate_number="TH-2019-204",
        approval_number="",
        inspection_notes="Clean shot behind the shoulder; nothing remarkable seen.",
        readings=(("haunch", 52), ("shoulder", 81)), grams_received=23400,
        basis_words="in the skin, head off, feet off, pluck out", supplier_grams=23600, pence_per_kg=420,
        decision="hold", decision_reason="Shoulder too warm", received_by="AB", findings=FINDINGS,
        reasons={"paper.statement": "Rang A. Penhale at 12:20: nothing suspected."}, evidence="1 missing",
        missing=("contamination statement",), in_skin=True,
        basis_now="in the skin, head off, feet off, pluck out",
        number_on="supplier's tag", dressed_at=None, days_hung=3, holds=(hold(code),),
    )  # fmt: skip
    return replace(plain, **changes)


def hold(code: str = "26-00417-K", **changes: Any) -> Hold:
    plain = Hold(
        1, code, "hold", "Shoulder 8.1 °C on arrival", "AB", NOON, "CD", NOON + timedelta(hours=3),
        "Measured again at 15:00: 5.9 °C; tutor consulted the kitchen's food safety plan",
    )  # fmt: skip
    return replace(plain, **changes)


def animal(code: str, name: str, grams: int, share: Fraction, **changes: Any) -> TraceAnimal:
    plain = TraceAnimal(
        code, "0417", name, "fallow", "female", "wild-shot", "2026-11-12T07:40", "Harrow Wood, north ride",
        ESTATE.name, ESTATE.address, "declaration HW-112", STATEMENTS, grams, share, "spent",
    )  # fmt: skip
    return replace(plain, **changes)


def trace_lot(code: str, kind: str, name: str, grams: int, layer: int, **changes: Any) -> TraceLot:
    plain = TraceLot(
        code, kind, name, grams, grams, "ready", "Chill 1 · shelf 2", NOON + timedelta(days=layer), layer
    )
    return replace(plain, **changes)


def mince_trace() -> Trace:
    """A mince made of trim from three animals, and the pie it went into."""
    doe = animal("26-00417-K", "fallow doe", 1600, Fraction(16, 37))
    pricket = animal(
        "26-00421-B", "fallow pricket", 1300, Fraction(13, 37), tag="P 8", origin_type="park",
        supplier="Oakmere Park",
        supplier_address="Park Farm, Oakmere", declaration="park: no hunter declaration needed",
        statements=(),
        killed_at="2026-11-13", place="Oakmere, long field", sex="male",
    )  # fmt: skip
    hind = animal(
        "26-00433-5", "red hind", 800, Fraction(8, 37), tag="UK 770 41", origin_type="farmed", species="red",
        supplier="Sallow Deer Farm", declaration="slaughterhouse mark", statements=(), killed_at="", place="",
    )  # fmt: skip
    trims = [
        trace_lot(code, "part", f"trim, {who}", grams, 1, state="spent", where="used up")
        for code, who, grams in (
            ("26-01177-2", "doe", 1600), ("26-01180-A", "pricket", 1300), ("26-01184-C", "hind", 800),
        )
    ]  # fmt: skip
    pie = trace_lot(
        "26-01201-D", "dish", "venison pie", 2900, 3, state="served", where="Training restaurant",
        grams_from=2900, detail="Class: game level 3, 13 Dec 2026, 30 portions",
    )  # fmt: skip
    pack = trace_lot("26-01202-9", "pack", "mince", 750, 3, state="ready", where="Freezer 1 · shelf 1")
    bin_ = trace_lot("26-01205-E", "waste", "binned", 50, 3, state="gone", where="bin", detail="Dropped")
    links = (
        TraceLink("26-00417-K", "26-01177-2", 1600), TraceLink("26-00421-B", "26-01180-A", 1300),
        TraceLink("26-00433-5", "26-01184-C", 800), TraceLink("26-01177-2", "26-01188-X", 1600),
        TraceLink("26-01180-A", "26-01188-X", 1300), TraceLink("26-01184-C", "26-01188-X", 800),
        TraceLink("26-01188-X", "26-01201-D", 2900), TraceLink("26-01188-X", "26-01202-9", 750),
        TraceLink("26-01188-X", "26-01205-E", 50),
    )  # fmt: skip
    own = lot("26-01188-X", kind="mix", name="mince", species="", state="spent", grams=0, grams_made=3700)
    return Trace(
        "26-01188-X", "mix", "mince", "spent", (doe, pricket, hind), tuple(trims), (pie, pack, bin_), links,
        None, FINDINGS[:2], own,
    )  # fmt: skip


def animal_trace(packs: int = 6) -> Trace:
    """One doe, its break-down into many packs, plates, by-products, and what is missing."""
    code, forward, links = "26-00417-K", [], []
    for number in range(packs):
        name = ("haunch, left", "haunch, right", "saddle", "shoulder")[number % 4]
        state, where = (("served", "Training restaurant"), ("ready", "Chill 1 · shelf 2"))[number % 2]
        forward.append(
            trace_lot(f"26-{1300 + number:05d}-X", "pack", name, 18000 // packs, 1, state=state, where=where)
        )
        links.append(TraceLink(code, forward[-1].code, 18000 // packs))
    dish = trace_lot(
        "26-01500-4", "dish", "loin of venison", 18000 // packs, 2, state="served",
        where="Training restaurant",
        detail="Dinner, 12 Dec 2026, 14 portions",
    )  # fmt: skip
    skin = trace_lot("26-01501-2", "by-product", "skin", 2900, 1, state="gone", where="by-products bin")
    bone = trace_lot("26-01502-0", "by-product", "bone", 2100, 1, state="gone", where="stock pot")
    links += [
        TraceLink(forward[0].code, dish.code, 18000 // packs),
        TraceLink(code, skin.code, 2900), TraceLink(code, bone.code, 2100),
    ]  # fmt: skip
    balance = Balance(
        23400, 23000, 400,
        (
            BalanceRow("in stock", 9000, ()), BalanceRow("served", 9000, ()),
            BalanceRow("by-products", 5000, ()), BalanceRow("drying", 0, ()),
        ),
    )  # fmt: skip
    doe = animal(code, "fallow doe", 23400, Fraction(1))
    return Trace(
        code, "carcass", "fallow doe", "spent", (doe,), (), (*forward, dish, skin, bone), tuple(links),
        balance,
        FINDINGS, lot(code, state="spent"),
    )  # fmt: skip


EIGHT = (
    "Description of the food", "Volume or quantity", "Name and address of the business it left from",
    "Name and address of the consignor or owner, if different", "Name and address of the business it went to",
    "Name and address of the consignee or owner, if different", "Reference of the lot, batch or consignment",
    "Date of dispatch",
)  # fmt: skip


EVIDENCE = Evidence(
    looks=(
        Looked("26-00417-K", "fallow doe", "in the skin", NOON, "AB", 9, ("flies: eggs in the groin",),
               ("pluck",), ("lymph node of the jaw",)),
    ),
    decided_again=(
        DecidedAgain("26-00417-K", "fallow doe", "trim", "Bruise under the shoulder", NOON, "CD"),
    ),
    covers=(
        StoreCover("Chill 1", "chill", 50, 412, 12, 84, ("autumn.csv (400 readings)",), 2, 1505, 1890),
        StoreCover("Freezer 1", "freezer", -150, 0, None, None, (), 0, 0, 0),
    ),
    rounds=(Round(NOON, "AB", "T01 green probe", (("Chill 1", 31), ("Freezer 1", -184))),),
    warmth=(
        Warmth("Chill 1", "warm", NOON, NOON + timedelta(hours=3), 84, 50, ("26-00417-K", "26-00418-H"),
               "Door was ajar; closed it", "3.9 °C after two hours", "CD"),
        Warmth("Chill 1", "warm", NOON + timedelta(days=2), NOON + timedelta(days=2, hours=2), 71, 50,
               ("26-00417-K",), "", "", ""),
        Warmth("Chill 1", "gap", NOON + timedelta(days=4), NOON + timedelta(days=5, hours=1), None, 50,
               (), "", "", ""),
    ),
    probes=(ProbeChecked(NOON, "AB", "T01 green probe", 2, None),),
    failures=(
        StoreFailed(NOON, "CD", "Freezer 1", "The plug was out overnight", ("26-01202-9", "26-01203-X"),
                    ("26-01203-X",)),
    ),
    collections=(
        Collected(date(2026, 11, 20), "Dole and Marsh Collections", "DM-4417", "Marsh Rendering", "two drums",
                  date(2028, 11, 20),
                  (("26-01501-2", "skin", 3, 2900), ("26-01502-0", "head", 2, 2100))),
    ),
    weeks=(WeekOfBins(date(2026, 11, 16), ((2, 2100), (3, 2900))),),
    bins_waiting=("3 lots", 4250),
    suppliers=(
        SupplierFile(ESTATE, ("Lead-free: stated, in writing, until 01 Nov 2026",),
                     ("the lead-free statement",), ("12 deliveries, 260.00 kg in all.",
                                                    "Refused: 1 of 12, 8.3 %.")),
    ),
    calls=(
        CallMade(NOON, "AB", "26-00417-K", "fallow doe", "no contamination", "Nothing suspected",
                 "A. Penhale"),
    ),
    calls_to_make=(("26-00418-H", "kill time"),),
    claims=(
        ClaimMade(1, "26-00417-K", "fallow doe", ESTATE.name, "bought price", 1250, 525, "Shoulder shot away",
                  NOON, "AB", "credited", 500, NOON + timedelta(days=3), "Credit note 88"),
    ),
)  # fmt: skip


def visit(deliveries: int = 3) -> VisitSheet:
    carcasses = tuple(
        carcass(f"26-{417 + number:05d}-K", received_at=NOON + timedelta(days=number))
        for number in range(deliveries)
    )
    eight = tuple(
        tuple(
            zip(
                EIGHT,
                (
                    "Fallow doe, carcass in the skin", "1 carcass, 23.400 kg",
                    f"{ESTATE.name}, {ESTATE.address}",
                    "the same", f"{LARDER.name}, {LARDER.address}", "the same", c.code, "12 Nov 2026",
                ),
                strict=True,
            )
        )
        for c in carcasses
    )  # fmt: skip
    dealer = tuple(
        (
            ("Received on", "12 Nov 2026"), ("From", f"{ESTATE.name}, {ESTATE.address}"),
            ("Carcasses and sex", "1 female"), ("Species", "fallow deer"),
        )
        for _ in carcasses
    )  # fmt: skip
    return VisitSheet(
        larder=LARDER, first_day=date(2026, 9, 1), last_day=date(2026, 12, 31), printed_at=NOON,
        deliveries=carcasses, holds=(hold(), hold(id=2, released_by="", released_at=None, release_reason="")),
        refusals=(
            carcass("26-00450-3", decision="reject", decision_reason="Green smell",
                    lot=lot(state="rejected")),
        ),
        amendments=(
            Amendment(NOON, "AB", "26-00417-K", "weight", "24.300 kg", "23.400 kg", "Two digits swapped"),
            Amendment(NOON, "AB", "26-00417-K", "kill time", "", "07:40", "Read from the card by telephone"),
        ),
        late_entries=(
            StoryLine(88, NOON - timedelta(days=2), NOON, "CD", "26-00417-K moved to Chill 1 · rail 1", True),
        ),
        suppliers=(ESTATE, replace(ESTATE, code="S002", name="Oakmere Park", approval_number="", phone="")),
        trace=mince_trace(), animal_trace=animal_trace(),
        seal=Seal(1288, "9f2c" * 16), eight_fields=eight, dealer_rows=dealer,
        evidence=EVIDENCE,
        notes=("2 deliveries of the period are not finished: see 'still to finish' under each.",),
    )  # fmt: skip


LABELS = (
    LabelSheet(
        "26-00417-K", "carcass", "Fallow doe",
        ("Killed 12 Nov 2026, 07:40", "Received 12 Nov 2026", "Tag 0417", "Harrow Wood Estate"),
        larder=LARDER.name, is_practice=True,
    ),
    LabelSheet(
        "26-01203-X", "pack", "Haunch, left",
        ("Fallow · 0.850 kg", "Killed 12 Nov 2026", "Packed 19 Nov 2026", "From 26-00417-K"),
        "Use by 04 Dec 2026", larder=LARDER.name,
    ),
    LabelSheet(
        "26-01300-3", "dish", "Venison and juniper pie", ("30 portions", "Class: game level 3"),
        "13 Dec 2026",
        larder=LARDER.name,
    ),
    LabelSheet(
        "26-00418-H", "hold", "Roe buck", ("Tag 0991", "Received 12 Nov 2026"),
        warning="ON HOLD: no declaration came with it", larder=LARDER.name, is_practice=True,
    ),
    LabelSheet(
        "26-00419-F", "carcass", "Red hind", ("Killed 12 Nov 2026", "Tag 77"),
        warning="TEACHING SPECIMEN, NEVER TO A PLATE", larder=LARDER.name,
    ),
    LabelSheet(
        "26-01188-X", "mix", "Mince", ("3.700 kg · fallow and red · raw", "Packed 19 Nov 2026"),
        "Use by 21 Nov 2026", larder=LARDER.name,
        parents=(("26-01177-2", 1600), ("26-01180-A", 1300), ("26-01184-C", 800)),
    ),
    LabelSheet(
        "26-01204-8", "frozen", "Haunch, right", ("1.200 kg · fallow · raw", "Packed 19 Nov 2026"),
        "Best by 19 May 2027", frozen_on="19 Nov 2026", copy=2, larder=LARDER.name,
    ),
    LabelSheet(
        "26-01206-4", "thawed", "Shoulder, defrosted", ("2.100 kg · fallow · raw", "Frozen on 19 Nov 2026"),
        "Use by 04 Dec 2026", frozen_on="19 Nov 2026", thawed_on="02 Dec 2026", larder=LARDER.name,
    ),
    LabelSheet(
        "26-01501-2", "by-product", "Skin", ("Animal by-product, category 3", "2.900 kg"),
        warning="NOT FOR HUMAN CONSUMPTION", larder=LARDER.name,
    ),
)  # fmt: skip

# Codes, kinds and states are the program's own words; everything else may hold whatever a person typed.
_OWN_WORDS = {"code", "kind", "state", "sort", "parent", "child", "severity", "killed_at", "head"}


def with_every_text(sheet: Any, words: str) -> Any:
    """The same sheet with `words` in every field a person can write in."""
    if isinstance(sheet, tuple):
        return tuple(with_every_text(part, words) for part in sheet)
    if isinstance(sheet, dict):
        return dict.fromkeys(sheet, words)
    if isinstance(sheet, str):
        return words
    if not is_dataclass(sheet):
        return sheet
    changes = {
        f.name: with_every_text(getattr(sheet, f.name), words)
        for f in fields(sheet)
        if f.name not in _OWN_WORDS
    }
    return replace(sheet, **changes)  # type: ignore[type-var]


@pytest.fixture
def labels() -> tuple[LabelSheet, ...]:
    return LABELS


@pytest.fixture
def larder() -> Larder:
    return LARDER


@pytest.fixture
def noon() -> datetime:
    return NOON


@pytest.fixture
def a_mince_trace() -> Trace:
    return mince_trace()


@pytest.fixture
def an_animal_trace() -> Callable[[int], Trace]:
    return animal_trace


@pytest.fixture
def a_visit() -> Callable[[int], VisitSheet]:
    return visit


@pytest.fixture
def fill() -> Callable[[Any, str], Any]:
    return with_every_text
