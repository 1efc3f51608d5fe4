"""What each quarter gets, now and then."""

import numpy as np
import pytest

from scheduler.money.zone_quarters import QUARTERS
from tests.scheduler.money.made import yard_cost
from tests.scheduler.money.made_week import cost


def test_a_more_even_zone_gives_its_quarters_more_alike() -> None:
    told = cost().options[0].quarters[0]
    assert np.ptp(told.then_mm) < np.ptp(told.now_mm)


def test_quarters_hold_the_water_of_the_year() -> None:
    one = cost().options[0]
    area_m2 = 1000.0
    # a millimetre on a square metre is a litre
    assert np.mean(one.quarters[0].then_mm) * area_m2 / 1000 == pytest.approx(
        one.years[1].water_m3
    )


def test_every_quarter_is_in_the_trace_of_what_is_saved() -> None:
    told = cost().options[0].quarters[0]
    (saved,) = told.traces
    assert saved.value == pytest.approx(np.mean(told.now_mm) - np.mean(told.then_mm))
    found = [saved.find(f"{name}_quarter_then_mm") for name in QUARTERS]
    assert [one.value for one in found if one is not None] == list(told.then_mm)


def test_the_trace_reaches_to_both_uniformities_and_the_factor() -> None:
    option = cost().options[0]
    (saved,) = option.quarters[0].traces
    _, now, then = option.known[0]
    names = ("du_lq_now", "du_lq_then")
    found = [one.value for name in names if (one := saved.find(name)) is not None]
    assert found == [now.du_lq, then.du_lq]
    factors = [saved.find(f"factor_{when}") for when in ("now", "then")]
    now_factor, then_factor = (float(one.value or 0) for one in factors if one)
    assert now_factor > then_factor > 1  # a more even zone asks for less on top


def test_a_stated_need_of_a_season_is_in_the_trace() -> None:
    (told,) = yard_cost().options[-1].quarters
    need = told.traces[0].find("need_mm")
    assert need is not None
    assert need.value == pytest.approx(26.0 * 25.4)
    assert need.source == "entered"
