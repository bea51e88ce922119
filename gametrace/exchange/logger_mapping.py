"""How a logger's columns are to be read: what a kitchen sets once and keeps for each make of logger."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields

from gametrace.domain.errors import Refusal
from gametrace.exchange.logger_times import TimeFormat, zone_called

DELIMITERS = (";", "\t", ",", "|")
_MOST_COLUMNS = 1000
_SET_AGAIN = "Set the columns again with the file in front of you."
_KINDS: dict[str, tuple[type, ...]] = {
    "delimiter": (str, type(None)),
    "header_rows": (int,),
    "time_column": (int,),
    "date_column": (int, type(None)),
    "temperature_column": (int,),
    "time_format": (str, type(None)),
    "time_zone": (str,),
    "decimal": (str, type(None)),
    "unit": (str,),
    "day_first": (bool,),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggerMapping:
    """Columns count from nought. None means: found out anew from each file.

    With a `date_column`, `time_column` holds the time of day only; `time_format` is written as for one
    cell all the same. Where the file itself states an offset from UTC, `time_zone` is not asked.
    """

    time_column: int
    temperature_column: int
    date_column: int | None = None
    header_rows: int = 1  # lines, blank ones too, before the first reading
    delimiter: str | None = None
    time_format: str | None = None  # if None, among the declared formats, by `day_first`
    time_zone: str = "Europe/London"
    decimal: str | None = None  # if None, a point and a comma are read alike
    unit: str = "C"
    day_first: bool = True

    def __post_init__(self) -> None:
        for name, kinds in _KINDS.items():
            value = getattr(self, name)
            if not isinstance(value, kinds) or (isinstance(value, bool) and bool not in kinds):
                raise _not_so(name)
        for name in ("time_column", "temperature_column", "date_column", "header_rows"):
            if not 0 <= (getattr(self, name) or 0) < _MOST_COLUMNS:
                raise _not_so(name)
        if self.temperature_column in (self.time_column, self.date_column):
            raise Refusal(
                "Time and temperature cannot stand in one column.", _SET_AGAIN, "temperature_column"
            )
        if self.date_column == self.time_column:
            raise Refusal(
                "Date and time of day cannot both be the same column.",
                "If one column holds both, leave the date column out.",
                "date_column",
            )
        if self.delimiter not in (None, *DELIMITERS):
            raise _not_so("delimiter")
        if self.decimal not in (None, ".", ","):
            raise _not_so("decimal")
        if self.unit not in ("C", "F"):
            raise _not_so("unit")
        zone_called(self.time_zone)
        if self.time_format is not None:
            TimeFormat(self.time_format)

    def to_dict(self) -> dict[str, str | int | bool | None]:
        """As plain values for the settings."""
        return asdict(self)

    @classmethod
    def from_dict(cls, kept: Mapping[str, object]) -> LoggerMapping:
        """From the settings. Unknown names are passed over; what is missing takes its usual value."""
        known = {field.name: kept[field.name] for field in fields(cls) if field.name in kept}
        for name in ("time_column", "temperature_column"):
            if name not in known:
                raise _not_so(name)
        return cls(**known)  # type: ignore[arg-type]  # kinds are looked at in __post_init__


def _not_so(name: str) -> Refusal:
    return Refusal(f"The {name.replace('_', ' ')} of the logger's columns is not usable.", _SET_AGAIN, name)
