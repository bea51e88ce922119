"""How the window looks now: palette, scale, type. One `Look` is made at start and handed to whatever paints.

It remembers nothing between runs; `settings` does.
"""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication

from gametrace.desktop.assets import font_files
from gametrace.desktop.palette import DARK, LIGHT, Palette
from gametrace.desktop.style import FALLBACKS, FAMILY, TEXT, style_sheet

SCALES = (1.0, 1.25, 1.5)

__all__ = ["DARK", "LIGHT", "SCALES", "Look", "Palette", "style_sheet"]


class Look(QObject):
    """Palette and scale. `changed` tells painted widgets to paint anew.

    Signals: changed().
    """

    changed = Signal()

    def __init__(self, *, dark: bool = False, scale: float = 1.0, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.palette = DARK if dark else LIGHT
        self.scale = scale

    @property
    def is_dark(self) -> bool:
        return self.palette is DARK

    def set_dark(self, dark: bool) -> None:
        self.palette = DARK if dark else LIGHT
        self.apply()

    def set_scale(self, scale: float) -> None:
        self.scale = min(max(scale, SCALES[0]), SCALES[-1])
        self.apply()

    def px(self, size: float) -> int:
        """A size of the design in pixels of the window."""
        return round(size * self.scale)

    def colour(self, role: str) -> QColor:
        """The colour of a role of the palette: 'ink', 'pine', 'amber'..."""
        return QColor(getattr(self.palette, role))

    def font(self, size: float = TEXT, *, bold: bool = False) -> QFont:
        """The family at a step of type, for what is painted by hand."""
        font = QFont([FAMILY, *FALLBACKS])
        font.setPixelSize(max(9, self.px(size)))
        font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
        return font

    def apply(self) -> None:
        """Dress the whole program."""
        app = QApplication.instance()
        sheet = style_sheet(self.palette, self.scale)
        if isinstance(app, QApplication) and app.styleSheet() != sheet:  # each widget there is is styled anew
            app.setPalette(self._qt_palette())
            app.setStyleSheet(sheet)
        self.changed.emit()

    def _qt_palette(self) -> QPalette:
        palette = QPalette()
        roles = {
            QPalette.ColorRole.Window: "ground",
            QPalette.ColorRole.Base: "sheet",
            QPalette.ColorRole.AlternateBase: "sheet",
            QPalette.ColorRole.Button: "sheet",
            QPalette.ColorRole.Text: "ink",
            QPalette.ColorRole.WindowText: "ink",
            QPalette.ColorRole.ButtonText: "ink",
            QPalette.ColorRole.PlaceholderText: "quiet",
            QPalette.ColorRole.Highlight: "chosen",
            QPalette.ColorRole.HighlightedText: "ink",
        }
        for role, name in roles.items():
            palette.setColor(role, self.colour(name))
        return palette


def load_fonts() -> None:
    """Make the shipped family known; without it the machine's own fonts are used."""
    if FAMILY in QFontDatabase.families():
        return
    for path in font_files():
        QFontDatabase.addApplicationFont(str(path))


def dress(app: QApplication, look: Look) -> None:
    """Style, fonts and sheet, once at start."""
    if not app.styleSheet():
        app.setStyle("Fusion")
    load_fonts()
    if app.font() != look.font():
        app.setFont(look.font())
    look.apply()
