"""New birds among those that were there before: in one cage, or in the same air."""

from collections.abc import Iterable
from datetime import date
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, RuleLine, Severity, Soon, Step, Verdict
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.home import change, settle
from cuttlebone.home.birds import inside, listed, name_of, names_of, tally
from cuttlebone.home.model import Bird, Enclosure
from cuttlebone.home.view import EnclosureView, Findings, HouseholdView, cannot_tell, check

_ALWAYS = 100_000
_RULES = (
    ("company.quarantine_clinic", "Australian bird clinic", "advice"),
    ("company.quarantine_practice", "Australian exotic-animal practice", "advice"),
    ("company.quarantine_import", "Australian import rules for household parrots", "binding for imports"),
    ("company.quarantine_psittacosis", "Psittacosis compendium, United States", "guidance"),
    ("company.quarantine_code", "Animal health code, two bird plagues", "for trade"),
)
_WHY = (
    "A new bird can carry an illness for weeks without a sign, by air and droppings too; looking on does not find all of it. "
    "Ask an avian vet which tests are worth it."
)
_ASK = "Look up the day each bird came: on a receipt, in a message, from a photograph. For birds bred here, say so."


def days_here(bird: Bird, today: date) -> int | None:
    """Days since a bird came; very many for one bred here, None if the day is not known.

    Examples
    --------
    >>> days_here(Bird(id="a", species="canary", came=date(2026, 1, 1)), date(2026, 1, 31))
    30
    """
    if bird.bred_here:
        return _ALWAYS
    return None if bird.came is None else max(0, (today - bird.came).days)


def quarantine_rules(days: int) -> tuple[RuleLine, ...]:
    """What each source says of a bird that came so many days ago."""
    return tuple(
        RuleLine(rule=rule, name=name, weight=weight, verdict=Verdict.MEETS if days >= facts.rule(rule).number else Verdict.SHORT,
                 says=f"{facts.find('rule', rule).name} ({facts.rule(rule).number:g} days)", cite=facts.rule(rule).cite)
        for rule, name, weight in _RULES
    )  # fmt: skip


def _common(days: int | None) -> dict[str, Any]:
    ours = facts.rule("company.quarantine_ours")
    return {
        "why": _WHY, "soon": Soon.WEEKS, "limit": Span(low=ours.number, unit="days"),
        "cites": (ours.cite, *(facts.rule(rule).cite for rule, _, _ in _RULES)),
        "confidence": "Our choice of 45 days; sources say 21 to 60 and more. No number of days finds every illness.",
        "caution": "No diagnosis. Wash hands between the old birds and the new, and see to the new ones last.",
        "rules": () if days is None else quarantine_rules(days),
        "measured": None if days is None or days >= _ALWAYS else tally(days, "day"),
    }  # fmt: skip


def _newest(birds: Iterable[Bird], today: date) -> tuple[tuple[Bird, ...], int] | None:
    """The birds that came last and how long ago, where the day is known."""
    known = [(b, d) for b in birds if (d := days_here(b, today)) is not None]
    if not known:
        return None
    last = min(d for _, d in known)
    return tuple(b for b, d in known if d == last), last


def _severity(days: int) -> Severity:
    return Severity.MEND_SOON if days < facts.rule("company.quarantine_least").number else Severity.BETTER


def _ago(days: int) -> str:
    return "today" if days == 0 else "yesterday" if days == 1 else f"{days} days ago"


def _met(batch: tuple[Bird, ...], days: int, others: Iterable[Bird], today: date) -> tuple[Bird, ...]:
    """Who of the others was here before the batch: surely, or most likely, as the day of coming is not told."""
    return tuple(b for b in others if b not in batch and ((d := days_here(b, today)) is None or d > days))


def _unsure(earlier: Iterable[Bird], today: date) -> str:
    """What to add where it is only likely that some were here before."""
    untold = [b for b in earlier if days_here(b, today) is None]
    return f" When {names_of(untold)} came is not told: most likely before." if untold else ""


@check("company.quarantine_new", "Have new birds been kept apart long enough?", "enclosure")
def quarantine_new(view: EnclosureView) -> Findings:
    """Count the days since the last arrival in the enclosure, if birds that came earlier share it.

    Sources differ and are shown by name; ours is a choice. Birds that came together count as one batch. A bird whose day is not
    told was most likely there before one that is known to have come lately.
    """
    if not view.birds:
        return
    newest = _newest(view.birds, view.today)
    unknown = [b for b in view.birds if days_here(b, view.today) is None]
    ours = facts.rule("company.quarantine_ours").number
    if newest and newest[1] < ours and (earlier := _met(*newest, view.birds, view.today)):
        yield _mixed(view, *newest, earlier)
        return
    if unknown and len(view.birds) > 1:
        yield cannot_tell(f"When {names_of(unknown)} came is not known.", measure=_ASK, **_common(None))
        return
    common = {**_common(newest[1] if newest else None), "rules": ()}
    if newest and newest[1] < ours:  # they came together: the days say nothing here
        common |= {"measured": None, "limit": None}
    text = "No bird that came later has been put with others here too soon."
    yield Finding(severity=Severity.FINE, statement=text, **common)


def _mixed(view: EnclosureView, batch: tuple[Bird, ...], days: int, earlier: tuple[Bird, ...]) -> Finding:
    """A newcomer in the cage of others: apart again, or all of them kept as new together."""
    share = "shares" if len(batch) == 1 else "share"
    text = f"{names_of(batch)} came {_ago(days)} and {share} this cage with {names_of(earlier)}.{_unsure(earlier, view.today)}"
    steps = tuple(Step(text=f"Days since {name_of(b)} came", result=Quantity(days, "days")) for b in batch)
    if view.enclosure.purpose == "quarantine":
        return Finding(
            severity=Severity.BETTER,
            statement=f"{text} They serve the days of quarantine together.",
            steps=steps,
            **_common(days),
        )
    moved = Remedy(
        id="quarantine", title=f"Move {names_of(batch)} to a plain quarantine cage in a room without birds.", cost=Cost(40, 150),
        effort=Effort.AN_HOUR, change=settle.quarantine(view.enclosure.id, {b.id for b in batch}),
        caution="They have shared air already: ask an avian vet what else to do, and start the days again for all.",
    )  # fmt: skip
    ours = facts.rule("company.quarantine_ours").number
    together = Remedy(
        id="together", title=f"Keep this whole cage as new: no bird joins or leaves it for {ours:g} days, it is seen to last, with its own dishes and cloths.",
        effort=Effort.A_HABIT, change=change.enclosure(view.enclosure.id, purpose="quarantine"),
        caution="The birds that were there are not protected by this: ask an avian vet which tests are worth it.",
    )  # fmt: skip
    ways = (
        (moved, together) if len(view.birds) - len(batch) < 2 else (moved,)
    )  # no bird is left alone for a quarantine too late
    return Finding(severity=_severity(days), statement=text, remedies=ways, steps=steps, **_common(days))


def _meeting(
    one: tuple[Bird, ...], others: tuple[Bird, ...], today: date
) -> tuple[tuple[Bird, ...], int, tuple[Bird, ...]] | None:
    """The newest of a cage, how long ago they came, and who of the others was here before; None if that is long over."""
    newest = _newest(one, today)
    if (
        newest
        and newest[1] < facts.rule("company.quarantine_ours").number
        and (earlier := _met(*newest, others, today))
    ):
        return (*newest, earlier)
    return None


def _neighbours(view: HouseholdView) -> dict[str, tuple[bool, tuple[Bird, ...]]]:
    """For each cage with birds: whether its room is told, and the birds of the other cages that share its air or may share it."""
    rooms = {e.id: e.room for e in view.home.enclosures or () if e.id in view.companies}
    return {
        key: (room is not None, tuple(b for k, r in rooms.items() if k != key and (r == room or not room) for b in view.companies[k]))
        for key, room in rooms.items()
    }  # fmt: skip


def _unplaced(view: HouseholdView) -> list[Enclosure]:
    """Cages whose room is not told and whose quarantine hangs on it."""
    found = []
    for e in view.home.enclosures or ():
        own = view.companies.get(e.id, ())
        if e.room is not None or not own:
            continue
        for key, others in view.companies.items():
            group = (*own, *others)
            if key != e.id and (
                _meeting(own, others, view.today)
                or _meeting(others, own, view.today)
                or any(days_here(b, view.today) is None for b in group)
            ):
                found.append(e)
                break
    return found


@check("company.quarantine_air", "Do new birds breathe the air of the others?", "household")
def quarantine_air(view: HouseholdView) -> Findings:
    """Look for new birds in one enclosure of a room and birds that came earlier in another of the same room.

    Dust and droplets cross a room; a quarantine cage beside the others keeps feet apart, not air. Of several such rooms the one with
    the newest birds is told first.
    """
    if not view.companies:
        return
    near = {key: others for key, (told, others) in _neighbours(view).items() if told and others}
    met = [(key, m) for key, others in near.items() if (m := _meeting(view.companies[key], others, view.today))]
    if met:
        key, (batch, days, earlier) = min(met, key=lambda pair: (pair[1][1], pair[0]))
        yield _shared_air(view, key, (batch, days), earlier)
        return
    unplaced = _unplaced(view)
    if unplaced:
        yield cannot_tell(
            f"Whether new birds breathe the air of the others is not known: in which room {listed([inside(e.name) for e in unplaced])} "
            f"{'stands' if len(unplaced) == 1 else 'stand'} is not told.",
            measure="Write the room beside the cage.",
            **_common(None),
        )
        return
    if not near:
        if any(_meeting(birds, birds, view.today) for birds in view.companies.values()):
            return  # a newcomer in the cage of the others is told of there
        yield Finding(
            severity=Severity.FINE,
            statement="No two cages with birds share the air of a room.",
            **{**_common(None), "limit": None},
        )
        return
    unknown = [b for key in near for b in view.companies[key] if days_here(b, view.today) is None]
    if unknown:
        yield cannot_tell(
            f"When {names_of(unknown)} came is not known: the quarantine may not be over.",
            measure=_ASK,
            **_common(None),
        )
    else:
        yield Finding(
            severity=Severity.FINE,
            statement="All birds that share the air of a room came long enough ago, or together.",
            **_common(None),
        )


def _shared_air(
    view: HouseholdView, cage: str, newest: tuple[tuple[Bird, ...], int], earlier: tuple[Bird, ...]
) -> Finding:
    batch, days = newest
    own = len(view.companies[cage]) == len(batch)
    apart = Remedy(
        id="apart", effort=Effort.AN_HOUR, cost=Cost(0, 0) if own else Cost(40, 150), change=settle.quarantine(cage, {b.id for b in batch}),
        title=f"{'Carry the cage of' if own else 'Move'} {names_of(batch)} {'' if own else 'in a plain quarantine cage '}to a room without birds.",
        caution="Keep a door shut between them; use other dishes and cloths, and see to them last.",
    )  # fmt: skip
    text = f"{names_of(batch)} came {_ago(days)} and breathe{'s' if len(batch) == 1 else ''} the same air as {names_of(earlier)}.{_unsure(earlier, view.today)}"
    return Finding(severity=_severity(days), statement=text, remedies=(apart,), **_common(days))
