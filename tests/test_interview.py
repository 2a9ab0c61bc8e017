"""The interview asks little, skips everything, never asks what it can derive, and explains a bad answer."""

import pytest

from cuttlebone.home.file import home_text, parse_home
from cuttlebone.home.interview import interview, lead, read_flock, read_interval, read_ration, read_size, species_of


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


def test_every_question_can_be_skipped():
    home = lead({})
    assert home.name == "My birds"
    assert home.birds == ()
    assert home.vet is None
    assert home.duties is None


def test_full_answers_become_a_household():
    home = lead({
        "birds": "2 zebra finches, 1 canary cock", "sexes-zebra_finch": "1 cock, 1 hen", "cage-1-size": "30 x 18 x 18 in",
        "cage-1-gap": "1/2 in", "cage-1-base": "80 cm", "room": "living", "temp_day": "70 °F", "dangers": "1, 4",
        "cage-1-food": "foreign finch mix 20 g daily, egg food 2 a week, cuttlebone always", "duty-water": "twice a day",
        "duty-weigh": "never", "vet": "yes", "sitter": "no", "country": "gb", "place": "53.4, -2.6",
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
    assert [t.kind for t in home.rooms[0].things] == ["nonstick_pan", "scented_candle"]
    assert (home.vet.avian, home.country, home.latitude) == (True, "GB", 53.4)
    assert parse_home(home_text(home)) == home


def test_sexes_are_not_asked_where_they_were_told():
    assert "sexes-canary" not in asked({"birds": "1 canary cock"})
    assert "sexes-canary" in asked({"birds": "1 canary"})


def test_who_lives_in_the_last_cage_is_derived():
    keys = asked({"birds": "2 zebra finches, 2 canaries", "cages": "2", "cage-1-birds": "2 zebra finches"})
    assert "cage-1-birds" in keys
    assert "cage-2-birds" not in keys


def test_food_is_not_asked_of_an_empty_cage():
    assert "cage-1-food" not in asked({})


@pytest.mark.parametrize(("key", "answer"), [
    ("birds", "2 dragons"), ("birds", "900 canaries"), ("cage-1-size", "30 x 18 in"), ("cage-1-size", "big"), ("cage-1-gap", "12"),
    ("temp_day", "warm"), ("room", "cellar vault"), ("country", "Ireland"), ("vet", "maybe"), ("dangers", "99"),
    ("duty-water", "now and then"), ("cages", "0"),
])  # fmt: skip
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
])  # fmt: skip
def test_flocks_are_read_as_people_say_them(text, expected):
    assert [(g.count, g.species.id, g.sex) for g in read_flock(text)] == expected


def test_sizes_may_mix_units():
    assert read_size("3 ft x 18 in x 45 cm") == {"length": "3 ft", "width": "18 in", "height": "45 cm"}


@pytest.mark.parametrize(
    ("text", "hours"),
    [("twice a day", "12 h"), ("every other day", "2 day"), ("3 times a week", "56 h"), ("monthly", "30 day")],
)
def test_intervals_are_read(text, hours):
    assert read_interval(text) == hours


def test_every_species_is_found_by_its_plural():
    from cuttlebone import facts

    for entry in facts.entries("species").values():
        plural = (
            entry.name[:-1] + "ies"
            if entry.name.endswith("y")
            else entry.name + ("es" if entry.name.endswith("ch") else "s")
        )
        assert species_of(plural).id == entry.id


def test_an_unknown_food_is_refused_with_near_names():
    with pytest.raises(Exception, match="no food"):
        read_ration("moon cheese daily")
