"""Heat: how hot it got, and which rooms will get hot."""

from typing import Any

from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.climate.common import called, cite, formula, limit, sentence, source_of
from cuttlebone.home import change
from cuttlebone.home.model import Room, Window
from cuttlebone.home.view import Findings, RoomView, cannot_tell, check
from cuttlebone.nature import moist_air
from cuttlebone.nature.sunpatch import up_bearing, window_bearing

_FIRST_AID = ("Our bands are an estimate, not a diagnosis. Open-beaked breathing or wings held out at any temperature: move the birds to moving, "
              "cooler air, offer water, and call an avian vet at once.")  # fmt: skip


def _steps(temp_c: float, rh_pct: float | None) -> tuple[Step, ...]:
    hottest = Step(text="Hottest of the last week", result=Quantity(temp_c, "°C"))
    if rh_pct is None:
        return (hottest, Step(text="Humidity is not known; damp air makes the same heat worse"))
    damp = max(rh_pct, 0.5)
    return (
        hottest,
        Step(text="Humidity told, taken as that of the hottest hour", result=Quantity(rh_pct, "%")),
        Step(text="Coldest that evaporation can reach in this air", result=Quantity(moist_air.wet_bulb(temp_c, damp), "°C"),
             equation=formula("wet_bulb"), cite=source_of("wet_bulb")),
        Step(text="What is left of dry air's power to cool a panting bird", result=Quantity(100 * moist_air.evaporative_headroom(temp_c, damp), "%"),
             equation=formula("evaporative_headroom"), cite=source_of("evaporative_headroom")),
        Step(text="Zebra finches may begin to pant at", result=Quantity(limit("panting_from"), "°C"), cite=cite("panting_from")[0]),
    )  # fmt: skip


def _band(temp_c: float, rh_pct: float | None) -> tuple[Severity, Soon]:
    if temp_c >= limit("heat_emergency"):
        return Severity.ACT_NOW, Soon.HOURS
    if temp_c >= limit("heat_act") or (
        temp_c >= limit("heat_look") and rh_pct is not None and rh_pct > limit("heat_humid")
    ):
        return Severity.MEND_SOON, Soon.DAYS
    return (Severity.BETTER, Soon.WEEKS) if temp_c >= limit("heat_look") else (Severity.FINE, Soon.MONTHS)


@check("climate.heat", "Does the room get too hot?", "room")
def heat(view: RoomView) -> Findings:
    """Compare the hottest reading, with its humidity, with three bands: look, act, emergency.

    Birds do not sweat: they lose heat by panting, and damp air takes that from them. No study gives a limit for cage birds in a
    humid room, so the bands are our own.
    """
    if not view.birds:
        return
    room = view.room
    known = [t for t in (room.temp_max_c, room.temp_day_c) if t is not None]
    why = "Birds cannot sweat: they cool by panting, which dries them out and fails in damp air. In a hot room that ends within hours."
    cites = cite("heat_look", "panting_from")
    if not known or (room.temp_max_c is None and max(known) < limit("heat_look")):
        yield cannot_tell(f"How hot {called(room)} gets is not known.", why=why, cites=cites,
                          measure="Hang a thermometer that keeps the highest value at perch height and read it after a week.")  # fmt: skip
        return
    hottest, rh = max(known), room.humidity_pct
    severity, soon = _band(hottest, rh)
    said = view.say(hottest, "°C")
    common: dict[str, Any] = {"measured": Quantity(hottest, "°C"), "limit": Span(high=limit("heat_look"), unit="°C"), "why": why, "cites": cites,
              "steps": _steps(hottest, rh), "soon": soon,
              "confidence": "The bands are our choice; no limit has been measured for cage birds in humid rooms."}  # fmt: skip
    if severity == Severity.FINE:
        yield Finding(severity=severity, statement=f"The hottest reading was {said}: no heat.", **common)
        return
    told = {
        Severity.ACT_NOW: f"It reached {said}: an emergency for small birds.",
        Severity.MEND_SOON: f"It reached {said}{f' at {rh:.0f}% humidity' if rh is not None else ''}: cool the room.",
        Severity.BETTER: f"It reached {said}: look at the birds' breathing on such days.",
    }[severity]
    yield Finding(
        severity=severity, statement=told, caution=_FIRST_AID, remedies=_cooling(view, room, hottest), **common
    )


def _cooling(view: RoomView, room: Room, hottest: float) -> tuple[Remedy, ...]:
    most = limit("heat_look")
    cool = most - 1
    shaded = None if room.windows is None else tuple(w.but(blind=True) for w in room.windows)
    settings = {"temp_max_c": cool, "temp_day_c": None if room.temp_day_c is None else min(room.temp_day_c, cool - 2)}
    carry = Remedy(
        id="carry-cool", title="Carry the birds now to the coolest room or to shade with moving air, and offer cool water.",
        change=change.room(room.id, **settings), effort=Effort.MINUTES,
        caution="A fan must never blow on the cage. A bird that pants with open beak or holds out its wings: call an avian vet at once.",
    )  # fmt: skip
    return (
        *((carry,) if hottest >= limit("heat_emergency") else ()),
        Remedy(
            id="shade-and-air",
            title=f"Shade the windows from outside, air at night and shut them by day, until the thermometer stays below {view.say(most, '°C')}.",
            change=change.room(room.id, windows=shaded, **settings), cost=Cost(20, 150), effort=Effort.A_DAY,
            caution="A fan does not cool a bird and must never blow on the cage. Until it is cooler, carry the birds to the coolest room, with water.",
        ),
    )  # fmt: skip


def _turn_from_east_west(bearing: float) -> float:
    return min(abs((bearing - side + 180) % 360 - 180) for side in (90.0, 270.0))


def _hot_windows(room: Room) -> tuple[list[Window], bool]:
    """Windows that take low sun flat on, and whether the way of any other window is unknown."""
    up = up_bearing(room)
    ways = [(w, window_bearing(w, up)) for w in room.windows or ()]
    if room.kind == "conservatory":
        return [w for w, _ in ways], False
    hot = [w for w, way in ways if way is not None and _turn_from_east_west(way) <= limit("hot_window_turn")]
    return hot, any(way is None for _, way in ways)


@check("climate.hot_room_risk", "Will this room overheat on a sunny day?", "room")
def hot_room_risk(view: RoomView) -> Findings:
    """Look for glass to the east or west, or a conservatory, without a blind.

    Low morning and evening sun stands square to such glass and heats a closed room for hours; glass to the equator gets it at a slant.
    """
    if not view.birds:
        return
    room = view.room
    why = "Low sun stands square to east and west glass and all day on a conservatory; a closed room without shade can then pass any bird's limit."
    cites = (*cite("hot_window_turn"), source_of("sun_position"))
    hot, untold = _hot_windows(room)
    common: dict[str, Any] = {
        "why": why,
        "cites": cites,
        "soon": Soon.MONTHS,
        "confidence": "Which windows count is our choice; how hot it gets is not computed here.",
    }
    if room.windows is None or (untold and not hot):
        yield cannot_tell("Which way the windows look, or whether there are any, is not known.", why=why, cites=cites,
                          measure="Stand inside at a window, look straight out and read a compass; write it as the window's bearing.")  # fmt: skip
        return
    bare = [w for w in hot if w.blind is False]
    if bare or (room.kind == "conservatory" and not room.windows):
        what = "conservatory" if room.kind == "conservatory" else "window that takes the low sun"
        fit = Remedy(id="blind", title="Fit an outside blind or shutter; an inside one helps less.", cost=Cost(40, 250), effort=Effort.A_DAY,
                     change=change.room_by(room.id, lambda r: r.but(windows=tuple(w.but(blind=True) for w in r.windows or ()))))  # fmt: skip
        yield Finding(severity=Severity.MEND_SOON, statement=f"{sentence(called(room))} has a {what} without a blind.",
                      remedies=(fit,) if bare else (), caution=_FIRST_AID, **common)  # fmt: skip
    elif any(w.blind is None for w in hot):
        yield cannot_tell("Whether the windows that take the low sun have blinds is not known.", why=why, cites=cites,
                          measure="Look whether each east, west or conservatory window has a blind or shutter, best outside.")  # fmt: skip
    else:
        said = "can be shaded where it takes the low sun" if hot else "has no glass that takes the low sun"
        yield Finding(severity=Severity.FINE, statement=f"{sentence(called(room))} {said}.", **common)
