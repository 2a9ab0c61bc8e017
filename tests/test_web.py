"""The web face: the same answer, for this computer only."""

import os
from pathlib import Path

import pytest

from cuttlebone.cli.demo_cmd import larkfield

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "cuttlebone.web.settings")


@pytest.fixture
def client(tmp_path: Path):
    import django
    from django.test import Client, override_settings

    django.setup()
    home = tmp_path / "home.toml"
    home.write_text(larkfield(), encoding="utf-8")
    with override_settings(HOME_FILE=str(home), ALLOWED_HOSTS=["testserver", "127.0.0.1"]):
        client = Client()
        client.home = home
        yield client


def test_the_answer_is_shown_with_a_strict_policy(client):
    page = client.get("/")
    assert page.status_code == 200
    assert "Larkfield" in page.content.decode()
    assert "script" not in page["Content-Security-Policy"]
    assert page["Cache-Control"] == "no-store"


def test_the_answer_follows_the_file(client):
    client.get("/")
    client.home.write_text(larkfield().replace('name = "Larkfield"', 'name = "Elsewhere"'), encoding="utf-8")
    assert "Elsewhere" in client.get("/").content.decode()


def test_a_broken_file_says_what_to_mend(client):
    client.home.write_text('name = "x"\n[[enclosures]]\nid = "c"\nname = "<C>"\nlength = 30\n', encoding="utf-8")
    page = client.get("/")
    assert page.status_code == 422
    assert "unit is missing" in page.content.decode()
    client.home.unlink()
    assert client.get("/").status_code == 422


@pytest.mark.parametrize("path", ["/facts/", "/facts/?q=budgerigar", "/facts/?kind=standard", "/facts/?q=zzz", "/facts/species/zebra_finch/",
                                  "/sources/avonet-2022/", "/style.css"])  # fmt: skip
def test_every_page_opens_and_cannot_be_posted_to(client, path):
    assert client.get(path).status_code == 200
    assert client.post(path).status_code == 405


@pytest.mark.parametrize("path", ["/nothing/", "/facts/species/dragon/", "/facts/dragons/x/", "/sources/none/"])
def test_what_is_not_there_is_told(client, path):
    page = client.get(path)
    assert page.status_code == 404
    assert "Not here" in page.content.decode()


def test_words_searched_for_are_escaped(client):
    assert "<script>" not in client.get("/facts/", {"q": "<script>alert(1)</script>"}).content.decode()


def test_another_host_name_is_refused(client):
    assert client.get("/", headers={"host": "evil.example"}).status_code == 400


def test_the_numbers_lead_to_their_source_page(client):
    page = client.get("/").content.decode()
    assert 'href="/sources/' in page
