"""Strikes an entry that was written by mistake: of the chosen lot's story, or of what a station wrote down.

It stays in the story as struck.
"""

from __future__ import annotations

from collections.abc import Sequence

from gametrace.desktop.delivery.paper_part import line_edit
from gametrace.desktop.larder.act_form import ActForm
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.words import Words
from gametrace.register.clock import wall_text
from gametrace.register.records import StoryLine


class StrikeForm(ActForm):
    title, act = "Strike an entry", "Strike this entry"
    nothing = "Nothing in its story can be struck."
    is_wide = False  # whether a row has room for when and by whom

    def _build(self) -> None:
        self.say_about("It stays in the story as struck. What it took flows back to the gram.")
        self.entries = PickList("Entries, the newest first", search="Find an entry")
        self.entries.setFixedHeight(170)
        self.ask("Which one was a mistake?", self.entries, "seq")
        self.what = Words("", "")
        self.column.addWidget(self.what)
        self.reason = line_edit("What was the mistake", 500)
        self.ask("What was the mistake?", self.reason, "reason")
        self._told: dict[str, str] = {}
        self.entries.moved.connect(self._say)
        self.entries.picked.connect(self._picked)

    def set_entries(self, entries: Sequence[StoryLine]) -> None:
        """Each with its time and its writer: one round reads like the next."""
        self._told = {
            str(one.seq): f"{wall_text(one.happened_at)}, {one.by}: {one.sentence}" for one in entries
        }
        rows = self._told.values() if self.is_wide else [one.sentence for one in entries]
        self.entries.set_choices([Choice(seq, row) for seq, row in zip(self._told, rows, strict=True)])
        self.entries.begin()
        self._say(self.entries.value())

    def _say(self, seq: str) -> None:
        self.what.say(self._told.get(seq, self.nothing))

    def _picked(self, seq: str) -> None:
        self._say(seq)
        self.reason.setFocus()
