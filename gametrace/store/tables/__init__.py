"""The shape of a register file. Declared with SQLModel, every column's type explicit, every table STRICT.

`entry` is the register; `name_card` and `pin` hold personal names and hashed PINs outside the
sealed entries. All other tables are a
reading aid played from the entries (store.projection) and can be thrown away. Rows never leave the store.

Units: grams, pence, tenths of a degree; instants as UTC text ('2026-11-25T09:53:45Z'), days as ISO text.
This module is only imported to create, rebuild or check a file: importing SQLModel costs a start-up dearly.
"""

from gametrace.store.tables import animals, house, journal, lots, plates, sessions, tracing
from gametrace.store.tables.base import metadata

KEPT_TABLES = ("entry", "name_card", "pin", "attachment")  # never rebuilt
READING_TABLES = tuple(table.name for table in metadata.sorted_tables if table.name not in KEPT_TABLES)

__all__ = [
    "KEPT_TABLES",
    "READING_TABLES",
    "animals",
    "house",
    "journal",
    "lots",
    "metadata",
    "plates",
    "sessions",
    "tracing",
]
