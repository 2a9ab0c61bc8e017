"""What spoils the diet of the good home."""

from datetime import date

from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import Offer, Store
from tests.good_home import FLIGHT, GOOD
from tests.spoilers import Spoil

RATION = FLIGHT.ration or ()
STORES = GOOD.stores or ()
DISHES = FLIGHT.dishes or ()


def ration(*offers: Offer) -> Change:
    return change.enclosure("flight", ration=offers)


def plus(*offers: Offer) -> Change:
    return ration(*RATION, *offers)


def less(*foods: str) -> Change:
    return ration(*(o for o in RATION if o.food not in foods))


def offered(food: str, **fields: object) -> Change:
    return ration(*(o.but(**fields) if o.food == food else o for o in RATION))


def times(factor: float, *foods: str) -> Change:
    return ration(*(o.but(grams_g=(o.grams_g or 0) * factor) if o.food in foods else o for o in RATION))


def store(id: str, **fields: object) -> Change:
    return change.household(stores=tuple(s.but(**fields) if s.id == id else s for s in STORES))


def fresh(food: str, grams: float, per_week: float) -> Offer:
    return Offer(food=food, grams_g=grams, per_week=per_week, out_h=1, washed=True)


def stocked(food: str) -> Change:
    new = Store(
        id="more", item=food, amount_g=5000, opened=date(2026, 11, 1), best_before=date(2027, 6, 1), closed_dry=True
    )
    return change.household(stores=(*STORES, new))


def seed_duty(**fields: object) -> Change:
    duties = GOOD.duties or ()
    return change.household(duties=tuple(d.but(**fields) if d.kind == "seed" else d for d in duties))


NO_SEED_DUTY = change.household(duties=tuple(d for d in GOOD.duties or () if d.kind != "seed"))
NO_WATER = change.enclosure("flight", dishes=tuple(d for d in DISHES if d.holds != "water"))
ONE_WATER = tuple(d for d in DISHES if d.id != "water-2")
DRY = ("foreign_finch_mix", "finch_pellets")
UNTOLD = change.enclosure("flight", ration=None)
SHELL = Offer(food="eggshell", grams_g=0.1, per_week=1, always=True, sterilised=True)
LAYING = frozenset(
    {
        "diet.calcium_amount",
        "diet.calcium_phosphorus",
        "diet.lysine",
        "diet.methionine",
        "diet.protein",
        "diet.vitamin_d",
    }
)
DOUBLE = ration(*(o.but(grams_g=(o.grams_g or 0) * 2) for o in RATION))
TWINS = tuple(
    b.but(id=f"{b.id}-2", ring=f"{b.ring}-2", name=f"{b.name} the second", bonded_with=()) for b in GOOD.birds or ()
)
CROWD = change.both(DOUBLE, *(change.add_bird(b) for b in TWINS))
NO_PELLETS = ration(*(o.but(grams_g=10) if o.food == DRY[0] else o for o in RATION if o.food != DRY[1]))
CUTTLEBONE, EGG_FOOD, KALE = (next(o for o in RATION if o.food == food) for food in ("cuttlebone", "egg_food", "kale"))


def seed(mix: str, *offers: Offer) -> Change:
    """Seed of one kind, well stocked, with what is offered beside."""
    return change.both(ration(Offer(food=mix, grams_g=11, per_week=7), *offers), stocked(mix))


NO_CALCIUM_DISH = change.enclosure("flight", dishes=tuple(d for d in DISHES if d.holds != "calcium"))
SEED_ALONE_AND_EGG = change.both(seed("foreign_finch_mix", EGG_FOOD, KALE), NO_CALCIUM_DISH)
SEED_AND_CRUMBS = seed("foreign_finch_mix", EGG_FOOD, KALE, CUTTLEBONE.but(grams_g=0.1))
MILLET = seed("millet_hull_on", CUTTLEBONE, KALE)
FEWER_PELLETS = ration(
    RATION[0].but(grams_g=7.5), RATION[1].but(grams_g=2.5), CUTTLEBONE, EGG_FOOD, fresh("cucumber", 1, 7)
)
SEED_AND_KALE = seed("foreign_finch_mix", CUTTLEBONE, KALE)
POOR = frozenset(
    {
        "diet.lysine",
        "diet.methionine",
        "diet.calcium_amount",
        "diet.protein",
        "diet.egg_food",
        "diet.iodine",
        "diet.vitamin_d",
        "diet.seed_only",
    }
)

SPOILERS: dict[str, tuple[Spoil, ...]] = {
    "diet.never_foods": (Spoil(change=plus(Offer(food="avocado", grams_g=1, per_week=1)), severity=Severity.ACT_NOW),),
    "diet.unknown_food": (
        Spoil(change=plus(Offer(food="mystery berries", grams_g=1, per_week=1)), severity=Severity.MEND_SOON),
    ),
    "diet.energy": (
        Spoil(change=times(0.5, *DRY), severity=Severity.ACT_NOW),
        Spoil(change=times(0.75, *DRY), severity=Severity.MEND_SOON),
        Spoil(change=times(2.6, *DRY), severity=Severity.BETTER),
    ),
    "diet.seed_every_morning": (
        Spoil(change=NO_SEED_DUTY, severity=Severity.MEND_SOON),
        Spoil(change=seed_duty(every_h=48), severity=Severity.MEND_SOON),
    ),
    "diet.water_always": (Spoil(change=NO_WATER, severity=Severity.ACT_NOW, also=frozenset({"housing.water_places"})),),
    "diet.calcium_source": (
        Spoil(change=offered("cuttlebone", always=False), severity=Severity.MEND_SOON),
        Spoil(
            change=change.both(change.bird("pip", state=("laying",)), offered("cuttlebone", always=False)),
            severity=Severity.ACT_NOW,
            also=LAYING - {"diet.vitamin_d"},
        ),
    ),
    "diet.calcium_amount": (
        Spoil(
            change=offered("cuttlebone", grams_g=0.1),
            severity=Severity.BETTER,
            also=frozenset({"diet.calcium_phosphorus"}),
        ),
        Spoil(
            change=SEED_AND_CRUMBS,
            severity=Severity.MEND_SOON,
            also=frozenset({"diet.calcium_phosphorus", "diet.lysine", "diet.iodine", "diet.vitamin_d"}),
        ),
        Spoil(
            change=SEED_ALONE_AND_EGG,
            severity=Severity.BETTER,
            also=frozenset(
                {"diet.calcium_phosphorus", "diet.calcium_source", "diet.lysine", "diet.iodine", "diet.vitamin_d"}
            ),
        ),
        Spoil(
            change=offered("cuttlebone", grams_g=1.5),
            severity=Severity.MEND_SOON,
            also=frozenset({"diet.calcium_phosphorus"}),
        ),
    ),
    "diet.calcium_phosphorus": (
        Spoil(
            change=offered("cuttlebone", grams_g=0.1), severity=Severity.BETTER, also=frozenset({"diet.calcium_amount"})
        ),
        Spoil(
            change=SEED_ALONE_AND_EGG,
            severity=Severity.BETTER,
            also=frozenset(
                {"diet.calcium_amount", "diet.calcium_source", "diet.lysine", "diet.iodine", "diet.vitamin_d"}
            ),
        ),
        Spoil(change=offered("cuttlebone", grams_g=0.75), severity=Severity.BETTER),
    ),
    "diet.oxalate_greens": (Spoil(change=plus(fresh("spinach", 1, 3)), severity=Severity.BETTER),),
    "diet.eggshell_sterilised": (Spoil(change=plus(SHELL.but(sterilised=False)), severity=Severity.MEND_SOON),),
    "diet.protein": (
        Spoil(change=SEED_AND_KALE, severity=Severity.BETTER, also=POOR - {"diet.protein"}),
        Spoil(
            change=MILLET,
            severity=Severity.MEND_SOON,
            also=frozenset(
                {
                    "diet.lysine",
                    "diet.methionine",
                    "diet.egg_food",
                    "diet.iodine",
                    "diet.seed_only",
                    "diet.calcium_amount",
                    "diet.vitamin_d",
                }
            ),
        ),
    ),
    "diet.lysine": (
        Spoil(change=offered("egg_food", per_week=1), severity=Severity.BETTER, also=frozenset({"diet.egg_food"})),
        Spoil(
            change=NO_PELLETS,
            severity=Severity.MEND_SOON,
            also=frozenset({"diet.iodine", "diet.calcium_amount", "diet.vitamin_d"}),
        ),
    ),
    "diet.methionine": (
        Spoil(change=SEED_AND_KALE, severity=Severity.BETTER, also=POOR - {"diet.methionine"}),
        Spoil(
            change=MILLET,
            severity=Severity.MEND_SOON,
            also=frozenset(
                {
                    "diet.lysine",
                    "diet.protein",
                    "diet.egg_food",
                    "diet.iodine",
                    "diet.seed_only",
                    "diet.calcium_amount",
                    "diet.vitamin_d",
                }
            ),
        ),
    ),
    "diet.vitamin_a": (
        Spoil(change=FEWER_PELLETS, severity=Severity.BETTER, also=frozenset({"diet.lysine", "diet.vitamin_d"})),
        Spoil(
            change=seed("foreign_finch_mix", CUTTLEBONE, EGG_FOOD, fresh("cucumber", 1, 7)),
            severity=Severity.MEND_SOON,
            also=frozenset({"diet.lysine", "diet.iodine", "diet.calcium_amount", "diet.vitamin_d"}),
        ),
    ),
    "diet.retinol": (
        Spoil(
            change=plus(Offer(food="cod_liver_oil", grams_g=0.1, per_week=7)),
            severity=Severity.MEND_SOON,
            also=frozenset({"diet.supplements"}),
        ),
    ),
    "diet.vitamin_d": (
        Spoil(
            change=NO_PELLETS,
            severity=Severity.BETTER,
            also=frozenset({"diet.lysine", "diet.iodine", "diet.calcium_amount"}),
        ),
        Spoil(
            change=change.both(change.bird("pip", state=("laying",)), NO_PELLETS),
            severity=Severity.MEND_SOON,
            also=LAYING - {"diet.vitamin_d"} | {"diet.iodine"},
        ),
        Spoil(
            change=plus(Offer(food="cod_liver_oil", grams_g=0.2, per_week=7)),
            severity=Severity.MEND_SOON,
            also=frozenset({"diet.supplements", "diet.retinol"}),
        ),
    ),
    "diet.sodium": (
        Spoil(change=change.household(name="As good"), severity=Severity.BETTER),
        Spoil(change=plus(fresh("celery", 24, 7)), severity=Severity.MEND_SOON, also=frozenset({"diet.vitamin_d"})),
    ),
    "diet.iodine": (
        Spoil(
            change=NO_PELLETS,
            severity=Severity.BETTER,
            also=frozenset({"diet.lysine", "diet.calcium_amount", "diet.vitamin_d"}),
        ),
    ),
    "diet.supplements": (
        Spoil(change=plus(Offer(food="cod_liver_oil", grams_g=0.1, per_week=1)), severity=Severity.MEND_SOON),
    ),
    "diet.vitamins_in_water": (
        Spoil(
            change=plus(Offer(food="vitamin_drops", grams_g=1, per_week=7)),
            severity=Severity.BETTER,
            also=frozenset({"diet.supplements", "diet.retinol"}),
        ),
    ),
    "diet.seed_only": (
        Spoil(change=SEED_AND_KALE, severity=Severity.BETTER, also=POOR - {"diet.seed_only"}),
        Spoil(
            change=seed("foreign_finch_mix", CUTTLEBONE),
            severity=Severity.MEND_SOON,
            also=POOR - {"diet.seed_only"} | {"diet.greens", "diet.vitamin_a"},
        ),
    ),
    "diet.egg_food": (
        Spoil(change=offered("egg_food", per_week=1), severity=Severity.BETTER, also=frozenset({"diet.lysine"})),
        Spoil(change=offered("egg_food", per_week=6), severity=Severity.BETTER),
        Spoil(
            change=change.both(offered("egg_food", per_week=6), change.bird("pip", sex="cock")),
            severity=Severity.MEND_SOON,
            also=frozenset({"breeding.dummy_eggs", "breeding.unwished", "breeding.kin"}),
        ),
    ),
    "diet.greens": (
        Spoil(
            change=ration(*RATION[:4], KALE.but(per_week=2)), severity=Severity.BETTER, also=frozenset({"diet.lysine"})
        ),
        Spoil(change=less("kale", "peas"), severity=Severity.MEND_SOON, also=frozenset({"diet.lysine"})),
    ),
    "diet.greens_washed": (Spoil(change=offered("kale", washed=False), severity=Severity.MEND_SOON),),
    "diet.oilseed_share": (
        Spoil(
            change=change.both(
                plus(Offer(food="sunflower_kernel", grams_g=1, per_week=7)), stocked("sunflower_kernel")
            ),
            severity=Severity.BETTER,
        ),
        Spoil(
            change=change.both(
                plus(Offer(food="sunflower_kernel", grams_g=2.2, per_week=7)), stocked("sunflower_kernel")
            ),
            severity=Severity.MEND_SOON,
        ),
    ),
    "diet.fruit_share": (Spoil(change=plus(fresh("apple", 1, 7)), severity=Severity.BETTER),),
    "diet.stock_days": (
        Spoil(change=store("mix", amount_g=65), severity=Severity.BETTER),
        Spoil(change=store("mix", amount_g=30), severity=Severity.MEND_SOON),
    ),
    "diet.store_age": (
        Spoil(change=store("mix", opened=date(2026, 5, 1)), severity=Severity.BETTER),
        Spoil(change=store("mix", best_before=date(2026, 10, 1)), severity=Severity.MEND_SOON),
    ),
    "diet.store_dry": (Spoil(change=store("mix", closed_dry=False), severity=Severity.MEND_SOON),),
}

UNKNOWN: dict[str, Change] = {
    "diet.never_foods": UNTOLD,
    "diet.unknown_food": UNTOLD,
    "diet.energy": offered("foreign_finch_mix", grams_g=None),
    "diet.seed_every_morning": seed_duty(at=None),
    "diet.water_always": change.enclosure("flight", dishes=None),
    "diet.calcium_source": less("cuttlebone"),  # the dish for it is there
    "diet.calcium_amount": seed("foreign_finch_mix", CUTTLEBONE.but(grams_g=None), EGG_FOOD, KALE),
    "diet.calcium_phosphorus": offered("cuttlebone", grams_g=None),
    "diet.oxalate_greens": plus(Offer(food="spinach", washed=True, out_h=1)),
    "diet.eggshell_sterilised": plus(SHELL.but(sterilised=None)),
    "diet.protein": offered("kale", grams_g=None),
    "diet.lysine": offered("kale", grams_g=None),
    "diet.methionine": offered("kale", grams_g=None),
    "diet.vitamin_a": offered("kale", grams_g=None),
    "diet.retinol": plus(Offer(food="vitamin_drops", grams_g=1, per_week=7)),
    "diet.vitamin_d": offered("foreign_finch_mix", per_week=None),
    "diet.sodium": offered("cuttlebone", grams_g=None),
    "diet.iodine": UNTOLD,
    "diet.supplements": UNTOLD,
    "diet.vitamins_in_water": UNTOLD,
    "diet.seed_only": offered("egg_food", grams_g=None),
    "diet.egg_food": offered("egg_food", per_week=None),
    "diet.greens": offered("kale", per_week=None),
    "diet.greens_washed": offered("kale", washed=None),
    "diet.oilseed_share": offered("foreign_finch_mix", grams_g=None),
    "diet.fruit_share": offered("kale", grams_g=None),
    "diet.stock_days": store("mix", amount_g=None),
    "diet.store_age": store("mix", opened=None, best_before=None),
    "diet.store_dry": store("mix", closed_dry=None),
}
