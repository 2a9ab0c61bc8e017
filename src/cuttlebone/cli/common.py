"""What several commands share: reading a home, the day, colours."""

import argparse
import os
import shutil
import sys
from datetime import date
from pathlib import Path
from typing import IO

from cuttlebone.base.errors import BadInput, Problem


def parser(name: str, about: str) -> argparse.ArgumentParser:
    """An argument parser in our own manner."""
    return argparse.ArgumentParser(
        prog=f"cuttlebone {name}", description=about, formatter_class=argparse.RawDescriptionHelpFormatter
    )


def day(text: str) -> date:
    """Read a day; for argparse."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r}: write a day like 2026-11-25") from None


def colours(stream: IO[str]) -> bool:
    """Whether to colour: only a terminal, and not if NO_COLOR is set."""
    return stream.isatty() and not os.environ.get("NO_COLOR")


def width() -> int:
    """Columns to write in."""
    return max(50, min(110, shutil.get_terminal_size((96, 24)).columns))


def write_new(path: Path, text: str, *, replace: bool) -> None:
    """Write a text file whole, not over another one unless told so."""
    if path.exists() and not replace:
        raise BadInput(
            (
                Problem(
                    place=str(path),
                    came="a file that is already there",
                    allowed="choose another name, or add --replace",
                ),
            )
        )
    beside = path.with_name(f".{path.name}.part")
    try:
        beside.write_text(text, encoding="utf-8")
        beside.replace(path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        raise BadInput(
            (
                Problem(
                    place=str(path), came=error.strerror or "an error", allowed="nothing was written; check the folder"
                ),
            )
        ) from None


def tell(text: str) -> None:
    """A word to the keeper beside the output."""
    print(text, file=sys.stderr)


def progress(done: int, of: int) -> None:
    """A line that counts while remedies are tried: only in a terminal, and only where it takes a while."""
    if of > 600 and sys.stderr.isatty() and done % 20 == 0:
        print(
            f"\rTrying remedies: {done} of {of} findings ",
            end="" if done + 20 < of else "\n",
            file=sys.stderr,
            flush=True,
        )
