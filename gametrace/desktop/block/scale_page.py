"""Where the scale is set up: its port, its speed, what asks it; and what it says now."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QLineEdit, QWidget

from gametrace.desktop.block.scale import ASKS, BAUDS, ScalePort
from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, column, row, set_role

_MOST_PORTS = 6


class ScalePage(QWidget):
    """Signals: join_wanted(), leave_wanted(), back_wanted()."""

    join_wanted = Signal()
    leave_wanted = Signal()
    back_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.port, self.baud, self.asks = QLineEdit(), QComboBox(), QComboBox()
        self.port.setMaxLength(120)
        self.port.setPlaceholderText("COM3, or /dev/ttyUSB0")
        self.found = ChoiceRow([], name="A port of this machine", columns=3)
        for one in BAUDS:
            self.baud.addItem(f"{one} baud", one)
        for sent, words in ASKS.items():
            self.asks.addItem(words, sent)
        self.said = Words("", "large")
        self.join = BigButton("Listen to the scale")
        self.leave = Button("Do without the scale")
        self.back = Button("Back to the block")
        self._build(look)
        self.join.clicked.connect(self.join_wanted)
        self.leave.clicked.connect(self.leave_wanted)
        self.found.changed.connect(self.port.setText)
        self.back.clicked.connect(self.back_wanted)
        set_reading_order(self)
        self.setFocusProxy(self.port)

    def _build(self, look: Look) -> None:
        sheet = Sheet("The scale")
        sheet.add(
            Words(
                "A scale on a serial port or a USB adapter, sending its weight as a line of plain text "
                "with a unit. The scale's own handbook says which speed it has and what asks it.",
                "quiet",
            )
        )
        self.fields = (
            Field("Port", self.port, name="port"),
            Field("Ports this machine has now", self.found),
            Field("Speed", self.baud, name="baud"),
            Field("How it is asked", self.asks, name="asks"),
        )
        for field in self.fields:
            sheet.add(field)
        sheet.add(self.said)
        sheet.add(row(self.join, self.leave, self.back, 1))
        sheet.add_stretch()
        sheet.setMaximumWidth(look.px(760))
        line = row(sheet, 1)
        line.setStretch(0, 8)
        self.setLayout(column(line, 1))

    def show_set(self, held: ScalePort, ports: Sequence[str]) -> None:
        """What is set, and the ports this machine has now."""
        self.port.setText(held.port or self.port.text())
        self.found.set_choices([(one, one) for one in ports[:_MOST_PORTS]], held.port)
        self.fields[1].setVisible(bool(ports))
        set_reading_order(self)
        self.baud.setCurrentIndex(max(0, self.baud.findData(held.baud)))
        self.asks.setCurrentIndex(max(0, self.asks.findData(held.asks)))

    def chosen(self) -> ScalePort:
        return ScalePort(self.port.text().strip(), self.baud.currentData(), self.asks.currentData())

    def say(self, sentence: str, role: str = "large") -> None:
        self.said.say(sentence)
        set_role(self.said, role)
