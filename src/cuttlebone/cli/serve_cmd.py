"""``cuttlebone serve``."""

import argparse
import os
from pathlib import Path

from cuttlebone.cli import FINE
from cuttlebone.cli.common import parser, tell
from cuttlebone.home.file import read_home

HOST = "127.0.0.1"


def port(text: str) -> int:
    """Read a port; for argparse."""
    if not text.isdigit() or not 1 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"{text!r}: write a number from 1 to 65535, such as 8017")
    return int(text)


def run(arguments: list[str]) -> int:
    """Serve one home file's answer to this computer only."""
    p = parser(
        "serve",
        "Show the answer for a home file as a web page, on this computer only. The file is read again when it changes.",
    )
    p.add_argument("home", type=Path, help="the home file")
    p.add_argument("--port", type=port, default=8017, help="port to listen on (default: 8017)")
    p.add_argument("--open", action="store_true", help="open the page in the browser")
    args = p.parse_args(arguments)
    read_home(args.home)  # a bad file is told here, before anything is served
    os.environ["DJANGO_SETTINGS_MODULE"] = "cuttlebone.web.settings"
    os.environ["CUTTLEBONE_HOME_FILE"] = str(args.home.resolve())
    from waitress import create_server

    from cuttlebone.web.wsgi import application

    try:
        server = create_server(application, host=HOST, port=args.port, threads=4, ident="cuttlebone")
    except OSError as error:
        from cuttlebone.base.errors import BadInput, Problem

        problem = Problem(
            place="--port",
            came=str(args.port),
            allowed=f"this port cannot be used ({(error.strerror or 'refused').lower()}); choose another, as in --port 8018",
        )
        raise BadInput((problem,)) from None
    address = f"http://{HOST}:{args.port}/"
    tell(f"Serving {args.home} at {address}  (stop with Ctrl-C)")
    if args.open:
        import webbrowser

        webbrowser.open(address)
    try:
        server.run()
    finally:
        server.close()
    return FINE
