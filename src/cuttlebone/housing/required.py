"""What a named standard asks for a company: a list of plain requirements."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil
from typing import Literal

from cuttlebone import facts
from cuttlebone.base.errors import BadFacts
from cuttlebone.base.quantity import Quantity
from cuttlebone.base.source import Cite
from cuttlebone.facts.schema import Entry
from cuttlebone.housing.company import Company

What = Literal["floor area", "volume", "length", "width", "height", "shortest side", "length to width", "birds together",
               "base height", "free flight", "feeders", "round cage", "diameter"]  # fmt: skip
SIZES: tuple[What, ...] = ("length", "width", "height", "shortest side", "floor area", "volume", "length to width")
"""What a larger cage changes; the rest are duties."""

_UNITS: dict[What, str] = {"floor area": "m2", "volume": "m3", "length to width": "", "birds together": "", "free flight": "h a day",
                           "feeders": "", "round cage": ""}  # fmt: skip
_BAND = re.compile(r"to (\d+) birds: ([\d.]+) m2, (\d+) cm high, (\d+) feeders")


@dataclass(frozen=True, slots=True, kw_only=True)
class Requirement:
    """One number a standard asks for.

    Parameters
    ----------
    what : str
        The quantity, such as ``floor area``.
    least, most : float, optional
        The limit, in `unit`; one of the two.
    equation : str
        How the number comes about, where it is not simply printed.
    reading : str
        Which reading of the text it belongs to, where there are several; empty if the text is plain.
    waived_at : tuple
        It no longer applies once all of these are reached.
    cite : Cite
        Where it stands.
    """

    what: What
    least: float | None = None
    most: float | None = None
    equation: str = ""
    reading: str = ""
    waived_at: tuple[tuple[What, float], ...] = ()
    cite: Cite

    @property
    def unit(self) -> str:
        """The unit the standard uses for it."""
        return _UNITS.get(self.what, "cm")

    @property
    def limit(self) -> float:
        """The number asked."""
        return self.least if self.least is not None else self.most or 0.0

    @property
    def quantity(self) -> Quantity:
        """The number asked, for showing."""
        return Quantity(self.limit, self.unit)

    def met_by(self, measured: float) -> bool:
        """Whether a measured value meets it (to a millionth, for rounding)."""
        if self.most is not None:
            return measured <= self.most + 1e-6
        return measured >= self.limit - 1e-6


@dataclass(frozen=True, slots=True)
class _Reading:
    """One way to read a standard's size row."""

    label: str = ""
    other_size: bool = False
    other_share: bool = False


def required(standard: Entry, company: Company) -> tuple[Requirement, ...]:
    """What a standard asks for this company.

    Parameters
    ----------
    standard : Entry
        One row of a named standard.
    company : Company
        The birds that count; the largest bird and the total number decide.

    Returns
    -------
    tuple of Requirement
        Sizes first, then duties. Where a text can be read in several ways, each reading's requirements carry its name.

    Examples
    --------
    >>> asks = required(facts.standard("se-l80-small"), Company.alike("zebra_finch", 11))
    >>> [f"{a.what}: {a.quantity}" for a in asks][:2]
    ['floor area: 0.33 m²', 'length: 70 cm']
    """
    sets = readings(standard, company)
    if len(sets) == 1:
        return sets[0]
    common = tuple(r for r in sets[0] if all(any(_same(r, other) for other in s) for s in sets))
    own = [r for s in sets for r in s if not any(_same(r, c) for c in common)]
    return (*own, *(replace(r, reading="") for r in common))


def _same(a: Requirement, b: Requirement) -> bool:
    return replace(a, reading="") == replace(b, reading="")


def readings(standard: Entry, company: Company) -> tuple[tuple[Requirement, ...], ...]:
    """Every reading of a standard, each as a full list of requirements."""
    sets = []
    for reading in _readings(standard, company):
        sizes = (*_floor(standard, company, reading), *_sides(standard, company, reading))
        sets.append(tuple(replace(r, reading=reading.label) for r in (*sizes, *_duties(standard, company))))
    return tuple(sets)


def _readings(standard: Entry, company: Company) -> Iterator[_Reading]:
    """The readings that differ for this company; one without a name if the text is plain."""
    sizes = [False, True] if standard.has("area_alt_m2") else [False]
    shares = [False, True] if standard.has("area_per_bird_alt_m2") and _share_matters(standard, company.n) else [False]
    for other_size in sizes:
        for other_share in shares:
            said = []
            if len(sizes) > 1:
                area = standard.number("area_alt_m2" if other_size else "area_m2")
                said.append(f"{area:g} m2 to begin with")
            if len(shares) > 1:
                said.append(_share_words(standard, other=other_share))
            yield _Reading(", ".join(said), other_size, other_share)


def _share_matters(standard: Entry, n: int) -> bool:
    """Whether the two readings of the share give different floors for this many birds."""
    floors = {round(_area(standard, n, _Reading(other_share=other))[0], 9) for other in (False, True)}
    return len(floors) > 1


def _share_words(standard: Entry, *, other: bool) -> str:
    if standard.text("area_mode") == "stepped":
        return "more floor for each further bird" if other else "more floor for each further pair"
    return f"{standard.number('area_per_bird_alt_m2' if other else 'area_per_bird_m2'):g} m2 for each bird"


def _area(standard: Entry, n: int, reading: _Reading) -> tuple[float, str]:
    """Floor asked for n birds, and how it comes about. [m2]"""
    mode = standard.text("area_mode")
    base = standard.number("area_alt_m2" if reading.other_size else "area_m2")
    more = max(0.0, n - standard.number("birds_included")) if standard.has("birds_included") else 0.0
    if mode == "largest":
        share = standard.number("area_per_bird_alt_m2" if reading.other_share else "area_per_bird_m2")
        return max(base, share * n), f"max({base:g}, {share:g} x {n})"
    if mode == "added":
        share = standard.number("area_per_bird_m2")
        return base + share * more, f"{base:g} + {share:g} x {more:g}"
    if mode == "stepped" and reading.other_share:
        # the share is printed for the first size; for a second size it stays the same part of the floor
        share = standard.number("area_per_bird_alt_m2") * base / standard.number("area_m2")
        return base + share * more, f"{base:g} + {share:g} x {more:g}"
    if mode == "stepped":
        part, steps = standard.number("step_share"), _steps(standard, n)
        return base * (1 + part * steps), f"{base:g} x (1 + {part:g} x {steps})"
    return base, ""


def _steps(standard: Entry, n: int) -> int:
    """Steps of further birds begun."""
    more = max(0.0, n - standard.number("birds_included"))
    return ceil(more / standard.number("birds_per_step") - 1e-9)


def _floor(standard: Entry, company: Company, reading: _Reading) -> Iterator[Requirement]:
    """Floor area, and the volume, height and feeders that hang on it."""
    if standard.text("area_mode") == "bands":
        yield from _band(standard, company.n)
        return
    if not standard.has("area_m2"):
        return
    area, equation = _area(standard, company.n, reading)
    cite = standard.fact("area_alt_m2" if reading.other_size else "area_m2").cite
    yield Requirement(what="floor area", least=area, equation=equation, cite=cite)
    if standard.has("volume_per_area_m"):
        per = standard.fact("volume_per_area_m")
        yield Requirement(
            what="volume", least=area * per.number, equation=f"floor area asked x {per.number:g} m", cite=per.cite
        )


def _band(standard: Entry, n: int) -> Iterator[Requirement]:
    bands = []
    for text in standard.words("bands"):
        if not (match := _BAND.fullmatch(text)):
            raise BadFacts(
                "standards.toml",
                standard.id,
                "bands",
                f"{text!r} is not like 'to 6 birds: 1.0 m2, 100 cm high, 2 feeders'",
            )
        bands.append(tuple(float(part) for part in match.groups()))
    birds, area, height, feeders = next((b for b in bands if n <= b[0]), bands[-1])
    over = max(0.0, n - birds)
    share, each = standard.number("area_per_bird_m2"), standard.number("birds_per_step")
    cite = standard.fact("bands").cite
    equation = f"{area:g} + {share:g} x {over:g}" if over else ""
    yield Requirement(what="floor area", least=area + share * over, equation=equation, cite=cite)
    yield Requirement(what="height", least=height, cite=cite)
    yield Requirement(what="feeders", least=feeders + ceil(over / each), cite=cite)


def _sides(standard: Entry, company: Company, reading: _Reading) -> Iterator[Requirement]:
    """Length, width, height and shape."""
    prefix = "alt_" if reading.other_size else ""
    length = f"{prefix}length_cm"
    if standard.has(length):
        yield Requirement(what="length", least=standard.number(length), cite=standard.fact(length).cite)
    body, span = company.largest.body_length_cm, company.widest_span_cm
    yield from _largest(standard, "width", ((f"{prefix}width_cm", 1.0, ""), ("width_body_lengths", body, "body lengths"),
                                            ("width_wingspans", span, "wingspans"),
                                            ("width_wingspan_sum", company.span_sum_cm, "times all wingspans added")))  # fmt: skip
    yield from _largest(
        standard, "height", ((f"{prefix}height_cm", 1.0, ""), ("height_body_lengths", body, "body lengths"))
    )
    yield from _largest(standard, "shortest side", (("min_side_wingspans", span, "wingspan"),))
    if standard.has("ratio_max"):
        fact = standard.fact("ratio_max")
        yield Requirement(
            what="length to width", most=fact.number, waived_at=tuple(_ratio_waiver(standard)), cite=fact.cite
        )


def _largest(standard: Entry, what: What, terms: tuple[tuple[str, float, str], ...]) -> Iterator[Requirement]:
    """The largest of several terms a side is asked to reach; nothing if the standard has none of them."""
    found = [(standard.number(name) * size, name, size, words) for name, size, words in terms if standard.has(name)]
    if not found:
        return
    value, name, size, words = max(found)
    factor = standard.number(name)
    equation = f"{factor:g} {words} of {size:g} cm" if words else ""
    yield Requirement(what=what, least=value, equation=equation, cite=standard.fact(name).cite)


def _ratio_waiver(standard: Entry) -> Iterator[tuple[What, float]]:
    if standard.has("ratio_if_area_below_m2"):
        yield "floor area", standard.number("ratio_if_area_below_m2")
    if standard.has("ratio_unless_width_cm"):
        yield "width", standard.number("ratio_unless_width_cm")


_PLAIN_DUTIES: tuple[tuple[What, str], ...] = (
    ("birds together", "min_birds"),
    ("base height", "base_height_cm"),
    ("feeders", "feeders"),
)


def _duties(standard: Entry, company: Company) -> Iterator[Requirement]:
    """What is asked beyond the size."""
    for what, name in _PLAIN_DUTIES:
        if standard.has(name):
            yield Requirement(what=what, least=standard.number(name), cite=standard.fact(name).cite)
    if standard.has("free_flight_h"):
        fact = standard.fact("free_flight_h")
        yield Requirement(
            what="free flight", least=fact.number, waived_at=tuple(_flight_waiver(standard, company.n)), cite=fact.cite
        )
    if standard.flag("no_round"):
        cite, large = standard.fact("no_round").cite, facts.rule("housing.round_from")
        # only the text that says so lets a round enclosure pass for its size
        waiver: tuple[tuple[What, float], ...] = (
            (("diameter", large.number),) if cite.source == large.cite.source else ()
        )
        yield Requirement(what="round cage", most=0, waived_at=waiver, cite=cite)


def _flight_waiver(standard: Entry, n: int) -> Iterator[tuple[What, float]]:
    """Floor and volume that stand in for free flight, grown with the company like the floor itself."""
    if standard.has("else_area_m2"):
        grown = 1 + standard.number("step_share") * _steps(standard, n)
        yield "floor area", standard.number("else_area_m2") * grown
        yield "volume", standard.number("else_volume_m3") * grown
