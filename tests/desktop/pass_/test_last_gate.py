"""The last gate on the roads of the window: scan, search, button, what leaves; a test a road and reason."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt

from gametrace.domain.deliveries import Basis, Decision
from gametrace.register import acts, questions

ENTER = Qt.Key.Key_Return
OUT_OF_SKIN = Basis(in_skin=False, head_on=False, feet_on=False, pluck_in=False)


def held(larder) -> tuple[str, str]:
    code = larder.pack(larder.dressed(), "steak", 1_200)
    acts.hold_lot(larder.register, by=larder.tutor, code=code, reason="bag has blown")
    return code, "bag has blown"


def rejected(larder) -> tuple[str, str]:
    animal = larder.dressed()
    code = larder.pack(animal, "steak", 1_200)
    acts.decide_again(
        larder.register, by=larder.tutor, code=animal, decision=Decision.REJECT, reason="green at the bone"
    )
    return code, "green at the bone"


def specimen(larder) -> tuple[str, str]:
    animal = larder.in_skin(basis=OUT_OF_SKIN, decision=Decision.SPECIMEN, decision_reason="for the class")
    return larder.pack(animal, "steak", 1_200), "teaching specimen"


def past(larder) -> tuple[str, str]:
    code = larder.pack(larder.dressed(), "steak", 1_200, "chilled-loose")
    larder.later(days=5)
    return code, "past its date"


def boar(larder) -> tuple[str, str]:
    given = {"species": "wild-boar", "age_class": "boar", "basis": OUT_OF_SKIN}
    code = larder.in_skin(60_000, **given)
    return code, "waiting for the laboratory"


REASONS = [held, rejected, specimen, past, boar]


@pytest.fixture
def station(roe_larder, roe_window):
    roe_larder.pack(roe_larder.dressed(), "loin", 500)
    roe_window.go("pass")
    return roe_window.station("pass")


def nothing_went_in(station, code: str) -> bool:
    return code not in [lot for lot, _ in station.page.dish.going_in.taken_or_less()]


@pytest.mark.parametrize("reason", REASONS)
def test_a_scan_is_refused(roe_larder, station, roe_scan, reason: Callable) -> None:
    code, words = reason(roe_larder)
    roe_scan(code)
    assert words in station.page.dish.loud.text()
    assert nothing_went_in(station, code)


@pytest.mark.parametrize("reason", REASONS)
def test_the_search_of_the_stock_is_refused(roe_larder, station, keys, reason: Callable) -> None:
    code, words = reason(roe_larder)
    station.reload()
    station.presenter.show_page("stock")
    station.page.stock.search.setFocus()
    keys(code, ENTER)
    said = f"{station.page.dish.loud.text()} {station.page.stock.why.text()}"
    is_listed = any(one.code == code for one in questions.stock(roe_larder.register))
    assert (words in said) == is_listed  # a boar is no pack: the search does not even find it
    assert nothing_went_in(station, code)


@pytest.mark.parametrize("reason", REASONS)
def test_the_button_is_refused(roe_larder, station, reason: Callable) -> None:
    code, words = reason(roe_larder)
    station.reload()
    station.presenter.show_page("stock")
    station.page.stock.table.choose_id(code)
    if station.page.stock.current_code() == code:
        assert not station.page.stock.add.isEnabled()
        assert words in station.page.stock.why.text()
    station.page.stock.add_wanted.emit(code)
    assert words in station.page.dish.loud.text()
    assert nothing_went_in(station, code)


@pytest.mark.parametrize("reason", REASONS)
def test_what_leaves_without_a_dish_is_refused_too(roe_larder, station, reason: Callable) -> None:
    code, words = reason(roe_larder)
    station.presenter.show_page("handing")
    page = station.page.page_of("handing")
    for to in ("class", "business"):
        page.form.to.choose(to)
        station.on_scan(code)
        assert words in page.loud.text()
    assert page.going.taken() == []


def test_a_species_the_name_denies_is_refused_under_the_name(roe_larder, station) -> None:
    code = roe_larder.pack(roe_larder.dressed(), "steak", 1_200)
    station.on_scan(code)
    dish = station.page.dish
    dish.name.inner.setText("Fallow steak")
    dish.occasion.inner.setText("Friday")
    dish.portions.inner.set_text("4")
    dish.make.click()
    assert "is roe" in dish.name.trouble.text()
    assert questions.dishes(roe_larder.register) == ()
