"""Social birds on their own, and the one bird left over."""

from collections.abc import Iterator
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, RuleLine, Severity, Soon, Step, Verdict
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import Cite
from cuttlebone.home import change, settle
from cuttlebone.home.birds import by_species, counted, inside, listed, name_of, names_of, plural_of, tally
from cuttlebone.home.model import Bird, Household
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check

APART = ("quarantine", "hospital")
"""Purposes for which a bird may be on its own for a while."""

_SWISS = {"canary", "budgerigar", "zebra_finch"}
_TVT = {"zebra_finch", "gouldian_finch", "canary", "budgerigar"}
_WHY = (
    "Finches, canaries and budgerigars rest, feed and preen with their own kind; a person or a mirror does not stand in for that. "
    "Who cannot keep a second one can find the bird a home among its kind."
)


def holds_to(standards: tuple[str, ...] | None, prefix: str) -> bool:
    """Whether the keeper holds to a standard whose id starts so."""
    return any(name.casefold().startswith(prefix) for name in standards or ())


def single_rules(species: str) -> tuple[RuleLine, ...]:
    """What the named rules say of one bird of a species kept alone; each for itself."""
    exempt = species == "canary"
    lines: list[tuple[str, str, str, Verdict, str]] = []
    if species in _SWISS:
        lines.append(
            (
                "company.ch_min",
                "Switzerland, animal protection ordinance",
                "binding",
                Verdict.SHORT,
                "in Switzerland one alone breaks the law",
            )
        )
    lines.append(("company.at_min", "Austria, second animal-keeping ordinance", "binding", Verdict.MEETS if exempt else Verdict.SHORT,
                  "exempts canaries from groups" if exempt else "asks for at least a pair"))  # fmt: skip
    if species in _TVT:
        lines.append(("company.tvt_min", "Germany, leaflets of the veterinary association for animal protection", "guidance", Verdict.SHORT,
                      "calls lasting single keeping unsuitable"))  # fmt: skip
    if exempt:
        lines.append(
            (
                "company.canary_min",
                "Common practice",
                "common practice",
                Verdict.MEETS,
                "elsewhere a canary may live alone",
            )
        )
        lines.append(
            (
                "company.canary_not_social",
                "Web texts after a veterinary manual",
                "advice",
                Verdict.MEETS,
                "call canaries not social",
            )
        )
    else:
        lines.append(
            ("company.finches_min", "Common practice", "common practice", Verdict.SHORT, "asks for at least two")
        )
    return tuple(
        RuleLine(rule=rule, name=name, verdict=verdict, says=says, weight=weight, cite=facts.rule(rule).cite)
        for rule, name, weight, verdict, says in lines
    )


def _cites(species: str) -> tuple[Cite, ...]:
    return tuple(line.cite for line in single_rules(species))


def company_remedies(view: EnclosureView, bird: Bird) -> Iterator[Remedy]:
    """A place among its own kind, a companion, or a companion and a roomier cage for both."""
    called, one = name_of(bird), plural_of(facts.species(bird.species).name, 1)
    yield Remedy(id="join", title=f"Move {called} in with the other {plural_of(facts.species(bird.species).name)}.", change=settle.join(bird.id),
                 effort=Effort.AN_HOUR, caution="Put them together in the morning, with the cage rearranged, and watch the first hours.")  # fmt: skip
    add = settle.add_companions(settle.companion(bird, view.today))
    sexed = bird.sex is not None
    title = f"Give {called} a companion: one more {one} of the same sex"
    care = "The newcomer first goes through its quarantine in another room."
    if not sexed:
        title = f"Give {called} a companion: one more {one}, both sexed by a feather test first, and no nest inside"
        add = change.both(add, change.enclosure(view.enclosure.id, nests=0))
        care += " Unless the test shows that they are of one sex, have dummy eggs at hand."
    yield Remedy(
        id="companion",
        title=f"{title}.",
        change=add,
        cost=Cost(15 if sexed else 30, 80 if sexed else 160),
        effort=Effort.WEEKS,
        caution=care,
    )
    yield Remedy(id="companion-and-cage", title=f"{title}; move both into a roomy, plain cage.", cost=Cost(95, 460), effort=Effort.WEEKS, caution=care,
                 change=change.both(settle.second_enclosure(view.enclosure.id, {bird.id}), _with_it(bird, view)))  # fmt: skip


def _with_it(bird: Bird, view: EnclosureView) -> change.Change:
    """A companion added to wherever the bird lives by then."""

    def make(home: Household) -> Household:
        now = next((b for b in home.birds or () if b.id == bird.id), bird)
        return settle.add_companions(settle.companion(now, view.today))(home)

    return make


@check("company.alone", "Has every bird one of its own kind with it?", "enclosure")
def alone(view: EnclosureView) -> Findings:
    """Look for a bird that is the only one of its species in its enclosure.

    Sources disagree on canaries: the law of the keeper's country comes first, and each rule is shown by name.
    """
    groups = by_species(view.birds)
    if not groups:
        return
    singles = {key: group[0] for key, group in groups.items() if len(group) == 1}
    if not singles or view.enclosure.purpose in APART:
        yield _in_company(view, next(iter(singles.values()), None))
        return
    species = min(singles, key=lambda s: (s == "canary", s))
    bird = singles[species]
    rules, total = single_rules(species), len(view.birds)
    common: dict[str, Any] = {
        "why": _WHY, "cites": _cites(species), "rules": rules, "measured": Quantity(1, "of its kind"),
        "limit": Span(low=facts.species(species).number("min_company"), unit="of a kind"),
        "remedies": tuple(company_remedies(view, bird)), "soon": Soon.WEEKS,
        "steps": (Step(text=f"{plural_of(facts.species(species).name, 2).capitalize()} in {inside(view.enclosure.name)}", result=Quantity(1, "")),
                  Step(text="Birds of any kind there", result=Quantity(total, ""))),
    }  # fmt: skip
    if species == "canary":
        yield _canary(view, bird, common)
    elif total == 1:
        yield Finding(severity=Severity.MEND_SOON, statement=f"{name_of(bird)} lives alone.", **common)
    else:
        kind = plural_of(facts.species(species).name, 1)
        yield Finding(
            severity=Severity.MEND_SOON,
            statement=f"{name_of(bird)} has company, but is the only {kind} there.",
            **common,
        )


def _in_company(view: EnclosureView, single: Bird | None) -> Finding:
    text = "Every bird here has at least one of its own kind with it."
    if single:
        text = f"{name_of(single)} is apart for as long as it must be; let it hear or see others of its kind, and bring it back after."
    return Finding(severity=Severity.FINE, statement=text, why=_WHY, cites=(facts.rule("company.finches_min").cite,),
                   measured=Quantity(min(map(len, by_species(view.birds).values())), "of a kind"))  # fmt: skip


def _canary(view: EnclosureView, bird: Bird, common: dict[str, Any]) -> Finding:
    called, home = name_of(bird), view.home
    if home.country == "CH" or holds_to(home.hold_to, "ch-"):
        return Finding(
            severity=Severity.MEND_SOON, statement=f"{called} is a single canary, which breaks Swiss law.", **common
        )
    if holds_to(home.hold_to, "de-tvt"):
        return Finding(
            severity=Severity.MEND_SOON,
            statement=f"{called} is a single canary, which the leaflet you hold to calls unsuitable.",
            **common,
        )
    if home.country is None:
        common = {k: v for k, v in common.items() if k != "remedies"}
        return cannot_tell(f"{called} is a single canary; whether that is allowed depends on the country, which is not told.",
                           measure="Write the country of the home into the home file, as two letters.", **common)  # fmt: skip
    how = "lives alone" if len(view.birds) == 1 else "is the only canary here"
    text = f"{called} {how}. Common practice allows that; Swiss law does not, and German guidance advises against it."
    return Finding(
        severity=Severity.FINE,
        statement=text,
        confidence="Sources disagree; each is shown.",
        **{**common, "remedies": ()},
    )


@check("company.odd_number", "Are there even numbers of each kind?", "enclosure")
def odd_number(view: EnclosureView) -> Findings:
    """Look for a species of three or more with an odd number: one bird may be left without a partner.

    A soft rule: common practice, no study. Canaries do not pair for life, so it does not ask for them to be even.
    """
    every = by_species(view.birds)
    groups = {k: g for k, g in every.items() if len(g) > 1 and facts.species(k).number("min_company") > 1}
    if not groups or view.enclosure.purpose in APART:
        return
    odd = {k: g for k, g in groups.items() if len(g) % facts.rule("company.even").number}
    common: dict[str, Any] = {
        "why": "Birds sit, preen and sleep in twos, of one sex too; the one left over is often driven off.",
        "cites": (facts.rule("company.even").cite,), "confidence": "Common practice; no study was found.",
    }  # fmt: skip
    if not odd:
        yield Finding(severity=Severity.FINE, statement=_even(groups, every), **common)
        return
    key, group = next(iter(odd.items()))
    kind, known = facts.species(key).name, [b for b in group if b.sex]
    unsexed = [b for b in group if not b.sex]
    test = f"; before you add one, have {names_of(unsexed)} sexed by a feather test" if unsexed else ""
    remedies = tuple(
        Remedy(id=f"one-more-{sex}", title=f"Add one more {sex} to the {plural_of(kind)}.", cost=Cost(15, 80), effort=Effort.WEEKS,
               change=settle.add_companions(settle.companion(known[0], view.today, sex=sex)),
               caution="The newcomer first goes through its quarantine in another room.")
        for sex in sorted({b.sex for b in known if b.sex} if len(known) == len(group) else ())
    )  # fmt: skip
    yield Finding(severity=Severity.BETTER, statement=f"There are {counted(len(group), plural_of(kind, 1), plural_of(kind))}: one may be left over{test}.",
                  measured=tally(len(group), "bird"), remedies=remedies, soon=Soon.WEEKS, **common)  # fmt: skip


def _even(groups: dict[str, tuple[Bird, ...]], every: dict[str, tuple[Bird, ...]]) -> str:
    """That the kinds looked at are in even numbers, and which kinds were left out and why."""
    kinds = listed([plural_of(facts.species(k).name) for k in groups])
    text = f"{kinds[:1].upper()}{kinds[1:]} are here in even numbers, so none of them is left over."
    single = [k for k in every if facts.species(k).number("min_company") <= 1]
    if single:
        names = listed([plural_of(facts.species(k).name) for k in single])
        text += f" {names[:1].upper()}{names[1:]} were not counted: they may live alone."
    return text
