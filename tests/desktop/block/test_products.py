"""The block's own words for products: found by typing, laid on the beast."""

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtWidgets import QApplication

from gametrace.desktop.block.beast import Beast, beast_paths
from gametrace.desktop.block.products import (
    GROUPS,
    PARTS,
    Found,
    Weighed,
    catalogue,
    product_of_part,
)
from gametrace.domain.cut_changes import CutChange, kitchen_tree


@pytest.mark.parametrize(
    ("typed", "product", "side"),
    [
        ("haunch l", "haunch", "left"),
        ("haun right", "haunch", "right"),
        ("trim", "trim", ""),
        ("bone", "bone", ""),
        ("flank", "flank", ""),
        ("HIND sh", "hind-shank", ""),
        ("leg r", "haunch", "right"),
        ("backstrap l", "loin", "left"),
        ("best end", "rack", ""),
        ("scrag", "neck", ""),
    ],
)
def test_a_few_letters_or_another_name_find_the_product_and_its_side(typed, product, side):
    """The other names are those of the facts' cut tree, its sources beside it."""
    found = catalogue("fallow").find(typed)
    assert (found.offers[0].id, found.side) == (product, side)


def test_the_state_may_be_typed_last():
    found = catalogue("fallow").find("haunch l boneless")
    assert (found.offers[0].id, found.side, found.state) == ("haunch", "left", "boneless")
    assert catalogue("fallow").find("boneless").offers[0].id == "boneless"


def test_the_kitchen_s_own_tree_is_what_is_offered():
    changes = [
        CutChange("rump", "as taught", "IM", name="point end", synonyms=("popes eye",)),
        CutChange("chump", "as taught", "IM", parent="haunch"),
        CutChange("feather", "never", "IM", left_out=True),
    ]
    own = catalogue("fallow", kitchen_tree("fallow", changes))
    assert own.get("rump").name == "point end"
    assert own.find("popes").offers[0].id == "rump"
    assert "chump" in [one.id for one in own.with_parts("haunch")]
    assert own.get("feather") is None
    assert catalogue("fallow").get("feather") is not None


def test_words_that_mean_nothing_find_nothing():
    assert catalogue("fallow").find("quux") == Found()
    assert catalogue("fallow").find("   ") == Found()


def test_every_offer_stands_in_a_group_that_has_a_button():
    groups = {group for group, _ in GROUPS}
    for species in ("roe", "pheasant", "wild-boar", ""):
        assert {one.group for one in catalogue(species).offers} <= groups


def test_an_animal_has_two_of_a_joint_and_one_of_trim():
    assert catalogue("roe").get("haunch").is_paired
    assert catalogue("roe").get("loin").is_paired
    assert not catalogue("roe").get("saddle").is_paired
    assert not catalogue("roe").get("trim").is_paired
    assert not catalogue("roe").get("bone").is_paired


def test_a_weighed_joint_fills_its_side_and_one_without_a_side_fills_both():
    parts = catalogue("roe").weighed(
        [("haunch", "left"), ("saddle", ""), ("skin", ""), ("loin", "right"), ("something", "")]
    )
    assert parts["left"] == Weighed(frozenset({"haunch", "shank-hind", "saddle"}), frozenset())
    assert parts["right"] == Weighed(frozenset({"saddle"}), frozenset({"saddle"}))


def test_a_whole_side_fills_that_side_of_the_beast():
    parts = catalogue("roe").weighed([("left-side", "")])
    assert parts["left"].whole == frozenset(PARTS)
    assert parts["right"].whole == frozenset()


def test_every_part_of_the_drawing_is_a_product_of_the_facts():
    assert set(PARTS) <= set(beast_paths())
    for part in PARTS:
        assert catalogue("roe").get(product_of_part(part)) is not None


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
