"""A kitchen's own changes to a cut tree: another name, another joint it is cut from, or not cut here at all.

Each change has a reason and who made it. The facts stay as they are; the changes are laid over them.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from gametrace.domain.errors import Refusal
from gametrace.facts.cut_tree import CARCASS, Cut, tree_for


@dataclass(frozen=True, slots=True)
class CutChange:
    """One change. An empty `name` or `parent` keeps what the facts say; `synonyms` are added."""

    cut: str
    reason: str
    by: str
    name: str = ""
    parent: str = ""
    synonyms: tuple[str, ...] = ()
    left_out: bool = False


def kitchen_tree(species: str, changes: Iterable[CutChange]) -> Cut:
    """The tree of a kind with the kitchen's changes laid over it, in their order."""
    tree = tree_for(species)
    for change in changes:
        tree = _changed(tree, change)
    return tree


def _changed(tree: Cut, change: CutChange) -> Cut:
    cut = _checked(tree, change)
    if change.left_out:
        return _without(tree, cut.id)
    words = (*cut.synonyms, *(word for word in change.synonyms if word not in cut.synonyms))
    renamed = replace(cut, name=change.name.strip() or cut.name, synonyms=words)
    if not change.parent:
        return _with(tree, cut.id, renamed)
    parent = tree.find(change.parent)
    if parent is None or cut.find(change.parent) is not None:
        raise Refusal(
            f"'{change.parent}' cannot be what {cut.name} is cut from.",
            "Choose a joint of this animal that does not itself come from it.",
            "parent",
        )
    return _under(_without(tree, cut.id), change.parent, renamed)


def _checked(tree: Cut, change: CutChange) -> Cut:
    if not change.reason.strip() or not change.by.strip():
        raise Refusal("A change of the cut tree needs a reason and a name.", "Write both.", "reason")
    cut = tree.find(change.cut)
    if cut is None or cut.id == CARCASS:
        raise Refusal(f"'{change.cut}' is not a cut of this animal.", "Choose one from its tree.", "cut")
    return cut


def _without(tree: Cut, cut_id: str) -> Cut:
    return replace(tree, parts=tuple(_without(part, cut_id) for part in tree.parts if part.id != cut_id))


def _with(tree: Cut, cut_id: str, cut: Cut) -> Cut:
    if tree.id == cut_id:
        return cut
    return replace(tree, parts=tuple(_with(part, cut_id, cut) for part in tree.parts))


def _under(tree: Cut, parent_id: str, cut: Cut) -> Cut:
    parts = tuple(_under(part, parent_id, cut) for part in tree.parts)
    return replace(tree, parts=(*parts, cut) if tree.id == parent_id else parts)
