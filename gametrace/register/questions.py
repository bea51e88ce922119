"""Everything that can be asked, gathered: `questions.trace(register, "26-00417-E")`. Nothing here writes."""

from gametrace.register.animal_file import animal_file, first_day_ready, open_claims, picture
from gametrace.register.bins import bin_weeks, bins
from gametrace.register.cold_rooms import episodes, last_readings, probes, temperatures
from gametrace.register.finding_things import find
from gametrace.register.keeping import check
from gametrace.register.lists import (
    block_candidates,
    block_view,
    carcass,
    check_for_plate,
    deliveries,
    dishes,
    free_places,
    holds,
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
from gametrace.register.policies import policies
from gametrace.register.sheets import label_sheets
from gametrace.register.stories import story
from gametrace.register.supplier_book import approvals, scores
from gametrace.register.today import setup_gaps, today, waiting
from gametrace.register.tracing import trace
from gametrace.register.visits import seal, visit_sheet

__all__ = [
    "animal_file",
    "approvals",
    "bin_weeks",
    "bins",
    "block_candidates",
    "block_view",
    "carcass",
    "check",
    "check_for_plate",
    "deliveries",
    "dishes",
    "episodes",
    "find",
    "first_day_ready",
    "free_places",
    "holds",
    "label_sheets",
    "larder",
    "larder_view",
    "last_readings",
    "lot",
    "normal_code",
    "on_declaration",
    "open_blocks",
    "open_claims",
    "people",
    "picture",
    "places",
    "policies",
    "probes",
    "scores",
    "seal",
    "setup_gaps",
    "stock",
    "story",
    "suppliers",
    "temperatures",
    "to_finish",
    "today",
    "trace",
    "unplaced",
    "visit_sheet",
    "waiting",
]
