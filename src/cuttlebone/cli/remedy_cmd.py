"""``cuttlebone remedy``."""

from pathlib import Path

from cuttlebone.assess import TO_CHANGE, Answer, assess, try_remedies
from cuttlebone.base.errors import BadInput, Problem
from cuttlebone.cli import FINE
from cuttlebone.cli.common import day, parser, printable, progress, tell
from cuttlebone.home.clock import today
from cuttlebone.home.file import read_home
from cuttlebone.home.writing import save_home


def run(arguments: list[str]) -> int:
    """Apply remedies to a copy, or list the ones on offer."""
    p = parser("remedy", "Apply chosen remedies to a copy of a home file. Without IDs: list what is on offer.")
    p.add_argument("home", type=Path, help="the home file")
    p.add_argument("ids", nargs="*", metavar="ID", help="remedies to apply, as named by this command or by assess")
    p.add_argument("--to", type=Path, metavar="FILE", help="the copy to write")
    p.add_argument("--on", type=day, metavar="DAY", help="assess as of this day (default: today)")
    p.add_argument("--replace", action="store_true", help="write over an existing copy")
    args = p.parse_args(arguments)
    home = read_home(args.home)
    on = args.on or today(home)
    if not args.ids:
        return _list(assess(home, on=on, progress=progress))
    mended = try_remedies(home, args.ids, on=on)
    target = args.to or args.home.with_name(f"{args.home.stem}-mended.toml")
    if target.resolve() == args.home.resolve() or (target.exists() and not args.replace):
        raise BadInput(
            (
                Problem(
                    place=str(target),
                    came="a file that is already there",
                    allowed="name another copy with --to, or add --replace",
                ),
            )
        )
    save_home(mended, target, like=args.home.read_text(encoding="utf-8-sig"))
    before, after = (len(assess(h, on=on).topics(*TO_CHANGE)) for h in (home, mended))
    tell(
        f"Written to {target}: {before} things to change before, {after} after. Look at it with: cuttlebone assess {target}"
    )
    return FINE


def _list(answer: Answer) -> int:
    for number, topic in enumerate(answer.topics(*TO_CHANGE), 1):
        for tried in topic.remedies:
            print(
                printable(
                    f"{number:3}  {tried.id}\n     {tried.remedy.title} ({tried.remedy.cost}, {tried.remedy.effort})"
                )
            )
            also = [k for k in tried.clears if k not in {f.id for f in topic.findings}]
            if also:
                print(f"     also settles: {', '.join(also)}")
    return FINE
