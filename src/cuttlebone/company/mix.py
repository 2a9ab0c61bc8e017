"""Species that do not go together, and species that cross."""

from collections.abc import Iterator
from itertools import combinations
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity
from cuttlebone.base.source import Cite
from cuttlebone.facts.schema import Entry
from cuttlebone.home import change, settle
from cuttlebone.home.birds import by_species, listed, opposite, plural_of
from cuttlebone.home.model import Bird
from cuttlebone.home.view import EnclosureView, Findings, check

Clash = tuple[Severity, str, str, tuple[Cite, ...]]
"""How bad, the sentence, the species to move out, sources."""

_TIERS = {1: "quiet", 2: "pushy", 3: "a bully"}


def _is_finch(kind: Entry) -> bool:
    return "finch" in kind.text("group")


def clash(a: Entry, b: Entry) -> Clash | None:
    """Whether two species should be kept apart, and why; None if nothing known speaks against it."""
    parakeet = next((k for k in (a, b) if k.text("group") == "parakeet"), None)
    finch = next((k for k in (a, b) if _is_finch(k)), None)
    limit = facts.rule("company.parakeet_finch_g")
    if parakeet and finch:
        small = finch.number("mass_g") < limit.number
        text = f"{plural_of(parakeet.name)} can bite the legs and feet of {plural_of(finch.name)}"
        return (
            Severity.MEND_SOON if small else Severity.BETTER,
            text,
            parakeet.id,
            (limit.cite, finch.fact("mass_g").cite),
        )
    calm, rough = sorted((a, b), key=lambda k: k.number("temper"))
    if rough.number("temper") - calm.number("temper") >= facts.rule("company.temper_gap").number:
        text = f"{plural_of(rough.name)} bully {plural_of(calm.name)}"
        cites = (
            facts.rule("company.temper_gap").cite,
            facts.rule("company.temper_tiers").cite,
            rough.fact("temper").cite,
        )
        return (Severity.MEND_SOON, text, rough.id, cites)
    return None


def _clashes(view: EnclosureView) -> Iterator[Clash]:
    kinds, groups = view.kinds, by_species(view.birds)
    found = [c for a, b in combinations(kinds.values(), 2) if (c := clash(a, b))]
    yield from sorted(found, key=lambda c: c[0].rank)
    limit = facts.rule("company.one_pair")
    for key, group in groups.items():
        if kinds[key].flag("one_pair_only") and len(group) > limit.number and len(kinds) > 1:
            text = f"of {plural_of(kinds[key].name)} one pair is enough in a mixed company, and there are {len(group)}"
            yield Severity.BETTER, text, key, (limit.cite, kinds[key].fact("one_pair_only").cite)


@check("company.species_mix", "Do the species here go together?", "enclosure")
def species_mix(view: EnclosureView) -> Findings:
    """Compare temper, size and habits of each two species in the enclosure.

    Parakeets bite small finches' legs; a bully with quiet birds keeps them from food; some species fight their own kind.
    """
    if not view.birds:
        return
    names = [plural_of(k.name) for k in view.kinds.values()]
    why = "A bird that is chased from the dish or bitten has nowhere to go in a cage."
    steps = tuple(Step(text=f"Temper of {plural_of(k.name)}: {_TIERS[int(k.number('temper'))]}", result=Quantity(k.number("temper"), ""),
                       cite=k.fact("temper").cite) for k in view.kinds.values())  # fmt: skip
    common: dict[str, Any] = {
        "why": why,
        "steps": steps,
        "soon": Soon.DAYS,
        "confidence": "Tiers are keepers' experience, partly from memory.",
    }
    found = next(_clashes(view), None)
    if found is None:
        text = f"{listed(names)[:1].upper()}{listed(names)[1:]}: nothing known speaks against this company."
        yield Finding(
            severity=Severity.FINE, statement=text, cites=(facts.rule("company.temper_tiers").cite,), **common
        )
        return
    severity, text, move, cites = found
    birds = {b.id for b in by_species(view.birds)[move]}
    kind = plural_of(view.kinds[move].name)
    apart = Remedy(id="own-cage", title=f"Move the {kind} into a cage of their own.", cost=Cost(80, 300), effort=Effort.A_DAY,
                   change=settle.second_enclosure(view.enclosure.id, birds))  # fmt: skip
    yield Finding(
        severity=severity, statement=f"{text[:1].upper()}{text[1:]}.", cites=cites, remedies=(apart,), **common
    )


def _genus(kind: Entry) -> str:
    return kind.text("scientific").split(" ")[0]


def crossing(a: Entry, b: Entry) -> tuple[Cite, ...]:
    """Sources that two species cross; empty if none says so.

    Examples
    --------
    >>> bool(crossing(facts.species("canary"), facts.species("siskin"))), crossing(facts.species("canary"), facts.species("budgerigar"))
    (True, ())
    """
    one, two = sorted((a.id, b.id))
    rule = facts.entries("rule").get(f"company.crosses.{one}.{two}")
    if rule is not None:
        return (rule.fact("value").cite,)
    for first, second in ((a, b), (b, a)):
        if second.id in first.words("hybrids_with"):
            return (first.fact("hybrids_with").cite,)
    return (facts.rule("company.same_genus").cite,) if _genus(a) == _genus(b) and a.id != b.id else ()


def _crossing_pairs(view: EnclosureView) -> Iterator[tuple[Bird, Bird, tuple[Cite, ...]]]:
    for a, b in combinations(view.birds, 2):
        one, two = facts.species(a.species), facts.species(b.species)
        if one.id != two.id and opposite(a, b) and (cites := crossing(one, two)):
            yield a, b, cites


@check("company.hybrids", "Could two species cross here?", "enclosure")
def hybrids(view: EnclosureView) -> Findings:
    """Look for opposite sexes of species that cross; a bird not sexed counts as both."""
    if len(view.kinds) < 2:
        return
    why = "Mixed young are hard to place, often barren, and the pair is lost to its own kind."
    pair = next(_crossing_pairs(view), None)
    if pair is None:
        yield Finding(severity=Severity.FINE, statement="No two birds of opposite sexes here are of species known to cross.", why=why,
                      cites=(facts.rule("company.same_genus").cite,), confidence="The list of crosses is partly from memory.")  # fmt: skip
        return
    a, b, cites = pair
    nests, cage = view.enclosure.nests, view.enclosure
    kinds = f"{plural_of(facts.species(a.species).name)} and {plural_of(facts.species(b.species).name)}"
    tell = "" if a.sex and b.sex else " Birds not sexed are counted as both."
    found = [Remedy(id="no-nests", title="Take nests and nest-like dishes out.", change=change.enclosure(cage.id, nests=0),
                    caution="Not while a nest holds young; ask the vet about eggs.")] if nests else []  # fmt: skip
    fewer = min((facts.species(x.species).id for x in (a, b)), key=lambda s: len(by_species(view.birds)[s]))
    found.append(Remedy(id="own-cage", title=f"Move the {plural_of(facts.species(fewer).name)} into a cage of their own.", cost=Cost(80, 300),
                        effort=Effort.A_DAY, change=settle.second_enclosure(cage.id, {x.id for x in by_species(view.birds)[fewer]})))  # fmt: skip
    yield Finding(
        severity=Severity.MEND_SOON if nests else Severity.BETTER, soon=Soon.MONTHS, why=why, cites=cites, remedies=tuple(found),
        statement=f"{kinds[:1].upper()}{kinds[1:]} of opposite sexes may cross{' in the nests here' if nests else ''}.{tell}",
        confidence="Known crosses are read or remembered; same genus is our choice." if nests is not None else "Whether there are nests is not told.",
    )  # fmt: skip
