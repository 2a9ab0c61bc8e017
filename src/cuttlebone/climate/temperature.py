"""Warmth by day and by night."""

from typing import Any

from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import PRACTICE
from cuttlebone.climate.common import called, cite, difference, kinds_of, limit, listed
from cuttlebone.facts.schema import Entry
from cuttlebone.home import change
from cuttlebone.home.view import Findings, RoomView, cannot_tell, check

HEATER_CAUTION = ("Only a heater with a thermostat and no open flame, whose maker states in writing that it carries no non-stick coating; "
                  "never candles, gas, paraffin or charcoal.")  # fmt: skip
READ_IT = "Hang a thermometer at perch height, out of the sun and off the wall, and read it"


@check("climate.temperature_day", "Is the room warm enough by day?", "room")
def temperature_day(view: RoomView) -> Findings:
    """Compare the day's room temperature with the least that the company wants.

    By day birds should not have to burn food for warmth alone; the kind that minds cold most decides. Heat has its own check.
    """
    if not view.birds:
        return
    room, kinds = view.room, kinds_of(view)
    low = max(limit("day_low"), *(k.number("night_low_c") for k in kinds))
    cites = (*cite("day_low"), *dict.fromkeys(k.fact("night_low_c").cite for k in kinds))
    why = "A small bird in a cold room burns its food for warmth and has little left for the night."
    if room.temp_day_c is None:
        yield cannot_tell(f"How warm {called(room)} is by day is not known.", why=why, cites=cites,
                          measure=f"{READ_IT} at midday on three days.")  # fmt: skip
        return
    warm = view.say(room.temp_day_c, "°C")
    common: dict[str, Any] = {"measured": Quantity(room.temp_day_c, "°C"), "limit": Span(low=low, unit="°C"), "why": why, "cites": cites,
              "confidence": "The limit is our choice; species limits are from memory."}  # fmt: skip
    if room.temp_day_c >= low:
        yield Finding(severity=Severity.FINE, statement=f"By day {called(room)} has {warm}, warm enough.", **common)
        return
    heat = Remedy(id="heat-by-day", title=f"Heat {called(room)} to {view.say(low + 3, '°C')} by day, with a thermostat.",
                  change=change.room(room.id, temp_day_c=low + 3), cost=Cost(0, 80), effort=Effort.AN_HOUR, caution=HEATER_CAUTION)  # fmt: skip
    yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, remedies=(heat,), **common,
                  statement=f"By day {called(room)} has only {warm}; {view.say(low, '°C')} is the least for these birds.")  # fmt: skip


def _tender(kinds: tuple[Entry, ...]) -> tuple[Entry, ...]:
    low = max(k.number("night_low_c") for k in kinds)
    return tuple(k for k in kinds if k.number("night_low_c") == low)


@check("climate.temperature_night", "Is the room warm enough at night?", "room")
def temperature_night(view: RoomView) -> Findings:
    """Compare the night's temperature with the limit of the species that minds cold most.

    A small bird lives through the night on what it ate; the colder it is, the sooner that is gone.
    """
    if not view.birds:
        return
    room, tender = view.room, _tender(kinds_of(view))
    low = tender[0].number("night_low_c")
    cites = (*dict.fromkeys(k.fact("night_low_c").cite for k in tender), *cite("night_cold_margin"))
    why = f"A small bird lives through the night on its last meal. The limit here is that of: {listed(k.name for k in tender)}."
    if room.temp_night_c is None:
        yield cannot_tell(f"How cold {called(room)} gets at night is not known.", why=why, cites=cites,
                          measure=f"{READ_IT} before the heating starts, or use one that keeps the lowest value.")  # fmt: skip
        return
    cold = view.say(room.temp_night_c, "°C")
    steps = (
        Step(text="Night temperature told", result=Quantity(room.temp_night_c, "°C")),
        Step(
            text=f"Night limit: {listed(k.name for k in tender)}",
            result=Quantity(low, "°C"),
            cite=cites[0],
        ),
    )
    common: dict[str, Any] = {"measured": Quantity(room.temp_night_c, "°C"), "limit": Span(low=low, unit="°C"), "why": why, "cites": cites, "steps": steps,
              "confidence": "Night limits are from memory, for healthy birds used to the room."}  # fmt: skip
    if room.temp_night_c >= low:
        yield Finding(severity=Severity.FINE, statement=f"At night {called(room)} keeps {cold}.", **common)
        return
    bad = room.temp_night_c < low - limit("night_cold_margin")
    day = room.temp_day_c if room.temp_day_c is not None else low + 4
    warm = max(low + 1, day - limit("night_drop_max") + 1)
    remedies = (
        Remedy(id="heat-by-night", title=f"Keep {view.say(warm, '°C')} at night with a heater on a thermostat.",
               change=change.room(room.id, temp_night_c=warm), cost=Cost(30, 120), effort=Effort.AN_HOUR, caution=HEATER_CAUTION),
    )  # fmt: skip
    yield Finding(
        severity=Severity.ACT_NOW if bad else Severity.MEND_SOON, soon=Soon.DAYS if bad else Soon.WEEKS, remedies=remedies, **common,
        statement=f"At night {called(room)} falls to {cold}, below the {view.say(low, '°C')} these birds need.",
        caution="An estimate, not a diagnosis: a bird that is fluffed up on the floor or does not eat in the morning needs an avian vet now. "
                "A cover does not make up for cold.",
    )  # fmt: skip


@check("climate.night_drop", "Does the temperature fall far at night?", "room")
def night_drop(view: RoomView) -> Findings:
    """Compare the fall from day to night with what birds kept indoors should meet.

    Birds kept warm by day carry the plumage and the fat for that; a deep fall at night asks for what they do not have.
    """
    if not view.birds:
        return
    room, most = view.room, limit("night_drop_max")
    why = "Birds kept warm by day lay on little fat for the night, so a deep fall costs them more than steady cool air."
    if room.temp_day_c is None or room.temp_night_c is None:
        yield cannot_tell(f"How far the temperature of {called(room)} falls at night is not known.", why=why,
                          cites=cite("night_drop_max"), measure=f"{READ_IT} at midday and again before sunrise.")  # fmt: skip
        return
    fall = room.temp_day_c - room.temp_night_c
    scale, unit = (1.8, "°F") if view.home.units == "imperial" else (1.0, "°C")  # a difference has no zero to shift
    common: dict[str, Any] = {"measured": Quantity(fall * scale, unit), "limit": Span(high=most * scale, unit=unit), "why": why, "cites": cite("night_drop_max"),
              "confidence": "The limit is our choice."}  # fmt: skip
    if fall <= most:
        said = f"falls by {difference(view, fall)}" if fall > 0 else "does not fall"
        yield Finding(severity=Severity.FINE, statement=f"At night the temperature {said}, a gentle change.", **common)
        return
    level = room.temp_day_c - most + 1
    remedy = Remedy(id="gentler-night", title=f"Let the heating hold {view.say(level, '°C')} through the night.",
                    change=change.room(room.id, temp_night_c=level), cost=Cost(0, 60), effort=Effort.MINUTES, caution=HEATER_CAUTION)  # fmt: skip
    yield Finding(severity=Severity.BETTER, soon=Soon.WEEKS, remedies=(remedy,), **common,
                  statement=f"At night the temperature falls by {difference(view, fall)}, more than {difference(view, most)}.")  # fmt: skip


@check("climate.thermometer", "Is there a thermometer where the birds are?", "room")
def thermometer(view: RoomView) -> Findings:
    """Ask whether the room's temperature is measured, for every other answer on warmth leans on it."""
    if not view.birds:
        return
    room, why = (
        view.room,
        "People feel a room at their own height and with clothes on; only a thermometer tells what the birds have.",
    )
    cites = (PRACTICE,)
    if room.thermometer is None:
        yield cannot_tell(f"Whether a thermometer hangs in {called(room)} is not known.", why=why, cites=cites,
                          measure="Look whether one hangs near the birds, at perch height, out of the sun.")  # fmt: skip
    elif room.thermometer:
        yield Finding(
            severity=Severity.FINE, statement="A thermometer tells what the birds have.", why=why, cites=cites
        )
    else:
        buy = Remedy(id="thermometer", title="Hang a thermometer that keeps the highest and lowest value, with humidity, at perch height.",
                     change=change.room(room.id, thermometer=True), cost=Cost(8, 20), effort=Effort.MINUTES,
                     caution="Mercury thermometers have no place near birds.")  # fmt: skip
        yield Finding(severity=Severity.BETTER, soon=Soon.WEEKS, statement=f"No thermometer hangs in {called(room)}.", why=why,
                      cites=cites, remedies=(buy,))  # fmt: skip
