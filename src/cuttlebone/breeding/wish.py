"""Is a brood wished, could one come, and what would prevent it?"""

from datetime import time
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.home import change, settle
from cuttlebone.home.birds import counted, may_breed, names_of, opposite_pairs, tally
from cuttlebone.home.model import Bird, Kit
from cuttlebone.home.rounds import lit_h, minute
from cuttlebone.home.view import EnclosureView, Findings, HouseholdView, RoomView, cannot_tell, check

Pair = tuple[Bird, Bird]


def able_pairs(view: EnclosureView | RoomView, birds: tuple[Bird, ...]) -> tuple[Pair, ...]:
    """Pairs of one species that are, or may be, of opposite sexes and old enough to breed."""
    from_d = facts.rule("breeding.apart_from_d").number
    return opposite_pairs(b for b in birds if may_breed(b, view.today, from_d))


def dummies(view: HouseholdView | EnclosureView) -> int | None:
    """Dummy eggs at hand; None if not told."""
    if view.home.kit is None:
        return None
    counts = [k.count for k in view.home.kit if k.kind == "dummy eggs"]
    return None if None in counts else sum(c for c in counts if c)


def unsexed_note(pair: Pair) -> str:
    """What to say beside a finding that counts a bird as both sexes."""
    unsexed = [b for b in pair if b.sex is None]
    if not unsexed:
        return ""
    return f"{names_of(unsexed)} {'is' if len(unsexed) == 1 else 'are'} not sexed and count{'s' if len(unsexed) == 1 else ''} as both."


@check("breeding.wish_known", "Is it told whether a brood is wished?", "enclosure")
def wish_known(view: EnclosureView) -> Findings:
    """Ask for the wish wherever birds could breed: everything else here depends on it."""
    if not able_pairs(view, view.birds):
        return
    why, cites = (
        "Nests, light, food and dummy eggs are one thing for a brood and another against one.",
        (facts.rule("breeding.one_sex").cite,),
    )
    wanted = view.enclosure.breeding_wanted
    if wanted is None:
        yield cannot_tell("Cocks and hens live here, and whether a brood is wished is not told.", why=why, cites=cites,
                          measure="Decide it, knowing who would take the young, and write breeding_wanted beside the enclosure.")  # fmt: skip
        return
    yield Finding(
        severity=Severity.FINE,
        statement=f"It is told that {'a' if wanted else 'no'} brood is wished here.",
        why=why,
        cites=cites,
    )


def _by_sex(view: EnclosureView) -> tuple[Remedy, ...]:
    sexes = {s: [b for b in view.birds if b.sex == s] for s in ("cock", "hen")}
    if not all(sexes.values()) or any(b.sex is None for b in view.birds):
        return ()
    fewer = min(sexes.values(), key=len)
    return (Remedy(
        id="one-sex-each", title=f"Move {names_of(fewer)} into a second cage: one sex in each.", cost=Cost(80, 300),
        effort=Effort.A_DAY, change=settle.second_enclosure(view.enclosure.id, {b.id for b in fewer}),
        caution="Parting a bonded pair is hard on both; keep them within sight, or prevent broods in another way.",
    ),)  # fmt: skip


@check("breeding.unwished", "Could there be a brood that nobody wishes?", "enclosure")
def unwished(view: EnclosureView) -> Findings:
    """Look for opposite sexes of one species old enough to breed where no brood is wished.

    Birds not sexed count as both; birds of unknown age count as grown. Where the wish is not told, it is asked for elsewhere.
    """
    pairs, cage = able_pairs(view, view.birds), view.enclosure
    if not view.birds or cage.breeding_wanted or (pairs and cage.breeding_wanted is None):
        return
    common: dict[str, Any] = {
        "why": "Mixed sexes breed sooner or later: without a nest, in a dish or on the floor. Each clutch costs the hen strength, and the young need homes.",
        "cites": (facts.rule("breeding.one_sex").cite, facts.rule("breeding.apart_from_d").cite, facts.rule("breeding.no_nests").cite),
        "soon": Soon.MONTHS,
    }  # fmt: skip
    if not pairs:
        text = "No two birds here can breed with each other."
        if opposite_pairs(view.birds):
            text = "The birds here are still too young to breed; part cocks and hens by eight weeks."
        yield Finding(severity=Severity.FINE, statement=text, **common)
        return
    eggs = dummies(view)
    prevented = cage.nests == 0 and eggs != 0  # whether there are dummy eggs is asked elsewhere
    unsexed = any(b.sex is None for b in pairs[0])
    text = f"{names_of(pairs[0])} could{', as far as is known,' if unsexed else ''} have a brood that is not wished"
    if prevented:
        eggs_at = "with dummy eggs at hand" if eggs else "with dummy eggs, if you have any,"
        text += f"; there is no nest, and {eggs_at} each egg can be swapped on the day it is laid"
    else:
        text += ", and nothing prevents it"
    yield Finding(
        severity=Severity.BETTER if prevented else Severity.MEND_SOON, confidence=unsexed_note(pairs[0]), statement=f"{text}.",
        remedies=(*_by_sex(view), *(() if prevented else (_prevention(cage.id, eggs),))), **common,
    )  # fmt: skip


def _prevention(cage: str, eggs: int | None) -> Remedy:
    """No nests, and dummy eggs; what is in the cupboard stays untold if it was not told."""
    no_nests = change.enclosure(cage, nests=0)
    stock = change.kit(Kit(kind="dummy eggs", count=max(eggs or 0, 10)))
    return Remedy(
        id="prevent", title="Take out nests and nest-like dishes and keep dummy eggs to swap each egg for.", cost=Cost(3, 10),
        change=no_nests if eggs is None else change.both(no_nests, stock), effort=Effort.A_HABIT,
        caution="Never take a nest with young. A hen that strains or sits fluffed on the floor: call an avian vet at once.",
    )  # fmt: skip


@check("breeding.nests", "Are there nests only where a brood is wished?", "enclosure")
def nests(view: EnclosureView) -> Findings:
    """Compare the nests inside with the wish: a nest or nest-like dish sets off laying, in hens alone too."""
    if not view.birds:
        return
    cage, pairs = view.enclosure, able_pairs(view, view.birds)
    if pairs and cage.breeding_wanted is None and cage.nests is not None:  # the wish is asked for first
        return
    rule = "breeding.surplus_nests" if cage.breeding_wanted else "breeding.no_nests"
    common: dict[str, Any] = {"why": "A nest sets off laying, a brood or not; where a brood is wished, too few nests set off fights.",
                              "cites": (facts.rule(rule).cite,), "soon": Soon.WEEKS}  # fmt: skip
    if cage.nests is None:
        yield cannot_tell(
            "How many nests there are inside is not told.",
            measure="Count nests, boxes and any dish or corner a bird sits in and lines.",
            **common,
        )
        return
    measured = tally(cage.nests, "nest")
    if cage.breeding_wanted and pairs:
        couples = _couples(pairs)
        enough = couples + facts.rule("breeding.surplus_nests").number
        if couples > 1 and cage.nests < enough:
            more = Remedy(id="more-nests", title=f"Hang {enough:g} nests, all at one height.", change=change.enclosure(cage.id, nests=int(enough)),
                          cost=Cost(5, 30), effort=Effort.AN_HOUR)  # fmt: skip
            yield Finding(severity=Severity.BETTER, statement=f"{_nests(cage.nests)} for {counted(couples, 'pair')}: pairs fight over too few.",
                          measured=measured, limit=Span(low=enough, unit="nests"), remedies=(more,), **common)  # fmt: skip
            return
    elif cage.nests and not cage.breeding_wanted:
        out = Remedy(id="no-nests", title="Take the nests and nest-like dishes out.", change=change.enclosure(cage.id, nests=0), effort=Effort.MINUTES,
                     caution="Never with young inside; swap eggs for dummies first and leave those a week or two.")  # fmt: skip
        reason = "no brood is wished" if cage.breeding_wanted is False else "no brood can come of it"
        yield Finding(severity=Severity.MEND_SOON if pairs else Severity.BETTER, statement=f"{_nests(cage.nests)} inside, and {reason}.",
                      measured=measured, limit=Span(high=0, unit="nests"), remedies=(out,), **common)  # fmt: skip
        return
    yield Finding(
        severity=Severity.FINE, statement=f"{_nests(cage.nests)} inside, as it should be.", measured=measured, **common
    )


def _nests(n: int) -> str:
    text = counted(n, "nest")
    return text[:1].upper() + text[1:]


def _couples(pairs: tuple[Pair, ...]) -> int:
    birds = {b.id: b for pair in pairs for b in pair}.values()
    sure = [sum(b.sex == s for b in birds) for s in ("cock", "hen")]
    return max(1, min(min(sure) + sum(b.sex is None for b in birds), len(birds) // 2))


@check("breeding.dummy_eggs", "Are there dummy eggs to swap unwished eggs for?", "household")
def dummy_eggs(view: HouseholdView) -> Findings:
    """Compare dummy eggs at hand with the largest clutch of any pair that is told not to breed.

    Eggs taken away daily are laid again; a hen sitting on dummies stops.
    """
    cages = {e.id: e for e in view.home.enclosures or ()}
    mixed = [
        b
        for key, birds in view.companies.items()
        if cages[key].breeding_wanted is False
        for pair in opposite_pairs(birds)
        for b in pair
    ]
    if not mixed:
        return
    clutch = max(
        (
            (fact.high or fact.number)
            for b in mixed
            if (kind := facts.species(b.species)).has("clutch") and (fact := kind.fact("clutch"))
        ),
        default=6,
    )
    n = dummies(view)
    common: dict[str, Any] = {
        "why": "Eggs taken away are laid again and again; swapped for dummies on the day, the hen sits a week or two and stops.",
        "cites": (facts.rule("breeding.dummy_eggs").cite, facts.species(mixed[0].species).fact("clutch").cite),
        "limit": Span(low=clutch, unit="eggs"), "soon": Soon.WEEKS,
    }  # fmt: skip
    if n is None:
        yield cannot_tell(
            "Whether there are dummy eggs at hand is not told.",
            measure="Count the dummy eggs of a fitting size.",
            **common,
        )
    elif n < clutch:
        buy = Remedy(id="dummies", title=f"Keep {clutch:g} dummy eggs of a fitting size.", cost=Cost(3, 10),
                     change=change.kit(Kit(kind="dummy eggs", count=int(clutch))))  # fmt: skip
        yield Finding(severity=Severity.BETTER, statement=f"{_dummies(n)} at hand; a clutch can be {clutch:g}.", remedies=(buy,),
                      measured=tally(n, "egg"), **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"{n} dummy eggs are at hand, enough for a clutch of {clutch:g}.",
            measured=tally(n, "egg"),
            **common,
        )


def _dummies(n: int) -> str:
    text = counted(n, "dummy egg")
    return f"{text[:1].upper()}{text[1:]} {'is' if n == 1 else 'are'}"


@check("breeding.light", "Does the length of the lamp's day fit the wish?", "room")
def light(view: RoomView) -> Findings:
    """Compare the hours the lamp burns with what urges birds to breed or holds them back, where sexes are mixed.

    Long days set off laying. Only the lamp is counted; daylight through a window may add to it.
    """
    mixed = [(e, able_pairs(view, tuple(b for b in view.birds if b.enclosure == e.id))) for e in view.enclosures]
    mixed = [(e, pairs) for e, pairs in mixed if pairs and e.breeding_wanted is not None]  # the wish is asked for first
    if not mixed:
        return
    wanted = all(e.breeding_wanted for e, _ in mixed)
    low, high = facts.rule("breeding.light_breeding_h"), facts.rule("breeding.light_long_h")
    quiet = facts.rule("breeding.light_quiet_h")
    common: dict[str, Any] = {
        "why": "Long days set off laying, short days hold it back.", "cites": (quiet.cite, high.cite, low.cite), "soon": Soon.MONTHS,
        "confidence": "The lamp alone is counted; a window adds daylight.",
    }  # fmt: skip
    on, off = view.room.light_on, view.room.light_off
    if on is None or off is None:
        yield cannot_tell(
            "How long the lamp burns in this room is not told.",
            measure="Note when the lamp goes on and off, or when it gets light and dark.",
            **common,
        )
        return
    hours = lit_h(on, off)
    steps = (Step(text="Hours the lamp burns", equation="off - on", result=Quantity(hours, "h")),)
    say = view.say(hours, "h")
    if not wanted and hours > high.number:
        yield Finding(severity=Severity.BETTER, statement=f"The lamp burns {say} a day, which urges birds to breed where no brood is wished.",
                      measured=Quantity(hours, "h"), limit=Span(high=high.number, unit="h"), remedies=_lamp(view, on, off, quiet.number), steps=steps, **common)  # fmt: skip
    elif wanted and hours < low.number:
        yield Finding(severity=Severity.BETTER, statement=f"The lamp burns {say} a day, which is short for a brood.", measured=Quantity(hours, "h"),
                      limit=Span(low=low.number, unit="h"), remedies=_lamp(view, on, off, low.number), steps=steps, **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"The lamp's day of {say} fits the wish.",
            measured=Quantity(hours, "h"),
            steps=steps,
            **common,
        )


def _lamp(view: RoomView, on: time, off: time, hours: float) -> tuple[Remedy, ...]:
    """The lamp set to so many hours, by its evening or by its morning."""
    say, span = view.say(hours, "h"), round(hours * 60)
    ends = (("evening", on, _clock(minute(on) + span)), ("morning", _clock(minute(off) - span), off))
    return tuple(
        Remedy(id=f"lamp-by-{end}", title=f"Set the lamp to {say} a day, from {a:%H:%M} to {b:%H:%M}, a quarter of an hour every few days.",
               effort=Effort.WEEKS, change=change.room(view.room.id, light_on=a, light_off=b),
               caution="Never shorten the day of a hen feeding young or of a bird in poor condition.")
        for end, a, b in ends
    )  # fmt: skip


def _clock(minutes: int) -> time:
    return time(minutes // 60 % 24, minutes % 60)
