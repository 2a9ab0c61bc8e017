"""The papers say all that the answer says, with every source and mark."""

import json
import re
from html.parser import HTMLParser
from importlib import resources

import pytest
from jsonschema import Draft202012Validator

from cuttlebone import facts
from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.base.source import How
from cuttlebone.papers import answer_document, answer_schema, answer_text, report_html, why_text
from cuttlebone.papers.telling import ABOUT, Telling, cites_of, law_first, short_mark
from tests.good_home import GOOD
from tests.sample_answer import EMPTY, FINDINGS, HOSTILE, RULES, SAMPLE, SMALL, TODAY


class Page(HTMLParser):
    """What a reader of the page meets."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.ids, self.hrefs, self.parts, self.heads = [], [], [], [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        attributes = dict(attrs)
        self.tags.append((tag, attributes))
        self.ids += [attributes["id"]] if "id" in attributes else []
        self.hrefs += [attributes["href"]] if "href" in attributes else []
        self.heads += [int(tag[1])] if re.fullmatch("h[1-6]", tag) else []

    def handle_data(self, data):
        self.parts.append(data)

    @property
    def words(self):
        return " ".join("".join(self.parts).split())


@pytest.fixture(scope="module")
def html():
    return report_html(SAMPLE)


@pytest.fixture(scope="module")
def page(html):
    return Page(html)


@pytest.fixture(scope="module")
def real():
    """What the rooms say of a spoiled home."""
    return assess(
        GOOD.but(
            enclosures=(*GOOD.enclosures, SMALL.but(room=None)),
            birds=(*GOOD.birds, GOOD.birds[0].but(id="gus", ring=None, enclosure="box")),
        ),
        on=TODAY,
    )


def squeeze(text):
    return " ".join(text.replace("\x07", "�").split())


def test_every_finding_is_shown(page):
    for finding in FINDINGS:
        assert squeeze(finding.statement) in squeeze(page.words)
        assert finding.why in page.words
        assert finding.measure in page.words
        assert finding.caution in page.words


def test_every_cited_source_is_in_the_list(page):
    sources = page.words.partition("Sources Tobias")[2]
    for finding in FINDINGS:
        for cite in cites_of(finding):
            assert facts.source(cite.source).citation.rstrip(".")[10:] in page.words
            assert cite.how.words in sources


def test_each_note_leads_to_its_source(page):
    notes = [href for href in page.hrefs if href.startswith("#")]
    assert notes
    assert {href[1:] for href in notes} <= set(page.ids)


def test_ids_are_unique(page):
    assert len(page.ids) == len(set(page.ids))


def test_marks_stand_at_the_numbers(page):
    assert "wanted: at least 80 cm [3] from memory" in page.words


def test_nothing_is_fetched(page):
    assert not [
        tag for tag, _ in page.tags if tag in {"script", "link", "img", "iframe", "object", "embed", "form", "base"}
    ]
    assert not [a for _, a in page.tags if "src" in a or "style" in a or any(name.startswith("on") for name in a)]
    for tag, attributes in page.tags:
        if attributes.get("href", "").startswith("http"):
            assert tag == "a"
    outside = {h for h in page.hrefs if h.startswith("http")}
    assert outside <= {s.link for s in facts.sources().values()}


def test_the_style_fetches_nothing_and_is_allowed_by_its_hash(html):
    style = re.search("<style>(.*?)</style>", html, re.DOTALL).group(1)
    assert "url(" not in style
    assert "@import" not in style
    assert "default-src" in html
    assert html.count("<style>") == 1


def test_hostile_names_stay_words(html, page):
    assert "<script" not in html
    assert squeeze(HOSTILE) in squeeze(page.words)


def test_headings_are_in_order(page):
    assert page.heads[0] == 1
    assert page.heads.count(1) == 1
    assert all(b - a <= 1 for a, b in zip(page.heads, page.heads[1:], strict=False))


def test_the_page_is_read_in_english_on_a_phone(page):
    assert ("html", {"lang": "en"}) in page.tags
    assert any(a.get("name") == "viewport" for tag, a in page.tags if tag == "meta")


def test_tables_have_headers(page):
    assert {a.get("scope") for tag, a in page.tags if tag == "th"} == {"col", "row"}


def test_remedies_say_what_they_clear(page):
    assert "Clears this, number 3, “Does it stand high enough?” (The box)." in page.words
    assert "about 60 to 140 in your currency (our estimate)".capitalize() in page.words
    assert "Mind: Move them in the morning" in page.words


def test_the_page_says_what_it_is_not(page):
    assert all(line in page.words for line in ABOUT)


def test_no_jargon_is_shown(page):
    assert not re.search(r"RuleLine|CANNOT_TELL|MEND_SOON|housing\.[a-z]|None\b|\bnull\b", page.words)


def test_an_empty_answer_is_a_page_too():
    page = Page(report_html(EMPTY))
    assert "Nothing could be looked at yet" in page.words
    assert "Nothing is known to be right yet." in page.words


def test_findings_of_the_rooms_are_all_shown(real):
    page, text, document = Page(report_html(real)), answer_text(real, width=100, all=True), answer_document(real)
    for finding in real.findings:
        assert squeeze(finding.statement) in page.words
        assert finding.statement.split()[0] in text
    assert len(document["findings"]) == len(real.findings)
    Draft202012Validator(answer_schema()).validate(document)


def test_verdicts_read_as_sentences():
    assert Telling(SAMPLE).verdict == (
        "Not right yet: 1 thing to act on now, 2 things to mend soon and 2 things that could be better. "
        "2 questions cannot be answered until something is measured. 2 of 9 points looked at are right."
    )


@pytest.mark.parametrize(
    ("severities", "said"),
    [
        ((Severity.FINE,), "Everything that could be checked is right."),
        (
            (Severity.BETTER, Severity.FINE),
            "Everything that could be checked is right; there is 1 thing that could be better.",
        ),
        (
            (Severity.CANNOT_TELL,),
            "Nothing could be checked yet. 1 question cannot be answered until something is measured.",
        ),
    ],
)
def test_verdict_of_a_better_home(severities, said):
    from dataclasses import replace

    found = tuple(replace(FINDINGS[0], severity=s) for s in severities)
    assert Telling(replace(SAMPLE, findings=found)).verdict == said


def test_law_of_the_keepers_country_comes_first(monkeypatch):
    class Law:
        def __init__(self, country):
            self.country = country

        def text(self, _):
            return self.country

    from dataclasses import replace

    countries = {"somewhere-else": "AU", "no-round": "GB", "short": "GB"}
    monkeypatch.setattr(facts, "standard", lambda rule: Law(countries[rule]))
    rules = (*RULES[:2], replace(RULES[2], weight="binding"))
    assert [r.rule for r in law_first(rules, "GB")] == ["short", "no-round", "somewhere-else"]
    assert law_first(rules, None) == rules


def test_marks_are_silent_only_for_what_was_read():
    assert [how for how in How if not short_mark(how)] == [How.READ]


def test_a_served_report_leads_to_the_pages_of_its_sources():
    assert "/sources/avonet-2022/" in Page(report_html(SAMPLE, source_pages="/sources/")).hrefs


# --- terminal ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("width", [40, 72, 120])
def test_text_keeps_to_its_width(width):
    lines = (answer_text(SAMPLE, width=width, all=True) + why_text(FINDINGS[1], SAMPLE, width=width)).splitlines()
    assert max(len(line) for line in lines if "http" not in line) <= width


def test_text_tells_all_there_is_to_change_and_to_measure():
    text = " ".join(answer_text(SAMPLE, width=80).split())
    for finding in (*SAMPLE.to_change, *SAMPLE.of(Severity.CANNOT_TELL)):
        assert " ".join("".join(c if c.isprintable() else " " for c in finding.statement).split()) in text
    assert FINDINGS[5].measure in text
    assert FINDINGS[-1].statement not in text
    assert FINDINGS[-1].statement in " ".join(answer_text(SAMPLE, all=True).split())


def test_text_is_plain_unless_colour_is_wished():
    assert "\x1b" not in answer_text(SAMPLE, colour=False, all=True)
    assert "\x07" not in answer_text(SAMPLE)
    assert "\x1b[1;31m" in answer_text(SAMPLE, colour=True)
    assert "<act now>" in answer_text(SAMPLE, style=lambda words, style: f"<{style}>{words}")


def test_why_gives_values_equation_rules_and_marks():
    text = " ".join(why_text(FINDINGS[1], SAMPLE, width=80).split())
    assert "length - 2 x clearance = 42 cm [2] (our choice)" in text
    assert "A research house figure (not written for homes): falls short" in text
    assert "from memory, not checked against the source" in text
    assert "How sure: The limit is from memory." in text


# --- data -------------------------------------------------------------------------------------------------------


def test_the_published_schema_is_the_one_the_code_follows():
    published = json.loads(
        (resources.files("cuttlebone.papers") / "schema" / "answer-1.json").read_text(encoding="utf-8")
    )
    assert published == answer_schema()
    Draft202012Validator.check_schema(published)


@pytest.mark.parametrize("answer", [SAMPLE, EMPTY])
def test_the_document_fits_its_schema(answer):
    document = json.loads(json.dumps(answer_document(answer)))
    Draft202012Validator(answer_schema()).validate(document)
    assert document["schema"] == "cuttlebone/answer/1"


def test_the_document_holds_every_finding_with_its_rank_and_sources():
    document = answer_document(SAMPLE)
    assert [f["id"] for f in document["findings"]] == [f.id for f in FINDINGS]
    assert [f["rank"] for f in document["findings"]] == [1, 2, 3, 4, 5, None, None, None, None]
    length = document["findings"][1]
    assert length["measured"] == {"value": 60, "unit": "cm"}
    assert length["limit"] == {"low": 80, "high": None, "unit": "cm"}
    assert [s["how"] for s in length["sources"]] == ["memory", "read", "choice", "common practice"]
    assert length["remedies"][1]["cost"] == {"low": 60, "high": 140}


def test_remedies_stay_with_the_finding_that_proposed_them():
    rows = answer_document(SAMPLE)["findings"]
    assert [r["id"] for r in rows[1]["remedies"]] == ["housing.length@box/swap", "housing.length@box/wider"]
    assert rows[2]["remedies"] == []
