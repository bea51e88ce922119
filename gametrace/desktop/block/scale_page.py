"""Where the scale is set up: its port, its speed, what asks it; and what it says now."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QWidget

from gametrace.desktop.block.scale import ASKS, BAUDS, ScalePort
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton, Button
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, column, row, set_role


class ScalePage(QWidget):
    """Signals: join_wanted(), leave_wanted(), back_wanted()."""

    join_wanted = Signal()
    leave_wanted = Signal()
    back_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.port, self.baud, self.asks = QComboBox(), QComboBox(), QComboBox()
        self.port.setEditable(True)
        self.port.lineEdit().setMaxLength(120)
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
        self.back.clicked.connect(self.back_wanted)
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
            Field("Speed", self.baud, name="baud"),
            Field("How it is asked", self.asks, name="asks"),
        )
        for field in self.fields:
            sheet.add(field)
        sheet.add(self.said)
        sheet.add(row(self.join, self.leave, 1))
        sheet.add_stretch()
        sheet.setMaximumWidth(look.px(760))
        self.setLayout(column(row(self.back, 1), row(sheet, 1)))
        self.layout().itemAt(1).layout().setStretch(0, 8)

    def show_set(self, held: ScalePort, ports: Sequence[str]) -> None:
        """What is set, and the ports this machine has now."""
        typed = held.port or self.port.currentText()
        self.port.clear()
        self.port.addItems(list(ports))
        self.port.setEditText(typed or (ports[0] if ports else ""))
        self.baud.setCurrentIndex(max(0, self.baud.findData(held.baud)))
        self.asks.setCurrentIndex(max(0, self.asks.findData(held.asks)))

    def chosen(self) -> ScalePort:
        return ScalePort(self.port.currentText().strip(), self.baud.currentData(), self.asks.currentData())

    def say(self, sentence: str, role: str = "large") -> None:
        self.said.say(sentence)
        set_role(self.said, role)
