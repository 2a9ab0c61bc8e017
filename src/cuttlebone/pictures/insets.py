"""The two small pictures beneath a front: how high the enclosure stands, and a bar gap beside a head."""

from collections.abc import Sequence
from dataclasses import dataclass

from cuttlebone.base.quantity import Quantity, System
from cuttlebone.base.source import How
from cuttlebone.facts.schema import Entry
from cuttlebone.home.birds import plural_of
from cuttlebone.home.model import Enclosure
from cuttlebone.housing.ruler import ruled
from cuttlebone.pictures.svg import Box, Point, Sheet

INSET_HIGH = 156.0
"""Height of both insets. [units of the sheet]"""
_SHOULDER = 1.38  # shoulder over waist height of a drawn figure whose own shoulder is not told; for the picture only
_TOP = 1.22  # top of the head over shoulder height; for the picture only
_BAR_MM = 2.0  # how thick a bar is drawn; only the gap is to scale


@dataclass(frozen=True, slots=True)
class Stature:
    """Someone to draw beside an enclosure."""

    waist_cm: float
    shoulder_cm: float | None = None
    whose: str = ""  # whose waist it is, as in "Ada's waist"


def draw_stand(sheet: Sheet, frame: Box, cage: Enclosure, stature: Stature | None, units: System) -> list[str]:
    """Draw how high the enclosure stands above the floor, beside the keeper."""
    sheet.box(frame, "cb-inset", rx=6)
    sheet.text(Point(frame.x + frame.width / 2, frame.y + 16), "How high it stands", "cb-text cb-strong")
    if cage.base_height_cm is None or cage.length_cm is None or cage.height_cm is None:
        sheet.text(Point(frame.x + frame.width / 2, frame.y + 80), "height of its floor")
        sheet.text(Point(frame.x + frame.width / 2, frame.y + 96), "is unknown")
        return ["How high the enclosure stands above the room floor is unknown"]
    tall = max(cage.base_height_cm + cage.height_cm, _TOP * _shoulder(stature) if stature else 0.0, 100.0)
    floor = frame.y + frame.height - 26
    scale = min((frame.height - 54) / tall, (frame.width - 74) / cage.length_cm)
    wide, lifted, high = (v * scale for v in (cage.length_cm, cage.base_height_cm, cage.height_cm))
    left = frame.x + 58
    sheet.line(Point(frame.x + 8, floor), Point(frame.x + frame.width - 8, floor), "cb-floor")
    sheet.box(Box(left, floor - lifted - high, wide, high), "cb-cage", data_part="standing")
    for x in (left + 2, left + wide - 2):
        sheet.line(Point(x, floor - lifted), Point(x, floor), "cb-thin")
    middle = left + wide / 2
    if lifted > 6:
        sheet.arrow(Point(middle, floor), Point(middle, floor - lifted))
    words = f"cage floor at {Quantity(ruled(cage.base_height_cm, units), 'cm').shown(units)}"
    sheet.text(Point(frame.x + frame.width / 2, frame.y + frame.height - 9), words)
    return _draw_keeper(sheet, frame, floor, scale, stature, units)


def _draw_keeper(
    sheet: Sheet, frame: Box, floor: float, scale: float, stature: Stature | None, units: System
) -> list[str]:
    if stature is None:
        return ["The keeper's waist height is unknown, so no waist line is drawn"]
    x, waist = frame.x + 27, floor - stature.waist_cm * scale
    shoulder = floor - _shoulder(stature) * scale
    head = (_TOP - 1) * _shoulder(stature) * scale / 2.6
    for side in (-6, 6):
        sheet.line(Point(x, waist), Point(x + side, floor - 1.5), "cb-person", data_part="leg")
        sheet.line(Point(x + 1.2 * side, shoulder), Point(x + 1.6 * side, waist + 4), "cb-person", data_part="arm")
    sheet.line(Point(x, waist), Point(x, shoulder), "cb-person", data_part="trunk")
    sheet.line(Point(x - 7, shoulder), Point(x + 7, shoulder), "cb-person")
    sheet.add("circle", "cb-person-head", cx=x, cy=shoulder - 1.5 * head, r=head, data_part="person-head")
    sheet.line(Point(frame.x + 8, waist), Point(frame.x + frame.width - 8, waist), "cb-waist", data_part="waist")
    said, whose = Quantity(ruled(stature.waist_cm, units), "cm").shown(units), stature.whose or "the keeper's waist"
    sheet.notes.append(f"The dashed line is {whose}, {said} above the floor.")
    return []


def _shoulder(stature: Stature) -> float:
    """Shoulder height of the figure, so that it is always a whole person."""
    return stature.shoulder_cm or _SHOULDER * stature.waist_cm


def draw_gap(sheet: Sheet, frame: Box, cage: Enclosure, kinds: Sequence[Entry], units: System) -> list[str]:
    """Draw the gap between two bars and the smallest head beside it, at one scale."""
    sheet.box(frame, "cb-inset", rx=6)
    sheet.text(Point(frame.x + frame.width / 2, frame.y + 16), "Bar gap and head", "cb-text cb-strong")
    small = min(kinds, key=lambda kind: kind.number("head_width_mm"), default=None)
    head = small.number("head_width_mm") if small else 0.0
    gap = cage.bar_gap_mm or 0.0
    missing = [] if gap else ["The gap between the bars is unknown"]
    if not gap and not head:
        sheet.text(Point(frame.x + frame.width / 2, frame.y + 84), "both unknown")
        return missing
    scale = (frame.width - 40) / ((gap + 2 * _BAR_MM if gap else 0) + head + 6)
    scale = min(scale, 58 / max(head, 1.0))
    middle, drawn = frame.y + 74, (gap + 2 * _BAR_MM if gap else 0) + head + (6 if gap and head else 0)
    x = frame.x + (frame.width - drawn * scale) / 2
    if gap:
        for left in (x, x + (gap + _BAR_MM) * scale):
            sheet.box(Box(left, frame.y + 28, _BAR_MM * scale, 88), "cb-bar", rx=2, data_part="bar")
        sheet.arrow(Point(x + _BAR_MM * scale, frame.y + 110), Point(x + (_BAR_MM + gap) * scale, frame.y + 110))
        _say(sheet, Point(x + (_BAR_MM + gap / 2) * scale, frame.y + 130), "gap", Quantity(gap, "mm").shown(units))
        x += (gap + 2 * _BAR_MM + 6) * scale
    else:
        sheet.text(Point(frame.x + frame.width / 2, frame.y + 36), "gap unknown")
    if small:
        _draw_head(sheet, Point(x + head / 2 * scale, middle), head / 2 * scale)
        sheet.arrow(Point(x, frame.y + 110), Point(x + head * scale, frame.y + 110))
        _say(sheet, Point(x + head / 2 * scale, frame.y + 130), "head", Quantity(head, "mm").shown(units))
        how = small.fact("head_width_mm").cite.how
        mark = "" if how == How.READ else f" ({how.words})"
        sheet.notes.append(f"Gap and head are drawn at one scale; the head is the {plural_of(small.name, 1)}'s{mark}.")
    return missing


def _say(sheet: Sheet, at: Point, word: str, value: str) -> None:
    sheet.text(at, word, "cb-text cb-soft")
    sheet.text(Point(at.x, at.y + 15), value)


def _draw_head(sheet: Sheet, at: Point, reach: float) -> None:
    """A head seen from the front, of true width."""
    sheet.add("circle", "cb-head", cx=at.x, cy=at.y, r=reach, data_part="head")
    for side in (-0.55, 0.55):
        sheet.add("circle", "cb-eye", cx=at.x + side * reach, cy=at.y - reach * 0.25, r=reach * 0.13)
    sheet.shape((Point(at.x + a * reach, at.y + b * reach) for a, b in ((-0.3, 0), (0.3, 0), (0, 0.55))), "cb-bill")
