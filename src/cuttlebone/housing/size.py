"""Is the enclosure large enough? The law, the rules the keeper holds to, all named rules, and what keepers commonly do."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from cuttlebone.base.finding import Finding, Later, Remedy, Severity, Soon, Step, Verdict
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import CHOICE, Cite, How
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.housing.asked import always_asked, finches, held_rules, judged_by, law_of, pair_least, standards
from cuttlebone.housing.countries import country_name
from cuttlebone.housing.required import What
from cuttlebone.housing.resize import mending
from cuttlebone.housing.ruler import at_least, say_cm
from cuttlebone.housing.standards import Company, Judged, Judgement, dimensions, hold, required

_TAPE = "Measure the inside of the enclosure with a tape: its length, its depth from front to back and its height."
_MEASURE: dict[What, str] = {
    "base height": "Measure from the floor of the room up to the floor of the cage.",
    "free flight": "Say how many hours a day the birds fly outside the cage.",
    "feeders": "List the dishes and what each holds.",
    "round cage": "Say whether the enclosure is a box, round, a dome or a pagoda.",
}
_OPEN_TEXT = "The text is open here: keep to the larger size, or ask the authority which size holds."
_WHY_SIZE = (
    "Too little room keeps birds from flying and from getting out of each other's way, and weakens them over weeks."
)


def _dims(view: EnclosureView) -> str:
    """The inside sides in the keeper's units, for a sentence."""
    length, width, height = dimensions(view.enclosure)
    return " x ".join("?" if side is None else say_cm(view, side) for side in (length, width, height))


def _measure(unknown: Iterable[Judged], cage_shape: str | None) -> str:
    """How to find out what is not known."""
    said = dict.fromkeys(_MEASURE.get(j.requirement.what, _TAPE) for j in unknown)
    if cage_shape is None:
        said[_MEASURE["round cage"]] = None
    return " ".join(said)


def _known(found: Iterable[Judgement]) -> str:
    """How the numbers are known, where not all were read in the source."""
    hows = [
        how.words for how in dict.fromkeys(j.requirement.cite.how for f in found for j in f.judged) if how != How.READ
    ]
    return f"How the numbers are known: {'; '.join(hows)}." if hows else ""


def _confidence(found: tuple[Judgement, ...]) -> str:
    """How the numbers are known, what is in dispute, and where the reading is ours."""
    parts = [_known(found)]
    for f in found:
        if any(j.requirement.reading for j in f.judged) or not f.standard.has("area_m2"):
            parts.append(f.standard.text("conflict"))
        if any(j.requirement.cite.how == How.CHOICE for j in f.judged) and f.verdict != Verdict.NO_NUMBER:
            parts.append(f.standard.text("reading"))
    return " ".join(dict.fromkeys(p for p in parts if p))


def _cites(found: Iterable[Judgement]) -> tuple[Cite, ...]:
    return tuple(
        dict.fromkeys(
            c for f in found for c in (f.standard.fact("country").cite, *(j.requirement.cite for j in f.judged))
        )
    )


def _steps(found: Iterable[Judgement]) -> tuple[Step, ...]:
    """Each requirement with its number, equation and source."""
    return tuple(
        Step(text=f"{f.standard.name}: {j.requirement.what}" + (f", {j.requirement.reading}" if j.requirement.reading else ""),
             result=j.requirement.quantity, equation=j.requirement.equation, cite=j.requirement.cite)
        for f in found for j in f.judged
    )  # fmt: skip


def _number(view: EnclosureView, judged: Iterable[Judged]) -> dict[str, Any]:
    """The first shortfall as measured value and limit."""
    for j in judged:
        if j.measured is not None and j.requirement.what != "round cage":
            asked = j.requirement
            if asked.unit == "cm" and asked.least is not None:
                return at_least(view, j.measured, asked.least)
            return {"measured": Quantity(j.measured, asked.unit), "limit": Span(asked.least, asked.most, asked.unit)}
    return {}


def _verdict(found: Iterable[Judgement]) -> Verdict:
    """The worst of several: short, then cannot tell, then meets; no number if none has one."""
    said = {f.verdict for f in found}
    return next(
        (v for v in (Verdict.SHORT, Verdict.CANNOT_TELL, Verdict.MEETS, Verdict.NO_NUMBER) if v in said),
        Verdict.NOT_FOR_THESE,
    )


@check("housing.law", "Does the enclosure meet the law where you live?", "enclosure")
def law(view: EnclosureView) -> Findings:
    """Hold the enclosure against the binding rules for homes of the keeper's country.

    A law without a number is never "met": it leaves the question to the named rules and to the flight there is.
    """
    company = Company.of(view.birds, view.today)
    if company is None:
        return
    country = view.home.country
    if country is None:
        yield cannot_tell(
            "Which country's law covers this enclosure is not told.",
            measure='Write the two letters of the country in the home file, such as country = "GB".',
            why="Some countries set sizes for the cages of pet birds by law, others do not.",
            cites=tuple(dict.fromkeys(e.fact("country").cite for e in standards() if e.text("weight") == "binding")),
        )  # fmt: skip
        return
    found = judged_by(view, law_of(country), company)
    if _verdict(found) in (Verdict.NO_NUMBER, Verdict.NOT_FOR_THESE):
        yield _law_without_number(view, found, company, country)
        return
    yield _answer(view, found, company, meets="the law",
                  why=f"These rules bind a keeper in {country_name(country)}. {_WHY_SIZE}")  # fmt: skip


def _law_without_number(view: EnclosureView, found: tuple[Judgement, ...], company: Company, country: str) -> Finding:
    """The finding for a country whose law, as far as known here, has no size for these birds."""
    others = judged_by(view, (e for e in standards() if e.text("country") == country), company)
    rules = tuple(f.line for f in (*found, *(o for o in others if o.standard.id not in {f.standard.id for f in found})))
    says = (
        f"{found[0].standard.name}: {found[0].says}"
        if found
        else f"As far as is known here, the animal-welfare law of {country_name(country)} names no size for the cages of these birds."
    )
    cites = (*_cites(found), *(f.cite for f in rules), CHOICE)
    return cannot_tell(
        says, rules=rules, cites=tuple(dict.fromkeys(cites)), why="A law that names no number cannot be measured with a tape.",
        measure="Nothing to measure for the law: see the named rules and the length of flight. The animal-welfare authority where you live can say more.",
        confidence="We may not know every law." if not found else _confidence(found),
    )  # fmt: skip


@check("housing.held", "Does the enclosure meet the rules you hold to?", "enclosure")
def held(view: EnclosureView) -> Findings:
    """Hold the enclosure against the rule sets the keeper picked; nothing is said where none is picked."""
    company = Company.of(view.birds, view.today)
    if company is None or not view.home.hold_to:
        return
    found = held_rules(view, company)
    if _verdict(found) in (Verdict.NO_NUMBER, Verdict.NOT_FOR_THESE):
        yield cannot_tell(
            "The rules you hold to have no number for these birds.", rules=tuple(f.line for f in found), cites=_cites(found),
            measure="Pick a rule set that covers them: the comparison of named rules lists those that do.",
            why="A rule that does not cover a bird says nothing about its cage.",
        )  # fmt: skip
        return
    yield _answer(view, found, company, meets="what you hold to", why=f"You picked these rules. {_WHY_SIZE}")


def _answer(view: EnclosureView, found: tuple[Judgement, ...], company: Company, *, meets: str, why: str) -> Finding:
    """One finding for several standards that must all be met; each keeps its own line."""
    common: dict[str, Any] = {"why": why, "cites": _cites(found), "confidence": _confidence(found), "steps": _steps(found),
                              "rules": tuple(f.line for f in found)}  # fmt: skip
    verdict, dims = _verdict(found), _dims(view)
    short = [f for f in found if f.verdict == Verdict.SHORT]
    if verdict == Verdict.SHORT:
        said = "; ".join(f"{f.standard.name}: short of {f.short_words}" for f in short)
        asked = tuple(r for f in short for r in required(f.standard, company))
        return Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"At {dims} it falls short of {meets}. {said}.",
                       remedies=Later(lambda: mending(view, company, asked, always=always_asked(view, company))),
                       **_number(view, (j for f in short for j in f.short)), **common)  # fmt: skip
    if verdict == Verdict.CANNOT_TELL:
        open_ones = [f for f in found if f.verdict == Verdict.CANNOT_TELL]
        measure = _measure((j for f in open_ones for j in f.unknown), view.enclosure.shape)
        return cannot_tell(
            " ".join(f"{f.standard.name}: {f.says}" for f in open_ones), measure=measure or _OPEN_TEXT, **common
        )
    named = "; ".join(f.standard.name for f in found if f.verdict == Verdict.MEETS)
    return Finding(severity=Severity.FINE, statement=f"At {dims} it meets {meets}: {named}.", **common)


def _short_name(found: Judgement) -> str:
    """Country and instrument, without the row."""
    return ", ".join(found.standard.name.split(", ")[:2])


@check("housing.named_standards", "Which named housing rules does the enclosure meet?", "enclosure")
def named_standards(view: EnclosureView) -> Findings:
    """Show every named rule that covers the company side by side, each with its own shortfall, none merged.

    The rules contradict each other, so meeting them all is no aim: this is guidance, and never more than *better*.
    """
    company = Company.of(view.birds, view.today)
    if company is None:
        return
    found = judged_by(view, standards(), company)
    home = tuple(f for f in found if f.for_homes and f.verdict != Verdict.NO_NUMBER)
    met, short = ([f for f in home if f.verdict == v] for v in (Verdict.MEETS, Verdict.SHORT))
    common: dict[str, Any] = {"rules": tuple(f.line for f in found), "cites": _cites(home) or _cites(found), "confidence": _known(home),
                              "why": "Published rules were made for different ends and contradict each other; each is shown by name and none is merged."}  # fmt: skip
    if None in dimensions(view.enclosure):
        yield cannot_tell(
            "The inside size is not told, so the named rules cannot be compared.", measure=_TAPE, **common
        )
        return
    said = f"Meets {len(met)} of {len(home)} named rules for homes that cover these birds"
    if short:
        said += f"; short of: {'; '.join(map(_short_name, short))}"
    open_ones = [f for f in home if f.verdict == Verdict.CANNOT_TELL]
    if open_ones:
        said += f"; cannot tell: {'; '.join(map(_short_name, open_ones))}"
    unknown = [j for f in open_ones for j in f.unknown]
    untold_shape = view.enclosure.shape is None
    if not short and (unknown or (open_ones and untold_shape)):
        yield cannot_tell(f"{said}.", measure=_measure(unknown, view.enclosure.shape), **common)
        return
    worst = Severity.BETTER if short or open_ones else Severity.FINE
    yield Finding(
        severity=worst,
        soon=Soon.YEARS,
        statement=f"{said}.",
        remedies=Later(lambda: _all_at_once(view, company, short)) if short else (),
        **common,
    )


def _all_at_once(view: EnclosureView, company: Company, short: list[Judgement]) -> tuple[Remedy, ...]:
    asked = tuple(r for f in short for r in required(f.standard, company))
    return mending(view, company, asked, always=always_asked(view, company), id="all-at-once",
                   lead="To meet every one of them at once: ")  # fmt: skip


@check(
    "housing.pair_minimum",
    "Is the enclosure at least what keepers commonly give a pair of finches or canaries?",
    "enclosure",
)
def pair_minimum(view: EnclosureView) -> Findings:
    """Compare the inside with 30 x 18 x 18 in, common practice for a pair of peaceful finches or canaries; more birds need more.

    For budgerigars there is no such practice known here: `housing.crowding` asks what the named rules want for them.
    """
    company = Company.of(view.birds, view.today)
    if company is None or not finches(company) or view.enclosure.purpose == "hospital":
        return
    asked = pair_least()
    judged = hold(asked, view.enclosure, company)
    if view.enclosure.shape is None and all(j.met for j in judged):
        judged = tuple(
            replace(j, met=(j.met and r.met) or None)
            for j, r in zip(judged, hold(asked, view.enclosure.but(shape="round"), company), strict=True)
        )
    least = " x ".join(say_cm(view, r.limit) for r in asked)
    common: dict[str, Any] = {
        "why": "Common practice: less room than this lets a finch or canary hop but hardly fly.",
        "cites": tuple(dict.fromkeys(r.cite for r in asked)),
        "confidence": "Common practice, no published source; for a pair of peaceful finches or canaries.",
        "steps": tuple(Step(text=f"Least {r.what} for a pair of finches or canaries", result=r.quantity, cite=r.cite) for r in asked),
    }  # fmt: skip
    more = f"; whether it is enough for {company.n} is asked beside this" if company.n > 2 else ""
    short = [j for j in judged if j.met is False]
    if short:
        missing = ", ".join(f"{j.requirement.what} by {say_cm(view, j.short_by)}" for j in short)
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"At {_dims(view)} inside it is short of {least} (length x width x height): {missing}{more}.",
                      remedies=Later(lambda: mending(view, company, asked, always=always_asked(view, company))), **_number(view, short), **common)  # fmt: skip
    elif any(j.met is None for j in judged):
        yield cannot_tell(f"Whether the enclosure is at least {least} inside cannot be said: not all of its sides and its shape are told.",
                          measure=_measure((j for j in judged if j.measured is None), view.enclosure.shape), **common)  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement=f"At {_dims(view)} inside it is at least {least}, which keepers commonly give a pair of finches or canaries{more}.",
                      **_number(view, judged[:1]), **common)  # fmt: skip
