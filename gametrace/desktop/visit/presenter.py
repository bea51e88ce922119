"""What an officer will ask for: readiness in sentences, a period, the paper, the check of the seal."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import partial
from typing import Any, Protocol

from gametrace.desktop.bench import Bench
from gametrace.desktop.errands import Stopped
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding
from gametrace.register.readiness import Found
from gametrace.register.records import Carcass
from gametrace.register.visit_records import VisitSheet

_ALL = 1_000_000
LONG = 20  # deliveries on a paper that takes long enough to say how far it is, and to be stopped
_PARTS, _GATHERED = 1_000, 250  # of the whole way, so many are the gathering, the others the drawing
_SAID = "The officer's paper is in"
PERIODS = (
    ("month", "This month"),
    ("quarter", "Last three months"),
    ("year", "Last twelve months"),
    ("season", "Since 1 August"),
)


PICTURES = (("without", "Without pictures"), ("with", "Pictures as an annex"))


class View(Protocol):
    first: Any
    last: Any
    lot: Any
    pictures: Any

    def show_readiness(self, lines: Sequence[Found]) -> None: ...
    def show_period(self, key: str, first: date, last: date) -> None: ...
    def show_seal(self, words: str) -> None: ...
    def show_check(self, words: str, findings: Sequence[Finding]) -> None: ...
    def refuse(self, refusal: Refusal) -> None: ...
    def refuse_code(self, refusal: Refusal) -> None: ...
    def clear_refusals(self) -> None: ...


class VisitPresenter:
    """Long work goes through errands: the check of the seal, the paper."""

    def __init__(self, view: View, faces: Any, bench: Bench) -> None:
        self._view, self._faces, self._bench = view, faces, bench
        self._errand = 0
        self._has_period = False

    def refresh(self) -> None:
        if not self._has_period:
            self.choose_period("quarter")
        self._view.show_readiness(self.readiness())
        seal = self._bench.ask("seal")
        words = (
            f"{seal.count} entries, each sealing the one before it. The last seal begins {seal.head[:12]}."
        )
        self._view.show_seal(words if seal.count else "Nothing has been written yet.")

    def readiness(self) -> tuple[Found, ...]:
        """What an officer would find, with the record behind it and what to answer."""
        return self._bench.ask("readiness")

    # -- the period and its paper -----------------------------------------------------------------------

    def choose_period(self, key: str) -> None:
        today = self._bench.today()
        firsts = {
            "month": today.replace(day=1),
            "quarter": today - timedelta(days=91),
            "year": today - timedelta(days=365),
            "season": date(today.year if today.month >= 8 else today.year - 1, 8, 1),
        }
        self._has_period = True
        self._view.show_period(key, firsts[key], today)

    def print_paper(self) -> None:
        """What is refused is told at once, at its field; all is gathered and drawn aside."""
        self._view.clear_refusals()
        asked = self._bench.guarded(self._asked, on_refusal=self._view.refuse)
        if asked is None:
            return
        count = self._bench.ask("delivery_count", asked["first"], asked["last"])
        if count > LONG:
            words = f"{count:,} deliveries, every declared field of each."
            self._faces.show_busy("Writing the officer's paper", words)
        self._errand = self._bench.errands.run(
            partial(_visit_paper, partial(self._bench.ask, "visit_sheet", **asked)),
            done=partial(self._paper_made, f"visit {asked['first']} to {asked['last']}.pdf"),
            failed=self._paper_failed,
            progress=self._faces.say_progress if count > LONG else None,
        )

    def _paper_made(self, name: str, paper: bytes) -> None:
        self._faces.show_page()
        self._bench.deliver(name, _SAID, paper)

    def _paper_failed(self, error: Exception) -> None:
        self._faces.show_page()
        if isinstance(error, Stopped):
            self._bench.done.emit("The paper was stopped; nothing of it was saved.")
        else:
            self._bench.guarded(partial(_again, error), on_refusal=self._view.refuse)

    def save_list(self) -> None:
        """The period's deliveries as CSV, a line each with every declared field."""
        self._view.clear_refusals()
        period = self._bench.guarded(self._period, on_refusal=self._view.refuse)
        if period is None:
            return
        first, last = period
        found = self._bench.ask("deliveries", first=first, last=last, limit=_ALL)
        if not found:
            refusal = Refusal("Nothing was delivered in this period.", "Choose another one.", "first")
            self._view.refuse(refusal)
            return
        content, name = _list_of(found[::-1]), f"deliveries {first} to {last}.csv"
        path = self._bench.guarded(partial(self._bench.printing.save, content, name))
        if path is not None:
            count = "1 delivery" if len(found) == 1 else f"{len(found)} deliveries"
            self._bench.done.emit(f"{count} in {path.name}, in {path.parent}")

    def _period(self) -> tuple[date, date]:
        first, last = self._view.first.value(), self._view.last.value()
        if first is None or last is None:
            field = "first" if first is None else "last"
            raise Refusal("The period needs its first and its last day.", "", field)
        if last < first:
            raise Refusal("The period ends before it begins.", "Swap the two dates.", "last")
        return first, last

    def _asked(self) -> dict[str, Any]:
        """What the sheet is to be made of."""
        first, last = self._period()
        lot = self._view.lot.text().strip()
        if lot:
            self._bench.ask("named", lot)
        with_pictures = self._view.pictures.value() == "with"
        return {"first": first, "last": last, "lot": lot, "with_pictures": with_pictures}

    def print_one_page(self, text: str) -> None:
        """A sheet to hand over, of whatever the text names."""
        self._view.clear_refusals()
        ask = partial(self._bench.ask, "hand_over", text)
        found = self._bench.guarded(ask, on_refusal=self._view.refuse_code)
        if found is not None:
            word = "".join(c if c.isalnum() or c in "-_" else "-" for c in found.trace.code)[:60]
            self._bench.to_paper(partial(_one_page, found), f"{found.sort} {word}.pdf", "The page is in")

    def save_book(self) -> None:
        """The Scottish dealer's record of the year that the period's last day falls in."""
        self._view.clear_refusals()
        last = self._view.last.value() or self._bench.today()
        made = self._bench.ask("book_list", "scotland-venison", last=last)
        content, name = _book_csv(made), f"dealer's record {made.first} to {made.last}.csv"
        path = self._bench.guarded(partial(self._bench.printing.save, content, name))
        if path is not None:
            self._bench.done.emit(f"{len(made.rows)} receipts, {made.first} to {made.last}, in {path.name}")

    def export(self) -> None:
        """Everything in open files, into a new folder: long work, aside."""
        folder = self._bench.guarded(self._bench.printing.folder_for_export)
        if folder is None:
            return
        self._faces.show_busy("Writing everything into open files", str(folder), can_stop=False)
        self._bench.errands.run(
            partial(_exported, self._bench.register, folder),
            done=self._exported,
            failed=self._export_failed,
        )

    def _exported(self, made: Any) -> None:
        self._faces.show_page()
        self._bench.done.emit(f"{made.files} files in {made.folder}. about.txt says how to check the seal.")

    def _export_failed(self, error: Exception) -> None:
        self._faces.show_page()
        self._bench.guarded(partial(_again, error))

    # -- the check --------------------------------------------------------------------------------------

    def check(self) -> None:
        self._faces.show_busy("Checking the whole register", "Every seal, every weight, every link.")
        self._errand = self._bench.errands.run(
            partial(_checked, self._bench.questions.check, self._bench.register),
            done=self._checked,
            failed=self._check_failed,
            progress=self._faces.say_progress,
        )

    def stop(self) -> None:
        self._bench.errands.stop(self._errand)

    def _checked(self, findings: tuple[Finding, ...]) -> None:
        self._faces.show_page()
        whole = "The register is whole: every seal fits, every weight is accounted for or shown as missing."
        words = f"{len(findings)} things are not as they should be:" if findings else whole
        self._view.show_check(words, findings)

    def _check_failed(self, error: Exception) -> None:
        self._faces.show_page()
        if isinstance(error, Stopped):
            self._view.show_check("The check was stopped before its end. Nothing was found until then.", ())
        else:
            self._bench.guarded(partial(_again, error))


def _checked(check: Callable, register: Any, progress: Callable[[int, int], None]) -> tuple[Finding, ...]:
    return check(register, progress)


def _again(error: Exception) -> None:
    raise error


def _list_of(carcasses: Sequence[Carcass]) -> bytes:
    from gametrace.exchange.csv_out import deliveries_csv

    return deliveries_csv(carcasses).encode()


def _one_page(sheet: Any) -> bytes:
    from gametrace.documents.hand_over_sheet import hand_over_pdf

    return hand_over_pdf(sheet)


def _book_csv(made: Any) -> bytes:
    from gametrace.exchange.csv_out import csv_text

    return csv_text(made.heads, made.rows).encode()


def _exported(register: Any, folder: Any, progress: Callable[[int, int], None]) -> Any:
    from gametrace.exchange.export import export_to

    return export_to(register, folder)


def _visit_paper(gather: Callable[..., VisitSheet], progress: Callable[[int, int], None]) -> bytes:
    from gametrace.documents.visit_pack import visit_pdf

    sheet = gather(progress=partial(_part_of, progress, 0, _GATHERED))
    return visit_pdf(sheet, partial(_part_of, progress, _GATHERED, _PARTS))


def _part_of(progress: Callable[[int, int], None], first: int, last: int, done: int, of: int) -> None:
    """One part of the way, told as a part of the whole."""
    progress(first + (last - first) * done // max(1, of), _PARTS)
