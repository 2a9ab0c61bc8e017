"""What any cage for a company should meet: the law, the rules held to, the pair minimum, and floor for the number of birds."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from cuttlebone import facts
from cuttlebone.base.finding import RuleLine, Verdict
from cuttlebone.facts.schema import Entry
from cuttlebone.home.birds import counted
from cuttlebone.home.view import EnclosureView
from cuttlebone.housing.company import scope
from cuttlebone.housing.required import SIZES, Requirement, What, readings, required
from cuttlebone.housing.standards import Company, Judged, Judgement, hold, instrument, judge


def standards() -> Iterable[Entry]:
    """All rows of all named standards."""
    return facts.entries("standard").values()


def law_of(country: str) -> tuple[Entry, ...]:
    """The binding standards for homes of a country."""
    return tuple(e for e in standards() if e.text("country") == country and e.text("weight") == "binding")


def judged_by(view: EnclosureView, rows: Iterable[Entry], company: Company) -> tuple[Judgement, ...]:
    """Judgements of the standards that cover this company."""
    found = (judge(s, view.enclosure, company) for s in rows)
    return tuple(f for f in found if f.verdict != Verdict.NOT_FOR_THESE)


def held_rules(view: EnclosureView, company: Company) -> tuple[Judgement, ...]:
    """Judgements of the rules the keeper holds to, each instrument once."""
    found = (f for name in view.home.hold_to or () for f in instrument(name, view.enclosure, company))
    return tuple({f.standard.id: f for f in found}.values())


def pair_least() -> tuple[Requirement, ...]:
    """The least keepers commonly give a pair of peaceful finches or canaries."""
    sides: tuple[What, ...] = ("length", "width", "height")
    rules = (facts.rule(f"housing.pair_{side}_min") for side in sides)
    return tuple(
        Requirement(what=side, least=rule.number, cite=rule.cite) for side, rule in zip(sides, rules, strict=True)
    )


def finches(company: Company) -> bool:
    """Whether there are finches or canaries among them."""
    return any(b.kind.text("group") in ("waxbill finch", "true finch") for b in company.birds)


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """The floor one rule asks for this number of birds, by each reading of it, held against the enclosure."""

    standard: Entry
    asked: tuple[Judged, ...]

    @property
    def least_m2(self) -> float:
        """Floor by its mildest reading. [m2]"""
        return min(j.requirement.limit for j in self.asked)

    @property
    def verdict(self) -> Verdict:
        """Short or met only where every reading says so."""
        met = {j.met for j in self.asked}
        if met == {True}:
            return Verdict.MEETS
        return Verdict.SHORT if met == {False} else Verdict.CANNOT_TELL

    def line(self, n: int) -> RuleLine:
        """The same as a line to show beside other rules."""
        says = ", or ".join(dict.fromkeys(f"{j.requirement.limit:.3g}" for j in self.asked))
        weight = f"{self.standard.text('weight')} ({self.standard.text('context')})"
        return RuleLine(rule=self.standard.id, name=self.standard.name, verdict=self.verdict, weight=weight,
                        says=f"{says} m2 of floor for {counted(n, 'bird')}", cite=self.asked[0].requirement.cite)  # fmt: skip


def counts_birds(standard: Entry, n: int) -> bool:
    """Whether a rule for homes says what floor so many birds need; one for a pair says nothing of more."""
    if not standard.has("area_m2") or standard.text("weight") == "not for homes":
        return False
    mode = standard.text("area_mode")
    return mode in ("largest", "added", "stepped") or (
        mode == "none" and standard.has("birds_included") and n <= standard.number("birds_included")
    )


def floors(view: EnclosureView, company: Company) -> tuple[Floor, ...]:
    """What each named rule for homes that covers the company and counts birds asks for floor, the mildest first."""
    found = []
    for standard in standards():
        if counts_birds(standard, company.n) and scope(standard, company) == "all":
            asked = [r for reading in readings(standard, company) for r in reading if r.what == "floor area"]
            found.append(Floor(standard=standard, asked=_against(asked, view, company)))
    return tuple(sorted(found, key=lambda f: f.least_m2))


def _against(asked: list[Requirement], view: EnclosureView, company: Company) -> tuple[Judged, ...]:
    """Floors held against the enclosure; one of untold shape meets them only if it would also meet them round."""
    cage = view.enclosure
    judged = hold(asked, cage, company)
    if cage.shape is not None:
        return judged
    other = hold(asked, cage.but(shape="round"), company)
    return tuple(replace(j, met=None if j.met and not o.met else j.met) for j, o in zip(judged, other, strict=True))


def least_floor(view: EnclosureView, company: Company) -> tuple[Requirement, ...]:
    """The sizes of the rule that asks for the least floor for so many birds, by its strictest reading."""
    every = floors(view, company)
    if not every:
        return ()
    mildest = min(every, key=lambda f: max(j.requirement.limit for j in f.asked))
    return tuple(r for r in required(mildest.standard, company) if r.what in SIZES)


def always_asked(view: EnclosureView, company: Company) -> tuple[Requirement, ...]:
    """What any new cage here should meet: the law, the rules held to, the pair minimum, and floor for the number of birds."""
    country = view.home.country
    named = (*judged_by(view, law_of(country) if country else (), company), *held_rules(view, company))
    asked = tuple(r for f in named if f.verdict != Verdict.NOT_FOR_THESE for r in required(f.standard, company))
    return (*asked, *(pair_least() if finches(company) else ()), *least_floor(view, company))
