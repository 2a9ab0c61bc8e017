"""Light and dark: the length of the birds' day, the change of the clocks, the night, flicker."""

from datetime import date, datetime, time, tzinfo
from typing import Any
from zoneinfo import ZoneInfo

from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import PRACTICE
from cuttlebone.climate.common import called, cite, formula, limit, sentence, source_of
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import Duty, Household, Room
from cuttlebone.home.view import Findings, RoomView, cannot_tell, check
from cuttlebone.nature.light import LightDay, light_day, light_step_h, next_clock_change, standard_time, within

_NOON = time(12)
_HOURS = "Note on three evenings when the last lamp in the room goes out, and when the first is lit."


def _lamp(room: Room) -> tuple[time, time] | None:
    on, off = room.light_on, room.light_off
    return (on, off) if on is not None and off is not None and on != off else None


def _half_told(room: Room) -> bool:
    """Whether a lamp is told by one of its hours only: when it burns is then not known."""
    return (room.light_on is None) != (room.light_off is None)


def _zone(view: RoomView) -> tzinfo | None:
    return ZoneInfo(view.home.time_zone) if view.home.time_zone else None


def _covered(view: RoomView) -> tuple[time | None, time | None]:
    """When the covers come off and go on, where every cage with birds in the room has one; None: no such hour is known."""
    cages = {b.enclosure for b in view.birds}
    times: set[time] = set()
    for cage in (e for e in view.enclosures if e.id in cages):
        at = [t for d in view.duties("cover", cage.id) for t in d.at or ()]
        if not cage.night_cover or not at:
            return None, None
        times.update(at)
    return min((t for t in times if t < _NOON), default=None), max((t for t in times if t >= _NOON), default=None)


def _light(view: RoomView, zone: tzinfo, on: date) -> LightDay:
    home, room = view.home, view.room
    day = light_day(on, home.latitude or 0.0, home.longitude or 0.0, zone, _lamp(room), windows=room.windows != ())
    opened, closed = _covered(view)
    begin = None if opened is None else datetime.combine(on, opened, zone)
    return within(day, begin, None if closed is None else datetime.combine(on, closed, zone))


def _unknown_light(view: RoomView) -> str:
    if view.home.time_zone is None or view.home.latitude is None or view.home.longitude is None:
        return "Give the place's latitude, longitude and time zone, so that daylight can be counted."
    if view.room.windows is None:
        return "Say whether the room has windows, so that daylight can be counted."
    return ""


def _until(day: LightDay) -> str:
    if not day.spans:
        return "no light at all"
    if day.never_dark:
        return "all day and night"
    first = f"from {day.first:%H:%M}" if day.first else "all night"
    last = f"to {day.last:%H:%M}" if day.last else "on all night"
    return f"{first} {last}"


@check("climate.day_length_now", "How long is the birds' day just now?", "room")
def day_length_now(view: RoomView) -> Findings:
    """Join the lamp's hours with daylight from civil dawn to civil dusk and compare with what the company needs.

    A timer alone does not tell the birds' day: a summer window overrides it. Covers put on and taken off by a duty are counted.
    """
    if not view.birds:
        return
    room = view.room
    cites = (*cite("light_long", "light_short"), source_of("effective_light_day"), source_of("sun_rise_set"))
    why = "Day length sets breeding, moult and sleep, and the hours in which a small bird can eat; daylight through a window counts beside the lamp."
    zone, untold = _zone(view), _unknown_light(view)
    if untold or zone is None:
        yield cannot_tell("How long the birds' day is cannot be worked out.", why=why, cites=cites, measure=untold)
        return
    day = _light(view, zone, view.today)
    told = _lamp(room) is not None or _covered(view)[1] is not None
    if (not told or _half_told(room)) and day.hours <= limit("light_long"):  # a lamp makes a long day no shorter
        yield cannot_tell("How long lamps lengthen the birds' day is not known.", why=why, cites=cites,
                          measure=_HOURS)  # fmt: skip
        return
    yield _judged(view, day, cites, why)


def _judged(view: RoomView, day: LightDay, cites: tuple[Any, ...], why: str) -> Finding:
    hours = day.hours
    wanted = [e.breeding_wanted for e in view.enclosures if any(b.enclosure == e.id for b in view.birds)]
    longest = limit("light_too_long") if wanted and all(wanted) else limit("light_long")
    last = f"; last light {standard_time(day.last):%H:%M} without summer time" if day.last else ""
    steps = (
        Step(text=f"Light {_until(day)} by the clock{last}", result=Quantity(hours, "h"),
             equation=formula("effective_light_day"), cite=source_of("effective_light_day")),
        Step(text="Longest unbroken darkness", result=Quantity(day.longest_dark_h, "h")),
    )  # fmt: skip
    sure = "Civil twilight is counted as day; curtains and trees may take half an hour. The limits are our choice."
    if any(e.night_cover for e in view.enclosures) and _covered(view) == (None, None):
        sure += " Covers are not counted: give the duty to cover its hours, evening and morning."
    common: dict[str, Any] = {"measured": Quantity(hours, "h"), "limit": Span(limit("light_short"), longest, "h"), "why": why, "cites": cites,
                              "steps": steps, "confidence": sure}  # fmt: skip
    if hours < limit("light_short"):
        return Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, remedies=_lamps(view, short=True), **common,
                       statement=f"The birds' day is only {hours:.1f} h: too short for a small bird to eat enough.")  # fmt: skip
    if hours > longest:
        much = hours > limit("light_too_long")
        tail = "too little sleep" if much else "long enough to bring birds into breeding condition"
        head = (
            "The birds have light all day and night"
            if day.never_dark
            else f"The birds' day is {hours:.1f} h, {_until(day)}"
        )
        return Finding(severity=Severity.MEND_SOON if much else Severity.BETTER, soon=Soon.WEEKS, remedies=_lamps(view, short=False),
                       statement=f"{head}: {tail}.", **common)  # fmt: skip
    return Finding(severity=Severity.FINE, statement=f"The birds' day is {hours:.1f} h, {_until(day)}.", **common)


def _lamps(view: RoomView, *, short: bool) -> tuple[Remedy, ...]:
    """A timer that gives eleven hours; and where daylight is too long, covers that end it."""
    room, step = view.room, limit("light_step_week")
    slowly = f"Change it by at most {step:.0f} min a week, at the evening end; dim for 20 to 30 min before dark so that every bird finds its perch."
    on, off = time(7), time(18)
    timer = Remedy(id="timer", title="Set the lamp's timer to 07:00 to 18:00, in small steps.", change=change.room(room.id, light_on=on, light_off=off),
                   effort=Effort.WEEKS, caution=slowly)  # fmt: skip
    if short:
        return (timer,)
    cages = tuple(dict.fromkeys(b.enclosure for b in view.birds if b.enclosure))
    covers = change.both(*(change.enclosure(c, night_cover=True) for c in cages), _cover_duty(view, cages))
    cover = Remedy(id="cover-both-ends", title="Cover the cages from 19:00 to 07:30 with opaque cloth, at the same hours every day.", change=covers,
                   effort=Effort.A_HABIT, caution=slowly + " No lamp or heater under a cover; leave it off in heat.")  # fmt: skip
    return (timer, cover)


def _cover_duty(view: RoomView, cages: tuple[str, ...]) -> Change:
    def make(home: Household) -> Household:
        kept = tuple(
            d
            for d in home.duties or ()
            if d.kind != "cover" or (d.enclosures is not None and not set(d.enclosures) & set(cages))
        )
        old = view.duties("cover")
        who = old[0].who if old else None
        changed: Household = home.but(
            duties=(*kept, Duty(kind="cover", every_h=12, at=(time(7, 30), time(19)), who=who))
        )
        return changed

    return make


@check("climate.lamp_clock_change", "Does the lamp jump when the clocks change?", "room")
def lamp_clock_change(view: RoomView) -> Findings:
    """Compare first and last light, by the sun, on the days before and after the next change of the clocks.

    A timer follows the clock on the wall, the birds follow the light; where a lamp makes their dawn or dusk they get the jump whole.
    """
    if not view.birds or (_lamp(view.room) is None and not _half_told(view.room)):
        return
    lamp, zone, home = _lamp(view.room), _zone(view), view.home
    why = "A timer that follows summer time moves the birds' dawn or dusk by an hour in one night; some are then caught off their perches."
    cites = (*cite("light_jump"), source_of("effective_light_day"))
    untold = _HOURS if lamp is None else _unknown_light(view)
    if untold or zone is None or lamp is None:
        yield cannot_tell(
            "Whether the lamp jumps when the clocks change cannot be worked out.", why=why, cites=cites, measure=untold
        )
        return
    day = next_clock_change(view.today, zone)
    common: dict[str, Any] = {"why": why, "cites": cites, "soon": Soon.MONTHS, "confidence": "The limit is our choice."}
    if day is None:
        yield Finding(severity=Severity.FINE, statement="The clocks do not change here.", **common)
        return
    jump = light_step_h(day, home.latitude or 0, home.longitude or 0, zone, lamp, windows=view.room.windows != ())
    common |= {"measured": Quantity(jump * 60, "min"), "limit": Span(high=limit("light_jump") * 60, unit="min")}
    when = f"{day.day} {day:%B %Y}"
    if jump <= limit("light_jump"):
        yield Finding(
            severity=Severity.FINE,
            statement=f"When the clocks change on {when}, daylight carries the birds over it.",
            **common,
        )
        return
    yield Finding(severity=Severity.BETTER, remedies=_smooth(view, day, zone, lamp), **common,
                  caution="Otherwise leave the timer on winter time, or move it 10 min a day over the week around the change.",
                  statement=f"When the clocks change on {when}, the lamp moves the birds' light by {jump * 60:.0f} min in one night.")  # fmt: skip


def _smooth(view: RoomView, day: date, zone: tzinfo, lamp: tuple[time, time]) -> tuple[Remedy, ...]:
    """Lamp hours inside daylight at both ends, where such hours exist; else only the advice to move the timer in steps."""
    home = view.home
    for on, off in ((lamp[0], time(17)), (time(8), lamp[1]), (time(8), time(17)), (time(9), time(16))):
        if light_step_h(
            day, home.latitude or 0, home.longitude or 0, zone, (on, off), windows=view.room.windows != ()
        ) <= limit("light_jump"):
            return (
                Remedy(id="inside-daylight", effort=Effort.MINUTES, change=change.room(view.room.id, light_on=on, light_off=off),
                       title=f"Let daylight make both ends of the day: set the timer to {on:%H:%M} to {off:%H:%M} before the change.",
                       caution="Check after the change that the timer still shows the right hour."),
            )  # fmt: skip
    return ()


@check("climate.night_dark", "Is the night dark?", "room")
def night_dark(view: RoomView) -> Findings:
    """Ask whether the birds' night is dark: lamps, screens and street light take sleep and start night frights."""
    if not view.birds:
        return
    room = view.room
    why = "Birds sleep as long as it is dark; light and moving shadows at night wake them and can start a panic in the cage."
    if room.dark_at_night is None:
        yield cannot_tell(f"Whether {called(room)} is dark at night is not known.", why=why, cites=(PRACTICE,),
                          measure="Stand in the room an hour after the last lamp is out: if you can read a headline, it is not dark.")  # fmt: skip
    elif room.dark_at_night:
        yield Finding(severity=Severity.FINE, statement="The night is dark.", why=why, cites=(PRACTICE,))
    else:
        dark = Remedy(id="darken", title="Darken the windows and put out lamps and screens at a fixed hour.", effort=Effort.A_HABIT,
                      change=change.room(room.id, dark_at_night=True),
                      caution="If birds panic in the dark, one very dim steady light is better than none.")  # fmt: skip
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"{sentence(called(room))} is not dark at night.", why=why,
                      cites=(PRACTICE,), remedies=(dark,))  # fmt: skip


@check("climate.lamp_flicker", "Does the lamp flicker for a bird's eye?", "room")
def lamp_flicker(view: RoomView) -> Findings:
    """Ask for the slow-motion test where a lamp lights the birds' day.

    Lamps on bare mains pulse a hundred times a second or a little more. People do not see that; small birds may.
    """
    room = view.room
    if not view.birds or (_lamp(room) is None and not _half_told(room) and room.lamp_flickers is None):
        return
    fast = limit("flicker_budgerigar")
    why = "Mains lamps pulse 100 or 120 times a second. Small songbirds may see that as flicker; whether it harms them is not settled."
    cites = cite("flicker_budgerigar", "flicker_starling")
    common: dict[str, Any] = {"why": why, "cites": cites, "soon": Soon.MONTHS,
                              "confidence": f"The fastest of the budgerigars tested saw {fast:.0f} pulses a second, in very bright light."}  # fmt: skip
    if room.lamp_flickers is None:
        yield cannot_tell("Whether the lamp flickers is not known.", why=why, cites=cites,
                          measure="Film the lit wall with a phone in slow motion (240 pictures a second): bands that run mean flicker.")  # fmt: skip
    elif room.lamp_flickers:
        swap = Remedy(id="steady-lamp", title="Change the lamp for one with a steady (constant-current or high-frequency) driver.",
                      change=change.room(room.id, lamp_flickers=False), cost=Cost(8, 30), effort=Effort.MINUTES)  # fmt: skip
        yield Finding(
            severity=Severity.BETTER, statement="The lamp flickers in slow motion.", remedies=(swap,), **common
        )
    else:
        yield Finding(severity=Severity.FINE, statement="The lamp shows no flicker.", **common)
