"""The three pages of the block in one stack, and the head over the page of the lot that is cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QWidget

from gametrace.desktop.block.choosing import ChoosingPage
from gametrace.desktop.block.cutting import CuttingPage
from gametrace.desktop.block.mixing import MixingPage
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, clear, column, row

OTHERS_SHOWN = 2


@dataclass(frozen=True, slots=True)
class OpenLot:
    """Another lot open on the block: its code and a short name."""

    code: str
    words: str


class BlockView(QWidget):
    """Signals: open_wanted(str): another open lot. choose_wanted(). mix_wanted()."""

    open_wanted = Signal(str)
    choose_wanted = Signal()
    mix_wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.choosing, self.cutting, self.mixing = ChoosingPage(look), CuttingPage(look), MixingPage(look)
        # Under a banner, or in large type, the fullest page scrolls rather than lose its foot.
        roomy = ScrollColumn()
        roomy.body.setContentsMargins(0, 0, 0, 0)
        roomy.add(self.cutting, 1)
        roomy.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        roomy.setFocusProxy(self.cutting)
        self._pages = {"choosing": self.choosing, "cutting": roomy, "mixing": self.mixing}
        self.stack = QStackedWidget()
        for page in self._pages.values():
            self.stack.addWidget(page)
        self.name = Words("", "title", wrap=False)
        self.code = Words("", "title", wrap=False)
        self.about = Words("", "quiet")
        self.others = QHBoxLayout()
        self.others.setSpacing(8)
        self.choose = Button("Choose another", name="Choose another lot to cut")
        self.mix = Button("Make mince")
        self.head = QWidget()
        words = column(row(self.name, self.code, 1), self.about, gap=0)
        line = row(words, self.others, self.choose, self.mix, gap=8)
        line.setStretch(0, 1)
        self.head.setLayout(line)
        self.setLayout(column(self.head, self.stack, gap=8))
        self.layout().setStretch(1, 1)
        self.choose.clicked.connect(self.choose_wanted)
        self.mix.clicked.connect(self.mix_wanted)
        self.show_page("choosing")

    def page(self) -> str:
        """choosing | cutting | mixing."""
        return next(name for name, page in self._pages.items() if page is self.stack.currentWidget())

    def show_page(self, name: str) -> None:
        self.stack.setCurrentWidget(self._pages[name])
        self.head.setVisible(name == "cutting")
        self.setFocusProxy(self._pages[name])

    def say_head(self, name: str, code: str, about: str, others: Sequence[OpenLot]) -> None:
        self.name.say(name)
        self.code.say(code)
        self.about.say(about)
        clear(self.others)
        for one in others[:OTHERS_SHOWN]:
            button = Button(one.words, name=f"Go on with {one.words}, open on the block")
            button.clicked.connect(partial(self.open_wanted.emit, one.code))
            self.others.addWidget(button)
        more = len(others) - OTHERS_SHOWN
        self.choose.setText(f"{more} more open" if more > 0 else "Choose another")
