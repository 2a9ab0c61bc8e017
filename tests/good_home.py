"""A household that meets everything: every check finds it fine, or at worst says what would be better.

Tests spoil one thing of it at a time. Invented; not the demo.
"""

from datetime import date, time

from cuttlebone.home.model import (
    Away,
    Bird,
    CageDoor,
    Cleaning,
    Dish,
    Duty,
    Enclosure,
    Household,
    Kit,
    Offer,
    Opening,
    Perch,
    Person,
    Room,
    Spare,
    Store,
    Vet,
    Window,
)  # fmt: skip

TODAY = date(2026, 11, 25)

ROOM = Room(
    id="sitting-room", name="Sitting room", kind="living room", length_cm=520, width_cm=420, height_cm=260, up_bearing_deg=0,
    windows=(Window(wall="top", starts_cm=150, width_cm=150, sill_cm=90, head_cm=210, bearing_deg=0, blind=True, opens=True),),
    openings=(Opening(to="outside", wall="right", starts_cm=300, width_cm=90, usually_open=False),),
    things=(), temp_day_c=21, temp_night_c=18, temp_max_c=24, humidity_pct=50, coldest_surface_c=16,
    light_on=time(8, 0), light_off=time(18, 30), lamp_flickers=False, dark_at_night=True, co_alarm=True, thermometer=True,
)  # fmt: skip

KITCHEN = Room(
    id="kitchen", name="Kitchen", kind="kitchen", length_cm=300, width_cm=260, height_cm=260, windows=(), openings=(), things=(),
)  # fmt: skip

FLIGHT = Enclosure(
    id="flight", name="The flight", room="sitting-room", x_cm=170, y_cm=5, turned="along", faces="top", base_height_cm=95, shape="box",
    length_cm=160, width_cm=50, height_cm=100, bar_gap_mm=10, bars="stainless", bars_sound=True, closed_sides=("back",),
    perches=(
        Perch(id="left", x_cm=10, height_cm=60, diameter_mm=10, material="branch"),
        Perch(id="right", x_cm=150, height_cm=60, diameter_mm=8, material="branch"),
        Perch(id="low", x_cm=30, height_cm=35, diameter_mm=12, material="branch"),
    ),
    dishes=(
        Dish(id="water-1", holds="water", x_cm=55, y_cm=8, height_cm=20, width_cm=6, covered=True),
        Dish(id="water-2", holds="water", x_cm=125, y_cm=8, height_cm=20, width_cm=6, covered=True),
        Dish(id="seed-1", holds="seed", x_cm=45, y_cm=8, height_cm=20, width_cm=8, covered=False),
        Dish(id="seed-2", holds="seed", x_cm=135, y_cm=8, height_cm=20, width_cm=8, covered=False),
        Dish(id="wet", holds="wet food", x_cm=95, y_cm=8, height_cm=20, width_cm=6, covered=False),
        Dish(id="bath", holds="bath", x_cm=80, y_cm=25, height_cm=0, width_cm=14, covered=False),
        Dish(id="lime", holds="calcium", x_cm=70, y_cm=48, height_cm=55, width_cm=4, covered=False),
    ),
    doors=tuple(CageDoor(side="front", x_cm=x, height_cm=h, width_cm=30, tall_cm=40) for x in (5, 45, 85, 125) for h in (5, 50)),
    lamps=(), partition=True, tray=True, night_cover=True, substrate="newspaper", nests=0, toys=(), air_speed_m_s=0.08, draughty=False,
    free_flight_h=1, purpose="home", breeding_wanted=False, husks_removed=True,
    ration=(
        Offer(food="foreign_finch_mix", grams_g=5, per_week=7),
        Offer(food="finch_pellets", grams_g=5, per_week=7),
        Offer(food="cuttlebone", always=True, grams_g=0.5, per_week=1),
        Offer(food="egg_food", grams_g=5, per_week=3, out_h=1.5),
        Offer(food="kale", grams_g=1, per_week=7, out_h=2, washed=True),
        Offer(food="peas", grams_g=1, per_week=7, out_h=1.5, washed=True),
    ),
)  # fmt: skip

GOOD = Household(
    name="Good home", country="GB", latitude=52.95, longitude=-1.15, time_zone="Europe/London", hold_to=(),
    people=(
        Person(id="ada", name="Ada", role="keeper", waist_height_cm=95, shoulder_height_cm=135, arm_reach_cm=60, higher_risk=False,
               away=(Away(days=("mon", "tue", "wed", "thu", "fri"), leaves=time(9, 0), returns=time(15, 30)),)),
        Person(id="ben", name="Ben", role="helper", away=(), phone="in the address book", higher_risk=False),
    ),
    vet=Vet(name="The bird practice", avian=True, phone="by the door", out_of_hours="by the door"),
    rooms=(ROOM, KITCHEN),
    enclosures=(FLIGHT,),
    birds=(
        Bird(id="pip", name="Pip", species="zebra_finch", enclosure="flight", sex="hen", sexed_by="plumage", hatched=date(2024, 5, 1),
             came=date(2024, 9, 1), ring="A-1", mass_g=13, weighed=date(2026, 11, 22), sire=None, dam=None, quarrels_with=(),
             bonded_with=("dot",), state=()),
        Bird(id="dot", name="Dot", species="zebra_finch", enclosure="flight", sex="hen", sexed_by="plumage", hatched=date(2024, 6, 1),
             came=date(2024, 9, 1), ring="A-2", mass_g=13, weighed=date(2026, 11, 22), quarrels_with=(), bonded_with=("pip",), state=()),
    ),
    stores=(
        Store(id="mix", item="foreign_finch_mix", amount_g=800, opened=date(2026, 11, 1), best_before=date(2027, 8, 1), closed_dry=True),
        Store(id="pellets", item="finch_pellets", amount_g=500, opened=date(2026, 11, 1), best_before=date(2027, 6, 1), closed_dry=True),
        Store(id="egg", item="egg_food", amount_g=200, opened=date(2026, 11, 1), best_before=date(2027, 3, 1), closed_dry=True),
        Store(id="lime", item="cuttlebone", amount_g=60, opened=None, best_before=date(2030, 1, 1), closed_dry=True),
    ),
    spares=(Spare(kind="water dish", total=6), Spare(kind="seed dish", total=4), Spare(kind="wet food dish", total=3),
            Spare(kind="perch set", total=2), Spare(kind="bath", total=2), Spare(kind="cover", total=2)),
    kit=(Kit(kind="gram scale", resolution_g=0.1), Kit(kind="carry box", count=1), Kit(kind="hospital cage", count=1),
         Kit(kind="thermometer", count=1), Kit(kind="dust mask", count=5), Kit(kind="dummy eggs", count=6), Kit(kind="spare cage", count=1)),
    cleaning=Cleaning(agent="household_bleach", label_strength_pct=5, dilution=1 / 32, contact_h=0.25, washed_first=True, rinsed=True,
                      birds_out=True, mixed_with=(), wetted_first=True, mask=True, drying_h=8),
    duties=(
        Duty(kind="look", every_h=12, at=(time(7, 30), time(17, 0)), who=("ada",)),
        Duty(kind="water", every_h=12, at=(time(7, 30), time(17, 0)), who=("ada",)),
        Duty(kind="seed", every_h=24, at=(time(7, 30),), who=("ada",)),
        Duty(kind="wet food", every_h=56, who=("ada",)),
        Duty(kind="greens", every_h=24, who=("ada",)),
        Duty(kind="spot clean", every_h=24, who=("ada",)),
        Duty(kind="deep clean", every_h=168, who=("ada",)),
        Duty(kind="dishes", every_h=24, who=("ada",)),
        Duty(kind="bath", every_h=72, who=("ada",)),
        Duty(kind="weigh", every_h=168, who=("ada",)),
        Duty(kind="cover", every_h=24, at=(time(18, 30),), who=("ada",)),
        Duty(kind="count stores", every_h=168, who=("ada",)),
        Duty(kind="nails", every_h=720, who=("ada",)),
        Duty(kind="airing", every_h=24, who=("ada",)),
        Duty(kind="perches", every_h=168, who=("ada",)),
    ),
)  # fmt: skip
