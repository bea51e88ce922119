"""Opens a supplier's file, keeps what is changed in it, and tells what has lapsed."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from gametrace.desktop.bench import Bench


class SupplierPresenter:
    """`view` has `lines` (SupplierLines), `file` (SupplierFile) and `show_file(bool)`."""

    def __init__(self, view: Any, bench: Bench) -> None:
        self._view, self._bench = view, bench
        self.code = ""
        view.lines.wanted.connect(self.open)
        view.file.kept.connect(self.keep)
        view.file.closed.connect(self.close)

    def refresh(self) -> None:
        """Read anew. A file that is open keeps what is typed in it."""
        from gametrace.register.supplier_words import lapse_lines

        approvals = self._bench.ask("approvals")
        today = self._bench.today()
        self._view.lines.show_suppliers(
            [
                (code, f"{code}   {one.name}", lapse_lines(one, today))
                for code, one in sorted(approvals.items())
            ]
        )
        if self.code in approvals:
            self._view.file.show_told(*self._told(approvals[self.code]))

    def open(self, code: str) -> None:
        approval = self._bench.ask("approvals").get(code)
        if approval is None:
            return
        self.code = code
        self._view.file.show_file(code, asdict(approval), *self._told(approval))
        self._view.show_file(True)

    def close(self) -> None:
        was, self.code = self.code, ""
        self._view.show_file(False)
        if was in self._view.lines.buttons:
            self._view.lines.buttons[was].setFocus()

    def keep(self) -> None:
        file, code = self._view.file, self.code
        file.clear_refusals()
        values = self._bench.guarded(file.values, on_refusal=file.refuse)
        if values is None:
            return
        said = f"The file of {values['name']} is kept."
        if self._bench.attempt("amend_supplier", on_refusal=file.refuse, said=said, supplier=code, **values):
            self.close()

    def _told(self, approval: Any) -> tuple[tuple[str, ...], tuple[str, ...]]:
        from gametrace.register.supplier_words import lapse_lines, score_lines

        score = self._bench.ask("scores", self.code).get(self.code)
        return lapse_lines(approval, self._bench.today()), score_lines(score)
