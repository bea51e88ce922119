"""The one hand all papers are drawn by: its type, its colours, its text styles.

Fonts are embedded from assets/fonts, so a paper looks the same on every machine. Where the font files are
missing, Helvetica stands in rather than no paper at all. Nothing here knows what a document says.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from reportlab.lib.colors import Color, HexColor
from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

import gametrace

FONT_FOLDER = Path(gametrace.__file__).parent.parent / "assets" / "fonts"
FAMILY = "GametraceSans"

INK = HexColor("#1C2630")
QUIET = HexColor("#47545F")
LINE = HexColor("#868D93")
FAINT = HexColor("#D5D2CA")  # bands and hairlines that may vanish in a photocopy without loss
WASH = HexColor("#ECE9E2")  # the watermark: under the text, never instead of it
PINE = HexColor("#1F4A3D")
AMBER = HexColor("#7F3F00")
PLUM = HexColor("#6B1F52")
BLACK = Color(0, 0, 0)
WHITE = Color(1, 1, 1)


def _registered(weight: str, stand_in: str) -> str:
    """The name ReportLab knows this weight by; the stand-in where its file is missing."""
    file = FONT_FOLDER / f"{FAMILY}-{weight}.ttf"
    if not file.is_file():
        return stand_in
    name = f"{FAMILY}-{weight}"
    pdfmetrics.registerFont(TTFont(name, str(file)))
    return name


REGULAR = _registered("Regular", "Helvetica")
SEMIBOLD = _registered("SemiBold", "Helvetica-Bold")
BOLD = _registered("Bold", "Helvetica-Bold")
# <b> inside a paragraph means the bold of this family; there is no italic, so it stays upright.
pdfmetrics.registerFontFamily(REGULAR, normal=REGULAR, bold=BOLD, italic=REGULAR, boldItalic=BOLD)


@lru_cache(maxsize=4096)
def has_glyph(character: str) -> bool:
    """Whether every weight of the type can draw this character."""
    if REGULAR == "Helvetica":
        try:
            character.encode("cp1252")
        except UnicodeEncodeError:
            return False
        return True
    faces = (pdfmetrics.getFont(name).face for name in (REGULAR, SEMIBOLD, BOLD))
    return all(ord(character) in face.charToGlyph for face in faces)


MISSING_GLYPH = "□" if has_glyph("□") else "?"


def _style(name: str, size: float, leading: float, **more: object) -> ParagraphStyle:
    settings: dict[str, object] = {"fontName": REGULAR, "textColor": INK, "splitLongWords": 1, **more}
    return ParagraphStyle(name, fontSize=size, leading=leading, **settings)


TITLE = _style("title", 24, 28, fontName=BOLD)
LEAD = _style("lead", 12, 16, textColor=QUIET, spaceAfter=4)
HEADING = _style("heading", 14, 18, fontName=BOLD, textColor=PINE, spaceBefore=14, spaceAfter=5)
SUBHEADING = _style("subheading", 10, 13, fontName=SEMIBOLD, spaceBefore=8, spaceAfter=3)
BODY = _style("body", 9, 12.5, spaceAfter=4)
CELL = _style("cell", 8, 10.2)
CELL_STRONG = _style("cell strong", 8, 10.2, fontName=SEMIBOLD)
CELL_RIGHT = _style("cell right", 8, 10.2, alignment=TA_RIGHT)
CELL_RIGHT_STRONG = _style("cell right strong", 8, 10.2, alignment=TA_RIGHT, fontName=SEMIBOLD)
SMALL = _style("small", 7, 9, textColor=QUIET)
HEAD = _style("head", 7, 9, textColor=QUIET, fontName=SEMIBOLD)
HEAD_RIGHT = _style("head right", 7, 9, textColor=QUIET, fontName=SEMIBOLD, alignment=TA_RIGHT)
