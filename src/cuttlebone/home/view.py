"""What a check looks at: one thing of the household with all that bears on it.

A view holds only the parts its check may use. `parts` lists them by identity, so that after a change only the checks whose
parts changed are asked again (see `assess`).
"""

from collections.abc import Callable, Iterable, Iterator
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

Per = Literal["household", "room", "enclosure", "bird"]


class View:
    """Base of the views: the household's common part and the day of the assessment."""

    home: Household
    today: date

    def say(self, value: float, unit: str) -> str:
        """A quantity in the keeper's own units, for a sentence."""
        return Quantity(value, unit).shown(self.home.units)

    @property
    def parts(self) -> tuple[Any, ...]:
        """All that a check on this view may depend on, compared by identity."""
        raise TypeError("a view must name its parts")

    @property
    def subject(self) -> Subject:
        """What findings from this view are about."""
        raise TypeError("a view must name its subject")

    def duties(self, kind: DutyKind, enclosure: str | None = None) -> tuple[Duty, ...]:
        """Duties of a kind that cover an enclosure (or any)."""
        return tuple(
            d
            for d in self.home.duties or ()
            if d.kind == kind and (enclosure is None or d.enclosures is None or enclosure in d.enclosures)
        )

    @property
    def keepers(self) -> tuple[Person, ...]:
        """The people who keep the birds."""
        return tuple(p for p in self.home.people or () if p.role == "keeper")


@dataclass(frozen=True)
class HouseholdView(View):
    """The whole household."""

    home: Household
    today: date

    @property
    def parts(self) -> tuple[Any, ...]:
        """Everything."""
        return (self.home, self.today)

    @property
    def subject(self) -> Subject:
        """The household."""
        return Subject(kind="household", id="household", name=self.home.name)

    @cached_property
    def companies(self) -> dict[str, tuple[Bird, ...]]:
        """Birds by enclosure id."""
        found: dict[str, list[Bird]] = {}
        for bird in self.home.birds or ():
            if bird.enclosure:
                found.setdefault(bird.enclosure, []).append(bird)
        return {key: tuple(birds) for key, birds in found.items()}


@dataclass(frozen=True)
class RoomView(View):
    """One room, its enclosures and the rooms its air is shared with."""

    home: Household  # only the common part: no birds, enclosures or rooms
    today: date
    room: Room
    enclosures: tuple[Enclosure, ...]
    birds: tuple[Bird, ...]
    neighbours: tuple[Room, ...]  # rooms joined to it by an opening, either way round
    others: tuple[Room, ...]  # the rest of the dwelling

    @property
    def parts(self) -> tuple[Any, ...]:
        """The room, what stands and lives in it, and the other rooms."""
        return (
            self.today,
            self.room,
            *self.enclosures,
            *self.birds,
            *self.neighbours,
            *self.others,
            *_common(self.home),
        )

    @property
    def subject(self) -> Subject:
        """The room."""
        return Subject(kind="room", id=self.room.id, name=self.room.name)


@dataclass(frozen=True)
class EnclosureView(View):
    """One enclosure, its company and its room."""

    home: Household  # only the common part: no birds, enclosures or rooms
    today: date
    enclosure: Enclosure
    birds: tuple[Bird, ...]
    room: Room | None
    neighbours: tuple[Room, ...]

    @property
    def parts(self) -> tuple[Any, ...]:
        """The enclosure, its birds, its room and the rooms that share its air."""
        return (self.today, self.enclosure, *self.birds, self.room, *self.neighbours, *_common(self.home))

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

    home: Household  # only the common part: no birds, enclosures or rooms
    today: date
    bird: Bird
    mates: tuple[Bird, ...]  # the others in its enclosure
    enclosure: Enclosure | None

    @property
    def parts(self) -> tuple[Any, ...]:
        """The bird, its mates and its enclosure."""
        return (self.today, self.bird, *self.mates, self.enclosure, *_common(self.home))

    @property
    def subject(self) -> Subject:
        """The bird."""
        return Subject(kind="bird", id=self.bird.id, name=self.bird.name or self.bird.ring or self.bird.id)

    @property
    def kind(self) -> Entry:
        """Its species."""
        return facts.species(self.bird.species)


COMMON = ("name", "units", "country", "region", "latitude", "longitude", "time_zone", "hold_to", "people", "vet", "stores", "spares",
          "kit", "cleaning", "duties")  # fmt: skip


def _common(home: Household) -> tuple[Any, ...]:
    return tuple(getattr(home, field) for field in COMMON)


def views(home: Household, per: Per, today: date) -> tuple[View, ...]:
    """All views of one kind."""
    whole = HouseholdView(home, today)
    if per == "household":
        return (whole,)
    common = home.but(rooms=None, enclosures=None, birds=None)
    rooms = {r.id: r for r in home.rooms or ()}
    cages = {e.id: e for e in home.enclosures or ()}
    if per == "bird":
        return tuple(
            BirdView(common, today, b, tuple(m for m in whole.companies.get(b.enclosure or "", ()) if m is not b),
                     cages.get(b.enclosure or ""))
            for b in home.birds or ()
        )  # fmt: skip
    joined = _joined(rooms)
    if per == "enclosure":
        return tuple(
            EnclosureView(common, today, e, whole.companies.get(e.id, ()), rooms.get(e.room or ""),
                          tuple(rooms[n] for n in joined.get(e.room or "", ())))
            for e in cages.values()
        )  # fmt: skip
    return tuple(_room_view(common, today, whole, r, rooms, joined) for r in rooms.values())


def _room_view(
    common: Household,
    today: date,
    whole: HouseholdView,
    room: Room,
    rooms: dict[str, Room],
    joined: dict[str, list[str]],
) -> RoomView:
    inside = tuple(e for e in whole.home.enclosures or () if e.room == room.id)
    birds = tuple(b for e in inside for b in whole.companies.get(e.id, ()))
    near = joined.get(room.id, [])
    others = tuple(r for key, r in rooms.items() if key != room.id and key not in near)
    return RoomView(common, today, room, inside, birds, tuple(rooms[n] for n in near), others)


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
