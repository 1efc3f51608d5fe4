"""The nearest week with fewer programs, within what the nights hold."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from scheduler.watering.clock_view.nearest import MOST_PROGRAMS, nearest_programs
from scheduler.watering.clock_view.nouns import Program, Station
from scheduler.watering.clock_view.room import Room

MONDAY = dt.date(2026, 6, 8)
ZONES = ("Z1", "Z2", "Z3")
ROOM = Room(
    first=MONDAY,
    anchor_min=1320,
    is_open={zone: np.ones((7, 390), dtype=bool) for zone in ZONES},
    flow_l_per_min={"Z1": 60.0, "Z2": 50.0, "Z3": 40.0},
    soak_min={},
    apart=frozenset(),
    pump_l_per_min=100.0,
    most_valves=2,
    delay_min=0,
)


def program(
    zone: str, minutes: int, *starts: tuple[int, int], days: str = "mon"
) -> Program:
    station = (Station(int(zone[1:]), zone, minutes),)
    times = tuple(dt.time(*one) for one in starts)
    return Program(zone, tuple(days.split()), times, station)


def said(programs: tuple[Program, ...] | None) -> list[tuple[str, str]] | None:
    if programs is None:
        return None
    return sorted(
        (
            " ".join(f"{start:%H:%M}" for start in one.starts),
            " ".join(two.zone for two in one.stations),
        )
        for one in programs
    )


def test_what_fits_is_left_alone() -> None:
    both = (program("Z1", 20, (22, 0)), program("Z2", 15, (22, 30)))
    assert nearest_programs(both, ROOM, most=2) == both


def test_the_gap_between_two_programs_is_closed() -> None:
    both = (program("Z1", 20, (22, 0)), program("Z2", 15, (22, 30)))
    assert said(nearest_programs(both, ROOM, most=1)) == [("22:00", "Z1 Z2")]


def test_the_pair_that_moves_least_is_joined() -> None:
    three = (
        program("Z1", 20, (22, 0)),
        program("Z2", 15, (22, 25)),
        program("Z3", 10, (1, 0)),
    )
    three = (*three[:2], replace(three[2], days=("tue",)))  # of the same night
    found = nearest_programs(three, ROOM, most=2)
    assert said(found) == [("01:00", "Z3"), ("22:00", "Z1 Z2")]


OTHER_NIGHTS = (
    program("Z1", 20, (22, 0)),
    program("Z2", 15, (22, 30), days="wed"),
)


def test_programs_of_other_nights_water_on_the_nights_of_both() -> None:
    found = nearest_programs(OTHER_NIGHTS, ROOM, most=1)
    assert found is not None
    assert (found[0].days, [one.minutes for one in found[0].stations]) == (
        ("mon", "wed"),
        [10, 8],
    )


def test_a_zone_waters_on_no_night_that_it_may_not() -> None:
    mondays = replace(ROOM, nights={"Z1": frozenset({0})})
    assert nearest_programs(OTHER_NIGHTS, mondays, most=1) is None


def test_the_pair_that_changes_the_fewest_minutes_is_joined() -> None:
    # 20 and 16 min halve without a rest, 15 min do not
    three = (*OTHER_NIGHTS, program("Z3", 16, (23, 0), days="fri"))
    found = nearest_programs(three, ROOM, most=2)
    assert said(found) == [("22:00", "Z1 Z3"), ("22:30", "Z2")]


def test_more_cycles_are_given_and_never_fewer() -> None:
    both = (program("Z1", 10, (22, 0), (23, 0)), program("Z2", 30, (22, 10)))
    found = nearest_programs(both, ROOM, most=1)
    assert found is not None
    assert len(found[0].starts) == 2
    assert {one.zone: one.minutes for one in found[0].stations} == {"Z1": 10, "Z2": 15}


def test_cycles_on_both_sides_of_midnight_are_one_program_of_every_night() -> None:
    every = "mon tue wed thu fri sat sun"
    both = (
        program("Z1", 8, (23, 0), (23, 30), days=every),
        program("Z1", 8, (0, 10), days=every),
    )
    found = nearest_programs(both, ROOM, most=1)
    assert said(found) == [("23:00 23:30 00:10", "Z1")]


def test_starts_are_set_apart_as_far_as_soaks_ask() -> None:
    both = (
        program("Z1", 20, (22, 0), (22, 30)),
        program("Z2", 16, (23, 30)),
    )
    found = nearest_programs(both, replace(ROOM, soak_min={"Z1": 10}), most=1)
    assert found is not None
    # 20 + 8 min of stations fit into half an hour, and the soak stays 10 min
    assert said(found) == [("22:00 22:30", "Z1 Z2")]


def test_no_program_has_more_starts_than_the_clock_holds() -> None:
    both = (program("Z1", 10, (22, 0)), program("Z1", 10, (22, 30)))
    assert nearest_programs(both, ROOM, most=1) is not None
    assert nearest_programs(both, replace(ROOM, most_starts=1), most=1) is None


def test_what_another_clock_runs_takes_from_the_pump() -> None:
    both = (program("Z1", 20, (22, 0)), program("Z2", 15, (22, 30)))
    assert nearest_programs(both, ROOM, most=1) is not None
    beside = replace(ROOM, beside={0: [("Z3", 0, 390)]}, pump_l_per_min=85.0)
    assert nearest_programs(both, beside, most=1) is None


def test_what_another_clock_runs_is_none_of_its_valves() -> None:
    both = (program("Z1", 20, (22, 0)), program("Z2", 15, (22, 30)))
    beside = replace(ROOM, beside={0: [("Z3", 0, 120)]}, most_valves=1)
    assert nearest_programs(both, beside, most=1) is not None


def test_the_pump_is_kept() -> None:
    # joined at 22:00, Z2 would run beside Z3: 90 of 85 L/min; at 23:20 it does not
    three = (
        program("Z1", 20, (22, 0)),
        program("Z2", 15, (23, 40)),
        program("Z3", 60, (22, 20), days="mon tue"),
    )
    weak = replace(ROOM, pump_l_per_min=85.0)
    found = said(nearest_programs(three, weak, most=2))
    assert found == [("22:20", "Z3"), ("23:20", "Z1 Z2")]


def test_the_valves_are_kept() -> None:
    three = (
        program("Z1", 20, (22, 0)),
        program("Z2", 15, (3, 30)),
        program("Z3", 390, (22, 0), days="mon tue"),
    )
    three = (three[0], replace(three[1], days=("tue",)), three[2])
    one_valve = replace(ROOM, most_valves=1, pump_l_per_min=None)
    assert nearest_programs(three, one_valve, most=2) is None


def test_closed_minutes_are_kept() -> None:
    is_open = np.ones((7, 390), dtype=bool)
    is_open[:, 20:40] = False
    is_open[:, 60:] = False
    shut = replace(ROOM, is_open=dict.fromkeys(ZONES, is_open))
    both = (program("Z1", 20, (22, 0)), program("Z2", 15, (22, 45)))
    assert nearest_programs(both, shut, most=1) is None


def test_soaks_are_kept() -> None:
    both = (
        program("Z1", 10, (22, 0), (22, 40)),
        program("Z2", 35, (22, 10), (23, 20)),
    )
    found = nearest_programs(both, replace(ROOM, soak_min={"Z1": 30}), most=1)
    assert found is not None
    (one,) = found
    gap = (one.starts[1].hour - one.starts[0].hour) * 60
    gap += one.starts[1].minute - one.starts[0].minute
    assert gap >= 45


def test_zones_kept_apart_stay_apart() -> None:
    # Z2 may only move to where Z3 runs
    three = (
        program("Z1", 20, (22, 0)),
        program("Z2", 15, (23, 0)),
        program("Z3", 300, (22, 0), days="mon wed"),
    )
    mondays = {zone: frozenset({0}) for zone in ("Z1", "Z2")}
    free = replace(ROOM, pump_l_per_min=None, most_valves=None, nights=mondays)
    assert nearest_programs(three, free, most=2) is not None
    apart = replace(free, apart=frozenset({("Z2", "Z3"), ("Z3", "Z2")}))
    assert nearest_programs(three, apart, most=2) is None


@pytest.mark.parametrize("most", [1, 2])
def test_zones_and_minutes_are_conserved(most: int) -> None:
    three = tuple(
        program(zone, minutes, (22, 30 * i))
        for i, (zone, minutes) in enumerate((("Z1", 20), ("Z2", 15)))
    )
    found = nearest_programs((*three, program("Z3", 10, (23, 30))), ROOM, most=most)
    assert found is not None
    stations = sorted((two.zone, two.minutes) for one in found for two in one.stations)
    assert stations == [("Z1", 20), ("Z2", 15), ("Z3", 10)]


def test_far_too_many_programs_are_not_searched() -> None:
    many = tuple(
        Program(f"{i}", ("mon",), (dt.time(22),), (Station(i, f"Z{i}", 1),))
        for i in range(MOST_PROGRAMS + 1)
    )
    assert nearest_programs(many, ROOM, most=4) is None
