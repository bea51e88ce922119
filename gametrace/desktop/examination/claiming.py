"""The claim by the supplier's rule: worked out before it is raised, settled after, its note printed."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.examination.papers import print_claim
from gametrace.desktop.examination.second_page import SecondPage
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.claims import claim_pence
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text, pounds_text

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile, Claim
    from gametrace.register.supplier_book import Approval

RULE_WORDS = {
    "none": "No rule for damage is agreed with this supplier",
    "bought price": "Agreed: weight lost at the price bought at",
    "cut price": "Agreed: weight lost at the price of the cut",
    "fixed": "Agreed: a fixed sum",
}
OPEN = ("raised", "agreed")


class Claiming(QObject):
    def __init__(self, page: SecondPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self._file: AnimalFile | None = None
        page.claim.changed.connect(self._work_out)
        page.claim.wanted.connect(self._raise)
        page.settle.wanted.connect(self._settle)
        page.settle.chosen.connect(self._claim_chosen)
        page.settle.note_wanted.connect(self._print)

    @property
    def file(self) -> AnimalFile:
        assert self._file is not None, "a page without an animal has no claim"
        return self._file

    def show(self, file: AnimalFile) -> None:
        """The rule, the sum and the claims; what is typed for the same animal stays."""
        if self._file is None or self._file.carcass.code != file.carcass.code:
            self.page.claim.clear()
        self._file = file
        self._show_rule()
        self._work_out()
        choices = [Choice(str(claim.id), _claim_words(claim)) for claim in file.claims]
        self.page.settle.show_claims(choices)
        self._claim_chosen()

    def _approval(self) -> Approval:
        return self.bench.ask("approvals")[self.file.carcass.supplier.code]

    def _show_rule(self) -> None:
        approval, claim = self._approval(), self.page.claim
        words = RULE_WORDS[approval.damage_rule]
        if approval.damage_rule == "fixed":
            words += f", {pounds_text(approval.damage_pence)}"
        claim.rule.say(f"{words}.")
        claim.window_words.say(
            "Agree one with them and write it on the supplier; until then it is settled outside the register."
            if approval.damage_rule == "none"
            else self._window_words(approval.claim_days)
        )
        claim.ask(is_asked=approval.damage_rule != "none", is_cut_price=approval.damage_rule == "cut price")

    def _window_words(self, days: int) -> str:
        from gametrace.register.clock import wall_day

        if not days:
            return "No last day for a claim is agreed."
        last: date = wall_day(self.file.carcass.received_at) + timedelta(days=days)
        left = (last - self.bench.today()).days
        if left < 0:
            return f"The agreed days ended on {day_text(last)}: ring the supplier."
        span = "today is the last day" if left == 0 else f"{left} day{'' if left == 1 else 's'} left"
        return f"Until {day_text(last)}: {span}."

    def _work_out(self) -> None:
        """The sum, before it is raised."""
        if self._file is None:
            return
        approval, claim = self._approval(), self.page.claim
        grams = claim.grams.value_or_none() or 0
        rule = approval.damage_rule
        price = claim.cut_pence.value_or_none() if rule == "cut price" else self.file.carcass.pence_per_kg
        if rule == "fixed":
            claim.sum.say(f"Comes to {pounds_text(approval.damage_pence)}, whatever the weight.")
        elif price is None:
            missing = "the price of the cut" if rule == "cut price" else "the price a kilo"
            claim.sum.say(f"Comes to nothing yet: {missing} is not given.")
        else:
            pence = claim_pence(rule, grams=grams, pence_per_kg=price, fixed_pence=0)
            claim.sum.say(f"Comes to {pounds_text(pence)}: {kg_text(grams)} at {pounds_text(price)} a kilo.")

    def _raise(self) -> None:
        sheet = self.page.claim
        sheet.clear_refusals()
        try:
            grams = sheet.grams.value()
            if grams is None:
                raise Refusal("Weigh what was lost.", "", "grams")
        except Refusal as refusal:
            sheet.refuse(Refusal(refusal.sentence, refusal.what_to_do, "grams"))
            return
        try:
            cut_pence = None if sheet.cut_field.isHidden() else sheet.cut_pence.value()
        except Refusal as refusal:
            sheet.refuse(Refusal(refusal.sentence, refusal.what_to_do, "pence_per_kg"))
            return
        done = self.bench.attempt(
            "raise_claim",
            on_refusal=sheet.refuse,
            code=self.file.carcass.code,
            grams=grams,
            reason=sheet.why.text().strip(),
            cut_pence_per_kg=cut_pence,
        )
        if done is not None:
            sheet.clear()
            self.page.settle.list.set_value(done.code)
            self._claim_chosen()
            self.bench.done.emit(f"Claim {done.code} is raised. Its note can be printed.")
            self.page.settle.print.setFocus()

    def _claim(self) -> Claim | None:
        chosen = self.page.settle.list.value()
        return next((claim for claim in self.file.claims if str(claim.id) == chosen), None)

    def _claim_chosen(self, _value: str = "") -> None:
        claim, sheet = self._claim(), self.page.settle
        sheet.clear_refusals()
        sheet.ask(claim is not None and claim.status in OPEN)
        if claim is not None:
            sheet.status.set_value("")
            sheet.pence.set_value(claim.pence if claim.settled_pence is None else claim.settled_pence)

    def _settle(self) -> None:
        claim, sheet = self._claim(), self.page.settle
        if claim is None:
            return
        sheet.clear_refusals()
        status = sheet.status.value()
        try:
            if not status:
                raise Refusal("Say whether it was agreed, credited or refused.", "", "status")
            pence = None if status == "refused" else sheet.pence.value()
        except Refusal as refusal:
            sheet.refuse(Refusal(refusal.sentence, refusal.what_to_do, "status" if not status else "pence"))
            return
        done = self.bench.attempt(
            "settle_claim",
            on_refusal=sheet.refuse,
            said=f"Claim {claim.id} is {status}.",
            claim=claim.id,
            status=status,
            pence=pence,
            note=sheet.note.text().strip(),
        )
        if done is not None:
            sheet.note.clear()

    def _print(self) -> None:
        if (claim := self._claim()) is not None:
            print_claim(self.bench, self.file, claim)


def _claim_words(claim: Claim) -> str:
    sum_ = pounds_text(claim.pence if claim.settled_pence is None else claim.settled_pence)
    return f"Claim {claim.id}: {sum_}, {claim.status}, {kg_text(claim.grams)}"
