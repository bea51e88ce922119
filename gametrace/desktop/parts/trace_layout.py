"""Where everything in a trace stands: columns from animals to plates, fans of one kind folded into one.

Pure: records in, places out. `trace_picture` draws it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from gametrace.domain.quantities import kg_text
from gametrace.register.records import Trace

FOLD_OVER = 8  # a fan of more than this many of one kind is drawn as one
_LAST = {"issued": 1, "supplied": 2, "by-product": 3, "waste": 4, "drying": 5, "returned": 6}
_PLURALS = {"carcass": "carcasses", "batch": "batches", "mix": "mixes", "dish": "dishes", "waste": "waste"}


@dataclass(frozen=True, slots=True)
class Node:
    """One thing in the picture; or a fan, when it has `members`."""

    key: str
    kind: str
    words: str
    second: str
    grams: int
    state: str
    members: tuple[str, ...] = ()
    is_traced: bool = False

    @property
    def sentence(self) -> str:
        """What it says to an ear."""
        return f"{self.words}, {self.second}, {self.state}"


@dataclass(frozen=True, slots=True)
class Line:
    """Grams that went from one thing into another."""

    parent: str
    child: str
    grams: int


@dataclass(frozen=True, slots=True)
class Picture:
    """Columns of nodes, animals first, and the lines between them."""

    columns: tuple[tuple[Node, ...], ...]
    lines: tuple[Line, ...]

    def node(self, key: str) -> Node | None:
        return next((node for column in self.columns for node in column if node.key == key), None)

    def children(self, key: str) -> list[Line]:
        """Lines onward, thickest first."""
        return sorted((line for line in self.lines if line.parent == key), key=_thickness)

    def parents(self, key: str) -> list[Line]:
        """Lines back, thickest first."""
        return sorted((line for line in self.lines if line.child == key), key=_thickness)


def lay_out(trace: Trace, unfolded: frozenset[str] = frozenset()) -> Picture:
    """The picture of a trace. `unfolded` names fans that are drawn in full."""
    nodes = {node.key: node for node in _nodes(trace)}
    lines = [
        Line(link.parent, link.child, link.grams)
        for link in trace.links
        if link.parent in nodes and link.child in nodes
    ]
    depth = _depths(nodes, lines)
    nodes, lines, depth = _folded(nodes, lines, depth, unfolded, trace.code)
    return Picture(_ordered(nodes, lines, depth), tuple(lines))


def _nodes(trace: Trace) -> Iterable[Node]:
    seen: set[str] = set()
    for animal in trace.animals:
        seen.add(animal.code)
        second = f"{animal.code} · {kg_text(animal.grams)}"
        yield Node(
            animal.code,
            "carcass",
            animal.name,
            second,
            animal.grams,
            animal.state,
            (),
            animal.code == trace.code,
        )
    for lot in (*trace.back, *trace.forward):
        if lot.code in seen:
            continue
        seen.add(lot.code)
        second = f"{lot.code} · {kg_text(lot.grams_from)}"
        yield Node(
            lot.code, lot.kind, lot.name, second, lot.grams_from, lot.state, (), lot.code == trace.code
        )
    own = trace.lot
    if own is not None and trace.code not in seen:
        second = f"{own.code} · {kg_text(own.grams_made)}"
        yield Node(own.code, own.kind, own.name, second, own.grams_made, own.state, (), True)


def _depths(nodes: dict[str, Node], lines: list[Line]) -> dict[str, int]:
    """The longest way from an animal, which is the column; plates stand in the last one."""
    children: dict[str, list[str]] = defaultdict(list)
    waits = dict.fromkeys(nodes, 0)
    for line in lines:
        children[line.parent].append(line.child)
        waits[line.child] += 1
    depth = dict.fromkeys(nodes, 0)
    ready = [key for key, count in waits.items() if count == 0]
    while ready:
        key = ready.pop()
        for child in children[key]:
            depth[child] = max(depth[child], depth[key] + 1)
            waits[child] -= 1
            if waits[child] == 0:
                ready.append(child)
    last = max(depth.values(), default=0)
    plates = (key for key, node in nodes.items() if node.kind == "dish" and not children[key])
    return depth | dict.fromkeys(plates, last)


def _folded(nodes, lines, depth, unfolded, traced):
    """Fans of one kind out of the same parents become one node; their lines are added up."""
    goes_to = {key: key for key in nodes}
    parents_of: dict[str, set[str]] = defaultdict(set)
    for line in lines:
        parents_of[line.child].add(line.parent)
    kept: dict[str, Node] = {}
    kept_depth: dict[str, int] = {}
    for column in range(max(depth.values(), default=-1) + 1):
        fans: dict[str, list[str]] = defaultdict(list)
        for key in (key for key in nodes if depth[key] == column):
            mapped = "+".join(sorted({goes_to[parent] for parent in parents_of[key]}))
            fans[f"{mapped}|{nodes[key].kind}|{nodes[key].state}"].append(key)
        for fan, keys in fans.items():
            if len(keys) <= FOLD_OVER or fan in unfolded or traced in keys:
                kept.update({key: nodes[key] for key in keys})
                kept_depth.update(dict.fromkeys(keys, column))
                continue
            kept[fan] = _fan(fan, [nodes[key] for key in keys])
            kept_depth[fan] = column
            goes_to.update(dict.fromkeys(keys, fan))
    totals: dict[tuple[str, str], int] = defaultdict(int)
    for line in lines:
        totals[goes_to[line.parent], goes_to[line.child]] += line.grams
    return kept, [Line(parent, child, grams) for (parent, child), grams in totals.items()], kept_depth


def _fan(key: str, members: list[Node]) -> Node:
    kind, state = members[0].kind, members[0].state
    grams = sum(member.grams for member in members)
    names = {member.words for member in members}
    words = f"{len(members)} {_PLURALS.get(kind, kind + 's')}"
    if len(names) == 1:
        words = f"{len(members)} × {names.pop()}"
    return Node(key, kind, words, kg_text(grams), grams, state, tuple(member.key for member in members))


def _ordered(
    nodes: dict[str, Node], lines: list[Line], depth: dict[str, int]
) -> tuple[tuple[Node, ...], ...]:
    """Each column in the order of its parents, so that lines cross little; what is not meat at the foot."""
    columns: list[list[str]] = [[] for _ in range(max(depth.values(), default=-1) + 1)]
    for key in nodes:
        columns[depth[key]].append(key)
    place: dict[str, float] = {}
    parents: dict[str, list[Line]] = defaultdict(list)
    for line in lines:
        parents[line.child].append(line)
    for column in columns:
        weights = {key: _middle(parents[key], place) for key in column}
        column.sort(key=lambda key: (_LAST.get(nodes[key].kind, 0), weights[key], -nodes[key].grams))
        place.update({key: at / max(1, len(column)) for at, key in enumerate(column)})
    return tuple(tuple(nodes[key] for key in column) for column in columns)


def _middle(lines: list[Line], place: dict[str, float]) -> float:
    total = sum(line.grams for line in lines)
    if not total:
        return 0.0
    return sum(place.get(line.parent, 0.0) * line.grams for line in lines) / total


def _thickness(line: Line) -> int:
    return -line.grams
