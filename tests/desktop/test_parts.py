"""The widgets that stations share: what is typed stays, what is chosen is told, all is reached by key."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit

from gametrace.desktop.parts.choice_row import ANSWERS, ChoiceRow
from gametrace.desktop.parts.days import parse_day, parse_time
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.form import Form
from gametrace.desktop.parts.kilo_edit import KiloEdit
from gametrace.desktop.parts.notice import Banner, Field
from gametrace.desktop.parts.optional_date import OptionalDate
from gametrace.desktop.parts.pick_list import Choice, PickList
from gametrace.desktop.parts.state_sign import SIGNS, StateSign
from gametrace.desktop.parts.table import Column, RecordModel, RecordTable
from gametrace.desktop.parts.time_edit import TimeEdit
from gametrace.desktop.parts.words import Words, shown
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.lots import LotState

TODAY = date(2026, 11, 25)


def today() -> date:
    return TODAY


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("12/11", date(2026, 11, 12)),
        ("12 Nov", date(2026, 11, 12)),
        ("12nov", date(2026, 11, 12)),
        ("3 september 25", date(2025, 9, 3)),
        ("1/12", date(2026, 12, 1)),
        ("28 Dec", date(2025, 12, 28)),
        ("12.11.2026", date(2026, 11, 12)),
        ("2026-11-12", date(2026, 11, 12)),
        ("today", TODAY),
        ("Yesterday", date(2026, 11, 24)),
        ("29 Feb", date(2024, 2, 29)),
        ("not stated", None),
        ("", None),
    ],
)
def test_a_day_is_read_as_people_write_it(typed: str, day: date | None) -> None:
    if typed == "29 Feb":  # from 2024 on: 2025 and 2026 have none
        assert parse_day(typed, date(2024, 3, 2)) == day
    else:
        assert parse_day(typed, TODAY) == day


@pytest.mark.parametrize(
    "typed", ["29 Feb 2027", "29/2/2027", "31/4", "12/13", "soon", "1e9", "0/0", "12 Novembre", "٣/٤"]
)
def test_a_day_that_is_none_is_refused_with_a_sentence(typed: str) -> None:
    with pytest.raises(Refusal) as caught:
        parse_day(typed, TODAY)
    assert caught.value.sentence.endswith(".")


def test_a_planned_day_without_a_year_is_the_nearest_one() -> None:
    assert parse_day("3 Jan", TODAY, looks_back=False) == date(2027, 1, 3)
    assert parse_day("20 Nov", TODAY, looks_back=False) == date(2026, 11, 20)


@pytest.mark.parametrize(
    ("typed", "time"),
    [
        ("7:40", "07:40"),
        ("0740", "07:40"),
        ("7.40", "07:40"),
        ("7.40pm", "19:40"),
        ("12am", "00:00"),
        ("", ""),
    ],
)
def test_a_time_is_read_as_people_write_it(typed: str, time: str) -> None:
    assert parse_time(typed) == time


@pytest.mark.parametrize("typed", ["25:00", "7:60", "dawn", "7", "13pm"])
def test_a_time_that_is_none_is_refused(typed: str) -> None:
    with pytest.raises(Refusal):
        parse_time(typed)


def test_a_weight_typed_with_a_comma_is_settled_with_a_point(qtbot, look) -> None:
    field = KiloEdit("Weight")
    qtbot.addWidget(field)
    qtbot.keyClicks(field.edit, "61,5")
    with qtbot.waitSignal(field.entered):
        qtbot.keyClick(field.edit, Qt.Key.Key_Return)
    assert field.value() == 61500
    assert field.text() == "61.50"


def test_a_weight_that_cannot_be_read_stays_as_typed_with_a_sentence(qtbot, look) -> None:
    field = KiloEdit("Weight")
    qtbot.addWidget(field)
    qtbot.keyClicks(field.edit, "600")
    qtbot.keyClick(field.edit, Qt.Key.Key_Return)
    assert field.text() == "600"
    assert "60.0 kg" in field.sentence.text()
    assert field.value_or_none() is None
    with pytest.raises(Refusal):
        field.value()


def test_a_date_field_is_empty_until_somebody_gives_a_day(qtbot, look) -> None:
    field = OptionalDate("Killed", today)
    qtbot.addWidget(field)
    assert field.value() is None
    assert field.text() == ""
    qtbot.mouseClick(field.other, Qt.MouseButton.LeftButton)
    assert field.value() == date(2026, 11, 24)
    field.clear()
    assert field.value() is None


def test_a_time_field_tells_what_it_cannot_read(qtbot, look) -> None:
    field = TimeEdit()
    qtbot.addWidget(field)
    field.set_text("dawn")
    assert "not a time" in field.sentence.text()
    field.set_text("")
    assert field.value() == ""


def test_arrows_and_space_choose_along_a_row(qtbot, look) -> None:
    row = ChoiceRow(ANSWERS, name="No abnormal behaviour")
    qtbot.addWidget(row)
    row.show()
    told: list[str] = []
    row.changed.connect(told.append)
    assert row.value() == ""
    first = row.button("yes")
    first.setFocus()
    qtbot.keyClick(first, Qt.Key.Key_Space)
    assert row.value() == "yes"
    qtbot.keyClick(first, Qt.Key.Key_Right)
    assert row.value() == "no"
    assert told[-1] == "no"
    assert row.button("no").accessibleName() == "No abnormal behaviour: No"


def test_a_choice_row_takes_other_words_and_forgets_the_old_choice(qtbot, look) -> None:
    row = ChoiceRow((("doe", "Doe"), ("fawn", "Fawn")), value="doe")
    qtbot.addWidget(row)
    row.set_choices((("hind", "Hind"), ("calf", "Calf")))
    assert row.values() == ("hind", "calf")
    assert row.value() == ""


def test_a_long_list_is_searched_and_enter_picks(qtbot, look) -> None:
    picker = PickList("Suppliers", [Choice(f"S{n:03}", f"Estate {n}") for n in range(20)])
    qtbot.addWidget(picker)
    picker.show()
    qtbot.keyClicks(picker.search, "estate 13")
    with qtbot.waitSignal(picker.picked) as caught:
        qtbot.keyClick(picker.search, Qt.Key.Key_Return)
    assert caught.args == ["S013"]


NOTE = Finding("season", Severity.NOTE, "In season.", source="Deer Act 1991, schedule 1")
ASK = Finding("weight-high", Severity.ASK, "41.6 kg is high for a doe.", "Check the sex.")
STOP = Finding("behaviour", Severity.STOP, "Abnormal behaviour is declared.")


def test_findings_stand_hardest_first_and_only_asks_have_a_line_for_the_reason(qtbot, look) -> None:
    panel = FindingPanel(look)
    qtbot.addWidget(panel)
    panel.set_findings([NOTE, ASK, STOP])
    layout = panel.layout()
    rows = [layout.itemAt(i).widget() for i in range(layout.count())]
    assert [row.finding.code for row in rows if hasattr(row, "finding")] == [
        "behaviour",
        "weight-high",
        "season",
    ]
    assert [not row.reason.isHidden() for row in rows if hasattr(row, "finding")] == [False, True, False]


def test_a_reason_is_kept_while_findings_come_and_go(qtbot, look) -> None:
    panel = FindingPanel(look)
    qtbot.addWidget(panel)
    panel.set_findings([ASK])
    assert panel.unanswered() == (ASK,)
    qtbot.keyClicks(panel._rows[next(iter(panel._rows))].reason, "large doe")
    panel.set_findings([NOTE])
    assert panel.reasons() == {}
    panel.set_findings([NOTE, ASK])
    assert panel.reasons() == {"weight-high": "large doe"}
    assert panel.unanswered() == ()


def test_every_state_of_a_lot_has_a_sign_and_its_word(qtbot, look) -> None:
    assert set(SIGNS) == {state.value for state in LotState}
    sign = StateSign(look, "on hold", "warm at the door")
    qtbot.addWidget(sign)
    assert sign.accessibleName() == "on hold: warm at the door"


COLUMNS = (
    Column("name", "Name", str, 0),
    Column("length", "Letters", lambda word: str(len(word)), 100, sort=len, is_figure=True),
)


def test_the_table_keeps_qts_rules_for_models(qtmodeltester, qtbot, look) -> None:
    model = RecordModel(COLUMNS, str)
    model.set_records(["haunch", "saddle", "neck"])
    qtmodeltester.check(model, force_py=True)


def test_sorting_and_new_records_keep_the_chosen_row(qtbot, look) -> None:
    table = RecordTable(look, "Words", COLUMNS, str)
    qtbot.addWidget(table)
    table.set_records(["haunch", "saddle", "neck"])
    table.choose_id("saddle")
    table._sort_by(1)
    assert [table.records_model.record(row) for row in range(3)] == ["neck", "haunch", "saddle"]
    assert table.current() == "saddle"
    table.set_records(["loin", "saddle"])
    assert table.current() == "saddle"
    with qtbot.waitSignal(table.chosen) as caught:
        qtbot.keyClick(table, Qt.Key.Key_Return)
    assert caught.args == ["saddle"]


def test_a_refusal_stands_at_its_field_and_nothing_typed_is_lost(qtbot, look) -> None:
    form = Form("A person", "Enrol")
    qtbot.addWidget(form)
    form.line("name", "Name")
    form.line("initials", "Initials")
    form.finish()
    form.show()
    form.fields["name"].inner.setText("Ada")
    form.refuse(Refusal("Initials are what labels show.", "Write two letters.", "initials"))
    assert form.fields["initials"].trouble.text() == "Initials are what labels show. Write two letters."
    assert form.values() == {"name": "Ada", "initials": ""}
    form.refuse(Refusal("The register is open elsewhere.", "", "elsewhere"))
    assert form.trouble.text() == "The register is open elsewhere."


@pytest.mark.parametrize("text", ["<b>Ada</b> & Sons", "=1+1", "🦌 larder", "\u202etag", "x" * 10_000, ""])
def test_any_text_is_shown_as_it_is_and_never_as_markup(qtbot, look, text: str) -> None:
    label = Words(text)
    qtbot.addWidget(label)
    assert label.textFormat() == Qt.TextFormat.PlainText
    assert len(label.text().replace("\u200b", "")) <= 400
    assert "\u202e" not in label.text()
    assert label.minimumSizeHint().width() < 800
    assert shown("<b>") == "<b>"


def test_what_was_done_stays_until_a_key_is_struck_so_that_no_button_moves_by_itself(qtbot, look) -> None:
    banner = Banner(look)
    qtbot.addWidget(banner)
    banner.done("26-00417-K: dressed.")
    assert banner.isVisible()
    banner.let_go()
    assert banner.isVisible()  # it was not there long enough to be read
    banner._timer.timeout.emit()
    assert banner.isVisible()
    QTest.keyClick(banner, Qt.Key.Key_Down)
    assert not banner.isVisible()


def test_a_refusal_stays_whatever_is_struck(qtbot, look) -> None:
    banner = Banner(look)
    qtbot.addWidget(banner)
    banner.done("26-00417-K: dressed.")
    banner._timer.timeout.emit()
    banner.refused("It is on hold.")
    QTest.keyClick(banner, Qt.Key.Key_Down)
    banner.let_go()
    assert banner.isVisible()


def test_a_field_hands_the_cursor_to_what_is_typed_into(qtbot) -> None:
    field = Field("Dish", QLineEdit())
    qtbot.addWidget(field)
    assert field.focusProxy() is field.inner
