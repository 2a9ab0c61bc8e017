"""Pictures drawn to scale: parts of a household in, SVG text out."""

from cuttlebone.pictures.elevation import Flight, elevation
from cuttlebone.pictures.insets import Stature
from cuttlebone.pictures.marks import SHAPE, Numbered, css, sign
from cuttlebone.pictures.room_plan import room_plan
from cuttlebone.pictures.style import STYLE
from cuttlebone.pictures.sun import Patch, sun_patches
from cuttlebone.pictures.svg import Drawing, Key

__all__ = [
    "SHAPE",
    "STYLE",
    "Drawing",
    "Flight",
    "Key",
    "Numbered",
    "Patch",
    "Stature",
    "css",
    "elevation",
    "room_plan",
    "sign",
    "sun_patches",
]
