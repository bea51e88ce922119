"""A dish and its price: what went in and what it cost, and what is left of the price without VAT."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QWidget

from gametrace.desktop.costs.price_bar import Part, PriceBar
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.count_edit import CountEdit
from gametrace.desktop.parts.kilo_edit import PenceEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.refusing import refuse_at
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, clear, column, row

Line = tuple[str, str, str]  # words, weight, pounds


class DishPage(QWidget):
    """Signals: keep_wanted()."""

    keep_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.headline = Words("", "large")
        self.figures = QGridLayout()
        self.figures.setHorizontalSpacing(28)
        self.figures.setVerticalSpacing(0)
        self.unknown = Words("", "amber")
        self.lines = QGridLayout()
        self.lines.setHorizontalSpacing(16)
        self.notes = Words("", "quiet")
        self.bar = PriceBar(look)
        self.price = PenceEdit("Price of a portion, VAT in it", unit="£")
        self.vat = QLineEdit()
        self.vat.setMaxLength(6)
        self.other = PenceEdit("All else on the plates", unit="£")
        self.heads = CountEdit("Students")
        self.reason = QLineEdit()
        self.reason.setMaxLength(300)
        self.fields = {
            "price_pence": Field("Price of a portion, VAT in it", self.price, name="price_pence"),
            "vat_hundredths": Field("VAT, per cent (0 where there is none)", self.vat, name="vat_hundredths"),
            "heads": Field("Students who share it", self.heads, name="heads"),
            "other_pence": Field("All else on the plates together, if known", self.other, name="other_pence"),
            "reason": Field("Why is it another price now?", self.reason, name="reason"),
        }
        self.keep = BigButton("Keep this price")
        left, right = ScrollColumn(), ScrollColumn()
        for item in (self.headline, self.figures, self.unknown, self.lines, self.notes):
            left.add(item)
        left.add_stretch()
        for field in self.fields.values():
            right.add(field)
        right.add(self.keep)
        right.add(self.bar)
        right.add_stretch()
        right.setFixedWidth(look.px(460))
        both = row(left, right, gap=32)
        both.setStretch(0, 1)
        self.setLayout(column(both))
        self.keep.clicked.connect(self.keep_wanted)
        for edit in (self.price, self.other, self.heads):
            edit.entered.connect(self._on)
        self.vat.returnPressed.connect(self._on)
        self.reason.returnPressed.connect(self._on)

    def show_dish(
        self,
        headline: str,
        figures: Sequence[tuple[str, str]],
        unknown: str,
        lines: Sequence[Line],
        notes: str,
    ) -> None:
        self.headline.say(headline)
        clear(self.figures)
        for at, (figure, words) in enumerate(figures):
            self.figures.addWidget(Words(figure, "title", wrap=False), at // 3 * 2, at % 3)
            self.figures.addWidget(Words(words, "quiet", wrap=False), at // 3 * 2 + 1, at % 3)
        self.figures.setColumnStretch(3, 1)
        self.unknown.say(unknown)
        self.unknown.setVisible(bool(unknown))
        clear(self.lines)
        for at, line in enumerate(lines):
            for across, said in enumerate(line):
                cell = Words(said, "" if line[1] else "strong", wrap=across == 0)
                if across:
                    self.lines.addWidget(cell, at, across, Qt.AlignmentFlag.AlignRight)
                else:
                    self.lines.addWidget(cell, at, across)
        self.lines.setColumnStretch(0, 1)
        self.notes.say(notes)

    def show_form(self, *, is_class: bool, has_price: bool) -> None:
        """A class has no price: it is charged at cost, by the head."""
        self.fields["price_pence"].setVisible(not is_class)
        self.fields["vat_hundredths"].setVisible(not is_class)
        self.fields["heads"].setVisible(is_class)
        self.fields["reason"].setVisible(has_price)
        self.keep.setText("Charge it to the class" if is_class else "Keep this price")
        self.setFocusProxy(self.heads if is_class else self.price)

    def show_parts(self, parts: Sequence[Part]) -> None:
        self.bar.set_parts(parts)

    def refuse(self, field: str, sentence: str) -> None:
        refuse_at(self.fields.get(field, self.fields["price_pence"]), sentence)

    def clear_refusals(self) -> None:
        for field in self.fields.values():
            field.clear_refusal()

    def _on(self) -> None:
        self.focusNextPrevChild(True)
