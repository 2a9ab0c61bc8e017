"""The lamps and heaters of an enclosure, drawn in a row above its front: where they hang is not part of what is told."""

from collections.abc import Sequence

from cuttlebone.base.quantity import Quantity, System
from cuttlebone.home.model import Lamp
from cuttlebone.housing.ruler import ruled
from cuttlebone.pictures.icons import draw_icon
from cuttlebone.pictures.svg import Box, Point, Sheet, box_around

LAMPS_HIGH = 24.0
"""Room a row of lamps takes above the front. [units of the sheet]"""
_SIGN = {"heat lamp": "heat", "heat panel": "heat"}


def draw_lamps(sheet: Sheet, box: Box, lamps: Sequence[Lamp], units: System) -> None:
    """Draw a sign for each lamp above the front, with its line in the list beneath."""
    for index, lamp in enumerate(lamps):
        at = Point(box.x + box.width * (index + 0.5) / len(lamps), box.y - LAMPS_HIGH / 2 - 1)
        draw_icon(sheet, at, _SIGN.get(lamp.kind, "light"), data_item=f"lamp:{lamp.id}")
        sheet.keep(box_around(at, 21, 21))
        sheet.tag(at, sheet.name(f"lamp {lamp.id}", _words(lamp, units)), None, 14)
    if lamps:
        sheet.notes.append("Lamps and heaters are drawn in a row above the cage; where each hangs is not told.")


def _words(lamp: Lamp, units: System) -> str:
    power = f", {Quantity(lamp.power_w, 'W').shown(units)}" if lamp.power_w is not None else ""
    far = (
        f"{Quantity(ruled(lamp.distance_cm, units), 'cm').shown(units)} from the nearest place a bird can be"
        if lamp.distance_cm is not None
        else "how near a bird can come is not told"
    )
    name = {"uv-b": "UV-B lamp", "daylight": "daylight lamp"}.get(lamp.kind, lamp.kind)
    return f"{name}{power}, {far}"
