"""Everything a person can do, gathered: `acts.receive_delivery(register, by=..., ...)`.

This and `questions` are the public Python interface: a script can do the whole job with them and no window.
"""

from gametrace.domain.ingredients import Ingredient
from gametrace.domain.menu_claims import Claim
from gametrace.register.asking_round import Step, hold_set, save_set
from gametrace.register.backups import keep_backup, restore
from gametrace.register.bins import collect_by_products
from gametrace.register.block import Out, close_lot, weigh_out
from gametrace.register.claims import raise_claim, settle_claim
from gametrace.register.cold_rooms import (
    add_probe,
    answer_episode,
    check_probe,
    import_readings,
    store_failed,
    take_round,
)
from gametrace.register.cooking_records import (
    note_ingredients,
    record_cooking,
    record_cooling,
    record_hot_hold,
    record_reheat,
)
from gametrace.register.copying import OldRow, copy_old_records
from gametrace.register.cut_names import change_cut
from gametrace.register.delivery import (
    AMENDABLE,
    amend_carcass,
    answer_finding,
    preview_delivery,
    receive_delivery,
)
from gametrace.register.dressing import TagHandOver, dress_carcass
from gametrace.register.drills import begin_drill, end_drill
from gametrace.register.examining import (
    Mark,
    attach_picture,
    decide_again,
    examine_carcass,
    preview_examination,
    record_call,
    record_result,
)
from gametrace.register.expecting import cancel_expected, expect_delivery, tick_expected
from gametrace.register.forgetting import forget_card
from gametrace.register.freezing import freeze_lot, override_date, repack, thaw_lot
from gametrace.register.held_sets import release_set
from gametrace.register.keeping import back_up, rebuild
from gametrace.register.label_stocks import drop_label_stock, keep_label_stock
from gametrace.register.larder import (
    correct_weight,
    hold_lot,
    move_lot,
    release_hold,
    reweigh,
)
from gametrace.register.left_overs import bin_left_over, keep_left_over
from gametrace.register.menu_saying import write_menu_line
from gametrace.register.mixes import Other, make_mix
from gametrace.register.nameless_bags import decide_bag
from gametrace.register.packing import pack_many
from gametrace.register.pins import clear_pin, lift_pin, set_pin, sign_in, sign_out
from gametrace.register.plates import dispose, make_dish, note_labels_printed
from gametrace.register.policies import set_policy
from gametrace.register.pricing_acts import price_dish
from gametrace.register.recalls import answer_step, close_recall, note_call, open_recall
from gametrace.register.roster import add_to_roster, forget_student
from gametrace.register.servings import note_covers, serve_dish
from gametrace.register.sessions import close_session, lay_on_table, open_session
from gametrace.register.setup import add_store, enrol_person, forget_person, set_up_larder
from gametrace.register.striking import strike_entry
from gametrace.register.substitutions import change_dish
from gametrace.register.supplier_book import add_supplier, amend_supplier
from gametrace.register.supplying import add_customer, issue_lot, supply_lot

__all__ = [
    "AMENDABLE",
    "Claim",
    "Ingredient",
    "Mark",
    "Other",
    "OldRow",
    "Out",
    "Step",
    "TagHandOver",
    "add_customer",
    "add_probe",
    "add_store",
    "add_supplier",
    "add_to_roster",
    "amend_carcass",
    "amend_supplier",
    "answer_episode",
    "answer_finding",
    "answer_step",
    "attach_picture",
    "back_up",
    "begin_drill",
    "cancel_expected",
    "change_cut",
    "bin_left_over",
    "change_dish",
    "check_probe",
    "clear_pin",
    "close_lot",
    "close_session",
    "close_recall",
    "collect_by_products",
    "copy_old_records",
    "correct_weight",
    "decide_again",
    "decide_bag",
    "dispose",
    "dress_carcass",
    "drop_label_stock",
    "end_drill",
    "enrol_person",
    "examine_carcass",
    "expect_delivery",
    "forget_card",
    "forget_person",
    "forget_student",
    "freeze_lot",
    "hold_lot",
    "hold_set",
    "import_readings",
    "keep_backup",
    "lay_on_table",
    "lift_pin",
    "issue_lot",
    "keep_left_over",
    "keep_label_stock",
    "make_dish",
    "make_mix",
    "move_lot",
    "note_covers",
    "note_ingredients",
    "note_labels_printed",
    "open_session",
    "override_date",
    "pack_many",
    "note_call",
    "open_recall",
    "preview_delivery",
    "preview_examination",
    "price_dish",
    "raise_claim",
    "rebuild",
    "receive_delivery",
    "record_call",
    "record_cooking",
    "record_cooling",
    "record_hot_hold",
    "record_reheat",
    "record_result",
    "release_hold",
    "repack",
    "restore",
    "reweigh",
    "serve_dish",
    "set_pin",
    "release_set",
    "save_set",
    "set_policy",
    "set_up_larder",
    "settle_claim",
    "sign_in",
    "sign_out",
    "store_failed",
    "supply_lot",
    "strike_entry",
    "take_round",
    "thaw_lot",
    "tick_expected",
    "weigh_out",
    "write_menu_line",
]
