"""Enclosures and rooms that note which of their fields were looked at.

`assess` tries every remedy by asking again. Most remedies change one field of one enclosure, and most checks of that enclosure
never look at it. A noted part behaves as the part itself; it only adds each field read to a set.
"""

from typing import Any, TypeVar

from cuttlebone.home.model import Enclosure, Part, Room

_NOTES = "_noted_in"
P = TypeVar("P", bound=Part)


class _Noting:
    """Adds the names of the fields read to the set kept beside the instance."""

    def __getattribute__(self, name: str) -> Any:
        if name in _FIELDS[type(self)]:
            prefix, looked = object.__getattribute__(self, "__pydantic_private__")[_NOTES]
            looked.add(f"{prefix}.{name}")
        elif name == "__dict__":  # compared, hashed or copied whole: all of it was looked at
            prefix, looked = object.__getattribute__(self, "__pydantic_private__")[_NOTES]
            looked.update(f"{prefix}.{field}" for field in _FIELDS[type(self)])
        return super().__getattribute__(name)

    def but(self, **changes: Any) -> Any:
        """A copy with some fields changed: a plain part again, and all of this one was looked at."""
        return _PLAIN[type(self)].model_construct(**{**self.__dict__, **changes})


class NotedEnclosure(_Noting, Enclosure):
    """An enclosure that notes what is read of it."""


class NotedRoom(_Noting, Room):
    """A room that notes what is read of it."""


_PLAIN: dict[type, type[Part]] = {NotedEnclosure: Enclosure, NotedRoom: Room}
_FIELDS = {noted: frozenset(plain.model_fields) for noted, plain in _PLAIN.items()}
_NOTED = {plain: noted for noted, plain in _PLAIN.items()}


def noted(part: P | None, prefix: str, looked: set[str]) -> P | None:
    """The part, noting into `looked` each field read as ``prefix.field``."""
    if part is None:
        return None
    copy = part.model_copy()
    object.__setattr__(copy, "__class__", _NOTED[type(part)])
    object.__setattr__(copy, "__pydantic_private__", {_NOTES: (prefix, looked)})
    return copy


def changed_fields(old: Part | None, new: Part | None, prefix: str) -> set[str] | None:
    """Names of the fields that differ, as `noted` writes them; None if it is not the same thing any more."""
    if old is new:
        return set()
    if old is None or new is None:
        return None
    return {f"{prefix}.{f}" for f in type(old).model_fields if getattr(old, f) is not getattr(new, f)}
