"""The kitchen's own cut tree, laid over the facts with a reason and taken back again."""

from __future__ import annotations

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.facts.cut_tree import tree_for
from gametrace.register import acts, questions


def change(house: House, cut: str, **given):
    given = {"reason": "as we teach it", "by": house.tutor, "species": "fallow", **given}
    return acts.change_cut(house.reg, cut=cut, **given)


def test_a_cut_gets_the_kitchen_s_name_in_the_tree_and_on_the_next_tray(house: House) -> None:
    beast = house.dressed()
    before = house.out(beast, acts.Out("rump", 800, side="left"))[0]
    change(house, "rump", name="top rump end", synonyms=["Popes eye", "popes eye"])
    found = questions.cut_tree(house.reg, "fallow").find("rump")
    assert (found.name, found.synonyms) == ("top rump end", ("popes eye",))
    after = house.out(beast, acts.Out("rump", 800, side="right"))[0]
    assert questions.lot(house.reg, after).name == "top rump end, right"
    assert questions.lot(house.reg, before).name == "rump, left"  # what was written stays
    assert questions.cut_tree(house.reg, "roe") == tree_for("roe")  # of one kind only
    assert tree_for("fallow").find("rump").name == "rump"
    assert questions.cut_changes(house.reg, "fallow")[0].by == "IM"


def test_a_cut_moves_to_another_joint_or_is_not_cut_here_and_is_taken_back(house: House) -> None:
    change(house, "chump", parent="haunch")
    tree = questions.cut_tree(house.reg, "fallow")
    assert "chump" in [one.id for one in tree.find("haunch").parts]
    assert "chump" not in [one.id for one in tree.find("saddle").parts]
    change(house, "chump", left_out=True)
    assert questions.cut_tree(house.reg, "fallow").find("chump") is None
    change(house, "chump", as_before=True)
    assert questions.cut_tree(house.reg, "fallow") == tree_for("fallow")
    assert questions.cut_changes(house.reg, "fallow") == ()
    acts.rebuild(house.reg)
    assert questions.check(house.reg) == ()


@pytest.mark.parametrize(
    ("given", "match"),
    [
        ({"cut": "rump", "name": "x1", "reason": " "}, "needs a reason"),
        ({"cut": "rump"}, "Nothing would change"),
        ({"cut": "rump", "as_before": True}, "Nothing of this cut"),
        ({"cut": "antler", "name": "horn"}, "not a cut of this animal"),
        ({"cut": "haunch", "parent": "rump"}, "cannot be what haunch is cut from"),
        ({"cut": "rump", "name": "Saddle"}, "Another cut is called"),
        ({"cut": "rump", "name": "x1", "species": "unicorn"}, "unicorn"),
        ({"cut": "rump", "name": "x1", "by": "P003"}, "may not do this"),
    ],
)
def test_a_change_that_cannot_be_is_refused_and_changes_nothing(
    house: House, given: dict, match: str
) -> None:
    with pytest.raises(Refusal, match=match):
        change(house, **given)
    assert questions.cut_changes(house.reg, "fallow") == ()
