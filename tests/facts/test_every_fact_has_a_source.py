"""Every entry of every facts file says where it comes from and how well it is known."""

from __future__ import annotations

from datetime import date
from importlib import resources

import pytest

from gametrace.facts import loading
from gametrace.facts.by_products import by_products, categories, document_fields, years_to_keep_papers
from gametrace.facts.cuts import products
from gametrace.facts.hanging import all_hanging_ranges
from gametrace.facts.loading import STANDINGS, BadFact, check_row, checked_rows, read_subject
from gametrace.facts.sources import citation, source, sources

SUBJECTS = (
    "allergens",
    "boar",
    "by_products",
    "conversions",
    "cooking",
    "costing",
    "cut_tree",
    "cuts",
    "examination",
    "exceptions",
    "hanging",
    "identification",
    "menu",
    "night",
    "origins",
    "papers",
    "retention",
    "recall",
    "sale",
    "seasons",
    "shelf_life",
    "species",
    "temperatures",
    "traceability",
    "weights",
    "yields",
)
TABLES = [(subject, table) for subject in SUBJECTS for table in read_subject(subject)]


def test_the_list_of_subjects_is_the_files_that_are_there() -> None:
    files = {path.name for path in resources.files("gametrace.facts").iterdir()}
    assert {name for name in files if name.endswith(".toml")} == {
        f"{subject}.toml" for subject in (*SUBJECTS, "sources")
    }


@pytest.mark.parametrize(("subject", "table"), TABLES)
def test_every_entry_has_a_known_source_and_standing(subject: str, table: str) -> None:
    rows = checked_rows(subject, table)
    assert rows
    known = {one.id for one in sources()}
    for row in rows:
        assert row["source"] in known
        assert row["status"] in STANDINGS
        assert isinstance(row["note"], str)


@pytest.mark.parametrize(("subject", "table"), TABLES)
def test_common_practice_is_claimed_from_nobody(subject: str, table: str) -> None:
    for row in checked_rows(subject, table):
        assert (row["source"] == "common-practice") == (row["status"] == "common practice"), row["id"]


@pytest.mark.parametrize(("subject", "table"), TABLES)
def test_what_was_read_has_an_address_where_it_was_read(subject: str, table: str) -> None:
    for row in checked_rows(subject, table):
        if row["status"] in ("seen", "seen-2", "part"):
            assert source(row["source"]).address.startswith("http"), row["id"]


@pytest.mark.parametrize(
    "spoilt",
    [
        {"id": "a", "status": "seen"},
        {"id": "a", "source": "nowhere", "status": "seen"},
        {"id": "a", "source": "common-practice", "status": "sure"},
        {"source": "common-practice", "status": "common practice"},
        {"id": "a", "source": "common-practice", "status": "common practice", "value": 1.5},
        {
            "id": "a",
            "source": "common-practice",
            "status": "common practice",
            "valid_from": date(2026, 1, 2),
            "valid_to": date(2026, 1, 1),
        },
    ],
)
def test_an_entry_without_a_source_a_standing_an_id_or_with_a_float_is_refused(
    spoilt: dict[str, object],
) -> None:
    with pytest.raises(BadFact):
        check_row(spoilt, "a test")


def test_an_id_used_twice_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    row = {"id": "a", "source": "common-practice", "status": "common practice"}
    whole = {"thing": [row, dict(row)]}
    real = loading.read_subject
    monkeypatch.setattr(loading, "read_subject", lambda name: whole if name == "x" else real(name))
    with pytest.raises(BadFact, match="twice"):
        checked_rows("x", "thing")


def test_sources_are_named_once_and_read_on_a_day() -> None:
    ids = [one.id for one in sources()]
    assert len(ids) == len(set(ids))
    for one in sources():
        assert one.title
        assert one.read_on == date(2026, 11, 25)
        assert one.note


def test_common_practice_says_that_it_has_no_source() -> None:
    assert citation("common-practice") == "common practice, no source"


def test_an_unknown_source_is_a_sentence_not_a_key_error() -> None:
    with pytest.raises(loading.UnknownFact, match="no source with the id 'nowhere'"):
        source("nowhere")


def test_no_source_is_held_that_nothing_rests_on() -> None:
    used = {row["source"] for subject, table in TABLES for row in checked_rows(subject, table)}
    assert {one.id for one in sources()} == used


def test_every_product_is_meat_or_has_a_category_of_by_product() -> None:
    for one in products():
        assert one.is_meat == (one.category == 0)
        assert one.is_meat == (one.level not in ("by-product", "waste"))


@pytest.mark.parametrize("group", ["large", "boar", "small"])
def test_every_group_has_meat_a_skin_and_waste(group: str) -> None:
    ids = {one.id for one in products(group)}
    assert {"trim", "skin", "head", "feet", "condemned", "shot-damage", "binned"} <= ids


# Regulation (EC) 1069/2009 Art.9 and 10: gut content is category 2, parts of fit animals category 3.
def test_gut_is_category_two_and_the_skin_of_a_fit_animal_category_three() -> None:
    by_id = {one.id: one.category for one in by_products()}
    assert by_id["gut"] == 2
    assert by_id["skin"] == 3
    assert {one.category for one in categories()} == {1, 2, 3}


# Regulation (EU) 142/2011 Annex VIII Ch. III: six things on the commercial document, kept two years.
def test_the_commercial_document_has_six_fields_and_is_kept_two_years() -> None:
    assert len(document_fields()) == 6
    assert years_to_keep_papers() == 2


# Countryside Alliance, hanging your game: red to 14 days at about 7 degrees, muntjac 3.
def test_hanging_days_are_kept_by_source_and_not_merged() -> None:
    red = [one for one in all_hanging_ranges() if "red" in one.species]
    assert len({one.source for one in red}) > 1
    assert max(one.high_days for one in red if one.source == "ca-hanging") == 14
