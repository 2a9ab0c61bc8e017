"""What lies on the cage floor, and cleaning one half while the birds wait in the other."""

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon
from cuttlebone.home import change
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check

_GOOD = {"newspaper", "paper"}
_BAD = {
    "corn cob": "moulds when damp and swells in a crop",
    "cat litter": "dusts, clumps and swells in a crop",
    "soil": "holds moulds and worm eggs and can hardly be cleaned",
}
_MIDDLING = {
    "bird sand": "hides droppings and gets under the tray",
    "wood shavings": "dust and hide droppings",
    "bare": "lets droppings dry onto the tray",
}


@check("hygiene.substrate", "Is what lies on the cage floor clean and harmless?", "enclosure")
def substrate(view: EnclosureView) -> Findings:
    """Plain paper shows droppings and is quickly changed; what moulds, dusts or swells is not for a cage."""
    if not view.birds:
        return
    cage, cites = view.enclosure, (facts.rule("hygiene.plain_paper").cite,)
    why = "Plain paper is changed in a minute and shows each bird's droppings, the first sign of illness."
    if cage.substrate is None:
        yield cannot_tell(
            "What lies on the cage floor is not known.",
            measure="Look into the tray: paper, sand, shavings, or something else?",
            why=why,
            cites=cites,
        )
        return
    paper = Remedy(id="paper", title="Line the tray with plain paper, several sheets, and take one off each day.", effort=Effort.MINUTES, cost=Cost(0, 5),
                   change=change.enclosure(cage.id, substrate="newspaper"), caution="Give grit or sand for the gizzard, where the species takes it, in a dish.")  # fmt: skip
    said = cage.substrate.capitalize() if cage.substrate != "bare" else "A bare floor"
    if cage.substrate in _GOOD:
        yield Finding(severity=Severity.FINE, statement=f"{said} lines the cage floor.", why=why, cites=cites)
    elif cage.substrate in _BAD:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"{said} on the cage floor {_BAD[cage.substrate]}.", why=why, cites=cites,
                      remedies=(paper,), confidence="Common practice.")  # fmt: skip
    else:
        yield Finding(severity=Severity.BETTER, statement=f"{said} on the cage floor {_MIDDLING[cage.substrate]}." if cage.substrate != "bare" else f"{said} {_MIDDLING['bare']}.",
                      why=why, cites=cites, remedies=(paper,), confidence="Common practice.")  # fmt: skip


@check("hygiene.half_by_half", "Can one half be cleaned while the birds stay calm in the other?", "enclosure")
def half_by_half(view: EnclosureView) -> Findings:
    """A partition lets the birds wait in one half while the other is washed, without catching them."""
    if not view.birds:
        return
    cage, cites = view.enclosure, (facts.rule("hygiene.half_by_half").cite,)
    why = "Catching birds for every wash frightens them; with a partition they wait in one half, and what is washed may dry in peace."
    if cage.partition is None:
        yield cannot_tell(
            "Whether the cage can be parted is not known.",
            measure="Look for a slot in the middle of the roof or a wire or solid slide.",
            why=why,
            cites=cites,
        )
    elif cage.partition:
        yield Finding(
            severity=Severity.FINE,
            statement="A partition lets one half be cleaned while the birds wait in the other.",
            why=why,
            cites=cites,
        )
    else:
        yield Finding(
            severity=Severity.BETTER, statement="There is no partition, so the birds must be caught or disturbed for every full wash.", why=why, cites=cites,
            remedies=(Remedy(id="partition", title="Fit a slide or partition in the middle of the cage.", cost=Cost(8, 30), effort=Effort.AN_HOUR,
                             change=change.enclosure(cage.id, partition=True),
                             caution="No gap beside it that a head or toe fits into. For disinfectants the birds leave the room all the same."),),
        )  # fmt: skip
