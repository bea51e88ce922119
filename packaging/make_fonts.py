"""Makes assets/fonts from the Inter fonts of Debian's fonts-inter package.

Run by hand when the fonts are to be made anew (`pip install fonttools`, `apt-get install fonts-inter`,
`python packaging/make_fonts.py`); neither the program nor its tests need it. What it changes, and why the
family has another name, is told in assets/fonts/README.md.
"""

from pathlib import Path
from typing import Any

from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont, newTable

SOURCE = Path("/usr/share/fonts/opentype/inter")
TARGET = Path(__file__).resolve().parent.parent / "assets" / "fonts"
FAMILY = "Gametrace Sans"
FAMILY_POSTSCRIPT = "GametraceSans"
WEIGHTS = {"Regular": 400, "SemiBold": 600, "Bold": 700}
DIGITS = "0123456789"
LARGEST_ERROR_UNITS = 1.0  # how far a quadratic curve may stray from the cubic one, in font units

MAXIMA = [  # a TrueType font must state these; those that matter are counted anew on saving
    "maxZones",
    "maxTwilightPoints",
    "maxStorage",
    "maxFunctionDefs",
    "maxInstructionDefs",
    "maxStackElements",
    "maxSizeOfInstructions",
    "maxComponentElements",
    "maxComponentDepth",
    "maxPoints",
    "maxContours",
    "maxCompositePoints",
    "maxCompositeContours",
]

KEPT = [
    *range(0x20, 0x7F),
    *range(0xA0, 0x250),  # Latin-1, Latin Extended-A and -B: Gaelic, Welsh and all of Europe's names
    *range(0x300, 0x313),  # combining accents, for names typed in two strokes
    *range(0x1E80, 0x1E86),  # w with accents
    0x1EF2,
    0x1EF3,
    *range(0x2010, 0x2028),  # dashes, quotation marks, bullets, ellipsis
    *range(0x2030, 0x203B),
    *range(0x2070, 0x208F),  # superiors and inferiors
    0x20AC,
    0x2116,
    0x2122,
    *range(0x2150, 0x215F),  # fractions
    *range(0x2190, 0x2199),  # arrows
    *[ord(sign) for sign in "−≤≥≈≠±×÷√∞∑∆◊•○●◌□■▲▼◆◇✓✗✕☐☑←→↑↓↗↘↩⌀"],
]


def with_quadratic_outlines(font: Any) -> None:
    """Swap cubic outlines (CFF) for quadratic ones (glyf), which ReportLab can embed."""
    order = font.getGlyphOrder()
    glyphs = font.getGlyphSet()
    drawn = {}
    for name in order:
        pen = TTGlyphPen(None)
        glyphs[name].draw(Cu2QuPen(pen, LARGEST_ERROR_UNITS, reverse_direction=True))
        drawn[name] = pen.glyph()
    font["loca"] = newTable("loca")
    font["glyf"] = glyf = newTable("glyf")
    glyf.glyphOrder = order
    glyf.glyphs = drawn
    for name in order:
        drawn[name].recalcBounds(glyf)
        width, _ = font["hmtx"][name]
        font["hmtx"][name] = (width, getattr(drawn[name], "xMin", 0))
    font["maxp"].tableVersion = 0x00010000
    for field in MAXIMA:
        setattr(font["maxp"], field, 1 if field == "maxZones" else 0)
    font["post"].formatType = 2.0
    font["post"].extraNames = []
    font["post"].mapping = {}
    del font["CFF "]
    if "VORG" in font:
        del font["VORG"]
    font.sfntVersion = "\x00\x01\x00\x00"


def tabular_forms(font: Any) -> dict[str, str]:
    """The font's own table of glyph -> glyph of tabular width (its `tnum` feature)."""
    substitutions = font["GSUB"].table
    lookups = {
        number
        for record in substitutions.FeatureList.FeatureRecord
        if record.FeatureTag == "tnum"
        for number in record.Feature.LookupListIndex
    }
    forms: dict[str, str] = {}
    for number in sorted(lookups):
        for part in substitutions.LookupList.Lookup[number].SubTable:
            forms.update(getattr(part, "ExtSubTable", part).mapping)
    return forms


def with_tabular_digits(font: Any) -> None:
    """Let the plain digits be the ones of equal width, so that columns of weights stand in line."""
    forms = tabular_forms(font)
    plain = font.getBestCmap()
    tabular = {ord(sign): forms[plain[ord(sign)]] for sign in DIGITS}
    for table in font["cmap"].tables:
        table.cmap.update(tabular)
    # In the heavier weights one digit is a hair narrower than its sisters.
    widest = max(font["hmtx"][name][0] for name in tabular.values())
    for name in tabular.values():
        font["hmtx"][name] = (widest, font["hmtx"][name][1])


def with_own_name(font: Any, style: str) -> None:
    """Name the changed fonts as ours; authors, copyright and licence stay as they were."""
    names = font["name"]
    kept = {record.nameID: record.toUnicode() for record in names.names if record.platformID == 3}
    names.names = []
    plain_style = style in ("Regular", "Bold")
    told = {
        0: kept[0],
        1: FAMILY if plain_style else f"{FAMILY} {style}",
        2: style if plain_style else "Regular",
        3: f"gametrace: {FAMILY} {style}, made from {kept[4]} ({kept[5]})",
        4: f"{FAMILY} {style}",
        5: kept[5],
        6: f"{FAMILY_POSTSCRIPT}-{style}",
        8: kept.get(8, ""),
        9: kept.get(9, ""),
        13: kept.get(13, "This Font Software is licensed under the SIL Open Font License, Version 1.1."),
        14: kept.get(14, "https://scripts.sil.org/OFL"),
        16: FAMILY,
        17: style,
    }
    for number, text in told.items():
        if text:
            names.setName(text, number, 3, 1, 0x409)


def subset(font: Any) -> None:
    """Drop the glyphs no text of ours or of the kitchen's will need, so that a clone stays light."""
    options = Options()
    options.layout_features = ["kern", "mark", "mkmk", "ccmp", "locl", "case", "frac", "zero"]
    options.name_IDs = ["*"]
    options.notdef_outline = True
    options.glyph_names = True
    options.hinting = False
    worker = Subsetter(options)
    worker.populate(unicodes=KEPT)
    worker.subset(font)


def main() -> None:
    TARGET.mkdir(parents=True, exist_ok=True)
    for style, weight in WEIGHTS.items():
        font = TTFont(SOURCE / f"Inter-{style}.otf", recalcTimestamp=False)
        with_tabular_digits(font)
        subset(font)
        with_quadratic_outlines(font)
        with_own_name(font, style)
        font["OS/2"].usWeightClass = weight
        path = TARGET / f"{FAMILY_POSTSCRIPT}-{style}.ttf"
        font.save(path)
        print(path.name, path.stat().st_size)


if __name__ == "__main__":
    main()
