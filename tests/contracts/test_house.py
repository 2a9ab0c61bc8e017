"""The rules of the house that a tool can hold."""

import importlib
import re
import subprocess
import sys
from pathlib import Path

import pytest

from cuttlebone import facts
from cuttlebone.assess import CHECKS, assess
from cuttlebone.base.finding import Severity
from cuttlebone.base.source import How
from cuttlebone.cli.demo_cmd import larkfield
from cuttlebone.home.file import parse_home
from tests.good_home import GOOD, TODAY

ROOT = Path(__file__).parents[2]


def test_imports_point_one_way():
    done = subprocess.run(
        [Path(sys.executable).with_name("lint-imports"), "--no-cache"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout


def test_check_ids_are_unique_and_name_their_room():
    ids = [check.id for check in CHECKS]
    assert len(ids) == len(set(ids))
    assert all(re.fullmatch(r"[a-z]+\.[a-z0-9_]+", key) for key in ids)
    assert all(check.title.endswith("?") for check in CHECKS)


def test_there_are_at_least_sixty_checks_in_every_room_of_the_job():
    assert len(CHECKS) >= 60
    assert {c.room for c in CHECKS} == {
        "housing",
        "company",
        "diet",
        "hygiene",
        "climate",
        "health",
        "breeding",
        "routine",
    }


@pytest.fixture(scope="module")
def answers():
    return [assess(home, on=TODAY) for home in (GOOD, parse_home(larkfield()), parse_home('name = "Nothing told"'))]


def test_every_finding_is_whole(answers):
    for finding in (f for a in answers for f in a.findings):
        assert finding.statement.endswith((".", "!", ")")), finding
        assert finding.why, finding.id
        assert finding.cites, finding.id
        assert finding.subject.name, finding.id
        assert bool(finding.measure) >= (finding.severity == Severity.CANNOT_TELL), finding.id
        for cite in finding.cites:
            assert cite.source in facts.sources(), finding.id


def test_finding_ids_are_unique(answers):
    for answer in answers:
        ids = [f.id for f in answer.findings]
        assert sorted(ids) == sorted(set(ids))


def test_every_remedy_offered_works_and_says_what_it_costs(answers):
    for answer in answers:
        for tried in (t for row in answer.remedies.values() for t in row):
            assert tried.works
            assert tried.remedy.title[0].isupper()


def test_ptfe_findings_print_no_number(answers):
    texts = [f.statement + f.why + f.caution for a in answers for f in a.findings if "ptfe" in f.check]
    assert texts
    assert not any(re.search(r"\d", text) for text in texts)


def test_nothing_is_diagnosed_or_prescribed(answers):
    words = re.compile(r"treat with|safe to wait|nothing serious|\bcured\b|mg/kg", re.IGNORECASE)
    for finding in (f for a in answers for f in a.findings):
        assert not words.search(finding.statement + finding.why + finding.caution), finding.id


def test_an_untold_home_is_never_called_fine():
    answer = assess(parse_home('name = "Nothing told"'), on=TODAY)
    assert not answer.of(Severity.FINE)
    assert answer.of(Severity.CANNOT_TELL)


def test_no_rule_of_our_own_hides_it():
    for entry in facts.entries("rule").values():
        cite = entry.fact("value").cite
        assert cite.source != "our-choice" or cite.how == How.CHOICE, entry.id
        assert (cite.source == "common-practice") == (cite.how == How.PRACTICE), entry.id


def spoils():
    """Every spoiled thing of every room."""
    modules = [importlib.import_module(f"tests.spoilers.{room}") for room in {c.room for c in CHECKS}]
    return [spoil for module in modules for row in module.SPOILERS.values() for spoil in row]


def built_ids(code: str) -> list[re.Pattern[str]]:
    """Ids that the code puts together, as patterns: f"diet.{nutrient}_min" matches any nutrient."""
    texts = [
        t for t in re.findall(r'f"([^"]*\{[^"]*)"', code) if re.search(r"[a-z_]\.?[a-z_]", re.sub(r"\{[^}]*\}", "", t))
    ]
    return [re.compile(".*".join(map(re.escape, re.split(r"\{[^}]*\}", text)))) for text in texts]


def test_every_rule_is_used(monkeypatch):
    code = "\n".join(p.read_text() for p in (ROOT / "src").rglob("*.py"))
    asked: set[str] = set()
    rule = facts.rule
    monkeypatch.setattr(facts, "rule", lambda key: (asked.add(key), rule(key))[1])
    for home in (GOOD, parse_home(larkfield()), *(spoil.change(GOOD) for spoil in spoils())):
        assess(home, on=TODAY, remedies=False)
    quiet = [
        k
        for k in facts.entries("rule")
        if k not in asked and f'"{k}"' not in code and f'"{k.partition(".")[2]}"' not in code
    ]
    patterns = built_ids(code)
    names = {k: (k, k.partition(".")[2]) for k in quiet}
    assert [k for k in quiet if not any(p.fullmatch(name) for p in patterns for name in names[k])] == []


def test_the_generated_docs_are_current():
    done = subprocess.run(
        [sys.executable, ROOT / "docs" / "generate.py", "--check"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout


def test_the_example_in_the_readme_runs(tmp_path, monkeypatch, capsys):
    code = re.findall(r"```python\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)[0]
    (tmp_path / "my-home.toml").write_text(larkfield(), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    exec(compile(code, "README.md", "exec"), {})  # noqa: S102 - our own text
    assert "act now" in capsys.readouterr().out


def test_the_example_of_the_home_file_can_be_read():
    text = re.findall(r"```toml\n(.*?)```", (ROOT / "docs" / "home-file.md").read_text(encoding="utf-8"), re.DOTALL)[0]
    assert parse_home(text).birds[0].species == "canary"


@pytest.mark.parametrize(
    "page", sorted(p.relative_to(ROOT).as_posix() for p in [*ROOT.glob("*.md"), *ROOT.glob("docs/**/*.md")])
)
def test_links_between_the_pages_lead_somewhere(page):
    text = (ROOT / page).read_text(encoding="utf-8")
    for target in re.findall(r"\]\(([^)#\s]+)", text):
        if not target.startswith(("http://", "https://")):
            assert (ROOT / page).parent.joinpath(target).exists(), target
