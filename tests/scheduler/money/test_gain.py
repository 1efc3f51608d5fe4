"""What is known of a uniformity, and how it is drawn."""

import dataclasses
import datetime as dt

import numpy as np
import pytest

from scheduler.field.evidence import zone_catch
from scheduler.field.package_trial import Pair
from scheduler.field.trial import PackageRuns, comparison
from scheduler.money.gain import (
    KnownDu,
    Trials,
    drawn_du,
    known_now,
    known_then,
    package_trials,
)
from scheduler.record import CanTest, History
from tests.scheduler.money.made import (
    PACKAGE,
    TODAY,
    bay,
    nothing,
    option,
    small_site,
)
from tests.scheduler.test_plan import can_test

NOW = KnownDu(0.6, 0.5, 0.68, 0.9, 3, "cans")
RNG = 7


def now(tests: tuple[CanTest, ...], **given: object) -> KnownDu:
    catch, _ = zone_catch(bay(), PACKAGE, tests, TODAY)
    assert catch is not None
    return known_now(bay(), catch, tests, TODAY, **given)  # type: ignore[arg-type]


def test_one_run_is_known_of_its_day_only() -> None:
    found = now((can_test(),))
    assert found.n_days == 1
    assert "this cell in this run" in found.source


def test_the_range_holds_the_number() -> None:
    found = now((can_test(),))
    assert found.low is not None
    assert found.high is not None
    assert found.low < found.du_lq < found.high


def test_an_untested_zone_has_no_range() -> None:
    zone = bay(assumed_net_rate_mm_per_h=12.0)
    catch, _ = zone_catch(zone, PACKAGE, (), TODAY)
    assert catch is not None
    found = known_now(zone, catch, (), TODAY)
    assert (found.low, found.n_days) == (None, 0)


def test_what_doing_nothing_states_is_taken() -> None:
    assert now((can_test(),), stated=nothing(zones=("Z4",))).du_lq == 0.58


def test_days_are_counted_and_not_runs() -> None:
    test = can_test()
    later = dataclasses.replace(
        test, name="again", date=test.date + dt.timedelta(days=3),
        runs=tuple(dataclasses.replace(one, start=None) for one in test.runs),
    )  # fmt: skip
    assert now((test, later)).n_days == 2


def test_a_tested_package_goes_before_what_is_stated() -> None:
    tested = KnownDu(0.74, 0.7, 0.78, 0.95, 4, "its runs")
    trials = Trials({"new": tested}, (), "")
    assert known_then(option(package="new"), bay(), NOW, trials) == tested
    assert known_then(option(), bay(), NOW, trials) != tested


def test_a_package_of_which_nothing_is_known_is_not_guessed() -> None:
    blind = option(du_lq=None, du_lq_low=None, du_lq_high=None, package="new")
    assert known_then(blind, bay(), NOW, Trials({}, (), "")) is None


def test_without_a_wind_log_a_package_has_the_mean_of_its_days() -> None:
    test = can_test()
    history = History(tests=(dataclasses.replace(test, package="p"),))
    found = package_trials(small_site(), history).at_wind["p"]
    assert found.n_days == 1
    assert found.low is None


def test_draws_stay_in_their_range_as_often_as_it_says() -> None:
    draws = drawn_du(NOW, np.random.default_rng(RNG), 40_000)
    inside = float(np.mean((draws >= 0.5) & (draws <= 0.68)))
    assert inside == pytest.approx(0.9, abs=0.01)


def test_half_of_the_draws_lie_below_the_number() -> None:
    draws = drawn_du(NOW, np.random.default_rng(RNG), 40_000)
    assert float(np.mean(draws < 0.6)) == pytest.approx(0.5, abs=0.01)


def test_fewer_days_draw_wider_tails() -> None:
    few = drawn_du(NOW, np.random.default_rng(RNG), 40_000)
    many = drawn_du(
        dataclasses.replace(NOW, n_days=30), np.random.default_rng(RNG), 40_000
    )
    assert np.quantile(few, 0.005) < np.quantile(many, 0.005)


def test_a_difference_moves_with_now() -> None:
    apart = KnownDu(0.7, 0.05, 0.15, 0.95, 5, "both", is_difference=True)
    base = np.full(20_000, 0.5)
    draws = drawn_du(apart, np.random.default_rng(RNG), base.size, base)
    assert float(draws.mean()) == pytest.approx(0.6, abs=0.005)
    inside = float(np.mean((draws >= 0.55) & (draws <= 0.65)))
    assert inside == pytest.approx(0.95, abs=0.01)


def runs(package: str, du: float) -> PackageRuns:
    """Four days of two runs, 0.05 lower for each metre a second."""
    wind = np.array([1.0, 3.0] * 4)
    noise = np.array([0.01, -0.01, 0.0, 0.02, -0.02, 0.0, 0.01, -0.01])
    noise = noise if package == "p" else noise[::-1]
    day = np.repeat(np.arange(4), 2)
    return PackageRuns(package, wind, du - 0.05 * wind + noise, day)


def trials(wind_m_per_s: float = 2.0, *, is_apart: bool = False) -> Trials:
    found = comparison(runs("p", 0.7), runs("new", 0.9), wind_m_per_s=wind_m_per_s)
    pair = Pair("p", "new", found, "", None, None, ("", ""), is_apart)
    tested = KnownDu(0.8, 0.78, 0.82, 0.95, 4, "its runs")
    return Trials({"new": tested}, (pair,), "a log")


def test_packages_in_one_wind_give_now_plus_their_difference() -> None:
    found = known_then(option(package="new"), bay(), NOW, trials())
    assert found is not None
    assert found.is_difference
    assert found.du_lq == pytest.approx(0.6 + 0.2, abs=0.01)
    assert found.low is not None
    assert found.high is not None
    assert found.low < 0.2 < found.high


def test_the_difference_is_new_less_old_whichever_stands_first() -> None:
    turned = comparison(runs("new", 0.9), runs("p", 0.7), wind_m_per_s=2.0)
    pair = Pair("new", "p", turned, "", None, None, ("", ""), False)
    one = known_then(option(package="new"), bay(), NOW, Trials({}, (pair,), "a log"))
    assert one is not None
    other = known_then(option(package="new"), bay(), NOW, trials())
    assert other is not None
    assert (one.du_lq, one.low) == pytest.approx((other.du_lq, other.low))


def test_a_wind_that_neither_was_tested_in_is_a_caution() -> None:
    found = known_then(option(package="new"), bay(), NOW, trials(8.0))
    assert found is not None
    assert "extrapolated" in found.caution


def test_packages_that_never_shared_a_zone_are_not_subtracted() -> None:
    found = known_then(option(package="new"), bay(), NOW, trials(is_apart=True))
    assert found == KnownDu(0.8, 0.78, 0.82, 0.95, 4, "its runs")
