"""What the drawn trace shows: its nodes in layers, and the bands of grams between them.

The register says which lots there are, in which layer, and which grams went from where to where. Like lots
share one node where a layer would be too crowded. Nothing here knows where on the page a node stands.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field

from gametrace.documents.trace_folding import folded
from gametrace.documents.wording import kg
from gametrace.register.records import Trace, TraceLink, TraceLot

MOST_IN_A_LAYER = 7


@dataclass(slots=True)
class Node:
    """One lot of the drawing, or several alike."""

    words: str
    second: str
    state: str
    layer: int
    is_asked: bool = False
    grams_in: int = 0
    grams_out: int = 0

    @property
    def weight(self) -> int:
        """What its bar stands for: the larger of what came in and what went out."""
        return max(self.grams_in, self.grams_out, 1)


@dataclass(slots=True)
class Plan:
    nodes: dict[str, Node] = field(default_factory=dict)
    bands: dict[tuple[str, str], int] = field(default_factory=dict)  # (from node, to node) -> grams
    node_of: dict[str, str] = field(default_factory=dict)  # lot code -> node

    def layers(self) -> list[list[str]]:
        """Node keys, layer by layer from the animals on."""
        by_layer: dict[int, list[str]] = defaultdict(list)
        for key, node in self.nodes.items():
            by_layer[node.layer].append(key)
        return [by_layer[layer] for layer in sorted(by_layer)]

    def add(self, node: Node, codes: tuple[str, ...]) -> None:
        self.nodes[codes[0]] = node
        self.node_of |= dict.fromkeys(codes, codes[0])


def plan_of(trace: Trace) -> Plan:
    plan = Plan()
    _add_animals(plan, trace)
    _add_lots(plan, trace)
    for link in trace.links:
        start, end = plan.node_of.get(link.parent), plan.node_of.get(link.child)
        if start and end and start != end and link.grams > 0:
            plan.bands[start, end] = plan.bands.get((start, end), 0) + link.grams
    for (start, end), grams in plan.bands.items():
        plan.nodes[start].grams_out += grams
        plan.nodes[end].grams_in += grams
    return plan


def _add_animals(plan: Plan, trace: Trace) -> None:
    if len(trace.animals) > MOST_IN_A_LAYER:
        together = kg(sum(animal.grams for animal in trace.animals))
        codes = tuple(animal.code for animal in trace.animals)
        plan.add(Node(f"{len(codes)} animals", together, "", 0, trace.code in codes), codes)
        return
    for animal in trace.animals:
        second = f"{kg(animal.grams)} {animal.name}"
        plan.add(Node(animal.code, second, animal.state, 0, animal.code == trace.code), (animal.code,))


def _add_lots(plan: Plan, trace: Trace) -> None:
    """The lots on the way and after it, and the thing asked for, which the register lists apart."""
    lots = [lot for lot in (*trace.back, *trace.forward) if lot.code not in plan.node_of]
    by_layer: dict[int, list[TraceLot]] = defaultdict(list)
    for lot in lots:
        by_layer[lot.layer].append(lot)
    for layer, alike in sorted(by_layer.items()):
        asked = [lot for lot in alike if lot.code == trace.code]
        others = [lot for lot in alike if lot.code != trace.code]
        folds = (*folded(asked, 1), *folded(others, MOST_IN_A_LAYER - len(asked)))
        for fold in folds:
            one = f"{kg(fold.grams)} {fold.words}"
            words, second = (fold.codes[0], one) if fold.is_one else (fold.words, kg(fold.grams))
            plan.add(Node(words, second, fold.state, layer, trace.code in fold.codes), fold.codes)
    if trace.lot is not None and trace.code not in plan.node_of:
        second = f"{kg(trace.lot.grams_made)} {trace.name}"
        plan.add(Node(trace.code, second, trace.state, _asked_layer(trace), True), (trace.code,))


def _asked_layer(trace: Trace) -> int:
    """After its parents."""
    layers = {lot.code: lot.layer for lot in trace.back} | {animal.code: 0 for animal in trace.animals}
    return 1 + max(
        (layers[link.parent] for link in trace.links if _leads_to(link, trace, layers)), default=-1
    )


def _leads_to(link: TraceLink, trace: Trace, layers: dict[str, int]) -> bool:
    return link.child == trace.code and link.parent in layers
