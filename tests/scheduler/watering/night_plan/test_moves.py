"""What moving last week's waterings gains."""

import datetime as dt
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from scheduler.field.package_wind import SitePackageWind
from scheduler.record import History, IssuedRun, IssuedWeek, WindLog
from scheduler.site import EnergyPeriod, Supply, Tariff
from scheduler.unit_table import L_PER_US_GALLON
from scheduler.watering.night_plan.moves import MoveCurve, move_curve
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
