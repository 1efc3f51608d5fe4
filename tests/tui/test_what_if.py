"""What is tried: which edits are in force, where the dials stand, what they change."""

import datetime as dt

import pytest

from scheduler.errors import QuantityError
from scheduler.money.assumed import Then
from scheduler.site import Place, Plant, PlantGroup, Pots, Site, Soil, Supply, Zone
from scheduler.watering.night_plan import Pin
from tui import session as state
from tui.session import Session
from tui.what_if import (
    Edit,
    dial,
    edited,
    in_force,
    turned,
    typed_days,
    typed_kc,
    value_text,
)

BOX = Plant(name="box", kc=0.8, kc_area="bed", kc_from="weighed")
UP, DOWN = Edit("du", 0.8, "Z4"), Edit("du", 0.75, "Z4")


def test_the_last_edit_of_a_kind_is_in_force() -> None:
    other = Edit("du", 0.6, "Z1")
    assert in_force((UP, other, DOWN)) == (other, DOWN)


def test_as_entered_takes_back_what_was_tried_in_its_zone_alone() -> None:
    other = Edit("kc factor", 0.9, "Z1")
    assert in_force((UP, other, Edit("as entered", "", "Z4"))) == (other,)


def test_a_moved_watering_of_a_renamed_zone_names_its_new_id() -> None:
    night = dt.date(2026, 6, 8)
    start = dt.datetime.combine(night, dt.time(23))
    pin = Pin("Z4", night, night, (start,))
    step = Edit("given", (), renamed=(("Z4", "north"),))
    (moved,) = in_force((Edit("move", pin, "Z4"), step))
    assert moved == Edit("move", Pin("north", night, night, (start,)), "north")


def test_units_are_no_what_if() -> None:
    assert in_force((Edit("units", "metric"),)) == ()


def test_an_allowed_part_is_said_in_percent() -> None:
    assert str(Edit("allowed", 0.35, "Z4")) == "Z4 allowed 35 %"


def test_a_dial_stands_where_the_week_has_it(opened: Session) -> None:
    plan = state.own_zone_plan(opened, "Z4")
    assert plan is not None
    assert plan.evidence is not None
    assert dial(plan, (), "Z4", "du") == plan.evidence.du_lq
    assert dial(plan, (), "Z4", "kc factor") == 1.0
    assert dial(plan, (), "Z4", "allowed") == pytest.approx(0.4)


def test_a_dial_turns_onto_a_round_number(opened: Session) -> None:
    plan = state.own_zone_plan(opened, "Z4")  # DU 0.72
    assert turned(plan, (), "Z4", "du", 1) == Edit("du", 0.75, "Z4")
    assert turned(plan, (), "Z4", "du", -1) == Edit("du", 0.7, "Z4")


def test_a_dial_turns_on_from_where_it_was_put(opened: Session) -> None:
    plan = state.own_zone_plan(opened, "Z4")
    assert turned(plan, (DOWN,), "Z4", "du", 1) == UP


def test_a_dial_stops_at_its_end(opened: Session) -> None:
    plan = state.own_zone_plan(opened, "Z4")
    assert turned(plan, (Edit("du", 0.95, "Z4"),), "Z4", "du", 1) is None


def test_a_zone_without_balance_has_no_allowed_part(opened: Session) -> None:
    plan = state.own_zone_plan(opened, "Z8")
    assert dial(plan, (), "Z8", "allowed") is None
    assert turned(plan, (), "Z8", "allowed", 1) is None


# --- what they change --------------------------------------------------------


def test_a_more_even_zone_needs_fewer_minutes(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("du", 0.9, "Z4"))
    was, now = (state.zone_plan(one, "Z4") for one in (opened, tried))
    assert was is not None
    assert now is not None
    assert now.minutes_per_day is not None
    assert was.minutes_per_day is not None
    assert now.minutes_per_day < was.minutes_per_day
    assert now.evidence is not None
    assert now.evidence.du_lq == pytest.approx(0.9)


def test_a_factor_of_the_coefficient_moves_the_use_alike(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("kc factor", 1.1, "Z4"))
    was, now = (state.zone_plan(one, "Z4") for one in (opened, tried))
    assert was is not None
    assert was.etc_mm is not None
    assert now is not None
    assert now.etc_mm == pytest.approx(1.1 * was.etc_mm)


def test_a_larger_allowed_part_raises_the_allowed_line(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("allowed", 0.5, "Z4"))
    was, now = (state.zone_plan(one, "Z4") for one in (opened, tried))
    assert was is not None
    assert was.allowed_mm is not None
    assert now is not None
    assert now.allowed_mm == pytest.approx(was.allowed_mm * 0.5 / 0.4)


def test_the_week_without_what_ifs_stays_beside(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("kc factor", 1.1, "Z4"))
    assert tried.own_plan is opened.plan
    assert tried.plan is not opened.plan


def test_dropping_what_is_tried_gives_the_own_week_back(opened: Session) -> None:
    tried = state.with_edits(opened, (UP, Edit("as entered", "", "Z4")))
    now = state.zone_plan(tried, "Z4")
    was = state.zone_plan(opened, "Z4")
    assert now is not None
    assert was is not None
    assert now.minutes_per_day == was.minutes_per_day


def _edited(zone: Zone, edit: Edit, opened: Session) -> Zone:
    assert opened.site is not None
    site = opened.site.model_copy(update={"zones": (zone,)})
    found = edited(site, edit).zone(zone.id)
    assert found is not None
    return found


def test_the_factor_counts_for_every_plant_of_the_valve(opened: Session) -> None:
    fern = PlantGroup(name="fern", plant=BOX.model_copy(update={"name": "fern"}))
    zone = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", plant=BOX,
                group=(fern,))  # fmt: skip
    now = _edited(zone, Edit("kc factor", 1.2, "F1"), opened)
    assert now.plant is not None
    assert [now.plant.kc_factor, now.group[0].plant.kc_factor] == [1.2, 1.2]


def test_a_tried_factor_comes_on_top_of_an_entered_one(opened: Session) -> None:
    plant = BOX.model_copy(update={"kc_factor": 0.5})
    zone = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", plant=plant)
    now = _edited(zone, Edit("kc factor", 1.2, "F1"), opened)
    assert now.plant is not None
    assert now.plant.kc_factor == pytest.approx(0.6)


def test_the_allowed_part_goes_to_soil_and_to_every_pot(opened: Session) -> None:
    soil = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", plant=BOX,
                soil=Soil(texture="loam", root_depth_m=0.3))  # fmt: skip
    now = _edited(soil, Edit("allowed", 0.4, "F1"), opened)
    assert now.soil is not None
    assert now.soil.allowed_depletion == 0.4
    pot = Pots(top_diameter_mm=254.0, spacing_m=0.5, available_water_ml=900.0)
    fern = PlantGroup(
        name="fern", plant=BOX.model_copy(update={"name": "fern"}), pots=pot
    )
    pots = Zone(id="F1", name="bay", area_m2=9.0, grown_in="pots", plant=BOX,
                pots=pot, group=(fern,))  # fmt: skip
    now = _edited(pots, Edit("allowed", 0.4, "F1"), opened)
    assert now.group[0].pots is not None
    assert now.group[0].pots.allowed_depletion == 0.4


def test_a_zone_without_plants_has_no_coefficient_to_turn(opened: Session) -> None:
    zone = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", watered="off")
    with pytest.raises(QuantityError, match="F1 has no plants"):
        _edited(zone, Edit("kc factor", 1.2, "F1"), opened)


def test_a_factor_that_cannot_be_is_refused(opened: Session) -> None:
    with pytest.raises(QuantityError, match="Kc factor cannot be 9"):
        state.apply_edit(opened, Edit("kc factor", 9.0, "Z4"))


def test_an_unknown_zone_is_refused(opened: Session) -> None:
    with pytest.raises(QuantityError, match="there is no zone"):
        state.apply_edit(opened, Edit("du", 0.8, "Z77"))


def test_moves_of_a_zone_on_several_nights_are_all_in_force() -> None:
    days = [dt.date(2026, 6, 8), dt.date(2026, 6, 9)]
    moves = [Edit("move", Pin("Z1", day, day, ()), "Z1") for day in days]
    assert in_force(moves) == tuple(moves)


def test_of_two_moves_of_a_watering_the_last_is_in_force() -> None:
    day = dt.date(2026, 6, 8)
    moves = [
        Edit("move", Pin("Z1", day, to, ()), "Z1") for to in (day, dt.date(2026, 6, 9))
    ]
    assert in_force(moves) == (moves[1],)


def test_the_pump_is_one_what_if_of_the_site() -> None:
    assert in_force([Edit("pump", 700.0), Edit("pump", 650.0)]) == (
        Edit("pump", 650.0),
    )


def test_the_last_price_counts_and_options_are_tried_apart() -> None:
    edits = (
        Edit("water price", 0.7, typed="2.65"),
        Edit("then", Then("a"), "Z4", "R4"),
        Edit("then", Then("b"), "Z4", "T4"),
        Edit("water price", 0.9, typed="3.41"),
    )
    assert [str(one) for one in in_force(edits)] == [
        "R4 then a", "T4 then b", "water price 0.90 per m³",
    ]  # fmt: skip


def test_a_price_typed_without_a_unit_keeps_it_in_other_units() -> None:
    edit = Edit("water price", 1.0, typed="3.79")
    assert edit.text("us") == "water price 3.79 per kgal"
    assert edit.text("metric") == "water price 1.00 per m³"


def test_parts_of_one_are_said_in_percent_and_lives_in_years() -> None:
    assert value_text("interest", 0.065, "us") == "6.5 %"
    assert value_text("life", 12.0, "us") == "12 y"
    assert value_text("days", ("mon", "thu"), "us") == "mon thu"


def test_what_was_dropped_is_no_longer_tried_and_the_rest_is() -> None:
    other = Edit("du", 0.6, "Z1")
    step = Edit("settled", "", settled=(UP,))
    assert in_force((UP, other, step)) == (other,)
    assert in_force((UP, other)) == (UP, other)


def test_what_was_dropped_may_be_tried_again() -> None:
    step = Edit("settled", "", settled=(UP,))
    assert in_force((UP, step, DOWN)) == (DOWN,)


@pytest.mark.parametrize(
    ("text", "kc"), [("0.85", 0.85), ("1,5", 1.5), ("½", 0.5), ("1 1/4", 1.25)]
)
def test_a_kc_is_read_as_people_write_it(text: str, kc: float) -> None:
    assert typed_kc(text) == pytest.approx(kc)


@pytest.mark.parametrize("text", ["0.85 in", "1.2.3", "0.8 0.9"])
def test_a_kc_with_more_behind_it_is_refused(text: str) -> None:
    with pytest.raises(QuantityError, match="is not a Kc; write it like"):
        typed_kc(text)


def test_days_are_taken_once_in_the_order_of_the_week() -> None:
    assert typed_days("Friday, mon mon") == ("mon", "fri")


@pytest.mark.parametrize("text", ["abc", "m", "mon xyz", "monk"])
def test_a_word_that_is_no_day_is_named(text: str) -> None:
    with pytest.raises(QuantityError, match=f"'{text.split()[-1]}' is not a day"):
        typed_days(text)


def test_a_comma_alone_names_no_day() -> None:
    with pytest.raises(QuantityError, match="',' names no day; give one or more of"):
        typed_days(" , ")


def test_a_refusal_says_a_value_as_people_write_it(opened: Session) -> None:
    with pytest.raises(QuantityError, match="zone Z4: Kc cannot be 0; give a number"):
        state.apply_edit(opened, Edit("kc", 0.0, "Z4"))


@pytest.mark.parametrize("flow", [0.0, -5.0, 1e6])
def test_a_pump_that_no_file_may_have_is_refused(flow: float) -> None:
    place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
                  time_zone="America/New_York")  # fmt: skip
    pump = Supply(source="well", flow_l_per_min=100.0)
    site = Site(name="a", units="us", place=place, supply=pump)
    with pytest.raises(QuantityError, match=r"pump cannot be .*at most 600,000 L/min"):
        edited(site, Edit("pump", flow))
