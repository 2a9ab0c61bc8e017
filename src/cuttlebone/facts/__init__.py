"""Facts from the literature: species, foods, standards, hazards, cleaning agents, rules; each with its source.

The only place for numbers from outside. Everything is read lazily, validated at load, and never changed.

>>> from cuttlebone import facts
>>> str(facts.species("zebra_finch").fact("mass_g"))
'12 g (10 to 25)'
"""

from cuttlebone.facts.load import (
    agent,
    entries,
    find,
    food,
    hazard,
    kinds,
    known_food,
    rule,
    search,
    source,
    sources,
    species,
    standard,
)
from cuttlebone.facts.schema import Entry, Fact

__all__ = [
    "Entry",
    "Fact",
    "agent",
    "entries",
    "find",
    "food",
    "hazard",
    "kinds",
    "known_food",
    "rule",
    "search",
    "source",
    "sources",
    "species",
    "standard",
]
