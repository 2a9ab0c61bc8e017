"""An invented answer with every kind of finding in it, for the papers and pictures; it holds whatever the rooms say besides."""

from datetime import date

from cuttlebone.assess.answer import Answer, TriedRemedy
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, RuleLine, Severity, Soon, Step, Subject, Verdict
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import CHOICE, PRACTICE, Cite, How
from cuttlebone.home.model import Opening, Room, Thing, Window
from tests.good_home import GOOD, ROOM

TODAY = date(2026, 11, 25)
HOSTILE = "Pip </title><script>alert(1)</script> & \"co\" 'x' \x07"
READ = Cite("avonet-2022", How.READ, "species table")
MEMORY = Cite("our-notes", How.MEMORY)

STUDY = Room(
    id="study", name="Study", kind="study", length_cm=330, width_cm=290, height_cm=250,
    windows=(Window(wall="left", starts_cm=90, width_cm=120, sill_cm=80, head_cm=210, bearing_deg=200, blind=False),),
    openings=(Opening(to="sitting-room", wall="right", starts_cm=30, width_cm=80, usually_open=True),),
    things=(Thing(id="candles", kind="scented_candle", x_cm=300, y_cm=270, used=True), Thing(id="cat", kind="cat"),
            Thing(id="iron", kind="iron", x_cm=40, y_cm=30, used=False)),
)  # fmt: skip
SMALL = GOOD.enclosures[0].but(
    id="box", name="The box", room="study", x_cm=120.0, y_cm=10.0, faces="top", length_cm=60.0, width_cm=40.0, height_cm=45.0,
    base_height_cm=None, perches=GOOD.enclosures[0].perches[:1], dishes=None, doors=(), bar_gap_mm=14.0,
)  # fmt: skip
UNKNOWN = SMALL.but(id="new", name="The new cage", length_cm=None, x_cm=None)
HOME = GOOD.but(
    name="Nine birds " + HOSTILE,
    rooms=(
        ROOM.but(openings=(Opening(to="study", wall="right", starts_cm=20, width_cm=90, usually_open=True),)),
        STUDY,
    ),
    enclosures=(*GOOD.enclosures, SMALL, UNKNOWN),
    birds=(*GOOD.birds, GOOD.birds[0].but(id="gus", name=HOSTILE, species="budgerigar", enclosure="box", ring=None)),
)

BOX = Subject(kind="enclosure", id="box", name="The box")
FLIGHT = Subject(kind="enclosure", id="flight", name="The flight")
ROOM_ = Subject(kind="room", id="study", name="Study")
GUS = Subject(kind="bird", id="gus", name=HOSTILE)
ALL = Subject(kind="household", id="household", name=HOME.name)


def same(home):
    """A change that changes nothing."""
    return home


WIDER = Remedy(id="wider", title="Move the birds to a cage of at least 80 cm.", change=same, cost=Cost(60, 140), effort=Effort.AN_HOUR,
               caution="Move them in the morning, so that they find food and water before dark.")  # fmt: skip
SWAP = Remedy(id="swap", title="Use the large flight instead.", change=same)
RULES = (
    RuleLine(
        rule="somewhere-else",
        name="A guide of another country",
        verdict=Verdict.MEETS,
        says="40 cm long for a pair",
        weight="guidance",
        cite=MEMORY,
    ),
    RuleLine(
        rule="no-round",
        name="A rule without a number",
        verdict=Verdict.NO_NUMBER,
        says="room to fly",
        weight="advice",
        cite=PRACTICE,
    ),
    RuleLine(
        rule="short",
        name="A research house figure",
        verdict=Verdict.SHORT,
        says="100 cm long",
        weight="not for homes",
        cite=READ,
    ),
)
STEPS = (
    Step(text="Length inside", result=Quantity(60, "cm")),
    Step(text="Body length of the largest bird", result=Quantity(18, "cm"), cite=MEMORY),
    Step(text="Usable straight flight", equation="length - 2 x clearance", result=Quantity(42, "cm"), cite=CHOICE),
)

FINDINGS = (
    Finding(check="climate.fumes", room="climate", title="Can fumes reach the birds?", subject=ROOM_, severity=Severity.ACT_NOW, soon=Soon.HOURS,
            statement="Scented candles burn in the study where birds live.", why="Smoke and scent harm the lungs of small birds.",
            cites=(READ, CHOICE), caution="Open flames burn houses down too: put them out when you leave the room.",
            remedies=(Remedy(id="out", title="Burn no candles in this home.", change=same),)),
    Finding(check="housing.length", room="housing", title="Is it long enough to fly?", subject=BOX, severity=Severity.MEND_SOON, soon=Soon.WEEKS,
            statement="The box is 60 cm long; 80 cm is the least for these birds.", why="Small birds fly level; a short cage gives hops.",
            measured=Quantity(60, "cm"), limit=Span(low=80, unit="cm"), cites=(MEMORY, READ), steps=STEPS, rules=RULES,
            confidence="The limit is from memory.", remedies=(WIDER, SWAP)),
    Finding(check="housing.perches", room="housing", title="Do the perches fit the feet?", subject=BOX, severity=Severity.MEND_SOON,
            statement="One perch is all there is.", why="Feet need a change of thickness.", cites=(PRACTICE,)),
    Finding(check="housing.perches", room="housing", title="Do the perches fit the feet?", subject=BOX, severity=Severity.BETTER,
            statement="The perch left is thinner than a foot likes.", why="Toes should not meet.", cites=(PRACTICE, MEMORY),
            measured=Quantity(7, "mm"), limit=Span(9, 13, "mm")),
    Finding(check="company.alone", room="company", title="Does it live alone?", subject=GUS, severity=Severity.BETTER, soon=Soon.MONTHS,
            statement=f"{HOSTILE} lives alone.", why="Flock birds want company.", cites=(Cite("our-choice", How.CHOICE),)),
    Finding(check="housing.base", room="housing", title="Does it stand high enough?", subject=BOX, severity=Severity.CANNOT_TELL,
            statement="How high the box stands is not known.", why="Birds feel safe above the waist.", cites=(CHOICE,),
            measure="Measure from the room floor to the cage floor."),
    Finding(check="health.weight", room="health", title="Is its weight known?", subject=GUS, severity=Severity.CANNOT_TELL,
            statement=f"The weight of {HOSTILE} is not known.", why="A falling weight is the first sign.", cites=(READ,),
            measure="Weigh it in a small box on a gram scale, in the morning.", caution="If it sits fluffed up, call an avian vet first."),
    Finding(check="housing.bar_gap", room="housing", title="Can a head pass?", subject=FLIGHT, severity=Severity.FINE,
            statement="The gaps of 10 mm keep every head inside.", why="The smallest head decides.", measured=Quantity(10, "mm"),
            limit=Span(high=10, unit="mm"), cites=(READ,), steps=STEPS[:1]),
    Finding(check="routine.hands", room="routine", title="Are there hands enough?", subject=ALL, severity=Severity.FINE,
            statement="The daily work fits the people there are.", why="Work that is too much is left undone.", cites=(CHOICE,)),
)  # fmt: skip

LENGTH = FINDINGS[1].id
SAMPLE = Answer(
    household=HOME,
    on=TODAY,
    findings=FINDINGS,
    remedies={
        LENGTH: (
            TriedRemedy(
                remedy=SWAP,
                finding=LENGTH,
                clears=(LENGTH, FINDINGS[2].id, FINDINGS[5].id),
                eases=(),
                causes=(),
                works=True,
            ),
            TriedRemedy(remedy=WIDER, finding=LENGTH, clears=(LENGTH,), eases=(FINDINGS[4].id,), causes=(), works=True),
        ),
        FINDINGS[0].id: (
            TriedRemedy(
                remedy=FINDINGS[0].remedies[0],
                finding=FINDINGS[0].id,
                clears=(FINDINGS[0].id,),
                eases=(),
                causes=(),
                works=True,
            ),
        ),
    },
)
EMPTY = Answer(household=HOME.but(name="Empty", rooms=None, enclosures=None, birds=None), on=TODAY, findings=())
