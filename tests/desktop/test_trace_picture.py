"""The picture of a trace: animals first, plates last, lines that add up, fans folded, walked by key."""

from __future__ import annotations

from datetime import UTC, datetime
from fractions import Fraction

import pytest
from PySide6.QtCore import Qt

from gametrace.desktop.parts.trace_layout import FOLD_OVER, lay_out
from gametrace.desktop.parts.trace_picture import TracePicture
from gametrace.register.records import Trace, TraceAnimal, TraceLink, TraceLot

NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


def animal(code: str, grams: int) -> TraceAnimal:
    return TraceAnimal(
        code,
        "0417",
        "fallow doe",
        "fallow",
        "female",
        "wild-shot",
        "2026-11-20T07:40",
        "Hartmere wood",
        "Hartmere Estate",
        "Hartmere",
        "D1",
        (),
        grams,
        Fraction(1),
        "hanging",
    )


def lot(code: str, kind: str, grams: int, layer: int, state: str = "ready") -> TraceLot:
    return TraceLot(code, kind, kind, grams, grams, state, "Chill 1", NOW, layer)


def trace(packs: int = 2) -> Trace:
    """A doe into trim, packs and bone; trim into mince; mince and the first pack into a pie."""
    lots = [
        lot("T", "part", 1800, 1, "spent"),
        lot("B", "by-product", 3900, 1, "gone"),
        lot("M", "mix", 1800, 2),
        lot("D", "dish", 2800, 3, "served"),
        *(lot(f"K{n}", "pack", 1000, 1) for n in range(packs)),
    ]
    links = [
        TraceLink("A", "T", 1800),
        TraceLink("A", "B", 3900),
        TraceLink("T", "M", 1800),
        TraceLink("M", "D", 1800),
        TraceLink("K0", "D", 1000),
        *(TraceLink("A", f"K{n}", 1000) for n in range(packs)),
    ]
    return Trace(
        "A",
        "carcass",
        "fallow doe",
        "hanging",
        (animal("A", 23400),),
        (),
        tuple(lots),
        tuple(links),
        None,
        (),
    )


def keys(picture) -> list[list[str]]:
    return [[node.key for node in column] for column in picture.columns]


def test_animals_stand_first_and_plates_last() -> None:
    picture = lay_out(trace())
    assert keys(picture)[0] == ["A"]
    assert keys(picture)[-1] == ["D"]


def test_every_line_runs_to_the_right() -> None:
    picture = lay_out(trace(packs=30))
    column_of = {node.key: at for at, column in enumerate(picture.columns) for node in column}
    assert all(column_of[line.parent] < column_of[line.child] for line in picture.lines)


def test_what_is_no_food_stands_at_the_foot() -> None:
    assert keys(lay_out(trace()))[1][-1] == "B"


@pytest.mark.parametrize("packs", [FOLD_OVER, FOLD_OVER + 1, 60])
def test_a_large_fan_is_one_thing_and_no_gram_is_lost(packs: int) -> None:
    picture = lay_out(trace(packs))
    fans = [node for column in picture.columns for node in column if node.members]
    assert len(fans) == (1 if packs > FOLD_OVER else 0)
    if fans:
        assert len(fans[0].members) == packs
        assert fans[0].grams == packs * 1000
    assert sum(line.grams for line in picture.lines) == sum(link.grams for link in trace(packs).links)


def test_a_fan_unfolds_into_its_members() -> None:
    folded = lay_out(trace(60))
    fan = next(node for column in folded.columns for node in column if node.members)
    unfolded = lay_out(trace(60), frozenset({fan.key}))
    assert {"K0", "K59"} <= {key for column in keys(unfolded) for key in column}


def test_what_is_traced_is_never_folded_away() -> None:
    many = trace(60)
    traced = Trace("K7", "pack", "pack", "ready", many.animals, (), many.forward, many.links, None, ())
    assert lay_out(traced).node("K7") is not None


@pytest.fixture
def picture(qtbot, look) -> TracePicture:
    made = TracePicture(look)
    qtbot.addWidget(made)
    made.resize(1200, 400)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.set_trace(trace())
    return made


def focused(picture: TracePicture) -> str:
    return next((key for key, button in picture._canvas.buttons.items() if button.hasFocus()), "")


def test_enter_walks_along_the_lines_to_the_plate_and_left_walks_back(picture: TracePicture, qtbot) -> None:
    told: list[str] = []
    picture.chosen.connect(told.append)
    picture.choose("T", focus=True)
    qtbot.keyClick(picture.button("T"), Qt.Key.Key_Return)
    assert focused(picture) == "M"
    qtbot.keyClick(picture.button("M"), Qt.Key.Key_Return)
    assert focused(picture) == "D"
    qtbot.keyClick(picture.button("D"), Qt.Key.Key_Left)
    assert focused(picture) == "M"
    assert told == ["M", "D", "M"]


def test_up_and_down_stay_in_the_column(picture: TracePicture, qtbot) -> None:
    first, second = keys(picture.picture)[1][:2]
    picture.choose(first, focus=True)
    qtbot.keyClick(picture.button(first), Qt.Key.Key_Down)
    assert focused(picture) == second
    qtbot.keyClick(picture.button(second), Qt.Key.Key_Up)
    assert focused(picture) == first


def test_enter_on_a_fan_unfolds_it_and_it_folds_again(picture: TracePicture, qtbot) -> None:
    picture.set_trace(trace(20))
    fan = next(key for key, button in picture._canvas.buttons.items() if button.node.members)
    qtbot.keyClick(picture.button(fan), Qt.Key.Key_Return)
    assert picture.button("K0") is not None
    assert picture.is_unfolded
    picture.fold()
    assert picture.button("K0") is None


def test_everything_in_the_picture_says_what_it_is(picture: TracePicture) -> None:
    assert all("kg" in button.accessibleName() for button in picture._canvas.buttons.values())


def test_nothing_to_draw_is_no_trouble(picture: TracePicture) -> None:
    picture.set_trace(None)
    picture.grab()
    assert keys(picture.picture) == []
