"""An answer put into words once, for the page, the terminal and the data document alike."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from cuttlebone import facts
from cuttlebone.assess.answer import TO_CHANGE, Answer, Topic, TriedRemedy
from cuttlebone.base.errors import NotFound
from cuttlebone.base.finding import Finding, RuleLine, Severity, Soon, Verdict
from cuttlebone.base.source import Cite, How, Source
from cuttlebone.pictures.svg import slug

ROOMS = {
    "housing": "Housing",
    "company": "Company",
    "diet": "Food and water",
    "hygiene": "Cleaning",
    "climate": "Air, warmth and light",
    "health": "Health",
    "breeding": "Breeding",
    "routine": "Daily work",
}
"""What each room of checks is called to the keeper, in the order they are shown."""

SEVERITY_WORDS = {
    Severity.ACT_NOW: "Act now",
    Severity.MEND_SOON: "Mend soon",
    Severity.BETTER: "Could be better",
    Severity.CANNOT_TELL: "Cannot tell yet",
    Severity.FINE: "Right",
}
_SOON_WORDS = {
    Soon.HOURS: "harm could come within hours",
    Soon.DAYS: "harm could come within days",
    Soon.WEEKS: "harm could come within weeks",
    Soon.MONTHS: "harm would take months",
    Soon.YEARS: "harm would take years",
}
_VERDICT_WORDS = {
    Verdict.MEETS: "meets it",
    Verdict.SHORT: "falls short",
    Verdict.CANNOT_TELL: "cannot tell yet",
    Verdict.NO_NUMBER: "names no dimension",
    Verdict.NOT_FOR_THESE: "does not cover these birds",
}
_WEIGHT_WORDS = {
    "binding": "law",
    "guidance": "official guidance",
    "advice": "advice",
    "not for homes": "not written for homes",
}
_SHORT_MARKS = {
    How.READ: "",
    How.SECONDARY: "quoted",
    How.DERIVED: "worked out",
    How.MEMORY: "from memory",
    How.CHOICE: "our choice",
    How.PRACTICE: "common practice",
}

ABOUT = (
    "This compares what was told about the home with published figures, law and common practice.",
    "It does not examine a bird and gives no diagnosis or treatment.",
    "A bird that sits fluffed up, breathes with effort, bleeds or does not eat needs an avian vet at once, whatever is said here.",
    "Local law, local building and fire codes, and licensed trades for electricity, gas and heating come before anything else said here.",
    "Costs are rough estimates of our own. Values from memory, our choices and common practice are marked where they stand.",
)
"""What the papers are not, said at their end."""


def short_mark(how: How) -> str:
    """The mark that stands at a number: empty only if the value was read in its source."""
    return _SHORT_MARKS[how]


def soon_words(finding: Finding) -> str:
    """How soon harm could come; empty for what is right, cannot be told or would merely be better."""
    return _SOON_WORDS[finding.soon] if finding.severity in (Severity.ACT_NOW, Severity.MEND_SOON) else ""


def verdict_words(verdict: Verdict) -> str:
    """What a named rule says of this home."""
    return _VERDICT_WORDS[verdict]


def weight_words(weight: str) -> str:
    """How much a named rule weighs."""
    return _WEIGHT_WORDS.get(weight, weight)


def count(number: int, one: str, many: str = "") -> str:
    """A number with its word.

    Examples
    --------
    >>> count(1, "thing"), count(3, "thing")
    ('1 thing', '3 things')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"


def _joined(parts: Sequence[str]) -> str:
    return " and ".join((", ".join(parts[:-1]), parts[-1])) if len(parts) > 1 else "".join(parts)


def cost_words(tried: TriedRemedy) -> str:
    """What a remedy costs, always said to be an estimate."""
    cost = tried.remedy.cost
    return "costs nothing" if cost.high == 0 else f"about {cost.low:g} to {cost.high:g} in your currency (our estimate)"


def law_first(rules: Iterable[RuleLine], country: str | None) -> tuple[RuleLine, ...]:
    """Named rules, binding law of the keeper's country first, then other rules of that country, then the rest."""

    def rank(line: RuleLine) -> tuple[bool, bool]:
        try:
            home = country is not None and country in facts.standard(line.rule).text("country")
        except NotFound:
            home = False
        return (not (home and line.weight == "binding"), not home)

    return tuple(sorted(rules, key=rank))


@dataclass(frozen=True, slots=True)
class Note:
    """One use of a source within a paper: its number in the list of sources, and how we know."""

    number: int
    cite: Cite

    @property
    def mark(self) -> str:
        """Short mark to stand at a number."""
        return short_mark(self.cite.how)


@dataclass(frozen=True, slots=True)
class Work:
    """One line of a list of sources: the work, and each way it is used."""

    number: int
    source: Source
    uses: tuple[Note, ...]

    @property
    def citation(self) -> str:
        """The citation as a sentence, with its year where the citation does not end in it."""
        text = self.source.citation.rstrip(". ")
        year = str(self.source.year or "")
        return f"{text} ({year})." if year and year not in text else f"{text}."

    @property
    def ways(self) -> dict[str, tuple[str, ...]]:
        """Each way in which it is known, in words, with the places in it."""
        found: dict[str, list[str]] = {}
        for use in self.uses:
            places = found.setdefault(use.cite.how.words, [])
            if use.cite.where and use.cite.where not in places:
                places.append(use.cite.where)
        return {how: tuple(places) for how, places in found.items()}

    @property
    def link(self) -> str:
        """Where to find it on the web; empty if unknown or of a kind a page should not link to."""
        return self.source.link if self.source.link.startswith(("https://", "http://")) else ""


@dataclass
class Notes:
    """Numbers the sources of a paper in the order they are first cited, and remembers each way they were known."""

    cites: dict[str, list[Cite]] = field(default_factory=dict)

    def of(self, cite: Cite) -> Note:
        """The note of a cite, new or known."""
        uses = self.cites.setdefault(cite.source, [])
        if cite not in uses:
            uses.append(cite)
        return Note(list(self.cites).index(cite.source) + 1, cite)

    def all(self, cites: Iterable[Cite]) -> tuple[Note, ...]:
        """Notes of several cites, each once."""
        return tuple(self.of(cite) for cite in dict.fromkeys(cites))

    def at_number(self, cites: Iterable[Cite]) -> tuple[Note, ...]:
        """Notes to stand at a number: each work once with each mark."""
        return tuple({(note.number, note.mark): note for note in self.all(cites)}.values())

    def works(self) -> tuple[Work, ...]:
        """The list of everything cited so far."""
        known = facts.sources()
        return tuple(
            Work(number, known.get(key) or Source(id=key, citation=key), tuple(Note(number, cite) for cite in uses))
            for number, (key, uses) in enumerate(self.cites.items(), 1)
        )


def cites_of(finding: Finding) -> tuple[Cite, ...]:
    """Everything a finding rests on: its own cites, those of its steps and of the rules it names."""
    steps = (s.cite for s in finding.steps if s.cite)
    return tuple(dict.fromkeys((*finding.cites, *steps, *(r.cite for r in finding.rules))))


@dataclass(frozen=True)
class Telling:
    """An answer with the places of its findings in the ranked list and their names on a page."""

    answer: Answer

    @cached_property
    def topics(self) -> tuple[Topic, ...]:
        """What to change, first things first; findings that one remedy settles are one thing."""
        return self.answer.topics(*TO_CHANGE)

    def topics_of(self, severity: Severity) -> tuple[Topic, ...]:
        """The things to change of one severity."""
        return tuple(t for t in self.topics if t.first.severity == severity)

    @cached_property
    def numbers(self) -> dict[int, int]:
        """Place in the ranked list, from 1, by the identity of the finding."""
        return {id(f): i for i, topic in enumerate(self.topics, 1) for f in topic.findings}

    @cached_property
    def anchors(self) -> dict[int, str]:
        """A name that is unique on the page, by the identity of the finding."""
        seen: dict[str, int] = {}
        made = {}
        for finding in self.answer.findings:
            base = "f-" + slug(finding.id)
            seen[base] = seen.get(base, 0) + 1
            made[id(finding)] = base if seen[base] == 1 else f"{base}-{seen[base]}"
        return made

    def number(self, finding: Finding) -> int | None:
        """Place of a finding in the ranked list; None if there is nothing to change."""
        return self.numbers.get(id(finding))

    def anchor(self, finding: Finding) -> str:
        """Name of a finding on the page."""
        return self.anchors[id(finding)]

    def others(self, ids: Iterable[str], own: Finding) -> tuple[Finding, ...]:
        """The things these ids belong to, but the one they are told beside; of each thing in the ranked list one finding."""
        found = [self._first[i] for i in dict.fromkeys(ids) if i in self._first and i != own.id]
        mine, seen = self.number(own), set[int | str]()
        fresh = []
        for finding in found:
            number = self.number(finding)
            key: int | str = number or finding.id
            if (number is None or number != mine) and key not in seen:
                seen.add(key)
                fresh.append(finding)
        return tuple(fresh)

    @cached_property
    def _first(self) -> dict[str, Finding]:
        first: dict[str, Finding] = {}
        for finding in self.answer.findings:
            first.setdefault(finding.id, finding)
        return first

    def remedies(self, finding: Finding) -> tuple[TriedRemedy, ...]:
        """The remedies of this very finding that were tried and work."""
        own = {r.id for r in finding.remedies}
        return tuple(t for t in self.answer.remedies.get(finding.id, ()) if t.remedy.id in own)

    @cached_property
    def verdict(self) -> str:
        """The whole answer in one or two sentences."""
        answer = self.answer
        if not answer.findings:
            return "Nothing could be looked at yet: tell about the birds, their enclosures and the rooms they live in."
        now, soon, better = (len(self.topics_of(s)) for s in (Severity.ACT_NOW, Severity.MEND_SOON, Severity.BETTER))
        unknown, fine = len(questions(answer.of(Severity.CANNOT_TELL))), len(answer.of(Severity.FINE))
        wrong = [f"{count(now, 'thing')} to act on now"] * bool(now) + [f"{count(soon, 'thing')} to mend soon"] * bool(
            soon
        )
        rest = [f"{count(better, 'thing')} that could be better"] * bool(better)
        head = f"Not right yet: {_joined([*wrong, *rest])}." if wrong else ""
        if not wrong:
            right = "Everything that could be checked is right" if fine or better else "Nothing could be checked yet"
            head = f"{right}{'; there ' + ('is ' if better == 1 else 'are ') + rest[0] if rest else ''}."
        tail = f" {count(unknown, 'question')} cannot be answered until something is measured." if unknown else ""
        good = (
            f" {fine} of {count(len(answer.findings), 'point')} looked at {'is' if fine == 1 else 'are'} right."
            if fine and (wrong or tail)
            else ""
        )
        return head + tail + good


def by_room(findings: Iterable[Finding]) -> dict[str, tuple[Finding, ...]]:
    """Findings by the room of checks they come from, under the room's name."""
    found: dict[str, list[Finding]] = {}
    for finding in findings:
        found.setdefault(finding.room, []).append(finding)
    order = [r for r in ROOMS if r in found] + sorted(set(found) - set(ROOMS))
    return {ROOMS.get(room, room.capitalize()): tuple(found[room]) for room in order}


def where(finding: Finding) -> str:
    """What a finding is about, in words."""
    return "the whole household" if finding.subject.kind == "household" else finding.subject.name


def places(topic: Topic) -> str:
    """What a topic is about, in words: every thing it is said of, each once."""
    return ", ".join(dict.fromkeys(where(f) for f in topic.findings))


def others_said(topic: Topic) -> tuple[Finding, ...]:
    """Findings of a topic whose sentence says something else than the first one's."""
    return tuple(f for f in topic.findings[1:] if f.statement != topic.first.statement)


def questions(findings: Iterable[Finding]) -> tuple[tuple[Finding, tuple[Finding, ...]], ...]:
    """Things to measure, each with the findings that the same measurement answers."""
    found: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in findings:
        found.setdefault((finding.subject.id, finding.statement, finding.measure), []).append(finding)
    return tuple((group[0], tuple(group[1:])) for group in found.values())


def by_subject(findings: Iterable[Finding]) -> dict[str, tuple[Finding, ...]]:
    """Findings by what they are about, under its name; things of one name are told apart by number."""
    found: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        found.setdefault((finding.subject.kind, finding.subject.id), []).append(finding)
    named: dict[str, tuple[Finding, ...]] = {}
    for members in found.values():
        name = where(members[0])
        name = name[:1].upper() + name[1:]
        twins = sum(key == name or key.startswith(f"{name} (") for key in named)
        named[f"{name} ({twins + 1})" if twins else name] = tuple(members)
    return named
