"""What cannot be true of a household at once: names that point nowhere, twins, places outside the room."""

import difflib
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING
from zoneinfo import available_timezones

from cuttlebone import facts
from cuttlebone.base.errors import NotFound

if TYPE_CHECKING:
    from cuttlebone.home.model import Enclosure, Household, Room

Contradiction = tuple[str, str, str]
"""place, what came, what is allowed."""


def contradictions(home: "Household") -> list[Contradiction]:
    """All contradictions of a household; empty if there are none."""
    return [
        *_twins(home),
        *_pointers(home),
        *_unknown_names(home),
        *_impossible_dates(home),
        *_outside(home),
        *_where(home),
    ]


def _near(name: str, known: Iterable[str]) -> str:
    known = list(known)
    close = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
    return f"did you mean {close[0]!r}?" if close else f"known are {', '.join(known[:12]) or 'none yet'}"


def _twins(home: "Household") -> Iterator[Contradiction]:
    for label in ("people", "rooms", "enclosures", "birds", "stores"):
        for key, n in Counter(item.id for item in getattr(home, label) or ()).items():
            if n > 1:
                yield f"{label} > {key} > id", repr(key), f"is used {n} times; give each its own id"
    for ring, n in Counter(b.ring for b in home.birds or () if b.ring).items():
        if n > 1:
            yield "birds > ring", repr(ring), f"is on {n} birds; a ring number belongs to one bird"
    for e in home.enclosures or ():
        for label in ("perches", "dishes", "lamps"):
            for key, n in Counter(item.id for item in getattr(e, label) or ()).items():
                if n > 1:
                    yield (
                        f"enclosures > {e.id} > {label} > {key} > id",
                        repr(key),
                        f"is used {n} times; give each its own id",
                    )


def _pointers(home: "Household") -> Iterator[Contradiction]:
    """Every name that should point at something of the household."""
    known = {
        label: {item.id for item in getattr(home, label) or ()} for label in ("rooms", "enclosures", "birds", "people")
    }
    for place, name, label in (*_home_pointers(home), *_bird_pointers(home)):
        among = known[label] - {place.split(" > ")[1]} if label == "birds" else known[label]
        if name not in among and not (name == "outside" and place.endswith("> to")):
            one = {"people": "person"}.get(label, label[:-1])
            yield place, repr(name), f"no such {one}; {_near(name, among)}"


def _home_pointers(home: "Household") -> Iterator[tuple[str, str, str]]:
    for e in home.enclosures or ():
        if e.room:
            yield f"enclosures > {e.id} > room", e.room, "rooms"
    for r in home.rooms or ():
        for o in r.openings or ():
            yield f"rooms > {r.id} > openings > to", o.to, "rooms"
    for i, d in enumerate(home.duties or (), 1):
        yield from ((f"duties > {i} ({d.kind}) > enclosures", name, "enclosures") for name in d.enclosures or ())
        yield from ((f"duties > {i} ({d.kind}) > who", name, "people") for name in d.who or ())


def _bird_pointers(home: "Household") -> Iterator[tuple[str, str, str]]:
    for b in home.birds or ():
        if b.enclosure:
            yield f"birds > {b.id} > enclosure", b.enclosure, "enclosures"
        named = {
            "sire": (b.sire,),
            "dam": (b.dam,),
            "bonded_with": b.bonded_with or (),
            "quarrels_with": b.quarrels_with or (),
        }
        for field, names in named.items():
            yield from ((f"birds > {b.id} > {field}", name, "birds") for name in names if name)


def _unknown_names(home: "Household") -> Iterator[Contradiction]:
    wanted = [(f"birds > {b.id} > species", "species", b.species) for b in home.birds or ()]
    wanted += [
        (f"rooms > {r.id} > things > {t.id} > kind", "hazard", t.kind) for r in home.rooms or () for t in r.things or ()
    ]
    wanted += [(f"stores > {s.id} > item", "food", s.item) for s in home.stores or ()]
    wanted += [("hold_to", "standard", name) for name in home.hold_to or ()]
    if home.cleaning:
        agents = ([home.cleaning.agent] if home.cleaning.agent else []) + list(home.cleaning.mixed_with or ())
        wanted += [("cleaning > agent or mixed_with", "agent", name) for name in agents]
    for place, kind, name in wanted:
        try:
            facts.find(kind, name)
        except NotFound as error:
            near = (
                f"did you mean {', '.join(error.near)}?"
                if error.near
                else f"see them with: cuttlebone facts search --kind {kind}"
            )
            yield place, repr(name), f"no such {kind}; {near}"


def _impossible_dates(home: "Household") -> Iterator[Contradiction]:
    for b in home.birds or ():
        if b.hatched and b.came and b.came < b.hatched:
            yield (
                f"birds > {b.id} > came",
                str(b.came),
                f"is before it hatched ({b.hatched}); mend one of the two",
            )
        if b.hatched and b.weighed and b.weighed < b.hatched:
            yield (
                f"birds > {b.id} > weighed",
                str(b.weighed),
                f"is before it hatched ({b.hatched}); mend one of the two",
            )
        if b.hatched and b.hatched.year < 1980:
            yield f"birds > {b.id} > hatched", str(b.hatched), "no small bird lives that long; check the year"
    for s in home.stores or ():
        if s.opened and s.best_before and s.best_before.year < s.opened.year - 5:
            yield (
                f"stores > {s.id} > best_before",
                str(s.best_before),
                "is more than five years before it was opened; check the year",
            )


def _outside(home: "Household") -> Iterator[Contradiction]:
    rooms = {r.id: r for r in home.rooms or ()}
    for r in rooms.values():
        yield from _windows(r)
        for t in r.things or ():
            for axis, at, end in (("x", t.x_cm, r.length_cm), ("y", t.y_cm, r.width_cm)):
                if at is not None and end is not None and at > end:
                    yield (
                        f"rooms > {r.id} > things > {t.id} > {axis}",
                        f"{at:g} cm",
                        f"lies outside the room ({end:g} cm)",
                    )
    for e in home.enclosures or ():
        yield from _inside(e)
        if e.room in rooms:
            yield from _footprint(e, rooms[e.room])


def _windows(r: "Room") -> Iterator[Contradiction]:
    for i, w in enumerate(r.windows or (), 1):
        along = r.length_cm if w.wall in {"top", "bottom"} else r.width_cm
        if along is not None and w.starts_cm + w.width_cm > along + 0.5:
            yield (
                f"rooms > {r.id} > windows > {i}",
                f"{w.starts_cm:g} + {w.width_cm:g} cm",
                f"ends beyond its wall of {along:g} cm",
            )
        if w.head_cm <= w.sill_cm:
            yield (
                f"rooms > {r.id} > windows > {i} > head",
                f"{w.head_cm:g} cm",
                f"must be above the sill ({w.sill_cm:g} cm)",
            )


def _footprint(e: "Enclosure", room: "Room") -> Iterator[Contradiction]:
    if not (e.length_cm and e.width_cm):
        return
    size = (e.length_cm, e.width_cm) if e.turned == "along" else (e.width_cm, e.length_cm)
    for axis, at, long, end in (("x", e.x_cm, size[0], room.length_cm), ("y", e.y_cm, size[1], room.width_cm)):
        if at is not None and end is not None and at + long > end + 0.5:
            yield f"enclosures > {e.id} > {axis}", f"{at:g} cm", f"with its size it ends beyond the room ({end:g} cm)"


def _inside(e: "Enclosure") -> Iterator[Contradiction]:
    ends = {
        "x_cm": e.length_cm,
        "x_end_cm": e.length_cm,
        "y_cm": e.width_cm,
        "y_end_cm": e.width_cm,
        "height_cm": e.height_cm,
    }
    for label in ("perches", "dishes"):
        for item in getattr(e, label) or ():
            for field, end in ends.items():
                at = getattr(item, field, None)
                if at is not None and end is not None and at > end:
                    yield (
                        f"enclosures > {e.id} > {label} > {item.id} > {field.removesuffix('_cm')}",
                        f"{at:g} cm",
                        f"lies outside the enclosure, which is {end:g} cm there; measure from its own floor and left end",
                    )


def _where(home: "Household") -> Iterator[Contradiction]:
    if home.time_zone and home.time_zone not in available_timezones():
        yield "time_zone", repr(home.time_zone), 'use a name like "Europe/Dublin"'
    if (home.latitude is None) != (home.longitude is None):
        yield "latitude", "only one of latitude and longitude", "give both, or neither"
