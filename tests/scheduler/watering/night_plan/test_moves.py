"""What moving last week's waterings gains."""

import datetime as dt
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from scheduler.arrays import FloatArray
from scheduler.field.package_wind import SitePackageWind
from scheduler.record import History, IssuedRun, IssuedWeek, WindLog
from scheduler.site import EnergyPeriod, Supply, Tariff
from scheduler.unit_table import L_PER_US_GALLON
from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.moves import (
    MoveCurve,
    MovedWeek,
    move_curve,
    weeks_of_moves,
)
from scheduler.watering.timetable import Grid, Job, Placed
from scheduler.watering.timetable.stability import repacked
from tests.scheduler.watering.night_plan.made import DATES, Watered, line, site, zone

SOME = tuple(
    Watered(zone(name, rule="low quarter"), days=DATES[:2]) for name in ("1", "2")
)
# every zone began at 22:00 or 22:20 last week, when it is windiest
LAST = tuple(
    IssuedRun(
        one.zone.id,
        start := dt.datetime.combine(
            day - dt.timedelta(days=7), dt.time(22, 20 * place)
        ),
        start + dt.timedelta(minutes=20),
    )
    for day in DATES[:2]
    for place, one in enumerate(SOME)
)
ISSUED = (IssuedWeek("2026-W23", DATES[0] - dt.timedelta(days=7), (), LAST),)


def _log() -> WindLog:
    """Wind that falls from 22:00 to 04:00 local time, UTC-4."""
    hours = np.arange(240)
    start = np.datetime64("2026-06-01T00:00", "s") + hours * np.timedelta64(3600, "s")
    none = np.full(hours.size, np.nan)
    speed = 4.0 - 0.5 * ((hours - 26) % 24).clip(0, 6)
    return WindLog(start, 3600.0, speed, none, none, 2.0, "mast", "wind/mast.csv")


def _curve(issued: tuple[IssuedWeek, ...] = ISSUED, **given: Any) -> MoveCurve:
    lines = SitePackageWind({"p1": line(-0.05), "p2": line(-0.01)})
    return move_curve(
        site(*(one.zone for one in SOME), **given),
        History(wind=(_log(),), issued=issued),
        SOME,
        winds=lines,
    )


def test_the_first_point_moves_nothing_and_gains_nothing() -> None:
    first = _curve().points[0]
    assert (first.moved, first.gained, first.gained_m3) == (0, 0.0, 0.0)


def test_more_moves_gain_more() -> None:
    points = _curve().points
    assert len(points) > 1
    for a, b in pairwise(points):
        assert b.moved > a.moved
        assert b.gained > a.gained


def test_the_zone_that_wind_hurts_most_moves_first() -> None:
    # two waterings of zone 1; those of zone 2 pay only when a move costs nothing
    assert [one.moved for one in _curve().points] == [0, 2, 4]


def test_every_watering_of_last_week_is_known() -> None:
    assert _curve().known == 4


def test_without_an_issued_week_nothing_can_be_compared() -> None:
    curve = _curve(())
    assert (curve.points, curve.why) == ((), "no earlier issued week tells its starts")


def test_without_a_window_there_is_no_night_plan_to_move() -> None:
    assert _curve(windows=()).why == (
        "no night plan is made (site.toml: window): add [[window]] with start, end and "
        "days"
    )


def test_prices_by_the_hour_are_compared_in_money() -> None:
    dear = EnergyPeriod(start=dt.time(18), end=dt.time(0), price_money_per_kwh=0.5)
    tariff = Tariff(currency="USD", water_price_money_per_m3=0.1,
                    energy_price_money_per_kwh=0.1, period=(dear,))  # fmt: skip
    supply = Supply(source="well", flow_l_per_min=200 * L_PER_US_GALLON, head_m=70.0,
                    pumping_efficiency=0.5)  # fmt: skip
    curve = _curve(tariff=tariff, supply=supply)
    last = curve.points[-1]
    assert (curve.scale, last.gained_m3) == ("money", None)
    assert last.gained_money is not None
    assert last.gained_money > 0


def test_the_trace_tells_the_largest_gain() -> None:
    curve = _curve()
    assert curve.trace.value == pytest.approx(curve.points[-1].gained)


FALLING = np.linspace(2.0, 1.0, 120)[None, None]
JOBS = tuple(Job(z, 1, 20, 0, 60.0, must=(0,)) for z in "ABC")
PLACES = {0: [Placed(0, (20 * i,), z) for i, z in enumerate("ABC")]}


def _weeks(cost: FloatArray) -> tuple[MovedWeek, ...]:
    grid = Grid(cost > 0, cost, 100.0)
    return weeks_of_moves(WeekJobs((JOBS,), (grid,), {}, ()), PLACES, rounds=200)


def test_weeks_with_more_moves_cost_less() -> None:
    found = _weeks(FALLING)
    moves, costs = [one.moved for one in found], [one.cost for one in found]
    assert (moves, costs) == (sorted(moves), sorted(costs, reverse=True))


def test_a_few_moves_gain_most_of_what_there_is_to_gain() -> None:
    # only one zone gains much: the last minutes are the cheap ones
    cost = np.ones((1, 1, 120))
    cost[..., 100:] = 0.5
    found = _weeks(cost)
    assert [one.moved for one in found] == [0, 1]
    assert found[1].cost == pytest.approx(60 * (20 + 20 + 10), rel=1e-5)


def test_the_weeks_run_from_last_week_to_the_cheapest() -> None:
    found = _weeks(FALLING)
    grid = Grid(FALLING > 0, FALLING, 100.0)
    fresh = repacked(JOBS, grid, PLACES[0], per_move=0.0)
    assert found[0].moved == 0
    assert found[-1].cost == pytest.approx(fresh.timetable.cost)
