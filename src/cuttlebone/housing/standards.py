"""One enclosure and its company against the named housing standards, each by itself.

Standards contradict each other, so nothing here adds, averages or takes the strictest: every standard gives its own line.

>>> from cuttlebone import facts
>>> from cuttlebone.home.model import Enclosure
>>> cage = Enclosure(id="cage", name="Cage", shape="box", length_cm=70, width_cm=40, height_cm=60)
>>> line = line_of(facts.standard("se-l80-small"), cage, Company.alike("zebra_finch", 2))
>>> print(line.verdict.value, "-", line.says)
short - short of floor area by 0.03 m2 (0.28 of 0.31); width by 5 cm (40 of 45). Met: length 70 cm (70), height 60 cm (60).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from cuttlebone import facts
from cuttlebone.base.finding import RuleLine, Verdict
from cuttlebone.facts.schema import Entry
from cuttlebone.home.birds import plural_of
from cuttlebone.home.model import Enclosure
from cuttlebone.housing.company import Company, Kept, rows_of, scope
from cuttlebone.housing.required import Requirement, What, readings, required

__all__ = ["Company", "Judged", "Judgement", "Kept", "Requirement", "Use", "compare", "dimensions", "hold", "instrument", "judge", "line_of", "measures",
           "required"]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """What the enclosure is for while it is judged, where a law asks.

    Parameters
    ----------
    kind : str
        ``treatment`` is care by a vet; ``hospital`` is a hospital cage at home, of which that is not known.
    hours : float, optional
        How long the birds are on show, in all. [h]
    """

    kind: Literal["home", "hospital", "treatment", "transport", "show", "breeding study"] = "home"
    hours: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One requirement held against the enclosure; `met` is None where its value is not known."""

    requirement: Requirement
    measured: float | None
    met: bool | None
    waived: bool = False

    @property
    def short_by(self) -> float:
        """How much is missing (or too much), in the requirement's own unit; 0 if met or unknown."""
        if self.met is not False or self.measured is None:
            return 0.0
        return abs(self.requirement.limit - self.measured)


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """What one standard says of one enclosure, with every requirement of every reading."""

    standard: Entry
    verdict: Verdict
    says: str
    judged: tuple[Judged, ...] = ()

    @property
    def short(self) -> tuple[Judged, ...]:
        """Requirements that are not met."""
        return tuple(j for j in self.judged if j.met is False)

    @property
    def unknown(self) -> tuple[Judged, ...]:
        """Requirements whose value has not been told."""
        return tuple(j for j in self.judged if j.met is None)

    @property
    def short_words(self) -> str:
        """What is missing, each in its own unit; of the first reading that is short."""
        label = next((j.requirement.reading for j in self.short if j.requirement.reading), "")
        return "; ".join(_short_words(j) for j in self.short if j.requirement.reading in ("", label))

    @property
    def for_homes(self) -> bool:
        """Whether the standard is meant for homes, be it only as advice."""
        return self.standard.text("weight") != "not for homes"

    @property
    def line(self) -> RuleLine:
        """The same as a line to show beside other standards."""
        s = self.standard
        return RuleLine(rule=s.id, name=s.name, verdict=self.verdict, says=self.says,
                        weight=f"{s.text('weight')} ({s.text('context')})", cite=s.fact("country").cite)  # fmt: skip


def dimensions(cage: Enclosure) -> tuple[float | None, float | None, float | None]:
    """Inner length (the longer floor side), width and height of the largest box inside. [cm]

    In a round cage that is the largest rectangle its floor can hold. A side that is not known makes length and width unknown.
    """
    if cage.length_cm is None or cage.width_cm is None:
        return None, None, cage.height_cm
    share = 1 / sqrt(2) if cage.shape == "round" else 1.0
    long, short = sorted((cage.length_cm * share, cage.width_cm * share), reverse=True)
    return long, short, cage.height_cm


def measures(cage: Enclosure, company: Company) -> dict[What, float | None]:
    """Every quantity a standard may ask for, as the enclosure has it; None where it is not known."""
    length, width, height = dimensions(cage)
    area = length * width / 1e4 if length is not None and width is not None else None
    return {
        "length": length, "width": width, "height": height, "floor area": area,
        "volume": area * height / 100 if area is not None and height is not None else None,
        "length to width": length / width if length is not None and width is not None else None,
        "shortest side": min(width, height) if width is not None and height is not None else None,
        "birds together": float(company.n), "base height": cage.base_height_cm, "free flight": cage.free_flight_h,
        "feeders": None if cage.dishes is None else float(sum(d.holds in ("seed", "pellets") for d in cage.dishes)),
        "round cage": None if cage.shape is None else float(cage.shape == "round"),
        "diameter": min((d for d in (cage.length_cm, cage.width_cm) if d is not None), default=None),
    }  # fmt: skip


def _held_against(asked: Requirement, has: dict[What, float | None]) -> Judged:
    value = has[asked.what]
    known = [has[what] for what, _ in asked.waived_at]
    waived = bool(known) and all(
        v is not None and v >= limit - 1e-6 for v, (_, limit) in zip(known, asked.waived_at, strict=True)
    )
    if waived:
        return Judged(requirement=asked, measured=value, met=True, waived=True)
    met = None if value is None else asked.met_by(value)
    if met is False and None in known:
        met = None  # what is not known could still waive it
    return Judged(requirement=asked, measured=value, met=met)


def hold(asked: Iterable[Requirement], cage: Enclosure, company: Company) -> tuple[Judged, ...]:
    """Hold requirements against an enclosure and its company; a shape not told counts as a box with corners."""
    has = measures(cage, company)
    return tuple(_held_against(r, has) for r in asked)


def judge(standard: Entry, cage: Enclosure, company: Company, use: Use | None = None) -> Judgement:
    """Hold one standard against one enclosure and its company.

    Parameters
    ----------
    standard : Entry
        One row of a named standard.
    cage : Enclosure
        Inside dimensions; what is not told makes *cannot tell* unless something known is short already.
    company : Company
        The birds that count.
    use : Use, optional
        What the enclosure is for; a hospital cage is known from its purpose.

    Returns
    -------
    Judgement
        Never *meets* where a value is missing, where the text has no dimension, or where two readings of it disagree.
    """
    use = use or Use(kind="hospital" if cage.purpose == "hospital" else "home")
    if (outside := _outside(standard, company, use)) is not None:
        return outside
    sets = [hold(asked, cage, company) for asked in readings(standard, company)]
    found = Judgement(standard=standard, verdict=_verdict(sets), says=_says(sets), judged=_distinct(sets))
    found = _shape_told(found, cage, company, use)
    return _with_words(_beyond_text(_hospital(found, use), company), cage, company)


def _outside(standard: Entry, company: Company, use: Use) -> Judgement | None:
    """The judgement where the standard is not for these birds or this use; None where it is."""

    def said(verdict: Verdict, says: str) -> Judgement:
        return Judgement(standard=standard, verdict=verdict, says=says)

    largest = company.largest
    if standard.text("context") == "breeding studies" and use.kind != "breeding study":
        return said(Verdict.NOT_FOR_THESE, "only while a breeding study lasts")
    limit = facts.entries("rule").get(f"housing.show_exempt.{standard.id}")
    short_show = (
        use.kind == "show" and limit is not None and use.hours is not None and use.hours <= limit.number("value")
    )
    if limit is not None and (use.kind in ("transport", "treatment") or short_show):
        what = f"a show of up to {limit.number('value'):g} h in all" if use.kind == "show" else use.kind
        return said(Verdict.NOT_FOR_THESE, f"exempt: {what}")
    covered = scope(standard, company)
    if covered == "some":
        return said(
            Verdict.CANNOT_TELL,
            f"names no size for the {plural_of(largest.kind.name, 1)}, the largest bird here. {company.words}".strip(),
        )
    if covered == "none":
        return said(
            Verdict.NOT_FOR_THESE,
            f"has no row for a {plural_of(largest.kind.name, 1)} of {largest.body_length_cm:g} cm",
        )
    return None


def _verdict(sets: list[tuple[Judged, ...]]) -> Verdict:
    each = {_verdict_of(s) for s in sets}
    return each.pop() if len(each) == 1 else Verdict.CANNOT_TELL


def _verdict_of(judged: Iterable[Judged]) -> Verdict:
    met = {j.met for j in judged}
    return Verdict.SHORT if False in met else Verdict.CANNOT_TELL if None in met else Verdict.MEETS


def _distinct(sets: list[tuple[Judged, ...]]) -> tuple[Judged, ...]:
    return tuple(dict.fromkeys(j for s in sets for j in s))


def _shape_told(found: Judgement, cage: Enclosure, company: Company, use: Use) -> Judgement:
    """An enclosure of unknown shape meets a standard only if it would also meet it were it round."""
    if cage.shape is None and found.verdict == Verdict.MEETS and found.judged:
        round_one = judge(found.standard, cage.but(shape="round"), company, use)
        if round_one.verdict != Verdict.MEETS:
            return Judgement(standard=found.standard, verdict=Verdict.CANNOT_TELL, judged=found.judged,
                             says=f"met by a box of these sides, not by a round cage; whether it is round is not told. {found.says}")  # fmt: skip
    return found


def _hospital(found: Judgement, use: Use) -> Judgement:
    """A hospital cage may be smaller while a vet treats the bird; whether one does is not known here."""
    if (
        use.kind == "hospital"
        and found.verdict == Verdict.SHORT
        and f"housing.show_exempt.{found.standard.id}" in facts.entries("rule")
    ):
        return Judgement(standard=found.standard, verdict=Verdict.CANNOT_TELL, judged=found.judged,
                         says=f"exempt only while a vet examines or treats the bird; else {found.says}")  # fmt: skip
    return found


def _beyond_text(found: Judgement, company: Company) -> Judgement:
    """What meets the numbers is not yet enough where the text has none, or none for so many birds."""
    standard, says = found.standard, found.says
    if found.verdict == Verdict.SHORT:
        return found
    if standard.flag("no_dimensions"):
        return Judgement(
            standard=standard, verdict=Verdict.NO_NUMBER, says=standard.text("reading"), judged=found.judged
        )
    if (
        found.verdict == Verdict.MEETS
        and standard.text("area_mode") == "none"
        and company.n > standard.number("birds_included")
    ):
        says = f"its size is for {standard.number('birds_included'):g} birds and it is not known what {company.n} need; {says}"
        return Judgement(standard=standard, verdict=Verdict.CANNOT_TELL, says=says, judged=found.judged)
    return found


def _with_words(found: Judgement, cage: Enclosure, company: Company) -> Judgement:
    """Add how the birds were counted, what the text wants beyond numbers, and how round floors were measured."""
    words = [found.says, company.words, _narrow(found.standard, cage, company)]
    if cage.shape == "round" and found.judged:
        words.append("Measured by the largest rectangle the round floor holds.")
    return Judgement(
        standard=found.standard, verdict=found.verdict, judged=found.judged, says=" ".join(w for w in words if w)
    )


def _narrow(standard: Entry, cage: Enclosure, company: Company) -> str:
    limit = facts.entries("rule").get(f"housing.long_and_narrow.{standard.id}")
    ratio = measures(cage, company)["length to width"]
    if limit is None or ratio is None or ratio >= limit.number("value") - 1e-6:
        return ""
    return f"It asks for a long and narrow shape, without a number; {ratio:.2g} to 1 is not that."


def _says(sets: list[tuple[Judged, ...]]) -> str:
    if len(sets) == 1:
        return _sentence(sets[0])
    return " ".join(f"Read as {s[0].requirement.reading}, {_verdict_of(s).value}: {_sentence(s)}" for s in sets)


def _sentence(judged: tuple[Judged, ...]) -> str:
    groups = {
        "short of ": "; ".join(_short_words(j) for j in judged if j.met is False),
        "not known: ": ", ".join(f"{j.requirement.what} ({_asks(j.requirement)})" for j in judged if j.met is None),
        "met: ": ", ".join(_met_words(j) for j in judged if j.met),
    }
    parts = [head + words for head, words in groups.items() if words]
    if len(parts) == 1:
        parts = [parts[0].removeprefix("met: ")]
    return " ".join(f"{p[0].upper() if i else p[0]}{p[1:]}." for i, p in enumerate(parts))


def _number(value: float, unit: str = "cm") -> str:
    """As exactly as it can be meant: a length to 1 mm below 1 m, to 1 cm below 10 m, to 10 cm above."""
    digits = {"cm": 1 if value < 100 else 0 if value < 1000 else -1, "m2": 3, "m3": 3}.get(unit, 2)
    return f"{round(value, digits):g}"


def _asks(asked: Requirement) -> str:
    if asked.what == "round cage":
        return "none allowed"
    sign = "at most " if asked.most is not None else ""
    return f"{sign}{_number(asked.limit, asked.unit)} {asked.unit}".strip()


def _short_words(judged: Judged) -> str:
    asked, has = judged.requirement, judged.measured or 0.0
    if asked.what == "round cage":
        return "a shape with corners: it allows no round cage"
    instead = " and ".join(f"{_number(limit, _unit(what))} {_unit(what)} of {what}" for what, limit in asked.waived_at)
    otherwise = f", or else {instead}" if instead else ""
    if asked.most is not None:
        return f"width for its length: {_number(has, '')} to 1 where at most {_number(asked.limit, '')} to 1 is allowed{otherwise}"
    return f"{asked.what} by {_number(judged.short_by, asked.unit)} {asked.unit}".rstrip() + (
        f" ({_number(has, asked.unit)} of {_number(asked.limit, asked.unit)}){otherwise}"
    )


def _unit(what: What) -> str:
    return "m2" if what == "floor area" else "m3" if what == "volume" else "cm"


def _met_words(judged: Judged) -> str:
    asked, has = judged.requirement, judged.measured
    if judged.waived:
        return f"{asked.what} (does not matter at this size)"
    if asked.what == "round cage":
        return "not round"
    return (
        f"{asked.what} {_number(has or 0.0, asked.unit)} {asked.unit}".rstrip()
        + f" ({_asks(asked).removesuffix(asked.unit).strip()})"
    )


def line_of(standard: Entry, cage: Enclosure, company: Company, use: Use | None = None) -> RuleLine:
    """The line one standard gives."""
    return judge(standard, cage, company, use).line


def compare(cage: Enclosure, company: Company, use: Use | None = None) -> tuple[RuleLine, ...]:
    """Every named standard's line for an enclosure and its company, in the order of the facts, none merged."""
    return tuple(line_of(standard, cage, company, use) for standard in facts.entries("standard").values())


def instrument(name: str, cage: Enclosure, company: Company) -> tuple[Judgement, ...]:
    """The judgements of all rows of a named instrument that cover the company; that of the named row if none does."""
    standard = facts.standard(name)
    found = tuple(judge(row, cage, company) for row in rows_of(standard))
    covering = tuple(j for j in found if j.verdict != Verdict.NOT_FOR_THESE)
    return covering or (judge(standard, cage, company),)
