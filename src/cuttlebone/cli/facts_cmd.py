"""``cuttlebone facts``."""

import argparse
import json

from cuttlebone import facts
from cuttlebone.base.errors import NotFound
from cuttlebone.cli import FINE
from cuttlebone.cli.common import parser
from cuttlebone.facts import Entry


def run(arguments: list[str]) -> int:
    """Search facts, show one, list sources."""
    args = _parser().parse_args(arguments)
    return int(args.do(args))


def _parser() -> argparse.ArgumentParser:
    p = parser("facts", "Search the facts cuttlebone rests on, and see where a value comes from.")
    sub = p.add_subparsers(required=True, metavar="search | show | kinds | source")
    search = sub.add_parser("search", help="find entries by words")
    search.add_argument("words", nargs="*")
    search.add_argument("--kind", default="", choices=("", *facts.kinds()))
    search.set_defaults(do=_search)
    show = sub.add_parser("show", help="all values of an entry, each with its source; or one value")
    show.add_argument("entry")
    show.add_argument("field", nargs="?")
    show.add_argument("--json", action="store_true")
    show.set_defaults(do=_show)
    sub.add_parser("kinds", help="what kinds of facts there are").set_defaults(do=_kinds)
    source = sub.add_parser("source", help="one source, and what rests on it")
    source.add_argument("id")
    source.set_defaults(do=_source)
    return p


def _search(args: argparse.Namespace) -> int:
    hits = facts.search(" ".join(args.words), args.kind)
    for entry in hits:
        print(f"{entry.kind:9} {entry.id:34} {entry.name}")
    if not hits:
        raise NotFound("fact", " ".join(args.words))
    return FINE


def _kinds(_: argparse.Namespace) -> int:
    for kind in facts.kinds():
        print(f"{kind:9} {len(facts.entries(kind)):4} entries")
    print(f"{'source':9} {len(facts.sources()):4} works cited")
    return FINE


def entry_named(name: str) -> Entry:
    """The entry of that name, whatever its kind."""
    near: tuple[str, ...] = ()
    for kind in facts.kinds():
        try:
            return facts.find(kind, name)
        except NotFound as error:
            near += error.near
    raise NotFound("fact", name, near[:5])


def _show(args: argparse.Namespace) -> int:
    entry = entry_named(args.entry)
    chosen = {args.field: entry.fact(args.field)} if args.field else dict(entry.facts)
    if args.json:
        rows = {k: {"value": f.value, "unit": f.unit, "low": f.low, "high": f.high, "source": f.cite.source, "where": f.cite.where,
                    "how": f.cite.how} for k, f in chosen.items()}  # fmt: skip
        print(
            json.dumps(
                {"kind": entry.kind, "id": entry.id, "name": entry.name, "values": rows}, ensure_ascii=False, indent=2
            )
        )
        return FINE
    print(f"{entry.name} ({entry.kind} {entry.id})")
    for key, fact in chosen.items():
        where = f", {fact.cite.where}" if fact.cite.where else ""
        print(f"  {key}: {fact}")
        print(f"      {facts.source(fact.cite.source).citation}{where} [{fact.cite.how.words}]")
        if fact.note:
            print(f"      note: {fact.note}")
    return FINE


def _source(args: argparse.Namespace) -> int:
    work = facts.source(args.id)
    print(f"{work.citation}{f' ({work.year})' if work.year else ''}\n{work.link or 'no link'}\n{work.note}".rstrip())
    resting = [f"{e.kind} {e.id}.{k}" for kind in facts.kinds() for e in facts.entries(kind).values() for k, f in e.facts.items()
               if f.cite.source == work.id]  # fmt: skip
    print(
        f"{len(resting)} values rest on it"
        + (": " + ", ".join(resting[:12]) + (" ..." if len(resting) > 12 else "") if resting else ".")
    )
    return FINE
