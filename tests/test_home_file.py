"""The home file: what was written is read back, and a wrong file is told so, once, in plain words."""

import string
import tomllib
from datetime import date, time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone.base.errors import BadInput
from cuttlebone.cli.demo_cmd import larkfield
from cuttlebone.home import change
from cuttlebone.home.file import parse_home, read_home
from cuttlebone.home.model import Bird, Cleaning, Duty, Enclosure, Household, Offer, Perch, Room, Store, Thing, Window
from cuttlebone.home.writing import home_text, save_home
from tests.good_home import GOOD

HEAD = 'name = "Home"\n'
CAGE = HEAD + '[[enclosures]]\nid = "cage"\nname = "Cage"\n'
BIRD = CAGE + '[[birds]]\nid = "pip"\nspecies = "zebra_finch"\nenclosure = "cage"\n'
ROOM = HEAD + '[[rooms]]\nid = "den"\nname = "Den"\nlength = "4 m"\nwidth = "3 m"\n'

WRONG = {
    "wrong unit": (CAGE + 'length = "30 kg"', "length", "30 kg"),
    "no unit": (CAGE + "length = 30", "length", "unit is missing"),
    "no unit in a text": (CAGE + 'length = "30"', "length", "unit is missing"),
    "words for a number": (CAGE + 'length = "quite long"', "length", "quite long"),
    "negative length": (CAGE + 'length = "-30 cm"', "length", "outside"),
    "zero length": (CAGE + 'length = "0 cm"', "length", "outside"),
    "a kilometre": (CAGE + 'length = "1000 m"', "length", "outside"),
    "a division by zero": (CAGE + 'bar_gap = "1/0 in"', "bar_gap", "1/0"),
    "not a number at all": (CAGE + "length = nan", "length", "unit is missing"),
    "infinite": (HEAD + "latitude = inf\nlongitude = 1.0", "latitude", "inf"),
    "boiling room": (ROOM + 'temp_day = "90 °C"', "temp_day", "outside"),
    "a length for a warmth": (ROOM + 'temp_day = "21 cm"', "temp_day", "temperature"),
    "unknown species": (BIRD.replace("zebra_finch", "zebra_fink"), "species", "zebra_finch"),
    "missing species": (BIRD.replace('species = "zebra_finch"\n', ""), "species", "needed"),
    "bird in a missing enclosure": (BIRD.replace('enclosure = "cage"', 'enclosure = "cave"'), "enclosure", "cage"),
    "cage in a missing room": (CAGE + 'room = "attic"', "room", "no such room"),
    "impossible date": (BIRD + "hatched = 2025-02-30", "TOML", "2025-02-30"),
    "date as words": (BIRD + 'hatched = "last spring"', "hatched", "2026-11-25"),
    "came before it hatched": (BIRD + "hatched = 2025-05-01\ncame = 2024-05-01", "came", "before it hatched"),
    "hatched long ago": (BIRD + "hatched = 1925-05-01", "hatched", "check the year"),
    "duplicate ring": (BIRD + 'ring = "A1"\n[[birds]]\nid = "dot"\nspecies = "canary"\nring = "A1"', "ring", "2 birds"),
    "duplicate id": (BIRD + '[[birds]]\nid = "pip"\nspecies = "canary"', "pip", "2 times"),
    "duplicate perch": (
        CAGE + 'perches = [{id="a",x="1 cm",height="1 cm"},{id="a",x="2 cm",height="1 cm"}]',
        "perches",
        "2 times",
    ),
    "id with spaces": (CAGE.replace('id = "cage"', 'id = "my cage"'), "id", "hyphens"),
    "unknown sex": (BIRD + 'sex = "male"', "sex", "'cock' or 'hen'"),
    "unknown key": (CAGE + 'lenght = "30 in"', "lenght", "'length'"),
    "unknown section": (HEAD + "[[cages]]\nid = 'x'", "cages", "no such key"),
    "yes for true": (CAGE + 'tray = "perhaps"', "tray", "true or false"),
    "text for a count": (CAGE + 'nests = "some"', "nests", "whole number"),
    "a half nest": (CAGE + "nests = 1.5", "nests", "whole number"),
    "bad clock": (ROOM + 'light_on = "25:00"', "light_on", "07:30"),
    "unknown wall": (
        ROOM + 'windows = [{wall="north",starts="1 m",width="1 m",sill="90 cm",head="2 m"}]',
        "wall",
        "'left'",
    ),
    "window past its wall": (
        ROOM + 'windows = [{wall="top",starts="3.5 m",width="1 m",sill="90 cm",head="2 m"}]',
        "windows",
        "beyond",
    ),
    "window upside down": (
        ROOM + 'windows = [{wall="top",starts="1 m",width="1 m",sill="2 m",head="1 m"}]',
        "head",
        "sill",
    ),
    "hazard unheard of": (ROOM + 'things = [{id="x", kind="dragon"}]', "kind", "no such hazard"),
    "thing outside the room": (ROOM + 'things = [{id="x", kind="cat", x="9 m", y="1 m"}]', "x", "outside the room"),
    "perch outside the cage": (
        CAGE + 'length = "76 cm"\nperches = [{id="a",x="80 cm",height="1 cm"}]',
        "perches",
        "outside the enclosure",
    ),
    "cage outside the room": (
        ROOM + '[[enclosures]]\nid="c"\nname="C"\nroom="den"\nx="3.5 m"\nlength="1 m"\nwidth="0.5 m"',
        "x",
        "beyond",
    ),
    "dilution of nothing": (HEAD + '[cleaning]\ndilution = "1 in 0"', "dilution", "1 in 50"),
    "dilution over one": (HEAD + '[cleaning]\ndilution = "3 in 2"', "dilution", "1 in 50"),
    "unknown agent": (HEAD + '[cleaning]\nagent = "magic"', "agent", "no such agent"),
    "unknown standard": (HEAD + 'hold_to = ["the-law-of-mars"]', "hold_to", "no such standard"),
    "country in words": (HEAD + 'country = "Ireland"', "country", "two-letter"),
    "latitude over the pole": (HEAD + "latitude = 99.0\nlongitude = 1.0", "latitude", "90"),
    "half a place": (HEAD + "latitude = 50.0", "latitude", "both"),
    "no such time zone": (HEAD + 'time_zone = "Mars/Olympus"', "time_zone", "Europe/Dublin"),
    "duty of a stranger": (HEAD + '[[duties]]\nkind = "look"\nwho = ["nobody"]', "who", "no such person"),
    "duty unheard of": (HEAD + '[[duties]]\nkind = "dance"', "kind", "choose one of"),
    "own father": (BIRD + 'sire = "pip"', "sire", "no such bird"),
    "a bird of a kilogram": (BIRD + 'mass = "1 kg"', "mass", "outside"),
    "no name": ("country = 'GB'", "name", "needed"),
    "empty file": ("", "", "empty file"),
    "cut off in a text": (CAGE + 'length = "30', "TOML", "30"),
    "cut off in a list": (CAGE + "perches = [ { id = ", "TOML", ""),
    "the same key twice": (HEAD + 'name = "Again"', "TOML", "name"),
    "no quotation marks": ("name = Home", "TOML", "quotation marks"),
    "a binary file": ("name\x00=1", "", "plain text"),
    "a list where a table should be": (HEAD + "vet = [1]", "vet", "table"),
    "a table where a list should be": (HEAD + "[birds]\nid = 'x'", "birds", "list"),
}


@pytest.mark.parametrize("wrong", WRONG.values(), ids=WRONG)
def test_a_wrong_file_gets_one_readable_error(wrong):
    text, place, hint = wrong
    with pytest.raises(BadInput) as caught:
        parse_home(text)
    message = str(caught.value)
    assert place in message
    assert hint in message
    assert len(message) < 700
    assert not any(jargon in message for jargon in ("pydantic", "Traceback", "input_type", "type=", "validation error"))


def test_all_problems_are_told_at_once_with_their_lines():
    text = CAGE + 'length = "30 kg"\nbar_gap = 12\nlenght = "1 m"\n'
    with pytest.raises(BadInput) as caught:
        parse_home(text)
    assert {p.line for p in caught.value.problems} == {5, 6, 7}


def test_the_line_is_right_for_the_second_of_two_cages():
    text = CAGE + '[[enclosures]]\nid = "two"\nname = "Two"\nperches = [\n  {id="a", x="1 cm", height="oops"},\n]\n'
    with pytest.raises(BadInput) as caught:
        parse_home(text)
    (problem,) = caught.value.problems
    assert problem.place == "enclosures > two > perches > a > height"
    assert problem.line == 8


def test_a_file_that_is_not_there_too_large_or_not_utf8(tmp_path: Path):
    with pytest.raises(BadInput, match="no such file"):
        read_home(tmp_path / "none.toml")
    with pytest.raises(BadInput, match="folder"):
        read_home(tmp_path)
    (tmp_path / "huge.toml").write_bytes(b"# " + b"x" * 9_000_000)
    with pytest.raises(BadInput, match="9 MB"):
        read_home(tmp_path / "huge.toml")
    (tmp_path / "latin.toml").write_bytes('name = "K\xf6fig"'.encode("latin-1"))
    with pytest.raises(BadInput, match="UTF-8"):
        read_home(tmp_path / "latin.toml")


def test_a_file_with_a_byte_order_mark_is_read(tmp_path: Path):
    (tmp_path / "bom.toml").write_bytes(b"\xef\xbb\xbf" + b'name = "Home"')
    assert read_home(tmp_path / "bom.toml").name == "Home"


def test_units_of_the_keeper_are_read():
    cage = parse_home(CAGE + 'length = "30 in"\nbar_gap = "1/2 in"\nbase_height = "3 ft"\n').enclosures[0]
    assert (cage.length_cm, cage.bar_gap_mm, cage.base_height_cm) == (76.2, 12.7, 91.44)


@pytest.mark.parametrize("text", ["1 in 50", "1:49", "2 in 100"])
def test_dilutions_are_parts_not_inches(text):
    assert parse_home(HEAD + f'[cleaning]\ndilution = "{text}"').cleaning.dilution == pytest.approx(0.02)


# --- round trips -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("home", [GOOD, parse_home(larkfield())], ids=["good", "larkfield"])
@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_read_write_read_gives_the_same_household(home, units):
    home = home.but(units=units)
    assert parse_home(home_text(home)) == home


def test_an_unchanged_home_keeps_every_byte():
    text = larkfield()
    assert home_text(parse_home(text), like=text) == text


def test_comments_order_and_units_survive_a_change():
    text = larkfield()
    home = change.both(change.enclosure("long-cage", length_cm=101.6, bar_gap_mm=9), change.duty("look", 12))(
        parse_home(text)
    )
    after = home_text(home, like=text)
    assert parse_home(after) == home
    assert 'length = "40 in"' in after
    assert "# the basket they came with" in after
    lost = {line for line in text.splitlines() if line.lstrip().startswith("#")} - set(after.splitlines())
    assert lost == set()


def test_removed_and_added_things_are_written():
    text = larkfield()
    home = parse_home(text)
    home = home.but(birds=(*home.birds[4:], Bird(id="new", species="canary")), cleaning=None, kit=None)
    after = home_text(home, like=text)
    assert parse_home(after) == home
    assert "Flint" not in after


def test_a_reordered_list_is_written_anew():
    text = larkfield()
    home = parse_home(text)
    home = home.but(birds=home.birds[::-1])
    assert parse_home(home_text(home, like=text)) == home


def test_saving_over_a_file_leaves_it_whole_when_the_folder_refuses(tmp_path: Path, monkeypatch):
    path = tmp_path / "home.toml"
    save_home(GOOD, path)
    before = path.read_bytes()

    def refuse(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.replace", refuse)
    with pytest.raises(BadInput, match="No space left"):
        save_home(GOOD.but(name="Other"), path)
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["home.toml"]


def made(part, **fields):
    """Strategy for a part of the household; by our own field names (its signature shows the file's keys)."""
    return st.fixed_dictionaries(fields).map(lambda values: part(**values))


_ids = st.text(string.ascii_lowercase, min_size=1, max_size=8)
_names = st.text(string.ascii_letters + string.digits + " #\"'\\[]={}.,éß漢🐦", min_size=1, max_size=20)
_perches = st.lists(made(Perch, id=_ids, x_cm=st.floats(0, 50), height_cm=st.floats(0, 50), diameter_mm=st.none() | st.floats(1, 40)),
                    max_size=3, unique_by=lambda p: p.id).map(tuple)  # fmt: skip
_cages = st.lists(
    made(Enclosure, id=_ids, name=_names, length_cm=st.none() | st.floats(60, 900), width_cm=st.none() | st.floats(60, 900),
              height_cm=st.none() | st.floats(60, 900), bar_gap_mm=st.none() | st.floats(1, 40), perches=st.none() | _perches,
              nests=st.none() | st.integers(0, 9), free_flight_h=st.none() | st.floats(0, 24),
              ration=st.none() | st.just((Offer(food="kale", grams_g=2.5, per_week=3, washed=True),))),
    max_size=3, unique_by=lambda e: e.id,
).map(tuple)  # fmt: skip
_homes = made(Household, name=_names, units=st.sampled_from(["metric", "imperial"]), enclosures=st.none() | _cages,
    rooms=st.none() | st.just((Room(id="r", name="R", length_cm=400, width_cm=300, temp_day_c=20.5, light_on=time(7, 15),
                                    windows=(Window(wall="left", starts_cm=1, width_cm=90, sill_cm=80, head_cm=200, bearing_deg=271.5),),
                                    things=(Thing(id="t", kind="cat"),)),)),
    birds=st.none() | st.lists(made(Bird, id=_ids, species=st.sampled_from(["canary", "budgerigar"]), mass_g=st.none() | st.floats(5, 60),
                                         hatched=st.none() | st.dates(date(2000, 1, 1), date(2026, 1, 1)), name=st.none() | _names),
                               max_size=3, unique_by=lambda b: b.id).map(tuple),
    cleaning=st.none() | made(Cleaning, dilution=st.none() | st.floats(0.0001, 1), contact_h=st.none() | st.floats(0, 5)),
    duties=st.none() | st.lists(made(Duty, kind=st.sampled_from(["look", "weigh"]), every_h=st.none() | st.floats(1, 900)), max_size=3).map(tuple),
    stores=st.none() | st.just((Store(id="s", item="kale", amount_g=12.25, opened=date(2026, 1, 2)),)),
)  # fmt: skip


@given(_homes)
@settings(max_examples=25, deadline=None)
def test_any_household_round_trips(home):
    assert parse_home(home_text(home)) == home


@given(_homes, _homes)
@settings(max_examples=20, deadline=None)
def test_any_household_can_be_written_over_another(old, new):
    assert parse_home(home_text(new, like=home_text(old))) == new


@given(st.integers(0, 4000))
@settings(max_examples=60, deadline=None)
def test_a_file_cut_off_anywhere_is_read_whole_or_refused(cut):
    text = larkfield()[:cut]
    try:
        whole = parse_home(text)
    except BadInput as error:
        told = str(error)
    else:
        told = whole.name
        tomllib.loads(text)
    assert told
