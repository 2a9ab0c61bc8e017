"""Draughts at the perch."""

from typing import Any

from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.climate.common import cite, formula, limit, source_of
from cuttlebone.home import change
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.nature.air import draught_rate_pct

_THREAD = ("Hang a light thread or a small down feather at perch height, doors and windows as usual, heating on and off: it should hang still. "
           "No smoke or incense near birds.")  # fmt: skip


def _steps(view: EnclosureView, speed: float | None) -> tuple[Step, ...]:
    if speed is None:
        return (Step(text="The thread at perch height, as told"),)
    told = Step(text="Air speed told", result=Quantity(speed, "m/s"), cite=cite("air_speed_max")[0])
    temp = view.room.temp_day_c if view.room else None
    if temp is None or temp > 34:
        return (told,)
    bothered = Quantity(draught_rate_pct(temp, speed), "%")
    return (told, Step(text="People this would bother (a map of windy places, not a limit for birds)", result=bothered,
                       equation=formula("draught_rate"), cite=source_of("draught_rate")))  # fmt: skip


@check("climate.draught", "Is the cage in a draught?", "enclosure")
def draught(view: EnclosureView) -> Findings:
    """Compare air speed at the perches, or a thread held there, with still air.

    Moving air carries off the warm layer that fluffed feathers hold. No limit has been measured for birds; the number is people's.
    """
    if not view.birds:
        return
    cage, most = view.enclosure, limit("air_speed_max")
    why = "Moving air carries off the warm layer under the feathers, and a caged bird cannot move out of it."
    cites = (*cite("air_speed_max"), source_of("draught_rate"))
    speed = cage.air_speed_m_s
    if speed is None and cage.draughty is None:
        yield cannot_tell("Whether the cage stands in a draught is not known.", why=why, cites=cites, measure=_THREAD)
        return
    by_speed = speed is not None and (
        speed > most or not cage.draughty
    )  # the thread speaks where only it tells of a draught
    common: dict[str, Any] = {"why": why, "cites": cites, "steps": _steps(view, speed), "limit": Span(high=most, unit="m/s") if by_speed else None,
                              "measured": Quantity(speed, "m/s") if by_speed and speed is not None else None,
                              "confidence": "The limit is a comfort figure for people, from memory; none exists for birds."}  # fmt: skip
    windy = speed is not None and speed > most
    if not windy and not cage.draughty:
        yield Finding(severity=Severity.FINE, statement="The air at the perches is still.", **common)
        return
    said = (
        f"The air at the perches moves at {view.say(speed, 'm/s')}."
        if windy and speed is not None
        else "A thread at the perches moves: the cage is in a draught."
    )
    sides = tuple(dict.fromkeys((*(cage.closed_sides or ()), "back", "left")))
    screen = Remedy(id="screen", title="Close the back and the windward side with boards, then test again with a thread.", cost=Cost(0, 20),
                    change=change.enclosure(cage.id, closed_sides=sides, draughty=False, air_speed_m_s=None if speed is None else min(speed, most / 2)),
                    effort=Effort.AN_HOUR, caution="Leave the front and top open to the air; if the thread still moves, move the cage.")  # fmt: skip
    yield Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, statement=said, remedies=(screen,), **common)
