"""How a carcass of each kind comes apart."""

from __future__ import annotations

import pytest

from gametrace.facts import UnknownFact
from gametrace.facts.cut_tree import (
    cut_called,
    parts_under,
    product_words,
    sided,
    state,
    states,
    synonyms,
    tree_for,
)
from gametrace.facts.cuts import product, products
from gametrace.facts.loading import checked_rows
from gametrace.facts.species import all_species


def test_every_meat_product_has_its_place_in_a_tree() -> None:
    placed = {row["id"] for row in checked_rows("cut_tree", "cut")}
    made_in_the_kitchen = {one.id for one in products() if one.is_meat and not one.groups}
    assert made_in_the_kitchen == {"cured", "stock"}
    assert placed == {one.id for one in products() if one.is_meat} - made_in_the_kitchen


@pytest.mark.parametrize("kind", [one.id for one in all_species()])
def test_every_kind_has_a_tree_whose_cuts_are_products_of_its_group(kind: str) -> None:
    cuts = list(tree_for(kind).walk())[1:]
    assert cuts
    for cut in cuts:
        assert product(cut.id).is_meat
        assert cut.name


# Scottish best-practice guide, butchering: haunch, saddle, shoulder, neck, breast; topside, silverside and
# thick flank from the haunch, loin and fillet from the saddle, blade and shank from the shoulder.
def test_a_deer_comes_apart_as_the_butchering_guide_has_it() -> None:
    tree = tree_for("fallow")
    assert {"haunch", "saddle", "shoulder", "neck", "breast"} <= {part.id for part in tree.parts}
    assert {"topside", "silverside", "thick-flank", "hind-shank"} <= set(parts_under("haunch", "fallow"))
    assert {"loin", "fillet", "noisettes"} <= set(parts_under("saddle", "fallow"))
    assert {"blade", "fore-shank", "rolled-shoulder"} <= set(parts_under("shoulder", "fallow"))
    assert "topside" not in parts_under("saddle", "fallow")


def test_a_split_side_holds_the_same_joints_and_no_loose_things() -> None:
    under = set(parts_under("left-side", "red"))
    assert {"haunch", "topside", "saddle", "loin", "neck"} <= under
    assert not {"trim", "heart", "boneless", "right-side", "stock-bones"} & under


# Common practice, no source: the smallest deer have muscles too small to part.
def test_small_deer_are_cut_into_fewer_muscles() -> None:
    assert "salmon-cut" in parts_under("haunch", "red")
    assert "salmon-cut" not in parts_under("haunch", "muntjac")
    assert "rump" not in parts_under("haunch", "chinese-water-deer")


def test_birds_and_ground_game_do_not_share_a_tree() -> None:
    bird = {one.id for one in tree_for("pheasant").walk()}
    rabbit = {one.id for one in tree_for("rabbit").walk()}
    assert {"crown", "bird-breast", "bird-leg"} <= bird
    assert not {"crown", "bird-breast"} & rabbit
    assert {"ground-game-saddle", "ground-game-hind-leg"} <= rabbit


def test_boar_alone_has_a_belly_and_a_cheek() -> None:
    assert {"belly", "cheek"} <= {one.id for one in tree_for("wild-boar").walk()}
    assert not {"belly", "cheek"} & {one.id for one in tree_for("red").walk()}


@pytest.mark.parametrize(
    ("words", "kind", "meant"),
    [
        ("leg", "roe", "haunch"),
        ("leg", "pheasant", "bird-leg"),
        ("leg", "rabbit", "ground-game-hind-leg"),
        ("Knuckle", "red", "thick-flank"),
        ("tenderloin", "fallow", "fillet"),
        ("best end", "roe", "rack"),
        ("thick flank", "sika", "thick-flank"),
        ("flank", "sika", "flank"),
        ("jowl", "wild-boar", "cheek"),
    ],
)
def test_another_name_finds_the_cut_of_that_animal(words: str, kind: str, meant: str) -> None:
    assert cut_called(words, kind).id == meant


def test_a_name_of_several_cuts_lists_them_all() -> None:
    assert {"haunch", "bird-leg", "ground-game-hind-leg"} == set(synonyms()["leg"])


@pytest.mark.parametrize("kind", [one.id for one in all_species()])
def test_no_name_means_two_cuts_of_one_animal(kind: str) -> None:
    meant: dict[str, set[str]] = {}
    for one in tree_for(kind).walk():
        for word in {one.name.lower(), *one.synonyms}:
            meant.setdefault(word, set()).add(one.id)
    assert {word: ids for word, ids in meant.items() if len(ids) > 1} == {}


@pytest.mark.parametrize("nonsense", ["", "fin", "x" * 5_000, "‮"])
def test_an_unknown_cut_is_a_sentence(nonsense: str) -> None:
    with pytest.raises(UnknownFact, match="no cut called") as caught:
        cut_called(nonsense, "red")
    assert len(caught.value.sentence) < 1_500
    with pytest.raises(UnknownFact):
        parts_under("fin")


def test_left_and_right_are_parts_of_their_own() -> None:
    haunch, neck = cut_called("haunch", "red"), cut_called("neck", "red")
    assert sided(haunch) == ("left", "right")
    assert sided(neck) == ()
    assert product_words("haunch", "boneless", "left") == "left haunch, boneless"
    assert product_words("left-side", "bone in", "left") == "left side, bone in"
    with pytest.raises(UnknownFact, match="no side called"):
        product_words("haunch", "", "middle")


def test_a_state_goes_one_way_only() -> None:
    order = [one.id for one in states()]
    assert order == ["bone-in", "boneless", "diced", "minced", "cured", "cooked"]
    for one in states():
        assert all(order.index(later) > order.index(one.id) for later in one.may_become)
    assert state("minced").is_mince
    with pytest.raises(UnknownFact, match="no state of a cut"):
        state("frozen")
