"""The scale's end of the page: what goes into the tray, its weight very large, and how a pack is packed."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QCheckBox, QComboBox, QWidget

from gametrace.desktop.block.pad import BACK
from gametrace.desktop.block.scale_line import ScaleLine
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.loud import Loud
from gametrace.desktop.parts.sized import keep_height, keep_width
from gametrace.desktop.parts.words import Words, column, repolish, row, set_role
from gametrace.domain.scale_text import read_line

PACKED = (
    ("chilled-loose", "Chilled, loose"),
    ("vacuum", "Vacuum"),
    ("modified-atmosphere", "Modified air"),
    ("frozen", "Frozen"),
)
MODES = (("tray", "Trays"), ("packs", "Packs"))
NO_PLACE = "place not written down"


class PlaceBox(QComboBox):
    """A shelf, or not written down. `value()` is its code or ''."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.addItem(NO_PLACE, "")
        self.setMaxVisibleItems(10)

    def set_places(self, places: Sequence[tuple[str, str]]) -> None:
        """(code, words); the chosen one stays chosen."""
        kept = self.value()
        with QSignalBlocker(self):
            self.clear()
            self.addItem(NO_PLACE, "")
            for code, words in places:
                self.addItem(words, code)
        self.set_value(kept)

    def value(self) -> str:
        return self.currentData() or ""

    def set_value(self, code: str) -> None:
        self.setCurrentIndex(max(0, self.findData(code)))


class PackPanel(QWidget):
    """How it is packed, where it goes, how many of this weight, and the rule its date rests on.

    Signals: changed().
    """

    changed = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.packed = ChoiceRow(PACKED, value="vacuum", name="How it is packed")
        self.place = PlaceBox("Where the packs go")
        self.count = CountEdit("How many packs of this weight", most=100)
        keep_width(look, self.count.edit, 64)
        self.count.set_value(1)
        self.date = Words("", "strong")
        self.rule = Words("", "quiet")
        keep_height(look, self.rule, 46)
        self.rule.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.labels = QCheckBox("Print labels")
        self.labels.setAccessibleName("Print labels at once")
        self.labels.setChecked(True)
        self.count_words = Words("packs of this weight", wrap=False)
        second = row(self.place, self.count, self.count_words, 1, self.labels)
        second.setStretch(0, 3)
        keep_width(look, self.date, 250)
        self.setLayout(column(row(self.packed, self.date), second, self.rule, gap=8))
        self.packed.changed.connect(self.changed)

    def say_date(self, date: str, rule: str) -> None:
        self.date.say(date)
        self.rule.say(rule)


class Weighing(QWidget):
    """Signals: weigh_wanted(): Enter on the weight, or the button. changed(): another weight typed."""

    weigh_wanted = Signal()
    changed = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.what = Words("", "title")
        self.leaves = Words("", "quiet")
        self.said = Loud(look)
        self.grams = KiloEdit("Weight of the tray", big=True)
        self.grams.edit.setProperty("role", "weight")
        keep_width(look, self.grams, 264)
        self.scale = ScaleLine(look)
        self.weigh = BigButton("Weigh")
        self.weigh.setMinimumWidth(look.px(150))
        self.said.sign.hide()
        words = column(1, self.what, self.leaves, self.said, 1, gap=0)
        line = row(words, self.scale, self.grams, self.weigh)
        line.setStretch(0, 1)
        self.setLayout(line)
        self.setMinimumHeight(look.px(100))
        self.grams.entered.connect(self.weigh_wanted)
        self.grams.changed.connect(self.changed)
        self.grams.edit.textEdited.connect(self._typed)
        self.weigh.clicked.connect(self.weigh_wanted)
        self.setFocusProxy(self.grams)

    def say(self, what: str, leaves: str, role: str = "quiet") -> None:
        """What is meant now, and what it would leave."""
        self.what.say(what)
        self.leaves.say(leaves)
        set_role(self.leaves, role)
        self.leaves.setVisible(not self.said.text())

    def say_done(self, sentence: str) -> None:
        """Something done elsewhere on the page."""
        self.said.done(sentence)
        self.leaves.hide()

    def begin(self) -> None:
        """Another lot: nothing is said, nothing is wrong."""
        self.said.hush()
        self.mark(False)

    def refuse(self, sentence: str) -> None:
        """Nothing was written, nothing typed is lost."""
        self.said.refuse(sentence)
        self.leaves.hide()
        self.mark(True)
        self.grams.select()

    def acknowledge(self, sentence: str) -> None:
        """It is on disk: say so, and be ready for the next tray."""
        self.mark(False)
        self.grams.clear()
        self.say_done(sentence)

    def _typed(self, text: str) -> None:
        """What was said of the tray before is over as soon as a hand types the next."""
        self.mark(False)
        self.said.hush()
        self.leaves.show()
        self._read_pasted(text)

    def _read_pasted(self, text: str) -> None:
        """A whole line of a scale, or a weight in another unit, becomes kilograms."""
        if self.grams.value_or_none() is not None or (reading := read_line(text)) is None:
            return
        if reading.is_stable is False:
            self.refuse("That line says that the scale was still moving. Paste it once it stands still.")
        elif reading.grams > 0:
            self.put(reading.grams)

    def say_aside(self, sentence: str) -> None:
        """Something is amiss that has nothing to do with what is typed."""
        self.said.refuse(sentence)
        self.leaves.hide()

    def put(self, grams: int) -> None:
        """A weight from a scale: in the field, for the hand to weigh it."""
        self.grams.set_value(grams)
        self.mark(False)
        self.said.hush()
        self.leaves.show()
        self.changed.emit()
        self.grams.edit.setFocus()

    def strike(self, key: str) -> None:
        """A key of the number pad, as if it had been struck on the keyboard."""
        edit = self.grams.edit
        edit.setFocus()
        if key == BACK:
            edit.backspace()
        else:
            edit.insert(key)
        self._typed(edit.text())
        self.changed.emit()

    def mark(self, wrong: bool) -> None:
        if self.grams.edit.property("wrong") != wrong:
            self.grams.edit.setProperty("wrong", wrong)
            repolish(self.grams.edit)
