"""Everything a person can do, gathered: `acts.receive_delivery(register, by=..., ...)`.

This and `questions` are the public Python interface: a script can do the whole job with them and no window.
"""

from gametrace.register.block import Out, close_lot, make_mix, weigh_out
from gametrace.register.delivery import (
    AMENDABLE,
    amend_carcass,
    answer_finding,
    preview_delivery,
    receive_delivery,
)
from gametrace.register.keeping import back_up, rebuild
from gametrace.register.larder import (
    TagHandOver,
    correct_weight,
    dress_carcass,
    hold_lot,
    move_lot,
    release_hold,
    reweigh,
)
from gametrace.register.plates import dispose, make_dish, note_labels_printed
from gametrace.register.setup import add_store, add_supplier, enrol_person, forget_person, set_up_larder

__all__ = [
    "AMENDABLE", "Out", "TagHandOver", "add_store", "add_supplier", "amend_carcass", "answer_finding",
    "back_up", "close_lot", "correct_weight", "dispose", "dress_carcass", "enrol_person", "forget_person",
    "hold_lot", "make_dish", "make_mix", "move_lot", "note_labels_printed", "preview_delivery", "rebuild",
    "receive_delivery", "release_hold", "reweigh", "set_up_larder", "weigh_out",
]
