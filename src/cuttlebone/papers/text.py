"""The answer as text for a terminal."""

import textwrap
from collections.abc import Callable, Iterable, Iterator

from cuttlebone.assess.answer import Answer, Topic, TriedRemedy
from cuttlebone.base.finding import Finding, RuleLine, Severity, Step
from cuttlebone.base.source import Cite
from cuttlebone.papers import telling
from cuttlebone.papers.telling import Notes, Telling

Style = Callable[[str, str], str]
"""Words and the name of a style -> words as the terminal shows them. Styles: the severities, ``head``, ``soft``."""

_ANSI = {Severity.ACT_NOW: "1;31", Severity.MEND_SOON: "1;33", Severity.BETTER: "1;36", Severity.CANNOT_TELL: "1;35",
         Severity.FINE: "32", "head": "1", "soft": "2"}  # fmt: skip
SIGNS = {Severity.ACT_NOW: "[!!]", Severity.MEND_SOON: "[! ]", Severity.BETTER: "[+ ]", Severity.CANNOT_TELL: "[? ]",
         Severity.FINE: "[ok]"}  # fmt: skip
"""What stands before a finding: never colour alone."""


SOME = 12
"""How many things to mend soon are told at first."""
FEW = 6
"""How many of the less pressing things are told at first."""


def plain(words: str, style: str) -> str:  # noqa: ARG001 - a style like any other
    """Words without colour."""
    return words


def ansi(words: str, style: str) -> str:
    """Words with the colours of a terminal."""
    code = _ANSI.get(style)
    return f"\x1b[{code}m{words}\x1b[0m" if code else words


def answer_text(
    answer: Answer,
    *,
    colour: bool = False,
    width: int = 80,
    all: bool = False,
    style: Style | None = None,
) -> str:
    """The answer as text: what to change first, then what to measure, then (on wish) what is right.

    Parameters
    ----------
    answer : Answer
        From `assess`.
    colour : bool
        Whether to use terminal colours.
    width : int
        Columns to wrap to.
    all : bool
        Whether to tell everything: what is right, why what could be better would be, and the sources.
    style : callable, optional
        Other colours.
    """
    page = _Page(answer, style or (ansi if colour else plain), max(width, 40))
    return page.text(page.overview(everything=all))


def why_text(
    finding: Finding, answer: Answer, *, colour: bool = False, width: int = 80, style: Style | None = None
) -> str:
    """All there is to say of one finding: the values that went in, the equations, the rules, and each source with its mark."""
    page = _Page(answer, style or (ansi if colour else plain), max(width, 40))
    return page.text(page.reasons(finding))


def _printable(words: str) -> str:
    """Words without characters that could steer the terminal."""
    return "".join(c if c.isprintable() else " " for c in words)


class _Page:
    """Lines of one text, wrapped to a width."""

    def __init__(self, answer: Answer, style: Style, width: int) -> None:
        self.answer, self.style, self.width = answer, style, width
        self.told, self.notes, self.units = Telling(answer), Notes(), answer.household.units

    def text(self, lines: Iterable[str]) -> str:
        return "\n".join(lines).rstrip("\n") + "\n"

    def say(self, words: str, indent: int = 0, first: str = "", style: str = "") -> Iterator[str]:
        """Wrap words; `first` stands before them and the rest hangs beneath its end."""
        hang = " " * (indent + len(first))
        lines = textwrap.wrap(
            _printable(words),
            self.width,
            initial_indent=" " * indent + first,
            subsequent_indent=hang,
            break_on_hyphens=False,
        )
        for line in lines or [" " * indent + first]:
            yield self.style(line, style) if style else line

    def head(self, words: str) -> Iterator[str]:
        yield ""
        yield from self.say(words, style="head")

    def overview(self, *, everything: bool) -> Iterator[str]:
        home = self.answer.household
        yield from self.say(f"{home.name}, {self.answer.on.day} {self.answer.on:%B %Y}", style="head")
        yield from self.say(self.told.verdict)
        if not self.answer.to_change:
            yield from self.say("There is nothing to change in what could be looked at.")
        for severity in (Severity.ACT_NOW, Severity.MEND_SOON, Severity.BETTER):
            yield from self.changes(severity, everything=everything)
        yield from self.to_measure(self.answer.of(Severity.CANNOT_TELL), everything=everything)
        fine = self.answer.of(Severity.FINE)
        if everything:
            yield from self.right(fine)
            yield from self.sources()
        yield ""
        for line in telling.ABOUT:
            yield from self.say(line, style="soft")

    def changes(self, severity: Severity, *, everything: bool) -> Iterator[str]:
        """The things to change of one severity: what is urgent in full, the rest in short."""
        topics = self.told.topics_of(severity)
        if not topics:
            return
        yield from self.head(f"{telling.SEVERITY_WORDS[severity]} ({len(topics)})")
        most = {Severity.MEND_SOON: SOME, Severity.BETTER: FEW}.get(severity, len(topics))
        shown = topics if everything else topics[:most]
        for topic in shown:
            yield ""
            yield from self.topic(topic)
            if everything or severity == Severity.ACT_NOW:
                yield from self.in_full(topic, everything=everything)
            elif severity == Severity.MEND_SOON:
                yield from self.in_short(topic)
        yield from self.more(len(topics) - len(shown), f"more: {telling.SEVERITY_WORDS[severity].lower()}")

    def more(self, number: int, words: str) -> Iterator[str]:
        if number > 0:
            yield ""
            yield from self.say(f"... and {number} {words}: add --all, or open the report.", 5, style="soft")

    def topic(self, topic: Topic) -> Iterator[str]:
        finding = topic.first
        first = f"{self.told.number(finding):>2}. {SIGNS[finding.severity]} "
        yield from self.say(finding.statement, first=first, style=finding.severity)
        soon = telling.soon_words(finding)
        yield from self.say(telling.places(topic) + (f"; {soon}" if soon else ""), 9, style="soft")
        for other in telling.others_said(topic)[:3]:
            yield from self.say(f"{telling.where(other)}: {other.statement}", 9, style="soft")

    def in_short(self, topic: Topic) -> Iterator[str]:
        yield from self.numbers(topic.first, 9)
        if topic.first.caution:
            yield from self.say(topic.first.caution, 9, "Take care: ")
        for tried in topic.remedies[:1]:
            yield from self.say(f"{tried.remedy.title} ({telling.cost_words(tried)})", 9, "-> ")
        yield from self.say(f"why: --why {self.told.number(topic.first)}", 9, style="soft")

    def in_full(self, topic: Topic, *, everything: bool) -> Iterator[str]:
        finding = topic.first
        yield from self.say(finding.title, 9, style="soft")
        yield from self.numbers(finding, 9)
        yield from self.say(finding.why, 9)
        for label, words in (("Take care", finding.caution), ("Measure", finding.measure)):
            if words:
                yield from self.say(words, 9, f"{label}: ")
        for tried in topic.remedies:
            yield from self.remedy(tried, finding, 9)
        yield from self.say(f"why: --why {self.told.number(finding)}", 9, style="soft")
        if everything:
            yield from self.cited(finding, 9)

    def numbers(self, finding: Finding, indent: int) -> Iterator[str]:
        parts = []
        if finding.measured:
            parts.append(f"found {finding.measured.shown(self.units)}")
        if finding.limit:
            parts.append(f"wanted {finding.limit.shown(self.units)}")
        if parts:
            marks = dict.fromkeys(m for c in finding.cites if (m := telling.short_mark(c.how)))
            yield from self.say(", ".join(parts) + (f" ({', '.join(marks)})" if marks else ""), indent)

    def remedy(self, tried: TriedRemedy, finding: Finding, indent: int) -> Iterator[str]:
        yield from self.say(tried.remedy.title, indent, "-> ")
        facts = [telling.cost_words(tried), f"effort: {tried.remedy.effort.value}"]
        for word, ids in (("clears", tried.clears), ("eases", tried.eases)):
            others = [self.pointer(f) for f in self.told.others(ids, finding)]
            if others:
                facts.append(
                    f"{word} {', '.join(others)} as well" if word == "clears" else f"{word} {', '.join(others)}"
                )
        yield from self.say("; ".join(facts), indent + 3, style="soft")
        if then := self.told.others(tried.causes, finding):
            yield from self.say("; ".join(self.pointer(f) for f in then), indent + 3, "It makes worse: ")
        elif tried.causes:
            yield from self.say("Some lesser things would then want looking at.", indent + 3, style="soft")
        if tried.remedy.caution and tried.remedy.caution != finding.caution:
            yield from self.say(tried.remedy.caution, indent + 3, "Mind: ")
        yield from self.say(f"name: {tried.id}", indent + 3, style="soft")

    def pointer(self, finding: Finding) -> str:
        number = self.told.number(finding)
        return f"number {number}" if number else f"“{finding.title}” ({telling.where(finding)})"

    def to_measure(self, findings: tuple[Finding, ...], *, everything: bool) -> Iterator[str]:
        asked = telling.questions(findings)
        if not asked:
            return
        yield from self.head(f"Cannot tell yet: measure this ({len(asked)})")
        shown = asked if everything else asked[:FEW]
        for subject, members in telling.by_subject(f for f, _ in shown).items():
            yield from self.say(subject, style="head")
            for finding in members:
                yield from self.say(finding.statement, first=f"{SIGNS[finding.severity]} ", style=finding.severity)
                yield from self.say(finding.measure, 5)
                if also := next(rest for first, rest in asked if first is finding):
                    yield from self.say(
                        f"It answers {len(also)} more: {' '.join(f.title for f in also[:3])}", 5, style="soft"
                    )
                if finding.caution:
                    yield from self.say(finding.caution, 5, "Take care: ")
        yield from self.more(len(asked) - len(shown), "more to measure")

    def right(self, findings: tuple[Finding, ...]) -> Iterator[str]:
        for room, members in telling.by_room(findings).items():
            yield from self.head(f"What is right: {room}")
            for finding in members:
                yield from self.say(
                    f"{finding.statement} ({telling.where(finding)})",
                    first=f"{SIGNS[finding.severity]} ",
                    style=finding.severity,
                )
                yield from self.cited(finding, 5)

    def cited(self, finding: Finding, indent: int) -> Iterator[str]:
        yield from self.say(
            "Sources: " + "; ".join(self.note(c) for c in telling.cites_of(finding)), indent, style="soft"
        )

    def note(self, cite: Cite) -> str:
        note = self.notes.of(cite)
        return " ".join(
            part for part in (f"[{note.number}]", cite.where, f"({note.mark})" if note.mark else "") if part
        )

    def sources(self) -> Iterator[str]:
        works = self.notes.works()
        if works:
            yield from self.head("Sources")
        for work in works:
            yield from self.say(f"{work.citation} {work.link}".rstrip(), first=f"[{work.number}] ")
            yield from self.say("; ".join(work.ways), 4, style="soft")

    def reasons(self, finding: Finding) -> Iterator[str]:
        word = telling.SEVERITY_WORDS[finding.severity]
        yield from self.say(finding.title, style="head")
        yield from self.say(
            f"{word}: {finding.statement} ({telling.where(finding)})",
            first=f"{SIGNS[finding.severity]} ",
            style=finding.severity,
        )
        yield from self.numbers(finding, 0)
        yield from self.say(finding.why)
        for label, words in (
            ("How sure", finding.confidence),
            ("Measure", finding.measure),
            ("Take care", finding.caution),
        ):
            if words:
                yield from self.say(words, first=f"{label}: ")
        if finding.steps:
            yield from self.head("How we worked it out")
        for number, step in enumerate(finding.steps, 1):
            yield from self.step(number, step)
        if finding.rules:
            yield from self.head("What each rule says, by name")
        for line in telling.law_first(finding.rules, self.answer.household.country):
            yield from self.rule(line)
        if ways := self.told.remedies(finding):
            yield from self.head("What to do")
            for tried in ways:
                yield from self.remedy(tried, finding, 0)
        for cite in telling.cites_of(finding):
            self.notes.of(cite)
        yield from self.sources()

    def step(self, number: int, step: Step) -> Iterator[str]:
        equation = f": {step.equation}" if step.equation else ""
        result = f" = {step.result.shown(self.units)}" if step.result else ""
        source = f"  {self.note(step.cite)}" if step.cite else ""
        yield from self.say(f"{step.text}{equation}{result}{source}", first=f"{number}. ")

    def rule(self, line: RuleLine) -> Iterator[str]:
        weight = f" ({telling.weight_words(line.weight)})" if line.weight else ""
        yield from self.say(
            f"{line.name}{weight}: {telling.verdict_words(line.verdict)}. {line.says} {self.note(line.cite)}",
            first="- ",
        )
