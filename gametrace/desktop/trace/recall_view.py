"""Recalls: open one, see what is affected and whom to call, write answers down, tick the steps, end it."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.form import Form
from gametrace.desktop.parts.long_text import LongText
from gametrace.desktop.parts.pick_list import PickList
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row
from gametrace.desktop.station import Station
from gametrace.desktop.style import APART
from gametrace.desktop.trace.recall_presenter import PAGES, RecallPresenter

ANSWERS = (("done", "Done"), ("not needed", "Not needed"))


class RecallView(QWidget):
    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look = bench.look
        self.back = Button("Back to Trace")
        self.recalls = PickList("Recalls so far")
        self.recalls.setMinimumHeight(look.px(140))
        self.none_yet = Words("", "quiet")
        self.opening = Form("Open a recall", "Open it and hold all of it")
        self.opening.line("codes", "Lots, with a space between", hint="scan or type", most=40_000)
        self.opening.line("what", "What is recalled", hint="haunch of fallow, packed 12 Nov", most=120)
        self.opening.line("reason", "Why", hint="the supplier rang: ...", most=500)
        self.opening.finish()
        self.title = Words("", "title")
        self.about = Words("")
        self.page = ChoiceRow(PAGES, value="calls", name="Page of the recall")
        self.text = LongText("The recall in words")
        self.to_call = PickList("Whom to call")
        self.to_call.setMinimumHeight(look.px(120))
        self.calling = Form("", "Write the answer down")
        self.calling.line("whom", "Who was rung", most=120)
        self.calling.line("answer", "What they said, or that nobody answered", most=500)
        self.calling.finish()
        self.steps = PickList("Steps")
        self.steps.setMinimumHeight(look.px(200))
        self.step_words = Words("", "quiet")
        self.stepping = Form("", "Write it down")
        self.stepping.choice("answer", "Is it done?", ANSWERS, value="done")
        self.stepping.line("note", "Note; needed where it is not needed", most=500)
        self.stepping.finish()
        self.ending = Form("", "End the recall")
        self.ending.line("outcome", "How it ended", most=1_000)
        self.ending.finish()
        self.print_button = Button("Print it all")
        left = ScrollColumn()
        left.add(row(self.back, 1))
        for one in (Words("Recalls", "heading"), self.none_yet, self.recalls, self.opening):
            left.add(one)
        left.add_stretch()
        inside = ScrollColumn()
        parts: list[QWidget] = [self.text, self.to_call, self.calling, self.steps, self.step_words]
        for part in (*parts, self.stepping, self.ending):
            inside.add(part)
        inside.add_stretch()
        self.sheet = QWidget()
        head = row(self.title, self.print_button)
        head.setStretch(0, 1)
        self.sheet.setLayout(column(head, self.about, self.page, inside, gap=8))
        whole = row(left, column(self.sheet, gap=0), gap=APART)
        whole.setStretch(0, 4)
        whole.setStretch(1, 6)
        self.setLayout(whole)
        self.setFocusProxy(self.opening.fields["codes"])

    def show_page(self, page: str, *, is_open: bool, has_calls: bool) -> None:
        """What belongs to this page of the recall."""
        self.text.setVisible(page in ("affected", "calls", "texts"))
        self.to_call.setVisible(page == "calls" and is_open and has_calls)
        self.calling.setVisible(page == "calls" and is_open)
        self.steps.setVisible(page == "steps")
        self.step_words.setVisible(page == "steps")
        self.stepping.setVisible(page == "steps" and is_open)
        self.ending.setVisible(page == "steps" and is_open)


class RecallStation(Station):
    """Not on the strip: Trace leads here, and a set of lots that is recalled."""

    name = "recalls"
    title = "Recalls"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        self.view = RecallView(bench)
        super().__init__(bench, self.view, parent)
        self.presenter = RecallPresenter(self.view, bench)
        self.view.back.clicked.connect(partial(bench.go, "trace", ""))

    def refresh(self) -> None:
        self.presenter.refresh()

    def on_scan(self, code: str) -> bool:
        return self.presenter.take_scan(code)
