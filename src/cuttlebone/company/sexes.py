"""How many cocks to how many hens, and whether the sexes are known."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity
from cuttlebone.base.source import Cite
from cuttlebone.home import change, settle
from cuttlebone.home.birds import by_species, counted, listed, name_of, names_of, plural_of, species_of
from cuttlebone.home.model import Bird
from cuttlebone.home.view import BirdView, EnclosureView, Findings, cannot_tell, check

_BETTER, _MEND, _FINE = Severity.BETTER, Severity.MEND_SOON, Severity.FINE
_WHY = {
    "canary": "In the breeding season canary cocks fight, over hens above all; keepers report deaths.",
    "budgerigar": "Budgerigar hens fight over nest sites; with cocks to spare they are calmer.",
    "": "The sex in short supply is hunted or fought over; with too many hens eggs are dumped in others' nests. Even numbers or one sex keep the peace.",
}


def judge(species: str, cocks: int, hens: int) -> Severity:
    """How a company of one species stands, by its cocks and hens.

    Parameters
    ----------
    species : str
        Id of the species.
    cocks, hens : int
        How many of each.

    Returns
    -------
    Severity
        Fine for one sex or even sexes; budgerigars may have cocks over; canaries one cock where there are hens.

    Examples
    --------
    >>> judge("zebra_finch", 4, 2).value, judge("zebra_finch", 2, 2).value, judge("budgerigar", 3, 1).value
    ('mend soon', 'fine', 'fine')
    """
    if species == "canary":
        return _canary(cocks, hens)
    if not cocks or not hens:
        return _FINE
    if species == "budgerigar":
        return _MEND if hens > cocks * facts.rule("company.budgerigar_hens_per_cock").number else _FINE
    over = abs(cocks - hens)
    if over >= facts.rule("company.surplus").number:
        return _MEND
    return _BETTER if over else _FINE


def _canary(cocks: int, hens: int) -> Severity:
    if cocks <= facts.rule("company.canary_cocks_with_hens").number:
        return _FINE
    return _MEND if hens else _BETTER


def _cites(species: str) -> tuple[Cite, ...]:
    ids = {"canary": ("company.canary_cocks_with_hens",), "budgerigar": ("company.budgerigar_hens_per_cock",)}
    common = ("company.surplus", "company.equal_sexes", "company.hen_surplus_study")
    return tuple(facts.rule(rule).cite for rule in ids.get(species, common))


def _outcomes(species: str, group: tuple[Bird, ...]) -> set[Severity]:
    """What the company would be judged for every way the birds not sexed may turn out."""
    cocks, hens = (sum(b.sex == s for b in group) for s in ("cock", "hen"))
    unsexed = len(group) - cocks - hens
    return {judge(species, cocks + n, hens + unsexed - n) for n in range(unsexed + 1)}


def _company(group: tuple[Bird, ...]) -> str:
    parts = [
        (sum(b.sex == s for b in group), s or "bird not sexed", f"{s}s" if s else "birds not sexed")
        for s in ("cock", "hen", None)
    ]
    return listed([counted(n, one, many) for n, one, many in parts if n])


def _remedies(view: EnclosureView, group: tuple[Bird, ...]) -> tuple[Remedy, ...]:
    cocks, hens = [b for b in group if b.sex == "cock"], [b for b in group if b.sex == "hen"]
    if species_of(group[0]) == "canary":
        return _cocks_out(view, cocks)
    if len(cocks) + len(hens) < len(group) or not (cocks and hens):
        return ()
    rarer, over = sorted((cocks, hens), key=len)
    extra = sorted(over, key=lambda b: bool(b.bonded_with))[: len(over) - len(rarer)]
    found = [Remedy(
        id="one-sex-each", title=f"Move {names_of(rarer)} into a second cage: one sex in each.",
        change=settle.second_enclosure(view.enclosure.id, {b.id for b in rarer}), cost=Cost(80, 300), effort=Effort.A_DAY,
        caution="Keep birds that sit together together; watch both companies for the first days.",
    )] if len(rarer) > 1 else []  # fmt: skip
    if len(extra) > 1:
        found.append(Remedy(
            id="surplus-apart", title=f"Move {names_of(extra)} into a second cage, so that the sexes are even in the first.",
            change=settle.second_enclosure(view.enclosure.id, {b.id for b in extra}), cost=Cost(80, 300), effort=Effort.A_DAY,
            caution="Keep birds that sit together together; watch both companies for the first days.",
        ))  # fmt: skip
    new = [settle.companion(rarer[0], view.today) for _ in extra]
    found.append(Remedy(
        id="even-out", title=f"Add {counted(len(new), str(rarer[0].sex))}, so that the sexes are even.", change=settle.add_companions(*new),
        cost=Cost(15 * len(new), 80 * len(new)), effort=Effort.WEEKS, caution="Only after quarantine, and only where there is room.",
    ))  # fmt: skip
    return tuple(found)


def _cocks_out(view: EnclosureView, cocks: list[Bird]) -> tuple[Remedy, ...]:
    """A cage of his own for every canary cock beyond the first; one bonded to a hen stays."""
    extra = sorted(cocks, key=lambda b: not b.bonded_with)[int(facts.rule("company.canary_cocks_with_hens").number) :]
    many = len(extra) > 1
    return (Remedy(
        id="own-cage", title=f"Give {names_of(extra)} {'each ' if many else ''}a cage of his own, within hearing.", cost=Cost(80 * len(extra), 300 * len(extra)),
        effort=Effort.A_DAY, change=change.both(*(settle.second_enclosure(view.enclosure.id, {b.id}) for b in extra)),
    ),)  # fmt: skip


@check("company.sex_ratio", "Do the numbers of cocks and hens keep the peace?", "enclosure")
def sex_ratio(view: EnclosureView) -> Findings:
    """Compare cocks with hens within each species.

    Birds not sexed may be either: where that would change the verdict, it cannot be told.
    """
    groups = {k: g for k, g in by_species(view.birds).items() if len(g) > 1}
    if not groups or view.enclosure.purpose == "breeding":
        return
    ranked = sorted(groups.items(), key=lambda kg: (len(_outcomes(*kg)) > 1, min(s.rank for s in _outcomes(*kg))))
    worst, group = next((kg for kg in ranked if _outcomes(*kg) != {_FINE}), ranked[0])
    outcomes, kind = _outcomes(worst, group), facts.species(worst)
    cocks, hens = (sum(b.sex == s for b in group) for s in ("cock", "hen"))
    common: dict[str, Any] = {
        "why": _WHY.get(worst, _WHY[""]), "cites": _cites(worst), "soon": Soon.WEEKS,
        "steps": (Step(text="Cocks", result=Quantity(cocks, "")), Step(text="Hens", result=Quantity(hens, "")),
                  Step(text="Not sexed, counted as both", result=Quantity(len(group) - cocks - hens, ""))),
        "confidence": "" if worst == "canary" else "Common practice; studies speak for even sexes in breeding zebra finches only.",
    }  # fmt: skip
    text = f"{_company(group)[:1].upper()}{_company(group)[1:]} among the {plural_of(kind.name)}"
    if len(outcomes) > 1:
        unsexed = listed([name_of(b) for b in group if b.sex is None])
        yield cannot_tell(f"{text}: whether that keeps the peace cannot be told.",
                          measure=f"Find out the sex of {unsexed}: a feather sent for a DNA test is sure.", **common)  # fmt: skip
        return
    severity = outcomes.pop()
    if severity == _FINE:
        yield Finding(
            severity=severity,
            statement=f"{text}: a peaceful number."
            if len(groups) == 1
            else "Cocks and hens of each kind are in a peaceful number.",
            **common,
        )
    elif worst == "canary" and not hens:
        yield Finding(severity=severity, statement=f"{text}: watch them as the days grow longer, and have a second cage ready.",
                      remedies=_remedies(view, group), **common)  # fmt: skip
    else:
        yield Finding(severity=severity, statement=f"{text}: {'that makes trouble' if severity == _MEND else 'one is left over'}{_test_first(group)}.",
                      remedies=_remedies(view, group), **common)  # fmt: skip


def _test_first(group: tuple[Bird, ...]) -> str:
    """What comes before any move where a sex is not known."""
    unsexed = [b for b in group if b.sex is None]
    return f"; have {names_of(unsexed)} tested before you move or add any" if unsexed else ""


@check("company.sexing_known", "Is the sex of the bird known?", "bird")
def sexing_known(view: BirdView) -> Findings:
    """Ask for the sex, and how it is known: every rule about cocks and hens counts an unsexed bird as both."""
    bird = view.bird
    if bird.enclosure is None:
        return
    cites = (facts.rule("company.surplus").cite,)
    why = (
        "Who lives with whom, and whether there can be a brood, hangs on the sexes; until known, a bird counts as both."
    )
    called = name_of(bird)
    if bird.sex is None:
        yield cannot_tell(f"The sex of {called} is not known.", why=why, cites=cites,
                          measure="Send a feather for a DNA test, or ask the vet; song or an egg laid tells too.")  # fmt: skip
    elif bird.sexed_by == "guess":
        test = Remedy(id="dna", title=f"Have a feather of {called} tested.", change=change.bird(bird.id, sexed_by="dna"), cost=Cost(15, 40),
                      effort=Effort.WEEKS, caution="Ask the vet to take the feather.")  # fmt: skip
        yield Finding(
            severity=Severity.BETTER,
            statement=f"That {called} is a {bird.sex} is a guess.",
            why=why,
            cites=cites,
            remedies=(test,),
        )
    elif (
        bird.sexed_by is None
    ):  # plumage shows the sex of some kinds only, and not of all their colour forms or of the young
        yield cannot_tell(f"{called} is told to be a {bird.sex}; how that is known is not.", why=why, cites=cites,
                          measure="Say how it was sexed: by plumage, song, cere, an egg laid or a DNA test, or that it is a guess.")  # fmt: skip
    else:
        by = _SEXED.get(bird.sexed_by, bird.sexed_by)
        yield Finding(severity=Severity.FINE, statement=f"{called} is a {bird.sex}, by {by}.", why=why, cites=cites)


_SEXED = {"dna": "DNA test", "cere": "the colour of the cere", "egg laid": "an egg laid"}
