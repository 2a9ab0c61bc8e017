"""The interview asks little, skips everything, never asks what it can derive, and explains a bad answer."""

import pytest

from cuttlebone import facts
from cuttlebone.home import answers as read
from cuttlebone.home.file import parse_home
from cuttlebone.home.interview import interview, lead
from cuttlebone.home.writing import home_text


def asked(answers):
    """The keys asked, in order, when led with these answers."""
    talk, keys = interview(), []
    question = next(talk)
    while True:
        keys.append(question.key)
        assert question.ask
        assert question.why
        try:
            question = talk.send(answers.get(question.key, ""))
        except StopIteration:
            return keys


def test_every_question_can_be_skipped_and_skipped_is_unknown():
    home = lead({})
    assert home.name == "My birds"
    assert home.birds is None
    assert home.vet is None
    assert home.duties is None
    assert home.rooms[0].things is None


def test_full_answers_become_a_household():
    home = lead({
        "birds": "2 zebra finches, 1 canary cock", "sexes-zebra_finch": "1 cock, 1 hen", "cage-1-size": "30 x 18 x 18 in",
        "cage-1-gap": "1/2 in", "cage-1-base": "3 ft", "room": "living", "temp_day": "70 °F", "dangers-room": "1, cat", "dangers-home": "1",
        "cage-1-food": "foreign finch mix 20 g daily, egg food twice a week, cuttlebone always", "duty-water": "twice a day",
        "duty-weigh": "never", "vet": "yes", "sitter": "no", "country": "Great Britain", "place": "53.4 N, 2.6 W",
    })  # fmt: skip
    assert [(b.species, b.sex) for b in home.birds] == [
        ("zebra_finch", "cock"),
        ("zebra_finch", "hen"),
        ("canary", "cock"),
    ]
    (cage,) = home.enclosures
    assert (cage.length_cm, cage.width_cm, cage.bar_gap_mm) == (76.2, 45.72, 12.7)
    assert [(o.food, o.grams_g, o.per_week, o.always) for o in cage.ration] == [
        ("foreign_finch_mix", 20, 7, None), ("egg_food", None, 2, None), ("cuttlebone", None, None, True)]  # fmt: skip
    told = {d.kind: d.every_h for d in home.duties}
    assert told["water"] == 12
    assert "weigh" not in told  # never
    assert told["dishes"] is None  # not asked, so unknown
    own, rest = home.rooms
    assert [t.kind for t in own.things] == ["scented_candle", "cat"]
    assert [t.kind for t in rest.things] == ["nonstick_pan"]
    assert not own.things_known  # others were not asked about
    assert (home.vet.avian, home.country, home.latitude, home.longitude) == (True, "GB", 53.4, -2.6)
    assert home.units == "imperial"
    assert parse_home(home_text(home)) == home
    assert 'length = "30 in"' in home_text(home)


def test_sexes_are_not_asked_where_they_were_told():
    assert "sexes-canary" not in asked({"birds": "1 canary cock"})
    assert "sexes-canary" in asked({"birds": "1 canary"})


def test_who_lives_in_the_last_cage_is_derived_only_if_the_others_were_told():
    told = {"birds": "2 zebra finches, 2 canaries", "cages": "2", "cage-1-birds": "2 zebra finches"}
    assert "cage-1-birds" in asked(told)
    assert "cage-2-birds" not in asked(told)
    skipped = {"birds": "2 zebra finches, 2 canaries", "cages": "2"}
    assert "cage-2-birds" in asked(skipped)
    assert all(b.enclosure is None for b in lead(skipped).birds)


def test_food_is_not_asked_of_an_empty_cage():
    assert "cage-1-food" not in asked({})


BAD = [
    ("birds", "2 dragons"), ("birds", "900 canaries"), ("birds", "canaries"), ("cage-1-size", "30 x 18 in"), ("cage-1-size", "big"),
    ("cage-1-gap", "12"), ("temp_day", "warm"), ("room", "cellar vault"), ("country", "Atlantis"), ("vet", "maybe"), ("dangers-room", "99"),
    ("dangers-room", "1, dragon"), ("duty-water", "now and then"), ("cages", "0"),
]  # fmt: skip


@pytest.mark.parametrize(("key", "answer"), BAD)
def test_a_bad_answer_is_asked_again_with_the_reason(key, answer):
    talk = interview()
    question = next(talk)
    while question.key != key:
        question = talk.send("")
    again = talk.send(answer)
    assert again.key == key
    assert again.problem
    assert talk.send("").key != key


@pytest.mark.parametrize(("text", "expected"), [
    ("2 zebra finches", [(2, "zebra_finch", None)]),
    ("a canary and two budgies", [(1, "canary", None), (2, "budgerigar", None)]),
    ("3 bengalese finch hens; pair of gouldian finches", [(3, "bengalese_finch", "hen"), (2, "gouldian_finch", None)]),
    ("one canary cock", [(1, "canary", "cock")]),
])  # fmt: skip
def test_flocks_are_read_as_people_say_them(text, expected):
    assert [(g.count, g.species.id, g.sex) for g in read.flock(text)] == expected


@pytest.mark.parametrize(("count", "text", "expected"), [
    (2, "one of each", (1, 1)), (2, "both hens", (0, 2)), (1, "cock", (1, 0)), (1, "a hen", (0, 1)), (3, "two cocks, one hen", (2, 1)),
    (3, "1 hen", (0, 1)), (4, "all cocks", (4, 0)), (2, "2 males", (2, 0)),
])  # fmt: skip
def test_sexes_are_read_as_people_say_them(count, text, expected):
    assert read.sexes(count)(text) == expected


@pytest.mark.parametrize(("text", "expected"), [
    ("3 ft x 18 in x 45 cm", {"length": "3 ft", "width": "18 in", "height": "45 cm"}),
    ('24" x 16" x 18"', {"length": '24"', "width": '16"', "height": '18"'}),
    ("30 by 18 by 18 in", {"length": "30 in", "width": "18 in", "height": "18 in"}),
])  # fmt: skip
def test_sizes_may_mix_units(text, expected):
    assert read.size(text) == expected


@pytest.mark.parametrize(("text", "hours"), [("twice a day", "12 h"), ("every other day", "2 day"), ("3 times a week", "56 h"), ("monthly", "30 day"),
                                             ("every two weeks", "2 week"), ("never", None)])  # fmt: skip
def test_intervals_are_read(text, hours):
    assert read.interval(text) == hours


@pytest.mark.parametrize(("text", "place"), [("53.4, -2.6", (53.4, -2.6)), ("39.7 N, 105 W", (39.7, -105)), ("33.8 S, 151.2 E", (-33.8, 151.2)),
                                             ("53N 2W", (53, -2)), ("2.6 W, 53.4 N", (53.4, -2.6))])  # fmt: skip
def test_places_are_read_with_their_hemisphere(text, place):
    assert tuple(read.coordinates(text).values()) == place


@pytest.mark.parametrize("text", ["here", "53", "-53 N, 2 W", "2 W, 3 E", "91, 0", "1, 2, 3"])
def test_a_place_that_could_be_misread_is_refused(text):
    with pytest.raises(ValueError, match=r"write two numbers|latitude"):
        read.coordinates(text)


@pytest.mark.parametrize(
    ("text", "code"), [("uk", "GB"), ("USA", "US"), ("Ireland", "IE"), ("ch", "CH"), ("germany", "DE")]
)
def test_countries_are_read_by_name_or_code(text, code):
    assert read.country(text) == code


def test_every_species_is_found_by_its_plural():
    for entry in facts.entries("species").values():
        assert read.species_of(read.plural(entry.name)).id == entry.id


def test_an_unknown_food_is_refused_without_naming_poisons():
    with pytest.raises(ValueError, match="not in the list of foods") as caught:
        read.ration("moon fruit two spoons daily")
    assert "stone" not in str(caught.value)


def test_a_hazard_by_name_is_never_dropped():
    assert [h["kind"] for h in read.hazards(("incense", "cat"))("1, cat and dog")] == ["incense", "cat", "dog"]
