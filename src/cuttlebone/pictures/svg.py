"""The sheet every picture is drawn on: SVG elements, numbers, text, and places that do not collide.

A sheet is 360 units wide, so that on a small phone one unit is about one pixel and 12-unit text can be read. Colours come
from the classes in `style`; no element carries a style of its own, so a page may forbid inline styles.
"""

import re
import unicodedata
import xml.etree.ElementTree as ET
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

WIDTH = 360.0
"""Width of every sheet, in its own units."""

_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")


class Point(NamedTuple):
    """A place on the sheet."""

    x: float
    y: float


class Box(NamedTuple):
    """A rectangle on the sheet, by its upper left corner."""

    x: float
    y: float
    width: float
    height: float

    def meets(self, other: "Box") -> bool:
        """Whether two boxes share more than an edge."""
        return (
            self.x < other.x + other.width
            and other.x < self.x + self.width
            and self.y < other.y + other.height
            and other.y < self.y + self.height
        )

    def within(self, other: "Box") -> bool:
        """Whether this box lies inside the other."""
        return (
            self.x >= other.x
            and self.y >= other.y
            and self.x + self.width <= other.x + other.width
            and self.y + self.height <= other.y + other.height
        )


@dataclass(frozen=True, slots=True)
class Key:
    """One line of the list beneath a picture: its letter in the picture, and what it is."""

    letter: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A picture with what belongs beneath it as text.

    Parameters
    ----------
    svg : str
        The picture without its own style sheet, to be put into a page that has `style.STYLE`.
    title, says : str
        What it shows, shortly and in a sentence or two; also inside the picture for screen readers.
    keys : tuple of Key
        What the letters in the picture mean.
    notes : tuple of str
        What else there is to say of it.
    missing : tuple of str
        What could not be drawn, and why.
    drawn : bool
        False if there is nothing to scale in the picture.
    """

    svg: str
    title: str
    says: str
    keys: tuple[Key, ...] = ()
    notes: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    drawn: bool = True

    def standalone(self) -> str:
        """The picture as a file of its own."""
        from cuttlebone.pictures.style import STYLE

        head, mark, rest = self.svg.partition(">")
        return f'<?xml version="1.0" encoding="UTF-8"?>\n{head}{mark}<style>{STYLE}</style>{rest}'


def clean(words: str) -> str:
    """Text that XML can hold: characters no document may contain become a replacement mark."""
    return _UNPRINTABLE.sub("\ufffd", words)


def num(value: float) -> str:
    """A number for an attribute: two decimals at most.

    Examples
    --------
    >>> num(3.0), num(0.125), num(-0.001)
    ('3', '0.12', '0')
    """
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def slug(words: str) -> str:
    """A name for use in an id.

    Examples
    --------
    >>> slug("The flight's  room")
    'the-flight-s-room'
    """
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-") or "x"


def letter(index: int) -> str:
    """The letter of the nth thing: a to z, then aa, ab ...

    Examples
    --------
    >>> letter(0), letter(25), letter(26), letter(53)
    ('a', 'z', 'aa', 'bb')
    """
    head, tail = divmod(index, 26)
    return (letter(head - 1) if head else "") + chr(ord("a") + tail)


def box_around(at: Point, width: float, height: float) -> Box:
    """A box with its middle at a point."""
    return Box(at.x - width / 2, at.y - height / 2, width, height)


@dataclass
class Sheet:
    """A growing SVG picture.

    Parameters
    ----------
    key : str
        Start of every id in it; unique on the page.
    height : float
        Height of the sheet in its own units.
    """

    key: str
    height: float
    root: ET.Element = field(init=False)
    taken: list[Box] = field(default_factory=list)
    used: dict[str, str] = field(default_factory=dict)  # letter by the thing that has it
    keys: list[Key] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.key = slug(self.key)
        self.root = ET.Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "class": "cb-drawing",
                "viewBox": f"0 0 {num(WIDTH)} {num(self.height)}",
                "role": "img",
                "aria-labelledby": f"{self.key}-title {self.key}-desc",
            },
        )

    def add(self, tag: str, cls: str = "", /, **attributes: float | str) -> ET.Element:
        """Add an element; ``data_part`` becomes ``data-part``."""
        return self.add_to(self.root, tag, cls, **attributes)

    def add_to(self, parent: ET.Element, tag: str, cls: str = "", /, **attributes: float | str) -> ET.Element:
        """Add an element inside another."""
        made = {"class": cls} if cls else {}
        for name, value in attributes.items():
            made[name.replace("_", "-")] = clean(value) if isinstance(value, str) else num(value)
        return ET.SubElement(parent, tag, made)

    def line(self, a: Point, b: Point, cls: str = "cb-thin", **more: float | str) -> ET.Element:
        """A straight line."""
        return self.add("line", cls, x1=a.x, y1=a.y, x2=b.x, y2=b.y, **more)

    def box(self, box: Box, cls: str, **more: float | str) -> ET.Element:
        """A rectangle."""
        return self.add("rect", cls, x=box.x, y=box.y, width=box.width, height=box.height, **more)

    def shape(self, points: Iterable[Point], cls: str, **more: float | str) -> ET.Element:
        """A closed polygon."""
        return self.add("polygon", cls, points=" ".join(f"{num(p.x)},{num(p.y)}" for p in points), **more)

    def text(
        self, at: Point, words: str, cls: str = "cb-text", anchor: str = "middle", **more: float | str
    ) -> ET.Element:
        """A line of text; its place is kept free of marks."""
        made = self.add("text", cls, x=at.x, y=at.y, text_anchor=anchor, **more)
        made.text = clean(words)
        wide = 6.6 * len(words)
        left = {"start": at.x, "middle": at.x - wide / 2, "end": at.x - wide}[anchor]
        self.taken.append(Box(left, at.y - 10, wide, 13))
        return made

    def keep(self, box: Box) -> None:
        """Keep a part of the sheet free of marks."""
        self.taken.append(box)

    def free(self, near: Point, width: float, height: float, inside: Box | None = None, start: float = 0.0) -> Point:
        """The nearest place to a point where a box of this size meets nothing; the point itself if all is full."""
        whole = inside or Box(1, 1, WIDTH - 2, self.height - 2)
        for reach in (start, *(start + 4 * i for i in range(1, 20))):
            for across, down in _ROUND if reach else ((0, 0),):
                box = box_around(Point(near.x + across * reach, near.y + down * reach), width, height)
                if box.within(whole) and not any(box.meets(other) for other in self.taken):
                    self.taken.append(box)
                    return Point(box.x + width / 2, box.y + height / 2)
        return near

    def name(self, thing: str, words: str) -> str:
        """The letter of a thing, listed beneath the picture once."""
        if thing not in self.used:
            self.used[thing] = letter(len(self.used))
            self.keys.append(Key(self.used[thing], clean(words)))
        return self.used[thing]

    def tag(self, at: Point, mark: str, inside: Box | None = None, start: float = 11.0) -> None:
        """A small round tag with a letter near a point, joined to it by a hair line."""
        wide = 15.0 if len(mark) == 1 else 20.0
        spot = self.free(at, wide + 1, 16, inside, start)
        if abs(spot.x - at.x) + abs(spot.y - at.y) > 18:  # close by needs no line
            self.line(at, spot, "cb-hair")
        self.box(box_around(spot, wide, 15), "cb-tag", rx=7.5)
        made = self.add("text", "cb-tag-text", x=spot.x, y=spot.y + 4, text_anchor="middle")
        made.text = mark

    def arrow(self, a: Point, b: Point, cls: str = "cb-measure", both: bool = True) -> None:  # noqa: FBT001, FBT002
        """A line with a small head at its end, or at both ends."""
        self.line(a, b, cls)
        for tip, tail in ((b, a), (a, b)) if both else ((b, a),):
            self.shape(_head(tip, tail), f"{cls}-head")

    def finish(self, title: str, says: str, missing: Sequence[str] = (), *, drawn: bool = True) -> Drawing:
        """Close the sheet."""
        for index, (tag, words) in enumerate((("title", title), ("desc", says))):
            made = ET.Element(tag, {"id": f"{self.key}-{tag}"})
            made.text = clean(words)
            self.root.insert(index, made)
        svg = ET.tostring(self.root, encoding="unicode")
        return Drawing(
            svg=svg,
            title=clean(title),
            says=clean(says),
            keys=tuple(self.keys),
            notes=tuple(map(clean, self.notes)),
            missing=tuple(map(clean, missing)),
            drawn=drawn,
        )


_ROUND = ((0, -1), (0.8, -0.8), (-0.8, -0.8), (1, 0), (-1, 0), (0.8, 0.8), (-0.8, 0.8), (0, 1))


def _head(tip: Point, tail: Point, size: float = 5.0) -> tuple[Point, Point, Point]:
    long = max(((tip.x - tail.x) ** 2 + (tip.y - tail.y) ** 2) ** 0.5, 1e-6)
    ux, uy = (tail.x - tip.x) / long * size, (tail.y - tip.y) / long * size
    return tip, Point(tip.x + ux - uy * 0.5, tip.y + uy + ux * 0.5), Point(tip.x + ux + uy * 0.5, tip.y + uy - ux * 0.5)


def not_drawn(key: str, title: str, missing: Sequence[str]) -> Drawing:
    """A plain box that says why there is nothing to see."""
    sheet = Sheet(key, 46.0 + 18 * len(missing))
    sheet.box(Box(4, 4, WIDTH - 8, sheet.height - 8), "cb-empty", rx=6)
    sheet.text(Point(WIDTH / 2, 26), "Not drawn to scale yet:", "cb-text cb-strong")
    for row, words in enumerate(missing):
        sheet.text(Point(WIDTH / 2, 44 + 18 * row), words)
    return sheet.finish(title, "Not drawn: " + " ".join(f"{m}." for m in missing), missing, drawn=False)
