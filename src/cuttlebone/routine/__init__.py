"""The routine: who does what, when, and who is in the house."""

from cuttlebone.home.view import Check
from cuttlebone.routine.rota import round_fits, sitter_known, who
from cuttlebone.routine.times import evening_look, longest_gap, morning_feed

CHECKS: tuple[Check, ...] = (  # type: ignore[type-arg]
    who,
    round_fits,
    sitter_known,
    morning_feed,
    evening_look,
    longest_gap,
)
