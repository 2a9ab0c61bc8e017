"""What a check looks at: one thing of the household with all that bears on it.

A view holds only the parts its check may use, and notes which common fields were looked at, so that after a change only the
checks that used what changed are asked again (see `assess`).
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from typing import Any, Generic, Literal, TypeVar

from cuttlebone import facts
from cuttlebone.base.finding import Finding, Severity, Subject
from cuttlebone.base.quantity import Quantity
from cuttlebone.base.source import Cite
from cuttlebone.facts.schema import Entry
from cuttlebone.home.model import Bird, Duty, DutyKind, Enclosure, Household, Person, Room
from cuttlebone.home.noted import changed_fields, noted

Per = Literal["household", "room", "enclosure", "bird"]


COMMON = frozenset({"name", "units", "country", "region", "latitude", "longitude", "time_zone", "hold_to", "people", "vet", "stores", "spares",
                    "kit", "cleaning", "duties"})  # fmt: skip
"""Fields of the household that every view may use; the others come to a view only as the part it looks at."""
PARTS = frozenset({"birds", "enclosures", "rooms"})


class Common:
    """The household as a view shows it: its common fields, and a note of which of them were looked at.

    Stands in for `Household` in the views. `looked` lets `assess` ask again only the checks that used what a remedy changed.
    """

    def __init__(self, home: Household, *, whole: bool = False) -> None:
        self._home, self._whole = home, whole
        self.looked: set[str] = set()

    def __getattr__(self, name: str) -> Any:
        """A field of the household, noted; the parts are shown to views of the whole household only."""
        if name in COMMON or (name in PARTS and self._whole):
            self.looked.add(name)
            return getattr(self._home, name)
        if name in PARTS:
            return None
        raise AttributeError(f"a view shows no {name!r} of the household")

    def duties_of(self, kind: str) -> tuple[Duty, ...]:
        """Duties of one kind; only that kind is noted."""
        self.looked.add(f"duties:{kind}")
        return tuple(d for d in self._home.duties or () if d.kind == kind)


class View:
    """Base of the views: the household's common part and the day of the assessment."""

    home: Common
    today: date

    def say(self, value: float, unit: str) -> str:
        """A quantity in the keeper's own units, for a sentence."""
        return Quantity(value, unit).shown(self.home.units)

    @property
    def parts(self) -> tuple[Any, ...]:
        """All that a check on this view may depend on besides `home`; compared by identity."""
        raise TypeError("a view must name its parts")

    @property
    def subject(self) -> Subject:
        """What findings from this view are about."""
        raise TypeError("a view must name its subject")

    def duties(self, kind: DutyKind, enclosure: str | None = None) -> tuple[Duty, ...]:
        """Duties of a kind that cover an enclosure (or any)."""
        return tuple(
            d
            for d in self.home.duties_of(kind)
            if enclosure is None or d.enclosures is None or enclosure in d.enclosures
        )

    @property
    def keepers(self) -> tuple[Person, ...]:
        """The people who keep the birds."""
        return tuple(p for p in self.home.people or () if p.role == "keeper")


@dataclass(frozen=True)
class HouseholdView(View):
    """The whole household."""

    home: Common
    today: date
    grouped: Mapping[str, tuple[Bird, ...]]  # birds by enclosure; read through `companies`

    @property
    def parts(self) -> tuple[Any, ...]:
        """Only the household, of which `home` notes what was looked at."""
        return ()

    @property
    def subject(self) -> Subject:
        """The household."""
        return Subject(kind="household", id="household", name=self.home.name)

    @property
    def companies(self) -> Mapping[str, tuple[Bird, ...]]:
        """Birds by enclosure id."""
        self.home.looked.add("birds")
        return self.grouped


@dataclass(frozen=True)
class RoomView(View):
    """One room, its enclosures and the rooms its air is shared with."""

    home: Common  # no birds, enclosures or rooms
    today: date
    room: Room
    enclosures: tuple[Enclosure, ...]
    birds: tuple[Bird, ...]
    neighbours: tuple[Room, ...]  # rooms joined to it by an opening, either way round
    others: tuple[Room, ...]  # the rest of the dwelling

    @property
    def parts(self) -> tuple[Any, ...]:
        """The room, what stands and lives in it, and the other rooms."""
        return (self.today, self.room, *self.enclosures, *self.birds, *self.neighbours, *self.others)

    @property
    def subject(self) -> Subject:
        """The room."""
        return Subject(kind="room", id=self.room.id, name=self.room.name)


@dataclass(frozen=True)
class EnclosureView(View):
    """One enclosure, its company and its room."""

    home: Common  # no birds, enclosures or rooms
    today: date
    enclosure: Enclosure
    birds: tuple[Bird, ...]
    room: Room | None
    neighbours: tuple[Room, ...]

    @property
    def parts(self) -> tuple[Any, ...]:
        """The enclosure, its birds, its room and the rooms that share its air."""
        return (self.enclosure, *self.birds, self.room, *self.neighbours)

    @property
    def subject(self) -> Subject:
        """The enclosure."""
        return Subject(kind="enclosure", id=self.enclosure.id, name=self.enclosure.name)

    @cached_property
    def kinds(self) -> dict[str, Entry]:
        """The species present, by id."""
        return {entry.id: entry for entry in (facts.species(b.species) for b in self.birds)}

    @property
    def longest_body_cm(self) -> float:
        """Bill tip to tail tip of the largest bird: the keeper's measure, or else the species' mean."""
        return max(b.body_length_cm or facts.species(b.species).number("body_length_cm") for b in self.birds)

    @property
    def widest_span_cm(self) -> float:
        """Largest wingspan in the company."""
        return max(kind.number("wingspan_cm") for kind in self.kinds.values())

    @property
    def smallest_head_mm(self) -> float:
        """Smallest head width in the company."""
        return min(kind.number("head_width_mm") for kind in self.kinds.values())

    def cites(self, field: str) -> tuple[Cite, ...]:
        """Sources of a species value for all species present."""
        return tuple(dict.fromkeys(kind.fact(field).cite for kind in self.kinds.values()))


@dataclass(frozen=True)
class BirdView(View):
    """One bird with its company."""

    home: Common  # no birds, enclosures or rooms
    today: date
    bird: Bird
    mates: tuple[Bird, ...]  # the others in its enclosure
    enclosure: Enclosure | None

    @property
    def parts(self) -> tuple[Any, ...]:
        """The bird, its mates and its enclosure."""
        return (self.bird, *self.mates, self.enclosure)

    @property
    def subject(self) -> Subject:
        """The bird."""
        return Subject(kind="bird", id=self.bird.id, name=self.bird.name or self.bird.ring or self.bird.id)

    @property
    def kind(self) -> Entry:
        """Its species."""
        return facts.species(self.bird.species)


class Census:
    """Who lives where: what the views of one household are made from.

    Parameters
    ----------
    home : Household
        The household.
    today : date
        The day of the assessment.
    before : Census, optional
        Of an earlier version of the same household: tables of what did not change are taken over.
    """

    def __init__(self, home: Household, today: date, before: "Census | None" = None) -> None:
        self.home, self.today = home, today
        self.birds: dict[str, Bird]
        self.companies: dict[str, tuple[Bird, ...]]
        self.cages: dict[str, Enclosure]
        self.in_room: dict[str, tuple[Enclosure, ...]]
        self.rooms: dict[str, Room]
        self.joined: dict[str, list[str]]
        old = before.home if before else None
        if before and old and old.birds is home.birds:
            self.birds, self.companies = before.birds, before.companies
        else:
            self.birds = {b.id: b for b in home.birds or ()}
            self.companies = _grouped(home.birds or (), lambda b: b.enclosure)
        if before and old and old.enclosures is home.enclosures:
            self.cages, self.in_room = before.cages, before.in_room
        else:
            self.cages = {e.id: e for e in home.enclosures or ()}
            self.in_room = _grouped(home.enclosures or (), lambda e: e.room)
        if before and old and old.rooms is home.rooms:
            self.rooms, self.joined = before.rooms, before.joined
        else:
            self.rooms = {r.id: r for r in home.rooms or ()}
            self.joined = _joined(self.rooms)

    def keys(self, per: Per) -> Iterable[str]:
        """Ids of the things there is a view of."""
        tables: dict[Per, Iterable[str]] = {
            "household": ("household",),
            "room": self.rooms,
            "enclosure": self.cages,
            "bird": self.birds,
        }
        return tables[per]

    def view(self, per: Per, id: str) -> View:
        """The view of one thing."""
        common = Common(self.home, whole=per == "household")
        if per == "household":
            return HouseholdView(common, self.today, self.companies)
        if per == "bird":
            bird = self.birds[id]
            cage_of = noted(self.cages.get(bird.enclosure or ""), "enclosure", common.looked)
            return BirdView(common, self.today, bird, self._mates(bird), cage_of)
        if per == "enclosure":
            cage = self.cages[id]
            room = noted(self.rooms.get(cage.room or ""), "room", common.looked)
            here = noted(cage, "enclosure", common.looked) or cage
            return EnclosureView(common, self.today, here, self.companies.get(id, ()), room, self._near(cage))
        inside = self.in_room.get(id, ())
        birds = tuple(b for e in inside for b in self.companies.get(e.id, ()))
        near_ids = self.joined[id]
        others = tuple(r for key, r in self.rooms.items() if key != id and key not in near_ids)
        return RoomView(
            common, self.today, self.rooms[id], inside, birds, tuple(self.rooms[n] for n in near_ids), others
        )

    def _mates(self, bird: Bird) -> tuple[Bird, ...]:
        return tuple(m for m in self.companies.get(bird.enclosure or "", ()) if m is not bird)

    def _near(self, cage: Enclosure) -> tuple[Room, ...]:
        return tuple(self.rooms[n] for n in self.joined.get(cage.room or "", ()))

    def difference(self, before: "Census", per: Per, id: str) -> set[str] | None:
        """Which fields of a view's enclosure and room changed; None if more than that did."""
        if per == "enclosure" and id in before.cages:
            old, new = before.cages[id], self.cages[id]
            same = _same_items(before.companies.get(id, ()), self.companies.get(id, ())) and _same_items(
                before._near(old), self._near(new)
            )
            cage = changed_fields(old, new, "enclosure")
            room = changed_fields(before.rooms.get(old.room or ""), self.rooms.get(new.room or ""), "room")
            return None if not same or cage is None or room is None or old.room != new.room else cage | room
        if per == "bird" and before.birds.get(id) is self.birds[id]:
            bird = self.birds[id]
            same = _same_items(before._mates(bird), self._mates(bird))
            name = bird.enclosure or ""
            return changed_fields(before.cages.get(name), self.cages.get(name), "enclosure") if same else None
        return None

    def touched(self, before: "Census") -> Callable[[Per, str], bool]:
        """Which views may be made of other parts than before.

        An enclosure's view changes with its birds, its room and the rooms joined to it; a bird's with its enclosure and
        company; a room's with all that stands in it and, as air goes everywhere, with any room.
        """
        cages = _differing(before.cages, self.cages) | _differing(before.companies, self.companies, _same_items)
        rooms = _differing(before.rooms, self.rooms)
        if rooms:
            near = rooms | {n for r in rooms for table in (before, self) for n in table.joined.get(r, ())}
            by_room = {e.id for table in (before, self) for r in near for e in table.in_room.get(r, ())}
        else:
            by_room = set()
        loose = _differing(before.birds, self.birds) if before.birds is not self.birds else set()
        standing = {table.cages[c].room for c in cages for table in (before, self) if c in table.cages}

        def may_differ(per: Per, id: str) -> bool:
            if per == "enclosure":
                return id in cages or id in by_room
            if per == "room":
                return bool(rooms) or id in standing
            return per == "bird" and (id in loose or (self.birds[id].enclosure in cages))

        return may_differ


T = TypeVar("T")


def _grouped(items: Iterable[T], key: Callable[[T], str | None]) -> dict[str, tuple[T, ...]]:
    found: dict[str, list[T]] = {}
    for item in items:
        if (name := key(item)) is not None:
            found.setdefault(name, []).append(item)
    return {name: tuple(group) for name, group in found.items()}


def _same_items(a: Any, b: Any) -> bool:
    return len(a) == len(b) and all(x is y for x, y in zip(a, b, strict=True))


def _is(a: Any, b: Any) -> bool:
    return a is b


def _differing(old: dict[str, T], new: dict[str, T], same: Callable[[T, T], bool] = _is) -> set[str]:
    if old is new:
        return set()
    return {k for k in old.keys() | new.keys() if k not in old or k not in new or not same(old[k], new[k])}


def views(home: Household, per: Per, today: date) -> tuple[View, ...]:
    """All views of one kind."""
    census = Census(home, today)
    return tuple(census.view(per, key) for key in census.keys(per))


def _joined(rooms: dict[str, Room]) -> dict[str, list[str]]:
    """Rooms joined by an opening, in both directions."""
    pairs: dict[str, list[str]] = {key: [] for key in rooms}
    for key, room in rooms.items():
        for opening in room.openings or ():
            if opening.to in rooms:
                for a, b in ((key, opening.to), (opening.to, key)):
                    if b not in pairs[a]:
                        pairs[a].append(b)
    return pairs


V = TypeVar("V", bound=View)
Findings = Iterator[Finding]


@dataclass(frozen=True)
class Check(Generic[V]):
    """One question asked of every view of a kind.

    Parameters
    ----------
    id : str
        ``room.what``; stable for ever, never reused.
    title : str
        The question in plain words.
    per : Per
        What it is asked of.
    run : callable
        View -> findings. A generator; it need not fill in check, room, title or subject.
    """

    id: str
    title: str
    per: Per
    run: Callable[[V], Iterable[Finding]]

    @property
    def room(self) -> str:
        """The room of the house the check belongs to."""
        return self.id.partition(".")[0]

    def findings(self, view: V) -> tuple[Finding, ...]:
        """Ask the question of one view."""
        return tuple(
            replace(f, check=self.id, room=self.room, title=self.title, subject=view.subject) for f in self.run(view)
        )


def check(id: str, title: str, per: Per) -> Callable[[Callable[[V], Iterable[Finding]]], Check[V]]:
    """Make a check of a generator function; its docstring says what is compared with what, and why."""

    def wrap(run: Callable[[V], Iterable[Finding]]) -> Check[V]:
        return Check(id, title, per, run)

    return wrap


def cannot_tell(statement: str, *, measure: str, why: str, cites: tuple[Cite, ...], **more: Any) -> Finding:
    """A finding for missing input: never fine, always with what to measure and how."""
    return Finding(severity=Severity.CANNOT_TELL, statement=statement, measure=measure, why=why, cites=cites, **more)
