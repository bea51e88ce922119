"""From the block to the plate and to its money, in the window: mince of three, why the loin costs so."""

from __future__ import annotations

from fractions import Fraction

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from gametrace.register import questions

ENTER = Qt.Key.Key_Return
BEASTS = ((16_000, 320, 2_417), (17_200, 295, 3_081), (15_010, 450, 1_003))  # grams, pence a kilo, trim


def test_mince_of_three_beasts_becomes_a_dish_exact_to_the_penny_and_the_gram(
    roe_larder, roe_window, roe_scan, keys
):
    beasts, trims = [], []
    for grams, price, trim in BEASTS:
        beasts.append(roe_larder.dressed(grams, pence_per_kg=price))
        trims.append(roe_larder.weigh(beasts[-1], "trim", trim))
    keys(Qt.Key.Key_F3)
    block = roe_window.station("block")
    block.page.choosing.mix.click()
    for code in trims:
        roe_scan(code)
    block.page.mixing.grams.select()
    keys("6.441", ENTER, ENTER)  # 60 g stayed in the mincer
    mince = block.presenter.packing.lot.code
    pack = roe_larder.pack(mince, "mince", 4_000)
    roe_window.go("pass")
    roe_window.station("pass").on_scan(pack)
    dish = roe_window.station("pass").page.dish
    dish.name.inner.setFocus()
    keys("Cottage pie", ENTER, "Friday", ENTER, ENTER, "17", ENTER, ENTER)
    (pie,) = questions.dishes(roe_larder.register)

    found = questions.dish_cost(roe_larder.register, pie.code)
    trimmed = sum(trim for _, _, trim in BEASTS)
    assert {one.code: one.share for one in found.animals} == {
        code: Fraction(trim, trimmed) for code, (_, _, trim) in zip(beasts, BEASTS, strict=True)
    }
    assert sum(one.pence for one in found.animals) == found.food_pence
    assert sum(one.grams for one in questions.trace(roe_larder.register, pie.code).animals) == 4_000

    roe_window.go("costs", pie.code)
    shown = roe_window.station("costs").page.dish
    pounds = f"£{found.food_pence // 100}.{found.food_pence % 100:02d}"
    QApplication.processEvents()
    assert any(pounds in words for words in _words(shown))


def _words(page) -> list[str]:
    from PySide6.QtWidgets import QLabel

    return [one.text() for one in page.findChildren(QLabel) if one.isVisible()]


def test_from_the_list_of_what_may_be_cut_to_the_picture_of_what_the_loin_costs(roe_larder, roe_window, keys):
    beast = roe_larder.dressed(pence_per_kg=500)
    roe_larder.weigh(beast, "loin", 1_200)
    roe_larder.weigh(beast, "haunch", 5_000)
    keys(Qt.Key.Key_F3)
    choosing = roe_window.station("block").page.choosing
    choosing.table.choose_id(beast)
    choosing.costs.setFocus()
    keys(" ")
    costs = roe_window.station("costs")
    assert costs.isVisible()
    assert costs.presenters["cost"].code == beast
    costs.page.cost.detail.choose("cut")
    costs.page.cost.picture.setFocus()
    keys("2")
    assert costs.page.cost.picture.bars[0].name == "loin"
    assert sum(bar.pence for bar in costs.page.cost.picture.bars) == 8_000


def test_two_cutters_of_one_beast_stand_side_by_side_on_the_page_of_yields(roe_larder, roe_window):
    acts, register, by = roe_larder.acts, roe_larder.register, roe_larder.tutor
    acts.add_to_roster(register, by=by, names=("", ""))
    session = acts.open_session(register, by=by).created[0]
    beast = roe_larder.dressed()
    halves = {side: roe_larder.weigh(beast, f"{side}-side", 6_400, side=side) for side in ("left", "right")}
    for at, (side, half) in enumerate(halves.items(), 1):
        acts.lay_on_table(register, by=by, session=session, station=f"table {at}", code=half)
        outs = [acts.Out("haunch", 2_400 + 100 * at, side), acts.Out("shoulder", 1_500, side)]
        acts.weigh_out(register, by=by, code=half, outputs=outs, cutter=f"R00{at}")
    roe_window.go("costs", beast)
    costs = roe_window.station("costs")
    costs.page.choice.choose("yields")
    roe_window.bench.errands.wait_idle()
    QApplication.processEvents()
    costs.page.yields.mode.choose("sides")
    QTest.keyClick(costs.page.yields.sides, Qt.Key.Key_Home)
    rows = {row.name: row for row in costs.page.yields.sides.rows}
    assert set(rows) == {"haunch", "shoulder"}
    assert rows["haunch"].grams == (2_500, 2_600)
    assert rows["haunch"].who == ("R001", "R002")
