"""Leads between the three pages of the block: choosing, cutting, mixing. It reads; acts are elsewhere."""

from __future__ import annotations

from typing import Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.block.choosing import Candidate
from gametrace.desktop.block.cutting_presenter import CuttingPresenter
from gametrace.desktop.block.mixing_presenter import MixingPresenter
from gametrace.desktop.block.pages import BlockView, OpenLot
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.use_by import due_words, meat_name
from gametrace.domain.quantities import kg_text
from gametrace.register.clock import wall_day

_KINDS = {"carcass": "animals", "batch": "animals", "part": "parts", "mix": "mixes"}
_ORDER = {"carcass": 0, "batch": 1, "part": 2, "mix": 3}


class BlockPresenter:
    """`refresh` gives True where there is anything to show."""

    def __init__(self, view: BlockView, bench: Bench) -> None:
        self.view, self.bench = view, bench
        self._candidates: tuple[Candidate, ...] = ()
        self.cutting = CuttingPresenter(view.cutting, bench, self.show_choosing)
        self.mixing = MixingPresenter(view.mixing, bench, self._mix_made)
        view.choosing.chosen.connect(self.open)
        view.choosing.mix_wanted.connect(self.show_mixing)
        view.mixing.back_wanted.connect(self.show_choosing)
        view.choose_wanted.connect(self.show_choosing)
        view.mix_wanted.connect(self.show_mixing)
        view.open_wanted.connect(self.open)

    def refresh(self) -> bool:
        self._candidates = tuple(self._read())
        self.view.choosing.set_candidates(self._candidates)
        if self.view.page() == "cutting":
            self.cutting.refresh()
            self._say_head()
        elif self.view.page() == "mixing":
            self.mixing.refresh()
        return bool(self._candidates) or self.view.page() != "choosing"

    def _read(self) -> list[Candidate]:
        animals = self._animals()
        today = self.bench.today()
        open_codes = {one.code for one in self.bench.ask("open_blocks")}
        made = []
        for lot in self.bench.ask("block_candidates"):
            animal = animals.get(lot.code)
            is_open = lot.code in open_codes
            days = animal.days_hung if animal is not None else None
            if lot.state == "specimen":
                about = lot.state_reason.removeprefix(f"{lot.code} is ")
            elif is_open:
                about = f"open, {kg_text(lot.grams)} unweighed"
            elif animal is not None:
                about = f"hung {_days(days)}" if days is not None else "kill date not stated"
            else:
                cut = f"cut {day_text(wall_day(lot.made_at))}"
                about = f"use by {due_words(lot.use_by, today)}" if lot.use_by else cut
            made.append(
                Candidate(
                    code=lot.code,
                    kind=_KINDS.get(lot.kind, "parts"),
                    name=meat_name(lot),
                    state=lot.state,
                    grams=lot.grams,
                    about=about,
                    where=lot.where,
                    why_not=why_not(lot, animal),
                    is_open=is_open,
                    days=days if lot.state == "hanging" else None,
                )
            )
        order = {lot.code: _ORDER.get(lot.kind, 9) for lot in self.bench.ask("block_candidates")}
        made.sort(key=lambda one: (bool(one.why_not), not one.is_open, order[one.code]))
        return made

    def _animals(self) -> dict[str, Any]:
        """The animals in the house with their paper, in a few reads for all of them."""
        hung = [
            hook.carcass
            for store in self.bench.ask("larder_view")
            for rail in store.rails
            for hook in rail.hooks
            if hook.carcass is not None
        ]
        return {one.code: one for one in (*hung, *self.bench.ask("unplaced"))}

    # -- pages --------------------------------------------------------------------------------------------

    def open(self, code: str) -> None:
        """Lay a lot on the block; one that may not be cut is shown with the reason instead."""
        known = next((one for one in self._candidates if one.code == code), None)
        if known is not None and known.why_not:
            self.view.show_page("choosing")
            self.view.choosing.show_refusal(code, f"{known.name}, {code}: {known.why_not}")
            return
        self.view.show_page("cutting")
        self.cutting.show(code)
        self._say_head()

    def knows(self, code: str) -> bool:
        return any(one.code == code for one in self._candidates)

    def show_choosing(self) -> None:
        self.view.show_page("choosing")
        self.view.choosing.table.setFocus()

    def show_mixing(self) -> None:
        self.view.show_page("mixing")
        self.mixing.refresh()
        self.view.mixing.search.setFocus()

    def _mix_made(self, code: str) -> None:
        self._candidates = tuple(self._read())
        self.open(code)
        mix = self.cutting.view
        said = f"{mix.lot.name}, {kg_text(mix.grams_in)}: written as {code}. Now pack it."
        self.view.cutting.weighing.say_done(said)
        self.view.cutting.weighing.grams.select()

    def _say_head(self) -> None:
        shown = self.cutting.view
        if shown is None:
            return
        known = next((one for one in self._candidates if one.code == shown.lot.code), None)
        stands = [f"{kg_text(shown.grams_in)} in"]
        if known is not None and not known.is_open and known.about:
            stands.insert(0, known.about)
        animal = self._animals().get(shown.lot.code) if shown.lot.kind in ("carcass", "batch") else None
        if animal is not None and animal.days_hung is not None:
            stands = [f"hung {_days(animal.days_hung)}", stands[-1]]
        if shown.lot.place and not shown.is_closed:
            stands.append(shown.lot.where)
        others = [
            OpenLot(one.code, f"{one.name} {one.code[3:]}")
            for one in self._candidates
            if one.is_open and one.code != shown.lot.code
        ]
        self.view.say_head(shown.lot.name, shown.lot.code, " · ".join(stands), others)


def _days(days: int | None) -> str:
    return "1 day" if days == 1 else f"{days} days"


def why_not(lot: Any, animal: Any) -> str:
    """Why a lot may not be cut now, in words; '' where it may. A specimen may be cut, and stays one."""
    if lot.state in ("on hold", "rejected"):
        return (lot.state_reason or lot.state).removeprefix(f"{lot.code} is ")
    if animal is not None and animal.in_skin:
        return "still in the skin: dress it in the larder first, so that its number is handed on"
    if lot.state == "out of date":
        why = lot.state_reason.removeprefix(f"{lot.code} is ")
        return f"{why}. It can only be binned, at the pass."
    return ""
