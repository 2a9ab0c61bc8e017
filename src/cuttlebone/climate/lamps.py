"""Heat lamps and heat panels: fire, burns and coatings."""

from typing import Any

from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.climate.common import cite, limit, listed
from cuttlebone.home import change
from cuttlebone.home.model import Enclosure, Lamp
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check

_HEATERS = ("heat lamp", "heat panel")
_CAUTION = ("Fire and burns: the maker's instructions come first, electrical work is for a licensed trade, and the first day somebody stays at home. Coated bulbs can kill every bird in the dwelling. "
            "Half the cage must stay out of the warmth. A bird that needs heat may be ill: call an avian vet.")  # fmt: skip
_ASK = {
    "guard": "whether a guard keeps birds and cloth off the bulb",
    "two_hangers": "whether it hangs by two independent chains, not a clamp",
    "thermostat": "whether a thermostat runs it",
    "ptfe_free": "whether its maker states in writing that it carries no non-stick (PTFE) coating",
    "to_burnable_cm": "how far it is from the nearest cloth, paper, nest or wood",
}
_WRONG = {
    "guard": "no guard",
    "two_hangers": "only one hanger",
    "thermostat": "no thermostat",
    "ptfe_free": "a bulb or surface that may carry a non-stick coating",
}


def _wanted(lamp: Lamp) -> tuple[str, ...]:
    """What such a heater needs: a panel has no glowing bulb and is fixed as its maker says."""
    both = ("thermostat", "ptfe_free")
    return (*both, "guard", "two_hangers", "to_burnable_cm") if lamp.kind == "heat lamp" else both


def _faults(lamp: Lamp) -> list[str]:
    wanted = _wanted(lamp)
    faults = [name for name in wanted if name in _WRONG and getattr(lamp, name) is False]
    close = (
        "to_burnable_cm" in wanted
        and lamp.to_burnable_cm is not None
        and lamp.to_burnable_cm < limit("lamp_to_burnable")
    )
    return [*faults, "to_burnable_cm"] if close else faults


def _untold(lamp: Lamp) -> list[str]:
    return [name for name in _wanted(lamp) if getattr(lamp, name) is None]


def _safe(cage: Enclosure) -> Enclosure:
    far = limit("lamp_to_burnable")

    def mended(lamp: Lamp) -> Lamp:
        if lamp.kind not in _HEATERS:
            return lamp
        away = max(lamp.to_burnable_cm or 0, far) if lamp.kind == "heat lamp" else lamp.to_burnable_cm
        changed: Lamp = lamp.but(guard=True, two_hangers=True, thermostat=True, ptfe_free=True, to_burnable_cm=away)
        return changed

    changed: Enclosure = cage.but(lamps=tuple(mended(lamp) for lamp in cage.lamps or ()))
    return changed


def _remedies(cage: Enclosure) -> tuple[Remedy, ...]:
    gone = tuple(lamp for lamp in cage.lamps or () if lamp.kind not in _HEATERS)
    return (
        Remedy(id="off", title="Take the heater off the cage and warm the room instead.", change=change.enclosure(cage.id, lamps=gone),
               effort=Effort.AN_HOUR, caution="Not for a bird that an avian vet keeps warm: mend the heater first, then at once."),
        Remedy(id="make-safe", title="Hang it as its maker says: guard, two chains, thermostat, uncoated bulb, nothing that burns near it.",
               change=change.enclosure_by(cage.id, _safe), cost=Cost(20, 90), effort=Effort.AN_HOUR, caution=_CAUTION),
    )  # fmt: skip


def _words(view: EnclosureView, lamp: Lamp, fault: str) -> str:
    if fault == "to_burnable_cm" and lamp.to_burnable_cm is not None:
        return f"something that burns {view.say(lamp.to_burnable_cm, 'cm')} from it"
    return _WRONG[fault]


@check("climate.heat_lamp", "Is the heat lamp safe?", "enclosure")
def heat_lamp(view: EnclosureView) -> Findings:
    """Look at guard, hangers, thermostat, coating and distance to what burns, for every heat lamp and panel.

    One fault is enough for a fire or a dead company; a missing thermostat alone can overheat birds that cannot leave.
    """
    cage = view.enclosure
    if not view.birds or cage.lamps == ():
        return
    why = "Heat lamps set cages alight, burn birds that cannot move away, and coated bulbs give off fumes that kill small birds."
    cites = cite("lamp_to_burnable", "lamp_guard")
    if cage.lamps is None:
        yield cannot_tell("Whether a heat lamp or panel is fixed to the cage is not known.", why=why, cites=cites,
                          measure="List the lamps and heaters at the cage, and whether a cloth goes over them; write lamps = [] if there are none.")  # fmt: skip
        return
    heaters = [lamp for lamp in cage.lamps if lamp.kind in _HEATERS]
    if not heaters:
        return
    faults = [(lamp, fault) for lamp in heaters for fault in _faults(lamp)]
    untold = [_ASK[name] for lamp in heaters for name in _untold(lamp)]
    near = [lamp.to_burnable_cm for lamp in heaters if lamp.kind == "heat lamp" and lamp.to_burnable_cm is not None]
    told = bool(near) and (not faults or any(fault == "to_burnable_cm" for _, fault in faults))
    common: dict[str, Any] = {"why": why, "cites": cites, "caution": _CAUTION,
              "measured": Quantity(min(near), "cm") if told else None, "limit": Span(low=limit("lamp_to_burnable"), unit="cm") if told else None,
              "steps": (Step(text="Least distance to what burns, unless the maker asks for more", result=Quantity(limit("lamp_to_burnable"), "cm"),
                             cite=cites[0]),),
              "confidence": "The distance is quoted from a farm-safety page; the maker's own instructions come first."}  # fmt: skip
    if faults:
        dire = any(fault != "thermostat" for _, fault in faults)
        yield Finding(
            severity=Severity.ACT_NOW if dire else Severity.MEND_SOON, soon=Soon.HOURS if dire else Soon.DAYS, remedies=_remedies(cage),
            statement=f"The heater at the cage has {listed(_words(view, lamp, fault) for lamp, fault in faults)}.",
            measure=f"Find out too {listed(untold)}." if untold else "", **common,
        )  # fmt: skip
    elif untold:
        yield cannot_tell("Whether the heater at the cage is safe is not known.", why=why, cites=cites, caution=_CAUTION,
                          measure=f"Find out {listed(untold)}.")  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement="The heater at the cage has all its safeguards.", **common)
