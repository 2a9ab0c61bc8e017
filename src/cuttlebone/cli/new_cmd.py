"""``cuttlebone new``."""

from pathlib import Path

from cuttlebone.base.errors import BadInput, Problem
from cuttlebone.cli import FINE
from cuttlebone.cli.common import parser, write_new
from cuttlebone.home.interview import Question, interview
from cuttlebone.home.writing import home_text


def run(arguments: list[str]) -> int:
    """Ask, and write a home file."""
    p = parser("new", "Answer a few questions and get a home file. Press Enter to skip any of them.")
    p.add_argument("home", type=Path, nargs="?", default=Path("home.toml"), help="file to write (default: home.toml)")
    p.add_argument("--replace", action="store_true", help="write over an existing file")
    args = p.parse_args(arguments)
    if args.home.exists() and not args.replace:
        raise BadInput(
            (
                Problem(
                    place=str(args.home),
                    came="a file that is already there",
                    allowed="choose another name, or add --replace",
                ),
            )
        )
    print("A few questions. Press Enter to skip any: what is skipped counts as unknown, never as fine.\n")
    talk = interview()
    question = next(talk)
    while True:
        try:
            question = talk.send(_answer(question))
        except StopIteration as end:
            write_new(args.home, home_text(end.value), over="" if args.replace else None)
            break
    print(f"\nWritten to {args.home}. Next: cuttlebone assess {args.home}")
    return FINE


def _answer(question: Question) -> str:
    if question.problem:
        print(f"  ! {question.problem}")
    else:
        print(f"\n{question.ask}\n  {question.why}")
    try:
        return input(f"  e.g. {question.form}\n  > " if question.form else "  > ")
    except EOFError:
        return ""
