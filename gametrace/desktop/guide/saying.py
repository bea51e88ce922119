"""What is said of one kind: lines of words with what each rests on, read from the facts."""

from __future__ import annotations

from dataclasses import dataclass, replace

from gametrace.desktop.guide.kind import Kind
from gametrace.domain.findings import rests_on
from gametrace.domain.identification import cannot_be_told
from gametrace.facts.identification import age_signs, hybrids, look_alikes, terms
from gametrace.facts.sources import citation
from gametrace.facts.species import AgeClass, age_classes
from gametrace.facts.species import species as species_called

AGES_HEADING = "Words by sex and age"
_FORMS = {
    "common-fallow": "traits/coat-spotted",
    "menil": "traits/coat-menil",
    "melanistic": "traits/coat-melanistic",
    "white-fallow": "traits/coat-white",
    "pedicle": "traits/antlers-pedicle-spikes",
    "pearling": "traits/antlers-pearled",
    "tush": "traits/tail-none-seen",
}


@dataclass(frozen=True, slots=True)
class Line:
    """One thing said, its source and standing, a heading over it where a new part begins.

    Where lines that follow each other rest on the same, only the last of them names it.
    """

    words: str
    source: str
    heading: str = ""
    drawing: str = ""


def kind_words(kind: Kind) -> str:
    """'fallow, buck, pricket': what goes to the delivery; '' before a kind is chosen."""
    if not kind.species:
        return ""
    one = species_called(kind.species)
    sex = {"male": one.males, "female": one.females}.get(kind.sex, "")
    age = next((a.name for a in _classes(kind) if a.id == kind.age_class), "")
    return ", ".join(dict.fromkeys(word for word in (one.name, sex, age) if word))


def _classes(kind: Kind) -> tuple[AgeClass, ...]:
    return age_classes(kind.species, kind.sex) if kind.species and kind.sex else ()


def _age_line(one: AgeClass) -> Line:
    """'Pricket: second year; not grown.'"""
    told = [one.note[:1].lower() + one.note[1:].rstrip(".")] if one.note else []
    told += [] if one.adult else ["not grown"]
    meaning = f": {'; '.join(told)}." if told else "."
    return Line(f"{one.name.capitalize()}{meaning}", rests_on(citation(one.source), one.status))


def about(species: str) -> list[Line]:
    """Everything the guide says of a kind: words by sex and age, terms, age by the teeth, look-alikes."""
    if not species:
        return [Line("Choose the kind above, or answer the key first.", "")]
    return [
        *_parted("It cannot be settled by eye", _crosses(species)),
        *_parted(AGES_HEADING, _sexes(species)),
        *_parted("Other words of the trade", _terms(species)),
        *_parted("Age by the teeth", _signs(species)),
        *_parted("Taken for another", _pairs(species)),
        *_parted("What cannot be told", lost_lines(in_skin=False, head_on=False)),
    ]


def _parted(heading: str, lines: list[Line]) -> list[Line]:
    """The heading over the first of the lines; nothing where there are none."""
    following = [*(line.source for line in lines[1:]), ""][: len(lines)]
    return [
        replace(line, source="" if line.source == after else line.source, heading="" if at else heading)
        for at, (line, after) in enumerate(zip(lines, following, strict=True))
    ]


def _crosses(species: str) -> list[Line]:
    return [
        Line(f"{one.words} {one.note}", rests_on(citation(one.source), one.status))
        for one in hybrids()
        if species == one.species or species in one.between
    ]


def _sexes(species: str) -> list[Line]:
    one = species_called(species)
    words = f"The male is a {one.males}, the female a {one.females}, the young a {one.young}. {one.note}"
    classes = dict.fromkeys((*age_classes(species, "male"), *age_classes(species, "female")))
    return [
        Line(words.strip(), rests_on(citation(one.source), one.status)),
        *(_age_line(age) for age in classes if age.note),
    ]


def _terms(species: str) -> list[Line]:
    """Terms that are no age class; those are told above."""
    told = {one.id for one in age_classes(species, "unknown")}
    return [
        Line(
            f"{one.name[:1].upper()}{one.name[1:]}: {one.meaning[:1].lower()}{one.meaning[1:]}",
            rests_on(citation(one.source), one.status),
            drawing=_FORMS.get(one.id, ""),
        )
        for one in terms(species)
        if one.id not in told
    ]


def _signs(species: str) -> list[Line]:
    return [Line(one.says, rests_on(citation(one.source), one.status)) for one in age_signs(species)]


def _pairs(species: str) -> list[Line]:
    return [
        Line(
            f"{' or '.join(one.names)}? {one.why} {one.split_by}", rests_on(citation(one.source), one.status)
        )
        for one in look_alikes(species)
    ]


def lost_lines(*, in_skin: bool, head_on: bool) -> list[Line]:
    """What a body without its skin or head no longer tells."""
    return [
        Line(f"Without {one.gone}: {one.what}.", rests_on(citation(one.source), one.status))
        for one in cannot_be_told(in_skin=in_skin, head_on=head_on)
    ]
