"""What the wind of its minute costs a litre."""

import numpy as np
import pytest

from scheduler.arrays import FloatArray
from scheduler.record import WindLog
from scheduler.watering.night_plan.calm import CALM_WORTH, minute_cost, night_wind
from scheduler.watering.night_plan.night_hours import night_hours
from scheduler.watering.night_plan.result import NightWind
from tests.scheduler.watering.night_plan.made import (
    DATES,
    Watered,
    caught,
    line,
    site,
    zone,
)

HOURS = night_hours(site(), DATES)
RISING = NightWind(np.linspace(1.0, 3.0, 390), "made up")
LINES = {"p1": line()}
ONES = np.ones((7, 390))


def _log(hours: np.ndarray) -> WindLog:
    start = np.datetime64("2026-06-01T00:00", "s") + hours * np.timedelta64(3600, "s")
    none = np.full(hours.size, np.nan)
    speed = (hours % 24).astype(np.float64)
    return WindLog(start, 3600.0, speed, none, none, 2.0, "mast", "wind/mast.csv")


def test_each_minute_has_the_usual_wind_of_its_hour() -> None:
    wind = night_wind([_log(np.arange(240))], HOURS, "UTC").by_minute_m_per_s
    assert wind is not None
    assert wind[[0, 119, 120, 389]].tolist() == [22.0, 23.0, 0.0, 4.0]


def test_hours_that_no_log_knows_have_no_wind() -> None:
    wind = night_wind([_log(np.arange(6, 12))], HOURS, "UTC")
    assert (wind.by_minute_m_per_s, wind.source) == (
        None,
        "no wind log knows these hours",
    )


def _cost(
    one: Watered, wind: NightWind = RISING, price: FloatArray = ONES
) -> FloatArray:
    return minute_cost(one, wind, LINES, price)


def _watered(rule: str, name: str = "1", du_lq: float = 0.7) -> Watered:
    # tested at 2 m/s, the mean of the night
    return Watered(zone(name, rule=rule), evidence=caught(du_lq, 2.0))


def test_without_wind_all_minutes_cost_the_same() -> None:
    assert (_cost(_watered("low quarter"), NightWind(None, "")) == 1.0).all()


def test_without_a_line_the_calmer_minute_is_a_little_cheaper() -> None:
    cost = _cost(_watered("low quarter", "2"))[0]
    assert cost[-1] - cost[0] == pytest.approx(2 * CALM_WORTH)


def test_low_quarter_pays_for_the_lost_uniformity() -> None:
    # DU 0.8 at 1 m/s, 0.6 at 3 m/s, 0.7 in the tests
    cost = _cost(_watered("low quarter"))[0]
    assert cost[[0, -1]] == pytest.approx([0.7 / 0.8, 0.7 / 0.6])


def test_low_half_pays_less_than_low_quarter() -> None:
    quarter, half = (_cost(_watered(rule))[0] for rule in ("low quarter", "low half"))
    assert np.ptp(half) < np.ptp(quarter)


def test_without_cans_low_half_follows_its_equation() -> None:
    # the line is 0.7 at 2 m/s; 0.4 + 0.6 DU: 0.88 at 1 m/s, 0.82 at the mean
    cost = _cost(Watered(zone("1", rule="low half")))[0]
    assert cost[0] == pytest.approx(0.82 / 0.88)


def test_average_pays_for_drift_alone() -> None:
    lines = {"p1": line(-0.1, -0.05)}
    cost = minute_cost(_watered("average"), RISING, lines, ONES)[0]
    # the rate is 0.95 of that in calm at 1 m/s, 0.85 at 3 m/s, 0.90 in the tests
    assert cost[[0, -1]] == pytest.approx([0.90 / 0.95, 0.90 / 0.85])


def test_average_without_drift_takes_the_calmer_of_equal_minutes() -> None:
    assert np.ptp(_cost(_watered("average"))) == pytest.approx(2 * CALM_WORTH)


def test_water_and_price_are_multiplied() -> None:
    price = np.broadcast_to(np.linspace(0.5, 1.5, 390), (7, 390))
    one = _watered("low quarter")
    assert _cost(one, price=price) == pytest.approx(_cost(one) * price)


def test_a_line_drawn_too_far_still_has_a_cost() -> None:
    gale = NightWind(np.linspace(0.0, 40.0, 390), "made up")
    assert np.isfinite(_cost(_watered("low quarter", du_lq=0.2), gale)).all()
