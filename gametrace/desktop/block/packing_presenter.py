"""Packs in one go at work: each weight on disk as it is entered, the labels of all with the last one."""

from __future__ import annotations

from functools import partial
from typing import Any
from uuid import uuid4

from gametrace.desktop.bench import Bench
from gametrace.desktop.block.dating import date_words, shelf_choices
from gametrace.desktop.block.packing_page import PackingPage
from gametrace.desktop.block.trays import Tray
from gametrace.desktop.labelling import print_labels
from gametrace.desktop.parts.use_by import meat_name
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import kg_figure, kg_text


class PackingPresenter:
    """`lot` is what is packed, as it stands."""

    def __init__(self, page: PackingPage, bench: Bench) -> None:
        self.page, self.bench = page, bench
        self.lot: Any = None
        self._made: list[Tray] = []
        self._shelf_of: dict[str, str] = {}
        self._key = uuid4().hex
        page.pack_wanted.connect(self.pack)
        page.labels_wanted.connect(self.print)
        page.changed.connect(self.say)
        page.packed.changed.connect(self._packed_changed)

    def show(self, code: str) -> bool:
        """Begin with this lot. False, and the reason in the banner, where it is nothing to pack."""
        lot = self.bench.guarded(partial(self.bench.ask, "lot", code))
        if lot is None:
            return False
        if lot.kind not in ("part", "mix", "pack") or lot.grams == 0:
            why = "used up" if lot.grams == 0 else f"a {lot.kind}"
            self.bench.refused.emit(f"{lot.code} is {why}: parts, mixes and packs are packed.")
            return False
        if self.lot is None or lot.code != self.lot.code:
            self._made = []
            self.page.count.clear()
            self.page.portions.clear()
            self.page.grams.clear()
            self.page.loud.hush()
        if lot.state_reason:
            self.page.loud.refuse(f"{lot.state_reason}.", lot.state)
        self.lot = lot
        self.page.packed.set_value("frozen" if lot.pack_state == "frozen" else self.page.packed.value())
        self._packed_changed()
        return True

    def refresh(self) -> None:
        if self.lot is not None:
            self.lot = self.bench.ask("lot", self.lot.code)
            self.say()

    def _packed_changed(self) -> None:
        packed = self.page.packed.value()
        shelves = shelf_choices(self.bench, packed)
        self.page.place.set_places(shelves)
        self.page.place.set_value(self._shelf_of.get(packed, ""))
        self.say()

    # -- what the page says ---------------------------------------------------------------------------------

    def say(self) -> None:
        """What is meant, what it leaves, the date and its rule, and what was made so far."""
        if self.lot is None or not self.bench.is_open:
            return
        page, lot = self.page, self.lot
        page.name.say(f"Pack {meat_name(lot)}")
        page.about.say(f"{lot.code} · {kg_text(lot.grams)} left · {lot.where}")
        day, rule = date_words(self.bench, page.packed.value(), lot.product, [lot])
        page.date.say(day)
        page.rule.say(rule)
        self._say_weight()
        total = sum(one.grams for one in self._made)
        many = len(self._made)
        page.so_far.say(f"{many} pack{'' if many == 1 else 's'}, {kg_text(total)}" if many else "No pack yet")
        page.packs.set_trays(self._made)
        page.print.setEnabled(bool(self._made))

    def _say_weight(self) -> None:
        page, left = self.page, self.lot.grams
        wanted, typed = page.count.value_or_none() or 0, page.grams.value_or_none()
        portions = page.portions.value_or_none()
        about = f", about {portions} portion{'' if portions == 1 else 's'}" if portions else ""
        if page.is_alike():
            page.what.say(f"Each of {wanted or 'how many'} packs{about}")
            each = left // wanted if wanted else 0
            page.grams.edit.setPlaceholderText(kg_figure(each) if each else "")
            taken = (typed or each) * wanted
            if typed is None:
                words = f"Left empty, all {kg_text(left)} is shared out." if wanted else ""
            else:
                words = f"{kg_text(left - taken)} would be left." if taken <= left else ""
            page.leaves.say(words if taken <= left else f"{kg_text(taken - left)} more than is left.")
            return
        now = len(self._made) + 1
        of = f" of {wanted}" if wanted >= now else ""
        page.what.say(f"Pack {now}{of}{about}")
        page.grams.edit.setPlaceholderText("")
        taken = typed or 0
        page.leaves.say(
            f"{kg_text(left - taken)} left after it"
            if taken <= left
            else f"{kg_text(taken - left)} more than is left"
        )

    # -- acts -----------------------------------------------------------------------------------------------

    def pack(self) -> None:
        """One pack or all of them, on to disk; with the last one the labels of all."""
        given = self.bench.guarded(self._given, on_refusal=self._refuse)
        if given is None:
            return
        packed, place = given["pack_state"], given["place"]
        changes = self.bench.attempt(
            "pack_many", on_refusal=self._refuse, code=self.lot.code, key=self._key, **given
        )
        if changes is None:
            return
        self._key = uuid4().hex
        self._shelf_of[packed] = place
        made = [self.bench.ask("lot", code) for code in changes.created]
        self._made += [Tray(one.code, one.name, one.grams, by=one.made_by) for one in made]
        self.refresh()
        self._acknowledge(len(made))

    def _given(self) -> dict[str, Any]:
        page = self.page
        grams, count = page.grams.value(), page.count.value()
        given: dict[str, Any] = {
            "pack_state": page.packed.value(),
            "place": page.place.value(),
            "portions": page.portions.value() or 0,
        }
        if page.is_alike():
            return given | {"count": count or 0, "grams_each": grams}
        if grams is None:
            raise Refusal("No weight has been given.", "Weigh the pack and type the kilograms.", "grams")
        return given | {"weights": [grams]}

    def _acknowledge(self, many: int) -> None:
        page = self.page
        wanted = page.count.value_or_none() or 0
        is_last = page.is_alike() or len(self._made) == wanted
        one = self._made[-1]
        said = (
            f"{many} packs: {self._made[-many].code} to {one.code}."
            if many > 1
            else f"{one.name}, {kg_text(one.grams)}: {one.code}."
        )
        page.grams.clear()
        page.grams.select()
        page.loud.done(said)
        self.say()
        page.loud.done(said)
        if is_last and page.labels.isChecked():
            self.print()

    def print(self) -> None:
        """The labels of every pack of this go, on one paper."""
        codes = [one.code for one in self._made]
        if codes:
            words = f"{len(codes)} labels are" if len(codes) > 1 else "Its label is"
            print_labels(
                self.bench, codes, done=partial(self.page.loud.done, f"{words} open, ready to print.")
            )

    def _refuse(self, refusal: Refusal) -> None:
        self.page.refuse(refusal.field, str(refusal))
