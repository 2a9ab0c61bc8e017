"""What spoils the hygiene of the good home."""

from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import Dish, DutyKind, Enclosure, Household, Offer, Spare
from tests.spoilers import Spoil

NOW, SOON, BETTER = Severity.ACT_NOW, Severity.MEND_SOON, Severity.BETTER


def every(kind: DutyKind, hours: float | None) -> Change:
    """Do a duty at another rhythm; who does it and when stays, None forgets the rhythm."""

    def make(home: Household) -> Household:
        return home.but(duties=tuple(d.but(every_h=hours, at=None) if d.kind == kind else d for d in home.duties or ()))

    return make


def out(food: str, hours: float | None) -> Change:
    """Leave a food out for so long."""
    return change.enclosure_by(
        "flight", lambda e: e.but(ration=tuple(o.but(out_h=hours) if o.food == food else o for o in e.ration or ()))
    )


def dish(id: str, **fields: object) -> Change:
    """Change one dish of the flight."""

    def make(e: Enclosure) -> Enclosure:
        return e.but(dishes=tuple(d.but(**fields) if d.id == id else d for d in e.dishes or ()))

    return change.enclosure_by("flight", make)


def add_dish(new: Dish) -> Change:
    """Put one more dish into the flight."""
    return change.enclosure_by("flight", lambda e: e.but(dishes=(*(e.dishes or ()), new)))


def person(id: str, **fields: object) -> Change:
    """Change one person."""
    return lambda home: home.but(people=tuple(p.but(**fields) if p.id == id else p for p in home.people or ()))


SPROUTS = change.offer("flight", Offer(food="wheat_sprouted", grams_g=0.3, per_week=1, out_h=1, washed=True))

SPOILERS: dict[str, tuple[Spoil, ...]] = {
    "hygiene.water_changes": (Spoil(change=every("water", 48), severity=SOON),),
    "hygiene.wet_food_out": (
        Spoil(change=out("egg_food", 4), severity=SOON),
        Spoil(change=out("egg_food", 12), severity=NOW),
    ),
    "hygiene.sprouts": (
        Spoil(change=SPROUTS, severity=BETTER),
        Spoil(
            change=change.both(SPROUTS, change.bird("pip", state=("frail",))),
            severity=SOON,
            also=frozenset({"health.weighing"}),
        ),
    ),
    "hygiene.husks": (Spoil(change=change.enclosure("flight", husks_removed=False), severity=SOON),),
    "hygiene.dish_under_perch": (
        Spoil(change=dish("seed-1", x_cm=36), severity=SOON),
        Spoil(change=dish("bath", x_cm=34), severity=BETTER),
    ),
    "hygiene.dishes": (
        Spoil(change=every("dishes", 48), severity=BETTER),
        Spoil(change=every("dishes", 72), severity=SOON),
    ),
    "hygiene.spot_clean": (
        Spoil(change=every("spot clean", 36), severity=BETTER),
        Spoil(change=every("spot clean", 96), severity=SOON),
    ),
    "hygiene.deep_clean": (
        Spoil(change=every("deep clean", 500), severity=BETTER),
        Spoil(change=every("deep clean", 700), severity=SOON),
    ),
    "hygiene.perches": (
        Spoil(change=every("perches", 240), severity=BETTER),
        Spoil(change=every("perches", 700), severity=SOON),
    ),
    "hygiene.bath": (Spoil(change=every("bath", 240), severity=BETTER),),
    "hygiene.substrate": (
        Spoil(change=change.enclosure("flight", substrate="bird sand"), severity=BETTER),
        Spoil(change=change.enclosure("flight", substrate="corn cob"), severity=SOON),
    ),
    "hygiene.half_by_half": (Spoil(change=change.enclosure("flight", partition=False), severity=BETTER),),
    "hygiene.spares": (
        Spoil(change=change.spare(Spare(kind="seed dish", total=2)), severity=BETTER),
        Spoil(change=change.cleaning(drying_h=60), severity=SOON),
    ),
    "hygiene.agent": (
        Spoil(change=change.cleaning(agent="vinegar"), severity=BETTER),
        Spoil(change=change.cleaning(agent="pine_oil"), severity=SOON),
    ),
    "hygiene.dilution": (
        Spoil(change=change.cleaning(dilution=0.01), severity=BETTER),
        Spoil(change=change.cleaning(dilution=0.002), severity=SOON),
        Spoil(change=change.cleaning(dilution=0.1), severity=SOON),
        Spoil(change=change.cleaning(dilution=0.5), severity=NOW),
    ),
    "hygiene.contact_time": (Spoil(change=change.cleaning(contact_h=1 / 60), severity=SOON),),
    "hygiene.never_mix": (
        Spoil(change=change.cleaning(mixed_with=("vinegar",)), severity=NOW),
        Spoil(change=change.cleaning(mixed_with=("dish_detergent",)), severity=BETTER),
    ),
    "hygiene.wash_first": (Spoil(change=change.cleaning(washed_first=False), severity=SOON),),
    "hygiene.rinse": (Spoil(change=change.cleaning(rinsed=False), severity=SOON),),
    "hygiene.birds_out": (
        Spoil(change=change.cleaning(birds_out=False), severity=NOW),
        Spoil(change=change.cleaning(birds_out=False, agent="boiling_water"), severity=BETTER),
    ),
    "hygiene.dust": (
        Spoil(change=change.cleaning(wetted_first=False), severity=SOON),
        Spoil(change=change.cleaning(mask=False), severity=BETTER),
    ),
    "hygiene.who_cleans": (
        Spoil(change=person("ada", higher_risk=True), severity=BETTER),
        Spoil(
            change=change.both(person("ada", higher_risk=True), change.cleaning(mask=False)),
            severity=SOON,
            also=frozenset({"hygiene.dust"}),
        ),
    ),
}

UNKNOWN: dict[str, Change] = {
    "hygiene.water_changes": every("water", None),
    "hygiene.wet_food_out": out("egg_food", None),
    "hygiene.sprouts": change.both(SPROUTS, change.bird("pip", state=None)),
    "hygiene.husks": change.enclosure("flight", husks_removed=None),
    "hygiene.dish_under_perch": dish("seed-1", x_cm=None),
    "hygiene.dishes": every("dishes", None),
    "hygiene.spot_clean": every("spot clean", None),
    "hygiene.deep_clean": every("deep clean", None),
    "hygiene.perches": every("perches", None),
    "hygiene.bath": every("bath", None),
    "hygiene.substrate": change.enclosure("flight", substrate=None),
    "hygiene.half_by_half": change.enclosure("flight", partition=None),
    "hygiene.spares": change.cleaning(drying_h=None),
    "hygiene.agent": change.cleaning(agent=None),
    "hygiene.dilution": change.cleaning(label_strength_pct=None),
    "hygiene.contact_time": change.cleaning(contact_h=None),
    "hygiene.never_mix": change.cleaning(mixed_with=None),
    "hygiene.wash_first": change.cleaning(washed_first=None),
    "hygiene.rinse": change.cleaning(rinsed=None),
    "hygiene.birds_out": change.cleaning(birds_out=None),
    "hygiene.dust": change.cleaning(mask=None),
    "hygiene.who_cleans": person("ada", higher_risk=None),
}
