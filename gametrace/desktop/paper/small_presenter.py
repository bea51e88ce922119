"""Between the page of small papers and the register."""

from __future__ import annotations

from functools import partial
from typing import Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.paper.small_page import SmallPage
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.errors import Refusal


class SmallPresenter:
    """Asks, draws off the GUI thread, saves and shows."""

    def __init__(self, page: SmallPage, bench: Bench) -> None:
        self.page, self.bench = page, bench
        page.cutting_wanted.connect(self.cutting)
        page.evidence_wanted.connect(self.evidence)

    def refresh(self) -> None:
        from gametrace.facts.species import all_species

        self.page.show_species([Choice(one.id, one.name) for one in all_species()])

    def cutting(self) -> None:
        from gametrace.documents.cutting_sheet import cutting_pdf

        code = self.page.code.inner.text().strip()
        species = self.page.species.value()
        if not code and not species:
            self.page.clear_refusals()
            self.page.refuse(Refusal("Which sheet?", "Give a lot, or choose a kind of animal.", "code"))
            return
        sheet = self._asked("cutting_sheet", code=code, species=species)
        if sheet is not None:
            of = sheet.lot.code if sheet.lot else f"empty-{sheet.species}"
            name = f"cutting-sheet-{of.replace(' ', '-')}.pdf"
            self.bench.to_paper(partial(cutting_pdf, sheet), name, "The cutting sheet:")

    def evidence(self) -> None:
        from gametrace.documents.evidence_sheet import evidence_pdf

        page, today = self.page, self.bench.today()
        sheet = self._asked(
            "evidence_sheet",
            student=page.student.inner.text(),
            first=page.first.inner.value_or_none() or today.replace(month=1, day=1),
            last=page.last.inner.value_or_none() or today,
        )
        if sheet is not None:
            name = f"evidence-{sheet.student}.pdf"
            self.bench.to_paper(partial(evidence_pdf, sheet), name, "The evidence sheet:")

    def _asked(self, question: str, **given: Any) -> Any:
        self.page.clear_refusals()
        return self.bench.guarded(partial(self.bench.ask, question, **given), on_refusal=self.page.refuse)
