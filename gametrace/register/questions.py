"""Everything that can be asked, gathered: `questions.trace(register, "26-00417-E")`. Nothing here writes.

Each module is imported when its first question is asked: the window asks few of them at its start.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from gametrace.register.animal_file import animal_file, first_day_ready, open_claims, picture
    from gametrace.register.asking_round import gather, saved_sets
    from gametrace.register.backups import is_backed_up, last_backup, look_into
    from gametrace.register.balance_standing import balance_standing
    from gametrace.register.bins import bin_paper_count, bin_papers, bin_weeks, bins, bins_since
    from gametrace.register.block_lists import (
        block_view,
        cut_changes,
        cut_tree,
        open_sessions,
        roster,
        session,
        sessions,
    )
    from gametrace.register.butchers_test import butchers_test
    from gametrace.register.costs import cost, cost_picture
    from gametrace.register.day_page import day_page
    from gametrace.register.dish_costs import dish_cost
    from gametrace.register.drills import drill_book, running_drill
    from gametrace.register.expected_list import expected_deliveries, expected_match
    from gametrace.register.finding_things import find, named
    from gametrace.register.forgetting import kept_names
    from gametrace.register.handing_over import hand_over
    from gametrace.register.hanging import hanging_plans
    from gametrace.register.held_sets import held_sets
    from gametrace.register.hook_room import hook_forecast
    from gametrace.register.keeping import check
    from gametrace.register.label_stocks import label_stocks
    from gametrace.register.lists import (
        block_candidates,
        carcass,
        check_for_plate,
        deliveries,
        delivery_count,
        delivery_lines,
        dish_count,
        dishes,
        free_places,
        holds,
        in_the_house,
        larder,
        larder_view,
        lot,
        normal_code,
        on_declaration,
        open_blocks,
        people,
        places,
        stock,
        suppliers,
        to_finish,
        unplaced,
    )
    from gametrace.register.mixes import check_ingredient, ingredients
    from gametrace.register.money_figures import product_values
    from gametrace.register.nameless_bags import bag_candidates, decided_bags
    from gametrace.register.old_books import book_list
    from gametrace.register.own_figures import own_figures, policy_changes
    from gametrace.register.pack_dates import packing_date
    from gametrace.register.plate_lists import (
        check_for_business,
        customers,
        dish_file,
        issues,
        service_days,
        services,
        supplies,
        supply_note,
    )
    from gametrace.register.policies import policies
    from gametrace.register.pot import menu_check
    from gametrace.register.readiness import readiness
    from gametrace.register.recall_sheets import recall_sheet, recalls
    from gametrace.register.redating import redating
    from gametrace.register.seals import seal
    from gametrace.register.sheets import label_sheets
    from gametrace.register.small_papers import cutting_sheet, evidence_sheet
    from gametrace.register.stories import story
    from gametrace.register.striking import strikable, strikable_of
    from gametrace.register.supplier_book import approvals, scores
    from gametrace.register.today import setup_gaps, today, waiting
    from gametrace.register.tracing import trace
    from gametrace.register.visits import visit_sheet
    from gametrace.register.warm_times import episodes, last_readings, probes, temperatures
    from gametrace.register.yields import yield_of, yields

_WHERE = {
    "animal_file": ("animal_file", "first_day_ready", "open_claims", "picture"),
    "asking_round": ("gather", "saved_sets"),
    "held_sets": ("held_sets",),
    "backups": ("is_backed_up", "last_backup", "look_into"),
    "balance_standing": ("balance_standing",),
    "bins": ("bin_paper_count", "bin_papers", "bin_weeks", "bins", "bins_since"),
    "block_lists": (
        "block_view",
        "cut_changes",
        "cut_tree",
        "open_sessions",
        "roster",
        "session",
        "sessions",
    ),
    "day_page": ("day_page",),
    "drills": ("drill_book", "running_drill"),
    "expected_list": ("expected_deliveries", "expected_match"),
    "butchers_test": ("butchers_test",),
    "costs": ("cost", "cost_picture"),
    "dish_costs": ("dish_cost",),
    "finding_things": ("find", "named"),
    "forgetting": ("kept_names",),
    "handing_over": ("hand_over",),
    "hanging": ("hanging_plans",),
    "hook_room": ("hook_forecast",),
    "keeping": ("check",),
    "lists": (
        "block_candidates",
        "carcass",
        "check_for_plate",
        "deliveries",
        "delivery_count",
        "delivery_lines",
        "dish_count",
        "dishes",
        "free_places",
        "holds",
        "in_the_house",
        "larder",
        "larder_view",
        "lot",
        "normal_code",
        "on_declaration",
        "open_blocks",
        "people",
        "places",
        "stock",
        "suppliers",
        "to_finish",
        "unplaced",
    ),
    "mixes": ("check_ingredient", "ingredients"),
    "money_figures": ("product_values",),
    "old_books": ("book_list",),
    "nameless_bags": ("bag_candidates", "decided_bags"),
    "own_figures": ("own_figures", "policy_changes"),
    "pack_dates": ("packing_date",),
    "plate_lists": (
        "check_for_business",
        "customers",
        "dish_file",
        "issues",
        "service_days",
        "services",
        "supplies",
        "supply_note",
    ),
    "policies": ("policies",),
    "pot": ("menu_check",),
    "redating": ("redating",),
    "label_stocks": ("label_stocks",),
    "readiness": ("readiness",),
    "recall_sheets": ("recall_sheet", "recalls"),
    "seals": ("seal",),
    "sheets": ("label_sheets",),
    "small_papers": ("cutting_sheet", "evidence_sheet"),
    "stories": ("story",),
    "striking": ("strikable", "strikable_of"),
    "supplier_book": ("approvals", "scores"),
    "today": ("setup_gaps", "today", "waiting"),
    "tracing": ("trace",),
    "visits": ("visit_sheet",),
    "warm_times": ("episodes", "last_readings", "probes", "temperatures"),
    "yields": ("yield_of", "yields"),
}
_MODULE_OF = {name: module for module, names in _WHERE.items() for name in names}


def __getattr__(name: str) -> Any:
    if (module := _MODULE_OF.get(name)) is None:
        raise AttributeError(f"there is no question called {name}")
    return getattr(import_module(f"gametrace.register.{module}"), name)


__all__ = [
    "animal_file",
    "approvals",
    "bag_candidates",
    "balance_standing",
    "bin_paper_count",
    "bin_papers",
    "bin_weeks",
    "bins",
    "bins_since",
    "block_candidates",
    "block_view",
    "book_list",
    "butchers_test",
    "carcass",
    "check",
    "check_for_business",
    "check_for_plate",
    "check_ingredient",
    "cost",
    "cost_picture",
    "customers",
    "cut_changes",
    "cut_tree",
    "cutting_sheet",
    "day_page",
    "decided_bags",
    "deliveries",
    "delivery_count",
    "delivery_lines",
    "dish_cost",
    "dish_count",
    "dish_file",
    "dishes",
    "drill_book",
    "episodes",
    "evidence_sheet",
    "expected_deliveries",
    "expected_match",
    "find",
    "first_day_ready",
    "free_places",
    "gather",
    "hand_over",
    "hanging_plans",
    "holds",
    "hook_forecast",
    "in_the_house",
    "ingredients",
    "is_backed_up",
    "issues",
    "kept_names",
    "label_sheets",
    "label_stocks",
    "larder",
    "larder_view",
    "last_backup",
    "last_readings",
    "look_into",
    "lot",
    "menu_check",
    "named",
    "normal_code",
    "on_declaration",
    "open_blocks",
    "open_claims",
    "open_sessions",
    "own_figures",
    "packing_date",
    "people",
    "picture",
    "places",
    "policies",
    "policy_changes",
    "probes",
    "product_values",
    "readiness",
    "recall_sheet",
    "recalls",
    "redating",
    "roster",
    "running_drill",
    "held_sets",
    "saved_sets",
    "scores",
    "seal",
    "service_days",
    "services",
    "session",
    "sessions",
    "setup_gaps",
    "stock",
    "story",
    "strikable",
    "strikable_of",
    "suppliers",
    "supplies",
    "supply_note",
    "temperatures",
    "to_finish",
    "today",
    "trace",
    "unplaced",
    "visit_sheet",
    "waiting",
    "yield_of",
    "yields",
]
