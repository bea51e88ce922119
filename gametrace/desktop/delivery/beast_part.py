"""The beast itself: what it is, what it weighs and how, how warm, when and where it was killed, its hook."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.delivery.estimates import Estimates
from gametrace.desktop.delivery.fields import BasisToggles, Count, DropList
from gametrace.desktop.delivery.fold import Fold, PassedBy
from gametrace.desktop.delivery.kill_details import KillDetails
from gametrace.desktop.delivery.licence_part import LicencePart
from gametrace.desktop.delivery.paper_part import line_edit
from gametrace.desktop.delivery.species_pick import SpeciesPick
from gametrace.desktop.delivery.temperatures import LARGE_GAME_PLACES, SMALL_GAME_PLACES, Temperatures
from gametrace.desktop.delivery.weighing import brace_words, estimates_of
from gametrace.desktop.look import Look
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.time_edit import TimeEdit
from gametrace.desktop.parts.words import Words, column, row
from gametrace.facts.species import age_classes
from gametrace.facts.species import species as species_called

ONE_NUMBER = "All of one kind in a delivery share one number."
_FURRED = frozenset({"rabbit", "brown-hare", "mountain-hare"})


class BeastPart(QWidget):
    """Signals: changed(). grew(): there are other fields now. guide_wanted(): which kind is it?"""

    changed = Signal()
    grew = Signal()
    guide_wanted = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.species = SpeciesPick(look)
        self._sexes, self._ages = _sexes(""), _ages("", "")
        self.sex = ChoiceRow(self._sexes, name="Sex")
        self.age_class = ChoiceRow([], name="Age class")
        self.count = Count("How many bodies under this number")
        self.grams = KiloEdit("Weight", big=True)
        self.basis = BasisToggles()
        self.estimates = Fold("What it may come to", Estimates)
        self.readings = Temperatures()
        self.probe = DropList("Probe", [("", "Not stated")])
        self.killed_on = OptionalDate("Killed on", today)
        self.kill_time = TimeEdit("Time of killing")
        self.kill_place = line_edit("Place of killing", 200)
        self.licence = LicencePart()
        self.details = Fold("Place on the map, ammunition", self._made_details)
        self.place = DropList("Hook or shelf", [("", "Not hung yet")])
        self._is_short = False
        self._build()
        self._connect()
        self.show_words()

    def _build(self) -> None:
        self.brace = Words("", "quiet")
        self.same = Words("", "quiet")
        self.sex_field = Field("Sex", self.sex, name="sex")
        self.age_field = Field("Age class", self.age_class, name="age_class")
        self.count_field = Field("How many", self.count, name="count")
        self.probe_field = Field("Probe", self.probe, name="probe")
        self.probe_field.hide()
        weighed = row(self.count_field, Field("Weight", self.grams, name="grams"))
        weighed.setStretch(0, 1)
        weighed.setStretch(1, 3)
        killed = row(
            Field("Time of killing", self.kill_time, name="kill_time"),
            Field("Place of killing", self.kill_place, name="kill_place"),
        )
        killed.setStretch(0, 2)
        killed.setStretch(1, 3)
        self.guide = PassedBy("Which kind is it? F8")
        self.guide.setAccessibleName("Which kind is it? The guide with drawings, F8")
        self._column = column(
            row(Words("Beast", "heading"), 1, self.guide),
            Field("", self.species, name="species"),
            self.sex_field,
            weighed,
            self.brace,
            self.same,
            Field("As it was on the scale", self.basis, name="basis"),
            self.estimates,
            self.age_field,
            Field("Killed on", self.killed_on, name="killed_on"),
            killed,
            self.licence,
            self.details,
            Field("Core temperature", self.readings, name="readings"),
            self.probe_field,
            Field("Hook or shelf", self.place, name="place"),
            1,
        )
        self.setLayout(self._column)

    def _connect(self) -> None:
        self.species.changed.connect(self._species_changed)
        self.species.shown_other.connect(self.grew)
        self.guide.clicked.connect(self.guide_wanted)
        self.sex.changed.connect(self._sex_changed)
        self.age_class.changed.connect(self.changed)
        self.count.textEdited.connect(self._counted)
        self.basis.changed.connect(self.changed)
        self.readings.changed.connect(self.changed)
        self.readings.grew.connect(self.grew)
        self.kill_place.textEdited.connect(self.changed)
        self.place.picked.connect(self.changed)
        self.probe.picked.connect(self.changed)
        self.licence.changed.connect(self.changed)
        for fold in (self.estimates, self.details):
            fold.grew.connect(self.grew)
        self.estimates.grew.connect(self.show_estimates)
        for edit in (self.grams, self.killed_on, self.kill_time):
            edit.changed.connect(self.changed)
        self.changed.connect(self.show_estimates)
        self.changed.connect(self._show_sun)

    def _made_details(self) -> KillDetails:
        made = KillDetails()
        made.changed.connect(self.changed)
        return made

    @property
    def is_small(self) -> bool:
        species = self.species.value()
        return bool(species) and species_called(species).group == "small"

    def set_probes(self, choices: Iterable[tuple[str, str]]) -> None:
        """The probes there are, each with its last check in words. Without one nothing is asked."""
        given = tuple(choices)
        self.probe.set_choices([("", "Not stated"), *given])
        self.probe_field.setVisible(bool(given))

    def take_kind(self, species: str, sex: str, age_class: str) -> None:
        """What was found in the guide, as if chosen here; what it left open stays as it was."""
        self.species.set_value(species)
        if sex:
            self.sex.set_value(sex)
        if not self.is_small:
            self.count.set_value(1)
        self.show_words()
        if age_class:
            self.age_class.set_value(age_class)
        self.changed.emit()

    # -- the lesser values ------------------------------------------------------------------------------

    def lesser_values(self, read: Callable[[Any], Any]) -> dict[str, Any]:
        """Licence, probe, place on the map, ammunition. `read` takes the value of a typed field."""
        values: dict[str, Any] = {**self.licence.values(), "probe": self.probe.value()}
        place, ammunition = None, ""
        if self.details.is_made:
            place, ammunition = read(self.details.inner.map), self.details.inner.ammunition.value()
        latitude, longitude = place or (None, None)
        return {
            **values,
            "latitude_millionths": latitude,
            "longitude_millionths": longitude,
            "ammunition": ammunition,
        }

    def set_lesser_values(self, values: Any) -> None:
        latitude, longitude = values.get("latitude_millionths"), values.get("longitude_millionths")
        place = None if latitude is None or longitude is None else (latitude, longitude)
        ammunition = values.get("ammunition", "")
        if place or ammunition or self.details.is_made:
            self.details.inner.set_values(place, ammunition)
        self.details.set_open(bool(place or ammunition))
        self.licence.set_values(values.get("exception_type", ""), values.get("exception_number", ""))
        self.probe.set_value(values.get("probe", ""))
        self.same.say("")

    # -- live -------------------------------------------------------------------------------------------

    def _species_changed(self, species: str) -> None:
        if not self.is_small:
            self.count.set_value(1)
        self.show_words()
        self.changed.emit()

    def _sex_changed(self, sex: str) -> None:
        self.show_words()
        self.changed.emit()

    def _counted(self, text: str) -> None:
        self._say_brace()
        self.changed.emit()

    def _say_brace(self) -> None:
        words = brace_words(self.count.value_or_none() or 0, self.species.value() not in _FURRED)
        self.brace.say(f"{words}. {ONE_NUMBER}" if words else ONE_NUMBER)
        self.brace.setVisible(self.is_small)

    def say_same(self, words: str) -> None:
        """Of this kind something else came in today; told at the count."""
        self.same.say(words)
        self.same.setVisible(bool(words) and self.is_small)

    def show_estimates(self) -> None:
        """Only while somebody looks: they are thrown away."""
        if self.estimates.is_open:
            species, sex = self.species.value(), self.sex.value() or "unknown"
            found = estimates_of(species, sex, self.grams.value_or_none(), self.basis.value())
            self.estimates.inner.show_them(found)

    def _show_sun(self) -> None:
        if self.details.is_made:
            self.details.inner.show_sun(self.killed_on.value_or_none())

    def show_words(self) -> None:
        """The proper words for this animal: sexes, ages, brace, where its temperature is taken."""
        species, sex, age = self.species.value(), self.sex.value(), self.age_class.value()
        sexes, ages = _sexes(species), _ages(species, sex)
        if sexes != self._sexes:  # not rebuilt under the hand that is choosing in it
            self._sexes = sexes
            self.sex.set_choices(sexes, sex)
        if ages != self._ages:
            self._ages = ages
            self.age_class._columns = 2 if any(len(words) > 14 for _, words in ages) else 3
            self.age_class.set_choices(ages, age)
        self._order_for(self.is_small)
        self.age_field.setVisible(bool(ages))
        self.count_field.setVisible(self.is_small)
        self.estimates.setVisible(not self.is_small)
        self._say_brace()
        self.same.setVisible(bool(self.same.text()) and self.is_small)
        self.readings.set_places(SMALL_GAME_PLACES if self.is_small else LARGE_GAME_PLACES)
        self.show_estimates()
        self.grew.emit()

    def _order_for(self, is_small: bool) -> None:
        """Small game is counted and weighed first; its sexes are mostly mixed."""
        if is_small == self._is_short:
            return
        self._is_short = is_small
        self._column.removeWidget(self.sex_field)
        self._column.insertWidget(5 if is_small else 2, self.sex_field)


def _sexes(species: str) -> list[tuple[str, str]]:
    if not species:
        return [("male", "Male"), ("female", "Female"), ("unknown", "Not known")]
    kind = species_called(species)
    words = (kind.males or "male", kind.females or "female")
    return [
        ("male", words[0].capitalize()),
        ("female", words[1].capitalize()),
        ("unknown", "Mixed" if kind.group == "small" else "Not known"),
    ]


def _ages(species: str, sex: str) -> list[tuple[str, str]]:
    """The age classes in their own words; none before species and sex are known."""
    if not species or not sex:
        return []
    classes = age_classes(species, sex)
    return [(one.id, one.name.capitalize()) for one in classes] + ([("", "Not said")] if classes else [])
