"""What the pass answers with: a dish and all that happened to it, a day's services, issues, supplies."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from gametrace.domain.findings import Finding
from gametrace.domain.ingredients import Ingredient
from gametrace.domain.menu_claims import AnimalInPot, Claim, ClaimRuling
from gametrace.register.records import Lot

Fields = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class KitchenRecord:
    """One temperature with its time, as it was ruled on when it was written down."""

    seq: int
    sort: str  # cooking | hot hold | cooling | reheat
    at: datetime
    by: str
    tenths_c: int
    seconds: int
    probe: str
    meat: str
    note: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Serving:
    """Portions that went out, when and to whom."""

    code: str  # of the dish
    at: datetime
    by: str
    portions: int
    to_group: str


@dataclass(frozen=True, slots=True)
class LeftOver:
    """Portions that came back: to stock with a new date, or to waste."""

    code: str
    portions: int
    grams: int
    is_waste: bool
    use_by: date | None
    date_rule: str
    note: str
    at: datetime


@dataclass(frozen=True, slots=True)
class DishInput:
    """What went in, as it stands now, and how much of it."""

    lot: Lot
    grams: int
    is_cooked: bool  # left over from another dish


@dataclass(frozen=True, slots=True)
class DishChange:
    """One substitution, in a sentence."""

    at: datetime
    by: str
    sentence: str


@dataclass(frozen=True, slots=True)
class MenuCheck:
    """What may be said on the menu, what may not and why, for each animal in the pot."""

    animals: tuple[AnimalInPot, ...]
    rulings: tuple[ClaimRuling, ...]
    line: str  # only what is shown
    advice: tuple[Finding, ...]  # the food authority's on lead, where it is lead or unknown
    left_out: tuple[AnimalInPot, ...] = ()  # animals that the dish's name does not name


@dataclass(frozen=True, slots=True)
class DishFile:
    """A dish and everything that happened to it."""

    lot: Lot
    occasion_kind: str
    occasion: str
    on: date
    portions: int
    inputs: tuple[DishInput, ...]
    records: tuple[KitchenRecord, ...]
    servings: tuple[Serving, ...]
    left_overs: tuple[LeftOver, ...]
    ingredients: tuple[Ingredient, ...]
    allergens: str  # 'Contains: milk. Not known for: rusk.'
    changes: tuple[DishChange, ...]
    claims: tuple[Claim, ...]
    menu_line: str
    why_not: str  # why it may not be served now; '' where nothing speaks against it

    @property
    def served(self) -> int:
        return sum(one.portions for one in self.servings)

    @property
    def here(self) -> int:
        """Portions neither served nor written down as left over."""
        return self.portions - self.served - sum(one.portions for one in self.left_overs)


@dataclass(frozen=True, slots=True)
class DishLine:
    """A dish in a day's list."""

    code: str
    name: str
    portions: int
    served: int
    left_over: int
    state: str
    allergens: str


@dataclass(frozen=True, slots=True)
class Issue:
    """Meat handed out without a dish. `pence` is what its code is charged: the cost by the kitchen's own way
    of spreading, or None where it is not known."""

    code: str
    from_code: str
    name: str
    grams: int
    sort: str  # class | restaurant
    charged_to: str
    on: date
    purpose: str
    by: str
    pence: int | None = None


@dataclass(frozen=True, slots=True)
class Occasion:
    """One service or class of a day: covers, dishes, what went out when, what was issued to it."""

    kind: str
    name: str
    on: date
    covers: int | None
    note: str
    dishes: tuple[DishLine, ...]
    servings: tuple[Serving, ...]
    issues: tuple[Issue, ...]


@dataclass(frozen=True, slots=True)
class Customer:
    code: str  # C001
    name: str
    address: str
    phone: str
    registration: str


@dataclass(frozen=True, slots=True)
class Supply:
    """One lot that left for another business: Regulation 931/2011's eight fields in the law's order."""

    code: str
    from_code: str
    customer: Customer
    dispatched_on: date
    grams: int
    fields: Fields
    by: str


@dataclass(frozen=True, slots=True)
class SupplyNote:
    """What is printed and handed over: one consignment, a line a lot."""

    reference: str  # the first lot's code
    supplies: tuple[Supply, ...]
