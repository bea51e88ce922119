"""Opens recalls, takes them up again, writes calls and steps down, and makes the report."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.quantities import kg_text

PAGES = (
    ("calls", "Whom to call"),
    ("affected", "What and where"),
    ("steps", "Steps"),
    ("texts", "Texts to send"),
)
_MOST_LINES = 120


class RecallPresenter(QObject):
    """One view, one bench."""

    def __init__(self, view: Any, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self._sheet: Any = None
        view.opening.wanted.connect(self.open)
        view.recalls.picked.connect(self.take_up)
        view.page.changed.connect(self._turn)
        view.to_call.picked.connect(self._call_this)
        view.to_call.moved.connect(self._name_this)
        view.calling.wanted.connect(self.write_call)
        view.steps.moved.connect(self._show_step)
        view.stepping.wanted.connect(self.write_step)
        view.ending.wanted.connect(self.end)
        view.print_button.clicked.connect(self.print_it)

    def refresh(self) -> None:
        """The list, and the recall in the hand: the newest running one where none is."""
        handed = self.bench.handed("recalls")
        if handed is not None:
            codes, reason = handed
            self.view.opening.set_values({"codes": " ".join(codes), "reason": reason})
            self._sheet = None
        lines = self.bench.ask("recalls")
        self.view.recalls.set_choices(
            [Choice(one.code, f"{one.code}  {one.what}{'' if one.is_open else ', ended'}") for one in lines]
        )
        self.view.recalls.setVisible(bool(lines))
        self.view.none_yet.say("Enter takes one up." if lines else "There has been no recall.")
        code = self._sheet.code if self._sheet else next((one.code for one in lines if one.is_open), "")
        self._sheet = self.bench.ask("recall_sheet", code) if code and handed is None else None
        self._show()

    def take_scan(self, code: str) -> bool:
        edit = self.view.opening.fields["codes"].inner
        edit.setText(" ".join((*edit.text().split(), code)))
        return True

    def open(self) -> None:
        form = self.view.opening
        form.clear_refusals()
        values = form.values()
        given = {**values, "codes": tuple(values["codes"].replace(",", " ").split())}
        done = self.bench.attempt("open_recall", on_refusal=form.refuse, said="The recall is open.", **given)
        if done is not None:
            form.clear()
            self.take_up(done.code)

    def take_up(self, code: str) -> None:
        self._sheet = self.bench.ask("recall_sheet", code)
        self.view.page.set_value("calls")
        self._show()

    def write_call(self) -> None:
        self._write(self.view.calling, "note_call", "Written down.", **self.view.calling.values())

    def write_step(self) -> None:
        step = self.view.steps.value()
        self._write(
            self.view.stepping, "answer_step", "Written down.", step=step, **self.view.stepping.values()
        )

    def end(self) -> None:
        self._write(self.view.ending, "close_recall", "The recall has ended.", **self.view.ending.values())

    def _write(self, form: Any, act: str, said: str, **given: Any) -> None:
        form.clear_refusals()
        done = self.bench.attempt(act, on_refusal=form.refuse, said=said, recall=self._sheet.code, **given)
        if done is not None:
            form.clear(keep=("answer",) if act == "answer_step" else ())

    def print_it(self) -> None:
        make = partial(_paper, self._sheet, self.bench.ask("larder"), self.bench.now())
        self.bench.to_paper(make, f"recall {self._sheet.code}.pdf", "The recall is in")

    # -- what is shown ----------------------------------------------------------------------------------

    def _turn(self, _page: str) -> None:
        self._show()

    def _show(self) -> None:
        view, sheet = self.view, self._sheet
        view.sheet.setVisible(sheet is not None)
        if sheet is None:
            return
        view.title.say(f"{sheet.code} {sheet.what}")
        ended = "" if sheet.is_open else f" Ended: {sheet.outcome}"
        here = kg_text(sum(lot.grams for lot in sheet.still_here))
        view.about.say(f"Why: {sheet.reason}. {len(sheet.affected)} lots, {here} of meat still here.{ended}")
        page = view.page.value()
        view.show_page(page, is_open=sheet.is_open, has_calls=bool(sheet.to_call))
        view.text.say("\n".join(self._lines(page)))
        rung = {call.whom for call in sheet.calls}
        calls = sorted(sheet.to_call, key=partial(_was_rung, rung))
        view.to_call.set_choices(
            [Choice(c.whom, f"{'✓ ' if c.whom in rung else ''}{c.whom}, {c.phone or c.why}") for c in calls]
        )
        view.steps.set_choices(
            [Choice(one.id, f"{one.answer or 'open'}: {one.words}") for one in sheet.steps]
        )
        waiting = next((one.id for one in sheet.steps if not one.answer), "")
        if waiting:
            view.steps.set_value(waiting)
        self._show_step(view.steps.value())

    def _lines(self, page: str) -> list[str]:
        from gametrace.register.clock import wall_text
        from gametrace.register.recall_texts import notice_texts

        sheet = self._sheet
        if page == "affected":
            lots = [
                f"{lot.code} {lot.name}: {lot.state}, {lot.where or 'no place'}" for lot in sheet.affected
            ]
            served = [f"Served: {one.words}, {one.portions} portions" for one in sheet.services]
            return (served + lots)[:_MOST_LINES]
        if page == "calls":
            said = [f"{wall_text(c.at)}, {c.by}: {c.whom}: {c.answer}" for c in sheet.calls]
            return said or ["Nobody has been rung yet. The authority comes first."]
        if page == "texts":
            texts = notice_texts(sheet, self.bench.ask("larder"))
            return [f"— {whom} —\n{text}" for whom, text in texts.items()]
        return []

    def _show_step(self, step: str) -> None:
        from gametrace.domain.findings import rests_on

        one = next((one for one in self._sheet.steps if one.id == step), None) if self._sheet else None
        if one is not None:
            said = f"\n{one.answer}: {one.said} ({one.by})" if one.answer else ""
            self.view.step_words.say(f"{one.words}\n{rests_on(one.source, one.status)}{said}")

    def _call_this(self, whom: str) -> None:
        self._name_this(whom)
        self.view.calling.fields["answer"].inner.setFocus()

    def _name_this(self, whom: str) -> None:
        self.view.calling.set_values({"whom": whom})


def _was_rung(rung: set[str], one: Any) -> bool:
    return one.whom in rung


def _paper(sheet: Any, larder: Any, printed_at: Any) -> bytes:
    from gametrace.documents.recall_report import recall_pdf

    return recall_pdf(sheet, larder, printed_at)
