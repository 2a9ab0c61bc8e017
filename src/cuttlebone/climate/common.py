"""What the checks of this room share."""

import re
from collections.abc import Callable, Iterable

from cuttlebone import facts
from cuttlebone.base.source import Cite
from cuttlebone.facts.schema import Entry
from cuttlebone.home import change
from cuttlebone.home.birds import inside
from cuttlebone.home.change import Change
from cuttlebone.home.model import Room, Thing
from cuttlebone.home.view import RoomView, View


def cite(*rules: str) -> tuple[Cite, ...]:
    """Sources of rules of this room, by the part of the id after the dot, each once."""
    return tuple(dict.fromkeys(facts.rule(f"climate.{rule}").cite for rule in rules))


def limit(rule: str) -> float:
    """The number of a rule of this room."""
    return facts.rule(f"climate.{rule}").number


def source_of(equation: str) -> Cite:
    """Where an equation comes from."""
    return facts.find("equation", equation).fact("formula").cite


def formula(equation: str) -> str:
    """An equation as it is shown."""
    return facts.find("equation", equation).text("formula")


def difference(view: View, kelvin: float) -> str:
    """A difference of temperatures in the keeper's own degrees: it has no zero to shift."""
    return f"{kelvin * 1.8:.0f} °F" if view.home.units == "imperial" else f"{kelvin:.1f}".removesuffix(".0") + " °C"


def kinds_of(view: RoomView) -> tuple[Entry, ...]:
    """The species living in a room."""
    return tuple(facts.species(name) for name in dict.fromkeys(b.species for b in view.birds))


def listed(words: Iterable[str]) -> str:
    """Words as a list in a sentence.

    Examples
    --------
    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    words = list(dict.fromkeys(words))
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)


def lower_first(text: str) -> str:
    """A name inside a sentence: small first letter, but abbreviations stay."""
    return text if text[1:2].isupper() else text[:1].lower() + text[1:]


_ARTICLES = ("The", "A", "An", "Our", "My")
_PLAIN = re.compile(r"[A-Z][a-z]+( room| bedroom| kitchen| hall| study)?")


def called(room: Room) -> str:
    """A room inside a sentence: "the sitting room"; a name of the keeper's own making stays as written.

    Examples
    --------
    >>> called(Room(id="r", name="Sitting room")), called(Room(id="r", name="The room")), called(Room(id="r", name="Anna's room"))
    ('the sitting room', 'the room', "Anna's room")
    """
    if room.name.split(" ")[0] in _ARTICLES:
        return inside(room.name)
    return f"the {room.name.lower()}" if _PLAIN.fullmatch(room.name) else room.name


def sentence(text: str) -> str:
    """Text with a capital first letter."""
    return text[:1].upper() + text[1:]


def _things(room_id: str, make: Callable[[tuple[Thing, ...]], tuple[Thing, ...]]) -> Change:
    def swap(room: Room) -> Room:
        changed: Room = room.but(things=make(room.things or ()))
        return changed

    return change.room_by(room_id, swap)


def without(found: Iterable[tuple[Room, Thing]]) -> Change:
    """Take these things out of the dwelling."""
    gone = [(room.id, thing.id) for room, thing in found]
    rooms = dict.fromkeys(room for room, _ in gone)

    def kept(room: str) -> Callable[[tuple[Thing, ...]], tuple[Thing, ...]]:
        return lambda things: tuple(t for t in things if (room, t.id) not in gone)

    return change.both(*(_things(room, kept(room)) for room in rooms))


def unused(found: Iterable[tuple[Room, Thing]]) -> Change:
    """Stop using these things while birds live here."""
    still = [(room.id, thing.id) for room, thing in found]
    rooms = dict.fromkeys(room for room, _ in still)

    def stopped(room: str) -> Callable[[tuple[Thing, ...]], tuple[Thing, ...]]:
        return lambda things: tuple(t.but(used=False) if (room, t.id) in still else t for t in things)

    return change.both(*(_things(room, stopped(room)) for room in rooms))
