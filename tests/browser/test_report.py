"""The report in a browser: quiet, reachable for all, readable on a phone, by day and by night."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from cuttlebone.papers import report_html
from tests.sample_answer import EMPTY, SAMPLE

RULES = {
    "runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}
}


@pytest.fixture(scope="module", params=["sample", "empty"])
def file(request, tmp_path_factory):
    path = tmp_path_factory.mktemp("report") / "report.html"
    path.write_text(report_html(SAMPLE if request.param == "sample" else EMPTY), encoding="utf-8")
    return path


@pytest.fixture(params=[(390, "light"), (390, "dark"), (1280, "light"), (1280, "dark")], ids=lambda p: f"{p[0]}-{p[1]}")
def page(request, chromium, file):
    width, scheme = request.param
    context = chromium.new_context(viewport={"width": width, "height": 844}, color_scheme=scheme)
    page = context.new_page()
    page.heard, page.asked = [], []
    page.on(
        "console", lambda message: page.heard.append(message.text) if message.type in {"error", "warning"} else None
    )
    page.on("pageerror", lambda error: page.heard.append(str(error)))
    page.on("request", lambda asked: page.asked.append(asked.url))
    page.goto(file.as_uri())
    yield page
    context.close()


def test_is_quiet_asks_nothing_and_fits_the_width(page):
    assert page.heard == []
    assert [url for url in page.asked if not url.startswith("file:")] == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_has_no_barrier_that_axe_knows(page):
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
    found = Axe().run(page, options=RULES)
    assert found.violations_count == 0, found.generate_report()


def test_pictures_are_large_enough_to_read(page):
    sizes = page.evaluate(
        "[...document.querySelectorAll('svg.cb-drawing text')].map(t => parseFloat(getComputedStyle(t).fontSize) * t.ownerSVGElement.getScreenCTM().a)"
    )
    assert min(sizes, default=12) >= 10.5


def test_links_show_where_the_focus_is(page):
    page.keyboard.press("Tab")
    assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") != "none"


def test_letters_of_a_picture_lie_inside_it(page):
    outside = page.evaluate(
        """[...document.querySelectorAll('svg.cb-drawing')].flatMap(s => { const b = s.getBoundingClientRect();
        return [...s.querySelectorAll('text')].filter(t => { const r = t.getBoundingClientRect();
        return r.left < b.left - 1 || r.right > b.right + 1 || r.top < b.top - 1 || r.bottom > b.bottom + 1 }).map(t => t.textContent) })"""
    )
    assert outside == []
