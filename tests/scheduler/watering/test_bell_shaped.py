"""What a factor serves and wastes where the catch is bell-shaped."""

import math

import pytest

from scheduler.watering.bell_shaped import (
    normal_deficit,
    normal_excess,
    normal_factor,
    normal_served,
)
from scheduler.watering.run_time import rule_factor

# DU low quarter of a bell-shaped catch: 1 - 1.2711 CV, normal theory
NORMAL_SLOPE = 1.271106


# normal theory after Hart and Reynolds 1965, CV 0.20
@pytest.mark.parametrize(
    ("served", "factor"),
    [(0.75, 1.155933), (0.80, 1.202392), (0.90, 1.344647), (0.95, 1.490248)],
)
def test_adequacy_of_a_bell_shaped_catch_comes_out(
    served: float, factor: float
) -> None:
    assert normal_factor(0.2, share_served=served) == pytest.approx(factor, abs=1e-5)


def test_the_low_quarter_rule_serves_nine_tenths_of_a_bell() -> None:
    factor = rule_factor("low quarter", du_lq=1 - NORMAL_SLOPE * 0.2)
    assert normal_served(factor, cv=0.2) == pytest.approx(0.89815, abs=1e-5)


def test_deficit_and_excess_of_a_bell_come_out() -> None:
    factor = 1.340880269013477
    assert normal_deficit(factor, cv=0.2) == pytest.approx(0.01297900, abs=1e-6)
    assert normal_excess(factor, cv=0.2) == pytest.approx(0.35385927, abs=1e-6)


def test_a_bell_wider_than_its_mean_serves_nobody_for_sure() -> None:
    assert normal_factor(1.0, share_served=0.9) == math.inf
