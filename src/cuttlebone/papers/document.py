"""The answer as data, for other programs: plain JSON with a published schema."""

from datetime import date
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from cuttlebone import facts
from cuttlebone.assess.answer import Answer, TriedRemedy
from cuttlebone.base.finding import Effort, Finding, RuleLine, Severity, Step, Verdict
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import Cite, How, Source
from cuttlebone.papers import telling
from cuttlebone.papers.telling import Telling

SCHEMA: Literal["cuttlebone/answer/1"] = "cuttlebone/answer/1"
"""Name of the document's form; a new number if a field ever changes its meaning or goes."""

Soonness = Literal["hours", "days", "weeks", "months", "years"]


class _Told(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class ToldQuantity(_Told):
    """A number with its unit; metric."""

    value: float
    unit: str


class ToldLimit(_Told):
    """At least `low`, at most `high`; null where that end is open."""

    low: float | None
    high: float | None
    unit: str


class ToldSource(_Told):
    """One use of a source: the work, where in it, and how the value came to us."""

    id: str
    citation: str
    year: int | None
    link: str
    where: str
    how: How
    how_in_words: str


class ToldStep(_Told):
    """One line of the reasoning."""

    text: str
    equation: str
    result: ToldQuantity | None
    source: ToldSource | None


class ToldRule(_Told):
    """What one named rule says of this home."""

    id: str
    name: str
    weight: str
    verdict: Verdict
    says: str
    source: ToldSource


class ToldCost(_Told):
    """A rough estimate of our own, in the keeper's currency."""

    low: float
    high: float


class ToldRemedy(_Told):
    """A change that was tried on the household and found to work."""

    id: str = Field(description="name to apply it by")
    title: str
    cost: ToldCost
    effort: Effort
    clears: tuple[str, ...] = Field(description="ids of findings it clears")
    eases: tuple[str, ...] = Field(description="ids of findings it makes less severe")
    causes: tuple[str, ...] = Field(description="ids of findings it brings about; always empty in what is offered")
    caution: str


class ToldSubject(_Told):
    """What a finding is about."""

    kind: Literal["household", "room", "enclosure", "bird"]
    id: str
    name: str


class ToldFinding(_Told):
    """What one check says about one thing in the household."""

    id: str = Field(description="check@subject; several findings of one check about one thing share it")
    rank: int | None = Field(
        description="place in the list of what to change first, from 1; null if there is nothing to change"
    )
    check: str
    title: str = Field(description="the question the check asks")
    room: str = Field(description="the group of checks it belongs to")
    subject: ToldSubject
    severity: Severity
    soon: Soonness = Field(description="how soon harm could come")
    statement: str
    measured: ToldQuantity | None
    limit: ToldLimit | None
    why: str
    sources: tuple[ToldSource, ...] = Field(min_length=1)
    steps: tuple[ToldStep, ...]
    rules: tuple[ToldRule, ...]
    remedies: tuple[ToldRemedy, ...]
    caution: str
    measure: str = Field(description="what to find out and how, where it cannot be told")
    confidence: str


class ToldHousehold(_Told):
    """Whose home."""

    name: str
    country: str | None
    units: Literal["metric", "imperial"]


class AnswerDocument(_Told):
    """The answer to "is this set-up right, and what do I change first?" for one household on one day."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    form: Literal["cuttlebone/answer/1"] = Field(serialization_alias="schema")
    household: ToldHousehold
    on: date
    verdict: str
    worst: Severity
    counts: dict[Severity, int]
    findings: tuple[ToldFinding, ...] = Field(description="most urgent first")
    about: tuple[str, ...] = Field(description="what this is not")


def answer_document(answer: Answer) -> dict[str, Any]:
    """The answer as plain data, ready for `json.dumps`.

    Parameters
    ----------
    answer : Answer
        From `assess`.

    Returns
    -------
    dict
        In the form of ``schema/answer-1.json``.
    """
    told, home = Telling(answer), answer.household
    document = AnswerDocument(
        form=SCHEMA,
        household=ToldHousehold(name=home.name, country=home.country, units=home.units),
        on=answer.on,
        verdict=told.verdict,
        worst=answer.worst,
        counts={severity: len(answer.of(severity)) for severity in Severity},
        findings=tuple(_finding(told, finding) for finding in answer.findings),
        about=telling.ABOUT,
    )
    return document.model_dump(mode="json", by_alias=True)


def answer_schema() -> dict[str, Any]:
    """The JSON Schema of the document, as published beside this module."""
    made = AnswerDocument.model_json_schema(by_alias=True, mode="serialization")
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "$id": f"urn:{SCHEMA.replace('/', ':')}"}
    return {**head, **made}


def _finding(told: Telling, finding: Finding) -> ToldFinding:
    return ToldFinding(
        id=finding.id,
        rank=told.number(finding),
        check=finding.check,
        title=finding.title,
        room=finding.room,
        subject=ToldSubject.model_validate(
            {"kind": finding.subject.kind, "id": finding.subject.id, "name": finding.subject.name}
        ),
        severity=finding.severity,
        soon=_soon(finding),
        statement=finding.statement,
        measured=_quantity(finding.measured),
        limit=_limit(finding.limit),
        why=finding.why,
        sources=tuple(_source(cite) for cite in telling.cites_of(finding)),
        steps=tuple(_step(step) for step in finding.steps),
        rules=tuple(_rule(line) for line in telling.law_first(finding.rules, told.answer.household.country)),
        remedies=tuple(_remedy(tried) for tried in told.remedies(finding)),
        caution=finding.caution,
        measure=finding.measure,
        confidence=finding.confidence,
    )


def _soon(finding: Finding) -> Soonness:
    names: tuple[Soonness, ...] = ("hours", "days", "weeks", "months", "years")
    return names[finding.soon]


def _quantity(quantity: Quantity | None) -> ToldQuantity | None:
    return ToldQuantity(value=quantity.value, unit=quantity.unit) if quantity else None


def _limit(span: Span | None) -> ToldLimit | None:
    return ToldLimit(low=span.low, high=span.high, unit=span.unit) if span else None


def _source(cite: Cite) -> ToldSource:
    work = facts.sources().get(cite.source) or Source(id=cite.source, citation=cite.source)
    return ToldSource(
        id=work.id,
        citation=work.citation,
        year=work.year,
        link=work.link,
        where=cite.where,
        how=cite.how,
        how_in_words=cite.how.words,
    )


def _step(step: Step) -> ToldStep:
    source = _source(step.cite) if step.cite else None
    return ToldStep(text=step.text, equation=step.equation, result=_quantity(step.result), source=source)


def _rule(line: RuleLine) -> ToldRule:
    return ToldRule(
        id=line.rule,
        name=line.name,
        weight=line.weight,
        verdict=line.verdict,
        says=line.says,
        source=_source(line.cite),
    )


def _remedy(tried: TriedRemedy) -> ToldRemedy:
    remedy = tried.remedy
    cost = ToldCost(low=remedy.cost.low, high=remedy.cost.high)
    return ToldRemedy(
        id=tried.id, title=remedy.title, cost=cost, effort=remedy.effort, clears=tried.clears, eases=tried.eases, causes=tried.causes,
        caution=remedy.caution,
    )  # fmt: skip
