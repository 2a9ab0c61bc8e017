"""``make bench``: how long things take, each as a ratio to a named baseline of the same run.

Ratios travel between machines; seconds do not. Every figure is the median of several runs, baseline and subject in turn.
"""

import json
import statistics
import subprocess
import sys
import time
import tomllib
from collections.abc import Callable
from datetime import date
from importlib import resources

from cuttlebone import facts
from cuttlebone.assess import assess
from cuttlebone.cli.demo_cmd import larkfield
from cuttlebone.facts import load
from cuttlebone.home.file import parse_home
from cuttlebone.home.model import Household
from cuttlebone.home.writing import home_text

DAY = date(2026, 11, 25)


def paired(subject: Callable[[], object], baseline: Callable[[], object], runs: int = 7) -> tuple[float, float]:
    """Median seconds of both, run in turn."""
    times: tuple[list[float], list[float]] = ([], [])
    for _ in range(runs):
        for index, run in enumerate((subject, baseline)):
            start = time.perf_counter()
            run()
            times[index].append(time.perf_counter() - start)
    return statistics.median(times[0]), statistics.median(times[1])


def line(what: str, subject: float, baseline: float, named: str, aim: str = "") -> None:
    """Print one figure."""
    print(f"{what:58} {subject * 1000:9.1f} ms   {subject / baseline:8.2f} x {named}{'   aim: ' + aim if aim else ''}")


def large(birds: int) -> Household:
    """A home of so many birds: Larkfield's nine, and flights of eight zebra finches, five flights to a room."""
    home = parse_home(larkfield())
    rooms, cages, flock = list(home.rooms or ()), list(home.enclosures or ()), list(home.birds or ())
    room, cage, bird = rooms[2], cages[2], flock[0].but(sire=None, dam=None, bonded_with=(), quarrels_with=())
    for n in range((birds - len(flock) + 7) // 8):
        if n % 5 == 0:
            rooms.append(room.but(id=f"room-{n // 5}", name=f"Bird room {n // 5 + 1}", length_cm=900.0, width_cm=500.0))
        cages.append(cage.but(id=f"flight-{n}", name=f"Flight {n + 1}", room=f"room-{n // 5}", x_cm=20.0 + 170 * (n % 5), y_cm=10.0,
                              length_cm=160.0, purpose="home"))  # fmt: skip
        flock += [bird.but(id=f"bird-{n}-{i}", name=None, ring=f"{n}-{i}", enclosure=f"flight-{n}") for i in range(8)]
    return home.but(rooms=tuple(rooms), enclosures=tuple(cages), birds=tuple(flock[:birds]))


def start_up() -> None:
    """Start-up of the command."""
    command = [sys.executable, "-m", "cuttlebone.cli", "--help"]
    bare = [sys.executable, "-c", "pass"]
    mine, base = paired(
        lambda: subprocess.run(command, capture_output=True, check=True),
        lambda: subprocess.run(bare, capture_output=True, check=True),
        15,
    )
    line("cuttlebone --help", mine, base, "python -c pass", "under 4")


def facts_load() -> None:
    """Reading and validating all facts."""
    folder = resources.files("cuttlebone.facts") / "data"
    texts = [(p.name, p.read_text(encoding="utf-8")) for p in folder.iterdir() if p.name.endswith((".toml", ".csv"))]

    def all_facts() -> None:
        for cached in (load.sources, load.entries, load.find):
            cached.cache_clear()
        for kind in facts.kinds():
            facts.entries(kind)

    def parse_only() -> None:
        for name, text in texts:
            load.parse_file(name, text)

    line("load and validate all facts", *paired(all_facts, parse_only), "only parsing the same files")


def assessments() -> None:
    """Assessing small and large households, with and without trying remedies."""
    seconds: dict[int, tuple[float, float]] = {}
    for wanted in (9, 75, 150, 300):
        home = large(wanted)
        text = home_text(home)
        birds = len(home.birds or ())
        read, parse = paired(lambda text=text: parse_home(text), lambda text=text: tomllib.loads(text), 3)
        mine, base = paired(
            lambda home=home: assess(home, on=DAY, remedies=False),
            lambda home=home: json.dumps(home.model_dump(mode="json")),
            3,
        )
        full, base = paired(
            lambda home=home: assess(home, on=DAY), lambda home=home: json.dumps(home.model_dump(mode="json")), 3
        )
        seconds[birds] = (mine, full)
        line(f"read the home file of {birds} birds", read, parse, "tomllib on the same text")
        line(
            f"assess {birds} birds, checks only",
            mine,
            base,
            "writing the household as JSON",
            "under 1 s" if birds == 300 else "",
        )
        line(
            f"assess {birds} birds, every remedy tried",
            full,
            base,
            "writing the household as JSON",
            "under 1 s at 300" if birds > 300 else "",
        )
    few, many = min(seconds), max(seconds)
    for index, what in enumerate(("checks", "checks and remedies")):
        growth = seconds[many][index] / seconds[few][index]
        print(
            f"{what}: cost grows {growth:.1f}-fold for {many / few:.0f}-fold birds (linear would be 1.00 x; this is {growth / (many / few):.2f} x)"
        )


if __name__ == "__main__":
    print(f"Python {sys.version.split()[0]}; medians; baseline and subject run in turn\n")
    start_up()
    facts_load()
    assessments()
