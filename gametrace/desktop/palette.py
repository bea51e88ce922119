"""The colours of the window, light and dark. Colour tells a state third, after word and shape."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Palette:
    """One ground. Text and state colours stand at 7:1 or better on `sheet`, `line` at 3:1."""

    name: str
    ground: str  # the table
    sheet: str  # what lies on it
    ink: str
    quiet: str  # second text
    line: str  # rules and outlines
    pine: str  # the one main action of a page, and the focus ring
    steel: str  # ready, in order
    amber: str  # wants a person: hold, due, warm, missing
    plum: str  # stopped: rejected, specimen, out of date
    chosen: str  # the ground under what is chosen; ink stays readable on it
    hide: str  # a carcass in the skin
    flesh: str  # a carcass skinned


LIGHT = Palette(
    name="light",
    ground="#F4F1EA",
    sheet="#FFFDF8",
    ink="#1C2630",
    quiet="#47545F",
    line="#868D93",
    pine="#1F4A3D",
    steel="#1D4E7A",
    amber="#7F3F00",
    plum="#6B1F52",
    chosen="#E0E6DC",
    hide="#5A4632",
    flesh="#D9A99A",
)

DARK = Palette(
    name="dark",
    ground="#12181E",
    sheet="#1B242C",
    ink="#F1EDE4",
    quiet="#B9C2C9",
    line="#6E7982",
    pine="#9CCFC5",
    steel="#8FC1F0",
    amber="#FFB454",
    plum="#F0A6D8",
    chosen="#2A3A3B",
    hide="#A98C6C",
    flesh="#E8C0B2",
)
