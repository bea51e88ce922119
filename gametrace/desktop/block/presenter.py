"""Leads between the pages of the block: choosing, tables, cutting, mixing. It reads; acts are elsewhere."""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING, Any

from PySide6.QtGui import QKeySequence, QShortcut

from gametrace.desktop.bench import Bench
from gametrace.desktop.block.choosing import Candidate
from gametrace.desktop.block.cutting_presenter import CuttingPresenter
from gametrace.desktop.block.mixing_presenter import MixingPresenter
from gametrace.desktop.block.pages import BlockView, OpenLot
from gametrace.desktop.block.scale_line import SCALE_KEY
from gametrace.desktop.block.session_presenter import SessionPresenter
from gametrace.desktop.parts.days import day_text
from gametrace.desktop.parts.use_by import due_words, meat_name
from gametrace.domain.quantities import kg_text
from gametrace.register.clock import wall_day

if TYPE_CHECKING:
    from gametrace.desktop.block.cut_names_presenter import CutNamesPresenter
    from gametrace.desktop.block.packing_presenter import PackingPresenter
    from gametrace.desktop.block.scale_presenter import ScalePresenter
    from gametrace.desktop.block.session_page import SessionPage
    from gametrace.desktop.keeping.asking import Keeping

_KINDS = {"carcass": "animals", "batch": "animals", "part": "parts", "mix": "mixes"}
_ORDER = {"carcass": 0, "batch": 1, "part": 2, "mix": 3}


class BlockPresenter:
    """`refresh` gives True where there is anything to show."""

    def __init__(self, view: BlockView, bench: Bench) -> None:
        self.view, self.bench = view, bench
        self._candidates: tuple[Candidate, ...] = ()
        self._outside: set[str] = set()  # lots cut on no table though a session is open
        self._has_resumed = False
        self.sessions = SessionPresenter(view.laying, bench, self._session_page, self._laid)
        self.cutting = CuttingPresenter(view.cutting, bench, self.show_next, self.sessions.cutters)
        self.mixing = MixingPresenter(view.mixing, bench, self._mix_made)
        view.choosing.pack_wanted.connect(self.show_packing)
        view.choosing.keep_wanted.connect(self.show_keeping)
        view.choosing.chosen.connect(self.open)
        view.choosing.mix_wanted.connect(self.show_mixing)
        view.mixing.back_wanted.connect(self.show_choosing)
        view.choose_wanted.connect(self.show_choosing)
        view.mix_wanted.connect(self.show_mixing)
        view.open_wanted.connect(self.open)
        view.session_wanted.connect(self.show_session)
        view.strip.table_wanted.connect(self.go_to_table)
        view.laying.left.connect(self.show_choosing)
        view.laying.outside_wanted.connect(self._cut_outside)
        view.choosing.scale_wanted.connect(self._show_scale)
        view.choosing.cut_names_wanted.connect(self._show_cut_names)
        view.choosing.costs_wanted.connect(partial(bench.go, "costs"))
        self._shortcuts = [
            QShortcut(QKeySequence(f"Alt+{at}"), view, partial(self._go_to_nth, at)) for at in range(1, 10)
        ]

    # -- pages made when they are first wanted ------------------------------------------------------------

    def _session_page(self) -> SessionPage:
        page = self.view.sessions
        page.back_wanted.connect(self.show_choosing)
        page.now.table_wanted.connect(self.go_to_table)
        page.now.lay_wanted.connect(self.show_choosing)
        page.now.mix_wanted.connect(self.show_mixing)
        return page

    @cached_property
    def packing(self) -> PackingPresenter:
        from gametrace.desktop.block.packing_presenter import PackingPresenter

        self.view.packing.left.connect(self.show_choosing)
        return PackingPresenter(self.view.packing, self.bench)

    @cached_property
    def keeping(self) -> Keeping:
        from gametrace.desktop.keeping.asking import Keeping

        form = self.view.keeping.form
        form.left.connect(self.show_choosing)
        made = Keeping(form, self.bench)
        form.wanted.connect(partial(made.do, self._kept))
        return made

    @cached_property
    def scale(self) -> ScalePresenter:
        from gametrace.desktop.block.scale_presenter import ScalePresenter

        page, weighing = self.view.scale, self.view.cutting.weighing
        page.back_wanted.connect(self.show_choosing)
        return ScalePresenter(page, weighing.scale, self.bench, weighing.put, weighing.say_aside)

    @cached_property
    def cut_names(self) -> CutNamesPresenter:
        from gametrace.desktop.block.cut_names_presenter import CutNamesPresenter

        self.view.cut_names.back_wanted.connect(self.show_choosing)
        return CutNamesPresenter(self.view.cut_names, self.bench)

    # -- the whole ----------------------------------------------------------------------------------------

    def refresh(self) -> bool:
        self.sessions.refresh()
        self._candidates = tuple(self._read())
        self.view.choosing.set_candidates(self._candidates)
        if not self._has_resumed:
            self._has_resumed = True
            self._resume()
        if self.view.page() == "cutting":
            self.cutting.refresh()
            self._say_head()
        elif self.view.page() == "cut names":
            self.cut_names.refresh()
        elif self.view.page() == "mixing":
            self.mixing.refresh()
        elif self.view.page() == "packing":
            self.packing.refresh()
        has_session = self.sessions.view is not None
        return bool(self._candidates) or has_session or self.view.page() != "choosing"

    def _resume(self) -> None:
        """After a night: the scale is listened to, and the lot that was in hand lies there as it was left."""
        if self.bench.settings.text(SCALE_KEY):
            self.scale.join_kept()
        code = self.cutting.drafts.at
        if code and any(one.code == code and not one.why_not for one in self._candidates):
            self.view.show_page("cutting")
            self.cutting.show(code)

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
            elif table := self.sessions.table_of(lot.code):
                about = f"on {table}, {kg_text(lot.grams)} unweighed"
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
        if self._wants_table(code):
            self.view.show_page("laying")
            self.sessions.ask_table(code, f"{known.name} {code}" if known is not None else code)
            return
        self._show_cutting(code)

    def _wants_table(self, code: str) -> bool:
        """Whether it is to be said first on which table this lies."""
        if self.sessions.view is None or code in self._outside:
            return False
        is_over = all(one.code != code for one in self._candidates)
        return not is_over and not self.bench.ask("block_view", code).session

    def _laid(self, code: str) -> None:
        self.view.choosing.say_for("")
        self._show_cutting(code)

    def _cut_outside(self) -> None:
        """In a session, and yet on none of its tables: a joint for the kitchen."""
        code = self.sessions.laying_code
        self._outside.add(code)
        self._show_cutting(code)

    def _show_cutting(self, code: str) -> None:
        self.view.show_page("cutting")
        self.cutting.show(code)
        self._say_head()

    # -- tables -------------------------------------------------------------------------------------------

    def go_to_table(self, table: str) -> None:
        """What is cut there; at a free table, what shall be."""
        if code := self.sessions.at_work(table):
            self._show_cutting(code)
            return
        self.show_choosing()
        self.sessions.wanted_table = table
        self.view.choosing.say_for(table)

    def _go_to_nth(self, at: int) -> None:
        faces = self.sessions.faces()
        if self.view.isVisible() and at <= len(faces):
            self.go_to_table(faces[at - 1].name)

    def show_session(self) -> None:
        self.sessions.show_page()
        self.view.show_page("session")
        self.view.sessions.take_hand()

    def show_next(self) -> None:
        """After a block is closed: the tables of the session, or the lots that may be cut."""
        if self.sessions.view is not None:
            self.show_session()
        else:
            self.show_choosing()

    # -- aside --------------------------------------------------------------------------------------------

    def _show_scale(self) -> None:
        self.scale.show_page()
        self.view.show_page("scale")
        self.view.scale.port.setFocus()

    def _show_cut_names(self) -> None:
        self.cut_names.show_kind("")
        self.view.show_page("cut names")
        self.view.cut_names.table.setFocus()

    def knows(self, code: str) -> bool:
        return any(one.code == code for one in self._candidates)

    def show_choosing(self) -> None:
        self.cutting.leave()
        self.sessions.wanted_table = ""
        self.view.choosing.say_for("")
        self.view.show_page("choosing")
        self.view.choosing.table.setFocus()

    def show_mixing(self) -> None:
        self.view.show_page("mixing")
        self.mixing.refresh()
        self.view.mixing.search.setFocus()

    def _mix_made(self, code: str) -> None:
        self._candidates = tuple(self._read())
        self._outside.add(code)  # mince of several animals lies on no table until it is laid there
        self.show_packing(code)
        lot = self.packing.lot
        self.view.packing.loud.done(f"{lot.name}, {kg_text(lot.grams)}: written as {code}. Now pack it.")

    def show_packing(self, code: str) -> None:
        """Packs out of this lot; one that may not be packed is said to be so where it was chosen."""
        if self.packing.show(code):
            self.view.show_page("packing")
            self.view.packing.setFocus()

    def show_keeping(self, code: str) -> None:
        self.keeping.open(self.bench.ask("lot", code))
        self.view.show_page("keeping")
        self.view.keeping.form.setFocus()

    def _kept(self, said: str) -> None:
        self.show_choosing()
        self.view.choosing.say_done(said)

    def _say_head(self) -> None:
        shown = self.cutting.view
        if shown is None:
            return
        if table := self.sessions.table_of(shown.lot.code):
            self.view.show_tables(self.sessions.faces(), table)
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
