"""The served pages in a browser: every page, phone and desk, by keyboard, quiet, without barriers, and nothing leaves the machine."""

import os
import re
import threading

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from cuttlebone.cli.demo_cmd import larkfield
from tests.browser.test_report import RULES

PATHS = (
    "/facts/",
    "/facts/?q=spinach",
    "/facts/?kind=standard",
    "/facts/species/zebra_finch/",
    "/sources/our-choice/",
    "/nothing-here/",
)


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """The real server on a free port, with the invented home."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "cuttlebone.web.settings")
    from django.test import override_settings
    from waitress import create_server

    from cuttlebone.web.wsgi import application

    home = tmp_path_factory.mktemp("home") / "home.toml"
    home.write_text(larkfield(), encoding="utf-8")
    with override_settings(HOME_FILE=str(home)):
        server = create_server(application, host="127.0.0.1", port=0, threads=2)
        thread = threading.Thread(target=server.run, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{server.effective_port}", home
        server.close()
        thread.join(timeout=5)


@pytest.fixture(params=[390, 1280])
def page(request, chromium):
    context = chromium.new_context(viewport={"width": request.param, "height": 844})
    page = context.new_page()
    page.heard, page.asked = [], []
    page.on(
        "console", lambda message: page.heard.append(message.text) if message.type in {"error", "warning"} else None
    )
    page.on("request", lambda asked: page.asked.append(asked.url))
    yield page
    context.close()


@pytest.mark.parametrize("path", PATHS)
def test_every_page_is_quiet_fits_and_has_no_barrier(site, page, path):
    root, _ = site
    page.goto(root + path)
    heard = [text for text in page.heard if "404" not in text or path != "/nothing-here/"]
    assert heard == []
    assert [url for url in page.asked if not url.startswith(root)] == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    found = Axe().run(page, options=RULES)
    assert found.violations_count == 0, found.generate_report()


def test_the_answer_leads_to_its_facts_and_sources(site, page):
    root, _ = site
    page.goto(root + "/")
    assert page.heard == []
    assert "Larkfield" in page.title()
    page.locator("#sources").scroll_into_view_if_needed()
    page.get_by_role("link", name="What rests on source 1", exact=True).click()
    expect(page.get_by_role("heading", name="What rests on it")).to_be_visible()
    page.get_by_role("link", name="The answer").click()
    expect(page).to_have_title(re.compile("Larkfield"))


def test_facts_are_searched_by_keyboard_alone(site, page):
    root, _ = site
    page.goto(root + "/facts/")
    page.keyboard.press("Tab")  # skip link
    for _ in range(3):
        page.keyboard.press("Tab")
    page.keyboard.type("avocado")
    page.keyboard.press("Enter")
    page.get_by_role("link", name="Avocado", exact=True).first.click()
    expect(page.get_by_text("Persin")).to_be_visible()


def test_a_broken_file_shows_what_to_mend_and_mending_it_brings_the_answer_back(site, page):
    root, home = site
    good = home.read_text(encoding="utf-8")
    home.write_text(good.replace('length = "30 in"', "length = 30"), encoding="utf-8")
    page.goto(root + "/")
    expect(page.get_by_text("enclosures > long-cage > length")).to_be_visible()
    home.write_text(good, encoding="utf-8")
    page.reload()
    assert "Larkfield" in page.title()
