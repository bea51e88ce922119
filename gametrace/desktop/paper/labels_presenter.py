"""Between the page of labels and the register: words them, shows them as they print, sends and notes them."""

from __future__ import annotations

from functools import partial
from typing import Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.errands import Stopped
from gametrace.desktop.labelling import send
from gametrace.desktop.paper import choices
from gametrace.desktop.paper.choices import LabelJob
from gametrace.desktop.paper.labels_page import LabelsPage
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.errors import Refusal

PREVIEW_DPI = {True: 203, False: 110}  # a single label is seen dot by dot, a whole sheet is not


class LabelsPresenter:
    """One job at a time: what was asked for last, and what is added to it here."""

    def __init__(self, page: LabelsPage, bench: Bench) -> None:
        self.page, self.bench = page, bench
        self.job = LabelJob(())
        self._pdf, self._pages = b"", 0
        self._stock: Any = None
        self._drawing = 0
        page.changed.connect(self.draw)
        page.added.connect(self.add)
        page.cleared.connect(self.clear)
        page.last_wanted.connect(self.last)
        page.print_wanted.connect(self.print)
        page.hand_wanted.connect(self.by_hand)
        page.hand_paper_wanted.connect(self.hand_paper)
        page.grid_wanted.connect(self.grid)
        page.stock.moved.connect(self._other_stock)
        page.preview.turned.connect(self._turn)

    # -- what -------------------------------------------------------------------------------------------

    def take(self, job: LabelJob) -> None:
        self.job = job
        self.page.copies.inner.set_value(1)
        self.page.loud.hush()
        self.page.show_preview()
        self._list()
        self.use_stock(choices.chosen_stock(self.bench).name)
        self.page.print.setFocus()

    def add(self, text: str) -> bool:
        self.page.clear_refusals()
        try:
            code = self.bench.ask("lot", text).code
        except Refusal as refusal:
            self.page.refuse("codes", str(refusal))
            return False
        if code not in self.job.codes:
            self.job = LabelJob((*self.job.codes, code), self.job.sort, self.job.back)
        self.page.code.clear()
        self.draw()
        return True

    def clear(self) -> None:
        self.job = LabelJob((), "", self.job.back)
        self.draw()
        self.page.code.setFocus()

    def last(self) -> None:
        """What was printed last, once more: on another stock, or because it went astray."""
        self.job = LabelJob(choices.last_codes(self.bench), "", self.job.back)
        self.draw()
        self.page.print.setFocus()

    def refresh(self) -> None:
        """Stocks, printers and words as they are now; what is chosen or typed stays."""
        was = self.page.stock.value()
        self._list()
        if was:
            self.draw()
        else:
            self.use_stock(choices.chosen_stock(self.bench).name)

    def _list(self) -> None:
        from gametrace.desktop.paper_printer import printer_names

        page, known = self.page, choices.stocks(self.bench)
        rows = [Choice(name, stock_words(stock)) for name, stock in known.items()]
        page.show_stocks(rows, page.stock.value() or choices.chosen_stock(self.bench).name)
        to = [Choice(choices.PDF, "PDF, opened to print")]
        to += [Choice(name, name) for name in printer_names()]
        is_first = not page.to.list.count()
        kept = self.bench.settings.text(choices.PRINTER_KEY)
        page.show_printers(to, kept if is_first else page.to.value())

    def use_stock(self, name: str) -> None:
        """Print on this one from now on, from its first empty place."""
        self.page.stock.set_value(name)
        self._other_stock(name)
        self.draw()

    def stock(self) -> Any:
        known = choices.stocks(self.bench)
        return known.get(self.page.stock.value()) or choices.chosen_stock(self.bench)

    def _other_stock(self, _name: str) -> None:
        stock = self.stock()
        self.page.ask_place(not stock.is_single)
        self.page.place.inner.set_value(choices.first_place(self.bench, stock))

    # -- how it will print ------------------------------------------------------------------------------

    def ready(self) -> choices.Ready | None:
        """The labels worded as asked for; None, with the reason shown, where they cannot be."""
        page, stock = self.page, self.stock()
        page.clear_refusals()
        try:
            copies = page.copies.inner.value() or 1
            start_at = 1 if stock.is_single else page.place.inner.value() or 1
            made = choices.ready(self.bench, self.job, stock, start_at, copies)
        except Refusal as refusal:
            page.refuse(refusal.field, str(refusal))
            return None
        return made

    def draw(self) -> None:
        page = self.page
        if not self.job.codes:
            page.say_what((), 0, has_last=bool(choices.last_codes(self.bench)))
            page.say_boxes(False)
            page.preview.say_nothing()
            return
        made = self.bench.guarded(self.ready)
        if made is None:
            page.preview.say_nothing()
            return
        page.say_what(self.job.codes, len(made.sheets))
        self._drawing += 1
        self.bench.errands.run(
            partial(_drawn, made), done=partial(self._drawn, self._drawing, made), failed=self._not_drawn
        )

    def _drawn(self, number: int, made: choices.Ready, answer: tuple[bytes, int, bool]) -> None:
        if number != self._drawing:
            return  # something else has been asked for since
        self._pdf, pages, has_boxes = answer
        self._stock, self._pages = made.stock, pages
        self.page.say_boxes(has_boxes)
        self._turn(0)

    def _not_drawn(self, error: Exception) -> None:
        self.page.preview.say_nothing()
        if isinstance(error, Refusal):
            self.page.refuse(error.field, str(error))
        elif not isinstance(error, Stopped):
            self.bench.report_bug(error)

    def _turn(self, number: int) -> None:
        from gametrace.desktop.paper_printer import grey_image
        from gametrace.documents.page_pictures import page_pictures

        stock = self._stock
        picture = next(page_pictures(self._pdf, PREVIEW_DPI[stock.is_single], only=number))
        mm = (stock.page_w_mm, stock.page_h_mm)
        self.page.preview.show_page(grey_image(picture), mm, number, self._pages)

    # -- paper ------------------------------------------------------------------------------------------

    def print(self) -> None:
        made = self.bench.guarded(self.ready) if self.job.codes else None
        if made is None:
            return
        printer, settings = self.page.to.value(), self.bench.settings
        settings.keep(choices.STOCK_KEY, self.stock().name)
        settings.keep(choices.PRINTER_KEY, printer)
        send(self.bench, made, printer, sort=self.job.sort, done=partial(self._sent, made, printer))

    def _sent(self, made: choices.Ready, printer: str) -> None:
        many = len(made.sheets)
        words = f"The label of {made.codes[0]}" if many == 1 else f"{many} labels"
        self.bench.done.emit(f"{words}: sent to {printer}." if printer else f"{words}: open, ready to print.")
        back, self.job = self.job.back, LabelJob(())
        self.use_stock(self.stock().name)
        if back:
            self.bench.go(back)

    def grid(self) -> None:
        from gametrace.documents.label_grid import grid_pdf

        stock = choices.moved(self.bench, self.stock())
        self.bench.to_paper(partial(grid_pdf, stock), f"test-print-{stock.name}.pdf", "The test print:")

    def by_hand(self) -> None:
        from gametrace.documents.by_hand import ADVICE, hand_lines

        made = self.bench.guarded(self.ready)
        if made is not None:
            self.page.by_hand.advice.say(ADVICE)
            self.page.show_by_hand([hand_lines(sheet) for sheet in made.sheets])

    def hand_paper(self) -> None:
        from gametrace.documents.by_hand import hand_pdf

        made = self.bench.guarded(self.ready)
        if made is not None:
            make = partial(hand_pdf, made.sheets, self.bench.now())
            self.bench.to_paper(make, f"by-hand-{made.codes[0]}.pdf", "What to write:")


def _drawn(made: choices.Ready, progress: Any) -> tuple[bytes, int, bool]:
    from gametrace.documents.page_pictures import page_count
    from gametrace.documents.pieces import printable

    progress(0, 1)
    pdf = made.draw()
    words = [word for one in made.sheets for word in (one.title, *one.lines, one.larder)]
    return pdf, page_count(pdf), any("□" in printable(word) and "□" not in word for word in words)


def stock_words(stock: Any) -> str:
    """'A4 3 × 7, 63.5 × 38.1 mm', or the house's own name with the sizes."""
    size = f"{stock.label_w_mm:g} × {stock.label_h_mm:g} mm"
    if stock.name.startswith("single-"):
        return f"Single labels, {size}"
    if stock.name.startswith("a4-"):
        return f"A4 sheet of {stock.columns} × {stock.rows}, {size}"
    grid = "" if stock.is_single else f"{stock.columns} × {stock.rows}, "
    return f"{stock.name}: {grid}{size}"
