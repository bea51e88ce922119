"""Shows the kitchen's cut tree of a kind and changes it, each change with its reason."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.block.cut_names_page import CutLine, CutNamesPage
from gametrace.domain.errors import Refusal
from gametrace.facts.cut_tree import CARCASS, tree_for
from gametrace.facts.species import all_species

_WHOLE = ("left-side", "right-side")


class CutNamesPresenter(QObject):
    """One page, one bench."""

    def __init__(self, page: CutNamesPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self.species = "roe"
        page.species_wanted.connect(self.show_kind)
        page.change_wanted.connect(self._change)
        page.as_before_wanted.connect(self._take_back)

    def show_kind(self, species: str) -> None:
        """The tree of this kind; the one shown before where none is said."""
        self.species = species or self.species
        self.page.set_kinds([(one.id, one.name) for one in all_species()], self.species)
        self.refresh()

    def refresh(self) -> None:
        own = self.bench.ask("cut_tree", self.species)
        changes = {one.cut: one for one in self.bench.ask("cut_changes", self.species)}
        facts, parents = tree_for(self.species), _parents(own)
        lines, seen = [], set()
        for cut in facts.walk():
            if cut.id in (CARCASS, *_WHOLE) or cut.id in seen:
                continue
            seen.add(cut.id)
            now, change = own.find(cut.id), changes.get(cut.id)
            parent = parents.get(cut.id, "")
            found = own.find(parent) if parent else None
            lines.append(
                CutLine(
                    id=cut.id,
                    name=now.name if now else cut.name,
                    said=cut.name,
                    parent=parent,
                    parent_name="not cut here" if now is None else found.name if found else "the carcass",
                    synonyms=", ".join((now or cut).synonyms),
                    change=f"{change.by}: {change.reason}" if change else "",
                    is_left_out=now is None,
                    own_synonyms=", ".join(change.synonyms) if change else "",
                    own_parent=change.parent if change else "",
                )
            )
        joints = [(one.id, one.name) for one in lines if one.parent == "" and not one.is_left_out]
        self.page.set_cuts(lines, joints)

    def _change(self) -> None:
        page, one = self.page, self.page.picked()
        if one is None:
            return
        page.clear_refusals()
        name = page.name.text().strip()
        self._do(
            cut=one.id,
            name="" if name == one.said else name,
            parent=page.parent_cut.value(),
            synonyms=page.synonyms.text().split(","),
            left_out=page.left_out.isChecked(),
        )

    def _take_back(self) -> None:
        if (one := self.page.picked()) is not None:
            self.page.clear_refusals()
            self._do(cut=one.id, as_before=True)

    def _do(self, **given: Any) -> None:
        done = self.bench.attempt(
            "change_cut",
            on_refusal=self._refuse,
            said="The cut tree is changed; what was weighed before keeps its name.",
            species=self.species,
            reason=self.page.reason.text(),
            key=uuid4().hex,
            **given,
        )
        if done is not None:
            self.refresh()

    def _refuse(self, refusal: Refusal) -> None:
        self.page.refuse(refusal.field, str(refusal))


def _parents(tree: Any) -> dict[str, str]:
    """What each cut is cut from; a joint of the carcass is cut from ''."""
    found: dict[str, str] = {}
    for cut in tree.walk():
        if cut.id in (CARCASS, *_WHOLE):
            continue
        for part in cut.parts:
            found[part.id] = cut.id
    return found
