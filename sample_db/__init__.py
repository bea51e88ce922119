"""An invented larder with two invented years, for practice and for tests. README.md tells its story.

Everything is made through the public acts with a stepped clock, from one seed and one last day. Nobody and
nothing in it exists; no figure in it is a measurement.
"""

from datetime import date

SEED = 417
LAST_DAY = date(2026, 11, 24)  # the last day anything is written in the built file
