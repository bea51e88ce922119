"""Finds what was asked for, shows its trace or the candidates, and prints what is seen."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Protocol

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.pick_list import Choice
from gametrace.desktop.trace.animals import Told
from gametrace.desktop.trace.supplier_told import supplier_told
from gametrace.domain.errors import Refusal
from gametrace.register.records import Larder, Trace

_RECENT = 12


class View(Protocol):
    def show_candidates(self, question: str, explained: str, choices: Sequence[Choice]) -> None: ...
    def show_trace(
        self, trace: Trace, *, can_go_back: bool, told: Told, standing: tuple[str, str]
    ) -> None: ...
    def picture_papers(self, title: str) -> tuple[bytes, bytes]: ...


class TracePresenter:
    """Keeps the way walked, so that one can go back."""

    def __init__(self, view: View, bench: Bench) -> None:
        self._view = view
        self._bench = bench
        self._way: list[str] = []
        self._trace: Trace | None = None

    @property
    def trace(self) -> Trace | None:
        return self._trace

    def start_anew(self) -> None:
        """Leave what is traced: the newest things, and the ways to the other questions."""
        self._way = []
        self.refresh()

    def refresh(self) -> bool:
        """Trace the same thing anew. False where the register holds nothing to trace."""
        if self._way:
            self._show(self._way[-1])
            return True
        choices = self._recent()
        if choices:
            explained = (
                "Scan a label, or type a code, a supplier's tag, a dish or a supplier above. The newest:"
            )
            self._view.show_candidates("Where is this from? Where is the rest?", explained, choices)
        return bool(choices)

    def open(self, text: str) -> None:
        """Trace what the text names, or show what it may mean."""
        if self._show(text) and (not self._way or self._way[-1] != text):
            self._way.append(text)

    def go_back(self) -> None:
        if len(self._way) > 1:
            self._way.pop()
            self._show(self._way[-1])

    def print_trace(self) -> None:
        """The trace on one sheet of paper."""
        if self._trace is None:
            return
        larder = self._bench.ask("larder")
        make = partial(_trace_paper, self._trace, larder, self._bench.now())
        self._bench.to_paper(make, f"trace {_file_word(self._trace.code)}.pdf", "The trace is in")

    def save_picture(self) -> None:
        """The picture as it stands in the window: a PDF, which is shown, and an SVG beside it."""
        if self._trace is None:
            return
        pdf, svg = self._view.picture_papers(f"Trace of {self._trace.code}")
        name = f"trace {_file_word(self._trace.code)} picture.pdf"
        path = self._bench.guarded(partial(self._bench.printing.deliver, pdf, name))
        if path is not None:
            self._bench.guarded(partial(self._bench.printing.lay_beside, svg, path, ".svg"))
            self._bench.done.emit(f"The picture is in {path.name}, as SVG beside it, in {path.parent}")

    def _standing(self, trace: Trace) -> tuple[str, str]:
        if trace.balance is None:
            return "", ""
        stands = self._bench.ask("balance_standing", trace.balance)
        return str(stands.standing), f"Balance {stands.words}"

    def _show(self, text: str) -> bool:
        try:
            self._trace = self._bench.ask("trace", text)
        except Refusal as refusal:
            self._offer(text, refusal)
            return False
        can_go_back = len(self._way) > 0 and self._way[0] != text
        told = supplier_told(self._bench, self._trace)
        standing = self._standing(self._trace)
        self._view.show_trace(self._trace, can_go_back=can_go_back, told=told, standing=standing)
        return True

    def _offer(self, text: str, refusal: Refusal) -> None:
        hits = self._bench.ask("find", text)
        choices = [Choice(hit.code, f"{hit.code}   {hit.words}") for hit in hits]
        if len(choices) > 1:
            question = f"Which of these is “{text[:40]}”?"
            explained = "More than one thing goes by that name." if len(choices) < 20 else "The first twenty:"
        elif choices:
            question, explained = "Is it this?", refusal.sentence
        else:
            question, explained = refusal.sentence, refusal.what_to_do
            choices = self._recent()
            explained += " The newest:" if choices else ""
        self._trace = None
        self._view.show_candidates(question, explained, choices)

    def _recent(self) -> list[Choice]:
        """The newest dishes and carcasses, for a start without a code."""
        dishes = self._bench.ask("dishes", limit=_RECENT // 2)
        animals = self._bench.ask("deliveries", limit=_RECENT - len(dishes))
        choices = [Choice(one.code, f"{one.code}   {one.name}") for one in dishes]
        return choices + [
            Choice(
                one.code,
                f"{one.code}   {one.title}, {one.supplier.name}" + (f", tag {one.tag}" if one.tag else ""),
            )
            for one in animals
        ]


def _trace_paper(trace: Trace, larder: Larder, printed_at) -> bytes:
    from gametrace.documents.trace_sheet import trace_pdf

    return trace_pdf(trace, larder, printed_at)


def _file_word(text: str) -> str:
    """A code or a name as part of a file's name on any system."""
    return "".join(letter if letter.isalnum() or letter in "-_" else "-" for letter in text)[:60]
