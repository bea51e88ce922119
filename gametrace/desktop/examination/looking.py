"""Takes the answers of a look, has them ruled live, and writes the whole card down with one key."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from gametrace.desktop.bench import Bench
from gametrace.desktop.examination.card import LookCard, Spot, card_of
from gametrace.desktop.examination.look_page import LookPage
from gametrace.domain.errors import Refusal
from gametrace.domain.examination import Look
from gametrace.domain.findings import Severity
from gametrace.register.records import Changes

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile

PREVIEW_MS = 60


class Looking(QObject):
    """Cards are kept by animal until they are written. Signals: sign_seen(str): a notifiable sign's point."""

    sign_seen = Signal(str)

    def __init__(self, page: LookPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        self.card: LookCard | None = None
        self._kept: dict[str, LookCard] = {}
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(PREVIEW_MS)
        self._later.timeout.connect(self.preview)
        page.answered.connect(self.answer)
        page.noted.connect(self._noted)
        page.note_done.connect(self._note_done)
        page.moved.connect(self._moved)
        page.marked.connect(self._marked)
        page.unmarked.connect(self._unmarked)
        page.wanted.connect(self.write_down)

    def show(self, file: AnimalFile) -> None:
        """The card as it was left, or as it is written. A card of a stage that is over is let go."""
        fresh = card_of(file)
        kept = self._kept.get(fresh.code)
        is_kept = (
            kept is not None
            and kept.is_touched
            and (kept.stage, kept.absent) == (fresh.stage, fresh.absent)
            and kept.species == fresh.species
        )
        card = kept if is_kept and kept is not None else fresh
        self._kept[card.code] = card
        is_same = self.card is card
        self.card = card
        if not is_same:
            self.page.clear_refusal()
        self.page.show_card(card)
        self.preview()

    # -- answers ----------------------------------------------------------------------------------------

    def answer(self, point_id: str, look: str) -> None:
        """One answer; the hand goes on, or to the words where something is not so."""
        card = self._open_card()
        self.page.clear_refusal()
        given = card.answers.get(point_id)
        note = given.note if given and given.answer == look else ""
        try:
            card.answer(point_id, look, note)
        except Refusal as refusal:
            self.page.refuse(str(refusal))
            self.page.show_answer(card, point_id)
            return
        self.page.show_answer(card, point_id)
        self._later.start()
        if look != Look.NOT_SO:
            self._go_on(point_id)
        elif card.point(point_id).kind == "sign":
            self.sign_seen.emit(point_id)
        else:
            self.page.show_point(card, point_id)
            self.page.points.go_to(point_id)
            self.page.to_note()

    def _noted(self, point_id: str, words: str) -> None:
        card = self._open_card()
        card.note(point_id, words)
        self.page.points.show_answer(card, point_id)
        self._later.start()

    def _note_done(self, point_id: str) -> None:
        card = self._open_card()
        given = card.answers.get(point_id)
        if given is not None and given.answer == Look.NOT_SO and not given.note:
            self.page.refuse("Write down what was seen, then Enter.")
            return
        self.page.clear_refusal()
        self._go_on(point_id)

    def _go_on(self, point_id: str) -> None:
        """To the next open point; where all have an answer, to the act that writes it down."""
        card = self._open_card()
        following = card.next_open(point_id)
        if following:
            self.page.to_points(following)
        elif self.page.points.hasFocus() or self.page.note.hasFocus():
            self.page.act.setFocus()

    def _moved(self, point_id: str) -> None:
        self.page.show_point(self._open_card(), point_id)

    def _marked(self, spot: Spot) -> None:
        card = self._open_card()
        card.mark(spot)
        self.page.show_marks(card)

    def _unmarked(self, at: int) -> None:
        card = self._open_card()
        card.unmark(at)
        self.page.show_marks(card)

    def take_back(self, point_id: str) -> None:
        """A slip on a sign: the point has no answer again."""
        card = self._open_card()
        card.take_back(point_id)
        self.page.show_answer(card, point_id)
        self.preview()
        self.page.to_points(point_id)

    # -- ruling and writing -----------------------------------------------------------------------------

    def preview(self) -> None:
        card = self._open_card()
        call = partial(
            self.bench.acts.preview_examination, self.bench.register, code=card.code, answers=card.given()
        )
        found = self.bench.guarded(call)
        if found is not None:
            self.page.show_findings(found)

    def write_down(self) -> None:
        """When every 'not so' says what was seen."""
        card = self._open_card()
        bare = [one for one in card.given() if one.answer == Look.NOT_SO and not one.note]
        if not bare:
            self.write_as_it_stands()
            return
        self.page.to_points(bare[0].point)
        self.page.refuse(f"Write down what was seen: {card.point(bare[0].point).name}.")
        self.page.to_note()

    def write_as_it_stands(self) -> Changes | None:
        """The whole card as one entry. What is refused stays on the page."""
        card = self._open_card()
        self.page.clear_refusal()
        acts = self.bench.acts
        marks = [acts.Mark(one.x_thousandths, one.y_thousandths, one.what, one.side) for one in card.spots]
        asked = tuple(f.code for f in self.page.panel.findings() if f.severity is Severity.ASK)
        card.is_touched = False  # the page is drawn anew from the register while the act is told
        done = self.bench.attempt(
            "examine_carcass",
            on_refusal=self._refused,
            said=f"{card.code}: the look {card.stage} is written down.",
            code=card.code,
            answers=card.given(),
            marks=marks,
            reasons=card.reasons(asked),
            key=card.key,
        )
        if done is None:
            card.is_touched = True
        return done

    def _refused(self, refusal: Refusal) -> None:
        self.page.refuse(str(refusal))

    def _open_card(self) -> LookCard:
        assert self.card is not None, "a page without an animal has no answers"
        return self.card
