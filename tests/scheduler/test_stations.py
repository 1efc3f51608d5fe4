"""Clocks, and the station of each zone."""

from typing import Any

import pytest

from scheduler.site import Controller, Place, Site, Zone
from scheduler.stations import (
    change_over_min,
    clock_names,
    station_findings,
    walk_order,
    wired,
)

PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC"
)
NORTH = Controller(id="N", name="north yard", change_over_minutes=1)
SOUTH = Controller(id="S")


def zone(name: str, **given: Any) -> Zone:
    return Zone(
        id=name, name=name, area_m2=1.0, grown_in="soil", watered="off", **given
    )


def site(*zones: Zone, clocks: tuple[Controller, ...] = (Controller(),)) -> Site:
    return Site(
        name="a", units="us", place=PLACE, zones=zones,
        controller=clocks[0], more_controllers=clocks[1:],
    )  # fmt: skip


def test_stations_go_by_the_valves_where_each_has_its_number() -> None:
    found = wired(site(zone("Z1", valve="V7"), zone("Z2", valve="V3")))[0]
    assert (found.numbers, found.guessed) == ({"Z2": 3, "Z1": 7}, ())


def test_stations_go_by_the_file_where_two_valves_share_a_number() -> None:
    found = wired(site(zone("Z1", valve="V1"), zone("Z2", valve="V1")))[0]
    assert (found.numbers, found.guessed) == ({"Z1": 1, "Z2": 2}, ("Z1", "Z2"))


def test_a_station_that_was_entered_stands_and_the_others_take_free_ones() -> None:
    found = wired(site(zone("Z1", valve="V9"), zone("Z2", station=1)))[0]
    assert (found.numbers, found.guessed) == ({"Z2": 1, "Z1": 2}, ("Z1",))


def test_zones_hang_on_the_clock_that_they_name_in_any_case() -> None:
    found = wired(
        site(zone("Z1", controller="s"), zone("Z2", controller="N"),
             clocks=(NORTH, SOUTH))
    )  # fmt: skip
    assert [[one.id for one in clock.zones] for clock in found] == [["Z2"], ["Z1"]]


def test_a_zone_without_a_clock_hangs_on_the_first() -> None:
    assert site(zone("Z1"), clocks=(NORTH, SOUTH)).controller_of(zone("Z1")) == NORTH


def test_the_walk_goes_from_clock_to_clock_by_station() -> None:
    order = walk_order(
        site(
            zone("Z1", controller="S", station=2),
            zone("Z2", controller="N", station=9),
            zone("Z3", controller="S", station=1),
            clocks=(NORTH, SOUTH),
        )
    )
    assert sorted(order, key=order.__getitem__) == ["Z2", "Z3", "Z1"]


@pytest.mark.parametrize(
    ("clocks", "names"),
    [
        ((Controller(name="yard"),), ("yard",)),
        ((NORTH, SOUTH), ("N north yard", "S")),
    ],
)
def test_clocks_have_names(clocks: tuple[Controller, ...], names: tuple[str]) -> None:
    assert clock_names(site(clocks=clocks)) == names


def test_stations_given_in_order_are_a_note_with_their_numbers() -> None:
    (one,) = station_findings(site(zone("Z1"), zone("Z2", station=1)))
    assert (one.level, one.what) == (
        "note",
        "no station is entered for Z1: taken Z1 2",
    )


def test_the_longest_change_over_counts_for_all_and_that_is_said() -> None:
    both = site(clocks=(NORTH, SOUTH))
    assert change_over_min(both) == 1
    assert "taken for S as well" in station_findings(both)[0].what


def test_another_worth_of_a_move_is_not_used_and_that_is_said() -> None:
    first = NORTH.model_copy(update={"change_over_minutes": 0, "move_worth": 0.01})
    (one,) = station_findings(site(clocks=(first, SOUTH)))
    assert one.what.startswith("0.01 of N north yard counts for all clocks")
    assert one.what.endswith("not used: S 0.005")
