"""``cuttlebone assess``."""

import argparse
import json
import sys
from pathlib import Path

from cuttlebone.assess import Answer, assess
from cuttlebone.base.finding import Severity
from cuttlebone.cli import ACT_NOW, FINE, MEND
from cuttlebone.cli.common import colours, day, parser, progress, tell, width, write_new
from cuttlebone.home.clock import today
from cuttlebone.home.file import read_home

REPORT_STARTS = "<!doctype html>"
"""What a report of ours begins with: only such a file is written over."""


def run(arguments: list[str]) -> int:
    """Assess a home file."""
    args = _parser().parse_args(arguments)
    home = read_home(args.home)
    answer = assess(home, on=args.on or today(home), progress=progress)
    if args.html:
        from cuttlebone.papers.report import report_html

        write_new(args.html, report_html(answer), over=REPORT_STARTS)
        tell(f"The report is in {args.html}")
    show(answer, why=args.why, as_json=args.json, everything=args.all)
    return exit_code(answer)


def show(answer: Answer, *, why: str | None, as_json: bool, everything: bool) -> None:
    """Print the answer, or the reasoning of one finding."""
    if as_json:
        from cuttlebone.papers.document import answer_document

        plain = (sys.stdout.encoding or "").lower().replace("-", "") != "utf8"
        print(json.dumps(answer_document(answer), ensure_ascii=plain, indent=2))
        return
    from cuttlebone.papers.text import answer_text, why_text

    colour = colours(sys.stdout)
    if why is not None:
        print(why_text(answer.finding(why), answer, colour=colour, width=width()))
    else:
        print(answer_text(answer, colour=colour, width=width(), all=everything))


def exit_code(answer: Answer) -> int:
    """0 nothing pressing, 1 something to mend soon, 3 act now."""
    return {Severity.ACT_NOW: ACT_NOW, Severity.MEND_SOON: MEND}.get(answer.worst, FINE)


def _parser() -> argparse.ArgumentParser:
    p = parser("assess", "Say whether a home is right, and what to change first.")
    p.epilog = "Exit code: 0 nothing pressing, 1 something to mend soon, 3 act now, 2 the input can't be used."
    p.add_argument("home", type=Path, help="the home file")
    p.add_argument("--on", type=day, metavar="DAY", help="assess as of this day (default: today)")
    p.add_argument("--why", metavar="ID", help="show the reasoning of one finding, with equation, values and source")
    p.add_argument("--all", action="store_true", help="show what is right as well, in full")
    p.add_argument(
        "--json", action="store_true", help="print the whole answer as JSON (schema: cuttlebone schema answer)"
    )
    p.add_argument(
        "--html", type=Path, metavar="FILE", help="write a report with drawings to scale, one self-contained file"
    )
    return p
