"""Checks of the perches: enough of them, of the right thickness and stuff, with room for all."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, RuleLine, Severity, Soon, Step, Verdict
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.home import change
from cuttlebone.home.birds import plural_of
from cuttlebone.home.model import Perch
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.housing.flying import ends_remedy
from cuttlebone.housing.inside import (
    Needs,
    every_perch,
    flies,
    grip,
    lines_of,
    needs_of,
    perchers,
    untold,
    with_branches,
)
from cuttlebone.housing.names import perch_name, perches_named
from cuttlebone.housing.ruler import at_least, say_cm, shown_cm

FRESH_WOOD = "Only untreated, unsprayed hardwood or fruit wood you can name; wash and dry it first."
HOW_THICK = "Measure the thickness of each perch with callipers, or wrap a thread once round it and divide by 3.14."


def more_branches(view: EnclosureView, needs: Needs, count: int) -> tuple[Remedy, ...]:
    """Add natural branches where they cost no flight; nothing if there is no place for them."""
    cage = view.enclosure
    if (
        not (cage.length_cm and cage.width_cm and cage.height_cm)
        or count < 1
        or with_branches(cage, needs, count) is None
    ):
        return ()
    what = "a natural branch" if count == 1 else f"{count} natural branches"
    return (
        Remedy(
            id="more-branches", title=f"Add {what} across the cage, of another thickness than the others, clear of the flight line and of the dishes.",
            change=change.enclosure_by(cage.id, lambda e: with_branches(e, needs, count) or e), cost=Cost(0, 10 * count), effort=Effort.MINUTES,
            caution=FRESH_WOOD,
        ),
    )  # fmt: skip


@check("housing.perch_count", "Are there enough perches?", "enclosure")
def perch_count(view: EnclosureView) -> Findings:
    """Compare the number of perches with common practice (two, at separate ends) and a Swiss summary (three)."""
    if not view.birds or not flies(view):
        return
    least, swiss = facts.rule("housing.perches_min"), facts.rule("housing.perches_ch")
    cites = (least.cite, swiss.cite)
    why = "With one perch nobody can fly, and a weaker bird has nowhere to go; too many cost the flight."
    if unknown := untold(view, "perches", asks="whether there are enough perches", why=why, cites=cites):
        yield unknown
        return
    n, needs = len(view.enclosure.perches or ()), needs_of(view)
    rules = (
        RuleLine(rule="ch-perch-summary", name="Switzerland, as a trade summary puts it", verdict=Verdict.MEETS if n >= swiss.number else Verdict.SHORT,
                 says=f"{n} of at least {swiss.number:g} perches of differing thickness", weight="summary of binding law; the ordinance's own text was not seen", cite=swiss.cite),
    )  # fmt: skip
    common: dict[str, Any] = {"measured": Quantity(n, "perch" if n == 1 else "perches"), "why": why, "cites": cites, "rules": rules,
                              "confidence": "The two are common practice, the three a summary of Swiss law."}  # fmt: skip
    if n < least.number:
        few = "There is no perch" if n == 0 else "There is only one perch"
        remedies = (
            (*ends_remedy(view, needs), *more_branches(view, needs, round(swiss.number) - n))
            if view.enclosure.length_cm
            else ()
        )
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"{few}; at least two at separate ends are common practice.",
                      limit=Span(low=least.number, unit="perches"), remedies=remedies, **common)  # fmt: skip
    elif n < swiss.number:
        yield Finding(severity=Severity.BETTER, statement="There are two perches; a third, of another thickness, gives feet and weaker birds a choice.",
                      limit=Span(low=swiss.number, unit="perches"), remedies=more_branches(view, needs, 1), **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"There are {n} perches.",
            limit=Span(low=swiss.number, unit="perches"),
            **common,
        )


@check("housing.perch_diameter", "Do the perches fit the feet?", "enclosure")
def perch_diameter(view: EnclosureView) -> Findings:
    """Compare the thickness of each perch with what is advised for each species: toes should wrap a half to three quarters round."""
    if not view.birds or not perchers(view) or view.enclosure.perches == ():
        return
    cites = view.cites("perch_mm")
    why = "Toes should wrap a half to three quarters round: on a perch too thin the claws meet the foot, on one too thick the grip fails and soles get sore."
    if unknown := untold(view, "perches", asks="whether they fit the feet", why=why, cites=cites):
        yield unknown
        return
    perches = view.enclosure.perches or ()
    told, needs = [p for p in perches if p.diameter_mm is not None], needs_of(view)
    without = [kind for kind in perchers(view) if not any(_fits(p, kind) for p in told)]
    wrong = [p for p in told if not any(_fits(p, kind) for kind in perchers(view))]
    limit = Span(needs.thin_mm, needs.thick_mm, "mm")
    common: dict[str, Any] = {
        "why": why, "cites": cites, "limit": limit,
        "steps": tuple(Step(text=f"Thickness advised for the {plural_of(kind.name, 1)}", result=Quantity(kind.number("perch_mm"), "mm"), cite=kind.fact("perch_mm").cite) for kind in perchers(view)),
        "confidence": "Advised ranges from care pages; budgerigar, dove and quail from memory.",
    }  # fmt: skip
    if len(told) < len(perches) and (without or not wrong):
        yield cannot_tell("The thickness of some perches is not told.", measure=HOW_THICK, why=why, cites=cites)
    elif without:
        names = ", ".join(plural_of(kind.name, 1) for kind in without)
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"No perch has a thickness that fits the feet of: {names}.",
                      measured=_thickest(told), remedies=(_swap_perches(view, needs, told),), **common)  # fmt: skip
    elif wrong:
        yield Finding(severity=Severity.BETTER, statement=f"Outside the advised {limit.shown(view.home.units)}: {_named(view, wrong)}.", measured=_thickest(wrong),
                      remedies=(_swap_perches(view, needs, wrong),), **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"Every perch is within the advised {limit.shown(view.home.units)}, and each species has one that fits.",
            **common,
        )


def _fits(perch: Perch, kind: facts.Entry) -> bool:
    low, high = grip(kind)
    return perch.diameter_mm is not None and low <= perch.diameter_mm <= high


def _thickest(perches: list[Perch]) -> Quantity | None:
    told = [p.diameter_mm for p in perches if p.diameter_mm is not None]
    return Quantity(max(told), "mm") if told else None


def _named(view: EnclosureView, perches: list[Perch]) -> str:
    return ", ".join(f"{perch_name(p.id)} ({view.say(p.diameter_mm or 0.0, 'mm')})" for p in perches)


def _swap_perches(view: EnclosureView, needs: Needs, wrong: list[Perch]) -> Remedy:
    """Swap perches for branches that fit, each of another thickness."""
    sizes = (needs.mid_mm, needs.thin_mm, needs.thick_mm)
    new = {perch.id: sizes[i % 3] for i, perch in enumerate(wrong)}
    span = Span(needs.thin_mm, needs.thick_mm, "mm").shown(view.home.units)
    what = f"natural branches of {span}, in the same places and of differing thickness"
    if len(new) == 1:
        what = f"a natural branch of {span}, in the same place"
    return Remedy(
        id="fitting-perches", title=f"Swap {perches_named(new)} for {what}.",
        change=change.enclosure_by(view.enclosure.id, every_perch(lambda p: p.but(diameter_mm=new[p.id], material="branch") if p.id in new else p)),
        cost=Cost(0, 8 * len(new)), effort=Effort.MINUTES, caution=FRESH_WOOD,
    )  # fmt: skip


@check("housing.perch_variety", "Do the perches differ, and is one a natural branch?", "enclosure")
def perch_variety(view: EnclosureView) -> Findings:
    """Look for differing thicknesses and a natural branch, so that feet are not pressed at the same spots all day."""
    if not view.birds or not flies(view) or view.enclosure.perches == ():
        return
    step = facts.rule("housing.thickness_step")
    cites = (*view.cites("perch_mm"), step.cite)
    why = "Feet pressed at the same spots all day get sore; care pages ask for several thicknesses with natural branches among them."
    if unknown := untold(view, "perches", asks="whether they differ", why=why, cites=cites):
        yield unknown
        return
    perches = view.enclosure.perches or ()
    sizes = [p.diameter_mm for p in perches if p.diameter_mm is not None]
    differ = bool(sizes) and max(sizes) - min(sizes) >= step.number
    branch = any(p.material == "branch" for p in perches)
    unsure = (not differ and len(sizes) < len(perches)) or (not branch and any(p.material is None for p in perches))
    common: dict[str, Any] = {"why": why, "cites": cites, "measured": Quantity(max(sizes) - min(sizes), "mm") if sizes else None,
                              "limit": Span(low=step.number, unit="mm"), "confidence": "From which difference thicknesses count as different is our choice."}  # fmt: skip
    if differ and branch:
        yield Finding(
            severity=Severity.FINE,
            statement="The perches differ in thickness, and there is a natural branch among them.",
            **common,
        )
    elif unsure:
        yield cannot_tell(
            "Thickness or material of some perches is not told.",
            measure=f"{HOW_THICK} Note which are natural branches.",
            why=why,
            cites=cites,
        )
    else:
        needs = needs_of(view)
        what = (
            "All perches are of nearly one thickness" if not differ else "There is no natural branch among the perches"
        )
        yield Finding(
            severity=Severity.BETTER,
            statement=f"{what}.",
            remedies=(_vary(view, needs), *more_branches(view, needs, 1)),
            **common,
        )


def _vary(view: EnclosureView, needs: Needs) -> Remedy:
    """Swap one perch for a natural branch that differs most from the rest."""
    perches = view.enclosure.perches or ()
    one, rest = perches[-1], [p.diameter_mm for p in perches[:-1] if p.diameter_mm is not None]
    size = max(
        (needs.thin_mm, needs.thick_mm, needs.mid_mm), key=lambda mm: max((abs(mm - r) for r in rest), default=0.0)
    )
    swap = every_perch(lambda p: p.but(diameter_mm=size, material="branch") if p.id == one.id else p)
    return Remedy(
        id="one-branch", title=f"Swap {perch_name(one.id)} for a natural branch about {view.say(size, 'mm')} thick.", change=change.enclosure_by(view.enclosure.id, swap),
        cost=Cost(0, 8), effort=Effort.MINUTES, caution=FRESH_WOOD,
    )  # fmt: skip


@check("housing.perch_material", "Is any perch rough or full of threads?", "enclosure")
def perch_material(view: EnclosureView) -> Findings:
    """Look for sandpaper sleeves, which care pages warn of, and for rope, whose threads catch claws."""
    if not view.birds or not perchers(view) or view.enclosure.perches == ():
        return
    sand, loop = facts.rule("housing.no_sandpaper"), facts.rule("housing.thread_loop")
    cites = (sand.cite, loop.cite)
    why = "Sandpaper rubs the soles raw and shortens no claws; threads and loops of a frayed rope hold a claw fast."
    if unknown := untold(view, "perches", asks="what the birds stand on", why=why, cites=cites):
        yield unknown
        return
    perches, needs = view.enclosure.perches or (), needs_of(view)
    rough = [p for p in perches if p.material == "sandpaper sleeve"]
    rope = [p for p in perches if p.material == "rope"]
    common: dict[str, Any] = {
        "why": why,
        "cites": cites,
        "confidence": "Three care pages agree on sandpaper; the word on rope is from memory.",
    }
    if rough:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"There is a sandpaper sleeve on {perches_named(p.id for p in rough)}.",
                      remedies=(_bare(view, rough, needs), _swap_perches(view, needs, rough)), caution="Sore or swollen soles are for an avian vet to see.", **common)  # fmt: skip
    elif any(p.material is None for p in perches):
        yield cannot_tell("What some perches are made of is not told.", measure="Look at each perch: branch, dowel, rope, plastic, concrete, or a sandpaper sleeve over it.",
                          why=why, cites=cites)  # fmt: skip
    elif rope:
        yield Finding(severity=Severity.BETTER, statement=f"Rope perches fray: cut threads and loops longer than {say_cm(view, loop.number)}, or use a branch.",
                      remedies=(_swap_perches(view, needs, rope),), **common)  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement="No perch has a sandpaper sleeve or loose threads.", **common)


def _bare(view: EnclosureView, rough: list[Perch], needs: Needs) -> Remedy:
    ids = {p.id for p in rough}

    def bared(perch: Perch) -> Perch:
        thick = perch.diameter_mm if perch.diameter_mm is not None else needs.mid_mm
        changed: Perch = perch.but(material="dowel", diameter_mm=thick) if perch.id in ids else perch
        return changed

    return Remedy(id="no-sleeves", title="Take the sandpaper sleeves off and wash the perches.", change=change.enclosure_by(view.enclosure.id, every_perch(bared)),
                  effort=Effort.MINUTES)  # fmt: skip


@check("housing.roost_length", "Is there room for all birds to sit?", "enclosure")
def roost_length(view: EnclosureView) -> Findings:
    """Compare the length of all perches, and of the highest, with what the company needs to sit side by side."""
    kinds = {kind.id for kind in perchers(view)}
    birds = [b for b in view.birds if facts.species(b.species).id in kinds]
    if not birds:
        return
    top, cites = facts.rule("housing.top_level"), (*view.cites("roost_length_cm"), facts.rule("housing.top_level").cite)
    why = "All birds must be able to sit at once, and most want the highest perch for the night; who finds no place there is driven about."
    if unknown := untold(view, "width_cm", "perches", asks="whether all birds can sit at once", why=why, cites=cites):
        yield unknown
        return
    need = sum(facts.species(b.species).number("roost_length_cm") for b in birds)
    lines = lines_of(view.enclosure)
    have = sum(line.length_cm for line in lines)
    highest = max((line.height_cm for line in lines), default=0.0)
    above = sum(line.length_cm for line in lines if line.height_cm >= highest - top.number)
    steps = (
        Step(
            text=f"Length {len(birds)} birds need to sit side by side",
            result=shown_cm(view, need),
            cite=view.cites("roost_length_cm")[0],
        ),
        Step(text="Length of all perches", result=shown_cm(view, have)),
        Step(text="Length of the highest perches", result=shown_cm(view, above), cite=top.cite),
    )
    common: dict[str, Any] = {"why": why, "cites": cites, "steps": steps, **at_least(view, have, need),
                              "confidence": "Length per bird from memory, no source; which perches count as highest is our choice."}  # fmt: skip
    said, wanted = say_cm(view, have), say_cm(view, need)
    if have < need:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"The perches are {said} long in all; these birds need about {wanted} to sit at once.",
                      remedies=_full_length(view, need), **common)  # fmt: skip
    elif above < need:
        common = {**common, **at_least(view, above, need)}
        yield Finding(severity=Severity.BETTER, statement=f"The highest perches are {say_cm(view, above)} long; for all birds to sleep there takes about {wanted}.",
                      remedies=_raised(view, need), **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"The perches are {said} long in all, room enough for {len(birds)} birds, also at the top.",
            **common,
        )


def _full_length(view: EnclosureView, need: float) -> tuple[Remedy, ...]:
    """Let every perch run from front to back, and add branches if that is not enough."""
    cage, needs = view.enclosure, needs_of(view)
    wide, n = cage.width_cm or 0.0, len(cage.perches or ())
    full = every_perch(lambda p: p.but(x_end_cm=None, y_cm=None, y_end_cm=None))
    missing = max(0, -int(-(need - wide * n) // wide)) if wide else 0
    grown: tuple[Remedy, ...] = ()
    if cage.length_cm and missing and with_branches(full(cage), needs, missing):
        grown = (
            Remedy(id="full-perches-and-branches", title=f"Let every perch run from front to back and add {missing} more branches.",
                   change=change.enclosure_by(cage.id, lambda e: with_branches(full(e), needs, missing) or e), cost=Cost(0, 8 * (n + missing)), effort=Effort.MINUTES,
                   caution=FRESH_WOOD),
        )  # fmt: skip
    whole = Remedy(id="full-perches", title="Let every perch run from the front to the back of the cage.", change=change.enclosure_by(cage.id, full),
                   cost=Cost(0, 8 * max(1, n)), effort=Effort.MINUTES, caution=FRESH_WOOD)  # fmt: skip
    return (whole, *grown)


def _raised(view: EnclosureView, need: float) -> tuple[Remedy, ...]:
    """Let the highest perches run from front to back, or raise the next ones to their height."""
    cage, top = view.enclosure, facts.rule("housing.top_level").number
    lines = sorted(lines_of(cage), key=lambda line: -line.height_cm)
    highest, total, chosen = lines[0].height_cm, 0.0, []
    for line in lines:
        chosen.append(line.id)
        total += line.length_cm
        if total >= need:
            break
    raise_all = every_perch(lambda p: p.but(height_cm=highest) if p.id in chosen and p.height_cm < highest - top else p)
    full = every_perch(lambda p: p.but(x_end_cm=None, y_cm=None, y_end_cm=None) if p.height_cm >= highest - top else p)
    return (
        Remedy(id="full-top-perches", title="Let the highest perches run from the front to the back of the cage.", change=change.enclosure_by(cage.id, full),
               cost=Cost(0, 16), effort=Effort.MINUTES, caution=FRESH_WOOD),
        Remedy(id="raise-perches", title=f"Raise {perches_named(chosen)} to {say_cm(view, highest)} above the cage floor.", change=change.enclosure_by(cage.id, raise_all)),
    )  # fmt: skip
