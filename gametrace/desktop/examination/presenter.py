"""Opens an animal, shows its pages, and puts the stop page in front where a notifiable sign was seen."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.examination.deciding import Deciding
from gametrace.desktop.examination.laboratory import Laboratory, waits_for_result
from gametrace.desktop.examination.looking import Looking
from gametrace.desktop.examination.stopping import ABOUT, Stopping, signs_written
from gametrace.desktop.parts.lot_words import why_of
from gametrace.desktop.parts.pick_list import Choice
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_text

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile
    from gametrace.register.records import Carcass


class ExaminationPresenter(QObject):
    def __init__(self, view: Any, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self.code = ""
        self.looking = Looking(view.look_page, bench)
        self.stopping = Stopping(view.stop_page, bench, self.looking)
        self.laboratory = Laboratory(view.boar_page, bench)
        self.deciding = Deciding(view.second_page, bench)
        self.stopping.shown_wanted.connect(self._to_stop)
        self.stopping.left.connect(self._to_look)
        view.page_wanted.connect(self._to_page)
        view.stop_wanted.connect(self._to_stop)
        view.larder_wanted.connect(self._to_larder)
        view.animal_chosen.connect(self.open)

    # -- opening ----------------------------------------------------------------------------------------

    def scanned(self, code: str) -> bool:
        """A scanned animal is opened here; anything else is somebody else's."""
        try:
            self.bench.ask("carcass", code)
        except Refusal:
            return False
        self.open(code)
        return True

    def open(self, code: str, page: str | None = None) -> None:
        """An animal, on the page wanted; with '' on the one it asks for. None leaves the page as it is."""
        file = self.bench.guarded(partial(self.bench.ask, "animal_file", code))
        if file is None:
            return
        is_other = file.carcass.code != self.code
        self.code = file.carcass.code
        self._show(file)
        if is_other or page is not None or not self.view.shown:
            self.view.show_page(self._page_for(file, page or ""))
        self.view.setFocus()

    def refresh(self) -> None:
        """The animal in hand anew, or the list of those in the house."""
        if self.code:
            self._show(self.bench.ask("animal_file", self.code))
        else:
            self.view.show_animals([_choice(one) for one in self.bench.ask("in_the_house")])
            self.view.show_page("")

    def _show(self, file: AnimalFile) -> None:
        one = file.carcass
        self.view.show_animal(
            code=one.code, title=one.title, state=one.lot.state, why=why_of(one.lot), days=one.days_hung
        )
        self.view.show_pages(with_laboratory=waits_for_result(file), with_stop=bool(signs_written(file)))
        self.looking.show(file)
        self.stopping.show(file)
        self.laboratory.show(file)
        self.deciding.show(file)

    # -- pages ------------------------------------------------------------------------------------------

    def _page_for(self, file: AnimalFile, wanted: str) -> str:
        """The one wanted, if this animal has it; the stop page comes before all while nobody has rung."""
        first = _first_page(file)
        return wanted if first != "stop" and wanted in self.view.pages_row.values() else first

    def _to_page(self, name: str) -> None:
        self.view.show_page(name)

    def _to_stop(self) -> None:
        self.view.show_page("stop")
        self.view.stop_page.focus_first()

    def _to_look(self) -> None:
        self.view.show_page("look")
        self.view.look_page.setFocus()

    def _to_larder(self) -> None:
        self.bench.go("larder", self.code)


def _choice(one: Carcass) -> Choice:
    words = f"{one.code}   {one.title}, {kg_text(one.lot.grams)}, {one.lot.where}"
    return Choice(one.code, words, f"{one.tag} {one.supplier.name}")


def _first_page(file: AnimalFile) -> str:
    if signs_written(file) and not any(call.about == ABOUT for call in file.calls):
        return "stop"
    if not file.carcass.in_skin and any(look.stage == "out of the skin" for look in file.looks):
        return "second"
    return "look"
