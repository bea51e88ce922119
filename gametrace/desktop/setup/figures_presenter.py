"""Shows the figures of a group, opens one, and sets it with its reason."""

from __future__ import annotations

from typing import Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.setup.figures_page import GROUPS


class FiguresPresenter:
    """`view` has `lines` (FigureLines), `file` (FigureFile) and `show_file(bool)`."""

    def __init__(self, view: Any, bench: Bench) -> None:
        self._view, self._bench = view, bench
        self._group = GROUPS[0][0]
        self.name = ""
        view.lines.wanted.connect(self.open)
        view.lines.group_chosen.connect(self.show_group)
        view.file.kept.connect(self.keep)
        view.file.taken_back.connect(self.take_back)
        view.file.closed.connect(self.close)

    def refresh(self) -> None:
        """Read anew. A figure that is open keeps what is typed."""
        self.show_group(self._group)

    def show_group(self, group: str) -> None:
        self._group = group
        self._view.lines.groups.set_value(group)
        if group == "changes":
            self._view.lines.show_changes(self._bench.ask("policy_changes"))
            return
        figures = [one for one in self._bench.ask("own_figures") if one.group == group]
        self._view.lines.show_figures(figures)

    def open(self, name: str) -> None:
        figure = next((one for one in self._bench.ask("own_figures") if one.name == name), None)
        if figure is None:
            return
        self.name = name
        self._view.file.show_figure(figure)
        self._view.show_file(True)

    def close(self) -> None:
        was, self.name = self.name, ""
        self._view.show_file(False)
        if was in self._view.lines.buttons:
            self._view.lines.buttons[was].setFocus()

    def keep(self) -> None:
        file = self._view.file
        file.clear_refusals()
        value = self._bench.guarded(file.editor.value, on_refusal=file.refuse)
        if value is not None:
            self._set(value, "Kept as our own figure.")

    def take_back(self) -> None:
        self._view.file.clear_refusals()
        self._set("", "What the program starts with holds again.")

    def _set(self, value: str, said: str) -> None:
        file = self._view.file
        reason = file.reason.text().strip()
        if self._bench.attempt(
            "set_policy", on_refusal=file.refuse, said=said, name=self.name, value=value, reason=reason
        ):
            self.close()
