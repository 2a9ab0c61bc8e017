"""Birds told to be ill or frail: where they are and with whom. Never what they have."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon
from cuttlebone.base.source import PRACTICE, Cite
from cuttlebone.home import settle
from cuttlebone.home.birds import name_of, names_of, tally
from cuttlebone.home.model import Bird
from cuttlebone.home.view import BirdView, Findings, cannot_tell, check

_CAUTION = "This is no diagnosis. Call an avian vet; until then quiet, warmth at one end only, water and food within reach, nothing by force."


@check("health.ill_bird", "Is this bird told to be ill?", "bird")
def ill_bird(view: BirdView) -> Findings:
    """Look at what is told of the bird's state, whether or not its cage is told. An ill bird comes first of all."""
    bird, called = view.bird, name_of(view.bird)
    if bird.enclosure is None and "ill" not in (bird.state or ()):
        return  # gone, or asked for elsewhere
    common: dict[str, Any] = {"why": "Small birds fail fast, and what they have may pass to others.", "soon": Soon.HOURS,
                              "cites": (facts.rule("health.phone_now").cite, facts.rule("health.birds_hide").cite)}  # fmt: skip
    if "ill" in (bird.state or ()):
        yield _ill(view, common)
    elif bird.state is None:
        yield cannot_tell(f"How {called} is doing is not told.", **common,
                          measure="Look it over now: posture, breath, eyes, droppings, vent, feathers, beak, feet; write what you see, or that all is as usual.")  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement=f"{called} is not told to be ill.", **common)


def _ill(view: BirdView, common: dict[str, Any]) -> Finding:
    bird, called = view.bird, name_of(view.bird)
    if view.enclosure is None:
        return _ill_somewhere(bird, common)
    others = [b for b in view.mates if "ill" not in (b.state or ())]
    ill = [bird, *(b for b in view.mates if b not in others)]
    if view.enclosure.purpose == "hospital" and not others:
        return Finding(severity=Severity.MEND_SOON, statement=f"{called} is ill and set apart: keep to what the vet said, and weigh it daily.",
                       caution=_CAUTION, **common)  # fmt: skip
    sick = names_of(sorted(ill, key=lambda b: b.id))
    its = "its" if len(ill) == 1 else "their"
    apart = Remedy(id="hospital", title=f"Set {sick} apart now in a small cage of {its} own, warm at one end and quiet, and call an avian vet.",
                   change=settle.second_enclosure(view.enclosure.id, {b.id for b in ill}, purpose="hospital"),
                   caution=f"{_CAUTION} For the first hours any small sound cage or the carry box will do.")  # fmt: skip
    among = f" and shares a cage with {names_of(others)}" if others else ""
    todo = f"call an avian vet now, set {called} apart" if others else "call an avian vet now"
    return Finding(severity=Severity.ACT_NOW, statement=f"{called} is ill{among}: {todo}, and keep it warm and quiet.",
                   caution=_CAUTION, remedies=(apart,), **common)  # fmt: skip


def _ill_somewhere(bird: Bird, common: dict[str, Any]) -> Finding:
    """An ill bird whose cage is not told: the vet all the same."""
    called = name_of(bird)
    apart = Remedy(id="hospital", title=f"Set {called} apart now in a small cage of its own, warm at one end and quiet, and call an avian vet.",
                   change=settle.hospital(bird.id), caution=f"{_CAUTION} For the first hours any small sound cage or the carry box will do.")  # fmt: skip
    return Finding(severity=Severity.ACT_NOW, caution=_CAUTION, remedies=(apart,), **common, measure="Write the enclosure beside the bird.",
                   statement=f"{called} is ill, and where it lives is not told: call an avian vet now, and keep it warm, quiet and apart.")  # fmt: skip


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
    elif view.mates and any(b.quarrels_with is None for b in (bird, *view.mates)):
        yield cannot_tell(f"{called} is frail; whether its companions leave it in peace is not told.",
                          measure="Watch at feeding time whether it is chased, and write it down.", **common)  # fmt: skip
    elif len(view.mates) >= crowd.number:
        yield Finding(severity=Severity.BETTER, statement=f"{called} is frail and lives with {len(view.mates)} others: a smaller company is quieter.",
                      measured=tally(len(view.mates), "companion"), remedies=(quiet,), **common)  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement=f"{called} is frail and has quiet company.", **common)
