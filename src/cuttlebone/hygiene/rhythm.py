"""How often things are done: water, dishes, spots, the whole cage, perches, the bath."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from cuttlebone import facts
from cuttlebone.base.finding import Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import Cite
from cuttlebone.home import change, rounds
from cuttlebone.home.model import Duty, DutyKind, Room
from cuttlebone.home.view import EnclosureView, Findings, View, cannot_tell, check
from cuttlebone.nature.growth import doublings_log10

_ASK = "Write down how often it is really done, as a duty of the household: how often, or at what times of the day, and who does it."


def interval_h(duties: Iterable[Duty]) -> float | None:
    """Mean time between rounds of these duties taken together, or None if no duty says how often. [h]

    Parameters
    ----------
    duties : iterable of Duty
        Duties of one kind for one enclosure; two a day by two people are twice a day.

    Examples
    --------
    >>> interval_h([Duty(kind="water", every_h=24), Duty(kind="water", every_h=24)])
    12.0
    """
    rates = [1 / every for every in map(rounds.interval_h, duties) if every]
    return round(1 / sum(rates), 6) if rates else None


def warmest_c(room: Room | None) -> float | None:
    """The warmest this room is known to be, or None. [degC]"""
    known = [t for t in (room.temp_day_c, room.temp_max_c) if t is not None] if room else []
    return max(known, default=None)


_WORDS = {
    12.0: "twice a day",
    24.0: "once a day",
    48.0: "every other day",
    84.0: "twice a week",
    168.0: "once a week",
    336.0: "once a fortnight",
}


def often(view: View, hours: float) -> str:
    """A rhythm in words: the common ones by name, else in hours up to two days and in days beyond."""
    if hours in _WORDS:
        return _WORDS[hours]
    return f"every {view.say(hours, 'h')}" if hours < 48 else f"every {round(hours / 24)} days"


def _whole(hours: float) -> Quantity:
    """A rhythm as a number: hours up to two days, whole days beyond."""
    return Quantity(hours, "h") if hours < 48 else Quantity(round(hours / 24), "days")


def more_often(view: EnclosureView, kind: DutyKind, every_h: float, title: str) -> Remedy:
    """Do a duty at this interval; for all enclosures if it is shared by all, else for this one."""
    cage = view.enclosure
    mine = view.duties(kind, cage.id)
    shared = all(d.enclosures is None for d in view.duties(kind))
    who = next((d.who for d in mine if d.who), None) or tuple(p.id for p in view.keepers[:1]) or None
    return Remedy(id="more-often", title=title, effort=Effort.A_HABIT,
                  change=change.duty(kind, every_h, None if shared else (cage.id,), who))  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rhythm:
    """One thing that is done again and again, with the rules for it."""

    kind: DutyKind
    what: str  # "The perches are scrubbed"
    do: str  # "Scrub the perches"
    why: str
    how: str = ""  # what is said after how often: ", early in the day"
    want: str  # rule: at least this often
    latest: str = ""  # rule: beyond it, mend soon; none: never worse than better
    also: tuple[str, ...] = ()  # further rules it rests on
    soon: Soon = Soon.WEEKS
    caution: str = ""
    confidence: str = "Common practice; no study says how often."

    @property
    def cites(self) -> tuple[Cite, ...]:
        rules = (self.want, self.latest, *self.also)
        return tuple(dict.fromkeys(facts.rule(r).cite for r in rules if r))


def _rhythm(view: EnclosureView, of: _Rhythm) -> Findings:
    """Compare how often a duty is done with how often it should be."""
    if not view.birds:
        return
    every = interval_h(view.duties(of.kind, view.enclosure.id))
    if view.home.duties is None or (every is None and view.duties(of.kind, view.enclosure.id)):
        yield cannot_tell(
            f"How often this is done is not known: {of.do[0].lower()}{of.do[1:]}.",
            measure=_ASK,
            why=of.why,
            cites=of.cites,
        )
        return
    want = facts.rule(of.want).number
    latest = facts.rule(of.latest).number if of.latest else None
    remedy = more_often(view, of.kind, want, f"{of.do} {often(view, want)}{of.how}.")
    limit = Span(high=want, unit="h")
    if every is None:
        severity = Severity.MEND_SOON if latest else Severity.BETTER
        yield Finding(severity=severity, soon=of.soon, statement=f"No duty of yours says: {of.do[0].lower()}{of.do[1:]}.", why=of.why, limit=limit,
                      cites=of.cites, remedies=(remedy,), caution=of.caution)  # fmt: skip
        return
    steps = [
        Step(text="Time between two rounds", result=Quantity(every, "h")),
        Step(text=facts.find("rule", of.want).name, result=Quantity(want, "h"), cite=facts.rule(of.want).cite),
    ]
    if latest:
        steps.append(
            Step(text=facts.find("rule", of.latest).name, result=Quantity(latest, "h"), cite=facts.rule(of.latest).cite)
        )
    severity = Severity.FINE if every <= want else Severity.MEND_SOON if latest and every > latest else Severity.BETTER
    ending = (
        ""
        if severity == Severity.FINE
        else f"; {often(view, want)} is better"
        if severity == Severity.BETTER
        else f"; it should be {often(view, want)}"
    )
    yield Finding(severity=severity, soon=of.soon, statement=f"{of.what} {often(view, every)}{ending}.", why=of.why, cites=of.cites,
                  measured=_whole(every), limit=limit, steps=tuple(steps), confidence=of.confidence,
                  remedies=() if severity == Severity.FINE else (remedy,), caution=of.caution if severity != Severity.FINE else "")  # fmt: skip


_DUST = "Wet dry droppings before you lift or scrape them."

_DISHES = _Rhythm(
    kind="dishes", what="Dishes and drinkers are washed", do="Scrub dishes and drinkers", want="hygiene.vessel_scrub", latest="hygiene.dishes_latest",
    why="A film of bacteria grows on the wall of a dish; topping up or rinsing leaves it there.",
    also=("hygiene.vessel_film",), soon=Soon.DAYS,
)  # fmt: skip
_SPOT = _Rhythm(
    kind="spot clean", what="Soiled paper and spots are cleared away", do="Change soiled paper and wipe soiled spots",
    want="hygiene.spot_clean_every", latest="hygiene.spot_clean_latest", caution=_DUST,
    why="Old droppings feed moulds and give off ammonia, and on fresh paper you see at once when droppings change.",
)  # fmt: skip
_DEEP = _Rhythm(
    kind="deep clean", what="The whole cage is washed", do="Wash the whole cage",
    want="hygiene.deep_clean_light", latest="hygiene.deep_clean_latest", caution=_DUST,
    why="Dirt builds up where daily care does not reach: corners, door frames, under the tray, hooks.",
    confidence="Common practice, and from memory how late is too late: fortnightly for a cage that is cleared of droppings every day, weekly for any other.",
)  # fmt: skip
_PERCHES = _Rhythm(
    kind="perches", what="Perches are scrubbed", do="Scrub the perches", want="hygiene.perches_every", latest="hygiene.perches_latest",
    why="Birds wipe their bills on perches and stand on them all day; wood keeps germs better than metal does.",
    also=("hygiene.wood_is_harder",), caution=_DUST,
)  # fmt: skip
_BATH = _Rhythm(
    kind="bath", what="Bathing water is offered", do="Offer bathing water", how=", for an hour or two, early in the day", want="hygiene.bath_every",
    why="Bathing keeps feathers in order; a bath left in all day is drunk from and fouled.",
)  # fmt: skip


@check("hygiene.dishes", "Are dishes and drinkers washed often enough?", "enclosure")
def dishes(view: EnclosureView) -> Findings:
    """Compare the time between washes with a day."""
    yield from _rhythm(view, _DISHES)


@check("hygiene.spot_clean", "Are droppings cleared away often enough?", "enclosure")
def spot_clean(view: EnclosureView) -> Findings:
    """Compare the time between small cleans with a day, and two days at most."""
    yield from _rhythm(view, _SPOT)


@check("hygiene.deep_clean", "Is the whole cage washed often enough?", "enclosure")
def deep_clean(view: EnclosureView) -> Findings:
    """Compare the time between full washes with a fortnight, or a week for a cage that is not cleared of droppings every day."""
    spots = interval_h(view.duties("spot clean", view.enclosure.id))
    light = spots is not None and spots <= facts.rule("hygiene.spot_clean_every").number
    yield from _rhythm(view, _DEEP if light else replace(_DEEP, want="hygiene.deep_clean_every"))


@check("hygiene.perches", "Are the perches scrubbed often enough?", "enclosure")
def perches(view: EnclosureView) -> Findings:
    """Compare the time between perch scrubs with a week, and a fortnight at most."""
    yield from _rhythm(view, _PERCHES)


@check("hygiene.bath", "Is bathing water offered often enough?", "enclosure")
def bath(view: EnclosureView) -> Findings:
    """Compare the time between baths with half a week."""
    yield from _rhythm(view, _BATH)


@check("hygiene.water_changes", "Is drinking water changed often enough for this room?", "enclosure")
def water_changes(view: EnclosureView) -> Findings:
    """Compare the time between changes with a day, or half a day in a warm room.

    Droppings and food in the water decide more than growth does, so the limits are practice, not a growth model.
    """
    if not view.birds:
        return
    day, half, warm = (facts.rule(f"hygiene.{r}") for r in ("water_every", "water_every_warm", "water_warm"))
    alone, flora = (facts.rule(f"hygiene.water_doubling_{r}") for r in ("alone", "flora"))
    why = "Droppings and food fall into water and bacteria grow in it, faster in a warm room; topping up keeps the old water."
    cites = (day.cite, warm.cite, alone.cite)
    every, temp = interval_h(view.duties("water", view.enclosure.id)), warmest_c(view.room)
    if view.home.duties is None or (every is None and view.duties("water", view.enclosure.id)):
        yield cannot_tell("How often drinking water is changed is not known.", measure=_ASK, why=why, cites=cites)
        return
    limit = half if temp is not None and temp > warm.number else day
    when = (
        "morning and afternoon; scrub the drinker once a day." if limit is half else "and scrub the drinker every day."
    )
    remedy = more_often(view, "water", limit.number, f"Change all drinking water {when}")
    if every is None:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, statement="No duty of yours says that drinking water is changed.", why=why,
                      cites=cites, remedies=(remedy,), limit=Span(high=limit.number, unit="h"))  # fmt: skip
        return
    if temp is None and half.number < every <= day.number:
        yield cannot_tell(f"Water is changed {often(view, every)}; whether that is enough depends on how warm the room gets.", why=why, cites=cites,
                          measure="Put a thermometer with a memory at cage height, out of the sun, and read the highest value after a week.")  # fmt: skip
        return
    steps = (
        Step(text="Time between two changes", result=Quantity(every, "h")),
        *((Step(text="Warmest the room is known to be", result=Quantity(temp, "°C")),) if temp is not None else ()),
        Step(text="Above this, twice a day", result=warm.quantity, cite=warm.cite),
        Step(text="Growth of one water germ in that time, alone in clean water", equation="t / doubling time × log10 2",
             result=Quantity(doublings_log10(every, alone.number), "log10"), cite=alone.cite),
        Step(text="The same among other bacteria", equation="t / doubling time × log10 2",
             result=Quantity(doublings_log10(every, flora.number), "log10"), cite=flora.cite),
    )  # fmt: skip
    said = f"Drinking water is changed {often(view, every)}"
    if every > limit.number:
        severity, said = Severity.MEND_SOON, f"{said}; in this room it should be {often(view, limit.number)}."
    else:
        enough = f", which is enough up to {view.say(warm.number, '°C')}" if every > half.number else ""
        severity, said = Severity.FINE, f"{said}{enough}."
    yield Finding(severity=severity, soon=Soon.DAYS, statement=said, why=why, cites=cites, measured=Quantity(every, "h"),
                  limit=Span(high=limit.number, unit="h"), steps=steps, confidence="Common practice; the temperature is our choice.",
                  remedies=() if severity == Severity.FINE else (remedy,))  # fmt: skip
