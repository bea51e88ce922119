"""The kinds of entry that are not struck, each with what is done in its place, as its refusal says it.

Either a later entry of the same kind takes its place, or another kind ends it, or it must stay: what a second
person answered for, what is torn up, a code that may stand on paper. A test holds this table and that of
`undoing` against all kinds.
"""

from __future__ import annotations

STAYS: dict[str, str] = {
    **dict.fromkeys(
        ("larder.set", "policy.set", "covers.noted", "dish.menu", "dish.priced", "recall.stepped"),
        "Write it again: the newest counts, and both stay in the journal.",
    ),
    "carcass.amended": "Put the delivery right again: everything is ruled on again.",
    "weight.corrected": "Correct the weight again, with the reason.",
    "dish.changed": "Put the dish right again: what went in too, what did not.",
    "findings.answered": "Answer it again: the newest reason counts.",
    "supplier.added": "Put the supplier right in the supplier book.",
    "supplier.amended": "Put the supplier right in the supplier book.",
    "cut.changed": "Change the cut again, or put it back as it was.",
    "person.enrolled": "Let the person go: a code that was given out stays given out.",
    "roster.added": "Let the code go: one that was given out stays given out.",
    **dict.fromkeys(
        ("person.forgotten", "card.forgotten", "roster.forgotten"),
        "The card is torn up and cannot come back. Enrol or add them anew.",
    ),
    "pin.set": "Change the PIN, or take it away.",
    **dict.fromkeys(("pin.cleared", "pin.lifted"), "Set a PIN again."),
    **dict.fromkeys(
        ("store.added", "probe.added", "customer.added"),
        "Its code may stand on paper by now. Leave it unused and add the right one.",
    ),
    "session.opened": "Close the session, and say why.",
    "session.closed": "Open a new one.",
    "delivery.expected": "Cancel it, and say why.",
    "expected.cancelled": "Write it down again as expected.",
    **dict.fromkeys(
        ("hold.released", "set.released"),
        "What a second person answered for stays in the story. Put it on hold again.",
    ),
    "set.saved": "It changes nothing. Save the right one.",
    "recall.opened": "Close it, and say that it was a mistake; its holds are lifted by a second person.",
    "recall.called": "Ring again: the later call stands beside it.",
    "recall.closed": "Open a new one.",
    "drill.begun": "A drill is what it was. Run another.",
    "drill.ended": "A drill is what it was. Run another.",
    "backup.kept": "The copy was made. Make another.",
    "entry.struck": "Do again what was struck: both stay in the story.",
}
