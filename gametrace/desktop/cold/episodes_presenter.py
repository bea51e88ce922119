"""Words the warm and unmeasured times, unanswered first, and writes down what was done about one."""

from __future__ import annotations

import uuid
from datetime import timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from gametrace.desktop.bench import Bench
from gametrace.desktop.cold.episodes_page import EpisodesPage, EpisodeTold
from gametrace.desktop.cold.saying import span_text
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import celsius_text

if TYPE_CHECKING:
    from gametrace.register.warm_times import Episode

_NAMED = 12  # lots named in full; of more only the count


class EpisodesPresenter(QObject):
    """Signals: curve_wanted(object): an episode is to be seen on its curve."""

    curve_wanted = Signal(object)

    def __init__(self, page: EpisodesPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self._found: dict[str, Episode] = {}
        page.span_wanted.connect(self._span_wanted)
        page.wanted.connect(self._write)
        page.hold_wanted.connect(self._hold)
        page.curve_wanted.connect(self._to_curve)

    def refresh(self) -> None:
        now = self.bench.now()
        days = int(self.page.span.value())
        found = list(self.bench.ask("episodes", now - timedelta(days=days), now))
        found.sort(key=_order)
        self._found = {key_of(one): one for one in found}
        open_count = sum(not one.action for one in found)
        warm = sum(one.sort == "warm" for one in found)
        count = f"{warm} warm, {len(found) - warm} not measured; {open_count} unanswered"
        if not found:
            count = "No store was warm for long or unmeasured in this time, as far as anybody read."
        self.page.set_episodes([told(one) for one in found], count)

    def _span_wanted(self, days: str) -> None:
        self.refresh()

    def _write(self) -> None:
        one = self._found.get(self.page.key)
        if one is None:
            return
        for field in self.page.fields.values():
            field.clear_refusal()
        done = self.bench.attempt(
            "answer_episode",
            on_refusal=self._refused,
            said=f"{one.store_name}: what was done is written down.",
            store=one.store,
            first_at=one.first_at,
            last_at=one.last_at,
            sort=one.sort,
            action=self.page.action.text(),
            result=self.page.result.text(),
            key=uuid.uuid4().hex,
        )
        if done is not None:
            self.page.action.clear()
            self.page.result.clear()
            self.page.list.setFocus()

    def _refused(self, refusal: Refusal) -> None:
        self.page.refuse(refusal.field, str(refusal))

    def _hold(self) -> None:
        """What stood there then and is still here goes on hold, each by its own act."""
        one = self._found.get(self.page.key)
        if one is None:
            return
        why = f"{one.store_name} was warm: {_when(one)}, {_highest(one)}"
        if one.sort == "gap":
            why = f"nobody measured {one.store_name}: {_when(one)}"
        held = 0
        for code in self._to_hold(one):
            held += self.bench.attempt("hold_lot", code=code, reason=why, key=uuid.uuid4().hex) is not None
        if held:
            self.bench.done.emit(f"{held} on hold, and everything made of them.")
        else:
            self.bench.refused.emit("Nothing that stood there is still here and not yet on hold.")

    def _to_hold(self, one: Episode) -> list[str]:
        here = {lot.code: lot for lot in self.bench.ask("stock")}
        here |= {c.code: c.lot for c in self._hung()}
        return [code for code in one.lots if code in here and here[code].state in ("ready", "hanging")]

    def _hung(self) -> list:
        stores = self.bench.ask("larder_view")
        return [h.carcass for store in stores for rail in store.rails for h in rail.hooks if h.carcass]

    def _to_curve(self) -> None:
        if (one := self._found.get(self.page.key)) is not None:
            self.curve_wanted.emit(one)


def key_of(one: Episode) -> str:
    return f"{one.store} {one.sort} {one.first_at:%Y%m%d%H%M%S}"


def told(one: Episode) -> EpisodeTold:
    """One episode in words."""
    line = f"{one.store_name}, {'warm' if one.sort == 'warm' else 'not measured'}: {_when(one)}"
    if one.sort == "warm":
        line += f", {_highest(one)}"
    lots = f"{len(one.lots)} lot{'' if len(one.lots) == 1 else 's'} stood there"
    line += f". {lots}. " + ("Answered." if one.action else "Nobody has said what was done.")
    lasted = span_text(int((one.last_at - one.first_at).total_seconds()))
    facts: tuple[str, ...] = (
        _when(one),
        f"{'Between two readings' if one.sort == 'gap' else 'Above the limit'} for {lasted}.",
    )
    if one.sort == "warm":
        facts += (f"{_first_up(_highest(one))}; the kitchen's limit is {celsius_text(one.limit_tenths_c)}.",)
    said = ""
    if one.action:
        said = f"Done: {one.action} ({one.answered_by})."
        said += f" It came of it: {one.result}." if one.result else ""
    names = ", ".join(one.lots[:_NAMED]) + (f" and {len(one.lots) - _NAMED} more" * (len(one.lots) > _NAMED))
    return EpisodeTold(
        key=key_of(one),
        line=line,
        title=f"{one.store_name}: {'too warm' if one.sort == 'warm' else 'nobody measured'}",
        facts=facts,
        lots=f"Stood there then: {names}." if one.lots else "Nothing stood there then.",
        answer=said.replace("..", "."),
    )


def _order(one: Episode) -> tuple[bool, bool, float]:
    """Unanswered first, warm before unmeasured, newest first."""
    return bool(one.action), one.sort == "gap", -one.first_at.timestamp()


def _when(one: Episode) -> str:
    from gametrace.register.clock import wall_day, wall_text

    begin, end = wall_text(one.first_at), wall_text(one.last_at)
    if wall_day(one.first_at) == wall_day(one.last_at):
        end = end.rsplit(", ", 1)[1]
    return f"{begin} to {end}"


def _highest(one: Episode) -> str:
    return f"highest {celsius_text(one.highest_tenths_c or 0)}"


def _first_up(words: str) -> str:
    return words[:1].upper() + words[1:]
