"""Shared by all tests."""

import pytest

from cuttlebone import facts

OUTSIDE = ("published", "reference_library", "common_practice", "from_memory")


def pytest_collection_modifyitems(items):
    """Every outside check must name a source the facts know (or a reference library)."""
    for item in items:
        for mark in item.iter_markers():
            if mark.name in OUTSIDE:
                name = mark.kwargs.get("source", "")
                if mark.name != "reference_library" and name not in facts.sources():
                    raise pytest.UsageError(f"{item.nodeid}: source {name!r} is not in the facts' sources")
