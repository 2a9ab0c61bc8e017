"""Where each bird lives, and where one could go in an emergency."""

from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon
from cuttlebone.base.quantity import Quantity
from cuttlebone.base.source import PRACTICE
from cuttlebone.home import change
from cuttlebone.home.birds import names_of, tally
from cuttlebone.home.model import Kit
from cuttlebone.home.view import Findings, HouseholdView, cannot_tell, check


def spare_places(view: HouseholdView) -> int:
    """Empty enclosures and spare cages a bird could be put into at once."""
    empty: int = sum(e.purpose == "spare" and e.id not in view.companies for e in view.home.enclosures or ())
    spare: int = sum(1 if k.count is None else k.count for k in view.home.kit or () if k.kind == "spare cage")
    return empty + spare


@check("company.spare_enclosure", "Is there somewhere to put a bird in an emergency?", "household")
def spare_enclosure(view: HouseholdView) -> Findings:
    """Count empty cages: a fight, an illness or a broken door needs one within minutes."""
    if not view.companies:
        return
    why = "A fight, a broken cage or an illness will not wait until a shop opens."
    n = spare_places(view)
    if n:
        yield Finding(
            severity=Severity.FINE,
            statement="There is a spare cage for an emergency.",
            why=why,
            cites=(PRACTICE,),
            measured=tally(n, "cage"),
        )
    elif view.home.kit is None:
        yield cannot_tell("Whether there is a spare cage is not told.", measure="Look for a cage, complete and clean, that stands empty.",
                          why=why, cites=(PRACTICE,))  # fmt: skip
    else:
        buy = Remedy(id="spare-cage", title="Keep one simple cage ready, with perches and dishes.", change=change.kit(Kit(kind="spare cage", count=1)),
                     cost=Cost(25, 70), effort=Effort.AN_HOUR, caution="Stainless or sound powder-coated bars; no secondhand cage without washing.")  # fmt: skip
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement="There is no spare cage for an emergency.", why=why, cites=(PRACTICE,),
                      measured=Quantity(0, "cages"), remedies=(buy,))  # fmt: skip


@check("company.housed", "Is it told where every bird lives?", "household")
def housed(view: HouseholdView) -> Findings:
    """Look for birds without an enclosure; those named as parents may have died or gone, the others would be overlooked."""
    birds = view.home.birds
    if birds is None:
        yield cannot_tell("Which birds live here is not told.", why="Nearly everything follows from who they are.", cites=(PRACTICE,),
                          measure="List each bird with its species, its sex if you know it, and the cage it lives in.")  # fmt: skip
        return
    if not birds:
        return
    parents = {p for b in birds for p in (b.sire, b.dam) if p}
    lost = [b for b in birds if b.enclosure is None and b.id not in parents]
    why = "A bird whose cage is not told is left out of nearly every question."
    if lost:
        yield cannot_tell(f"Where {names_of(lost)} live{'s' if len(lost) == 1 else ''} is not told.",
                          measure="Write the enclosure beside the bird, or take the bird out of the file.", why=why, cites=(PRACTICE,))  # fmt: skip
        return
    yield Finding(severity=Severity.FINE, statement="Every living bird has its cage told.", why=why, cites=(PRACTICE,))
