"""What a one-page sheet to hand over says: of one animal, one lot, one dish or one supplier."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from gametrace.domain.codes import looks_like_code, lot_id_of
from gametrace.register import visit_evidence
from gametrace.register.assembling import Assembler
from gametrace.register.opening import Register
from gametrace.register.records import Carcass, Larder, Seal, StoryLine, Trace
from gametrace.register.stories import story
from gametrace.register.tracing import trace
from gametrace.register.visit_records import SupplierFile
from gametrace.store import journal, look_carcasses

ANIMAL, DISH, SUPPLIER, LOT = "animal", "dish", "supplier", "lot"


@dataclass(frozen=True, slots=True)
class HandOver:
    """One sheet. `deliveries` are an animal's own, or a supplier's, the newest first."""

    sort: str  # animal | lot | dish | supplier
    larder: Larder
    printed_at: datetime
    trace: Trace
    deliveries: tuple[Carcass, ...]
    story: tuple[StoryLine, ...]
    supplier: SupplierFile | None
    seal: Seal


def hand_over(register: Register, code: str) -> HandOver:
    """Whatever a code, a tag, a dish or a supplier's name stands for; refuses nothing and several."""
    found = trace(register, code)
    sort = {"carcass": ANIMAL, "batch": ANIMAL, "dish": DISH, "supplier": SUPPLIER}.get(found.kind, LOT)
    told = story(register, found.code) if looks_like_code(found.code) else ()
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        head = Seal(*journal.head_of(connection))
        deliveries: tuple[Carcass, ...] = ()
        supplier = None
        if sort == SUPPLIER:
            ids = look_carcasses.of_supplier(connection, found.code)[::-1]
            deliveries = read.carcasses(ids)
            (supplier,) = visit_evidence.supplier_files(read, [read.suppliers[found.code]], register.today())
        elif sort == ANIMAL:
            deliveries = read.carcasses([lot_id_of(found.code)])
    return HandOver(sort, register.larder, register.clock(), found, deliveries, told, supplier, head)
