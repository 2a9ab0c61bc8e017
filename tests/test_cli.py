"""The command line, called as a keeper would."""

import json
import os
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from cuttlebone.cli import ACT_NOW, COMMANDS, FINE, MEND, WRONG_INPUT, run
from cuttlebone.cli.demo_cmd import larkfield
from cuttlebone.home.file import read_home
from cuttlebone.home.writing import save_home
from tests.good_home import GOOD

DAY = ["--on", "2026-11-25"]


@pytest.fixture
def lark(tmp_path: Path) -> Path:
    path = tmp_path / "larkfield.toml"
    path.write_text(larkfield(), encoding="utf-8")
    return path


@pytest.fixture
def good(tmp_path: Path) -> Path:
    path = tmp_path / "good.toml"
    save_home(GOOD, path)
    return path


@pytest.mark.parametrize("arguments", [[], ["--help"], ["help"], ["--version"]])
def test_help_and_version(arguments, capsys):
    assert run(arguments) == FINE
    assert "cuttlebone" in capsys.readouterr().out


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_explains_itself(command, capsys):
    with pytest.raises(SystemExit) as end:
        run([command, "--help"])
    assert end.value.code == 0
    assert f"cuttlebone {command}" in capsys.readouterr().out


def test_an_unknown_command_is_told_with_a_hint(capsys):
    assert run(["asess"]) == WRONG_INPUT
    assert "Did you mean 'assess'" in capsys.readouterr().err


def test_act_now_has_its_own_exit_code(lark, capsys):
    assert run(["assess", str(lark), *DAY]) == ACT_NOW
    assert "act now" in capsys.readouterr().out.lower()


def test_a_good_home_exits_fine(good, capsys):
    assert run(["assess", str(good), *DAY]) == FINE
    assert "\x1b" not in capsys.readouterr().out


def test_something_to_mend_exits_one(good, tmp_path, capsys):
    save_home(GOOD.but(vet=GOOD.vet.but(avian=False)), tmp_path / "b.toml")
    assert run(["assess", str(tmp_path / "b.toml"), *DAY]) == MEND


def test_bad_input_exits_two_with_one_paragraph_and_writes_nothing(tmp_path, capsys):
    path = tmp_path / "bad.toml"
    path.write_text('name = "x"\nfoo = 1\n', encoding="utf-8")
    assert run(["assess", str(path), "--html", str(tmp_path / "report.html")]) == WRONG_INPUT
    captured = capsys.readouterr()
    assert captured.out == ""
    assert "foo (line 2)" in captured.err
    assert not (tmp_path / "report.html").exists()


def test_json_fits_the_published_schema(lark, capsys):
    run(["assess", str(lark), *DAY, "--json"])
    document = json.loads(capsys.readouterr().out)
    run(["schema", "answer"])
    jsonschema.validate(document, json.loads(capsys.readouterr().out))
    assert document["schema"] == "cuttlebone/answer/1"


def test_the_home_schema_takes_the_invented_home(capsys):
    import tomllib

    run(["schema", "home"])
    schema = json.loads(capsys.readouterr().out)
    plain = json.loads(json.dumps(tomllib.loads(larkfield()), default=str))
    jsonschema.validate(plain, schema)


def test_why_shows_values_and_sources(lark, capsys):
    assert run(["assess", str(lark), *DAY, "--why", "1"]) == ACT_NOW
    assert "non-stick" in capsys.readouterr().out
    run(["assess", str(lark), *DAY, "--why", "housing.bar_gap@long-cage"])
    out = capsys.readouterr().out
    assert "12.5 mm" in out
    assert "our choice" in out


def test_why_of_nothing_is_told(lark, capsys):
    assert run(["assess", str(lark), "--why", "housing.nothing"]) == WRONG_INPUT
    assert "no finding" in capsys.readouterr().err


def test_remedies_are_listed_and_applied_to_a_copy(lark, capsys):
    before = lark.read_text(encoding="utf-8")
    assert run(["remedy", str(lark), *DAY]) == FINE
    first = capsys.readouterr().out.splitlines()[0].split()[1]
    assert run(["remedy", str(lark), first, *DAY]) == FINE
    copy = lark.with_name("larkfield-mended.toml")
    assert read_home(copy) != read_home(lark)
    assert lark.read_text(encoding="utf-8") == before
    assert run(["remedy", str(lark), first, *DAY]) == WRONG_INPUT  # the copy is there
    assert run(["remedy", str(lark), first, "--to", str(lark), "--replace", *DAY]) == WRONG_INPUT


def test_new_writes_a_file_and_never_over_another(tmp_path, monkeypatch, capsys):
    answers = iter(["", "2 zebra finches", "1 cock 1 hen"])
    monkeypatch.setattr("builtins.input", lambda _: next(answers, ""))
    path = tmp_path / "mine.toml"
    assert run(["new", str(path)]) == FINE
    assert len(read_home(path).birds) == 2
    assert run(["new", str(path)]) == WRONG_INPUT
    capsys.readouterr()


def test_facts_are_searched_and_shown_with_their_source(capsys):
    assert run(["facts", "search", "budgie"]) == FINE
    assert "budgerigar" in capsys.readouterr().out
    assert run(["facts", "show", "zebra_finch", "mass_g"]) == FINE
    out = capsys.readouterr().out
    assert "12 g" in out
    assert "AVONET" in out
    assert run(["facts", "show", "spinach", "ca_mg", "--json"]) == FINE
    assert json.loads(capsys.readouterr().out)["values"]["ca_mg"]["value"] == 99
    assert run(["facts", "source", "avonet-2022"]) == FINE
    assert "values rest on it" in capsys.readouterr().out
    assert run(["facts", "kinds"]) == FINE
    assert run(["facts", "show", "dragon"]) == WRONG_INPUT


def test_checks_are_listed(capsys):
    assert run(["checks", "--room", "housing"]) == FINE
    out = capsys.readouterr().out
    assert "housing.bar_gap" in out
    assert "diet." not in out


def test_the_demo_writes_its_files_and_says_what_is_next(tmp_path, capsys):
    for _ in range(2):  # safe to repeat
        assert run(["demo", str(tmp_path / "out"), *DAY]) == FINE
    out = capsys.readouterr().out
    assert (tmp_path / "out" / "larkfield.html").stat().st_size > 10_000
    assert "make serve" in out


def test_a_report_can_be_written_where_it_is_asked_for(lark, tmp_path, capsys):
    target = tmp_path / "r.html"
    run(["assess", str(lark), *DAY, "--html", str(target)])
    assert target.read_text(encoding="utf-8").startswith("<!doctype html>")
    assert run(["assess", str(lark), "--html", str(tmp_path / "no" / "r.html")]) == WRONG_INPUT
    capsys.readouterr()


# --- what must not be lost, and what the world outside can do ------------------------------------------------------------


def test_a_report_is_never_written_over_something_else(lark, tmp_path, capsys):
    before = lark.read_bytes()
    assert run(["assess", str(lark), *DAY, "--html", str(lark)]) == WRONG_INPUT
    assert lark.read_bytes() == before
    link = tmp_path / "link.html"
    link.symlink_to(lark)
    assert run(["assess", str(lark), *DAY, "--html", str(link)]) == WRONG_INPUT
    assert lark.read_bytes() == before
    report = tmp_path / "r.html"
    assert run(["assess", str(lark), *DAY, "--html", str(report)]) == ACT_NOW
    assert run(["assess", str(lark), *DAY, "--html", str(report)]) == ACT_NOW  # over an earlier report it may
    capsys.readouterr()


@pytest.mark.parametrize("target", [".", "", "/dev/null", "x" * 300, "/proc/none/r.html"])
def test_a_report_into_nowhere_is_refused_in_words(lark, target, capsys):
    assert run(["assess", str(lark), *DAY, "--html", target]) == WRONG_INPUT
    assert "cuttlebone: " in capsys.readouterr().err
    assert Path("/dev/null").is_char_device()


def test_an_edited_demo_home_is_kept(tmp_path, capsys):
    run(["demo", str(tmp_path), *DAY])
    home = tmp_path / "larkfield.toml"
    home.write_text(home.read_text(encoding="utf-8") + "\n# my own words\n", encoding="utf-8")
    assert run(["demo", str(tmp_path), *DAY]) == FINE
    assert "# my own words" in home.read_text(encoding="utf-8")
    assert "was changed" in capsys.readouterr().err
    (tmp_path / "file").write_text("x", encoding="utf-8")
    assert run(["demo", str(tmp_path / "file")]) == WRONG_INPUT


@pytest.mark.parametrize("arguments", [["assess", "x.toml", "--on", "yesterday"],
                                       ["serve", "x.toml", "--port", "99999"], ["serve", "x.toml", "--port", "-1"], ["checks", "--room", "cellar"]])  # fmt: skip
def test_impossible_options_are_told_with_what_is_allowed(arguments, capsys):
    with pytest.raises(SystemExit) as end:
        run(arguments)
    assert end.value.code == WRONG_INPUT
    assert "Traceback" not in capsys.readouterr().err


@pytest.mark.parametrize("on", ["9999-12-31", "0001-01-01"])
def test_a_day_out_of_all_calendars_is_refused(lark, on, capsys):
    assert run(["assess", str(lark), "--on", on]) == WRONG_INPUT
    assert "choose a day" in capsys.readouterr().err


def test_escape_signs_in_a_file_do_not_reach_the_terminal(tmp_path, capsys):
    path = tmp_path / "bad.toml"
    path.write_text('name = "x"\n"\\u001b[31mbad" = 1\n', encoding="utf-8")
    assert run(["assess", str(path)]) == WRONG_INPUT
    assert "\x1b" not in capsys.readouterr().err


def _shell(command: str, **env: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        ["bash", "-c", command], capture_output=True, check=False, env={**os.environ, **env, "PY": sys.executable}
    )


@pytest.mark.parametrize("encoding", ["cp1252", "ascii"])
def test_a_console_without_all_signs_gets_an_answer(lark, encoding):
    done = _shell(f'"$PY" -m cuttlebone.cli assess {lark} --on 2026-11-25 --all', PYTHONIOENCODING=encoding)
    assert done.returncode == ACT_NOW, done.stderr[-300:]
    done = _shell(f'"$PY" -m cuttlebone.cli assess {lark} --on 2026-11-25 --json', PYTHONIOENCODING=encoding)
    assert json.loads(done.stdout)["schema"] == "cuttlebone/answer/1"


@pytest.mark.parametrize("tail", ["| head -n 1", ">&-", "> /dev/full", "| true"])
def test_an_output_that_goes_away_is_no_crash(lark, tail):
    done = _shell(f'"$PY" -m cuttlebone.cli checks {tail}')
    assert b"Traceback" not in done.stderr
    assert b"Exception ignored" not in done.stderr
