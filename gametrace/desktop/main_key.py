"""Ctrl+Enter presses the main button of the page: of several in sight, the one nearest to the cursor.

It decides nothing else; what the button does is its page's.
"""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.big_button import BigButton

KEYS = ("Ctrl+Return", "Ctrl+Enter")


def main_button(page: QWidget, cursor: QWidget | None) -> BigButton | None:
    """The main button that shares the smallest part of the page with the cursor; None where none is seen."""
    seen = [button for button in page.findChildren(BigButton) if button.isVisible()]
    part: QWidget | None = cursor if cursor is not None and page.isAncestorOf(cursor) else page
    while seen and part is not None:
        near = [button for button in seen if button is part or part.isAncestorOf(button)]
        if near or part is page:
            return near[0] if near else None
        part = part.parentWidget()
    return None
