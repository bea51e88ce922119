"""What the register answers with: frozen records, already worded where a person will read them.

No SQL, no Qt. Grams are integers, shares exact fractions, instants aware UTC, days dates.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction

from gametrace.domain.findings import Finding


@dataclass(frozen=True, slots=True)
class Changes:
    """What an act changed. `codes` are all lots touched, `created` the new ones, first one first."""

    seq: int
    kind: str  # entry kind, "delivery.received"
    codes: tuple[str, ...] = ()
    created: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    was_repeat: bool = False  # the same act was already in the journal: nothing was doubled

    @property
    def code(self) -> str:
        """The first thing created: the house number of a carcass, the code of a pack, of a person..."""
        return self.created[0]


@dataclass(frozen=True, slots=True)
class Larder:
    """Who keeps this register. All empty before the set-up."""

    name: str = ""
    address: str = ""
    registration_number: str = ""
    jurisdiction: str = ""
    is_practice: bool = False


@dataclass(frozen=True, slots=True)
class Person:
    code: str  # P001
    name: str  # 'forgotten' once the card is gone
    initials: str
    role: str  # tutor | technician | student | officer
    is_active: bool
    has_pin: bool = False


@dataclass(frozen=True, slots=True)
class Supplier:
    code: str  # S001
    name: str
    address: str
    phone: str
    route: str
    origin: str
    approval_number: str  # registration or approval
    trained_hunter: str
    certificate_number: str


@dataclass(frozen=True, slots=True)
class Place:
    code: str  # CH1, CH1.R1, CH1.R1.3, CH1.S2
    name: str  # 'Chill 1 · rail 1 · hook 3'
    kind: str  # store | rail | hook | shelf
    store: str
    sort: str  # chill | freezer


@dataclass(frozen=True, slots=True)
class Lot:
    """One lot as every list shows it."""

    code: str
    kind: str
    name: str  # 'fallow doe', 'haunch, left', 'mince'
    species: str  # id; '' where several
    state: str  # LotState word
    state_reason: str  # why it is stopped or out of date; '' otherwise
    grams: int  # left now
    grams_made: int  # at the start
    place: str  # code
    where: str  # words
    made_at: datetime
    made_by: str  # initials
    use_by: date | None = None
    date_rule: str = ""
    pack_state: str = ""
    portions: int = 0
    product: str = ""
    first_frozen_on: date | None = None  # its own, or of what it was made of
    thawed_on: date | None = None


@dataclass(frozen=True, slots=True)
class Redating:
    """What freezing, thawing, packing again or a date by hand would make of a date, before it is done."""

    code: str
    change: str  # freeze | thaw | repack | override
    was: date | None
    was_rule: str
    was_state: str
    now: date
    rule: str  # the rule with its source, or why the date is shorter
    state: str
    first_frozen_on: date | None = None
    thawed_on: date | None = None
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class Statement:
    """One line of a declaration: the legal words in short, and the answer read on the card."""

    words: str
    answer: str


@dataclass(frozen=True, slots=True)
class Carcass:
    """One animal or batch with its whole paper, as delivery, larder, trace and visit show it."""

    lot: Lot
    tag: str
    species: str
    species_name: str
    sex: str
    age_class: str  # proper name
    count: int
    origin: str
    origin_words: str
    route: str
    route_words: str
    supplier: Supplier
    received_at: datetime
    written_at: datetime
    dispatched_on: date | None
    killed_on: date | None
    kill_time: str
    kill_place: str
    has_declaration: bool
    declaration_number: str
    statements: tuple[Statement, ...]
    trained_person: str
    certificate_number: str
    approval_number: str
    inspection_notes: str
    readings: tuple[tuple[str, int], ...]
    grams_received: int
    basis_words: str  # as received
    supplier_grams: int | None
    pence_per_kg: int | None
    decision: str
    decision_reason: str
    received_by: str  # initials
    findings: tuple[Finding, ...]
    reasons: dict[str, str]
    evidence: str  # complete | n missing | lawfully absent, in words
    missing: tuple[str, ...]  # what is still to finish, in words
    in_skin: bool  # now
    basis_now: str
    number_on: str  # the tag the number hangs on now
    dressed_at: datetime | None
    days_hung: int | None  # whole days since the kill
    holds: tuple[Hold, ...]

    @property
    def code(self) -> str:
        return self.lot.code

    @property
    def killed_at(self) -> str:
        """'2026-11-12T07:40', or the day alone, or '' where not stated."""
        if self.killed_on is None:
            return ""
        day = self.killed_on.isoformat()
        return f"{day}T{self.kill_time}" if self.kill_time else day

    @property
    def title(self) -> str:
        """'fallow doe' or 'fallow pricket': what a cook would call it."""
        return self.lot.name


@dataclass(frozen=True, slots=True)
class Hold:
    id: int
    code: str  # the lot it was put on
    sort: str  # hold | rejected | specimen
    reason: str
    placed_by: str
    placed_at: datetime
    released_by: str = ""
    released_at: datetime | None = None
    release_reason: str = ""


@dataclass(frozen=True, slots=True)
class Hook:
    place: str
    number: int
    carcass: Carcass | None
    lot: Lot | None = None  # a side or part that hangs here instead of a whole animal


@dataclass(frozen=True, slots=True)
class Rail:
    code: str
    name: str
    hooks: tuple[Hook, ...]


@dataclass(frozen=True, slots=True)
class StoreView:
    """A store drawn: its rails with hooks, its shelves with lots."""

    code: str
    name: str
    sort: str
    rails: tuple[Rail, ...]
    shelves: tuple[tuple[Place, tuple[Lot, ...]], ...]


@dataclass(frozen=True, slots=True)
class TraceAnimal:
    code: str
    tag: str
    name: str
    species: str
    sex: str
    origin_type: str
    killed_at: str
    place: str
    supplier: str  # name
    supplier_address: str
    declaration: str  # number, or why there is none
    statements: tuple[Statement, ...]
    grams: int
    share: Fraction
    state: str


@dataclass(frozen=True, slots=True)
class TraceLot:
    """One lot on the way, back or forward. `grams_from` is what of it came from the traced thing."""

    code: str
    kind: str
    name: str
    grams: int
    grams_from: int
    state: str
    where: str
    when: datetime
    layer: int  # 0 animals, growing towards the plates
    detail: str = ""  # dish: service and portions; waste: reason


@dataclass(frozen=True, slots=True)
class TraceLink:
    parent: str
    child: str
    grams: int


@dataclass(frozen=True, slots=True)
class BalanceRow:
    words: str  # 'in stock', 'served', 'by-products', ...
    grams: int
    codes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Balance:
    received_grams: int
    accounted_grams: int
    unaccounted_grams: int
    rows: tuple[BalanceRow, ...]


@dataclass(frozen=True, slots=True)
class Trace:
    """The whole answer to 'where is this from' and 'where is the rest'."""

    code: str
    kind: str
    name: str
    state: str
    animals: tuple[TraceAnimal, ...]
    back: tuple[TraceLot, ...]  # between the animals and this
    forward: tuple[TraceLot, ...]
    links: tuple[TraceLink, ...]
    balance: Balance | None  # for an animal (or the animals of a supplier or tag)
    findings: tuple[Finding, ...]
    lot: Lot | None = None


@dataclass(frozen=True, slots=True)
class Hit:
    """One thing a search found."""

    code: str  # to be given to trace()
    kind: str  # a lot kind, or 'supplier'
    words: str  # 'fallow doe, tag 0417, killed 12 Nov 2026'


@dataclass(frozen=True, slots=True)
class Duty:
    """One sentence of the Today page with the one act it asks for."""

    when: str  # now | today | this week
    sentence: str
    station: str  # by its name, with a page of it where it has several: larder, examination/laboratory
    code: str = ""  # of a lot; of a store or a supplier where the act is about one
    act: str = ""  # the word of the act; '' for the station's usual one


@dataclass(frozen=True, slots=True)
class Waiting:
    """What waits at each station: count and words for the strip."""

    counts: dict[str, int]
    words: dict[str, str]


@dataclass(frozen=True, slots=True)
class Amendment:
    at: datetime
    by: str
    code: str
    field: str
    old: str
    new: str
    reason: str


@dataclass(frozen=True, slots=True)
class StoryLine:
    """One entry in a lot's life."""

    seq: int
    happened_at: datetime
    written_at: datetime
    by: str
    sentence: str
    is_late: bool


@dataclass(frozen=True, slots=True)
class Seal:
    """The head of the journal: how many entries, and the last one's seal."""

    count: int
    head: str


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """One label: the drawing decides nothing but where things go."""

    code: str
    sort: str  # carcass | pack | mix | frozen | thawed | dish | hold | by-product
    title: str  # 'Fallow doe', 'Haunch, left'
    lines: tuple[str, ...]  # most important first
    date_line: str = ""  # 'Use by 04 Dec 2026'
    warning: str = ""  # 'ON HOLD: ...', 'TEACHING SPECIMEN, NEVER TO A PLATE'
    frozen_on: str = ""  # the first freezing date, '05 Dec 2026', of what is frozen or was
    thawed_on: str = ""
    parents: tuple[tuple[str, int], ...] = ()  # of a mixed lot: what it was made of, code and grams of each
    copy: int = 1  # how often this label has been printed with this one
    larder: str = ""
    is_practice: bool = False
