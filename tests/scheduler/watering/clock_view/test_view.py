"""A night plan as a clock holds it."""

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest

from scheduler.site import Controller, Place, Site, Supply, Window, Zone
from scheduler.watering.clock_view import ClockView, Keyed, clock_view, clock_views
from scheduler.watering.night_plan.result import NightPlan, NightSummary, PlannedRun

MONDAY = dt.date(2026, 6, 8)
DATES = tuple(MONDAY + dt.timedelta(days=day) for day in range(7))
PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC"
)


def site(**controller: Any) -> Site:
    zones = tuple(
        Zone(id=f"Z{i}", name=f"Z{i}", area_m2=100.0, grown_in="soil", watered="off")
        for i in (1, 2, 3)
    )
    return Site(
        name="bay",
        units="us",
        place=PLACE,
        zones=zones,
        windows=(Window(start=dt.time(22), end=dt.time(4)),),
        supply=Supply(source="well", flow_l_per_min=100.0),
        controller=Controller(**controller),
    )


def night(*runs: tuple[str, int, int, float]) -> NightPlan:
    """Runs of every night: zone, start after 22:00, minutes, flow."""
    planned = []
    for date in DATES:
        ten = dt.datetime.combine(date, dt.time(22))
        for zone, after, minutes, flow in runs:
            start = ten + dt.timedelta(minutes=after)
            end = start + dt.timedelta(minutes=minutes)
            planned.append(PlannedRun(zone, date, start, end, flow))
    none = NightSummary(True, None, None, "", None, None, 2, ())
    return NightPlan(tuple(planned), (), none, ())


def view(
    *runs: tuple[str, int, int, float], keyed: tuple[Keyed, ...] = (), **clock: Any
) -> ClockView:
    found = clock_view(site(**clock), night(*runs), DATES, soak_min={}, keyed=keyed)
    assert found is not None
    return found


APART = ("Z1", 0, 20, 60.0), ("Z2", 30, 15, 50.0)
TOGETHER = ("Z1", 0, 20, 40.0), ("Z2", 5, 15, 50.0)


def test_a_week_without_a_timetable_has_no_view() -> None:
    assert clock_view(site(), night(), DATES, soak_min={}) is None


def test_a_clock_that_nobody_described_is_neither_held_nor_not() -> None:
    assert view(*APART).is_held is None


def test_a_clock_with_enough_programs_holds_the_week() -> None:
    assert view(*APART, programs=2).is_held is True


def test_too_few_programs_come_with_the_nearest_week_and_what_it_moves() -> None:
    found = view(*APART, programs=1)
    assert found.nearest is not None
    assert (found.is_held, len(found.nearest)) == (False, 1)
    assert [(one.zone, one.minutes) for one in found.moved] == [("Z2", -10)] * 7


def test_programs_at_once_are_named() -> None:
    assert view(*TOGETHER).overlaps == (("A", "B"),)


def test_a_clock_that_waits_runs_the_later_program_later() -> None:
    found = view(*TOGETHER, programs_overlap=False)
    assert found.is_held is False
    assert {(one.zone, one.minutes) for one in found.moved} == {("Z2", 15)}


def test_a_wait_past_the_window_is_no_way_out() -> None:
    late = ("Z1", 340, 20, 40.0), ("Z2", 342, 15, 50.0)
    assert view(*late, programs_overlap=False).nearest is None


def test_the_nearest_week_that_runs_two_programs_at_once_asks_whether_it_may() -> None:
    # Z3 joins Z1 at 23:00; Z2 runs beside them at 22:10
    three = ("Z1", 0, 60, 30.0), ("Z2", 10, 20, 30.0), ("Z3", 90, 20, 30.0)
    found = view(*three, programs=2)
    assert found.nearest is not None
    assert any("run at the same time" in one.what for one in found.findings)


def test_a_clock_that_waits_does_so_in_its_nearest_week_too() -> None:
    # nothing overlaps as planned; with Z3 at 22:20, behind Z1, Z2 waits until 22:40
    every = night(("Z1", 0, 20, 40.0), ("Z3", 30, 20, 40.0))
    other = night(("Z2", 22, 6, 40.0)).runs
    runs = (*every.runs, *(one for one in other if one.night in DATES[1:6:2]))
    found = clock_view(
        site(programs=2, programs_overlap=False), replace(every, runs=runs), DATES,
        soak_min={},
    )  # fmt: skip
    assert found is not None
    assert found.overlaps == ()
    assert {(one.zone, one.minutes) for one in found.moved} == {("Z3", -10), ("Z2", 18)}


def test_one_percent_is_named_where_it_gives_every_zone_its_minutes() -> None:
    keyed = Keyed("Z1", 22.0, 20), Keyed("Z2", 16.5, 15)
    assert view(*APART, keyed=keyed).percent_for_all == 91


def test_a_percent_for_all_needs_all_zones() -> None:
    assert view(*APART, keyed=(Keyed("Z1", 22.0, 20),)).percent_for_all is None


def test_a_zone_has_its_own_percent() -> None:
    (way,) = view(*APART, keyed=(Keyed("Z1", 24.0, 20),)).percent_ways
    assert (way.zone, way.percent) == ("Z1", 83)


def test_percent_adjust_must_read_a_hundred() -> None:
    assert view(*APART, percent_adjust=80).percent_adjust == 100


def test_the_number_of_programs_can_be_explained() -> None:
    trace = view(*APART, programs=4).traces[0]
    assert (trace.value, trace.inputs[0].value) == (2.0, 4)


NORTH, SOUTH = Controller(id="N", name="north", programs=1), Controller(id="S")


def two_clocks(**south: Any) -> Site:
    zones = tuple(
        one.model_copy(update={"controller": clock})
        for one, clock in zip(site().zones, ("N", "S", "N"), strict=True)
    )
    given = {
        "zones": zones,
        "controller": NORTH,
        "more_controllers": (SOUTH.model_copy(update=south),),
    }
    return site().model_copy(update=given)


def views(*runs: tuple[str, int, int, float], **south: Any) -> tuple[ClockView, ...]:
    return clock_views(two_clocks(**south), night(*runs), DATES, soak_min={})


def test_each_clock_has_the_programs_of_its_own_zones() -> None:
    found = views(*TOGETHER)
    assert [
        (one.name, [two.zone for program in one.programs for two in program.stations])
        for one in found
    ] == [("N north", ["Z1"]), ("S", ["Z2"])]


def test_programs_of_two_clocks_at_once_do_not_overlap() -> None:
    assert [one.overlaps for one in views(*TOGETHER)] == [(), ()]


def test_a_clock_without_water_has_no_view() -> None:
    assert [one.id for one in views(("Z1", 0, 20, 40.0))] == ["N"]


def test_the_nearest_week_of_one_clock_leaves_the_pump_to_the_other() -> None:
    # Z3 would be joined to Z1 at 22:20, where Z2 runs: 120 of 100 L/min
    apart = ("Z1", 0, 20, 40.0), ("Z3", 90, 20, 60.0), ("Z2", 15, 70, 60.0)
    (north, _) = views(*apart)
    assert north.nearest is not None
    assert f"{north.nearest[0].starts[0]:%H:%M}" == "23:10"


def test_the_nearest_weeks_of_two_clocks_are_within_the_pump_together() -> None:
    # south alone would join at 22:20 to 23:00, where north joins at 22:40 to 23:20
    runs = ("Z1", 0, 20, 60.0), ("Z3", 60, 20, 60.0), ("Z2", 20, 20, 60.0), (
        "Z4", 100, 20, 60.0,
    )  # fmt: skip
    made = two_clocks(programs=1)
    four = made.zones[1].model_copy(update={"id": "Z4"})
    made = made.model_copy(update={"zones": (*made.zones, four)})
    found = clock_views(made, night(*runs), DATES, soak_min={})
    told = [[f"{p.starts[0]:%H:%M}" for p in one.nearest or ()] for one in found]
    assert told == [["22:40"], ["23:20"]]


def test_the_water_of_the_nearest_week_is_told_in_minutes_and_depth() -> None:
    tenth = tuple(DATES[i] for i in (1, 3, 5))
    plan = night(("Z1", 0, 20, 40.0))
    other = night(("Z2", 30, 40, 40.0)).runs
    runs = (*plan.runs, *(one for one in other if one.night in tenth))
    found = clock_views(
        site(programs=1), replace(plan, runs=runs), DATES,
        soak_min={}, rate_mm_per_h={"Z2": 12.0},
    )[0]  # fmt: skip
    (water,) = found.other
    # 3 nights of 40 min are 120; 7 of 17 are 119, a minute less at 12 mm/h
    assert (water.was_minutes, water.now_minutes, water.was_nights) == (120, 119, 3)
    assert water.mm == pytest.approx(-0.2)
    assert "1 min of water differ in the week: Z2 7 nights (3)" in found.findings[0].fix
