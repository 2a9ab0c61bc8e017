"""What several commands share: reading a home, the day, colours."""

import argparse
import contextlib
import os
import shutil
import sys
from datetime import date
from pathlib import Path
from typing import IO

from cuttlebone.base.errors import BadInput, Problem


def printable(text: str) -> str:
    """Words without characters that could steer the terminal."""
    return "".join(c if c.isprintable() or c == "\n" else " " for c in text)


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


def colours(stream: IO[str] | None) -> bool:
    """Whether to colour: only a terminal, and not if NO_COLOR is set."""
    return stream is not None and stream.isatty() and not os.environ.get("NO_COLOR")


def width() -> int:
    """Columns to write in."""
    return max(50, min(110, shutil.get_terminal_size((96, 24)).columns))


def _refuse(path: Path, came: str, allowed: str) -> BadInput:
    return BadInput((Problem(place=str(path) or "the name of the file", came=came, allowed=allowed),))


def write_new(path: Path, text: str, *, over: str | None = None) -> None:
    """Write a text file whole or not at all.

    Parameters
    ----------
    path : Path
        Where to write. Links are followed.
    text : str
        What to write.
    over : str, optional
        Beginning of the files that may be written over: ``""`` any, None not even one of ours.
    """
    path = path.resolve()
    if path.is_dir() or not path.name:
        raise _refuse(path, "a folder", "give the name of a file inside it")
    if path.exists() and not path.is_file():
        raise _refuse(path, "something that is no file", "give the name of a file")
    if path.exists() and not _may_replace(path, over):
        raise _refuse(
            path, "a file that is already there", "choose another name" + (", or add --replace" if over is None else "")
        )
    beside = path.with_name(f".{path.name}.part")
    try:
        beside.write_text(text, encoding="utf-8")
        beside.replace(path)
    except OSError as error:
        with contextlib.suppress(OSError):
            beside.unlink(missing_ok=True)
        raise _refuse(
            path, (error.strerror or "an error").lower(), "nothing was written; check the name and the folder"
        ) from None


def _may_replace(path: Path, over: str | None) -> bool:
    if over is None:
        return False
    with path.open("rb") as file:
        return file.read(len(over.encode())) == over.encode()


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
