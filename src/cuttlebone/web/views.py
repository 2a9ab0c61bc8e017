"""Pages: the answer, the facts, the sources. Views parse, ask and render."""

from datetime import date
from functools import lru_cache
from pathlib import Path

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from cuttlebone import facts
from cuttlebone.assess import assess
from cuttlebone.base.errors import BadInput, CuttleboneError, NotFound
from cuttlebone.facts.schema import UNIT_ENDINGS
from cuttlebone.home.clock import today
from cuttlebone.home.file import read_home
from cuttlebone.papers.report import report_html, stylesheet


@require_safe
def answer(request: HttpRequest) -> HttpResponse:
    """The answer for the home file as it is now, or what to mend in the file."""
    path = Path(settings.HOME_FILE)
    try:
        home = read_home(path)
        stamp = path.stat()
        return HttpResponse(_page(str(path), (stamp.st_mtime_ns, stamp.st_size), today(home)))
    except BadInput as error:
        return render(request, "web/mend.html", {"error": error, "path": path}, status=422)


@lru_cache(maxsize=4)
def _page(path: str, _version: tuple[int, int], on: date) -> str:
    """The rendered answer; asked again only when the file or the day changes."""
    return report_html(assess(read_home(Path(path)), on=on), source_pages="/sources/")


@require_safe
def facts_search(request: HttpRequest) -> HttpResponse:
    """Facts by words and kind."""
    words, kind = request.GET.get("q", "").strip()[:100], request.GET.get("kind", "")
    kind = kind if kind in facts.kinds() else ""
    found = facts.search(words, kind) if words or kind else ()
    counts = [(each, len(facts.entries(each))) for each in facts.kinds()]
    return render(
        request,
        "web/facts.html",
        {"words": words, "kind": kind, "found": found[:200], "many": len(found), "counts": counts},
    )


@require_safe
def fact(request: HttpRequest, kind: str, key: str) -> HttpResponse:
    """One entry, every value with its source."""
    try:
        entry = facts.find(kind, key)
    except NotFound as error:
        return missing(request, error)
    rows = [(_field_words(name), value, facts.source(value.cite.source)) for name, value in entry.facts.items()]
    return render(request, "web/fact.html", {"entry": entry, "rows": rows})


def _field_words(field: str) -> str:
    """A field's name without its unit, which the value shows."""
    unit = next((u for u in sorted(UNIT_ENDINGS, key=len, reverse=True) if field.endswith(f"_{u}")), "")
    return field.removesuffix(f"_{unit}").replace("_", " ")


@require_safe
def source(request: HttpRequest, key: str) -> HttpResponse:
    """One source, and what rests on it."""
    try:
        work = facts.source(key)
    except NotFound as error:
        return missing(request, error)
    resting = [
        (entry, _field_words(name), value)
        for kind in facts.kinds()
        for entry in facts.entries(kind).values()
        for name, value in entry.facts.items()
        if value.cite.source == work.id
    ]
    return render(request, "web/source.html", {"work": work, "resting": resting})


@require_safe
def style(_: HttpRequest) -> HttpResponse:
    """The one style sheet, the report's own."""
    return HttpResponse(stylesheet(), content_type="text/css; charset=utf-8")


@require_safe
def no_icon(_: HttpRequest) -> HttpResponse:
    """Browsers ask for an icon; there is none."""
    return HttpResponse(status=204)


def missing(request: HttpRequest, exception: Exception) -> HttpResponse:
    """A page that isn't there."""
    told = str(exception) if isinstance(exception, CuttleboneError) else "There is no such page."
    return render(request, "web/missing.html", {"told": told}, status=404)
