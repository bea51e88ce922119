"""The right words for one kind: sex and age to choose, what each means, colours, points and teeth."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.delivery.reading_order import set_reading_order
from gametrace.desktop.guide.kind import Kind
from gametrace.desktop.guide.saying import Line, about, kind_words
from gametrace.desktop.guide.trait_card import TraitCards
from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import BigButton
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words, column, row
from gametrace.facts.species import age_classes, all_species
from gametrace.facts.species import species as species_called

_SHORT = {"chinese-water-deer": "Water deer", "red-sika-hybrid": "Hybrid"}


class WordsPage(QWidget):
    """Signals: changed(): another kind, sex or age. wanted(): take it to the delivery."""

    changed = Signal()
    wanted = Signal()

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        deer = [one for one in all_species() if one.deer]
        self.species = ChoiceRow(
            [(one.id, _SHORT.get(one.id, one.name.capitalize())) for one in deer], name="Kind"
        )
        self.sex = ChoiceRow([], name="Sex")
        self.age_class = ChoiceRow([], name="Age class", columns=2)
        self.sex_field = Field("Sex", self.sex, name="sex")
        self.age_field = Field("Age class", self.age_class, name="age_class")
        self.act = BigButton("To the delivery")
        self.told = ScrollColumn()
        choices = ScrollColumn()
        choices.add(self.sex_field)
        choices.add(self.age_field)
        choices.add_stretch()
        left = QWidget()
        left.setLayout(column(choices, self.act))
        sides = row(left, self.told, gap=24)
        sides.setStretch(0, 2)
        sides.setStretch(1, 3)
        self.setLayout(column(self.species, sides))
        self.layout().setStretch(1, 1)
        self.setFocusProxy(self.species)
        self.species.changed.connect(self._kind_changed)
        self.sex.changed.connect(self._sex_changed)
        self.age_class.changed.connect(self._age_changed)
        self.act.clicked.connect(self.wanted)
        self.species.entered.connect(self._to_sex)
        self.sex.entered.connect(self._to_age)
        self.age_class.entered.connect(self.act.setFocus)

    # Enter on what is chosen goes on to the next choice.

    def _to_sex(self) -> None:
        self.sex.setFocus()

    def _to_age(self) -> None:
        """To the age class chosen, else to the youngest; not to 'not said'."""
        ages = self.age_class.values()
        at = self.age_class.value() or next(iter(ages), "")
        (self.age_class.button(at) if ages else self.act).setFocus()

    def value(self) -> Kind:
        return Kind(self.species.value(), self.sex.value(), self.age_class.value())

    def show_kind(self, kind: Kind) -> None:
        """The words of this kind; tells nobody."""
        self.species.set_value(kind.species)
        self._fill(kind.sex, kind.age_class)

    def _kind_changed(self, species: str) -> None:
        self._fill(self.sex.value(), "")
        self.changed.emit()

    def _sex_changed(self, sex: str) -> None:
        self._fill_ages(self.age_class.value())
        self.changed.emit()

    def _age_changed(self, age_class: str) -> None:
        self._say()
        self.changed.emit()

    def _fill(self, sex: str, age_class: str) -> None:
        species = self.species.value()
        for part in (self.sex_field, self.age_field):
            part.setVisible(bool(species))
        if species:
            kind = species_called(species)
            choices = [
                ("male", kind.males.capitalize()),
                ("female", kind.females.capitalize()),
                ("unknown", "Not known"),
            ]
            self.sex.set_choices(choices, sex)
        self._fill_ages(age_class)
        self._tell(about(species))

    def _fill_ages(self, age_class: str) -> None:
        species, sex = self.species.value(), self.sex.value()
        classes = age_classes(species, sex) if species and sex else ()
        choices = [(one.id, one.name.capitalize()) for one in classes]
        self.age_class.set_choices([*choices, ("", "Not said")] if choices else [], age_class)
        self.age_field.setVisible(bool(choices))
        set_reading_order(self)  # new buttons would come last
        self._say()

    def _say(self) -> None:
        """What the main action will carry over."""
        words = kind_words(self.value())
        self.act.setEnabled(bool(words))
        self.act.setText(f"To the delivery: {words}" if words else "Choose a kind")
        self.act.setAccessibleName(self.act.text())

    def _tell(self, lines: Sequence[Line]) -> None:
        self.told.start_anew()
        self.told.body.setSpacing(8)
        for line in lines:
            if line.heading:
                self.told.add(Words(line.heading, "heading"))
            text = column(Words(line.words), gap=0)
            if line.source:
                text.addWidget(Words(line.source, "quiet"))
            if line.drawing:
                beside = row(TraitCards(self._look, [line.drawing], line.words, height=84), text)
                beside.setStretch(1, 1)
                self.told.add(beside)
            else:
                self.told.add(text)
        self.told.add_stretch()
