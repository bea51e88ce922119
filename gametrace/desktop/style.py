"""The one style sheet, generated from a palette and a scale. Sizes are the steps of the house and an 8 px
grid."""

from __future__ import annotations

from pathlib import Path

from gametrace.desktop.assets import drawing_path
from gametrace.desktop.palette import LIGHT, Palette

FAMILY = "Gametrace Sans"
FALLBACKS = ("Inter", "DejaVu Sans", "Noto Sans")

TEXT, LARGE, TITLE, FIGURE, WEIGHT = 18, 22, 28, 48, 72  # px
GAP, APART = 16, 32  # px between things, between thoughts
TARGET, MAIN_TARGET = 48, 64  # px, the least height of what is touched

_SHEET = """
QWidget {{ font-family: {family}; font-size: {text}px; color: {ink}; }}
QMainWindow, QWidget[role="ground"], QStackedWidget, QScrollArea, QScrollArea > QWidget >
    QWidget[role="ground"]
    {{ background: {ground}; border: none; }}
QFrame[role="sheet"] {{ background: {sheet}; border: none; border-radius: {r}px; }}
QFrame[role="banner"] {{ background: {sheet}; border: {b2}px solid {amber}; border-radius: {r}px; }}
QFrame[role="banner"][says="steel"] {{ border-color: {steel}; }}
QFrame[role="banner"][says="plum"] {{ border-color: {plum}; }}
QFrame[role="rule"] {{ background: {line}; border: none; max-height: 1px; min-height: 1px; }}
QFrame[role="upright"] {{ background: {line}; border: none; max-width: 1px; min-width: 1px; }}

QLabel {{ background: transparent; border: none; }}
QLabel[role="title"] {{ font-size: {title}px; font-weight: 600; }}
QLabel[role="heading"] {{ font-size: {large}px; font-weight: 600; }}
QLabel[role="large"] {{ font-size: {large}px; }}
QLabel[role="strong"] {{ font-weight: 600; }}
QLabel[role="figure"] {{ font-size: {figure}px; font-weight: 600; }}
QLabel[role="weight"] {{ font-size: {weight}px; font-weight: 600; }}
QLabel[role="quiet"] {{ color: {quiet}; }}
QLabel[role="amber"] {{ color: {amber}; font-weight: 600; }}
QLabel[role="plum"] {{ color: {plum}; font-weight: 600; }}
QLabel[role="steel"] {{ color: {steel}; font-weight: 600; }}

QPushButton {{ background: {sheet}; border: 1px solid {line}; border-radius: {r}px;
    min-height: {h}px; padding: 2px {p}px; margin: 2px; }}
QPushButton:hover {{ border-color: {ink}; }}
QPushButton:pressed {{ background: {chosen}; }}
QPushButton:focus {{ border: 3px solid {pine}; padding: 0px {pf}px; }}
QPushButton:disabled {{ color: {quiet}; border: 1px dashed {line}; background: transparent; }}
QPushButton[role="main"] {{ background: {pine}; color: {sheet}; border: 6px solid {pine};
    min-height: {hm}px; padding: 0px {pm}px; margin: 0px; font-size: {large}px; font-weight: 600; }}
QPushButton[role="main"]:focus {{ border: 6px double {sheet}; }}
QPushButton[role="main"]:pressed {{ background: {ink}; border-color: {ink}; }}
QPushButton[role="main"]:disabled {{ background: transparent; color: {quiet}; border: 1px dashed {line};
    padding: 5px {pm}px; }}
QPushButton[role="plain"] {{ background: transparent; border: 1px solid transparent; text-align: left;
    text-decoration: underline; padding: 2px 4px; }}
QPushButton[role="plain"]:focus {{ border: 3px solid {pine}; padding: 0px 2px; }}
QPushButton[role="choice"] {{ margin: 0px; border-radius: 0px; min-width: {h}px; }}
QPushButton[role="choice"]:checked {{ background: {ink}; color: {sheet}; border-color: {ink}; font-weight:
    600; }}
QPushButton[role="choice"]:focus {{ border: 4px solid {pine}; padding: 0px {pf}px; }}
QPushButton[role="choice"]:checked:focus {{ border: 6px double {sheet}; padding: 0px {pc}px; }}

QLineEdit, QPlainTextEdit, QComboBox {{ background: {sheet}; border: 1px solid {line}; border-radius: {r}px;
    min-height: {hl}px; padding: 2px 10px; selection-background-color: {ink}; selection-color: {sheet};
    placeholder-text-color: {quiet}; }}
QLineEdit:focus, QPlainTextEdit:focus, QComboBox:focus {{ border: 3px solid {pine}; padding: 0px 8px; }}
QLineEdit[wrong="true"] {{ border: 2px solid {amber}; padding: 1px 9px; }}
QLineEdit[wrong="true"]:focus {{ border: 3px solid {amber}; padding: 0px 8px; }}
QLineEdit:disabled {{ color: {quiet}; border: 1px dashed {line}; }}
QLineEdit[role="figure"] {{ font-size: {figure}px; font-weight: 600; min-height: {hf}px; }}
QLineEdit[role="weight"] {{ font-size: {weight}px; font-weight: 600; min-height: {hw}px; }}
QLineEdit[role="scan"] {{ font-size: {text}px; }}
QComboBox::drop-down {{ width: {h}px; border: none; }}
QComboBox QAbstractItemView {{ background: {sheet}; selection-background-color: {chosen}; selection-color:
    {ink};
    outline: none; }}
QComboBox QAbstractItemView::item {{ min-height: {h}px; }}

QCheckBox {{ min-height: {h}px; spacing: 12px; padding: 2px 8px; border: 3px solid transparent;
    border-radius: {r}px; }}
QCheckBox:focus {{ border: 3px solid {pine}; }}
QCheckBox::indicator {{ width: {i}px; height: {i}px; border: 2px solid {line}; background: {sheet}; }}
QCheckBox::indicator:checked {{ background: {under_tick}; border: 2px solid {ink}; image: url("{tick}"); }}

QListView, QTableView {{ background: {sheet}; alternate-background-color: {sheet}; border: 3px solid {sheet};
    border-radius: {r}px; outline: none; gridline-color: transparent; }}
QListView:focus, QTableView:focus {{ border: 3px solid {pine}; }}
QListView::item {{ min-height: {h}px; padding: 4px 12px; border: none; }}
QListView::item:selected, QTableView::item:selected {{ background: {chosen}; color: {ink}; }}
QTableView::item {{ padding: 0px 8px; border-bottom: 1px solid {ground}; }}
QHeaderView {{ background: {sheet}; }}
QHeaderView::section {{ background: {sheet}; color: {quiet}; border: none; border-bottom: 1px solid {line};
    padding: 0px 8px; min-height: {h}px; font-weight: 400; }}

QProgressBar {{ border: 1px solid {line}; background: {sheet}; min-height: 24px; max-height: 24px;
    text-align: center; }}
QProgressBar::chunk {{ background: {chosen}; }}
QScrollBar:vertical {{ background: {ground}; width: 20px; margin: 0px; }}
QScrollBar:horizontal {{ background: {ground}; height: 20px; margin: 0px; }}
QScrollBar::handle {{ background: {line}; border: 4px solid {ground}; border-radius: 8px; min-height: {h}px;
    min-width: {h}px; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0px; height: 0px; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
"""


def style_sheet(palette: Palette, scale: float = 1.0) -> str:
    """All of the window's style as one sheet."""

    def px(size: int) -> int:
        return max(1, round(size * scale))

    colours = {name: getattr(palette, name) for name in Palette.__slots__}
    family = ", ".join(f'"{name}"' for name in (FAMILY, *FALLBACKS))
    return _SHEET.format(
        **colours,
        family=family,
        tick=(drawing_path("signs/sign-tick") or Path()).as_posix(),
        under_tick=palette.sheet if palette is LIGHT else palette.ink,  # the tick is dark on both grounds
        text=px(TEXT),
        large=px(LARGE),
        title=px(TITLE),
        figure=px(FIGURE),
        weight=px(WEIGHT),
        h=px(44),
        hl=px(42),
        hm=px(MAIN_TARGET) - 12,
        hf=px(64),
        hw=px(92),
        i=px(28),
        p=px(16),
        pf=px(16) - 2,
        pc=px(16) - 5,
        pm=px(24),
        r=px(4),
        b2=2,
    )
