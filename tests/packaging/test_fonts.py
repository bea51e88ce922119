"""The fonts: one set of files that both the window and the paper can use, with figures of one width."""

from io import BytesIO
from pathlib import Path

import pytest
from PySide6.QtGui import QFont, QFontDatabase, QFontMetricsF, QRawFont
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

FONTS = Path(__file__).resolve().parents[2] / "assets" / "fonts"
FILES = {
    "Regular": QFont.Weight.Normal,
    "SemiBold": QFont.Weight.DemiBold,
    "Bold": QFont.Weight.Bold,
}
NEEDED = "AZaz09 £€½¼¾≤≥≈°×÷±–—“”‘’•…✓✗→←↑↓□■○● âêîôûŵŷ àèìòù ẁẃẅỳ çñßøåæœ łńšžăőű −"
every_style = pytest.mark.parametrize("style", FILES)


def path_of(style: str) -> Path:
    return FONTS / f"GametraceSans-{style}.ttf"


@every_style
def test_qt_takes_the_font_under_the_one_family_name(style: str, qapp: object) -> None:
    number = QFontDatabase.addApplicationFont(str(path_of(style)))
    assert "Gametrace Sans" in QFontDatabase.applicationFontFamilies(number)
    assert style in QFontDatabase.styles("Gametrace Sans")


@every_style
def test_every_sign_we_print_is_in_the_font(style: str, qapp: object) -> None:
    font = QRawFont(str(path_of(style)), 18)
    assert [sign for sign in NEEDED if not font.supportsCharacter(ord(sign))] == []


@every_style
def test_figures_are_of_one_width_on_screen(style: str, qapp: object) -> None:
    QFontDatabase.addApplicationFont(str(path_of(style)))
    font = QFont("Gametrace Sans")
    font.setPixelSize(480)
    font.setWeight(FILES[style])
    assert len({QFontMetricsF(font).horizontalAdvance(figure) for figure in "0123456789"}) == 1


@every_style
def test_figures_are_of_one_width_on_paper_and_the_font_goes_into_the_pdf(style: str) -> None:
    name = f"check-{style}"
    pdfmetrics.registerFont(TTFont(name, str(path_of(style))))
    assert len({pdfmetrics.stringWidth(figure, name, 12) for figure in "0123456789"}) == 1
    paper = BytesIO()
    canvas = Canvas(paper)
    canvas.setFont(name, 12)
    canvas.drawString(72, 720, "26-00417-K 41.60 kg")
    canvas.save()
    assert f"GametraceSans-{style}".encode() in paper.getvalue()


@every_style
def test_a_font_is_light_enough_to_carry_in_a_clone(style: str) -> None:
    assert path_of(style).stat().st_size < 200_000


def test_the_licence_of_the_fonts_travels_with_them() -> None:
    licence = (FONTS / "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    assert "The Inter Project Authors" in licence
