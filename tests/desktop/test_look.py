"""Contrast, sizes and drawings: measured, not trusted."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QColor

from gametrace.desktop import assets
from gametrace.desktop.look import DARK, LIGHT, Look, style_sheet
from gametrace.desktop.palette import Palette


def luminance(colour: str) -> float:
    """Relative luminance after WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-relative-luminance."""
    parts = [value / 255 for value in QColor(colour).getRgb()[:3]]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio after WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("role", ["ink", "quiet", "pine", "steel", "amber", "plum"])
def test_text_stands_at_seven_to_one_on_both_grounds(palette: Palette, role: str) -> None:
    assert contrast(getattr(palette, role), palette.sheet) >= 7
    assert contrast(getattr(palette, role), palette.ground) >= 6.5


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_outlines_stand_at_three_to_one_and_chosen_rows_stay_readable(palette: Palette) -> None:
    assert contrast(palette.line, palette.sheet) >= 3
    assert contrast(palette.ink, palette.chosen) >= 7
    assert contrast(palette.sheet, palette.pine) >= 7
    assert contrast(palette.hide, palette.sheet) >= 3


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_the_style_sheet_has_no_hole(palette: Palette) -> None:
    sheet = style_sheet(palette, 1.25)
    assert "{{" not in sheet
    assert "}}" not in sheet
    assert palette.pine in sheet


def test_a_change_of_ground_is_told_to_what_is_painted(qtbot) -> None:
    look = Look()
    with qtbot.waitSignal(look.changed):
        look.set_dark(True)
    assert look.is_dark
    look.set_dark(False)


def test_size_stays_between_its_ends() -> None:
    look = Look()
    look.set_scale(9)
    assert look.scale == 1.5
    look.set_scale(1.0)


def test_drawings_take_any_colour_and_a_missing_one_is_none(qapp) -> None:
    assert assets.pixmap("hanging-large-in-skin", "#FF0000", 48, 104, 2.0) is not None
    drawn = assets.pixmap("hanging-large-in-skin", "#FF0000", 48, 104, 2.0).toImage()
    colours = {drawn.pixelColor(x, y).name() for x in range(0, 96, 3) for y in range(0, 208, 3)}
    assert "#ff0000" in colours
    assert assets.pixmap("unicorn", "#FF0000", 10, 10) is None
    assert assets.icon("unicorn", "#FF0000", 10).isNull()
