"""One factor, never both, and what each quarter then leaches."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import Finding, SchedulerError
from scheduler.need.zone_leaching import ZoneLeaching
from scheduler.trace import entered
from scheduler.watering.leached import (
    adequacy,
    leached_part,
    leaching_findings,
    served_rule,
)


def target(fraction: float) -> ZoneLeaching:
    return ZoneLeaching(fraction, True, entered("leaching_target", fraction))


def required(fraction: float) -> ZoneLeaching:
    return ZoneLeaching(fraction, False, entered("leaching_requirement", fraction))


def test_an_uneven_yard_keeps_its_rule() -> None:
    # DU 0.72: 1.39 is above 1 / 0.85 = 1.18
    made = adequacy("low quarter", 1 / 0.72, target(0.15))
    assert (made.ruled_by, made.factor) == ("low quarter", 1 / 0.72)


def test_an_even_yard_is_ruled_by_its_leaching_target() -> None:
    made = adequacy("low quarter", 1 / 0.95, target(0.15))
    assert made.ruled_by == "leaching target"
    assert made.factor == pytest.approx(1 / 0.85)
    assert made.served_factor == 1 / 0.95


def test_soil_adds_leaching_only_under_the_leached_rule() -> None:
    assert adequacy("low half", 1.2, required(0.3)).factor == 1.2
    made = adequacy("low quarter, leached", 1.25, required(0.2))
    assert made.factor == pytest.approx(1.25 / 0.8)
    assert served_rule("low quarter, leached") == "low quarter"


@pytest.mark.parametrize("asked", [None, target(0.15)])
def test_the_leached_rule_without_a_requirement_is_refused(
    asked: ZoneLeaching | None,
) -> None:
    with pytest.raises(
        SchedulerError, match="needs the leaching requirement of a soil"
    ):
        adequacy("low quarter, leached", 1.25, asked)


@given(factor=st.floats(1.0, 5.0), fraction=st.floats(0.0, 0.5))
def test_rule_and_target_are_never_multiplied(factor: float, fraction: float) -> None:
    made = adequacy("low half", factor, target(fraction))
    assert made.factor == max(factor, 1 / (1 - fraction))


@given(fraction=st.floats(0.0, 0.9))
def test_depth_for_a_leaching_leaches_it(fraction: float) -> None:
    assert leached_part(1 / (1 - fraction)) == pytest.approx(fraction, abs=1e-9)


def test_a_quarter_that_gets_less_than_its_need_leaches_nothing() -> None:
    assert leached_part(0.8) == 0.0
    assert leached_part(0.0) == 0.0


def found(
    leaching: ZoneLeaching | None, driest: float, leached: float | None = None
) -> list[Finding]:
    """Findings where the driest quarter leaches that much, others more."""
    by_rule = (1 / (1 - driest), 1.2, 1.3, 1.5)
    rounded = driest if leached is None else leached
    quarters = (rounded, 0.17, 0.23, 0.33)
    return list(
        leaching_findings("zone Z4", leaching, by_rule=by_rule, leached=quarters)
    )


@pytest.mark.parametrize("leaching", [target(0.15), required(0.2)])
def test_a_driest_quarter_that_leaches_nothing_is_warned_of(
    leaching: ZoneLeaching,
) -> None:
    [one] = found(leaching, 0.004)
    assert one.level == "warning"
    assert "next to nothing" in one.what
    assert "0%, 17%, 23%, 33%" in one.what


def test_half_a_minute_of_rounding_hides_no_warning() -> None:
    [one] = found(target(0.15), 0.0, leached=0.02)
    assert one.level == "warning"


def test_soil_is_pointed_to_the_leached_rule() -> None:
    [one] = found(required(0.2), 0.0)
    assert "low quarter, leached" in one.fix


def test_a_soil_that_leaches_less_than_it_must_is_noted() -> None:
    [one] = found(required(0.2), 0.1)
    assert one.level == "note"
    assert "less than it must" in one.what


@pytest.mark.parametrize(
    ("leaching", "driest"),
    [
        (None, 0.0),
        (target(0.0), 0.0),
        (required(0.08), 0.0),
        (required(0.2), 0.195),
        (target(0.15), 0.05),
    ],
)
def test_nothing_is_said_where_nothing_is_asked_or_it_is_met(
    leaching: ZoneLeaching | None, driest: float
) -> None:
    assert found(leaching, driest) == []


def test_nothing_is_said_of_a_week_without_watering() -> None:
    none = leaching_findings("z", target(0.15), by_rule=(1.0,) * 4, leached=())
    assert none == ()
