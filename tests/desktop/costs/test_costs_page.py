"""Costs and yields in the window: by key, by scanner and by finger, from the pass and the trace."""

from __future__ import annotations

from fractions import Fraction

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from gametrace.desktop.costs.area_picture import AreaPicture
from gametrace.desktop.costs.bars import CutBar, bars_of
from gametrace.desktop.costs.yield_plot import Published, YieldPlot, YieldRow
from gametrace.desktop.frame import Window
from gametrace.register import acts, questions

PAGES = ("cost", "yields", "dish", "values")


@pytest.fixture
def priced(roe_larder):
    """A roe bought at 5.00 a kilo, cut to its end on both sides, with a dish of it; the codes."""
    buck = roe_larder.dressed(pence_per_kg=500)
    left = roe_larder.weigh(buck, "haunch", 2_500, side="left")
    roe_larder.weigh(buck, "haunch", 2_600, side="right")
    loin = roe_larder.weigh(buck, "loin", 1_200)
    roe_larder.weigh(buck, "trim", 3_000)
    roe_larder.weigh(buck, "bone", 3_510)
    roe_larder.weigh(left, "topside", 1_900)
    roe_larder.weigh(left, "bone", 600)
    dish = acts.make_dish(
        roe_larder.register,
        by=roe_larder.tutor,
        name="Loin, plain",
        occasion_kind="service",
        occasion="lunch",
        on=roe_larder.at.date(),
        portions=6,
        inputs=[(loin, 900)],
    ).code
    return buck, dish


@pytest.fixture
def costs(roe_window: Window, priced):
    roe_window.go("costs", priced[0])
    QApplication.processEvents()
    return roe_window.station("costs")


def test_1_2_3_switch_the_spread_and_the_picture_always_comes_to_what_was_paid(costs, priced, keys) -> None:
    shown = costs.page.cost
    shown.detail.choose("cut")
    shown.picture.setFocus()
    for key, method in (("2", "points"), ("1", "weight")):
        keys(key)
        assert shown.method.value() == method
        assert sum(bar.pence or 0 for bar in shown.picture.bars) == 8_000
        assert sum(bar.grams for bar in shown.picture.bars) == 16_000
    keys("3")
    assert "No sales value is set" in shown.unknown.text()
    assert not shown.picture.isVisible()


def test_by_points_the_loin_stands_highest_and_its_line_says_how_many_times_the_price(costs) -> None:
    costs.page.cost.detail.choose("cut")
    costs.presenters["cost"].switch(2)
    picture = costs.page.cost.picture
    assert picture.bars[0].name == "loin"
    picture.choose(0)
    assert "times the price bought at" in costs.page.cost.summary.text()
    assert costs.page.cost.bars.chosen == 0


def test_arrows_and_a_finger_walk_along_the_picture_and_the_list_goes_along(costs, qtbot) -> None:
    shown = costs.page.cost
    shown.picture.setFocus()
    QTest.keyClick(shown.picture, Qt.Key.Key_Right)
    assert shown.picture.chosen == shown.bars.chosen == 1
    QTest.keyClick(shown.bars, Qt.Key.Key_Down)
    assert shown.picture.chosen == 2
    spot = shown.picture._spots()[0].center().toPoint()
    QTest.mouseClick(shown.picture, Qt.MouseButton.LeftButton, pos=spot)
    assert shown.picture.chosen == 0


def yields_read(costs, window) -> None:
    """The yields come from a worker: the page is free meanwhile."""
    costs.show_page("yields")
    assert not costs.page.yields.print_button.isEnabled()
    window.bench.errands.wait_idle()
    QApplication.processEvents()


def test_left_and_right_stand_side_by_side_and_the_plot_says_them(costs, roe_window) -> None:
    yields_read(costs, roe_window)
    costs.page.yields.mode.choose("sides")
    assert [row.name for row in costs.page.yields.sides.rows] == ["haunch"]
    assert "left 2.500 kg" in costs.page.yields.words.text()
    assert "100 g" in costs.page.yields.words.text() or "0.100 kg apart" in costs.page.yields.words.text()


def test_groups_are_read_aside_and_shown(costs, roe_window) -> None:
    yields_read(costs, roe_window)
    costs.page.yields.mode.choose("groups")
    roe_window.bench.errands.wait_idle()
    QApplication.processEvents()
    assert [row.name for row in costs.page.yields.groups.rows] == ["Jem Askew, stalker"]
    assert costs.page.yields.reading.text() == "One animal."
    costs.page.yields.reach.choose("year")
    roe_window.bench.errands.wait_idle()
    QApplication.processEvents()
    assert [row.name for row in costs.page.yields.groups.rows] == ["Jem Askew, stalker"]
    costs.page.yields.group.choose("cutter")
    roe_window.bench.errands.wait_idle()
    QApplication.processEvents()
    assert "Cutters are here once" in costs.page.yields.none.text()


def test_the_yield_sheet_is_printed(costs, roe_window, tmp_path) -> None:
    yields_read(costs, roe_window)
    costs.page.yields.print_button.click()
    roe_window.bench.errands.wait_idle()
    QApplication.processEvents()
    assert [one.name.startswith("yield ") for one in (tmp_path / "papers").glob("*.pdf")] == [True]


def test_a_price_is_typed_and_kept_and_gross_profit_is_shown_without_vat(costs, priced, roe_window) -> None:
    costs.open_code(priced[1])
    page = costs.page.dish
    page.price.set_text("14.50")
    page.vat.setText("20")
    page.other.set_text("12.60")
    page.keep.click()
    found = questions.dish_cost(roe_window.bench.register, priced[1])
    assert (found.price_pence, found.vat_hundredths, found.other_pence) == (1_450, 2_000, 1_260)
    said = " ".join(label.text() for label in page.findChildren(QLabel))
    assert "£12.08" in said
    assert "gross profit of it" in said
    assert sum(pence for _, pence in page.bar.parts) == 1_450


@pytest.mark.parametrize(
    ("vat", "price", "field"), [("much", "5", "vat_hundredths"), ("20", "", "price_pence")]
)
def test_what_cannot_be_read_is_said_at_its_field_and_nothing_typed_is_lost(
    costs, priced, vat, price, field
) -> None:
    costs.open_code(priced[1])
    page = costs.page.dish
    page.price.set_text(price)
    page.vat.setText(vat)
    page.keep.click()
    assert page.fields[field].trouble.isVisible() or page.price.sentence.isVisible()
    assert page.vat.text() == vat


def test_a_second_price_asks_for_its_reason(costs, priced) -> None:
    costs.open_code(priced[1])
    page = costs.page.dish
    for price in ("9", "10"):
        page.price.set_text(price)
        page.keep.click()
    assert "needs a reason" in page.fields["reason"].trouble.text()
    page.reason.setText("new card")
    page.keep.click()
    assert costs.presenters["dish"].found.price_pence == 1_000


def test_a_sales_value_is_set_with_a_reason_and_the_third_picture_is_there(costs, roe_window) -> None:
    for product, price in (("haunch", "20"), ("loin", "42"), ("trim", "8"), ("topside", "25")):
        costs.show_page("values")
        values = costs.page.values
        values.table.choose_id(product)
        values.price.set_text(price)
        values.reason.setText("card of October")
        values.keep.click()
    costs.show_page("cost")
    costs.presenters["cost"].switch(3)
    assert costs.page.cost.picture.isVisible()
    assert sum(bar.pence or 0 for bar in costs.page.cost.picture.bars) == 8_000


def test_a_value_without_a_reason_is_refused_at_the_reason(costs) -> None:
    costs.show_page("values")
    values = costs.page.values
    values.table.choose_id("loin")
    values.price.set_text("42")
    values.keep.click()
    assert "needs a reason" in values.fields["reason"].trouble.text()


def test_trace_and_the_closed_block_lead_here_and_back(costs, roe_window, priced) -> None:
    roe_window.go("trace", priced[1])
    roe_window.station("trace").view.costs.click()
    assert roe_window.station("costs").isVisible()
    assert costs.page.choice.value() == "dish"
    costs.page.trace.click()
    assert roe_window.station("trace").isVisible()
    roe_window.go("pass")
    page = roe_window.station("pass").page.dishes
    page.table.choose_id(priced[1])
    page.price.click()
    assert roe_window.station("costs").isVisible()


def test_a_scan_opens_what_was_scanned(costs, roe_scan, priced) -> None:
    costs.show_page("cost")
    roe_scan(priced[1])
    assert costs.page.choice.value() == "dish"
    roe_scan(priced[0])
    assert costs.page.choice.value() == "cost"


@pytest.mark.parametrize("name", PAGES)
@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)])
def test_every_page_fits_a_hand_and_nothing_is_cut(costs, roe_window, fits_a_hand, name, size) -> None:
    roe_window.resize(*size)
    costs.show_page(name)
    roe_window.bench.errands.wait_idle()
    roe_window.grab()
    QApplication.processEvents()
    assert fits_a_hand(costs) == []


def test_an_empty_register_says_where_it_begins(qtbot, empty_register, tmp_path) -> None:
    from gametrace.desktop.app import build_window

    window = build_window(empty_register, papers=tmp_path)
    qtbot.addWidget(window)
    window.show()
    window.go("costs")
    assert "begins with a delivery" in " ".join(
        label.text() for label in window.station("costs").findChildren(QLabel) if label.isVisible()
    )


def bar(key: str, grams: int, pence: int | None, whole: int = 10_000, paid: int = 5_000) -> CutBar:
    share = None if pence is None else Fraction(pence, paid)
    return CutBar(key, key, True, grams, pence, Fraction(grams, whole), share)


def test_areas_are_money(qtbot, look) -> None:
    picture = AreaPicture(look)
    qtbot.addWidget(picture)
    picture.resize(900, 420)
    picture.set_bars([bar("loin", 2_000, 3_000), bar("neck", 8_000, 2_000)], Fraction(500))
    loin, neck = picture._spots()
    assert loin.width() * loin.height() / (neck.width() * neck.height()) == pytest.approx(1.5)
    picture.set_bars((), None)
    picture.grab()


def test_a_plot_without_medians_or_with_one_animal_is_drawn(qtbot, look) -> None:
    plot = YieldPlot(look)
    qtbot.addWidget(plot)
    plot.resize(900, 300)
    near = Published(Fraction(1, 4), Fraction(1, 3))
    plot.set_rows([YieldRow("haunch", Fraction(2, 5), (Fraction(2, 5),), None, (near,), True, "haunch")])
    plot.show()
    plot.grab()
    QTest.mouseClick(plot, Qt.MouseButton.LeftButton, pos=QPoint(400, 100))
    assert plot.accessibleDescription() == "haunch"


def test_joints_hold_all_that_came_off_them(roe_larder, priced) -> None:
    picture = questions.cost_picture(roe_larder.register, priced[0])
    joints = {one.name: one.grams for one in bars_of(picture, "weight", by_joint=True)}
    assert joints["haunch"] == 4_500  # topside and the whole right one; its bone lies with the bones
    assert joints["bone"] == 4_110
