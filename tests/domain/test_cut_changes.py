"""A kitchen's own changes to the cut tree."""

from __future__ import annotations

import pytest

from gametrace.domain.cut_changes import CutChange, kitchen_tree
from gametrace.domain.errors import Refusal
from gametrace.facts.cut_tree import tree_for

WHY = {"reason": "We cut it so", "by": "tutor"}


def test_a_cut_is_renamed_moved_and_left_out_and_the_facts_stay() -> None:
    before = tree_for("roe")
    tree = kitchen_tree(
        "roe",
        [
            CutChange("topside", name="inside", synonyms=("cushion",), **WHY),
            CutChange("chump", parent="haunch", **WHY),
            CutChange("riblets", left_out=True, **WHY),
        ],
    )
    topside, haunch = tree.find("topside"), tree.find("haunch")
    assert topside is not None
    assert (topside.name, "cushion" in topside.synonyms) == ("inside", True)
    assert haunch is not None
    assert haunch.find("chump") is not None
    saddle = tree.find("saddle")
    assert saddle is not None
    assert saddle.find("chump") is None
    assert tree.find("riblets") is None
    assert tree_for("roe") == before


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (CutChange("topside", reason=" ", by="tutor", name="x"), "a reason and a name"),
        (CutChange("topside", reason="so", by="", name="x"), "a reason and a name"),
        (CutChange("crown", left_out=True, **WHY), "not a cut of this animal"),
        (CutChange("carcass", left_out=True, **WHY), "not a cut of this animal"),
        (CutChange("haunch", parent="topside", **WHY), "cannot be what"),
        (CutChange("haunch", parent="haunch", **WHY), "cannot be what"),
        (CutChange("haunch", parent="fin", **WHY), "cannot be what"),
    ],
)
def test_a_change_without_reason_or_sense_is_refused(change: CutChange, words: str) -> None:
    with pytest.raises(Refusal, match=words):
        kitchen_tree("red", [change])
