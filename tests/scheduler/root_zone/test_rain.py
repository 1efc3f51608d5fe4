"""Rain rules by publication; none of the monthly ones for days."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.root_zone.rain import (
    agrilife_event_rain_mm,
    counted_rain_mm,
    dependable_month_rain_mm,
    fao_manual_3_month_rain_mm,
    scs_simplified_month_rain_mm,
)


@pytest.mark.parametrize(("inches", "counts"), [(0.05, 0), (0.5, 0.4), (1.5, 1.233)])
def test_the_texas_event_rule(inches: float, counts: float) -> None:
    # Texas A&M AgriLife rule: a tenth of an inch is lost, the next nine count whole,
    # of the second inch two thirds
    found = float(agrilife_event_rain_mm(inches * 25.4)) / 25.4
    assert found == pytest.approx(counts, abs=0.001)


@pytest.mark.parametrize(("rain", "counts"), [(100, 84), (250, 150), (300, 155)])
def test_the_simplified_scs_month(rain: float, counts: float) -> None:
    assert float(scs_simplified_month_rain_mm(rain)) == pytest.approx(counts)


@pytest.mark.parametrize(("rain", "counts"), [(10, 0), (50, 20), (75, 35), (100, 55)])
def test_the_month_of_fao_training_manual_3(rain: float, counts: float) -> None:
    # as printed by Brouwer and Heibloem in 1986
    assert float(fao_manual_3_month_rain_mm(rain)) == pytest.approx(counts)


@pytest.mark.parametrize(("rain", "counts"), [(70, 32), (100, 56)])
def test_the_month_of_dependable_rain(rain: float, counts: float) -> None:
    assert float(dependable_month_rain_mm(rain)) == pytest.approx(counts)


@given(st.floats(0, 300), st.floats(0, 1))
def test_a_share_of_rain_is_never_more_than_fell(rain: float, share: float) -> None:
    assert 0 <= float(counted_rain_mm(rain, share)) <= rain


def test_negative_rain_is_refused() -> None:
    with pytest.raises(SchedulerError):
        counted_rain_mm(-1.0, 0.5)
