"""The facts load, are complete and traced, and wrong data is refused by file, entry and field."""

import pytest

from cuttlebone import facts
from cuttlebone.base.errors import BadFacts, NotFound
from cuttlebone.base.source import How
from cuttlebone.facts.load import build, kinds, parse_file

FILE = "test.toml"
GOOD = {
    "agent": {"name": "Soap", "kind": "detergent", "does": "Cleans.", "caution": "Rinse.", "suits_birds": True},
    "hazard": {
        "name": "Pan",
        "kind": "fume",
        "does": "Smokes.",
        "harm": "Kills.",
        "reach": "same dwelling",
        "soon": "hours",
    },
    "rule": {"value": 2.0, "says": "Two of them", "unit": "h", "low": 1, "high": 3},
    "food": {"name": "Leaf", "kind": "green", "wet": True, "ca_mg": 100},
    "equation": {"name": "Law", "formula": "a = b", "gives": "a", "error": "5 %"},
}


def entry(kind: str, /, **changes):
    """A right entry of a kind with some fields changed; None takes a field away."""
    row = {"source": "our-notes", "how": "memory", **GOOD[kind], **changes}
    return {"thing": {k: v for k, v in row.items() if v is not None}}


def load(kind: str, raw):
    """Validate as the loader does."""
    return build(kind, raw, FILE, facts.sources())


@pytest.mark.parametrize(
    ("kind", "least"),
    [("species", 37), ("food", 40), ("hazard", 30), ("agent", 14), ("rule", 60)],
)
def test_there_are_enough(kind: str, least: int):
    assert len(facts.entries(kind)) >= least


@pytest.mark.parametrize("kind", kinds())
def test_every_value_has_a_known_source_and_mark(kind: str):
    for e in facts.entries(kind).values():
        for field, fact in e.facts.items():
            assert fact.cite.source in facts.sources(), (kind, e.id, field)
            assert fact.cite.how in How, (kind, e.id, field)


@pytest.mark.parametrize("kind", kinds())
def test_every_entry_is_found_by_id_and_name(kind: str):
    for e in facts.entries(kind).values():
        assert facts.find(kind, e.id) is e
        assert facts.find(kind, e.name).kind == kind


@pytest.mark.parametrize("kind", ["species", "hazard", "agent"])
def test_no_alias_means_two_things(kind: str):
    seen: dict[str, str] = {}
    for e in facts.entries(kind).values():
        for name in {n.casefold() for n in (e.id, e.name, *e.aliases)}:
            assert seen.setdefault(name, e.id) == e.id, name


def test_no_name_of_a_food_means_two_foods():
    seen: dict[str, str] = {}
    for e in facts.entries("food").values():
        for name in {n.casefold() for n in (e.id, e.name, *e.aliases)}:
            assert seen.setdefault(name, e.id) == e.id, name


@pytest.mark.parametrize(
    ("kind", "word", "key"),
    [
        ("food", "bird seed", "foreign_finch_mix"),
        ("food", "Finch mix", "foreign_finch_mix"),
        ("food", "canary mix", "canary_mix"),
        ("food", "budgie mix", "budgerigar_mix"),
        ("food", "greens", "mixed_greens"),
        ("food", "lettuce", "leaf_lettuce"),
        ("food", "boiled egg", "egg_boiled"),
        ("food", "egg", "egg_boiled"),
        ("food", "oyster shell", "oyster_shell"),
        ("food", "cuttle bone", "cuttlebone"),
        ("hazard", "non-stick", "nonstick_pan"),
        ("agent", "bleach", "household_bleach"),
        ("agent", "washing-up liquid", "dish_detergent"),
    ],
)
def test_keepers_words_are_found(kind: str, word: str, key: str):
    assert facts.find(kind, word).id == key


def test_what_we_judge_of_a_food_is_not_credited_to_the_table_of_its_values():
    for e in facts.entries("food").values():
        for field in {"kind", "wet", "spoils_as"} & set(e.facts):
            assert e.facts[field].cite.source not in {"usda-sr26", "ifct-2017", "seed-tables"}, (e.id, field)
    avocado = facts.food("avocado")
    assert avocado.fact("kind").cite.source == avocado.fact("harm").cite.source == "food-toxicity-pages"
    assert avocado.fact("wet").cite.how == How.CHOICE
    assert avocado.fact("fat_g").cite.source == "usda-sr26"


def test_a_judgement_is_ours_unless_it_names_a_source_of_its_own():
    found = load("food", entry("food", kind={"value": "green", "source": "common-practice", "how": "common practice"}))
    assert found["thing"].fact("kind").cite.source == "common-practice"
    assert found["thing"].fact("wet").cite.source == "our-choice"
    assert found["thing"].fact("ca_mg").cite.source == "our-notes"


def test_a_value_from_another_work_does_not_take_the_place_in_the_entrys_work():
    raw = entry("food", where="Table 7", protein_g={"value": 3, "source": "usda-sr26", "how": "read"})
    found = load("food", raw)["thing"]
    assert found.fact("ca_mg").cite.where == "Table 7"
    assert found.fact("protein_g").cite.where == ""


def test_every_agent_that_must_never_be_met_is_an_agent():
    for e in facts.entries("agent").values():
        for other in e.facts["never_with"].value if "never_with" in e.facts else ():
            facts.agent(other)


def test_no_distance_claims_a_source():
    for e in facts.entries("hazard").values():
        if "near_cm" in e.facts:
            assert e.facts["near_cm"].cite.how == How.CHOICE, e.id


def test_coatings_reach_the_whole_dwelling_and_carry_no_number():
    ids = (
        "nonstick_pan",
        "self_cleaning_oven",
        "coated_heat_lamp",
        "iron",
        "ironing_board_cover",
        "hair_tool",
        "air_fryer",
        "coated_space_heater",
    )
    for hazard in map(facts.hazard, ids):
        assert hazard.facts["reach"].value == "same dwelling"
        assert hazard.facts["soon"].value == "hours"
        assert "near_cm" not in hazard.facts
        assert not any(c.isdigit() for f in hazard.facts.values() for c in str(f))


@pytest.mark.parametrize("kind", GOOD)
def test_right_data_loads(kind: str):
    assert load(kind, entry(kind))["thing"].id == "thing"


def wrong(kind: str, field: str, /, **changes):
    """A wrong entry and the field that must be named."""
    return pytest.param(
        kind, entry(kind, **changes), field, id=f"{kind}-{field}-{'-'.join(f'{v}' for v in changes.values())[:40]}"
    )


WRONG = [
    wrong("agent", "name", name=None),
    wrong("agent", "name", name=""),
    wrong("agent", "kind", kind=None),
    wrong("agent", "kind", kind="magic"),
    wrong("agent", "kind", kind=3),
    wrong("agent", "does", does=""),
    wrong("agent", "caution", caution=None),
    wrong("agent", "suits_birds", suits_birds=None),
    wrong("agent", "suits_birds", suits_birds="yes"),
    wrong("agent", "suits_birds", suits_birds=1),
    wrong("agent", "contact_min", contact_min="ten"),
    wrong("agent", "contact_min", contact_min=True),
    wrong("agent", "contact_min", contact_min=-1),
    wrong("agent", "contact_min", contact_min=241),
    wrong("agent", "contact_min", contact_min=float("nan")),
    wrong("agent", "strength_pct", strength_pct=101),
    wrong("agent", "never_with", never_with=5),
    wrong("agent", "colour", colour="blue"),
    wrong("agent", "kind", source="nobody-2020"),
    wrong("agent", "kind", source=None),
    wrong("agent", "kind", how="guessed"),
    wrong("agent", "kind", how=None),
    wrong("agent", "strength_pct", strength_pct={"value": 5, "source": "nobody-2020"}),
    wrong("agent", "strength_pct", strength_pct={"value": 5, "how": "hearsay"}),
    wrong("agent", "strength_pct", strength_pct={"low": 2, "high": 6}),
    wrong("agent", "strength_pct", strength_pct={"value": 5, "low": 6}),
    wrong("agent", "strength_pct", strength_pct={"value": 5, "high": 4}),
    wrong("agent", "strength_pct", strength_pct={"value": 5, "about": 1}),
    wrong("hazard", "reach", reach="everywhere"),
    wrong("hazard", "soon", soon="years"),
    wrong("hazard", "soon", soon=None),
    wrong("hazard", "harm", harm=None),
    wrong("hazard", "flame", flame="yes"),
    wrong("hazard", "near_cm", near_cm=1001),
    wrong("hazard", "near_cm", near_cm=[100]),
    wrong("rule", "value", value=None),
    wrong("rule", "value", value="two"),
    wrong("rule", "value", value=0.5),
    wrong("rule", "value", value=4.0),
    wrong("rule", "says", says=None),
    wrong("rule", "limit", limit=4),
    wrong("food", "kind", kind="meat"),
    wrong("food", "wet", wet=None),
    wrong("food", "water_g", water_g=100.5),
    wrong("food", "ca_mg", ca_mg=-0.1),
    wrong("food", "spoils_as", spoils_as="fast"),
    wrong("equation", "error", error=None),
    wrong("equation", "formula", formula=3),
]


@pytest.mark.parametrize(("kind", "raw", "field"), WRONG)
def test_wrong_data_is_refused_by_file_entry_and_field(kind: str, raw, field: str):
    with pytest.raises(BadFacts) as caught:
        load(kind, raw)
    assert (caught.value.file, caught.value.entry) == (FILE, "thing")
    assert caught.value.field == field
    assert all(part in str(caught.value) for part in (FILE, "thing", field))


def test_an_entry_that_is_no_table_is_refused():
    with pytest.raises(BadFacts, match="must be a table"):
        load("agent", {"thing": 3})


def test_a_file_that_is_no_toml_is_refused():
    with pytest.raises(BadFacts, match=r"bad\.toml"):
        parse_file("bad.toml", "[thing\nname = 3")


def test_csv_cells_are_read_as_what_they_are():
    rows = parse_file("foods.csv", "id,name,wet,ca_mg,p_mg\nleaf,Leaf,yes,100,\n")
    assert rows == {"leaf": {"name": "Leaf", "wet": True, "ca_mg": 100.0}}


@pytest.mark.parametrize(
    ("kind", "name", "near"),
    [("agent", "household_bleech", "household_bleach"), ("hazard", "nonstick pans", "nonstick_pan")],
)
def test_a_misspelt_name_is_answered_with_the_nearest(kind: str, name: str, near: str):
    with pytest.raises(NotFound, match=near):
        facts.find(kind, name)


def test_a_kind_that_is_none_is_refused():
    with pytest.raises(NotFound, match="kind of fact"):
        facts.entries("colour")


def test_search_finds_by_words_anywhere():
    assert facts.hazard("nonstick_pan") in facts.search("coating overheats", "hazard")
    assert facts.search("bleach")[0].id == "household_bleach"
