"""Who may do what: one table, by kind of entry. `work.perform` holds every act to it, whoever calls.

A student learns the work and does it; what takes a stop away, changes what is on record without a trace on
the scale, or changes how the register itself is set up, is for those who answer for the larder. An officer
looks and changes nothing.
"""

from __future__ import annotations

ROLES = ("tutor", "technician", "student", "officer")
TUTOR = frozenset({"tutor"})
KEEPERS = frozenset({"tutor", "technician"})
WORKERS = frozenset({"tutor", "technician", "student"})

MAY: dict[str, frozenset[str]] = {
    # how the register is set up
    "larder.set": KEEPERS,
    "person.enrolled": KEEPERS,
    "person.forgotten": TUTOR,
    "card.forgotten": TUTOR,
    "pin.set": WORKERS,  # their own; another's only a tutor's hand takes away (people.py)
    "pin.cleared": WORKERS,
    "pin.lifted": TUTOR,  # and whoever has the file, under no name (pins.lift_pin)
    "supplier.added": WORKERS,  # whoever stands at the door when a new one comes
    "supplier.amended": KEEPERS,
    "store.added": KEEPERS,
    "probe.added": KEEPERS,
    "policy.set": KEEPERS,
    "backup.kept": WORKERS,
    "customer.added": WORKERS,
    "roster.added": KEEPERS,
    "roster.forgotten": KEEPERS,
    "cut.changed": KEEPERS,
    "session.opened": KEEPERS,
    "session.laid": WORKERS,
    "session.closed": KEEPERS,
    # the door and the table
    "delivery.expected": WORKERS,
    "expected.arrived": WORKERS,
    "expected.cancelled": WORKERS,
    "delivery.received": WORKERS,
    "carcass.amended": WORKERS,
    "carcass.dressed": WORKERS,
    "carcass.examined": WORKERS,
    "carcass.decided": WORKERS,
    "findings.answered": WORKERS,
    "call.recorded": WORKERS,
    "picture.attached": WORKERS,
    "claim.raised": WORKERS,
    "claim.settled": KEEPERS,
    "laboratory.answered": KEEPERS,
    # the larder, the block, the pass
    "lot.moved": WORKERS,
    "lot.weighed": WORKERS,
    "lot.divided": WORKERS,
    "lot.closed": WORKERS,
    "lots.joined": WORKERS,
    "labels.printed": WORKERS,
    "lot.frozen": WORKERS,
    "lot.thawed": WORKERS,
    "lot.repacked": WORKERS,
    "date.overridden": TUTOR,
    "kitchen.recorded": WORKERS,
    "dish.ingredients": WORKERS,
    "dish.menu": WORKERS,
    "dish.priced": KEEPERS,
    "dish.served": WORKERS,
    "dish.changed": WORKERS,
    "dish.left-over": WORKERS,
    "covers.noted": WORKERS,
    "lots.issued": WORKERS,
    "lots.supplied": WORKERS,
    "weight.corrected": KEEPERS,
    "hold.placed": WORKERS,  # anybody who doubts may stop
    "hold.released": KEEPERS,
    "entry.struck": KEEPERS,
    # looking for it again
    "set.saved": WORKERS,
    "set.held": WORKERS,
    "set.released": KEEPERS,
    "bag.decided": KEEPERS,
    "recall.opened": WORKERS,  # whoever hears of it first
    "recall.called": WORKERS,
    "recall.stepped": WORKERS,
    "recall.closed": KEEPERS,
    "drill.begun": WORKERS,
    "drill.ended": WORKERS,
    # the cold
    "probe.checked": WORKERS,
    "round.taken": WORKERS,
    "readings.imported": WORKERS,
    "store.failed": WORKERS,  # whoever finds a warm store stops what is in it
    "excursion.answered": KEEPERS,
    "by-products.collected": WORKERS,
}


def who_may(kind: str) -> tuple[str, ...]:
    """The roles that may write this kind of entry, those who answer for it first."""
    return tuple(role for role in ROLES if role in MAY[kind])
