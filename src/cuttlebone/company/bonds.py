"""Birds that fight, and birds that belong together."""

from itertools import combinations
from typing import Any

from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon
from cuttlebone.base.source import PRACTICE
from cuttlebone.home import settle
from cuttlebone.home.birds import name_of, names_of, species_of, tally
from cuttlebone.home.model import Bird
from cuttlebone.home.view import EnclosureView, Findings, HouseholdView, cannot_tell, check


def _partner(view: EnclosureView, bird: Bird, foes: set[str]) -> Bird | None:
    """Whom to send along with a bird: its bonded mate, or else one of its kind and sex it does not fight."""
    friends = [b for b in view.birds if b.id not in foes and b is not bird and species_of(b) == species_of(bird)]
    mates = [b for b in friends if b.id in (bird.bonded_with or ())]
    same = [b for b in friends if b.sex == bird.sex and not b.bonded_with]
    return next(iter(mates + same + friends), None)


def _separate(view: EnclosureView, a: Bird, b: Bird) -> tuple[Remedy, ...]:
    found = []
    for one, other in ((a, b), (b, a)):
        foes = {other.id, *(one.quarrels_with or ()), *(x.id for x in view.birds if one.id in (x.quarrels_with or ()))}
        if friend := _partner(view, one, foes):
            found.append(Remedy(
                id=f"apart-{one.id}", title=f"Move {names_of((one, friend))} into a second cage.", cost=Cost(80, 300),
                effort=Effort.A_DAY, change=settle.second_enclosure(view.enclosure.id, {one.id, friend.id}),
                caution="If there is blood, part them now and call an avian vet.",
            ))  # fmt: skip
    return tuple(found)


@check("company.quarrels", "Do any birds here fight?", "enclosure")
def quarrels(view: EnclosureView) -> Findings:
    """Look for birds that are told to quarrel and live in the same enclosure."""
    if len(view.birds) < 2:
        return
    why = "In a cage the weaker bird cannot get away; it is kept from food and can be hurt."
    foes = next(
        (
            (a, b)
            for a, b in combinations(view.birds, 2)
            if b.id in (a.quarrels_with or ()) or a.id in (b.quarrels_with or ())
        ),
        None,
    )
    if foes:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, statement=f"{names_of(foes)} quarrel and live in one cage.", why=why, cites=(PRACTICE,),
                      remedies=_separate(view, *foes), caution="Blood, a limp or a bird on the floor: part them at once and call an avian vet.")  # fmt: skip
        return
    untold = [b for b in view.birds if b.quarrels_with is None]
    if untold:
        yield cannot_tell(f"Whether {names_of(untold)} quarrels with any other is not told." if len(untold) == 1 else f"Whether {names_of(untold)} quarrel with others is not told.",
                          measure="Sit out of the way for a quarter of an hour at feeding time and note who chases whom.", why=why, cites=(PRACTICE,))  # fmt: skip
        return
    yield Finding(severity=Severity.FINE, statement="No birds here are known to quarrel.", why=why, cites=(PRACTICE,))


@check("company.bonded_apart", "Does each bird live with the one it holds to?", "household")
def bonded_apart(view: HouseholdView) -> Findings:
    """Look for birds whose bonded mate lives in another enclosure."""
    told, birds = {b.id: b for b in view.home.birds or ()}, {b.id: b for b in view.home.birds or () if b.enclosure}
    if not birds:
        return
    common: dict[str, Any] = {"why": "Finches and budgerigars hold to one partner, of either sex; parted, they call and eat less.", "cites": (PRACTICE,),
                              "soon": Soon.WEEKS}  # fmt: skip
    apart = [
        (b, birds[m])
        for b in birds.values()
        for m in b.bonded_with or ()
        if m in birds and birds[m].enclosure != b.enclosure
    ]
    untold = [b for b in birds.values() if b.bonded_with is None and len(birds) > 1]
    away = [told[m] for b in birds.values() for m in b.bonded_with or () if m in told and m not in birds]
    away += [
        b for b in told.values() if b.id not in birds and b not in away and any(m in birds for m in b.bonded_with or ())
    ]
    if apart:
        purposes = {e.id: e.purpose for e in view.home.enclosures or ()}
        pair = next((p for p in apart if not any(purposes.get(b.enclosure or "") in _APART for b in p)), apart[0])
        must = any(purposes.get(b.enclosure or "") in _APART for b in pair)
        tail = " while one must be apart: let them see or hear each other" if must else ""
        yield Finding(severity=Severity.BETTER, statement=f"{names_of(pair)} hold to each other and live in two cages{tail}.",
                      measured=tally(len({frozenset((a.id, b.id)) for a, b in apart}), "pair apart", "pairs apart"), remedies=() if must else _together(*pair), **common)  # fmt: skip
    elif untold:
        yield cannot_tell(f"Whom {names_of(untold)} {'holds' if len(untold) == 1 else 'hold'} to is not told.", **common,
                          measure="Look at dusk which birds sit touching, and which preen each other; none is an answer too.")  # fmt: skip
    elif away:
        one = len(dict.fromkeys(b.id for b in away)) == 1
        yield cannot_tell(f"Where {names_of({b.id: b for b in away}.values())} {'lives, to which another holds,' if one else 'live, to which others hold,'} is not told.",
                          measure="Write the enclosure beside the bird; if it is gone, take it out of what its mate holds to.", **common)  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement="No bird is parted from the one it holds to.", **common)


_APART = ("hospital", "quarantine")


def _together(a: Bird, b: Bird) -> tuple[Remedy, ...]:
    return tuple(
        Remedy(id=f"together-{one.id}", title=f"Put {name_of(one)} in with {name_of(other)}.", change=settle.join(one.id, with_bird=other.id),
               caution="In the morning, and watch them.")
        for one, other in ((a, b), (b, a))
    )  # fmt: skip
