"""The climate room."""

from cuttlebone.home.view import Check

CHECKS: tuple[Check, ...] = ()  # type: ignore[type-arg]
