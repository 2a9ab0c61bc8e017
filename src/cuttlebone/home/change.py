"""Small changes to a household, for remedies: pure functions that leave every untouched part the same object."""

from collections.abc import Callable
from typing import Any, TypeVar

from cuttlebone.home.model import (
    Bird,
    Duty,
    DutyKind,
    Enclosure,
    Household,
    Kit,
    Offer,
    Part,
    Room,
    Spare,
    Store,
)

P = TypeVar("P", bound=Part)
Change = Callable[[Household], Household]


def _swap(items: tuple[P, ...] | None, id: str, make: Callable[[P], P]) -> tuple[P, ...]:
    return tuple(make(item) if getattr(item, "id", None) == id else item for item in items or ())


def enclosure(id: str, **fields: Any) -> Change:
    """Set fields of an enclosure."""
    return lambda home: home.but(enclosures=_swap(home.enclosures, id, lambda e: e.but(**fields)))


def enclosure_by(id: str, make: Callable[[Enclosure], Enclosure]) -> Change:
    """Change an enclosure by a function."""
    return lambda home: home.but(enclosures=_swap(home.enclosures, id, make))


def room(id: str, **fields: Any) -> Change:
    """Set fields of a room."""
    return lambda home: home.but(rooms=_swap(home.rooms, id, lambda r: r.but(**fields)))


def room_by(id: str, make: Callable[[Room], Room]) -> Change:
    """Change a room by a function."""
    return lambda home: home.but(rooms=_swap(home.rooms, id, make))


def bird(id: str, **fields: Any) -> Change:
    """Set fields of a bird."""
    return lambda home: home.but(birds=_swap(home.birds, id, lambda b: b.but(**fields)))


def bird_by(id: str, make: Callable[[Bird], Bird]) -> Change:
    """Change a bird by a function."""
    return lambda home: home.but(birds=_swap(home.birds, id, make))


def add_bird(new: Bird) -> Change:
    """Add a bird."""
    return lambda home: home.but(birds=(*(home.birds or ()), new))


def add_enclosure(new: Enclosure) -> Change:
    """Add an enclosure."""
    return lambda home: home.but(enclosures=(*(home.enclosures or ()), new))


def offer(enclosure_id: str, new: Offer) -> Change:
    """Offer a food, replacing an earlier offer of the same food."""

    def make(e: Enclosure) -> Enclosure:
        kept = tuple(o for o in e.ration or () if o.food != new.food)
        changed: Enclosure = e.but(ration=(*kept, new))
        return changed

    return enclosure_by(enclosure_id, make)


def stop_offering(enclosure_id: str, food: str) -> Change:
    """Stop offering a food."""
    return enclosure_by(enclosure_id, lambda e: e.but(ration=tuple(o for o in e.ration or () if o.food != food)))


def duty(
    kind: DutyKind,
    every_h: float,
    enclosures: tuple[str, ...] | None = None,
    who: tuple[str, ...] | None = None,
) -> Change:
    """Do a duty at this interval, for these enclosures (None: all); who does it stays as it was unless said."""

    def make(home: Household) -> Household:
        same = [d for d in home.duties or () if d.kind == kind and (enclosures is None or d.enclosures == enclosures)]
        kept = tuple(d for d in home.duties or () if d not in same)
        at = same[0].at if same and same[0].every_h == every_h else None
        new = Duty(
            kind=kind,
            every_h=every_h,
            enclosures=enclosures,
            who=who or (same[0].who if same else None),
            at=at,
        )
        changed: Household = home.but(duties=(*kept, new))
        return changed

    return make


def store(new: Store) -> Change:
    """Put something into the stores, replacing an entry of the same id."""
    return lambda home: home.but(stores=(*(s for s in home.stores or () if s.id != new.id), new))


def kit(new: Kit) -> Change:
    """Add equipment, replacing what there is of the kind."""
    return lambda home: home.but(kit=(*(k for k in home.kit or () if k.kind != new.kind), new))


def spare(new: Spare) -> Change:
    """Say how many of a washable thing there are."""
    return lambda home: home.but(spares=(*(s for s in home.spares or () if s.kind != new.kind), new))


def household(**fields: Any) -> Change:
    """Set fields of the household itself."""
    return lambda home: home.but(**fields)


def cleaning(**fields: Any) -> Change:
    """Set fields of how cleaning is done."""
    from cuttlebone.home.model import Cleaning

    return lambda home: home.but(cleaning=(home.cleaning or Cleaning()).but(**fields))


def both(*changes: Change) -> Change:
    """Several changes, one after another."""

    def make(home: Household) -> Household:
        for change in changes:
            home = change(home)
        return home

    return make
