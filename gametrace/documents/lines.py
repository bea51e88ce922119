"""Running text in a cell, set fast: words in one or a few faces, broken at spaces, no hyphens.

ReportLab's own paragraphs parse markup and measure every word anew; a year's pack has tens of thousands of
them. This knows the little markup our papers use and nothing else: <b>, <br/>, <font size= color=>.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from html import unescape
from typing import Any

from reportlab.lib.colors import HexColor
from reportlab.lib.enums import TA_CENTER, TA_LEFT, TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import getFont, stringWidth, unicode2T1
from reportlab.platypus import Flowable

from gametrace.documents import brand

Run = tuple[str, str, float, Any]  # text, font, size, colour
_SPACES = re.compile("( +)")
_TAG = re.compile(r"(<[^>]*>)")
_ESCAPED = str.maketrans({sign: f"\\{sign}" for sign in r"\()"})  # as a PDF writes them in a text
_FONT = re.compile(r"<font((?: (?:size|color)=[\"'][^\"']*[\"'])*)>")
_SIZE, _INK = re.compile(r"size=[\"']([\d.]+)[\"']"), re.compile(r"color=[\"'](#[0-9a-fA-F]{6})[\"']")


@lru_cache(maxsize=100_000)
def _width(text: str, font: str, size: float) -> float:
    return float(stringWidth(text, font, size))


@lru_cache(maxsize=64)
def _colour(code: str) -> Any:
    return HexColor(code)


def runs_of(text: str, style: ParagraphStyle) -> list[list[Run]] | None:
    """Our own markup as lines of runs; None where it holds more than is known here."""
    font = style.fontName
    lines: list[list[Run]] = [[]]
    is_bold, sizes = False, [(style.fontSize, style.textColor)]
    for part in _TAG.split(text):
        if not part:
            continue
        if not part.startswith("<"):
            at, ink = sizes[-1]
            lines[-1].append((unescape(part), brand.BOLD if is_bold else font, at, ink))
        elif part in ("<b>", "</b>"):
            is_bold = part == "<b>"
        elif part == "<br/>":
            lines.append([])
        elif part == "</font>":
            sizes.pop()
        elif match := _FONT.fullmatch(part):
            at, ink = sizes[-1]
            size, colour = _SIZE.search(match[1]), _INK.search(match[1])
            sizes.append((float(size[1]) if size else at, _colour(colour[1]) if colour else ink))
        else:
            return None
    return lines


class Lines(Flowable):
    """Text of a few runs, each list of runs beginning a line of its own."""

    def __init__(self, runs: Sequence[Sequence[Run]], style: ParagraphStyle) -> None:
        super().__init__()
        self.style = style
        self._runs = runs
        self._broken_at = -1.0
        self._lines: list[tuple[float, list[Run]]] = []  # width of the line, its runs

    def wrap(self, available_width: float, _available_height: float) -> tuple[float, float]:
        if available_width != self._broken_at:
            self._lines = [line for runs in self._runs for line in _lines_of(runs, available_width)]
            self._broken_at = available_width
        self.width = available_width
        self.height = len(self._lines) * self.style.leading
        return self.width, self.height

    def minWidth(self) -> float:
        return 0

    def split(self, available_width: float, available_height: float) -> list[Flowable]:
        self.wrap(available_width, available_height)
        fit = int(available_height // self.style.leading)
        if fit >= len(self._lines):
            return [self]
        if fit < 1:
            return []
        return [self._part(self._lines[:fit]), self._part(self._lines[fit:])]

    def _part(self, lines: list[tuple[float, list[Run]]]) -> Lines:
        made = Lines([runs for _, runs in lines], self.style)
        made._lines, made._broken_at = lines, self._broken_at
        return made

    def draw(self) -> None:
        setting = Setting(self.canv)
        self.set_in(setting, 0, 0)
        setting.done()

    def set_in(self, setting: Setting, x: float, y: float) -> None:
        """Put the lines, broken before, into a text with their lower left corner at x, y."""
        style = self.style
        y += self.height - style.fontSize
        for width, runs in self._lines:
            start = x
            if style.alignment == TA_RIGHT:
                start += self.width - width
            elif style.alignment == TA_CENTER:
                start += (self.width - width) / 2
            setting.put(start, y, runs)
            y -= style.leading


class Setting:
    """One text on a canvas of many lines, each where it stands. Faces and inks are named where they change.

    ReportLab's text object measures each run again to know where it ends; here that is known already.
    """

    def __init__(self, canvas: Any) -> None:
        self._canvas = canvas
        self._code: list[str] = []
        self._faces: dict[str, str] = {}  # what this paper calls the first part of each font
        self._face: tuple[str, float] | None = None
        self._ink: Any = None

    def put(self, x: float, y: float, runs: Sequence[Run]) -> None:
        add = self._code.append
        add(f"1 0 0 1 {x:.3f} {y:.3f} Tm")
        for words, font, size, ink in runs:
            if ink is not self._ink:
                self._ink = ink
                add(_ink_code(ink))
            for face, shown in self._spelled(words, font):
                if (face, size) != self._face:
                    self._face = face, size
                    add(f"{face} {size:g} Tf")
                add(f"({shown}) Tj")

    def _spelled(self, words: str, name: str) -> Sequence[tuple[str, str]]:
        """(what the paper calls the font, the signs as it spells them), for each part of the font in turn."""
        if words.isascii() and _keeps_ascii(name):  # nearly all: every sign stands for itself
            if name not in self._faces:
                self._faces[name] = getFont(name).getSubsetInternalName(0, self._canvas._doc)
            return ((self._faces[name], words.translate(_ESCAPED)),)
        font, paper, escape = getFont(name), self._canvas._doc, self._canvas._escape
        if not font._dynamicFont:
            parts = unicode2T1(words, [font, *font.substitutionFonts])
            return [(paper.getInternalFontName(one.fontName), escape(text)) for one, text in parts]
        return [
            (font.getSubsetInternalName(part, paper), escape(text))
            for part, text in font.splitString(words, paper)
        ]

    def done(self) -> None:
        if self._code:
            self._canvas.addLiteral(f"q BT {' '.join(self._code)} ET Q")


@lru_cache(maxsize=64)
def _ink_code(ink: Any) -> str:
    return "{:.4g} {:.4g} {:.4g} rg".format(*ink.rgb())


@lru_cache(maxsize=16)
def _keeps_ascii(name: str) -> bool:
    """Whether every ASCII sign stands for itself in a font's first part, as ReportLab's do by default."""
    font = getFont(name)
    if not font._dynamicFont:
        return False
    return bool(font._asciiReadable) and all(sign in font.face.charToGlyph for sign in range(32, 127))


def can_set(style: ParagraphStyle) -> bool:
    """Whether a style asks for nothing this does not do."""
    plain = not (style.leftIndent or style.rightIndent or style.firstLineIndent)
    return plain and style.alignment in (TA_LEFT, TA_RIGHT, TA_CENTER)


def _lines_of(runs: Sequence[Run], width: float) -> list[tuple[float, list[Run]]]:
    """Runs broken into lines. Most cells hold one run, and most of those words stand in many cells."""
    if len(runs) != 1:
        return _broken(runs, width)
    ((text, font, size, ink),) = runs
    return [(used, [(words, font, size, ink)]) for used, words in _plain_lines(text, font, size, width)]


@lru_cache(maxsize=20_000)
def _plain_lines(text: str, font: str, size: float, width: float) -> tuple[tuple[float, str], ...]:
    broken = _broken([(text, font, size, None)], width)
    return tuple((used, "".join(words for words, *_ in runs)) for used, runs in broken)


def _words(runs: Sequence[Run]) -> list[list[Run]]:
    """The runs as words; a word has several pieces where a face changes inside it."""
    if len(runs) == 1:
        ((text, font, size, colour),) = runs
        return [[(part, font, size, colour)] for part in text.split(" ") if part]
    words: list[list[Run]] = []
    is_apart = True
    for text, font, size, colour in runs:
        for part in _SPACES.split(text):
            if not part:
                continue
            if part[0] == " ":
                is_apart = True
            elif is_apart:
                words.append([(part, font, size, colour)])
                is_apart = False
            else:
                words[-1].append((part, font, size, colour))
    return words


def _broken(runs: Sequence[Run], width: float) -> list[tuple[float, list[Run]]]:
    """Runs broken into lines no wider than `width`; a word that is wider is broken inside."""
    lines: list[tuple[float, list[Run]]] = []
    line: list[Run] = []
    used = 0.0
    for word in _words(runs):
        if len(word) == 1:
            wide = _width(word[0][0], word[0][1], word[0][2])
        else:
            wide = sum(_width(text, font, size) for text, font, size, _ in word)
        space = _width(" ", word[0][1], word[0][2]) if line else 0.0
        if line and used + space + wide > width:
            lines.append((used, line))
            line, used, space = [], 0.0, 0.0
        if wide <= width:
            _put(line, word, " " if line else "")
            used += space + wide
            continue
        for text, font, size, colour in word:
            while used + _width(text, font, size) > width:
                fits = _fitting(text, font, size, width - used, is_start=not line)
                if fits:
                    _put(line, [(text[:fits], font, size, colour)], "")
                    used += _width(text[:fits], font, size)
                lines.append((used, line))
                line, used, text = [], 0.0, text[fits:]
            if text:
                _put(line, [(text, font, size, colour)], "")
                used += _width(text, font, size)
    lines.append((used, line))
    return lines


def _put(line: list[Run], word: Sequence[Run], before: str) -> None:
    """Add a word to a line, to its last run where the face is the same."""
    for text, font, size, colour in word:
        if line and line[-1][1:] == (font, size, colour):
            line[-1] = (line[-1][0] + before + text, font, size, colour)
        else:
            line.append((before + text, font, size, colour))
        before = ""


def _fitting(word: str, font: str, size: float, width: float, *, is_start: bool) -> int:
    """How many letters fit; at the start of a line one always does, so that it goes on."""
    fits, used = 0, 0.0
    for letter in word:
        used += _width(letter, font, size)
        if used > width:
            break
        fits += 1
    return max(1, fits) if is_start else fits
