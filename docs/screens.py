"""``make screens``: pictures of every page at phone and desk width, light and dark, for looking at; and the one in the README."""

import shutil
import sys
import tempfile
from datetime import date
from pathlib import Path

from playwright.sync_api import sync_playwright

from cuttlebone.assess import assess
from cuttlebone.cli.demo_cmd import larkfield
from cuttlebone.home.file import parse_home
from cuttlebone.papers.report import report_html

HERE = Path(__file__).parent
HOMES = {"larkfield": larkfield(), "empty": 'name = "Nothing told yet"\n'}


def main(folder: Path) -> None:
    """Draw them."""
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as made, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        for name, text in HOMES.items():
            page_file = Path(made) / f"{name}.html"
            page_file.write_text(report_html(assess(parse_home(text), on=date(2026, 11, 25))), encoding="utf-8")
            for width in (390, 1280):
                for scheme in ("light", "dark"):
                    page = browser.new_page(viewport={"width": width, "height": 900}, color_scheme=scheme)
                    page.goto(page_file.as_uri())
                    page.screenshot(path=folder / f"{name}-{width}-{scheme}.png", full_page=width == 390)
                    if (name, width, scheme) == ("larkfield", 1280, "light"):
                        page.set_viewport_size({"width": 860, "height": 1100})
                        page.screenshot(path=HERE / "pictures" / "answer.png")
                    page.close()
        browser.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path("out/screens"))
