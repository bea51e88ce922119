"""Packs in one go: how many, about how many portions, each weighed or all alike, and the pad for a glove."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QWidget

from gametrace.desktop.block.pad import BACK, NumberPad
from gametrace.desktop.block.trays import TrayList
from gametrace.desktop.block.weighing import PACKED, PlaceBox
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.sized import keep_width
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.style import APART, GAP

MODES = (("each", "Each weighed"), ("alike", "All alike"))
MOST_PACKS, MOST_PORTIONS = 500, 1_000


class PackingPage(QWidget):
    """Signals: pack_wanted(): Enter on the weight, or the button. labels_wanted(). left(). changed()."""

    pack_wanted = Signal()
    labels_wanted = Signal()
    left = Signal()
    changed = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name, self.about = Words("", "title", wrap=False), Words("", "quiet")
        self.back = Button("Back to the block")
        self.mode = ChoiceRow(MODES, value="each", name="How they are weighed")
        self.count = CountEdit("How many packs", most=MOST_PACKS)
        self.count_field = Field("How many packs", self.count, name="count")
        self.portions = CountEdit("About how many portions in a pack", most=MOST_PORTIONS)
        self.portions_field = Field("Portions each", self.portions, name="portions")
        self.packed = ChoiceRow(PACKED, value="vacuum", name="How they are packed", columns=2)
        self.place = PlaceBox("Where the packs go")
        self.place_field = Field("Where they go", self.place, name="place")
        self.date, self.rule = Words("", "strong"), Words("", "quiet")
        self.grams = KiloEdit("Weight of the pack", big=True)
        self.grams.edit.setProperty("role", "weight")
        self.what, self.leaves = Words("", "heading"), Words("", "quiet")
        self.pad = NumberPad(look)
        self.pack = BigButton("Weigh")
        self.loud = Loud(look)
        self.so_far = Words("", "heading")
        self.packs = TrayList(look, "Packs made in this go")
        self.labels = QCheckBox("Print the labels with the last pack")
        self.labels.setAccessibleName("Print the labels with the last pack")
        self.labels.setChecked(True)
        self.print = Button("Print their labels")
        self._build(look)
        self._connect()
        self.setFocusProxy(self.count)

    def _build(self, look: Look) -> None:
        head = row(column(self.name, self.about, gap=0), self.back)
        head.setStretch(0, 1)
        form = ScrollColumn()
        form.add(self.mode)
        form.add(row(self.count_field, self.portions_field, gap=8))
        for part in (self.packed, self.place_field, column(self.date, self.rule, gap=0)):
            form.add(part)
        form.add_stretch()
        keep_width(look, form, 380)
        middle = column(self.what, self.grams, self.leaves, self.pad, self.pack, gap=8)
        middle.setStretch(3, 1)
        right = column(self.loud, self.so_far, self.packs, self.labels, self.print, gap=8)
        right.setStretch(2, 1)
        body = row(form, middle, right, gap=APART)
        body.setStretch(1, 5)
        body.setStretch(2, 5)
        self.setLayout(column(head, body, gap=GAP))
        self.layout().setStretch(1, 1)

    def _connect(self) -> None:
        self.mode.changed.connect(self._mode_chosen)
        self.count.entered.connect(self.portions.select)
        self.portions.edit.returnPressed.connect(self.grams.select)
        self.pack.clicked.connect(self.pack_wanted)
        self.print.clicked.connect(self.labels_wanted)
        self.back.clicked.connect(self.left)
        self.pad.struck.connect(self._struck)
        for part in (self.count, self.portions, self.grams, self.packed):
            part.changed.connect(self.changed)
        self.grams.edit.textEdited.connect(self._typed)
        self.grams.edit.returnPressed.connect(self._entered)

    def is_alike(self) -> bool:
        return self.mode.value() == "alike"

    def _mode_chosen(self) -> None:
        self.pack.setText("Pack them" if self.is_alike() else "Weigh")
        self.pack.setAccessibleName(self.pack.text())
        self.changed.emit()

    def _struck(self, key: str) -> None:
        """A key of the pad goes where the hand is, or to the weight."""
        edit = next((one.edit for one in (self.count, self.portions) if one.edit.hasFocus()), self.grams.edit)
        edit.backspace() if key == BACK else edit.insert(key)
        edit.textEdited.emit(edit.text())

    def _typed(self) -> None:
        self.loud.hush()

    def _entered(self) -> None:
        """Enter weighs. On nothing it shares out all that is left, where all are alike."""
        if self.is_alike() or self.grams.text().strip():
            self.pack_wanted.emit()

    def refuse(self, field: str, sentence: str) -> None:
        """At its field where it has one; nothing typed is lost."""
        for one in (self.count_field, self.portions_field, self.place_field):
            one.clear_refusal()
            if one.objectName() == field or getattr(one, "name", "") == field:
                one.refuse(sentence)
                return
        self.loud.refuse(sentence)
        self.grams.select()

    def keyPressEvent(self, event) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
            return
        super().keyPressEvent(event)
