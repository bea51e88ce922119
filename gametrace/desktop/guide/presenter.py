"""Asks the key's questions in order, keeps the answers, and takes the kind that was named to the delivery."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.guide.kind import Body, Kind
from gametrace.desktop.guide.saying import lost_lines
from gametrace.domain.findings import rests_on
from gametrace.domain.identification import Candidate, candidates, leader, questions_left
from gametrace.facts.identification import Question, hybrids
from gametrace.facts.sources import citation


class GuidePresenter(QObject):
    def __init__(self, view: Any, bench: Bench) -> None:
        super().__init__(view)
        self.view, self.bench = view, bench
        self._answers: dict[str, str] = {}  # '' for a question passed by
        self._now = ""  # a question gone back to
        self._before = ""  # what had been answered there
        self._in_skin = self._head_on = True
        self._kind = Kind()
        key = view.key_page
        key.answered.connect(self.answer)
        key.passed.connect(self.pass_by)
        key.back.connect(self.back)
        key.anew.connect(self.start_anew)
        key.body_changed.connect(self._body_changed)
        key.candidates.chosen.connect(self.choose)
        view.page_wanted.connect(self.show_page)
        view.leave_wanted.connect(self.leave)
        view.made.connect(self._page_made)

    def _page_made(self, name: str, page: Any) -> None:
        if name == "words":
            page.wanted.connect(self.take)
            page.changed.connect(self._kind_changed)
            page.show_kind(self._kind)
        else:
            page.chosen.connect(self.choose)

    # -- the key ----------------------------------------------------------------------------------------

    def open(self, body: Body) -> None:
        """A body was brought: the key begins anew, with what is known of it."""
        self._kind = body.kind
        self._in_skin, self._head_on = body.in_skin, body.head_on
        self._answers, self._now = {}, ""
        self.view.show_page("key")
        self._show()
        if self.view.is_words_made:
            self.view.words_page.show_kind(self._kind)

    def answer(self, answer: str) -> None:
        asked = self._asked()
        if asked is not None:
            self._answers[asked.id] = answer
            self._now = self._before = ""
            self._show()

    def pass_by(self) -> None:
        """It cannot be seen: neither for nor against anything."""
        self.answer("")

    def back(self) -> None:
        """To the question answered last, its answer marked."""
        if self._answers:
            self._now, self._before = self._answers.popitem()
            self._show()

    def start_anew(self) -> None:
        self._answers, self._now, self._before = {}, "", ""
        self._show()

    def _body_changed(self, in_skin: bool, head_on: bool) -> None:
        self._in_skin, self._head_on = in_skin, head_on
        self._now = self._before = ""
        self._show(keep_hand=True)

    def _left(self) -> tuple[Question, ...]:
        return questions_left(self._answers, in_skin=self._in_skin, head_on=self._head_on)

    def _asked(self) -> Question | None:
        left = self._left()
        again = next((one for one in left if one.id == self._now), None)
        return again or next(iter(left), None)

    def _show(self, *, keep_hand: bool = False) -> None:
        key, asked = self.view.key_page, self._asked()
        lost = lost_lines(in_skin=self._in_skin, head_on=self._head_on)
        key.show_body(
            in_skin=self._in_skin,
            head_on=self._head_on,
            lost=" ".join(line.words for line in lost),
            rests="; ".join(dict.fromkeys(line.source for line in lost)),
        )
        source = rests_on(citation(asked.source), asked.status) if asked is not None else ""
        key.show_question(asked, self._before, self._far(), source)
        key.before.setEnabled(bool(self._answers))
        given = {name: answer for name, answer in self._answers.items() if answer}
        found = candidates(given, in_skin=self._in_skin, head_on=self._head_on)
        key.candidates.show_candidates(
            found, leader(found), _hybrid_words(found), can_be_told=self._in_skin or self._head_on
        )
        if not keep_hand:
            key.focus_first()

    def _far(self) -> str:
        left = len(self._left())
        if not left:
            return ""
        return f"{left} left to ask" if left > 1 else "the last"

    # -- pages ------------------------------------------------------------------------------------------

    def show_page(self, name: str) -> None:
        self.view.show_page(name)
        if name == "words":
            self.view.words_page.show_kind(self._kind)

    def choose(self, species: str) -> None:
        """This kind: now its sex and age. The sex said before stays, the age only of the same kind."""
        same = species == self._kind.species
        self._kind = self._kind if same else Kind(species, self._kind.sex)
        self.show_page("words")
        self.view.words_page.sex.setFocus()

    def _kind_changed(self) -> None:
        self._kind = self.view.words_page.value()

    # -- leaving ----------------------------------------------------------------------------------------

    def take(self) -> None:
        """To the delivery with what was named."""
        kind = self.view.words_page.value()
        if kind.species:
            self.bench.hand("delivery", kind)

    def leave(self) -> None:
        """Back with nothing changed."""
        self.bench.go("delivery")


def _hybrid_words(found: tuple[Candidate, ...]) -> str:
    crosses = {one.species: one for one in hybrids()}
    named = [crosses[one.species] for one in found if one.species in crosses]
    return " ".join(f"{one.words} ({rests_on(citation(one.source), one.status)})" for one in named)
