"""Acts of the supplier book: who supplies, by which route, with which papers, what was agreed."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from datetime import date, datetime
from typing import Any

from gametrace.domain.claims import RULES
from gametrace.domain.errors import Refusal
from gametrace.facts.origins import ORIGINS, ROUTES
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_door, look_setup, rows
from gametrace.store.engine import Connection


@dataclass(frozen=True, slots=True)
class Approval:
    """What a kitchen keeps of a supplier. The first four lie on a card outside the journal.

    Days are the last on which a paper holds; None where none was seen.
    """

    name: str = ""
    address: str = ""
    phone: str = ""
    trained_hunter: str = ""
    route: str = "wild-direct"
    origin: str = "wild-shot"
    approval_number: str = ""
    certificate_number: str = ""
    certificate_until: date | None = None
    insured_until: date | None = None
    review_on: date | None = None
    lead_free: str = "not stated"  # yes | no | not stated
    lead_free_until: date | None = None
    damage_rule: str = "none"  # see claims.RULES
    damage_pence: int = 0  # of the fixed rule
    claim_days: int = 0  # 0: no window agreed
    price_basis: str = ""  # 'in the skin, head off'


@dataclass(frozen=True, slots=True)
class Score:
    """What the larder's own records say of a supplier."""

    supplier: str
    animals: int
    refused: int
    warm: int
    paper_gaps: int
    damaged_grams: int
    grams: int
    damaged: int = 0  # animals that shot damage was weighed off


_ON_CARD = ("name", "address", "phone", "trained_hunter")
_DAYS = ("certificate_until", "lead_free_until", "insured_until", "review_on")


def add_supplier(
    register: Register,
    *,
    by: str,
    happened_at: datetime | None = None,
    key: str | None = None,
    **given: Any,
) -> Changes:
    """Add a supplier: one step back, with name and address as Article 18 of Regulation 178/2002 asks.

    `given` are fields of Approval; name, address and route are what the law and the door need.
    """
    approval = _checked(_with(Approval(), given))

    def decide(work: Work) -> Plan:
        code = rows.next_code(work.connection, "supplier", "S")
        return Plan({"supplier": code, **_sealed(work, code, approval)}, created=(code,))

    return perform(register, "supplier.added", decide, by=by, happened_at=happened_at, key=key)


def amend_supplier(
    register: Register,
    *,
    by: str,
    supplier: str,
    reason: str = "",
    happened_at: datetime | None = None,
    key: str | None = None,
    **given: Any,
) -> Changes:
    """Change what is kept of a supplier: fields of Approval. Filling a blank needs no reason."""
    why = clean(reason, "reason", most=500)

    def decide(work: Work) -> Plan:
        was = approval_of(work.connection, supplier)
        now = _checked(_with(was, given))
        changed = [f.name for f in fields(Approval) if getattr(was, f.name) != getattr(now, f.name)]
        if not changed:
            raise Refusal("Nothing is different.", "Change something first.", "name")
        blank = Approval()
        if not why and any(getattr(was, name) != getattr(blank, name) for name in changed):
            raise Refusal("Changing what was written needs a reason.", "Say what changed.", "reason")
        body = {"supplier": supplier, "reason": why, "changed": changed, **_sealed(work, supplier, now)}
        return Plan(body, codes=(supplier,))

    changes = perform(register, "supplier.amended", decide, by=by, happened_at=happened_at, key=key)
    if set(given) & set(_ON_CARD):
        register.store.settle()  # what was taken off the card must not live on in the write-ahead file
    return changes


def approval_of(connection: Connection, supplier: str) -> Approval:
    """What is kept of a supplier now."""
    row = look_setup.supplier_row(connection, supplier)
    if row is None:
        raise Refusal(f"There is no supplier {supplier}.", "Choose one from the list.", "supplier")
    card = rows.cards(connection).get(supplier, {})
    kept: dict[str, Any] = {name: card.get(name, "") for name in _ON_CARD}
    for one in fields(Approval):
        if one.name in _DAYS:
            kept[one.name] = date.fromisoformat(day) if (day := getattr(row, one.name)) else None
        elif one.name not in _ON_CARD:
            kept[one.name] = getattr(row, one.name)
    return Approval(**kept)


def lapsed(approval: Approval, on: date) -> tuple[str, ...]:
    """What of a supplier's papers no longer holds on a day, in words."""
    words = {
        "certificate_until": "the trained person's certificate",
        "lead_free_until": "the lead-free statement",
        "insured_until": "the insurance",
        "review_on": "the yearly review",
    }
    return tuple(
        said for name, said in words.items() if (day := getattr(approval, name)) is not None and day < on
    )


def approvals(register: Register) -> dict[str, Approval]:
    """The supplier book by code."""
    with register.store.reading() as connection:
        return {row.code: approval_of(connection, row.code) for row in look_setup.supplier_rows(connection)}


def scores(register: Register, supplier: str = "") -> dict[str, Score]:
    """Refused, warm, damaged, papers incomplete: from the larder's own records, by supplier, or of one."""
    with register.store.reading() as connection:
        return scores_of(connection, supplier)


def scores_of(connection: Connection, supplier: str = "") -> dict[str, Score]:
    return {
        code: Score(
            code,
            row.animals,
            row.refused,
            row.warm,
            row.paper_gaps,
            row.damaged_grams,
            row.grams or 0,
            row.damaged,
        )
        for code, row in look_door.supplier_counts(connection, supplier).items()
    }


def _with(approval: Approval, given: dict[str, Any]) -> Approval:
    known = {f.name for f in fields(Approval)}
    if unknown := set(given) - known:
        raise TypeError(f"a supplier has no {', '.join(sorted(unknown))}")
    return replace(approval, **given)


def _checked(approval: Approval) -> Approval:
    if approval.route not in ROUTES:
        raise Refusal("The supply route decides which papers are asked for.", "Choose one.", "route")
    if approval.origin not in ORIGINS:
        raise Refusal("Say where this supplier's animals live and die.", "Choose an origin.", "origin")
    if approval.damage_rule not in RULES:
        raise Refusal("There is no such rule for damage.", "Choose one from the list.", "damage_rule")
    if approval.lead_free not in ("yes", "no", "not stated"):
        raise Refusal("Lead free is yes, no or not stated.", "Choose one.", "lead_free")
    if not 0 <= approval.claim_days <= 90:
        raise Refusal("A claim window is 0 to 90 days.", "Count them again.", "claim_days")
    if not 0 <= approval.damage_pence <= 100_000:
        raise Refusal("That sum cannot be.", "Give pounds and pence.", "damage_pence")
    texts: dict[str, Any] = {
        "name": clean(approval.name, "name", needed="A supplier needs a name."),
        "address": clean(approval.address, "address", most=500),
        "phone": clean(approval.phone, "phone"),
        "trained_hunter": clean(approval.trained_hunter, "trained_hunter"),
        "approval_number": clean(approval.approval_number, "approval_number"),
        "certificate_number": clean(approval.certificate_number, "certificate_number"),
        "price_basis": clean(approval.price_basis, "price_basis"),
    }
    return replace(approval, **texts)


def _sealed(work: Work, code: str, approval: Approval) -> dict[str, Any]:
    """The columns as an entry holds them, the names on their card."""
    card = rows.write_card(work.connection, code, {name: getattr(approval, name) for name in _ON_CARD})
    columns = {f.name: getattr(approval, f.name) for f in fields(Approval) if f.name not in _ON_CARD}
    days = {name: day.isoformat() if (day := columns[name]) else None for name in _DAYS}
    return {**columns, **days, "trained_person": "", "card": card}
