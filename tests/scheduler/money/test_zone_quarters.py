"""What each quarter gets, now and then."""

import numpy as np
import pytest

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
