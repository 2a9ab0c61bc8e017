"""The vet to call, and what to have at hand for a bird that is unwell."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon
from cuttlebone.base.source import PRACTICE
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import Kit, Vet
from cuttlebone.home.view import Findings, HouseholdView, cannot_tell, check

_NONE = {"", "none", "no", "-"}
_FIND = "Ring round now, before you need it: ask which practice nearby sees small birds, and who answers at night. Write the numbers by the cage."


def _told_none(text: str | None) -> bool:
    """Whether the keeper wrote that there is none (and not merely nothing)."""
    return text is not None and text.strip().casefold() in _NONE


def _knows_none(vet: Vet | None) -> bool:
    """Whether all that is told of a vet is that there is none for birds."""
    return vet is not None and vet.avian is False and not vet.name and (vet.phone is None or _told_none(vet.phone))


def _vet(**fields: Any) -> Change:
    return lambda home: home.but(vet=(home.vet or Vet()).but(**fields))


def _common() -> dict[str, Any]:
    return {"why": "A small bird can worsen within hours; the call must not begin with a search.", "soon": Soon.DAYS,
            "cites": (facts.rule("health.vet").cite, facts.rule("health.phone_now").cite)}  # fmt: skip


@check("health.vet_known", "Is the vet's number known before it is needed?", "household")
def vet_known(view: HouseholdView) -> Findings:
    """Ask for the practice and its telephone number."""
    if not view.companies:
        return
    vet = view.home.vet
    if _knows_none(vet):
        find = Remedy(id="find-vet", title="Find a vet who treats birds and write the number by the cage.", change=_vet(avian=True, phone="by the cage"),
                      effort=Effort.AN_HOUR)  # fmt: skip
        yield Finding(
            severity=Severity.MEND_SOON, statement="You know no vet who treats birds.", remedies=(find,), **_common()
        )
    elif vet is not None and _told_none(vet.phone):
        found = Remedy(
            id="find-vet",
            title="Find an avian vet and write the number by the cage.",
            change=_vet(phone="by the cage"),
            effort=Effort.AN_HOUR,
        )
        yield Finding(
            severity=Severity.MEND_SOON, statement="There is no vet's number to call.", remedies=(found,), **_common()
        )
    elif vet is None or vet.phone is None:
        yield cannot_tell("Which vet to call, and on what number, is not told.", measure=_FIND, **_common())
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"The vet's number is known: {vet.name or 'the practice'}, {vet.phone}.",
            **_common(),
        )


@check("health.vet_avian", "Does the vet know birds?", "household")
def vet_avian(view: HouseholdView) -> Findings:
    """Ask whether the practice treats birds: few do."""
    if not view.companies or view.home.vet is None or _knows_none(view.home.vet):  # which vet there is comes first
        return
    common = {
        **_common(),
        "why": "Birds' bodies and medicines differ from those of cats and dogs; few practices see birds of 12 g.",
    }
    avian = view.home.vet.avian
    if avian is None:
        yield cannot_tell(
            "Whether the vet treats birds is not told.",
            measure="Ask the practice how many small birds it sees, and who it sends them to.",
            **common,
        )
    elif avian:
        yield Finding(severity=Severity.FINE, statement="The vet treats birds.", **common)
    else:
        find = Remedy(
            id="avian-vet",
            title="Find a vet who treats birds, and keep the near one for first help.",
            change=_vet(avian=True),
            effort=Effort.AN_HOUR,
        )
        yield Finding(
            severity=Severity.MEND_SOON, statement="The vet does not treat birds.", remedies=(find,), **common
        )


@check("health.out_of_hours", "Is it known whom to call at night and on Sundays?", "household")
def out_of_hours(view: HouseholdView) -> Findings:
    """Ask for the number that answers when the practice is shut."""
    if not view.companies:
        return
    number = view.home.vet.out_of_hours if view.home.vet else None
    if _told_none(number):
        find = Remedy(
            id="night-number",
            title="Ask your vet who answers at night, and write the number by the cage.",
            change=_vet(out_of_hours="by the cage"),
        )
        yield Finding(
            severity=Severity.MEND_SOON,
            statement="There is nobody to call at night or on a Sunday.",
            remedies=(find,),
            **_common(),
        )
    elif number is None:
        yield cannot_tell(
            "Whom to call out of hours is not told.",
            measure="Ask the practice, or listen to its answering machine tonight.",
            **_common(),
        )
    else:
        yield Finding(severity=Severity.FINE, statement=f"Out of hours: {number}.", **_common())


def _has(view: HouseholdView, kind: str, purpose: str = "") -> bool:
    kit = any(k.kind == kind and k.count != 0 for k in view.home.kit or ())
    return kit or (bool(purpose) and any(e.purpose == purpose for e in view.home.enclosures or ()))


@check("health.hospital_cage", "Is there a small warm cage for a bird that is unwell?", "household")
def hospital_cage(view: HouseholdView) -> Findings:
    """Look for a hospital cage; a spare cage will do for the first hours."""
    if not view.companies:
        return
    common: dict[str, Any] = {
        "why": "A bird that is unwell needs quiet and warmth at one end, with food and water it can reach without flying.", "soon": Soon.DAYS,
        "cites": (facts.rule("health.hospital_cage").cite,), "caution": "First help only; call an avian vet. Heat needs a thermostat, a guard and a cool end.",
    }  # fmt: skip
    if _has(view, "hospital cage", "hospital"):
        yield Finding(severity=Severity.FINE, statement="There is a hospital cage.", **common)
    elif view.home.kit is None:
        yield cannot_tell(
            "Whether there is a hospital cage is not told.",
            measure="Look for a small cage with low perches that can be kept warm at one end.",
            **common,
        )
    else:
        spare = _has(view, "spare cage", "spare")
        get = Remedy(id="hospital-cage", title="Set up a small cage with low perches that can be kept warm at one end.", cost=Cost(30, 120), effort=Effort.AN_HOUR,
                     change=change.kit(Kit(kind="hospital cage", count=1)))  # fmt: skip
        text = (
            "There is no hospital cage, only a spare one." if spare else "There is no cage for a bird that is unwell."
        )
        yield Finding(
            severity=Severity.BETTER if spare else Severity.MEND_SOON, statement=text, remedies=(get,), **common
        )


@check("health.carry_box", "Is there a box to carry a bird to the vet?", "household")
def carry_box(view: HouseholdView) -> Findings:
    """Look for a carry box."""
    if not view.companies:
        return
    common: dict[str, Any] = {"why": "Without a box the way to the vet begins with a search; the bird's own small cage serves as well.", "soon": Soon.DAYS,
                              "cites": (facts.rule("health.carry_box").cite, PRACTICE)}  # fmt: skip
    if _has(view, "carry box"):
        yield Finding(severity=Severity.FINE, statement="There is a carry box.", **common)
    elif view.home.kit is None:
        yield cannot_tell(
            "Whether there is a carry box is not told.",
            measure="Look for a small, dark, airy box with a perch or a cloth on its floor.",
            **common,
        )
    else:
        get = Remedy(
            id="carry-box",
            title="Get a small carry box and keep it by the door.",
            change=change.kit(Kit(kind="carry box", count=1)),
            cost=Cost(5, 25),
        )
        yield Finding(
            severity=Severity.MEND_SOON,
            statement="There is no box to carry a bird to the vet.",
            remedies=(get,),
            **common,
        )
