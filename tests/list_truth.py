"""``make truth``: every check against the outside, by room and kind, with its source."""

import contextlib
import io
import sys
from collections import Counter, defaultdict
from pathlib import Path

import pytest

from cuttlebone import facts
from tests.conftest import OUTSIDE

KINDS = {"published": "published value", "reference_library": "independent library", "common_practice": "common practice, no published source",
         "from_memory": "recalled, not read"}  # fmt: skip


class Collected:
    """Keeps what pytest collects."""

    def __init__(self):
        self.rows = defaultdict(list)

    def pytest_collection_finish(self, session):
        for item in session.items:
            for mark in item.iter_markers():
                if mark.name in OUTSIDE:
                    room = Path(item.fspath).stem.removeprefix("test_").partition("_")[0]
                    self.rows[room].append(
                        (mark.name, mark.kwargs.get("source", ""), mark.kwargs.get("where", ""), item.name)
                    )


def main() -> int:
    """Print the list."""
    collected = Collected()
    with contextlib.redirect_stdout(io.StringIO()):
        code = pytest.main(["--collect-only", "-q", "-p", "no:randomly", "tests"], plugins=[collected])
    total: Counter[str] = Counter()
    for room, rows in sorted(collected.rows.items()):
        print(f"\n{room.upper()}")
        for kind in OUTSIDE:
            mine = [r for r in rows if r[0] == kind]
            total[kind] += len(mine)
            by_source = defaultdict(list)
            for _, source, where, name in mine:
                by_source[source].append((where, name))
            if mine:
                print(f"  {KINDS[kind]}: {len(mine)}")
            for source, uses in sorted(by_source.items()):
                known = facts.sources().get(source)
                print(f"    {len(uses):4}  {known.citation if known else source}")
                for where in sorted({w for w, _ in uses if w})[:6]:
                    print(f"            {where}")
    print("\nIN ALL: " + ", ".join(f"{n} {KINDS[k]}" for k, n in total.items()))
    return int(code)


if __name__ == "__main__":
    sys.exit(main())
