"""Turns what the store returns into the frozen records the rest of the program sees. Asks, never writes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from functools import cached_property
from typing import Any

from gametrace.domain.codes import code_of
from gametrace.domain.deliveries import Answer, Decision
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.lots import LotKind
from gametrace.facts.origins import ORIGINS, ROUTES
from gametrace.facts.species import species as species_called
from gametrace.register.clock import instant
from gametrace.register.delivery_text import basis_from, delivery_from_row
from gametrace.register.lot_facts import LotFacts, facts_from
from gametrace.register.naming import age_name
from gametrace.register.opening import larder_from
from gametrace.register.paper_state import evidence, still_missing
from gametrace.register.records import Carcass, Hold, Larder, Lot, Person, Place, Statement, Supplier
from gametrace.store import look_carcasses, look_door, look_lots, look_setup, rows
from gametrace.store.engine import Connection
from gametrace.store.lineage import edges_above

FORGOTTEN = "name removed"
_AT_ONCE = 500  # animals read in one look
_WHERE_IT_WENT = {
    LotKind.BY_PRODUCT: "put to by-products",
    LotKind.WASTE: "binned",
    LotKind.DRYING: "dried off",
    LotKind.RETURNED: "back to the supplier",
    LotKind.DISH: "served",
    LotKind.ISSUED: "issued",
    LotKind.SUPPLIED: "supplied to another business",
    LotKind.STRUCK: "struck: written by mistake",
}
STATEMENTS = (
    ("no_abnormal_characteristics", "no abnormal characteristics found"),
    ("no_abnormal_behaviour", "no abnormal behaviour before killing"),
    ("no_contamination", "no suspicion of environmental contamination"),
)


class Assembler:
    """Reads one consistent view; names, places and people are fetched once and only when needed."""

    def __init__(self, connection: Connection, today: date) -> None:
        self.connection = connection
        self.today = today
        self._animals: dict[int, Carcass] = {}

    @cached_property
    def cards(self) -> dict[str, dict[str, str]]:
        return rows.cards(self.connection)

    @cached_property
    def place_names(self) -> dict[str, str]:
        return {row.code: row.name for row in look_setup.place_rows(self.connection)}

    @cached_property
    def suppliers(self) -> dict[str, Supplier]:
        return {row.code: self._supplier(row) for row in look_setup.supplier_rows(self.connection)}

    def initials(self, person: str) -> str:
        """What lists show for a person; their code once their card is gone."""
        return self.cards.get(person, {}).get("initials", person)

    def larder(self) -> Larder:
        return larder_from(rows.settings(self.connection))

    def people(self) -> tuple[Person, ...]:
        return tuple(
            Person(
                code=row.code,
                name=self.cards.get(row.code, {}).get("name", FORGOTTEN),
                initials=self.initials(row.code),
                role=row.role,
                is_active=bool(row.is_active),
                has_pin=row.pin_seq > 0,
            )
            for row in look_setup.person_rows(self.connection)
        )

    def places(self) -> tuple[Place, ...]:
        return tuple(
            Place(code=row.code, name=row.name, kind=row.kind, store=row.store, sort=row.sort)
            for row in look_setup.place_rows(self.connection)
        )

    def _supplier(self, row: Any) -> Supplier:
        card = self.cards.get(row.code, {})
        return Supplier(
            code=row.code,
            name=card.get("name", FORGOTTEN),
            address=card.get("address", ""),
            phone=card.get("phone", ""),
            route=row.route,
            origin=row.origin,
            approval_number=row.approval_number,
            trained_hunter=card.get("trained_hunter", ""),
            certificate_number=row.certificate_number,
        )

    def lots(self, found: Sequence[Any]) -> tuple[Lot, ...]:
        """Lots as lists show them, with what stops them, in the order given."""
        stops = look_lots.stops_on(self.connection, [row.id for row in found])
        made = [row.id for row in found if row.kind == LotKind.DISH]
        dishes = look_lots.dish_details(self.connection, made) if made else {}
        return tuple(
            self._lot(
                row,
                facts_from(row, stops.get(row.id, ()), self.today),
                dishes[row.id].portions if row.id in dishes else row.portions,
            )
            for row in found
        )

    def lots_by_id(self, ids: Iterable[int]) -> dict[int, Lot]:
        found = look_lots.lot_rows(self.connection, ids)
        return {row.id: lot for row, lot in zip(found, self.lots(found), strict=True)}

    def _lot(self, row: Any, facts: LotFacts, portions: int) -> Lot:
        return Lot(
            code=facts.code,
            kind=row.kind,
            name=row.name,
            species=row.species,
            state=facts.state,
            state_reason=facts.why,
            grams=row.grams_left,
            grams_made=row.grams_made,
            place=row.place,
            where=self.where(row),
            made_at=instant(row.made_at),
            made_by=self.initials(row.made_by),
            use_by=facts.use_by,
            date_rule=row.date_rule,
            pack_state=row.pack_state,
            portions=portions,
            product=row.product,
            first_frozen_on=facts.first_frozen_on,
            thawed_on=facts.thawed_on,
        )

    def animals_behind(self, lot: int) -> list[tuple[str, str | None]]:
        """(species, ISO day of killing) of every animal a lot is made of."""
        above = edges_above(self.connection, [lot])
        rows_above = look_carcasses.carcass_rows(self.connection, {lot, *(e.parent for e in above)})
        return [(row.species, row.killed_on) for row in rows_above]

    def where(self, row: Any) -> str:
        """Where a lot is, in words that never claim more than was written."""
        # By its kind, not its state: what was condemned from a rejected carcass is binned all the same.
        if words := _WHERE_IT_WENT.get(row.kind):
            return words
        if row.grams_left == 0:
            return "used up"
        return self.place_names.get(row.place, "") or "place not written down"

    def hold(self, row: Any) -> Hold:
        return Hold(
            id=row.id,
            code=code_of(row.lot_id),
            sort=row.sort,
            reason=row.reason,
            placed_by=self.initials(row.placed_by),
            placed_at=instant(row.placed_at),
            released_by=self.initials(row.released_by) if row.released_by else "",
            released_at=instant(row.released_at) if row.released_at else None,
            release_reason=row.release_reason,
        )

    def carcasses(self, ids: Sequence[int]) -> tuple[Carcass, ...]:
        """Whole animals with their paper, in the order of `ids`. What was read before is not read again."""
        new = [one for one in ids if one not in self._animals]
        for some in (new[at : at + _AT_ONCE] for at in range(0, len(new), _AT_ONCE)):
            self._animals.update(self._read_animals(some))
        return tuple(self._animals[one] for one in ids if one in self._animals)

    def _read_animals(self, ids: Sequence[int]) -> dict[int, Carcass]:
        lots = self.lots_by_id(ids)
        readings = look_carcasses.readings_of(self.connection, ids)
        findings = look_carcasses.findings_of(self.connection, ids)
        holds = look_carcasses.holds_of(self.connection, ids)
        answers = look_door.laboratory_of(self.connection, ids)
        return {
            row.lot_id: self._carcass(
                row,
                lots[row.lot_id],
                tuple(readings.get(row.lot_id, ())),
                findings.get(row.lot_id, []),
                holds.get(row.lot_id, []),
                answers.get(row.lot_id),
            )
            for row in look_carcasses.carcass_rows(self.connection, ids)
        }

    def _carcass(
        self,
        row: Any,
        lot: Lot,
        readings: tuple[tuple[str, int], ...],
        findings: list[Any],
        holds: list[Any],
        answer: Any,
    ) -> Carcass:
        basis, received = basis_from(row.basis), basis_from(row.received_basis)
        trained = self.cards.get(row.trained_person, {}).get("name", "")
        delivery = delivery_from_row(row, lot.place, trained, readings, {f.code: f.reason for f in findings})
        kind = species_called(row.species)
        killed_on = delivery.killed_on
        return Carcass(
            lot=lot,
            tag=row.tag,
            species=row.species,
            species_name=kind.name,
            sex=row.sex,
            age_class=age_name(kind.id, row.sex, row.age_class),
            count=row.count,
            origin=row.origin,
            origin_words=ORIGINS[row.origin],
            route=row.route,
            route_words=ROUTES[row.route],
            supplier=self.suppliers[row.supplier],
            received_at=instant(row.received_at),
            written_at=instant(row.written_at),
            dispatched_on=delivery.dispatched_on,
            killed_on=killed_on,
            kill_time=row.kill_time,
            kill_place=row.kill_place,
            has_declaration=bool(row.has_declaration),
            declaration_number=row.declaration_number,
            statements=statements(row),
            trained_person=trained or (FORGOTTEN if row.trained_person else ""),
            certificate_number=row.certificate_number,
            approval_number=row.approval_number,
            inspection_notes=row.inspection_notes,
            readings=readings,
            grams_received=row.grams_received,
            basis_words=received.words,
            supplier_grams=row.supplier_grams,
            pence_per_kg=row.pence_per_kg,
            decision=row.decision,
            decision_reason=row.decision_reason,
            received_by=self.initials(row.received_by),
            findings=tuple(Finding.from_dict(f._mapping) for f in findings),
            reasons={f.code: f.reason for f in findings if f.reason},
            evidence=evidence(delivery, answer.result, answer.reference) if answer else evidence(delivery),
            missing=() if row.decision == Decision.REJECT else still_missing(delivery) + unanswered(findings),
            in_skin=basis.in_skin,
            basis_now=basis.words,
            number_on=row.number_on,
            dressed_at=instant(row.dressed_at) if row.dressed_at else None,
            days_hung=(self.today - killed_on).days if killed_on else None,
            holds=tuple(self.hold(h) for h in holds),
        )


def statements(row: Any) -> tuple[Statement, ...]:
    """The three statements with the answer read on the card; all 'not stated' where there is no card."""
    if not row.has_declaration:
        return tuple(Statement(words, "no declaration") for _, words in STATEMENTS)
    return tuple(Statement(words, Answer(getattr(row, column)).value) for column, words in STATEMENTS)


def unanswered(findings: Sequence[Any]) -> tuple[str, ...]:
    """The findings that still wait for a reason."""
    return tuple(
        f"a reason: {row.sentence}" for row in findings if row.severity == Severity.ASK and not row.reason
    )
