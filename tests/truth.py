"""How tests name the outside source of an expected value, and the list that `make truth` prints.

Put the mark beside the value::

    @pytest.mark.parametrize(("gap", "verdict"), [
        case(31.8, "act now", mark=practice()),
        case(12.7, 0.80, mark=published("nsw-school-birds", "table 2")),
    ])
"""

from typing import Any

import pytest


def published(source: str, where: str = "") -> pytest.MarkDecorator:
    """The value is printed in a published source (an id of the facts' sources)."""
    return pytest.mark.published(source=source, where=where)


def reference(library: str, where: str = "") -> pytest.MarkDecorator:
    """The value comes from an independent library, asked in the test."""
    return pytest.mark.reference_library(source=library, where=where)


def practice(where: str = "") -> pytest.MarkDecorator:
    """Common practice, no published source."""
    return pytest.mark.common_practice(source="common-practice", where=where)


def memory(source: str, where: str = "") -> pytest.MarkDecorator:
    """The value was recalled, not read."""
    return pytest.mark.from_memory(source=source, where=where)


def case(*values: Any, mark: pytest.MarkDecorator, id: str | None = None) -> Any:
    """One parameter set with the mark of its source."""
    return pytest.param(*values, marks=mark, id=id)
