"""A sign of a notifiable disease: written and held at once, the call recorded, the notice printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from gametrace.desktop.bench import Bench
from gametrace.desktop.examination.looking import Looking
from gametrace.desktop.examination.papers import print_suspicion
from gametrace.desktop.examination.stop_page import StopPage
from gametrace.desktop.parts.lot_words import why_of
from gametrace.domain.errors import Refusal
from gametrace.domain.examination import Look, whom_to_ring
from gametrace.domain.findings import rests_on
from gametrace.facts.examination import contact_for, point, steps_on_suspicion
from gametrace.facts.sources import citation

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile

ABOUT = "notifiable"
NOBODY = "Nobody is known to ring: say in Set-up which country's rules the larder keeps."


def signs_written(file: AnimalFile) -> tuple[tuple[str, str], ...]:
    """(disease, what was seen) for every sign that is in the register, at either stage."""
    found = {}
    for look in file.looks:
        one = point(look.point)
        if one.kind == "sign" and look.answer == Look.NOT_SO:
            found[one.name] = look.note
    return tuple(found.items())


class Stopping(QObject):
    """Signals: left(): back to the examination. shown_wanted(): the stop page is to be shown."""

    left = Signal()
    shown_wanted = Signal()

    def __init__(self, page: StopPage, bench: Bench, looking: Looking) -> None:
        super().__init__(page)
        self.page, self.bench, self._looking = page, bench, looking
        self._file: AnimalFile | None = None
        self._sign = ""  # in hand, not written yet
        looking.sign_seen.connect(self.sign_seen)
        page.hold_wanted.connect(self._hold)
        page.slip.connect(self._slip)
        page.call_wanted.connect(self._call)
        page.notice_wanted.connect(self._notice)
        page.back_wanted.connect(self.left)

    @property
    def is_in_hand(self) -> bool:
        """A sign was answered and is neither written nor taken back."""
        return bool(self._sign)

    def sign_seen(self, point_id: str) -> None:
        """At once, before anything is typed: the page fills the station."""
        self._sign = point_id
        self.page.sighting.clear()
        card = self._looking.card
        given = card.answers.get(point_id) if card else None
        if given is not None and given.note:
            self.page.sighting.set_values({"note": given.note})
        self._draw()
        self.shown_wanted.emit()
        self.page.focus_first()

    def show(self, file: AnimalFile) -> None:
        """Of this animal, as the register has it."""
        if self._file is not None and self._file.carcass.code != file.carcass.code:
            self._sign = ""
            self.page.call.clear()
        self._file = file
        self._draw()

    def _draw(self) -> None:
        file, page = self._file, self.page
        if file is None:
            return
        one = file.carcass
        written = signs_written(file)
        named = [point(self._sign).name] if self._sign else [name for name, _ in written]
        page.title.say(f"Stop. A sign of {', '.join(named)} was seen on {one.code}, {one.title}.")
        looked_for = point(self._sign).not_so if self._sign else ""
        told = "; ".join(f"{name}: {seen}" if seen else name for name, seen in written)
        page.seen.say(f"Looked for: {looked_for}." if looked_for else f"{told[:1].upper()}{told[1:]}.")
        self._draw_ring()
        steps = steps_on_suspicion()
        told_by = dict.fromkeys(rests_on(citation(one.source), one.status) for one in steps)
        page.show_steps([one.name for one in steps], "; ".join(told_by))
        page.sign.set_state(one.lot.state, why_of(one.lot).split(". ")[0], one.days_hung)
        page.calls.say("\n".join(self._call_lines(file)))
        page.calls.setVisible(bool(page.calls.text()))
        page.show_written(not self._sign)

    def _draw_ring(self) -> None:
        """The number large; what it rests on, and how far it may be trusted, under it."""
        jurisdiction = self.bench.ask("larder").jurisdiction
        if not jurisdiction:
            self.page.ring.say(NOBODY)
            self.page.standing.say("")
            return
        contact = contact_for(jurisdiction)
        self.page.ring.say(f"Ring {whom_to_ring(jurisdiction).removesuffix(contact.note).strip()}")
        self.page.standing.say(f"{contact.note} {rests_on(citation(contact.source), contact.status)}".strip())

    def _call_lines(self, file: AnimalFile) -> list[str]:
        from gametrace.register.clock import wall_text

        return [
            f"{wall_text(call.at)}, {call.taken_by}: {call.spoken_by} said: {call.answer}"
            for call in file.calls
            if call.about == ABOUT
        ]

    # -- acting -----------------------------------------------------------------------------------------

    def _hold(self) -> None:
        """The card as far as it is answered, with the sign: the register puts the animal on hold."""
        words = self.page.sighting.values()["note"]
        self.page.sighting.clear_refusals()
        if not words:
            self.page.sighting.refuse(Refusal("Write down what was seen, and where.", "", "note"))
            return
        looking, sign = self._looking, self._sign
        assert looking.card is not None
        looking.card.note(sign, words)
        self._sign = ""  # the page is drawn anew while the act is told
        if looking.write_as_it_stands() is None:
            self._sign = sign
            self._draw()
            self.page.sighting.refuse(Refusal(looking.page.trouble.text() or "It is not written yet."))
            return
        self.page.focus_first()

    def _slip(self) -> None:
        sign, self._sign = self._sign, ""
        self.left.emit()
        self._looking.take_back(sign)

    def _call(self) -> None:
        assert self._file is not None
        given = self.page.call.values()
        self.page.call.clear_refusals()
        done = self.bench.attempt(
            "record_call",
            on_refusal=self.page.call.refuse,
            said="The call is written down.",
            code=self._file.carcass.code,
            about=ABOUT,
            **given,
        )
        if done is not None:
            self.page.call.clear()
            self.page.notice.setFocus()

    def _notice(self) -> None:
        assert self._file is not None
        print_suspicion(self.bench, self._file, signs_written(self._file))
