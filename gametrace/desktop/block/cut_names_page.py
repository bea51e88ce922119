"""The kitchen's own cut tree of a kind of animal: each cut with its names and joint; one opens to change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QCheckBox, QLineEdit, QWidget

from gametrace.desktop.block.state_box import CodeBox
from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import ScrollColumn, Sheet
from gametrace.desktop.parts.table import Column, RecordTable
from gametrace.desktop.parts.words import Words, column, row


@dataclass(frozen=True, slots=True)
class CutLine:
    """One cut as the list shows it. `change` says what the kitchen changed and why; '' where nothing."""

    id: str
    name: str
    said: str  # the facts' own name
    parent: str
    parent_name: str
    synonyms: str
    change: str
    is_left_out: bool
    own_synonyms: str = ""
    own_parent: str = ""


class CutNamesPage(QWidget):
    """Signals: change_wanted(): of the one picked. as_before_wanted(). back_wanted(). species_wanted(str)."""

    change_wanted = Signal()
    as_before_wanted = Signal()
    back_wanted = Signal()
    species_wanted = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown: CutLine | None = None
        self.back = Button("Back to the block")
        self.species = CodeBox("Which kind of animal", "choose a kind")
        self.table = RecordTable(
            look,
            "Cuts",
            (
                Column("name", "Cut", lambda one: one.name, 180),
                Column("parent", "Cut from", lambda one: one.parent_name, 150),
                Column("synonyms", "Also called", lambda one: one.synonyms),
                Column("change", "Changed here", lambda one: one.change, 190),
            ),
            lambda one: one.id,
        )
        self.name, self.synonyms, self.reason = QLineEdit(), QLineEdit(), QLineEdit()
        for edit, most in ((self.name, 40), (self.synonyms, 300), (self.reason, 500)):
            edit.setMaxLength(most)
        self.synonyms.setPlaceholderText("with commas between")
        self.parent_cut = CodeBox("Cut from", "as it is")
        self.left_out = QCheckBox("Not cut here")
        self.left_out.setAccessibleName("Not cut in this kitchen")
        self.said = Words("", "quiet")
        self.change = BigButton("Change it")
        self.as_before = Button("As it was before")
        self.fields = {
            "name": Field("What this kitchen calls it", self.name, name="name"),
            "synonyms": Field("Other names, to be found by", self.synonyms, name="synonyms"),
            "parent": Field("Which joint it is cut from", self.parent_cut, name="parent"),
            "reason": Field("Why", self.reason, name="reason"),
        }
        self._build(look)
        self.back.clicked.connect(self.back_wanted)
        self.change.clicked.connect(self.change_wanted)
        self.reason.returnPressed.connect(self.change_wanted)
        self.as_before.clicked.connect(self.as_before_wanted)
        self.species.activated.connect(self._kind_chosen)
        self.table.moved.connect(self._show)
        self.table.chosen.connect(self._into_form)
        set_reading_order(self)
        self.setFocusProxy(self.back)

    def _build(self, look: Look) -> None:
        self.sheet = Sheet("")
        self.sheet.add(self.said)
        for name in ("name", "synonyms", "parent"):
            self.sheet.add(self.fields[name])
        self.sheet.add(self.left_out)
        self.sheet.add(self.fields["reason"])
        self.sheet.add(row(self.change, self.as_before, 1))
        self.sheet.add_stretch()
        right = ScrollColumn()
        right.add(self.sheet)
        right.add_stretch()
        both = row(gap=24)
        both.addWidget(self.table, 7)
        both.addWidget(right, 5)
        hint = Words("What was weighed before keeps the name it had.", "quiet")
        whole = column(row(self.back, self.species, hint, gap=8), both)
        whole.setStretch(1, 1)
        whole.itemAt(0).layout().setStretch(2, 1)
        self.setLayout(whole)

    def set_kinds(self, kinds: Sequence[tuple[str, str]], chosen: str) -> None:
        self.species.set_choices(kinds)
        self.species.set_value(chosen)

    def set_cuts(self, cuts: Sequence[CutLine], joints: Sequence[tuple[str, str]]) -> None:
        """The cuts, and what one may be cut from; the picked one stays picked."""
        self.parent_cut.set_choices(joints)
        with QSignalBlocker(self.table):  # for a moment nothing is picked: the form must not go for it
            self.table.set_records(cuts)
        if self.table.current() is None and cuts:
            self.table.selectRow(0)
        self._show(self.table.current())

    def picked(self) -> CutLine | None:
        return self.table.current()

    def refuse(self, field: str, sentence: str) -> None:
        refuse_at(self.fields.get(field, self.fields["reason"]), sentence)

    def clear_refusals(self) -> None:
        for field in self.fields.values():
            field.clear_refusal()

    def _kind_chosen(self) -> None:
        self.species_wanted.emit(self.species.value())

    def _into_form(self, _one: object) -> None:
        self.name.setFocus()
        self.name.selectAll()

    def _show(self, one: CutLine | None) -> None:
        """Another cut, or one that has changed; read anew and alike, what is half typed stays."""
        self.sheet.setVisible(one is not None)
        if one is None or one == self._shown:
            return
        self._shown = one
        self.clear_refusals()
        self.sheet.say_title(one.name)
        own = one.change or "Nothing of it is changed here."
        self.said.say(f"{own} Its usual name is {one.said}." if one.said != one.name else own)
        self.name.setText(one.name)
        self.synonyms.setText(one.own_synonyms)
        self.parent_cut.set_value(one.own_parent)
        self.left_out.setChecked(one.is_left_out)
        self.reason.clear()
        self.as_before.setVisible(bool(one.change))
