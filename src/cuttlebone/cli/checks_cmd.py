"""``cuttlebone checks``."""

from cuttlebone.assess import CHECKS
from cuttlebone.cli import FINE
from cuttlebone.cli.common import parser


def run(arguments: list[str]) -> int:
    """List every check."""
    p = parser("checks", "List every question that is asked of a home.")
    p.add_argument(
        "--room",
        default="",
        choices=("", *sorted({c.room for c in CHECKS})),
        help="only this room of the program, e.g. housing",
    )
    args = p.parse_args(arguments)
    for check in CHECKS:
        if args.room in {"", check.room}:
            print(f"{check.id:30} {check.title}")
    return FINE
