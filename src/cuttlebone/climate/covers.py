"""What a night cover does, what it does not, and what must never be under it."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.source import PRACTICE
from cuttlebone.climate.common import cite, difference, limit, listed
from cuttlebone.home import change
from cuttlebone.home.model import Lamp
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check

HOT_LAMPS = ("heat lamp", "heat panel", "uv-b", "daylight", "night light")


@check("climate.night_cover", "Would a cover help these birds at night?", "enclosure")
def night_cover(view: EnclosureView) -> Findings:
    """Say what a cover does here: it darkens and stops draughts, it does not heat.

    Two small birds give off about a watt; a cloth holds back a few tenths of a degree of that. Cold is the room's matter.
    """
    if not view.birds:
        return
    cage, room = view.enclosure, view.room
    rise = facts.rule("climate.cover_rise")
    why = (f"A cloth darkens, stops draughts and the chill of a cold window; it holds at most {difference(view, rise.number)} of the birds' own "
           "warmth. It is a screen, not a heater.")  # fmt: skip
    cites = (*cite("cover_rise"), PRACTICE)
    steps = (Step(text="Most that a cover gains from two small birds", result=rise.quantity, cite=rise.cite),)
    common: dict[str, Any] = {"why": why, "cites": cites, "steps": steps, "soon": Soon.WEEKS,
                              "confidence": "The gain is worked out from remembered heat output."}  # fmt: skip
    if cage.night_cover is None:
        yield cannot_tell("Whether the cage is covered at night is not known.", why=why, cites=cites,
                          measure="Say whether a cloth goes over the cage at night.")  # fmt: skip
        return
    needs = [] if room is None or room.dark_at_night is not False else ["the room is not dark"]
    needs += ["the air moves"] if cage.draughty else []
    still = cage.draughty is not None or cage.air_speed_m_s is not None
    unsure = [] if room is not None and room.dark_at_night is not None else ["whether the room is dark at night"]
    unsure += [] if still else ["whether the air moves at the perches"]
    if cage.night_cover:
        hot = room is not None and room.temp_max_c is not None and room.temp_max_c >= limit("heat_look")
        yield Finding(severity=Severity.FINE, **common,
                      statement="The cage is covered at night: dark and screened, but no warmer" + ("; leave it off on hot nights." if hot else "."))  # fmt: skip
    elif needs:
        sew = Remedy(id="cover", title="Cover three sides and the top at night with opaque cotton that cannot slip.", cost=Cost(5, 30),
                     change=change.enclosure(cage.id, night_cover=True), effort=Effort.A_HABIT,
                     caution="Leave the lower front open to the air; never over a lamp or heater; leave it off in heat.")  # fmt: skip
        yield Finding(
            severity=Severity.BETTER,
            statement=f"The cage has no cover at night, though {listed(needs)}.",
            remedies=(sew,),
            **common,
        )
    elif unsure:
        yield cannot_tell("Whether the cage, which has no cover at night, needs one is not known.", why=why, cites=cites,
                          measure=f"Find out {listed(unsure)}.")  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement="The cage has no cover at night and needs none: the room is dark and the air still.",
            **common,
        )


def _kinds(lamps: tuple[Lamp, ...]) -> str:
    return listed(f"a {lamp.kind}" if lamp.kind != "uv-b" else "a UV-B lamp" for lamp in lamps)


@check("climate.cover_with_lamp", "Does a cover go over a lamp or heater?", "enclosure")
def cover_with_lamp(view: EnclosureView) -> Findings:
    """Look for a night cover on a cage that carries a lamp or heater: cloth on a hot lamp burns."""
    cage = view.enclosure
    if not view.birds or cage.lamps is None:  # the heat lamp's own check asks which lamps there are
        return
    why = "Cloth that lies on or slips onto a lamp can catch fire, and under a cover a heater has nowhere to send its heat."
    cites = (*cite("lamp_guard"), PRACTICE)
    if cage.lamps and cage.night_cover is None:
        yield cannot_tell("Whether a cover goes over a lamp is not known.", why=why, cites=cites,
                          measure="Say whether a cloth goes over this cage at night.")  # fmt: skip
        return
    hot = tuple(lamp for lamp in cage.lamps if lamp.kind in HOT_LAMPS)
    if not hot or not cage.night_cover:
        said = (
            "No cover goes over the lamp or heater at the cage."
            if hot
            else "No lamp or heater is told at the cage for a cover to go over."
        )
        yield Finding(severity=Severity.FINE, statement=said, why=why, cites=cites)
        return
    off = Remedy(id="no-cover", title="Leave the cover off this cage; darken the room instead.", change=change.enclosure(cage.id, night_cover=False),
                 effort=Effort.A_HABIT, caution="Put lamps out an hour before dark so that they are cold.")  # fmt: skip
    away = Remedy(id="no-lamp", title="Take the lamp off the cage and warm or light the room instead.", change=change.enclosure(cage.id, lamps=()),
                  cost=Cost(0, 80), effort=Effort.AN_HOUR, caution="Birds that need warmth on an avian vet's advice keep it: then the cover goes.")  # fmt: skip
    yield Finding(severity=Severity.ACT_NOW, soon=Soon.HOURS, statement=f"A night cover goes over {_kinds(hot)}: fire.", why=why, cites=cites,
                  remedies=(off, away), caution="Fire: take the cover off before the lamp is next lit.")  # fmt: skip
