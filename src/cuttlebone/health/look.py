"""Looking birds over: daily, and nails and beak closely every month."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Effort, Finding, Remedy, Severity, Soon
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.home import change
from cuttlebone.home.birds import inside
from cuttlebone.home.model import DutyKind
from cuttlebone.home.rounds import shortest_h
from cuttlebone.home.view import EnclosureView, Findings, HouseholdView, View, cannot_tell, check

DAILY = "eyes, feathers, vent, beak, nails and droppings"


def add_duty(view: View, kind: DutyKind, every_h: float) -> Remedy:
    """The remedy of doing a duty this often, for all enclosures, by the first keeper (or whoever did it)."""
    who = tuple(p.id for p in view.keepers[:1])
    often = {12: "morning and evening", 24: "every day", 168: "every week"}.get(
        int(every_h), "every month" if every_h > 700 else f"every {every_h:g} h"
    )
    kept = view.duties(kind)
    had = next((d.who for d in kept if d.who), None)
    return Remedy(
        id=f"do-{kind.replace(' ', '-')}",
        title=f"{_DOES[kind]} {often}.",
        effort=Effort.A_HABIT,
        change=change.duty(kind, every_h, who=had or who or None),
    )


_DOES: dict[DutyKind, str] = {
    "look": f"Look every bird over for {DAILY},",
    "weigh": "Weigh every bird",
    "nails": "Look closely at nails and beak",
}


@check("health.daily_look", "Is every bird looked over each day?", "enclosure")
def daily_look(view: EnclosureView) -> Findings:
    """Compare the time between two looks with a day: eyes, feathers, vent, beak, nails and droppings."""
    if not view.birds:
        return
    limit = facts.rule("health.look_h")
    common: dict[str, Any] = {
        "why": "Birds hide illness, so a small change is the first sign there is; small birds fail fast.", "soon": Soon.DAYS,
        "cites": (limit.cite, facts.rule("health.seen_daily").cite, facts.rule("health.birds_hide").cite), "limit": Span(high=limit.number, unit="h"),
    }  # fmt: skip
    duties = view.duties("look", view.enclosure.id)
    every = shortest_h(duties)
    if view.home.duties is None or (duties and every is None):
        yield cannot_tell(f"How often the birds of {inside(view.enclosure.name)} are looked over is not told.",
                          measure=f"Write the duty and its times: {DAILY}, bird by bird.", **common)  # fmt: skip
    elif every is None:
        yield Finding(severity=Severity.MEND_SOON, statement=f"Nobody looks over the birds of {inside(view.enclosure.name)} as a duty.",
                      remedies=(add_duty(view, "look", 12),), **common)  # fmt: skip
    elif every > limit.number:
        yield Finding(severity=Severity.MEND_SOON, statement=f"The birds of {inside(view.enclosure.name)} are looked over every {view.say(every, 'h')} only.",
                      measured=Quantity(every, "h"), remedies=(add_duty(view, "look", 12),), **common)  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement=f"The birds of {inside(view.enclosure.name)} are looked over at least every {view.say(every, 'h')}: {DAILY}.",
                      measured=Quantity(every, "h"), **common)  # fmt: skip


@check("health.nails", "Are nails and beaks looked at closely every month?", "household")
def nails(view: HouseholdView) -> Findings:
    """Compare the time between two close looks at nails and beak with a month: long nails catch in mesh."""
    if not view.companies:
        return
    limit = facts.rule("health.nails_h")
    common: dict[str, Any] = {"why": "A long nail catches in mesh or cloth and breaks a leg; an overgrown beak cannot husk seed.", "cites": (limit.cite,),
                              "limit": Span(high=limit.number / 24, unit="days"), "soon": Soon.WEEKS,
                              "caution": "A nail cut too short bleeds, and a few drops matter: let a vet show you, or do it."}  # fmt: skip
    per_cage = [view.duties("nails", cage) for cage in view.companies]
    often = [shortest_h(each) for each in per_cage]
    untold = any(each and every is None for each, every in zip(per_cage, often, strict=True))
    every = None if None in often else max(o for o in often if o is not None)
    if view.home.duties is None or untold:
        yield cannot_tell(
            "How often nails and beaks are looked at is not told.",
            measure="Write the duty and how often it falls.",
            **common,
        )
    elif every is None or every > limit.number:
        text = (
            "Nobody looks at nails and beaks as a duty."
            if every is None
            else f"Nails and beaks are looked at every {every / 24:.0f} days only."
        )
        yield Finding(
            severity=Severity.BETTER,
            statement=text,
            remedies=(add_duty(view, "nails", 720),),
            measured=None if every is None else Quantity(every / 24, "days"),
            **common,
        )
    else:
        yield Finding(severity=Severity.FINE, statement=f"Nails and beaks are looked at every {every / 24:.0f} days.", measured=Quantity(every / 24, "days"),
                      **common)  # fmt: skip
