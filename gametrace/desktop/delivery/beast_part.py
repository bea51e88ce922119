"""The beast itself: what it is, what it weighs and how, how warm, when and where it was killed, its hook."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.delivery.fields import BasisToggles, Count, DropList
from gametrace.desktop.delivery.paper_part import line_edit
from gametrace.desktop.delivery.species_pick import SpeciesPick
from gametrace.desktop.delivery.temperatures import LARGE_GAME_PLACES, SMALL_GAME_PLACES, Temperatures
from gametrace.desktop.look import Look
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.time_edit import TimeEdit
from gametrace.desktop.parts.words import Words, column, row
from gametrace.facts.species import age_classes
from gametrace.facts.species import species as species_called


def brace_words(count: int) -> str:
    """'6 brace', '6½ brace' for an odd bird, '' for a single one."""
    if count < 2:
        return ""
    pairs, odd = divmod(count, 2)
    return f"{pairs}{'½' if odd else ''} brace"


class BeastPart(QWidget):
    """Signals: changed(). grew(): there are other fields now."""

    changed = Signal()
    grew = Signal()

    def __init__(self, look: Look, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.species = SpeciesPick(look)
        self._sexes, self._ages = _sexes(""), _ages("", "")
        self.sex = ChoiceRow(self._sexes, name="Sex")
        self.age_class = ChoiceRow([], name="Age class")
        self.count = Count("How many bodies under this number")
        self.grams = KiloEdit("Weight", big=True)
        self.basis = BasisToggles()
        self.readings = Temperatures()
        self.killed_on = OptionalDate("Killed on", today)
        self.kill_time = TimeEdit("Time of killing")
        self.kill_place = line_edit("Place of killing", 200)
        self.place = DropList("Hook or shelf", [("", "Not hung yet")])
        self._build()
        self._connect()
        self.show_words()

    def _build(self) -> None:
        self.brace = Words("", "quiet")
        self.age_field = Field("Age class", self.age_class, name="age_class")
        self.count_field = Field("How many", self.count, name="count")
        self.count_row = QWidget()
        self.count_row.setLayout(row(self.count_field, self.brace))
        killed = row(
            Field("Time of killing", self.kill_time, name="kill_time"),
            Field("Place of killing", self.kill_place, name="kill_place"),
        )
        killed.setStretch(0, 2)
        killed.setStretch(1, 3)
        self.setLayout(
            column(
                Words("Beast", "heading"),
                Field("", self.species, name="species"),
                Field("Sex", self.sex, name="sex"),
                self.count_row,
                Field("Weight", self.grams, name="grams"),
                Field("As it was on the scale", self.basis, name="basis"),
                self.age_field,
                Field("Killed on", self.killed_on, name="killed_on"),
                killed,
                Field("Core temperature", self.readings, name="readings"),
                Field("Hook or shelf", self.place, name="place"),
                1,
            )
        )

    def _connect(self) -> None:
        self.species.changed.connect(self._species_changed)
        self.species.shown_other.connect(self.grew)
        self.sex.changed.connect(self._sex_changed)
        self.age_class.changed.connect(self.changed)
        self.count.textEdited.connect(self._counted)
        self.basis.changed.connect(self.changed)
        self.readings.changed.connect(self.changed)
        self.readings.grew.connect(self.grew)
        self.kill_place.textEdited.connect(self.changed)
        self.place.picked.connect(self.changed)
        for edit in (self.grams, self.killed_on, self.kill_time):
            edit.changed.connect(self.changed)

    @property
    def is_small(self) -> bool:
        species = self.species.value()
        return bool(species) and species_called(species).group == "small"

    def _species_changed(self, species: str) -> None:
        if not self.is_small:
            self.count.set_value(1)
        self.show_words()
        self.changed.emit()

    def _sex_changed(self, sex: str) -> None:
        self.show_words()
        self.changed.emit()

    def _counted(self, text: str) -> None:
        self.brace.say(brace_words(self.count.value_or_none() or 1))
        self.changed.emit()

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
        self.age_field.setVisible(bool(ages))
        self.count_row.setVisible(self.is_small)
        self.brace.say(brace_words(self.count.value_or_none() or 1))
        self.readings.set_places(SMALL_GAME_PLACES if self.is_small else LARGE_GAME_PLACES)
        self.grew.emit()


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
