"""The two questions: where is this from, and where is the rest. Exact shares, whole grams that add up."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from gametrace.domain.codes import code_of, lot_id_of
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.lineage import Edge, amounts_from, whole_grams
from gametrace.domain.lots import LotKind
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.register.assembling import Assembler
from gametrace.register.clock import iso_day_text
from gametrace.register.finding_things import Match, resolve
from gametrace.register.gone_to import gone_to
from gametrace.register.opening import Register
from gametrace.register.records import (
    Balance,
    BalanceRow,
    Carcass,
    Lot,
    Trace,
    TraceAnimal,
    TraceLink,
    TraceLot,
)
from gametrace.store import lineage, look_lots

# The lines of a balance in the order meat leaves the animal; every lot falls into exactly one.
_IN_STOCK, _SERVED, _UNWEIGHED = "in stock", "served", "on the block, still unweighed"
_ROW_OF_KIND = {
    LotKind.DISH: _SERVED,
    LotKind.BY_PRODUCT: "by-products",
    LotKind.WASTE: "condemned and binned",
    LotKind.DRYING: "drying",
    LotKind.RETURNED: "back to the supplier",
    LotKind.ISSUED: "issued to classes and restaurants",
    LotKind.SUPPLIED: "supplied to other businesses",
}
_ROWS = (
    _IN_STOCK,
    _SERVED,
    "issued to classes and restaurants",
    "supplied to other businesses",
    "by-products",
    "condemned and binned",
    "drying",
    "back to the supplier",
    _UNWEIGHED,
)


def trace(register: Register, text: str) -> Trace:
    """Trace whatever the text names: a lot code, a supplier's tag, a declaration, a dish, a supplier.

    Refuses text that names nothing or, with the candidates, text that names several things.
    """
    with register.store.reading() as connection:
        read = Assembler(connection, register.today())
        return trace_of(read, resolve(read, text))


def trace_of(read: Assembler, match: Match) -> Trace:
    """The trace of what was already found."""
    return _Walk(read, match).trace()


@dataclass(slots=True)
class _Graph:
    above: list[Edge]
    below: list[Edge]
    grams_in: dict[int, int]


class _Walk:
    """One trace: fetch the edges once, then only exact arithmetic."""

    def __init__(self, read: Assembler, match: Match) -> None:
        self.read = read
        self.match = match
        connection = read.connection
        start = list(match.lots)
        above = lineage.edges_above(connection, start)
        below = lineage.edges_below(connection, start)
        ids = {*start, *(i for e in (*above, *below) for i in (e.parent, e.child))}
        self.graph = _Graph(above, below, lineage.grams_in_of(connection, ids))
        self.lots = read.lots_by_id(ids)
        self.rows = {row.id: row for row in look_lots.lot_rows(connection, ids)}
        self.dishes = look_lots.dish_details(connection, ids)
        self.gone = gone_to(read, ids)
        self.besides: dict[int, list[str]] = defaultdict(list)
        for row in look_lots.ingredients_of(connection, ids):
            packet = f" (lot {row.packet_lot})" if row.packet_lot else ""
            self.besides[row.lot_id].append(f"{kg_to_the_gram(row.grams)} of {row.name}{packet}")

    def trace(self) -> Trace:
        starts = self.match.lots
        animals = self._animals()
        is_animal = all(self.rows[lot].kind in (LotKind.CARCASS, LotKind.BATCH) for lot in starts)
        layers = self._layers()
        first = self.lots[starts[0]] if starts else None
        single = first if len(starts) == 1 else None
        return Trace(
            code=single.code if single else self.match.code,
            kind=single.kind if single and self.match.kind != "supplier" else self.match.kind,
            name=self.match.words if not single or self.match.kind == "supplier" else single.name,
            state=single.state if single else "",
            animals=animals,
            back=self._back(layers),
            forward=self._forward(layers),
            links=tuple(
                TraceLink(code_of(e.parent), code_of(e.child), e.grams)
                for e in sorted({*self.graph.above, *self.graph.below})
            ),
            balance=self._balance() if is_animal and starts else None,
            findings=self._findings(),
            lot=single,
        )

    @cached_property
    def _papers(self) -> dict[int, Carcass]:
        """The paper of every animal in the graph, read once."""
        ids = sorted(lot for lot, row in self.rows.items() if row.kind in (LotKind.CARCASS, LotKind.BATCH))
        return {lot_id_of(one.code): one for one in self.read.carcasses(ids)}

    def _animals(self) -> tuple[TraceAnimal, ...]:
        """Each animal with its exact share of the meat; grams are whole and add up to the meat traced.

        What is in it besides meat has no animal: it dilutes the grams and leaves the shares as they are.
        """
        given = self._given_to_start()
        born = {edge.child for edge in self.graph.above}
        meat = {lot: amount for lot, amount in given.items() if lot not in born}
        total = sum(meat.values())
        shares = {lot: amount / total for lot, amount in meat.items()} if total else {}
        came_in = sum(self.rows[lot].grams_in for lot in self.match.lots)
        made = sum(self.rows[lot].grams_made for lot in self.match.lots)
        all_meat = round(Fraction(made) * total / came_in) if came_in else 0
        grams = whole_grams({animal: share * all_meat for animal, share in shares.items()}, all_meat)
        return tuple(
            _animal(self._papers[animal], grams[animal], shares[animal])
            for animal in sorted(shares, key=lambda one: (-shares[one], one))
            if animal in self._papers
        )

    def _layers(self) -> dict[int, int]:
        """How many steps each lot lies from the animals, for drawing."""
        layer: dict[int, int] = dict.fromkeys(self.rows, 0)
        for edge in sorted({*self.graph.above, *self.graph.below}, key=lambda e: e.child):
            layer[edge.child] = max(layer[edge.child], layer[edge.parent] + 1)
        return layer

    def _back(self, layers: dict[int, int]) -> tuple[TraceLot, ...]:
        ids = {e.parent for e in self.graph.above} - {
            lot for lot in self.rows if self.rows[lot].kind in (LotKind.CARCASS, LotKind.BATCH)
        }
        given = self._given_to_start()
        return tuple(self._line(lot, given.get(lot, Fraction(0)), layers) for lot in sorted(ids))

    def _given_to_start(self) -> dict[int, Fraction]:
        """How much of each lot above ended in what was traced: walked up in proportion."""
        amount: dict[int, Fraction] = {lot: Fraction(self.rows[lot].grams_in) for lot in self.match.lots}
        a_gram: dict[int, Fraction] = {}  # of a child: the part of it that is traced, worked out once
        for edge in sorted(self.graph.above, key=lambda e: (e.child, e.parent), reverse=True):
            if edge.child in amount and self.graph.grams_in[edge.child]:
                if edge.child not in a_gram:
                    a_gram[edge.child] = amount[edge.child] / self.graph.grams_in[edge.child]
                part = a_gram[edge.child] * edge.grams
                amount[edge.parent] = amount[edge.parent] + part if edge.parent in amount else part
        return amount

    def _amounts(self) -> dict[int, Fraction]:
        source = {lot: Fraction(self.rows[lot].grams_in) for lot in self.match.lots}
        return amounts_from(source, self.graph.below, self.graph.grams_in)

    def _forward(self, layers: dict[int, int]) -> tuple[TraceLot, ...]:
        amounts = self._amounts()
        ids = {e.child for e in self.graph.below}
        if self.match.kind == "supplier" or len(self.match.lots) > 1:
            ids |= set(self.match.lots)
        return tuple(self._line(lot, amounts.get(lot, Fraction(0)), layers) for lot in sorted(ids))

    def _line(self, lot: int, amount: Fraction, layers: dict[int, int]) -> TraceLot:
        shown = self.lots[lot]
        return TraceLot(
            code=shown.code,
            kind=shown.kind,
            name=shown.name,
            grams=self.rows[lot].grams_made,
            grams_from=round(amount),
            state=shown.state,
            where=self._where(lot, shown),
            when=shown.made_at,
            layer=layers[lot],
            detail=self._detail(lot),
        )

    def _where(self, lot: int, shown: Lot) -> str:
        if dish := self.dishes.get(lot):
            return f"{dish.occasion}, {iso_day_text(dish.on_day)}"
        return self.gone.get(lot, shown.where)

    def _detail(self, lot: int) -> str:
        if dish := self.dishes.get(lot):
            day = iso_day_text(dish.on_day)
            return f"{dish.portions} portions for {dish.occasion_kind} {dish.occasion}, {day}"
        if besides := self.besides.get(lot):
            return f"with {', '.join(besides)}"
        return str(self.rows[lot].note)

    def _balance(self) -> Balance:
        """Where every gram of the animals is; the lines and the unaccounted add up to what was received."""
        sums: dict[str, Fraction] = dict.fromkeys(_ROWS, Fraction(0))
        codes: dict[str, list[str]] = {name: [] for name in _ROWS}
        lost, lost_from = Fraction(0), []
        for lot, amount in sorted(self._amounts().items()):
            row = self.rows[lot]
            part = amount / row.grams_in
            lost += part * row.unaccounted
            if row.unaccounted:
                lost_from.append(code_of(lot))
            if row.grams_left:
                name = _ROW_OF_KIND.get(row.kind, _UNWEIGHED if row.status == "open" else _IN_STOCK)
                sums[name] += part * row.grams_left
                codes[name].append(code_of(lot))
        received = sum(self.rows[lot].grams_in for lot in self.match.lots)
        whole = whole_grams(dict(enumerate((*sums.values(), lost))), received)
        lines = tuple(
            BalanceRow(name, whole[position], tuple(codes[name]))
            for position, name in enumerate(_ROWS)
            if whole[position] or codes[name]
        )
        missing = whole[len(_ROWS)]
        unweighed = whole[_ROWS.index(_UNWEIGHED)]
        return Balance(
            received_grams=received,
            accounted_grams=received - missing - unweighed,
            unaccounted_grams=missing + unweighed,
            rows=(*lines, BalanceRow("unaccounted", missing, tuple(lost_from))),
        )

    def _findings(self) -> tuple[Finding, ...]:
        """What a person should know about what was traced: stops, dates, unanswered questions."""
        found = [
            Finding(
                "lot-stopped",
                Severity.STOP,
                f"{lot.state_reason}.",
                "It may not go to a plate.",
                "the register",
            )
            for lot in (self.lots[start] for start in self.match.lots)
            if lot.state_reason
        ]
        for lot in sorted(self._first_ancestors()):
            animal = self._papers[lot]
            found += [
                Finding(f.code, f.severity, f"{animal.code}: {f.sentence}", f.what_to_do, f.source, f.status)
                for f in animal.findings
                if f.severity is not Severity.NOTE
            ]
        return tuple(found)

    def _first_ancestors(self) -> set[int]:
        return {lot for lot, row in self.rows.items() if row.kind in (LotKind.CARCASS, LotKind.BATCH)} & {
            *self.match.lots,
            *(e.parent for e in self.graph.above),
        }


def _animal(paper: Carcass, grams: int, share: Fraction) -> TraceAnimal:
    if paper.has_declaration:
        declaration = paper.declaration_number or "without a number"
    else:
        lawful = "lawfully absent" in paper.evidence
        declaration = "none, lawfully absent" if lawful else f"none; papers: {paper.evidence}"
    return TraceAnimal(
        code=paper.code,
        tag=paper.tag,
        name=paper.title,
        species=paper.species,
        sex=paper.sex,
        origin_type=paper.origin,
        killed_at=paper.killed_at,
        place=paper.kill_place,
        supplier=paper.supplier.name,
        supplier_address=paper.supplier.address,
        declaration=declaration,
        statements=paper.statements,
        grams=grams,
        share=share,
        state=paper.lot.state,
    )
