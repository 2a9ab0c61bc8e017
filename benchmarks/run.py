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
from cuttlebone.home.file import home_text, parse_home
from cuttlebone.home.model import Household

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


def large(times: int) -> Household:
    """Larkfield so many times over: 9 birds, 3 enclosures and 3 rooms each; one dwelling of several floors."""
    text = larkfield()
    home = parse_home(text)
    rooms, cages, birds = [], [], []
    for n in range(times):
        mark = f"-{n}"
        for room in home.rooms or ():
            doors = tuple(o if o.to == "outside" else o.but(to=o.to + mark) for o in room.openings or ())
            rooms.append(room.but(id=room.id + mark, openings=doors))
        cages += [cage.but(id=cage.id + mark, room=f"{cage.room}{mark}") for cage in home.enclosures or ()]
        for bird in home.birds or ():
            kin = {k: getattr(bird, k) + mark for k in ("sire", "dam") if getattr(bird, k)}
            birds.append(
                bird.but(id=bird.id + mark, ring=f"{bird.ring}{mark}", enclosure=f"{bird.enclosure}{mark}", **kin)
            )
    return home.but(rooms=tuple(rooms), enclosures=tuple(cages), birds=tuple(birds))


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
    seconds = {}
    for times in (1, 8, 17, 34):
        home = large(times)
        text = home_text(home)
        birds = len(home.birds or ())
        read, parse = paired(lambda text=text: parse_home(text), lambda text=text: tomllib.loads(text), 3)
        mine, _ = paired(lambda home=home: assess(home, on=DAY, remedies=False), lambda: None, 3)
        full, base = paired(
            lambda home=home: assess(home, on=DAY), lambda home=home: json.dumps(home.model_dump(mode="json")), 3
        )
        seconds[birds] = full
        line(f"read the home file of {birds} birds", read, parse, "tomllib on the same text")
        line(f"assess {birds} birds, checks only", mine, base, "writing the household as JSON")
        line(
            f"assess {birds} birds, every remedy tried",
            full,
            base,
            "writing the household as JSON",
            "under 1 s at 300" if birds > 300 else "",
        )
    (few, first), *_, (many, last) = seconds.items()
    print(
        f"cost grows {last / first:.1f}-fold for {many / few:.0f}-fold birds (1 x is linear: {last / first / (many / few):.2f} x)"
    )


if __name__ == "__main__":
    print(f"Python {sys.version.split()[0]}; medians; baseline and subject run in turn\n")
    start_up()
    facts_load()
    assessments()
