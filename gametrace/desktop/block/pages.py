"""The pages of the block in one stack, and the head over the page of the lot that is cut."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property, partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QWidget

from gametrace.desktop.block.choosing import ChoosingPage
from gametrace.desktop.block.cutting import CuttingPage
from gametrace.desktop.block.laying import LayingPage
from gametrace.desktop.block.mixing import MixingPage
from gametrace.desktop.block.session_strip import SessionStrip, TableFace
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, clear, column, row

if TYPE_CHECKING:
    from gametrace.desktop.block.cut_names_page import CutNamesPage
    from gametrace.desktop.block.keeping_page import KeepingPage
    from gametrace.desktop.block.packing_page import PackingPage
    from gametrace.desktop.block.scale_page import ScalePage
    from gametrace.desktop.block.session_page import SessionPage

OTHERS_SHOWN = 2


@dataclass(frozen=True, slots=True)
class OpenLot:
    """Another lot open on the block: its code and a short name."""

    code: str
    words: str


class BlockView(QWidget):
    """Signals: open_wanted(str): another open lot. choose_wanted(). mix_wanted(). session_wanted()."""

    open_wanted = Signal(str)
    choose_wanted = Signal()
    mix_wanted = Signal()
    session_wanted = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.choosing, self.cutting, self.mixing = (
            ChoosingPage(look),
            CuttingPage(look),
            MixingPage(look, today),
        )
        self.laying, self.strip = LayingPage(look), SessionStrip(look)
        self._look, self._today = look, today
        # Under a banner, or in large type, the fullest page scrolls rather than lose its foot.
        roomy = ScrollColumn()
        roomy.body.setContentsMargins(0, 0, 0, 0)
        roomy.add(self.cutting, 1)
        roomy.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        roomy.setFocusProxy(self.cutting)
        self._pages: dict[str, QWidget] = {}
        self.stack = QStackedWidget()
        for name, page in (
            ("choosing", self.choosing),
            ("cutting", roomy),
            ("mixing", self.mixing),
            ("laying", self.laying),
        ):
            self._keep(name, page)
        self.name = Words("", "title", wrap=False)
        self.code = Words("", "title", wrap=False)
        self.about = Words("", "quiet")
        self.others = QHBoxLayout()
        self.others.setSpacing(8)
        self.choose = Button("Choose another", name="Choose another lot to cut")
        self.mix = Button("Make mince")
        self.session = Button("Session", name="The cutting session")
        self.head = QWidget()
        self.words = QWidget()
        self.words.setLayout(column(row(self.name, self.code, 1), self.about, gap=0))
        line = row(self.words, self.strip, self.others, self.choose, self.mix, self.session, gap=8)
        line.setStretch(0, 1)
        line.setStretch(1, 1)
        self.head.setLayout(line)
        self.strip.hide()
        # The page first, then its head: Tab comes into the page, so what stands before it must come after.
        self.setLayout(column(self.stack, gap=8))
        self.layout().insertWidget(0, self.head)
        self.layout().setStretch(1, 1)
        self.choose.clicked.connect(self.choose_wanted)
        self.mix.clicked.connect(self.mix_wanted)
        self.session.clicked.connect(self.session_wanted)
        self.choosing.session_wanted.connect(self.session_wanted)
        self.show_page("choosing")

    def _keep(self, name: str, page: QWidget) -> None:
        self._pages[name] = page
        self.stack.addWidget(page)

    # Pages that not every day needs are made when they are first asked for: the station opens the sooner.

    @cached_property
    def sessions(self) -> SessionPage:
        from gametrace.desktop.block.session_page import SessionPage

        made = SessionPage(self._look, self._today)
        self._keep("session", made)
        return made

    @cached_property
    def packing(self) -> PackingPage:
        from gametrace.desktop.block.packing_page import PackingPage

        made = PackingPage(self._look)
        self._keep("packing", made)
        return made

    @cached_property
    def keeping(self) -> KeepingPage:
        from gametrace.desktop.block.keeping_page import KeepingPage

        made = KeepingPage(self._look, self._today)
        self._keep("keeping", made)
        return made

    @cached_property
    def scale(self) -> ScalePage:
        from gametrace.desktop.block.scale_page import ScalePage

        made = ScalePage(self._look)
        self._keep("scale", made)
        return made

    @cached_property
    def cut_names(self) -> CutNamesPage:
        from gametrace.desktop.block.cut_names_page import CutNamesPage

        made = CutNamesPage(self._look)
        self._keep("cut names", made)
        return made

    def page(self) -> str:
        """choosing | cutting | mixing | packing | keeping | session | laying | scale | cut names."""
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
        self.show_tables((), "")
        more = len(others) - OTHERS_SHOWN
        self.choose.setText(f"{more} more open" if more > 0 else "Choose another")

    def show_tables(self, faces: Sequence[TableFace], here: str) -> None:
        """The tables of the session in the place of the head's words; none where the lot is on no table."""
        for one in (self.words, self.choose, self.mix):
            one.setVisible(not faces)
        self.strip.setVisible(bool(faces))
        if faces:
            clear(self.others)
            self.strip.set_tables(faces, here)
