"""What is known before a visit: heads, mouth, can map, the newest test."""

import datetime as dt
import math
from typing import Any

import pytest

from scheduler.field.catch import mouth_area_cm2
from scheduler.field.visit import (
    ZoneVisit,
    can_map,
    grid_map,
    heads_in,
    mouth_diameter_mm,
    zone_visits,
)
from scheduler.record import CanTest, History, StatedResult
from scheduler.site import Package, Place, Plant, Site, Zone
from scheduler.units import converted
from tests.scheduler.field.made import MOUTH_CM2, can_test, run

TODAY = dt.date(2026, 6, 8)
PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC"
)
FEET_30 = converted(30.0, "ft", to="m")
YARD = Package(id="yard", nozzle_flow_l_per_min=17.4, spacing_m=FEET_30)


def zone(**given: Any) -> Zone:
    plant = Plant(name="holly", kc=0.85, kc_area="bed")
    base: dict[str, Any] = {
        "id": "Z4", "name": "yard", "area_m2": 2000.0, "grown_in": "pots",
        "plant": plant, "package": "yard",
    }  # fmt: skip
    return Zone(**(base | given))


def visit(*tests: CanTest, grid: tuple[int, int] | None = None) -> ZoneVisit:
    site = Site(name="a", units="us", place=PLACE, zones=(zone(),), packages=(YARD,))
    (found,) = zone_visits(site, History(tests=tests), TODAY, grid=grid)
    return found


# --- hand-computed -----------------------------------------------------------


def test_half_an_acre_on_30_by_30_feet_has_24_heads() -> None:
    # 24 x 900 ft2 = 21,600 ft2
    assert heads_in(converted(21600.0, "ft2", to="m2"), YARD) == 24


def test_a_zone_smaller_than_one_head_still_has_one() -> None:
    assert heads_in(5.0, YARD) == 1


def test_without_a_package_or_its_spacing_heads_are_not_guessed() -> None:
    assert heads_in(2000.0, None) is None
    assert heads_in(2000.0, Package(id="a")) is None


def test_a_mouth_of_pi_square_inches_is_two_inches_wide() -> None:
    area_cm2 = converted(math.pi, "in2", to="cm2")
    assert converted(mouth_diameter_mm(area_cm2), "mm", to="in") == pytest.approx(2.0)


def test_the_mouth_is_the_one_that_was_entered() -> None:
    assert mouth_diameter_mm(mouth_area_cm2(107.95)) == pytest.approx(107.95)


def test_a_full_grid_is_named_as_readings_are() -> None:
    laid = grid_map(2, 3, "asked")
    assert laid.label == (("A1", "B1", "C1"), ("A2", "B2", "C2"))
    assert (laid.row_ids, laid.column_ids) == (("1", "2"), ("A", "B", "C"))


def test_columns_after_z_go_on_with_two_letters() -> None:
    assert grid_map(1, 28, "asked").column_ids[25:] == ("Z", "AA", "AB")


def test_rows_may_carry_the_letters() -> None:
    laid = can_map([["A1", "A2"], ["B1", "B2"]], "test")
    assert (laid.row_ids, laid.column_ids) == (("A", "B"), ("1", "2"))


def test_a_place_without_a_can_is_no_can() -> None:
    laid = can_map([["A1", "B1"], ["A2", ""]], "test")
    assert laid.n_cans == 3
    assert laid.column_ids == ("A", "B")


@pytest.mark.parametrize(
    "label",
    [[["left", "right"]], [["A1", "B2"]], [["A1", "A1"]], [["", ""], ["A2", "B2"]]],
)
def test_names_that_do_not_agree_name_no_rows(label: list[list[str]]) -> None:
    laid = can_map(label, "test")
    assert (laid.row_ids, laid.column_ids) == ((), ())


# --- what is taken from the tests --------------------------------------------


def test_the_newest_test_is_the_last_one() -> None:
    old, new = can_test(run(), date=dt.date(2025, 5, 1)), can_test(run())
    last = visit(new, old).last
    assert last is not None
    assert last.date == new.date


def test_a_test_of_tomorrow_does_not_count() -> None:
    assert visit(can_test(run(), date=TODAY + dt.timedelta(1))).last is None


def test_mouth_and_minutes_are_those_of_the_last_test() -> None:
    found = visit(can_test(run(minutes=42.0)))
    assert found.mouth_mm == pytest.approx(107.95)
    assert found.minutes == 42.0


def test_the_can_map_is_that_of_the_newest_test_with_readings() -> None:
    stated = StatedResult(0.7, None, "the district")
    told = can_test(date=dt.date(2026, 6, 1), stated=stated)
    found = visit(can_test(run([[1.0, 2.0], [3.0, 4.0]])), told)
    assert found.can_map.n_cans == 4
    assert found.last is not None
    assert found.last.stated == stated


def test_an_asked_grid_replaces_the_old_map() -> None:
    assert visit(can_test(run()), grid=(4, 5)).can_map.n_cans == 20


def test_an_impossible_test_is_in_doubt() -> None:
    # the base of the can for its mouth: half the area, twice the depth
    found = visit(can_test(run(), mouth_area_cm2=MOUTH_CM2 / 2))
    assert any("of what the nozzles" in one.what for one in found.doubts)


def test_a_sound_test_is_not_in_doubt() -> None:
    assert visit(can_test(run())).doubts == ()


def test_only_the_zones_asked_for_are_visited_in_the_sites_order() -> None:
    zones = tuple(zone(id=name) for name in ("Z1", "Z2", "Z3"))
    site = Site(name="a", units="us", place=PLACE, zones=zones)
    found = zone_visits(site, History(), TODAY, zone_ids=("z3", "Z1"))
    assert [one.zone.id for one in found] == ["Z1", "Z3"]


# --- what is assumed is said -------------------------------------------------


def test_an_assumed_map_is_24_cans_and_says_so() -> None:
    found = visit()
    assert found.can_map.n_cans == 24
    assert any("4 x 6 is drawn" in one.what for one in found.findings)


def test_a_count_that_is_no_multiple_of_four_is_said() -> None:
    found = visit(grid=(3, 5))
    assert any("no multiple of four" in one.what for one in found.findings)


def test_a_known_map_and_head_count_leave_nothing_to_say() -> None:
    assert visit(can_test(run())).findings == ()
