"""A zone's year at another evenness, run once."""

import gc
import weakref
from dataclasses import replace

import numpy as np
import pytest

from scheduler.money import even_year as room
from scheduler.money.even_year import even_year
from scheduler.money.factors import Evenness, at_evenness, evenness
from scheduler.season import ZoneSeason
from scheduler.watering.season_run import season_run
from scheduler.watering.season_run.saved import driest_quarter_stress_days
from tests.scheduler.money.made import season


def evenly(one: ZoneSeason, du_lq: float) -> Evenness:
    assert one.catch is not None
    return evenness(one.catch, du_lq)


def bell(*share: float) -> Evenness:
    return Evenness(np.array(share), 0.7, 0.8, None)


@pytest.mark.parametrize(("du_lq", "factor"), [(0.6, 1.0), (0.9, 1.4)])
def test_it_is_the_season_run_at_that_evenness(du_lq: float, factor: float) -> None:
    one = season()
    even = evenly(one, du_lq)
    assert one.input is not None
    made = at_evenness(one.input, even, factor)
    result = season_run(made)
    found = even_year(one, even, factor)
    assert found.watered_mm == float(result.watering_mm.sum())
    assert found.applied_mm.tolist() == result.applied_mm[:, 0].tolist()
    assert found.deep_percolation_mm == float(result.percolation_mm.mean())
    assert found.stress_days == driest_quarter_stress_days(made, result)


def test_each_evenness_and_factor_is_run_once() -> None:
    one = replace(season())
    first = even_year(one, evenly(one, 0.8), 1.2)
    assert even_year(one, evenly(one, 0.8), 1.2) is first
    assert even_year(one, evenly(one, 0.81), 1.2) is not first
    assert even_year(one, evenly(one, 0.8), 1.21) is not first
    assert even_year(replace(one), evenly(one, 0.8), 1.2) is not first


def test_shares_that_no_can_tells_are_known_by_themselves() -> None:
    one = replace(season())
    wide, narrow = bell(0.5, 0.9, 1.1, 1.5), bell(0.8, 0.9, 1.1, 1.2)
    first = even_year(one, wide, 1.2)
    assert even_year(one, bell(0.5, 0.9, 1.1, 1.5), 1.2) is first
    assert even_year(one, narrow, 1.2) is not first


def test_a_year_goes_with_its_season() -> None:
    one = replace(season())
    even_year(one, evenly(one, 0.8), 1.2)
    assert one in room._YEARS
    seen = weakref.ref(one)
    del one
    gc.collect()
    assert seen() is None


def test_what_each_position_got_cannot_be_written_to() -> None:
    one = season()
    with pytest.raises(ValueError, match="read-only"):
        even_year(one, evenly(one, 0.8), 1.2).applied_mm[0] = 0.0
