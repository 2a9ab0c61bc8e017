"""How much of what mends a ration: amounts found by laying the table again."""

from collections.abc import Callable, Iterable
from datetime import date, timedelta

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Remedy
from cuttlebone.diet.need import calcium_window, phase
from cuttlebone.diet.ration import CA_NET, STAPLES, is_food, read_ration
from cuttlebone.diet.table import Table, table_of
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import Enclosure, Offer, Store
from cuttlebone.home.view import EnclosureView
from cuttlebone.nature.growth import longest_out_h, spoils_like

Good = Callable[[Table], bool]
Offers = tuple[Offer, ...]

GREENS = ("kale", "carrot", "romaine")  # what is advised, the first that suits
LEAF, EGG = 0.08, 0.1  # a helping of leaves or egg food over the birds' mass: our choice


def helping_g(view: EnclosureView, share: float = LEAF) -> float:
    """A helping for the company, in whole grams: a share of their mass, at least a gram a bird.

    The same wherever fresh food is advised, so that one answer never names two amounts of one food.
    """
    return float(max(len(view.birds), round(share * _mass_g(view))))


def _mass_g(view: EnclosureView) -> float:
    return sum(b.mass_g or facts.species(b.species).number("mass_g") for b in view.birds)


def fresh_out_h(view: EnclosureView, food_id: str) -> float:
    """How long a wet food may stay in this room; where its warmth is not known, as long as in a hot one. [h]"""
    known = [t for t in (view.room.temp_day_c, view.room.temp_max_c) if t is not None] if view.room else []
    if not known:
        return facts.rule("hygiene.wet_food_hot").number
    return max(0.25, longest_out_h(max(known), spoils_like(facts.food(food_id))))


def _amount(grams: float) -> float:
    """An amount that can be weighed, and written in a home file."""
    return min(max(0.1, round(grams, 2)), 20_000.0)


def with_grams_a_day(offers: Offers, food_id: str, grams_d: float, out_h: float | None = None) -> Offers:
    """The offers with this much of a food a day in place of what is given of it now; new wet food comes out again in time."""
    old = next((o for o in offers if is_food(o, food_id)), None)
    times = old.per_week if old and old.per_week else 7.0
    if old:
        new = old.but(grams_g=_amount(grams_d * 7 / times), per_week=times)
    else:
        wet = facts.food(food_id).flag("wet")
        new = Offer(
            food=food_id,
            grams_g=_amount(grams_d),
            per_week=times,
            out_h=out_h if wet else None,
            washed=True if wet else None,
        )
    return (*(o for o in offers if not is_food(o, food_id)), new)


def minerals_a_week(offers: Offers, food_id: str, grams_week: float) -> Offers:
    """The offers with this much of a mineral a week, always on hand."""
    kept = tuple(o for o in offers if not is_food(o, food_id))
    clean = True if food_id == "eggshell" else None
    return (*kept, Offer(food=food_id, grams_g=_amount(grams_week), per_week=1, always=True, sterilised=clean))


def blended(offers: Offers, food_id: str, share: float) -> Offers:
    """The offers with a dry food making up this share of the staples; the others give way to it."""
    staples = [
        o
        for o in offers
        if (f := facts.known_food(o.food))
        and f.text("kind") in STAPLES
        and f.id != food_id
        and o.grams_g
        and o.per_week
    ]
    grams_d = sum((o.grams_g or 0) * (o.per_week or 0) / 7 for o in offers if o in staples or is_food(o, food_id))
    less = {id(o): o.but(grams_g=_amount((o.grams_g or 0) * (1 - share) * grams_d / _grams(staples))) for o in staples}
    kept = tuple(less.get(id(o), o) for o in offers if not is_food(o, food_id))
    return (*kept, Offer(food=food_id, grams_g=_amount(grams_d * share), per_week=7))


def _grams(offers: list[Offer]) -> float:
    return sum((o.grams_g or 0) * (o.per_week or 0) / 7 for o in offers) or 1.0


def change_to(view: EnclosureView, make: Callable[[Offers], Offers]) -> Change:
    """Change the ration of this enclosure."""

    def changed(e: Enclosure) -> Enclosure:
        new: Enclosure = e.but(ration=make(e.ration or ()))
        return new

    return change.enclosure_by(view.enclosure.id, changed)


def least(
    view: EnclosureView, make: Callable[[Offers, float], Offers], good: Good, *, most: float, step: float
) -> float | None:
    """The least amount, in whole steps, with which the table is good; None if none up to `most` will do."""
    now, offers = table_of(view), view.enclosure.ration or ()

    def does(steps: int) -> bool:
        return good(Table(read_ration(make(offers, steps * step)), now.needs, now.temp_c))

    high = max(1, round(most / step))
    if not does(high):
        return next((n * step for n in range(1, high) if does(n)), None) if high <= 40 else None
    low = 0
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if does(middle) else (middle, high)
    return high * step


def stocked(view: EnclosureView, food_id: str, grams: float) -> Change:
    """Buy this much of a food, if the stores are told and hold none."""
    stores = view.home.stores
    if stores is None or any((f := facts.known_food(s.item)) and f.id == food_id for s in stores):
        return lambda home: home
    new = Store(id=f"{food_id.replace('_', '-')}-new", item=food_id, amount_g=grams, opened=view.today,
                best_before=view.today + timedelta(days=365), closed_dry=True)  # fmt: skip
    return change.store(new)


def given_g(view: EnclosureView, food_id: str) -> float:
    """Grams of a food given a day now; 0 where it is not given, or how much is not known."""
    return sum(p.grams_d or 0 for p in table_of(view).ration.parts if p.food.id == food_id)


def _first_good(
    view: EnclosureView, make: Callable[[Offers, float], Offers], good: Good, amounts: Iterable[float]
) -> float | None:
    """The first of some amounts with which the table is good."""
    now, offers = table_of(view), view.enclosure.ration or ()
    return next((g for g in amounts if good(Table(read_ration(make(offers, g)), now.needs, now.temp_c))), None)


def fresh_daily(view: EnclosureView, food_id: str, grams: float | None = None) -> Remedy:
    """Give a green or vegetable daily: a helping, or as much as is said."""
    amount, out = grams or helping_g(view), fresh_out_h(view, food_id)
    return Remedy(
        id=f"more-{food_id.replace('_', '-')}",
        title=f"Give {view.say(amount, 'g')} of washed {facts.food(food_id).name.lower()} a day to the company, and take it out again in time.",
        change=change_to(view, lambda o: with_grams_a_day(_daily(o, food_id), food_id, amount, out)),
        cost=Cost(0.5, 2), effort=Effort.A_HABIT,
    )  # fmt: skip


def green_for(view: EnclosureView) -> str:
    """Kale, unless a helping of it brings more calcium than these birds bear beside what they have: then a carrot or lettuce."""
    now, offers, high = table_of(view), view.enclosure.ration or (), calcium_window(view.birds).high

    def borne(food_id: str) -> bool:
        table = Table(read_ration(with_grams_a_day(offers, food_id, helping_g(view))), now.needs, now.temp_c)
        return high is None or table.pct(CA_NET).low <= high.number

    if now.ration.untold or not now.mass_g:
        return GREENS[0]
    return next((food for food in GREENS if borne(food)), GREENS[0])


def greens_daily(view: EnclosureView) -> Remedy:
    """A helping of greens a day, or as much as there is already."""
    food = green_for(view)
    return fresh_daily(view, food, max(helping_g(view), round(given_g(view, food))))


def _daily(offers: Offers, food_id: str) -> Offers:
    return tuple(o.but(per_week=7.0) if is_food(o, food_id) else o for o in offers)


def more_fresh(view: EnclosureView, food_id: str, good: Good) -> tuple[Remedy, ...]:
    """Give a green or vegetable daily, a helping or a good one; nothing if an amount a bird would eat does not do it."""
    now, out = given_g(view, food_id), fresh_out_h(view, food_id)
    amounts = [g for g in dict.fromkeys((helping_g(view), helping_g(view, EGG))) if g > now]
    grams = _first_good(view, lambda o, g: with_grams_a_day(o, food_id, g, out), good, amounts)
    return (fresh_daily(view, food_id, grams),) if grams is not None else ()


def egg_helping(view: EnclosureView, grams: float | None = None, times: float = 3.0) -> Remedy:
    """Give egg food so often, a helping each time, in place of what egg is given now."""
    amount, out = grams or helping_g(view, EGG), fresh_out_h(view, "egg_food")
    often = "a day" if times == 7 else "three times a week"
    return Remedy(
        id="egg-food", title=f"Give the company {view.say(amount, 'g')} of egg food {often}, and take it out again in time.",
        change=change_to(view, lambda o: with_egg(o, amount, times, out)), cost=Cost(1, 4), effort=Effort.A_HABIT,
    )  # fmt: skip


def with_egg(offers: Offers, grams: float, times: float, out_h: float) -> Offers:
    """The offers with this much egg food each time in place of what egg is given now."""
    kept = tuple(o for o in offers if not ((f := facts.known_food(o.food)) and f.text("kind") == "egg"))
    return (*kept, Offer(food="egg_food", grams_g=_amount(grams), per_week=times, out_h=out_h))


def more_egg(view: EnclosureView, good: Good) -> tuple[Remedy, ...]:
    """Give egg food three times a week, daily to birds that moult, lay or rear."""
    at_rest = phase(view.birds) == "rest" and not view.enclosure.breeding_wanted
    times = facts.rule("diet.egg_food_high").number if at_rest else 7.0
    helping, out = helping_g(view, EGG), fresh_out_h(view, "egg_food")
    grams = _first_good(view, lambda o, g: with_egg(o, g, times, out), good, (helping,))
    return (egg_helping(view, grams, times),) if grams is not None else ()


def blend_in(view: EnclosureView, food_id: str, good: Good) -> tuple[Remedy, ...]:
    """Let a dry food be a tenth to a half of the staples, as much as is good."""
    staples = [o for o in view.enclosure.ration or () if (f := facts.known_food(o.food)) and f.text("kind") in STAPLES]
    if staples and all(o.always and o.grams_g is None for o in staples):
        return _half(view, staples, food_id, good)
    weighed = any(o.grams_g and o.per_week and not is_food(o, food_id) for o in staples)
    share = least(view, lambda o, s: blended(o, food_id, s), good, most=0.5, step=0.1) if weighed else None
    if share is None:
        return ()
    food = facts.food(food_id)
    return (
        Remedy(
            id=f"blend-{food_id.replace('_', '-')}",
            title=f"Let {food.name.lower()} make up {round(share * 100)} % of the dry food.",
            change=change.both(change_to(view, lambda o: blended(o, food_id, share)), stocked(view, food_id, 1000)),
            cost=Cost(4, 12), effort=Effort.WEEKS,
            caution="Change over two to three weeks and weigh the birds: some starve beside a food they do not know.",
        ),
    )  # fmt: skip


def _half(view: EnclosureView, staples: list[Offer], food_id: str, good: Good) -> tuple[Remedy, ...]:
    """Fill half of the ever full dishes with another dry food, if that is good."""

    def make(offers: Offers, dishes: float) -> Offers:
        return (*offers, *(Offer(food=food_id, always=True) for _ in range(round(dishes))))

    if (
        any(is_food(o, food_id) for o in staples)
        or least(view, make, good, most=len(staples), step=len(staples)) is None
    ):
        return ()
    name = facts.food(food_id).name.lower()
    return (
        Remedy(
            id=f"half-{food_id.replace('_', '-')}", title=f"Fill half of the seed dishes with {name}.",
            change=change.both(change_to(view, lambda o: make(o, len(staples))), stocked(view, food_id, 1000)), cost=Cost(4, 12),
            effort=Effort.WEEKS, caution="Change over two to three weeks and weigh the birds: some starve beside a food they do not know.",
        ),
    )  # fmt: skip


def more_mineral(view: EnclosureView, food_id: str, good: Good, borne: Good | None = None) -> tuple[Remedy, ...]:
    """Keep a calcium source on hand, of which so much a week is taken: the least that is good, if that is borne."""
    food, now, offers = facts.food(food_id), table_of(view), view.enclosure.ration or ()
    most = 2.0 * len(view.birds)
    grams = least(view, lambda o, g: minerals_a_week(o, food_id, g), good, most=most, step=0.1)
    if grams is None:
        return ()
    if borne and not borne(Table(read_ration(minerals_a_week(offers, food_id, grams)), now.needs, now.temp_c)):
        return ()
    how = {"eggshell": "boiled or baked, crushed eggshell", "oyster_shell": "crushed oyster shell"}.get(
        food_id, food.name.lower()
    )
    return (
        Remedy(
            id=f"{food_id.replace('_', '-')}-on-hand",
            title=f"Let there always be {how} beside the food; the company should take about {view.say(grams, 'g')} a week.",
            change=change_to(view, lambda o: minerals_a_week(o, food_id, grams)),
            cost=Cost(1, 5), effort=Effort.MINUTES,
            caution="Beside the food, not mixed into it: too much calcium harms as well.",
        ),
    )  # fmt: skip


def stop(view: EnclosureView, written: str, title: str, *, id: str = "stop", caution: str = "") -> Remedy:
    """Stop offering a food, by the name it is written under."""
    return Remedy(id=id, title=title, change=change.stop_offering(view.enclosure.id, written), caution=caution)


def set_offer(view: EnclosureView, written: str, **fields: object) -> Change:
    """Set fields of the offers of a food, by the name it is written under."""
    return change_to(view, lambda offers: tuple(o.but(**fields) if o.food == written else o for o in offers))


def good_until(today: date, days: float) -> date:
    """The day so many days from now."""
    return today + timedelta(days=days)
