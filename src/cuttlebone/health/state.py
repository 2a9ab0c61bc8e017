"""Birds told to be ill or frail: where they are and with whom. Never what they have."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon
from cuttlebone.base.source import PRACTICE, Cite
from cuttlebone.home import settle
from cuttlebone.home.birds import name_of, names_of, tally
from cuttlebone.home.model import Bird
from cuttlebone.home.view import BirdView, EnclosureView, Findings, cannot_tell, check

_CAUTION = "This is no diagnosis. Call an avian vet; until then quiet, warmth at one end only, water and food within reach, nothing by force."


@check("health.ill_bird", "Is any bird told to be ill?", "enclosure")
def ill_bird(view: EnclosureView) -> Findings:
    """Look at what is told of each bird's state. An ill bird among others comes first of all."""
    if not view.birds:
        return
    ill, untold = [b for b in view.birds if "ill" in (b.state or ())], [b for b in view.birds if b.state is None]
    common: dict[str, Any] = {"why": "Small birds fail fast, and what they have may pass to others.", "soon": Soon.HOURS,
                              "cites": (facts.rule("health.phone_now").cite, facts.rule("health.birds_hide").cite)}  # fmt: skip
    if ill:
        yield _ill(view, ill, common)
    elif untold:
        yield cannot_tell(f"How {names_of(untold)} {'is' if len(untold) == 1 else 'are'} doing is not told.", **common,
                          measure="Look each over now: posture, breath, eyes, droppings, vent, feathers, beak, feet; write what you see, or that all is as usual.")  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement="No bird here is told to be ill.", **common)


def _ill(view: EnclosureView, ill: list[Bird], common: dict[str, Any]) -> Finding:
    called, one = names_of(ill), len(ill) == 1
    be, them, its = ("is", "it", "its") if one else ("are", "them", "their")
    others = [b for b in view.birds if b not in ill]
    if view.enclosure.purpose == "hospital" and not others:
        return Finding(severity=Severity.MEND_SOON, statement=f"{called} {be} ill and set apart: keep to what the vet said, and weigh {them} daily.",
                       caution=_CAUTION, **common)  # fmt: skip
    apart = Remedy(id="hospital", title=f"Set {called} apart now in a small cage of {its} own, warm at one end and quiet, and call an avian vet.",
                   change=settle.second_enclosure(view.enclosure.id, {b.id for b in ill}, purpose="hospital"),
                   caution=f"{_CAUTION} For the first hours any small sound cage or the carry box will do.")  # fmt: skip
    among = f" and {'shares' if one else 'share'} a cage with {names_of(others)}" if others else ""
    todo = f"call an avian vet now, set {called} apart" if others else "call an avian vet now"
    return Finding(severity=Severity.ACT_NOW, statement=f"{called} {be} ill{among}: {todo}, and keep {them} warm and quiet.",
                   caution=_CAUTION, remedies=(apart,), **common)  # fmt: skip


def _rough(view: BirdView) -> list[Bird]:
    """Companions that are told to quarrel with it, or are of a rougher kind."""
    temper = view.kind.number("temper")
    return [m for m in view.mates if view.bird.id in (m.quarrels_with or ()) or m.id in (view.bird.quarrels_with or ())
            or facts.species(m.species).number("temper") > temper]  # fmt: skip


@check("health.frail_company", "Does a frail bird have quiet company?", "bird")
def frail_company(view: BirdView) -> Findings:
    """Look at who lives with a frail bird: rough companions and crowds keep it from food."""
    bird, called = view.bird, name_of(view.bird)
    if view.enclosure is None or "frail" not in (bird.state or ()):
        return
    crowd, rough = facts.rule("health.frail_mates"), _rough(view)
    cites: tuple[Cite, ...] = (crowd.cite, PRACTICE)
    common: dict[str, Any] = {"why": "A frail bird gives way at the dish and on the perch; one quiet friend is better than a flock or none.", "cites": cites,
                              "caution": _CAUTION, "soon": Soon.DAYS}  # fmt: skip
    friend = next((m for m in view.mates if m not in rough and m.species == bird.species), None)
    moved = {bird.id, friend.id} if friend else {bird.id}
    quiet = Remedy(id="quiet-cage", title=f"Move {called}{f' and {name_of(friend)}' if friend else ''} into a quiet second cage.", cost=Cost(40, 300),
                   effort=Effort.A_DAY, change=settle.second_enclosure(view.enclosure.id, moved))  # fmt: skip
    if rough:
        yield Finding(
            severity=Severity.MEND_SOON,
            statement=f"{called} is frail and lives with {names_of(rough)}, which may bully it.",
            remedies=(quiet,),
            **common,
        )
    elif any(m.quarrels_with is None for m in view.mates):
        yield cannot_tell(f"{called} is frail; whether its companions leave it in peace is not told.",
                          measure="Watch at feeding time whether it is chased, and write it down.", **common)  # fmt: skip
    elif len(view.mates) >= crowd.number:
        yield Finding(severity=Severity.BETTER, statement=f"{called} is frail and lives with {len(view.mates)} others: a smaller company is quieter.",
                      measured=tally(len(view.mates), "companion"), remedies=(quiet,), **common)  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement=f"{called} is frail and has quiet company.", **common)
