"""Humidity of the air and at the coldest wall."""

from typing import Any

from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.climate.common import called, cite, formula, limit, source_of
from cuttlebone.home import change
from cuttlebone.home.view import Findings, RoomView, cannot_tell, check
from cuttlebone.nature import moist_air


@check("climate.humidity", "Is the air too dry or too damp?", "room")
def humidity(view: RoomView) -> Findings:
    """Compare relative humidity with the range keepers aim for.

    Dry air harms plumage and airways and dries eggs; damp air brings mould into seed and walls.
    """
    if not view.birds:
        return
    room = view.room
    low, high = limit("humidity_low"), limit("humidity_high")
    why = "Very dry air is hard on feathers and airways; damp air spoils seed and feeds mould."
    cites = cite("humidity_low", "humidity_very_low")
    if room.humidity_pct is None:
        yield cannot_tell(f"The humidity of {called(room)} is not known.", why=why, cites=cites,
                          measure="Hang a hygrometer beside the thermometer and read it morning and evening for three days.")  # fmt: skip
        return
    rh = room.humidity_pct
    common: dict[str, Any] = {"measured": Quantity(rh, "%"), "limit": Span(low, high, "%"), "why": why, "cites": cites, "soon": Soon.WEEKS,
              "confidence": "Hygrometers are off by 2 to 3 %; the range is common practice."}  # fmt: skip
    if low <= rh <= high:
        yield Finding(severity=Severity.FINE, statement=f"The humidity is {rh:.0f}%.", **common)
        return
    strong = rh < limit("humidity_very_low") or rh > limit("humidity_very_high")
    if rh < low:
        remedy = Remedy(id="moister", title="Offer a daily bath, grow plants that are safe for birds, and air in short bursts.",
                        change=change.room(room.id, humidity_pct=low + 5), cost=Cost(0, 30), effort=Effort.A_HABIT,
                        caution="No scent in any humidifier, and its tank cleaned daily; keep the mist off the cage.")  # fmt: skip
    else:
        remedy = Remedy(id="drier", title="Air wide open for some minutes morning and evening, and dry no washing in the birds' room.",
                        change=change.room(room.id, humidity_pct=high - 5), effort=Effort.A_HABIT,
                        caution="Keep the birds out of the stream of air meanwhile.")  # fmt: skip
    yield Finding(severity=Severity.MEND_SOON if strong else Severity.BETTER, remedies=(remedy,), **common,
                  statement=f"The humidity is {rh:.0f}%: the air is too {'dry' if rh < low else 'damp'}.")  # fmt: skip


@check("climate.mould", "Can mould grow on the coldest wall?", "room")
def mould(view: RoomView) -> Findings:
    """Compute the humidity where the room's air touches its coldest surface.

    Air that is comfortable in the middle of the room is far damper where it cools at a corner; spores from there are breathed.
    """
    if not view.birds:
        return
    room, most = view.room, limit("mould_surface")
    why = "Air gets damper as it cools at a wall; mould there gives off spores, and birds' lungs take more of the air than ours."
    cites = (*cite("mould_surface"), source_of("surface_humidity"))
    if room.temp_day_c is None or room.humidity_pct is None or room.coldest_surface_c is None:
        yield cannot_tell("How damp the coldest wall is cannot be worked out.", why=why, cites=cites,
                          measure="Read thermometer and hygrometer, and with an infrared thermometer find the coldest corner of the outer walls.")  # fmt: skip
        return
    rh = moist_air.surface_humidity_pct(room.temp_day_c, room.humidity_pct, room.coldest_surface_c)
    dew = moist_air.dew_point(room.temp_day_c, max(room.humidity_pct, 5.0))
    steps = (
        Step(text="Dew point of the room's air", result=Quantity(dew, "°C"), cite=source_of("saturation_pressure")),
        Step(text="Coldest surface told", result=Quantity(room.coldest_surface_c, "°C")),
        Step(
            text="Humidity at that surface",
            result=Quantity(rh, "%"),
            equation=formula("surface_humidity"),
            cite=source_of("surface_humidity"),
        ),
    )
    common: dict[str, Any] = {"measured": Quantity(min(rh, 100.0), "%"), "limit": Span(high=most, unit="%"), "why": why, "cites": cites, "steps": steps,
              "soon": Soon.MONTHS, "confidence": "The 80 % limit is from memory; half a degree on the wall moves this by about 3 %."}  # fmt: skip
    if rh <= most:
        yield Finding(
            severity=Severity.FINE,
            statement=f"At the coldest wall the air has {rh:.0f}% humidity: too dry for mould.",
            **common,
        )
        return
    wet = rh > limit("condensing_surface")
    air_to = min(room.humidity_pct, limit("humidity_high") - 5)
    warm = moist_air.dew_point(
        room.temp_day_c, max(5.0, air_to / (most / 100 - 0.02))
    )  # two points below the limit at the wall
    remedy = Remedy(
        id="air-and-warm-wall",
        title=f"Keep furniture off that wall, air twice a day, and heat evenly until the corner reads above {view.say(warm, '°C')}.",
        change=change.room(room.id, humidity_pct=air_to, coldest_surface_c=max(warm, room.coldest_surface_c)),
        cost=Cost(0, 20),
        effort=Effort.A_HABIT,
        caution="Do not brush off mould with birds in the room; a wall that stays wet is work for a builder.",
    )
    yield Finding(severity=Severity.MEND_SOON if wet else Severity.BETTER, remedies=(remedy,), **common,
                  statement=f"At the coldest wall the air has {min(rh, 100):.0f}% humidity: {'water settles there' if wet else 'mould can grow there'}.")  # fmt: skip
