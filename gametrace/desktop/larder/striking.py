"""The strike form on a station's own page: what may be struck of the kinds it writes down."""

from __future__ import annotations

import uuid
from collections.abc import Sequence

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.larder.strike_form import StrikeForm
from gametrace.domain.errors import Refusal


class HouseStrikeForm(StrikeForm):
    """What concerns no one lot, so that there is no lot to go back to."""

    nothing = "Nothing written down here can be struck."
    is_wide = True

    def _build(self) -> None:
        super()._build()
        self.say_about("It stays on view as struck, with the reason. What it took the place of stands again.")
        self.back.hide()


class HouseStriking(QObject):
    """One form, one bench, the kinds of entry a station writes."""

    def __init__(self, form: StrikeForm, bench: Bench, kinds: Sequence[str]) -> None:
        super().__init__(form)
        self.form, self.bench, self.kinds = form, bench, tuple(kinds)
        self._key = uuid.uuid4().hex
        form.wanted.connect(self._strike)

    def refresh(self) -> None:
        self.form.set_entries(self.bench.ask("strikable_of", self.kinds))

    def _strike(self) -> None:
        form = self.form
        form.clear_refusals()
        if not form.entries.value():
            form.refuse("seq", "Choose the entry that was a mistake.")
            return
        done = self.bench.attempt(
            "strike_entry",
            on_refusal=self._refused,
            said="The entry is struck.",
            seq=int(form.entries.value()),
            reason=form.reason.text(),
            key=self._key,
        )
        if done is not None:
            self._key = uuid.uuid4().hex
            form.reason.clear()
            self.refresh()

    def _refused(self, refusal: Refusal) -> None:
        self.form.refuse(refusal.field, str(refusal))
