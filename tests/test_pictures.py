"""The pictures are true to scale, well formed, and honest about what is not known."""

import re
import xml.etree.ElementTree as ET
from math import cos, hypot, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttlebone.base.finding import Severity
from cuttlebone.home.model import Dish, Enclosure, Lamp, Opening, Perch, Room, Thing, Window
from cuttlebone.pictures import Flight, Stature, css, elevation, room_plan, sign, sun_patches
from cuttlebone.pictures.marks import outline
from cuttlebone.pictures.svg import Box, Point, Sheet
from tests.good_home import FLIGHT, GOOD, ROOM, TODAY
from tests.sample_answer import FINDINGS, HOSTILE, SMALL, STUDY

NS = "{http://www.w3.org/2000/svg}"


def read(drawing):
    return ET.fromstring(drawing.svg)  # noqa: S314 - our own text


def item(root, name, attribute="data-item"):
    return next(e for e in root.iter() if e.get(attribute) == name)


def numbers(element, *names):
    return tuple(float(element.get(n)) for n in names)


def cage_of(root):
    return Box(*numbers(item(root, "cage", "data-part"), "x", "y", "width", "height"))


def words(root):
    return " ".join(e.text or "" for e in root.iter(f"{NS}text"))


def test_a_perch_lies_at_its_share_of_the_cage():
    root = read(elevation(FLIGHT, GOOD.birds))
    cage = cage_of(root)
    x, y = numbers(item(root, "perch:left"), "cx", "cy")
    assert (x - cage.x) / cage.width == pytest.approx(10 / 160, abs=1e-3)
    assert (cage.y + cage.height - y) / cage.height == pytest.approx(60 / 100, abs=1e-3)


def test_the_cage_keeps_its_shape():
    cage = cage_of(read(elevation(FLIGHT)))
    assert cage.width / cage.height == pytest.approx(160 / 100, rel=1e-3)


def test_perches_are_as_thick_and_long_as_they_are():
    perch = Perch(id="long", x_cm=20, x_end_cm=100, height_cm=40, diameter_mm=20)
    root = read(elevation(FLIGHT.but(perches=(perch, FLIGHT.perches[0]))))
    scale = cage_of(root).width / 160
    assert numbers(item(root, "perch:long"), "width", "height") == pytest.approx((80 * scale, 2 * scale), abs=0.02)
    assert numbers(item(root, "perch:left"), "r")[0] == pytest.approx(0.5 * scale, abs=0.01)


@given(length=st.floats(20, 400), height=st.floats(20, 300), share=st.floats(0, 1))
def test_any_dish_lies_at_its_share_of_any_cage(length, height, share):
    dish = Dish(id="d", holds="water", x_cm=share * length, height_cm=0, width_cm=5)
    cage = Enclosure(id="c", name="C", length_cm=length, height_cm=height, dishes=(dish,))
    root = read(elevation(cage))
    box = cage_of(root)
    corners = [float(p.split(",")[0]) for p in item(root, "dish:d").get("points").split()]
    assert (min(corners) + max(corners)) / 2 == pytest.approx(box.x + share * box.width, abs=0.02)


@pytest.mark.parametrize("species", ["zebra_finch", "budgerigar", "king_quail"])
def test_a_bird_is_as_long_as_its_kind(species):
    bird = GOOD.birds[0].but(species=species, body_length_cm=14.0)
    root = read(elevation(FLIGHT, [bird]))
    shape = item(root, f"bird:{species}")
    (bx, by), (tx, ty) = (map(float, shape.get(f"data-{end}").split(",")) for end in ("bill", "tail"))
    assert hypot(bx - tx, by - ty) == pytest.approx(14 * cage_of(root).width / 160, abs=0.03)


def test_gap_and_head_share_one_scale():
    root = read(elevation(FLIGHT, GOOD.birds))
    left, right = [Box(*numbers(e, "x", "y", "width", "height")) for e in root.iter() if e.get("data-part") == "bar"]
    head = 2 * numbers(item(root, "head", "data-part"), "r")[0]
    assert (right.x - left.x - left.width) / head == pytest.approx(10 / 12.5, rel=1e-2)


def test_the_stand_and_the_waist_share_one_scale():
    root = read(elevation(FLIGHT, stature=Stature(95, 135, "a waist")))
    standing = Box(*numbers(item(root, "standing", "data-part"), "x", "y", "width", "height"))
    assert numbers(item(root, "waist", "data-part"), "y1")[0] == pytest.approx(standing.y + standing.height, abs=0.02)


def test_the_flight_arrow_runs_from_perch_to_perch():
    root = read(elevation(FLIGHT, flight=Flight(10, 150, 60)))
    cage = cage_of(root)
    arrow = next(e for e in root.iter(f"{NS}line") if e.get("class") == "cb-go")
    assert abs(float(arrow.get("x2")) - float(arrow.get("x1"))) / cage.width == pytest.approx(140 / 160, abs=1e-3)
    assert "140 cm" in words(root)


def test_an_enclosure_stands_at_its_share_of_the_room():
    root = read(room_plan(ROOM, [FLIGHT]))
    room = Box(*numbers(item(root, "room", "data-part"), "x", "y", "width", "height"))
    cage = Box(*numbers(item(root, "enclosure:flight"), "x", "y", "width", "height"))
    assert room.width / room.height == pytest.approx(520 / 420, rel=1e-3)
    assert (cage.x - room.x) / room.width == pytest.approx(170 / 520, abs=1e-3)
    assert (room.y + room.height - cage.y - cage.height) / room.height == pytest.approx(5 / 420, abs=1e-3)
    assert cage.width / room.width == pytest.approx(160 / 520, abs=1e-3)


def test_a_turned_enclosure_swaps_its_sides():
    root = read(room_plan(ROOM, [FLIGHT.but(turned="across", faces="right")]))
    wide, high = numbers(item(root, "enclosure:flight"), "width", "height")
    assert high / wide == pytest.approx(160 / 50, rel=1e-2)
    assert item(root, "front-right", "data-part") is not None


def test_the_scale_bar_is_a_metre_long():
    root = read(room_plan(ROOM))
    a, b = numbers(item(root, "scale", "data-part"), "x1", "x2")
    room = numbers(item(root, "room", "data-part"), "width")[0]
    assert (b - a) / room == pytest.approx(100 / 520, rel=1e-3)


@pytest.mark.parametrize(("up", "turn"), [(0, 0), (90, -90), (200, -200)])
def test_north_is_turned_by_the_bearing_of_up(up, turn):
    root = read(room_plan(ROOM.but(up_bearing_deg=float(up))))
    assert float(item(root, "north", "data-part").get("data-turn")) == turn


def test_north_is_left_out_if_unknown():
    drawing = room_plan(ROOM.but(up_bearing_deg=None, windows=()))
    assert all(e.get("data-part") != "north" for e in read(drawing).iter())
    assert any("north" in line for line in drawing.missing)


def test_the_sun_comes_through_a_south_window_at_noon():
    window = Window(wall="bottom", starts_cm=100, width_cm=100, sill_cm=60, head_cm=200, bearing_deg=180)
    room = Room(id="s", name="S", length_cm=400, width_cm=300, windows=(window,), openings=(), things=())
    patches = sun_patches(room, TODAY, 52.95, -1.15, "Europe/London")
    assert 1 <= len(patches) <= 3
    drawn = [e for e in read(room_plan(room, patches=patches)).iter() if (e.get("data-item") or "").startswith("sun:")]
    assert len(drawn) == sum(len(p.shapes) for p in patches)


@pytest.mark.parametrize(
    "change",
    [
        {"windows": None},
        {"length_cm": None},
        {"up_bearing_deg": None, "windows": (Window(wall="top", starts_cm=0, width_cm=50, sill_cm=0, head_cm=90),)},
    ],
)
def test_the_sun_is_not_guessed(change):
    assert sun_patches(ROOM.but(**change), TODAY, 52.95, -1.15, "Europe/London") is None


def test_no_sun_without_a_place_and_none_through_a_north_window_in_winter():
    assert sun_patches(ROOM, TODAY, None, None, None) is None
    assert sun_patches(ROOM, TODAY, 52.95, -1.15, "Europe/London") == ()
    assert any("No sun" in note for note in room_plan(ROOM, patches=()).notes)


def test_unknown_size_is_said_instead_of_drawn():
    front, plan = elevation(FLIGHT.but(length_cm=None, height_cm=None)), room_plan(ROOM.but(width_cm=None))
    assert not front.drawn
    assert front.missing == ("its length is unknown", "its height is unknown")
    assert "width is unknown" in words(read(plan))


def test_everything_else_may_be_unknown():
    bare = Enclosure(id="c", name="C", length_cm=60, height_cm=40)
    drawing = elevation(bare)
    assert {"Perches are not told", "Dishes are not told", "Doors are not told"} <= set(drawing.missing)
    plan = room_plan(Room(id="r", name="R", length_cm=300, width_cm=300), [bare])
    assert any("C is not drawn" in line for line in plan.missing)
    assert any("windows are not told" in line for line in plan.missing)


def test_a_placeless_thing_is_listed():
    plan = room_plan(STUDY, [SMALL])
    assert any("is not drawn: where it is in the room is not told" in line for line in plan.missing)


def test_hostile_names_are_escaped():
    cage = FLIGHT.but(name=HOSTILE, perches=(Perch(id="p", x_cm=5, height_cm=5),))
    room = Room(id="r", name=HOSTILE, length_cm=500, width_cm=400, windows=(), things=(),
                openings=(Opening(to="x", wall="left", starts_cm=0, width_cm=80),))  # fmt: skip
    for drawing in (elevation(cage, key=HOSTILE), room_plan(room, [cage], names={"x": HOSTILE}, key=HOSTILE)):
        root = read(drawing)
        assert root.find(f"{NS}title").text.startswith(("Front of Pip </title>", "Plan of Pip </title>"))
        assert "<script" not in drawing.svg
        assert "\x07" not in drawing.svg


def test_each_picture_is_named_for_screen_readers_with_its_own_ids():
    ids = []
    for drawing in (elevation(FLIGHT, key="one"), elevation(FLIGHT, key="two"), room_plan(ROOM)):
        root = read(drawing)
        assert root.get("role") == "img"
        labels = root.get("aria-labelledby").split()
        assert [root.find(f"{NS}title").get("id"), root.find(f"{NS}desc").get("id")] == labels
        ids += [e.get("id") for e in root.iter() if e.get("id")]
    assert len(ids) == len(set(ids))


def test_no_element_carries_a_style_or_colour_of_its_own():
    drawing = room_plan(STUDY, [SMALL], dict(enumerate(FINDINGS[:4], 1)))
    assert not re.search(r'\s(style|fill|stroke)="', drawing.svg)


def test_a_standalone_picture_has_its_style():
    root = ET.fromstring(elevation(FLIGHT).standalone().encode())  # noqa: S314 - our own text
    assert "prefers-color-scheme" in root.find(f"{NS}style").text


def test_every_letter_in_the_picture_is_explained():
    drawing = elevation(FLIGHT, GOOD.birds)
    tags = {e.text for e in read(drawing).iter(f"{NS}text") if e.get("class") == "cb-tag-text"}
    assert tags == {key.letter for key in drawing.keys}
    assert len(tags) == len(FLIGHT.perches) + len(FLIGHT.dishes)


def test_letters_do_not_cover_each_other():
    root = read(elevation(FLIGHT, GOOD.birds))
    tags = [Box(*numbers(e, "x", "y", "width", "height")) for e in root.iter() if e.get("class") == "cb-tag"]
    assert not [1 for i, a in enumerate(tags) for b in tags[i + 1 :] if a.meets(b)]


def test_severities_differ_in_shape_and_not_in_colour_alone():
    shapes = {severity: len(outline(severity, Point(0, 0), 10)) for severity in Severity}
    assert len({tuple(outline(s, Point(0, 0), 10)) for s in Severity}) == len(Severity)
    assert shapes[Severity.ACT_NOW] == 8
    assert len({css(s) for s in Severity}) == len(Severity)
    assert "1" in sign(Severity.ACT_NOW, "1")


def test_findings_are_numbered_by_their_rank():
    root = read(room_plan(STUDY, [SMALL], {1: FINDINGS[0], 2: FINDINGS[1], 9: FINDINGS[4]}))
    assert {e.get("data-finding") for e in root.iter() if e.get("data-finding")} == {"1", "2"}


def test_many_findings_stay_inside_the_sheet():
    findings = dict.fromkeys(range(1, 31), FINDINGS[1])
    root = read(elevation(SMALL, (), findings))
    top = cage_of(root).y
    rows = [e for e in root.iter(f"{NS}polygon") if e.get("data-finding")]
    assert len(rows) == 30
    assert all(
        float(p.split(",")[1]) < top and 0 < float(p.split(",")[0]) < 360 for e in rows for p in e.get("points").split()
    )


@given(angle=st.floats(0, 2 * pi), far=st.floats(0, 40))
def test_a_free_place_meets_nothing_kept(angle, far):
    sheet = Sheet("s", 300)
    sheet.keep(Box(150, 120, 60, 60))
    spot = sheet.free(Point(180 + far * cos(angle), 150 + far * sin(angle)), 20, 20)
    assert not Box(spot.x - 10, spot.y - 10, 20, 20).meets(Box(150, 120, 60, 60))


@given(st.text(max_size=40))
def test_any_name_gives_well_formed_pictures(name):
    read(elevation(FLIGHT.but(name=name), key=name))
    read(
        room_plan(
            ROOM.but(name=name, things=(Thing(id="t", kind="cat", x_cm=1, y_cm=1),)), [FLIGHT.but(name=name)], key=name
        )
    )


@pytest.mark.parametrize("shape", ["box", "round", "dome", "pagoda"])
@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_every_shape_is_drawn_in_either_system(shape, units):
    drawing = elevation(FLIGHT.but(shape=shape, closed_sides=("left", "top")), GOOD.birds, units=units)
    assert ("63 in long" if units == "imperial" else "160 cm long") in words(read(drawing))


def test_the_figure_is_a_whole_person_without_told_heights():
    root = read(elevation(FLIGHT, GOOD.birds, stature=Stature(90)))
    parts = [e.get("data-part") for e in root.iter()]
    assert {part: parts.count(part) for part in ("leg", "arm", "trunk", "person-head")} == {
        "leg": 2,
        "arm": 2,
        "trunk": 1,
        "person-head": 1,
    }
    _, y, r = numbers(item(root, "person-head", "data-part"), "cx", "cy", "r")
    waist = numbers(item(root, "waist", "data-part"), "y1")[0]
    assert y + r < waist


def test_lamps_are_drawn_with_their_line_in_the_list():
    lamps = (Lamp(id="warm", kind="heat lamp", power_w=60, distance_cm=20), Lamp(id="day", kind="daylight"))
    drawing = elevation(FLIGHT.but(lamps=lamps), GOOD.birds)
    root = read(drawing)
    box = cage_of(root)
    for lamp in lamps:
        assert numbers(item(root, f"lamp:{lamp.id}"), "cy")[0] < box.y
    said = [key.words for key in drawing.keys]
    assert "heat lamp, 60 W, 20 cm from the nearest place a bird can be" in said
    assert "daylight lamp, how near a bird can come is not told" in said


def test_more_findings_than_numbers_are_counted():
    assert "and 5 more in the list" in words(read(elevation(FLIGHT, GOOD.birds, more=5)))


def test_perches_are_called_by_their_names():
    perches = tuple(
        p.but(material=m) for p, m in zip(FLIGHT.perches, ("dowel", "sandpaper sleeve", "branch"), strict=True)
    )
    said = " ".join(key.words for key in elevation(FLIGHT.but(perches=perches), GOOD.birds).keys)
    assert "left perch, a dowel" in said
    assert "right perch, with a sandpaper sleeve" in said


def test_a_list_of_things_that_may_be_longer_says_so():
    cat = (Thing(id="puss", kind="cat", used=True),)
    plan = room_plan(ROOM.but(things=cat, things_complete=False))
    assert "The cat is not drawn: where it is in the room is not told" in plan.missing
    assert any("more things" in line for line in plan.missing)
