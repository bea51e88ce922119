"""Words what an animal's file holds beyond the delivery: hanging, looks, calls, pictures, claims, results."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from gametrace.desktop.larder.file_part import FileTold, Shot
from gametrace.desktop.larder.hanging_part import Hung
from gametrace.desktop.parts.days import day_text
from gametrace.domain.findings import Severity, rests_on
from gametrace.domain.quantities import kg_text, pounds_text
from gametrace.facts.examination import point
from gametrace.facts.loading import UnknownFact

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile, Claim, LookLine

_ABOUT = {
    "no_abnormal_characteristics": "abnormal characteristics",
    "no_abnormal_behaviour": "abnormal behaviour",
    "no_contamination": "contamination",
    "kill_time": "the time of killing",
    "kill_place": "the place of killing",
    "killed_on": "the day of killing",
    "notifiable": "a notifiable sign",
    "other": "another matter",
}


def hung_told(file: AnimalFile) -> Hung:
    """From when it may come down and by when, and what today asks."""
    from gametrace.register.animal_file import first_day_ready

    days = first_day_ready(file.carcass, file.plan)
    asked = [one for one in file.hanging if one.severity is Severity.ASK]
    line = ""
    if days is not None:
        first, last = days
        line = f"Ready from {day_text(first)}, by {day_text(last)}"
        line += ", the kitchen's own days." if file.plan and file.plan.own else "."
    if file.carcass.lot.grams == 0:
        return Hung()
    is_over = any(one.code == "hanging-over-run" for one in asked)
    answer = file.carcass.reasons.get("hanging-over-run", "") if is_over else ""
    return Hung(line, is_over, file.hanging, answer)


def days_words(file: AnimalFile) -> str:
    """'killed 9 days ago, 6 days in the skin'."""
    one = file.carcass
    if one.days_hung is None or one.killed_on is None:
        return ""
    said = f"killed {_days(one.days_hung)} ago"
    if one.in_skin:
        return f"{said}, in the skin since"
    if one.dressed_at is None:
        return said
    return f"{said}, {_days(max(0, (_wall_day(one.dressed_at) - one.killed_on).days))} in the skin"


def file_told(file: AnimalFile) -> FileTold:
    """Everything else, in sections that are not empty."""
    sections = [
        ("Looked over", _looks(file)),
        ("Telephone", (*_calls(file), *_calls_to_make(file))),
        ("Second decision", _second(file)),
        ("Claims", tuple(_claim(one) for one in file.claims)),
        ("Laboratory", _laboratory(file)),
        ("The weight otherwise dressed", estimate_lines(file)),
    ]
    return FileTold(
        sections=tuple((heading, lines) for heading, lines in sections if lines),
        shots=tuple(
            Shot(one.hash, f"{one.what}, {_day(one.at)}, by {one.by}", one.media_type.startswith("image/"))
            for one in file.pictures
        ),
    )


def _looks(file: AnimalFile) -> tuple[str, ...]:
    """What was not so in full, the rest as a count a stage."""
    lines = []
    for stage in dict.fromkeys(one.stage for one in file.looks):
        here = [one for one in file.looks if one.stage == stage]
        lines += [f"{_point(one)}: {one.answer}{f' ({one.note})' if one.note else ''}." for one in _odd(here)]
        good = sum(one.answer == "as it should be" for one in here)
        absent = sum(one.answer == "not present" for one in here)
        skipped = sum(one.answer == "not looked at" for one in here)
        counts = [f"{good} as they should be" if good else "", f"{absent} not present" if absent else ""]
        counts.append(f"{skipped} not looked at" if skipped else "")
        lines.append(f"{stage.capitalize()}: {', '.join(one for one in counts if one) or 'nothing else'}.")
    lines += [f"{one.what} marked on the {one.side} side, {one.stage}." for one in file.marks]
    return tuple(lines)


def _odd(looks: list[LookLine]) -> list[LookLine]:
    return [one for one in looks if one.answer == "not so"]


def _point(one: LookLine) -> str:
    try:
        name = point(one.point).name
    except UnknownFact:
        name = one.point
    return name[:1].upper() + name[1:]


def _calls(file: AnimalFile) -> tuple[str, ...]:
    return tuple(
        f"{_day(one.at)}, about {_ABOUT.get(one.about, one.about)}: {one.spoken_by} said “{one.answer}”, "
        f"taken down by {one.taken_by}."
        for one in file.calls
    )


def _calls_to_make(file: AnimalFile) -> tuple[str, ...]:
    if not file.calls_to_make:
        return ()
    about = ", ".join(_ABOUT.get(one, one) for one in file.calls_to_make)
    return (f"Still to ring about: {about}.",)


def _second(file: AnimalFile) -> tuple[str, ...]:
    if not file.second_decision:
        return ()
    why = f": {file.second_reason}" if file.second_reason else ""
    return (f"Out of the skin: {file.second_decision}{why}.",)


def _claim(one: Claim) -> str:
    said = (
        f"{_day(one.raised_at)}: {kg_text(one.grams)}, {pounds_text(one.pence)}, {one.status}. {one.reason}."
    )
    if one.settled_pence is not None:
        said += f" Settled at {pounds_text(one.settled_pence)}. {one.settled_note}"
    return said.replace("..", ".").strip()


def _laboratory(file: AnimalFile) -> tuple[str, ...]:
    if not file.laboratory_reference:
        return ()
    return (f"{file.laboratory_reference}: {file.laboratory_result or 'no result yet'}.",)


def estimate_lines(file: AnimalFile) -> tuple[str, ...]:
    """The weight received as it may come to otherwise dressed: ranges with their source, never weights."""
    return tuple(f"{one.words} [{rests_on(one.source, one.status)}]" for _, one in file.estimates)


def _days(count: int) -> str:
    return "a day" if count == 1 else f"{count} days"


def _day(moment) -> str:
    return day_text(_wall_day(moment))


def _wall_day(moment) -> date:
    from gametrace.register.clock import wall_day

    return wall_day(moment)
