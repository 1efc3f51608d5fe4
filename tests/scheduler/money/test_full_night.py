"""The night of a season with most water, found by counting."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from scheduler.money.full_night import depths_then, full_night
from scheduler.root_zone.intake import IntakeModel
from scheduler.supply import Controller
from scheduler.trace import entered
from tests.scheduler.money.made_week import cost, plan, week_site


def test_it_is_the_night_whose_litres_add_up_to_most() -> None:
    depths = {name: np.zeros(365) for name in ("Z4", "Z5", "Z6")}
    depths["Z4"][100], depths["Z5"][200], depths["Z6"][200] = 7.0, 4.0, 4.0
    found = full_night(week_site(), plan().zones, cost().zones, depths)
    assert found is not None
    # day 200 from 1 January is 20 July; the depth is of the night before
    assert found.night == dt.date(2026, 7, 19)
    assert [one.zone.id for one in found.zones] == ["Z5", "Z6"]


def test_its_minutes_are_its_depth_over_the_rate() -> None:
    depths = {name: np.zeros(365) for name in ("Z4", "Z6")}
    depths["Z5"] = np.zeros(365)
    depths["Z5"][10] = 6.0
    found = full_night(week_site(), plan().zones, cost().zones, depths)
    assert found is not None
    # 6 mm at 12 mm/h
    assert [(one.zone.id, one.minutes_per_day) for one in found.zones] == [("Z5", 30)]
    assert found.zones[0].days == (dt.date(2026, 1, 10),)


def test_starts_a_day_are_those_of_the_zone_s_own_clock() -> None:
    one = Controller(id="S", max_starts_per_day=1)
    site = week_site(controller=Controller(id="N"), more_controllers=(one,))
    depths = {name: np.zeros(365) for name in ("Z4", "Z5", "Z6")}
    depths["Z5"][10] = depths["Z6"][10] = 60.0
    leaf = entered("first_runoff_min", 20.0)
    slow = IntakeModel("first runoff", 20.0, None, None, leaf)
    zones = []
    for z in plan().zones:
        assert z.input is not None
        hangs = {"controller": "S" if z.zone.id == "Z6" else "N"}
        zones.append(
            replace(
                z,
                zone=z.zone.model_copy(update=hangs),
                input=replace(z.input, intake=slow),
            )
        )
    found = full_night(site, zones, cost().zones, depths)
    assert found is not None
    cycles = {z.zone.id: z.cycles or 0 for z in found.zones}
    assert cycles["Z6"] == 1 < cycles["Z5"]


def test_a_season_without_water_has_no_such_night() -> None:
    dry = {name: np.zeros(365) for name in ("Z4", "Z5", "Z6")}
    assert full_night(week_site(), plan().zones, cost().zones, dry) is None


def test_zones_without_a_season_are_named() -> None:
    found = full_night(week_site(), plan().zones, cost().zones[:1], {})
    assert found is not None
    assert found.left_out == ("Z5", "Z6")


def test_the_same_uniformity_gives_the_same_depths() -> None:
    season = cost().zones[0].season
    assert season.catch is not None
    assert season.watering_mm is not None
    du = season.catch.du_lq
    found = depths_then(season, week_site(), du, du)
    assert found == pytest.approx(season.watering_mm)
