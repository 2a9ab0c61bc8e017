"""Dishes under perches: where droppings fall."""

from dataclasses import dataclass
from math import hypot
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.home import change
from cuttlebone.home.model import Dish, Enclosure, Perch
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check


def dropping_band_cm(body_length_cm: float) -> float:
    """How far to each side of a perch droppings of a bird of this length fall. [cm]

    Parameters
    ----------
    body_length_cm : float
        Bill tip to tail tip. [cm]

    Examples
    --------
    >>> round(dropping_band_cm(11), 2)
    5.85
    """
    return (
        facts.rule("hygiene.dropping_band_share").number * body_length_cm
        + facts.rule("hygiene.dropping_band_margin").number
    )


def distance_cm(perch: Perch, x_cm: float, y_cm: float | None, width_cm: float | None) -> tuple[float, float]:
    """Least and greatest horizontal distance from a place to a perch that what is not told leaves open. [cm]

    Parameters
    ----------
    perch : Perch
        The perch; one given only by its x runs from front to back.
    x_cm, y_cm : float
        The place; y may be unknown. [cm]
    width_cm : float, optional
        Depth of the enclosure, for places that are not told. [cm]

    Examples
    --------
    >>> distance_cm(Perch(id="a", x_cm=40, height_cm=60), 45, None, 50)
    (5.0, 5.0)
    """
    x_end = perch.x_end_cm if perch.x_end_cm is not None else perch.x_cm
    if perch.y_cm is None and perch.x_end_cm is None:  # from front to back, so only x matters
        gap = abs(x_cm - perch.x_cm)
        return gap, gap
    if (
        perch.y_cm is None or y_cm is None
    ):  # depth unknown: it may be right above, or as far off as the enclosure is deep
        low, high = sorted((perch.x_cm, x_end))
        gap = max(low - x_cm, 0.0, x_cm - high)
        return gap, hypot(gap, width_cm) if width_cm is not None else float("inf")
    y_end = perch.y_end_cm if perch.y_end_cm is not None else perch.y_cm
    dx, dy = x_end - perch.x_cm, y_end - perch.y_cm
    square = dx * dx + dy * dy
    along = 0.0 if square == 0 else max(0.0, min(1.0, ((x_cm - perch.x_cm) * dx + (y_cm - perch.y_cm) * dy) / square))
    gap = hypot(x_cm - perch.x_cm - along * dx, y_cm - perch.y_cm - along * dy)
    return gap, gap


@dataclass(frozen=True, slots=True)
class _Fouled:
    """One dish below one perch."""

    dish: Dish
    perch: Perch
    off_cm: float
    reach_cm: float


def _judge(dish: Dish, cage: Enclosure, band: float) -> tuple[list[_Fouled], list[str]]:
    """Perches whose droppings reach this dish, and what must be measured to tell."""
    if dish.covered:
        return [], []
    if dish.x_cm is None or dish.height_cm is None:
        return [], [f"the place and height of the {dish.holds} dish {dish.id!r}, and whether it is covered"]
    found, ask = [], []
    for perch in cage.perches or ():
        if perch.height_cm <= dish.height_cm:
            continue
        low, high = distance_cm(perch, dish.x_cm, dish.y_cm, cage.width_cm)
        reach = band + (dish.width_cm or 0) / 2
        if high < reach and dish.covered is False:
            found.append(_Fouled(dish, perch, low, reach))
        elif low < reach:
            ask.append(
                f"how far in from the front the {dish.holds} dish {dish.id!r} and the perch {perch.id!r} are, and whether the dish is covered"
            )
        elif dish.width_cm is None and low < band + 10:
            ask.append(f"the width of the {dish.holds} dish {dish.id!r}")
    return found, ask


def _clear_x(dish: Dish, cage: Enclosure, band: float) -> float | None:
    """Nearest place along the cage, at the same height and depth, that no droppings or other dish reach."""
    if dish.x_cm is None or cage.length_cm is None or dish.width_cm is None:
        return None
    half = dish.width_cm / 2
    others = [d for d in cage.dishes or () if d.id != dish.id and d.x_cm is not None]

    def clear(x: float) -> bool:
        moved = dish.but(x_cm=x, covered=False)
        apart = all(abs(x - (d.x_cm or 0)) > half + (d.width_cm or 8) / 2 for d in others)
        return apart and _judge(moved, cage, band) == ([], [])

    places = (float(x) for x in range(round(half), int(cage.length_cm - half) + 1))
    return min((x for x in places if clear(x)), key=lambda x: abs(x - (dish.x_cm or 0)), default=None)


def _set_dishes(cage_id: str, new: dict[str, Dish]) -> change.Change:
    return change.enclosure_by(cage_id, lambda e: e.but(dishes=tuple(new.get(d.id, d) for d in e.dishes or ())))


def _remedies(view: EnclosureView, fouled: list[_Fouled], band: float) -> tuple[Remedy, ...]:
    cage = view.enclosure
    dishes = {f.dish.id: f.dish for f in fouled}
    names = " and ".join(f"the {d.holds} dish {d.id!r}" for d in dishes.values())
    cover = Remedy(id="cover-dish", title=f"Put a hood over {names}, or use a covered drinker or a dish hung outside.", cost=Cost(3 * len(dishes), 8 * len(dishes)),
                   change=_set_dishes(cage.id, {k: d.but(covered=True) for k, d in dishes.items()}),
                   caution="Watch that every bird finds and uses it on the first day.")  # fmt: skip
    moved: dict[str, Dish] = {}
    for key, dish in dishes.items():
        x = _clear_x(dish, cage.but(dishes=tuple(moved.get(d.id, d) for d in cage.dishes or ())), band)
        if x is None:
            return (cover,)
        moved[key] = dish.but(x_cm=x)
    where = " and ".join(
        f"the {d.holds} dish {d.id!r} to {view.say(d.x_cm or 0, 'cm')} from the left end" for d in moved.values()
    )
    return (
        Remedy(id="move-dish", title=f"Move {where}.", effort=Effort.MINUTES, change=_set_dishes(cage.id, moved)),
        cover,
    )


def _beside(view: EnclosureView, fouled: _Fouled) -> str:
    return "right under" if fouled.off_cm < 1 else f"lower than and {view.say(fouled.off_cm, 'cm')} to the side of"


@check("hygiene.dish_under_perch", "Do droppings fall into a dish?", "enclosure")
def dish_under_perch(view: EnclosureView) -> Findings:
    """Compare the place of each open dish with the bands below the perches that droppings fall in.

    The band reaches 0.35 body lengths and 2 cm to each side of a perch; a rim inside it is soiled.
    """
    if not view.birds:
        return
    cage, band = view.enclosure, dropping_band_cm(view.longest_body_cm)
    share, duty = facts.rule("hygiene.dropping_band_share"), facts.rule("hygiene.no_dish_below_perch")
    why = "Droppings in food and water spread disease faster than anything that grows there by itself."
    cites = (duty.cite, share.cite, *view.cites("body_length_cm"))
    if cage.perches is None or cage.dishes is None:
        yield cannot_tell("Where the perches and dishes are is not known, so whether droppings fall into a dish is not either.", why=why, cites=cites,
                          measure="For each perch and dish measure how far it is from the left end and above the cage floor, and the width of each dish.")  # fmt: skip
        return
    judged = [_judge(d, cage, band) for d in cage.dishes]
    fouled, ask = [f for found, _ in judged for f in found], [a for _, more in judged for a in more]
    margin = facts.rule("hygiene.dropping_band_margin")
    steps = (
        Step(text="Longest bird", result=Quantity(view.longest_body_cm, "cm"), cite=view.cites("body_length_cm")[0]),
        Step(text="Droppings fall within this of a perch, to each side", equation=f"{share.number:g} × body length + {margin.quantity}", result=Quantity(band, "cm"), cite=share.cite),
        *(Step(text=f"Middle of dish {f.dish.id!r} from perch {f.perch.id!r}, against the band and half the dish ({view.say(f.reach_cm, 'cm')})",
               result=Quantity(f.off_cm, "cm")) for f in fouled),
    )  # fmt: skip
    common: dict[str, Any] = {
        "why": why,
        "cites": cites,
        "steps": steps,
        "confidence": "The rule is published for schools; the width of the band is our choice.",
    }
    if fouled:
        worst = min(fouled, key=lambda f: f.off_cm - f.reach_cm)
        bath_only = all(f.dish.holds in {"bath", "grit"} for f in fouled)
        yield Finding(
            severity=Severity.BETTER if bath_only else Severity.MEND_SOON, soon=Soon.DAYS, measured=Quantity(worst.off_cm, "cm"),
            limit=Span(low=worst.reach_cm, unit="cm"), remedies=_remedies(view, fouled, band),
            statement=f"The open {worst.dish.holds} dish {worst.dish.id!r} stands {_beside(view, worst)} perch {worst.perch.id!r}; "
            f"droppings fall into it if its middle is nearer than {view.say(worst.reach_cm, 'cm')}.", **common,
        )  # fmt: skip
    elif ask:
        yield cannot_tell("Whether droppings fall into a dish cannot be told yet.", measure=f"Measure {'; '.join(dict.fromkeys(ask))}.",
                          why=why, cites=cites)  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement="No open dish is where droppings fall from a perch.", **common)
