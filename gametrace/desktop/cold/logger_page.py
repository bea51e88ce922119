"""A logger's file: which column is what, how the first lines would be understood, and what was left out."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLayout, QProgressBar, QWidget

from gametrace.desktop.delivery.fields import DropList
from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, clear, column, row, set_role, shown

SAME_CELL, FOUND_OUT = "none", "auto"
ZONES = (
    ("Europe/London", "the clock here"),
    ("UTC", "winter time (UTC)"),
    ("Etc/GMT-1", "summer time always"),
)
_FIXED = {
    "decimal": ((FOUND_OUT, "Point or comma"), (".", "A point: 3.5"), (",", "A comma: 3,5")),
    "unit": (("C", "°C"), ("F", "°F")),
    "time_zone": ZONES,
    "day_first": (("yes", "Day first: 25/11"), ("no", "Month first: 11/25")),
    "delimiter": (
        (FOUND_OUT, "Found out"),
        (";", "Semicolon ;"),
        (",", "Comma ,"),
        ("\t", "Tab"),
        ("|", "Bar |"),
    ),
}
_LABELS = {
    "time_column": "Time is in",
    "date_column": "The day is in",
    "temperature_column": "Degrees are in",
    "header_rows": "Lines before readings",
    "unit": "Degrees are",
    "decimal": "Figures are written with",
    "day_first": "Days are written",
    "time_zone": "The logger keeps",
    "delimiter": "Columns are parted by",
}


class LoggerPage(QWidget):
    """Signals: file_wanted(), changed(): a column was set otherwise, read_wanted(), stop_wanted(),
    import_wanted(), store_chosen(str)."""

    file_wanted = Signal()
    changed = Signal()
    read_wanted = Signal()
    stop_wanted = Signal()
    import_wanted = Signal()
    store_chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.store = ChoiceRow([], name="The store it hung in")
        self.choose = BigButton("Choose the logger's file")
        self.file = Words("", "quiet")
        self.drops = {name: DropList(label, _FIXED.get(name, ())) for name, label in _LABELS.items()}
        self.fields = {name: Field(_LABELS[name], drop, name=name) for name, drop in self.drops.items()}
        self.trouble = Words("", "amber")
        self.lines = QGridLayout()
        self.lines.setHorizontalSpacing(16)
        self.lines.setVerticalSpacing(2)
        self.lines.setColumnStretch(1, 1)
        self.read = BigButton("Read the whole file")
        self.bar = QProgressBar()
        self.bar.setAccessibleName("How much of the file is read")
        self.stop = Button("Stop")
        self.result = Words("", "strong")
        self.left_out = column(gap=4)
        self.take = BigButton("Put the readings in")
        self.setLayout(column(row(Words("Store", wrap=False), self.store, 1), self._halves(), gap=8))
        self.choose.clicked.connect(self.file_wanted)
        self.read.clicked.connect(self.read_wanted)
        self.stop.clicked.connect(self.stop_wanted)
        self.take.clicked.connect(self.import_wanted)
        self.store.changed.connect(self.store_chosen)
        for drop in self.drops.values():
            drop.picked.connect(self.changed)
        self.show_mapping(False)
        self.show_busy(False)
        self.show_result("", (), can_take=False)
        set_reading_order(self)

    def _halves(self):
        grid = QGridLayout()
        grid.setSpacing(8)
        for at, field in enumerate(self.fields.values()):
            grid.addWidget(field, at // 2, at % 2)
        self.form = QWidget()
        self.form.setLayout(grid)
        left, right = ScrollColumn(), ScrollColumn()
        for item in (self.choose, self.file, self.trouble, self.form):
            left.add(item)
        left.add_stretch()
        self.heading = Words("As the first lines would be understood", "heading")
        self.preview = QWidget()
        self.preview.setLayout(self.lines)
        self.lines.setContentsMargins(0, 0, 0, 0)
        on_the_right: tuple[QWidget | QLayout, ...] = (
            self.heading, self.preview, self.read, row(self.bar, self.stop), self.result, self.left_out,
            self.take,
        )  # fmt: skip
        for each in on_the_right:
            right.add(each)
        right.add_stretch()
        both = row(gap=24)
        both.addWidget(left, 4)
        both.addWidget(right, 5)
        return both

    def set_columns(self, names: Sequence[str], lines: int) -> None:
        """The columns the file has, by number and heading."""
        columns = [(str(at), f"{at + 1}: {shown(name, 24)}") for at, name in enumerate(names)]
        self.drops["time_column"].set_choices(columns)
        self.drops["temperature_column"].set_choices(columns)
        self.drops["date_column"].set_choices([(SAME_CELL, "the same"), *columns])
        self.drops["header_rows"].set_choices([(str(at), str(at)) for at in range(lines)])

    def show_lines(self, lines: Sequence[tuple[str, str, bool]]) -> None:
        """First lines as (number and text, what it would be, whether it is a reading)."""
        clear(self.lines)
        for at, (written, meant, is_read) in enumerate(lines):
            self.lines.addWidget(Words(written, "quiet", wrap=False), at, 0)
            self.lines.addWidget(Words(meant, "strong" if is_read else "amber"), at, 1)

    def show_mapping(self, is_there: bool) -> None:
        for widget in (self.form, self.heading, self.preview, self.read):
            widget.setVisible(is_there)

    def show_busy(self, is_busy: bool) -> None:
        self.bar.setVisible(is_busy)
        self.stop.setVisible(is_busy)
        self.read.setEnabled(not is_busy)
        self.take.setEnabled(not is_busy)

    def show_progress(self, done: int, total: int) -> None:
        self.bar.setRange(0, 1000 if total else 0)
        self.bar.setValue(done * 1000 // total if total else 0)

    def show_result(
        self, words: str, left_out: Sequence[str], *, can_take: bool, role: str = "strong"
    ) -> None:
        """What came out of the file, and every kind of thing that was left out."""
        self.result.say(words)
        set_role(self.result, role)
        self.result.setVisible(bool(words))
        clear(self.left_out)
        for line in left_out:
            self.left_out.addWidget(Words(line, "amber"))
        self.take.setVisible(can_take)
        if can_take:
            self.take.setFocus(Qt.FocusReason.OtherFocusReason)

    def say_trouble(self, words: str) -> None:
        self.trouble.say(words)
        self.trouble.setVisible(bool(words))
