"""The command line. Each command is a module of its own, imported only when it is called."""

import importlib
import io
import os
import sys
from collections.abc import Sequence

COMMANDS = {
    "new": "answer a few questions and write a home file",
    "assess": "say whether a home is right and what to change first",
    "remedy": "apply chosen remedies to a copy of a home file",
    "facts": "search the facts and see where a value comes from",
    "checks": "list every question that is asked of a home",
    "serve": "open the answer as a web page on this computer",
    "schema": "print the JSON Schema of the home file or of the answer",
    "demo": "write the invented Larkfield home and assess it",
}
"""Commands and what they do; each is ``cuttlebone.cli.<name>_cmd`` with ``run(arguments) -> exit code``."""

FINE, MEND, WRONG_INPUT, ACT_NOW = 0, 1, 2, 3


def usage() -> str:
    """What ``cuttlebone --help`` prints."""
    rows = "\n".join(f"  {name:8} {what}" for name, what in COMMANDS.items())
    return f"""usage: cuttlebone COMMAND [arguments]

Says whether a small bird's home is right, what to change first, and why, with its source.

commands:
{rows}

Each command explains itself: cuttlebone assess --help
Exit codes of assess: 0 nothing pressing, 1 something to mend soon, 3 act now, 2 the input can't be used."""


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and exit."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):  # a console that lacks a sign shows a question mark, not an error
            stream.reconfigure(errors="replace")
    code = run(list(sys.argv[1:] if arguments is None else arguments))
    try:
        if sys.stdout is not None:
            sys.stdout.flush()
    except OSError:
        _give_up_output()
        code = code or WRONG_INPUT
    sys.exit(code)


def run(arguments: list[str]) -> int:
    """Run one command; returns its exit code."""
    if not arguments or arguments[0] in {"-h", "--help", "help"}:
        print(usage())
        return FINE
    if arguments[0] in {"-V", "--version"}:
        from cuttlebone import __version__

        print(f"cuttlebone {__version__}")
        return FINE
    if arguments[0] not in COMMANDS:
        return _unknown(arguments[0])
    return _guarded(arguments[0], arguments[1:])


def _unknown(name: str) -> int:
    import difflib

    close = difflib.get_close_matches(name, COMMANDS, n=1)
    hint = f"Did you mean {close[0]!r}?" if close else f"Commands: {', '.join(COMMANDS)}."
    print(f"cuttlebone: there is no command {name!r}. {hint}", file=sys.stderr)
    return WRONG_INPUT


def _guarded(name: str, arguments: list[str]) -> int:
    """Run a command; what goes wrong outside of us is told in one line."""
    try:
        command = importlib.import_module(f"cuttlebone.cli.{name}_cmd")
        return int(command.run(arguments))
    except KeyboardInterrupt:
        print("\ncuttlebone: stopped; nothing was changed.", file=sys.stderr)
        return 130
    except BrokenPipeError:  # the reader went away, as with "| head"
        _give_up_output()
        return FINE
    except OSError as error:  # a full disk, a closed console
        print(f"cuttlebone: {error.strerror or error}", file=sys.stderr)
        return WRONG_INPUT
    except Exception as error:
        from cuttlebone.base.errors import CuttleboneError
        from cuttlebone.cli.common import printable

        if not isinstance(error, CuttleboneError):
            raise
        print(f"cuttlebone: {printable(str(error))}", file=sys.stderr)
        return WRONG_INPUT


def _give_up_output() -> None:
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
