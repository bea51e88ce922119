"""The block's own words for products: found by typing, laid on the beast."""

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtWidgets import QApplication

from gametrace.desktop.block.beast import Beast, beast_paths
from gametrace.desktop.block.products import (
    GROUPS,
    PARTS,
    Weighed,
    find,
    offer_of,
    offers,
    product_of_part,
    weighed_parts,
)


@pytest.mark.parametrize(
    ("typed", "product", "side"),
    [
        ("haunch l", "haunch", "left"),
        ("haun right", "haunch", "right"),
        ("trim", "trim", ""),
        ("bone", "bone", ""),
        ("flank", "flank", ""),
        ("HIND sh", "hind-shank", ""),
    ],
)
def test_a_few_letters_find_the_product_and_its_side(typed, product, side):
    found, told = find("fallow", typed)
    assert (found[0].id, told) == (product, side)


def test_words_that_mean_nothing_find_nothing():
    assert find("fallow", "quux") == ((), "")
    assert find("fallow", "   ") == ((), "")


def test_every_offer_stands_in_a_group_that_has_a_button():
    groups = {group for group, _ in GROUPS}
    for species in ("roe", "pheasant", "wild-boar", ""):
        assert {one.group for one in offers(species)} <= groups


def test_an_animal_has_two_of_a_joint_and_one_of_trim():
    assert offer_of("roe", "haunch").is_paired
    assert offer_of("roe", "loin").is_paired
    assert not offer_of("roe", "saddle").is_paired
    assert not offer_of("roe", "trim").is_paired
    assert not offer_of("roe", "bone").is_paired


def test_a_weighed_joint_fills_its_side_and_one_without_a_side_fills_both():
    parts = weighed_parts("roe", ["haunch, left", "saddle", "skin", "loin, right", "something else"])
    assert parts["left"] == Weighed(frozenset({"haunch", "shank-hind", "saddle"}), frozenset())
    assert parts["right"] == Weighed(frozenset({"saddle"}), frozenset({"saddle"}))


def test_a_whole_side_fills_that_side_of_the_beast():
    parts = weighed_parts("roe", ["left side"])
    assert parts["left"].whole == frozenset(PARTS)
    assert parts["right"].whole == frozenset()


def test_every_part_of_the_drawing_is_a_product_of_the_facts():
    assert set(PARTS) <= set(beast_paths())
    for part in PARTS:
        assert offer_of("roe", product_of_part(part)) is not None


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_press_on_a_part_picks_it_whichever_way_the_beast_faces(qtbot, look, side):
    beast = Beast(look)
    qtbot.addWidget(beast)
    beast.resize(300, 280)
    beast.show_side(side, Weighed(frozenset(), frozenset()))
    for part in ("neck", "shoulder", "saddle", "haunch"):
        assert beast.part_at(beast.centre_of(part)) == part
    assert (beast.centre_of("haunch").x() > beast.centre_of("neck").x()) == (side == "left")
    assert beast.part_at(QPointF(-500, -500)) == ""


def test_the_beast_paints_in_every_state_without_a_word_from_qt(qtbot, look):
    beast = Beast(look)
    qtbot.addWidget(beast)
    beast.show_side("right", Weighed(frozenset({"haunch"}), frozenset({"saddle"})), "shoulder")
    beast.show()
    beast.setFocus()
    QApplication.processEvents()
    assert not beast.grab().isNull()
    assert "haunch" in beast.accessibleDescription()
