"""Names of drawn things as they stand in a sentence."""

import re

from cuttlebone.home.model import Perch
from cuttlebone.housing.names import perch_name

_MATERIAL = {"branch": ", a branch", "dowel": ", a dowel", "rope": ", of rope", "plastic": ", of plastic", "concrete": ", of concrete",
             "sandpaper sleeve": ", with a sandpaper sleeve", "swing": ", a swing"}  # fmt: skip


def perch_words(perch: Perch) -> str:
    """A perch by its name and what it is made of.

    Examples
    --------
    >>> perch_words(Perch(id="low", x_cm=1, height_cm=1, material="sandpaper sleeve"))
    'low perch, with a sandpaper sleeve'
    >>> perch_words(Perch(id="middle", x_cm=1, height_cm=1, material="dowel"))
    'middle perch, a dowel'
    """
    return perch_name(perch.id).removeprefix("the ") + _MATERIAL.get(perch.material or "", "")


def capital(words: str) -> str:
    """The words as the beginning of a sentence."""
    return words[:1].upper() + words[1:]


def not_placed(name: str) -> str:
    """That a thing of a room is not drawn.

    Examples
    --------
    >>> not_placed("cat")
    'The cat is not drawn: where it is in the room is not told'
    >>> not_placed("coated drip pans of a cooker")
    'The coated drip pans of a cooker are not drawn: where they are in the room is not told'
    """
    noun = re.split(r" (?:of|in|at|through|that|with|behind|inside|within|facing|on|to) ", name)[0].partition(" (")[0]
    many = noun.endswith("mice") or (noun.endswith("s") and not noun.endswith(("ss", "gas"))) or " and " in noun
    verb, they = ("are", "they are") if many else ("is", "it is")
    return f"The {name} {verb} not drawn: where {they} in the room is not told"
