"""A table of frozen records with declared columns. Rows have one height and stored widths.

Sorting is done here in Python before the rows reach the model, never in a proxy: meant for lists below some
5,000 rows; a longer list is a question to the register and comes in `Pages`, which keep their order.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.pages import A_PAGE, Pages
from gametrace.desktop.parts.words import shown

Index = QModelIndex | QPersistentModelIndex
SORTS_UP_TO = 5000


@dataclass(frozen=True, slots=True)
class Column:
    """One column: key, title, what it shows of a record, and its width (0 takes the rest)."""

    key: str
    title: str
    show: Callable[[Any], str]
    width: int = 0
    sort: Callable[[Any], Any] | None = None  # what to sort by; the words shown where None
    is_figure: bool = False  # aligned right


class RecordModel(QAbstractTableModel):
    """Records in rows. `id_of` names a record, so that the chosen one stays chosen when others come."""

    def __init__(self, columns: Sequence[Column], id_of: Callable[[Any], str], parent=None) -> None:
        super().__init__(parent)
        self.columns = tuple(columns)
        self._id_of = id_of
        self._records: list[Any] | Pages = []
        self._sorted_by: tuple[int, bool] | None = None

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self._records)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self.columns)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        column = self.columns[index.column()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return shown(column.show(self._records[index.row()]), 200).replace("\u200b", "")
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if column.is_figure else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        return None

    def headerData(self, section: int, orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if orientation != Qt.Orientation.Horizontal or not 0 <= section < len(self.columns):
            return None
        column = self.columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.title
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if column.is_figure else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        return None

    def set_records(self, records: Sequence[Any]) -> None:
        self.beginResetModel()
        if isinstance(records, Pages) and len(records) > A_PAGE:
            self._records = records
        else:
            self._records = list(records)
        self._arrange()
        self.endResetModel()

    def record(self, row: int) -> Any:
        return self._records[row]

    def records(self) -> tuple[Any, ...]:
        return tuple(self._records)

    def row_of(self, record_id: str) -> int:
        here = self._records.seen() if isinstance(self._records, Pages) else enumerate(self._records)
        return next((row for row, one in here if self._id_of(one) == record_id), -1)

    def id_at(self, row: int) -> str:
        return self._id_of(self._records[row])

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        if not 0 <= column < len(self.columns) or not self.can_sort:
            return
        self._sorted_by = (column, order == Qt.SortOrder.DescendingOrder)
        self.beginResetModel()
        self._arrange()
        self.endResetModel()

    @property
    def can_sort(self) -> bool:
        return isinstance(self._records, list) and len(self._records) <= SORTS_UP_TO

    def _arrange(self) -> None:
        if self._sorted_by is None or isinstance(self._records, Pages):
            return
        at, downwards = self._sorted_by
        column = self.columns[at]
        self._records.sort(key=column.sort or column.show, reverse=downwards)


class RecordTable(QTableView):
    """The table on the page. Enter or a press chooses a row.

    Signals: chosen(object): the record, by Enter or press. moved(object): the record under the hand.
    struck(object): the record, by Enter alone, where a press only looks.
    """

    chosen = Signal(object)
    moved = Signal(object)
    struck = Signal(object)

    def __init__(
        self,
        look: Look,
        name: str,
        columns: Sequence[Column],
        id_of: Callable[[Any], str],
        *,
        sorts: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.records_model = RecordModel(columns, id_of, self)
        self.setModel(self.records_model)
        self.setAccessibleName(name)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setDefaultSectionSize(look.px(48))
        header = self.horizontalHeader()
        header.setSectionsClickable(sorts)
        header.setHighlightSections(False)
        header.setMinimumSectionSize(look.px(48))
        if sorts:
            header.setSortIndicatorShown(False)
            header.sectionClicked.connect(self._sort_by)
        for at, column in enumerate(columns):
            if column.width:
                self.setColumnWidth(at, look.px(column.width))
            else:
                header.setSectionResizeMode(at, QHeaderView.ResizeMode.Stretch)
        self.clicked.connect(self._chose)
        self.selectionModel().currentRowChanged.connect(self._moved)

    def set_records(self, records: Sequence[Any]) -> None:
        """Show these; the row that was chosen stays so if it is still there."""
        kept = self.current_id()
        self.records_model.set_records(records)
        self.choose_id(kept)

    def current(self) -> Any | None:
        row = self.currentIndex().row()
        return self.records_model.record(row) if 0 <= row < self.records_model.rowCount() else None

    def current_id(self) -> str:
        row = self.currentIndex().row()
        return self.records_model.id_at(row) if 0 <= row < self.records_model.rowCount() else ""

    def choose_id(self, record_id: str) -> None:
        row = self.records_model.row_of(record_id) if record_id else -1
        if row >= 0:
            self.setCurrentIndex(self.records_model.index(row, 0))

    def _sort_by(self, section: int) -> None:
        was = self.records_model._sorted_by
        down = was is not None and was[0] == section and not was[1]
        kept = self.current_id()
        order = Qt.SortOrder.DescendingOrder if down else Qt.SortOrder.AscendingOrder
        self.records_model.sort(section, order)
        self.choose_id(kept)

    def _chose(self, index: QModelIndex) -> None:
        self.chosen.emit(self.records_model.record(index.row()))

    def _moved(self, current: QModelIndex, previous: QModelIndex) -> None:
        if current.isValid():
            self.moved.emit(self.records_model.record(current.row()))

    def keyPressEvent(self, event) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.current() is not None:
            self.chosen.emit(self.current())
            self.struck.emit(self.current())
            return
        super().keyPressEvent(event)
