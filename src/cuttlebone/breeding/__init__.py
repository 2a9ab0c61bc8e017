"""The breeding room: broods that are wished, and those that are not."""

from cuttlebone.breeding.kin import kin
from cuttlebone.breeding.ready import ready, too_young
from cuttlebone.breeding.wish import dummy_eggs, light, nests, unwished, wish_known
from cuttlebone.home.view import Check

CHECKS: tuple[Check, ...] = (wish_known, unwished, nests, kin, light, too_young, dummy_eggs, ready)  # type: ignore[type-arg]
