"""What spoils the breeding of the good home."""

from cuttlebone.home.change import Change
from tests.spoilers import Spoil

SPOILERS: dict[str, tuple[Spoil, ...]] = {}

UNKNOWN: dict[str, Change] = {}
