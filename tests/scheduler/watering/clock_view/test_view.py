"""A night plan as a clock holds it."""

import datetime as dt
from typing import Any

from scheduler.site import Controller, Place, Site, Supply, Window, Zone
from scheduler.watering.clock_view import ClockView, Keyed, clock_view
from scheduler.watering.clock_view.view import station_numbers
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


def test_stations_go_by_the_valves_where_each_has_its_number() -> None:
    zones = tuple(
        one.model_copy(update={"valve": valve})
        for one, valve in zip(site().zones, ("V7", "V3", "V5"), strict=True)
    )
    named = site().model_copy(update={"zones": zones})
    assert station_numbers(named) == {"Z1": 7, "Z2": 3, "Z3": 5}


def test_stations_go_by_the_file_where_two_valves_share_a_number() -> None:
    zones = tuple(one.model_copy(update={"valve": "V1"}) for one in site().zones)
    named = site().model_copy(update={"zones": zones})
    assert station_numbers(named) == {"Z1": 1, "Z2": 2, "Z3": 3}
