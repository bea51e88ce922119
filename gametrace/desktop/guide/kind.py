"""What goes between a delivery and the guide: the body as it lies there, the kind as it was named."""

from __future__ import annotations

from dataclasses import dataclass

GUIDE_KEY = "F8"  # there and back


@dataclass(frozen=True, slots=True)
class Kind:
    """Species, sex and age class by their ids; '' where nobody has said."""

    species: str = ""
    sex: str = ""
    age_class: str = ""


@dataclass(frozen=True, slots=True)
class Body:
    """What is known when the guide is opened."""

    kind: Kind = Kind()
    in_skin: bool = True
    head_on: bool = True
