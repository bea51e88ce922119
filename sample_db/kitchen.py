"""The kitchen's side: trim of several animals to mince, dishes for services and classes, what is binned."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from gametrace.domain.dates import rule_for
from gametrace.register import acts
from gametrace.register.acts import Out
from sample_db.house import House, Pack

_BIRDS = frozenset({"pheasant", "red-legged-partridge", "grey-partridge", "woodpigeon"})


@dataclass(frozen=True, slots=True)
class Plate:
    """A dish of the menu: what it is made of and the raw grams of a portion."""

    name: str
    products: frozenset[str]
    portion_grams: int
    species: frozenset[str] = frozenset()  # empty: any

    def takes(self, pack: Pack) -> bool:
        return pack.product in self.products and (not self.species or pack.species in self.species)


def _plate(name: str, products: str, portion_grams: int, *species: str) -> Plate:
    return Plate(name, frozenset(products.split()), portion_grams, frozenset(species))


_MENU = (
    _plate("Roast haunch, juniper and red cabbage", "haunch topside silverside rump", 190),
    _plate("Pot-roast thick flank with barley", "thick-flank silverside", 190),
    _plate("Topside steak, pepper and watercress", "topside rump", 170),
    _plate("Loin, beetroot and blackberry", "loin fillet", 150),
    _plate("Roast saddle, carved at the pass", "saddle", 290),
    _plate("Braised shoulder with hand-cut noodles", "dice neck-fillet", 170),
    _plate("Steamed game pudding", "dice neck-fillet", 160),
    _plate("Braised shanks and pearl onions", "hind-shank fore-shank", 340),
    _plate("Cottage pie of the moor", "mince", 150),
    _plate("Burgers, pickled walnut", "mince", 160),
    _plate("Dark game stock", "stock-bones", 240),
    _plate("Pheasant breast with cider and leeks", "bird-breast", 170, "pheasant"),
    _plate(
        "Partridge breast, pear and chestnut", "bird-breast", 130, "red-legged-partridge", "grey-partridge"
    ),
    _plate("Pigeon breast salad", "bird-breast", 110, "woodpigeon"),
    _plate("Roast whole bird, bread sauce", "whole-oven-ready", 350, *sorted(_BIRDS)),
    _plate("Leg hash on toast", "bird-leg", 130, *sorted(_BIRDS)),
    _plate("Rabbit in mustard", "ground-game-saddle ground-game-hind-leg", 230, "rabbit"),
    _plate("Potted rabbit", "ground-game-fore-leg", 90, "rabbit"),
    _plate("Game-bird liver parfait", "liver", 40),
)
_STORY_DAYS = 60
_LOOSE_MINCE_GRAMS = 4_500
_BAG_GRAMS = 2_500
# The one dish of its name, so that a search finds it.
THREE_DEER = _plate("Three-deer cottage pie", "mince", 150)
_SERVICES = {2: "Restaurant lunch", 3: "Restaurant dinner", 4: "Restaurant dinner"}
_CLASSES = {1: "Level 2 game cookery, group B", 3: "Level 3 game cookery, group A"}


def bin_what_is_past(house: House) -> None:
    """The morning look along the shelves. Nothing past its date stays for the next service."""
    for pack in [one for one in house.stock if one.use_by < house.today]:
        house.do(
            acts.dispose,
            by=house.rng.choice(("joss", "maud")),
            code=pack.code,
            product="binned",
            reason=house.rng.choice(("Past its date, found at the back of the shelf.", "Past its date.")),
        )
        house.stock.remove(pack)
    for tray in [one for one in house.trims if (house.today - one.cut_on).days > 3]:
        house.do(acts.dispose, by="joss", code=tray.code, product="binned", reason="Trim kept too long.")
        house.trims.remove(tray)


def mince(house: House) -> None:
    """Trim of up to four animals to one mince, the grams of each written down."""
    most = 3 if _wants_its_pie(house) else 4
    animals = list(dict.fromkeys(tray.animal for tray in house.trims))[:most]
    oldest = min((tray.cut_on for tray in house.trims), default=house.today)
    can_wait = oldest > house.today - timedelta(days=2) and _works_tomorrow(house)
    if not animals or (can_wait and len(animals) < house.rng.choice((2, 3))):
        return
    taken = [tray for tray in house.trims if tray.animal in animals]
    total = sum(tray.grams for tray in taken)
    made = total - house.rng.choice((0, 10, 20, 30, 45))
    by = house.student()
    mix = house.do(
        acts.make_mix,
        by=by,
        product="mince",
        inputs=[(tray.code, tray.grams) for tray in taken],
        grams=made,
        place="C2.S1",
    ).code
    house.trims = [tray for tray in house.trims if tray not in taken]
    packed = _pack_mince(house, by, mix, made)
    house.animals_in |= dict.fromkeys(packed, len(animals))
    house.do(acts.note_labels_printed, by=by, codes=packed, sort="pack")


def _pack_mince(house: House, by: str, mix: str, grams: int) -> list[str]:
    """What the next day can use stays loose; the rest is frozen in bags at once, since mince has one day."""
    loose = min(grams, _LOOSE_MINCE_GRAMS) if _works_tomorrow(house) else 0
    if loose and grams - loose < 500:
        loose = grams
    bags = [_BAG_GRAMS] * ((grams - loose) // _BAG_GRAMS)
    if rest := grams - loose - sum(bags):
        bags.append(rest)
    outs = [Out("mince", bag, place="F3.S3", pack_state="frozen", is_pack=True) for bag in bags]
    if loose:
        outs.append(Out("mince", loose, place="C2.S1", pack_state="chilled-loose", is_pack=True))
    made = house.do(acts.weigh_out, by=by, code=mix, outputs=outs).created
    for code, out in zip(made, outs, strict=True):
        use_by = rule_for(out.pack_state, is_mince=True).last_day(house.today)
        house.stock.append(Pack(code, "mince", "", out.grams, use_by, out.pack_state))
    return list(made)


def _works_tomorrow(house: House) -> bool:
    return house.terms.is_open(house.today + timedelta(days=1)) and house.today < house.terms.last_day


def cook(house: House) -> None:
    """The day's dishes: more of them when the chill is full, the nearest date first."""
    weekday = house.today.weekday()
    is_term = house.terms.is_open(house.today)
    occasions = [("service", _SERVICES.get(weekday, "")), ("class", _CLASSES.get(weekday, ""))]
    for kind, occasion in occasions:
        if occasion and is_term:
            for _ in range(1 + min(3, house.chilled_grams // 18_000)):
                _cook_one(house, kind, occasion)

    if is_term:
        _use_up(house)


def _use_up(house: House) -> None:
    """A staff lunch from what would be past its date before the next working day."""
    last_chance = house.terms.open_on_or_after(house.today + timedelta(days=1))
    for _ in range(8):
        if any(not one.is_forgotten and one.use_by < last_chance for one in house.stock):
            _cook_one(house, "service", "Staff lunch")


def forget_one(house: House) -> None:
    """One pack with the last day as its date slips behind the others, for the next morning to find."""
    due = [one for one in house.stock if one.use_by == house.terms.last_day and one.state == "vacuum"]
    for pack in due[:1]:
        pack.is_forgotten = True
        house.marks["past its date"] = pack.code


def _cook_one(house: House, kind: str, occasion: str) -> None:
    ready = sorted(
        (one for one in house.stock if not one.is_forgotten and one.use_by >= house.today),
        key=lambda one: (one.use_by, one.code),
    )
    if not ready:
        return
    plate = house.rng.choice([plate for plate in _MENU if plate.takes(ready[0])])
    usable = [one for one in ready if plate.takes(one)]
    thirds = _minces_of_three(house, ready)
    if thirds:
        plate, usable = THREE_DEER, thirds[:1]
    most = house.rng.choice((24, 30, 36, 48) if kind == "service" else (8, 10, 12))
    inputs = _take(house, usable, most * plate.portion_grams)
    grams = sum(weight for _, weight in inputs)
    code = house.do(
        acts.make_dish,
        by=house.rng.choice(("maud", "anand", house.student())),
        name=plate.name,
        occasion_kind=kind,
        occasion=occasion,
        on=house.today,
        portions=max(1, grams // plate.portion_grams),
        inputs=inputs,
    ).code
    house.do(acts.note_labels_printed, by="joss", codes=[code], sort="dish")
    if thirds:
        house.marks["mince of three"], house.marks["three-deer pie"] = thirds[0].code, code


def _minces_of_three(house: House, ready: list[Pack]) -> list[Pack]:
    """Mince of exactly three animals, where the story still wants its one dish of it."""
    if not _wants_its_pie(house):
        return []
    return [pack for pack in ready if house.animals_in.get(pack.code) == 3]


def _wants_its_pie(house: House) -> bool:
    return "three-deer pie" not in house.marks and (house.terms.last_day - house.today).days <= _STORY_DAYS


def _take(house: House, packs: list[Pack], wanted: int) -> list[tuple[str, int]]:
    """Whole packs until the pot is full, the last one opened for what is still wanted."""
    taken: list[tuple[str, int]] = []
    for pack in packs:
        if wanted <= 0:
            break
        if pack.state == "frozen":
            _thaw(house, pack)
        grams = pack.grams if pack.grams <= wanted + 150 else wanted
        taken.append((pack.code, grams))
        wanted -= grams
        pack.grams -= grams
        if not pack.grams:
            house.stock.remove(pack)
    return taken


def _thaw(house: House, pack: Pack) -> None:
    """Into the chill under running water in the morning: what is not cooked has one day."""
    house.do(
        acts.thaw_lot,
        by=house.rng.choice(("joss", "anand")),
        code=pack.code,
        method="cold-running-water",
        place="C2.S2",
    )
    pack.state = "thawed"
    pack.use_by = min(pack.use_by, rule_for("thawed", is_mince=False).last_day(house.today))
