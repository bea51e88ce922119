"""The second decision, out of the skin, and the price; the claim beside them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.delivery.weighing import difference_words
from gametrace.desktop.examination.claiming import Claiming
from gametrace.desktop.examination.second_page import SecondPage
from gametrace.desktop.larder.telling_file import estimate_lines
from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.domain.examination import Look
from gametrace.domain.quantities import kg_text, pounds_text
from gametrace.facts.examination import point

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile


class Deciding(QObject):
    def __init__(self, page: SecondPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self.claiming = Claiming(page, bench)
        self._file: AnimalFile | None = None
        page.decide_wanted.connect(self._decide)
        page.price.wanted.connect(self._price)
        page.price.pence.changed.connect(self._ask_price_reason)

    @property
    def file(self) -> AnimalFile:
        assert self._file is not None, "a page without an animal has nothing to decide"
        return self._file

    def show(self, file: AnimalFile) -> None:
        """Everything of this animal; what is typed for the same animal stays."""
        page = self.page
        is_other = self._file is None or self._file.carcass.code != file.carcass.code
        was = self._file.carcass.pence_per_kg if self._file is not None else None
        self._file = file
        one = file.carcass
        if is_other:
            page.decision.clear()
            page.price.why.clear()
        if is_other or was != one.pence_per_kg:
            page.price.pence.set_value(one.pence_per_kg)
            page.price.clear_refusals()
        page.standing.say(_standing(file))
        page.show_facts(_facts(file))
        page.decision.setVisible(not one.in_skin and not file.second_decision)
        self._ask_price_reason()
        self.claiming.show(file)

    # -- the decision and the price ---------------------------------------------------------------------

    def _decide(self) -> None:
        form = self.page.decision
        form.clear_refusals()
        given = form.values()
        if not given["decision"]:
            form.refuse(Refusal("Decide first.", "", "decision"))
            return
        done = self.bench.attempt(
            "decide_again",
            on_refusal=form.refuse,
            said=f"{self.file.carcass.code}: {given['decision']}, out of the skin.",
            code=self.file.carcass.code,
            decision=Decision(given["decision"]),
            reason=given["reason"],
        )
        if done is not None:
            self.page.price.pence.select()

    def _ask_price_reason(self) -> None:
        """A price that was given is changed with a reason only."""
        before = self.file.carcass.pence_per_kg
        now = self.page.price.pence.value_or_none()
        self.page.price.reason_field.setVisible(before is not None and now != before)

    def _price(self) -> None:
        sheet = self.page.price
        sheet.clear_refusals()
        try:
            pence = sheet.pence.value()
            if pence is None:
                raise Refusal("Give pounds and pence a kilo.", "", "pence_per_kg")
        except Refusal as refusal:
            sheet.refuse(Refusal(refusal.sentence, refusal.what_to_do, "pence_per_kg"))
            return
        done = self.bench.attempt(
            "amend_carcass",
            on_refusal=sheet.refuse,
            said=f"{pounds_text(pence)} a kilo is written down.",
            code=self.file.carcass.code,
            changes={"pence_per_kg": pence},
            reason=sheet.why.text().strip(),
        )
        if done is not None:
            sheet.why.clear()
            if not self.page.claim.grams_field.isHidden():
                self.page.claim.grams.select()


def _standing(file: AnimalFile) -> str:
    if file.carcass.in_skin:
        return "Still in the skin. Damage shows under it: price and claim stay open until it is dressed."
    if not file.second_decision:
        return "Out of the skin and not decided again yet. Price and claim are open."
    why = f": {file.second_reason}" if file.second_reason else ""
    return f"Decided out of the skin: {file.second_decision}{why}."


def _facts(file: AnimalFile) -> list[tuple[str, str]]:
    one = file.carcass
    theirs = difference_words(one.grams_received, one.supplier_grams)
    theirs = f"{kg_text(one.supplier_grams)}. {theirs}" if one.supplier_grams is not None else "not given"
    door = f"{one.decision}: {one.decision_reason}" if one.decision_reason else one.decision
    rows = [
        ("From", one.supplier.name),
        ("Weight received", f"{kg_text(one.grams_received)}, {one.basis_words}"),
        ("Their weight", theirs),
        ("Left now", f"{kg_text(one.lot.grams)}, {one.basis_now}"),
        *(("Otherwise dressed", line) for line in estimate_lines(file)),
        ("At the door", door),
    ]
    for stage in ("in the skin", "out of the skin"):
        seen = [look for look in file.looks if look.stage == stage]
        bad = [f"{point(look.point).name}: {look.note}" for look in seen if look.answer == Look.NOT_SO]
        words = "; ".join(bad) if bad else "nothing against it was written" if seen else "not looked at yet"
        rows.append((f"Seen {stage}", words))
    pictures = [one.what for one in file.pictures]
    rows.append(("Pictures", ", ".join(pictures) or "none yet"))
    return rows
