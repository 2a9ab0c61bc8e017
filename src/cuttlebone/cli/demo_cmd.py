"""``cuttlebone demo``."""

from importlib import resources
from pathlib import Path

from cuttlebone.assess import assess
from cuttlebone.base.errors import BadInput, Problem
from cuttlebone.cli import FINE
from cuttlebone.cli.assess_cmd import REPORT_STARTS, show
from cuttlebone.cli.common import day, parser, tell, write_new
from cuttlebone.home.clock import today
from cuttlebone.home.file import read_home


def run(arguments: list[str]) -> int:
    """Write the Larkfield home file, assess it, write the report, say what is next."""
    p = parser("demo", "Write the invented Larkfield home and assess it.")
    p.add_argument("folder", type=Path, nargs="?", default=Path("out"), help="where to write (default: out)")
    p.add_argument("--on", type=day, metavar="DAY", help="assess as of this day (default: today)")
    args = p.parse_args(arguments)
    try:
        args.folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise BadInput(
            (
                Problem(
                    place=str(args.folder), came=(error.strerror or "an error").lower(), allowed="choose another folder"
                ),
            )
        ) from None
    home_path, report = args.folder / "larkfield.toml", args.folder / "larkfield.html"
    if not home_path.exists():
        write_new(home_path, larkfield())
    elif home_path.read_text(encoding="utf-8") != larkfield():
        tell(
            f"{home_path} was changed since it was written: it is assessed as it is. Delete it to have the original again."
        )
    home = read_home(home_path)
    answer = assess(home, on=args.on or today(home))
    from cuttlebone.papers.report import report_html

    write_new(report, report_html(answer), over=REPORT_STARTS)
    show(answer, why=None, as_json=False, everything=False)
    first = answer.to_change[0].id if answer.to_change else ""
    print(f"""
Larkfield is invented. Its home file:  {home_path}
The report, with drawings to scale:    {report}  (open it in any browser)
As a web page on this computer:        make serve   (then http://127.0.0.1:8017)
Why the first finding:                 .venv/bin/cuttlebone assess {home_path} --why {first}
What would mend it:                    .venv/bin/cuttlebone remedy {home_path}
Your own birds:                        .venv/bin/cuttlebone new my-home.toml""")
    return FINE


def larkfield() -> str:
    """The text of the invented home file."""
    return (resources.files("cuttlebone.cli") / "larkfield.toml").read_text(encoding="utf-8")
