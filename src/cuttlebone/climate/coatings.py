"""Heated non-stick coatings: there are any in the dwelling, or there are none.

Nothing is computed on purpose. Birds have died in other rooms and in normal use, so no heat, way, airing or waiting is safe.
"""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import FREE, Cost, Effort, Finding, Remedy, Severity, Soon
from cuttlebone.climate.common import listed, unused, without
from cuttlebone.climate.hazards import HELP, Found, cautions, cites_of, fluoropolymer, names, steps_of, untold_rooms
from cuttlebone.home import change
from cuttlebone.home.birds import inside
from cuttlebone.home.change import Change
from cuttlebone.home.model import Enclosure, Room
from cuttlebone.home.view import Findings, HouseholdView, cannot_tell, check

_WHY = (
    "Overheated non-stick (PTFE) coatings give off fumes that kill small birds in any room of a dwelling, at times in normal use; "
    "people notice little. Nothing in between makes it safe."
)
_LOOK_FOR = (
    "look for non-stick pans, baking tins, grills, air fryers, irons and their covers, hair tools, heaters, coated bulbs and self-cleaning "
    "ovens, and list them."
)

_ASK_LAMPS = "list the lamps and heaters (lamps = [] if there are none), and ask the maker whether each is free of non-stick coating."


def _dwelling(view: HouseholdView) -> list[Room]:
    """The rooms under one roof with birds: an outbuilding counts only where birds live in it."""
    homes = {e.room for e in view.home.enclosures or () if view.companies.get(e.id)}
    rooms = view.home.rooms or ()
    indoors = any(r.id in homes and r.kind != "outbuilding" for r in rooms) or not homes & {r.id for r in rooms}
    return [r for r in rooms if r.id in homes or (indoors and r.kind != "outbuilding")]


def _coated_lamps(view: HouseholdView) -> list[Enclosure]:
    """Enclosures with a lamp or heater that is said not to be free of coating."""
    return [e for e in view.home.enclosures or () if any(lamp.ptfe_free is False for lamp in e.lamps or ())]


def _untold_lamps(view: HouseholdView) -> list[str]:
    """Cages in use at which there may be a coated lamp or heater, as far as is told."""
    used = [e for e in view.home.enclosures or () if e.purpose != "spare" or view.companies.get(e.id)]
    return [inside(e.name) for e in used if e.lamps is None or any(lamp.ptfe_free is None for lamp in e.lamps)]


def _uncoat(cages: list[Enclosure]) -> Change:
    def plain(cage: Enclosure) -> Change:
        lamps = tuple(lamp for lamp in cage.lamps or () if lamp.ptfe_free is not False)
        return change.enclosure(cage.id, lamps=lamps)

    return change.both(*(plain(cage) for cage in cages))


def _all_names(found: list[Found], cages: list[Enclosure]) -> str:
    lamps = [f"a coated lamp at {inside(cage.name)}" for cage in cages]
    return listed([*([names(found)] if found else []), *lamps])


def _remedies(found: list[Found], cages: list[Enclosure]) -> tuple[Remedy, ...]:
    pairs, said, mind = [(room, thing) for room, thing, _ in found], _all_names(found, cages), cautions(found)
    swap = f"Put uncoated steel, cast iron, glass, cotton or an uncoated bulb in its place, and throw it out: {said}."
    gone = change.both(without(pairs), _uncoat(cages))
    cold = change.both(unused(pairs), _uncoat(cages))
    return (
        Remedy(id="take-out", title=swap, change=gone, cost=Cost(10, 60), effort=Effort.AN_HOUR, caution=mind),
        Remedy(
            id="stop-using",
            title=f"Leave it cold while birds live here: {said}.",
            change=cold,
            cost=FREE,
            effort=Effort.A_HABIT,
            caution=mind,
        ),
    )


@check("climate.ptfe", "Is there anything with a non-stick coating that is heated?", "household")
def ptfe(view: HouseholdView) -> Findings:
    """Ask for every heated non-stick coating in the dwelling: yes or no."""
    if not view.home.birds:
        return
    rooms, lamps = _dwelling(view), _coated_lamps(view)
    found = [(r, t, h) for r in rooms for t in r.things or () if fluoropolymer(h := facts.hazard(t.kind))]
    used = [hit for hit in found if hit[1].used is not False]
    untold = [*untold_rooms(rooms), *([] if any(r.kind == "kitchen" for r in rooms) else ["the kitchen"])]
    lamps_untold = _untold_lamps(view)
    known = tuple(facts.hazard(name).fact("harm").cite for name in ("nonstick_pan", "coated_heat_lamp"))
    common: dict[str, Any] = {"why": _WHY, "cites": tuple(dict.fromkeys((*(cites_of(found) if found else ()), *known)))}
    if used or lamps:
        yield Finding(
            severity=Severity.ACT_NOW,
            soon=Soon.HOURS,
            statement=f"A non-stick coating whose fumes could reach every room is in use: {_all_names(used, lamps)}.",
            remedies=_remedies(used, lamps),
            confidence="Yes or no only: no amount of it is known to be safe.",
            caution=cautions(used),
            steps=steps_of(used),
            **common,
        )
    elif untold or lamps_untold:
        yield cannot_tell(
            "Whether anything with a non-stick coating is heated in the dwelling is not known.",
            measure=" ".join(
                (
                    *([f"For {listed(untold)}, {_LOOK_FOR}"] if untold else []),
                    *([f"At {listed(lamps_untold)}, {_ASK_LAMPS}"] if lamps_untold else []),
                )
            ),
            caution=HELP,
            **common,
        )
    elif found:
        yield Finding(
            severity=Severity.BETTER,
            soon=Soon.DAYS,
            statement=f"Not used, but still in the dwelling: {names(found)}.",
            remedies=_remedies(found, [])[:1],
            caution=cautions(found),
            steps=steps_of(found),
            **common,
        )
    else:
        yield Finding(
            severity=Severity.FINE, statement="No heated non-stick coating is in any room, as far as is told.", **common
        )
