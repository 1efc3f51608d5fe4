"""Packages of a site at one wind: who is compared, at which wind, and what is said."""

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from scheduler.errors import QuantityError
from scheduler.field.package_trial import PackageTrial, Pair, package_trial
from scheduler.field.trial import PackageRuns, comparison
from scheduler.field.uniformity import low_quarter_uniformity
from scheduler.record import CanTest, History, WindLog
from scheduler.site import Package, Place, Site, Window, Zone
from tests.scheduler.field.made import can_test, run
from tests.scheduler.field.wind.made import NEW_YORK, wind_log

PLACE = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
              time_zone=NEW_YORK)  # fmt: skip
NIGHT = Window(start=dt.time(22, 0), end=dt.time(4, 30))
WINDS = (0.8, 1.6, 2.6, 3.8)


def site(*windows: Window, packages: str = "ab") -> Site:
    zone = Zone(id="Z4", name="yard", area_m2=900.0, grown_in="pots", watered="off",
                package="a")  # fmt: skip
    known = tuple(Package(id=one) for one in packages)
    return Site(
        name="s", units="us", place=PLACE, zones=(zone,), packages=known,
        windows=windows,
    )  # fmt: skip


def cans(du: float) -> Any:
    """Sixteen cans whose driest quarter is `du` of their mean."""
    return np.array([[du] * 4 + [(4 - du) / 3] * 12]) * 50


def trial_test(package: str | None, day: int, line: tuple[float, float]) -> CanTest:
    """Four runs of a package on one morning, on a line of DU against wind."""
    rng = np.random.default_rng((day, ord((package or "a")[0])))
    runs = tuple(
        replace(
            run(cans(line[0] + line[1] * wind + rng.normal(0, 0.005)), name=f"run{i}"),
            wind_m_per_s=wind,
        )
        for i, wind in enumerate(WINDS, 1)
    )
    test = can_test(*runs, date=dt.date(2026, 5, day), package=package)
    return replace(test, name=f"2026-05-{day}-{package}")


def both(
    a: tuple[float, float] = (0.86, -0.04), b: tuple[float, float] = (0.76, -0.02)
) -> tuple[CanTest, ...]:
    """Four mornings of both; those of a name no package, the zone has it."""
    days = range(10, 14)
    return tuple(
        one
        for day in days
        for one in (trial_test(None, day, a), trial_test("b", day, b))
    )


def found(
    *tests: CanTest,
    wind: float | None = 2.0,
    on: Site | None = None,
    log: WindLog | None = None,
    condition: str | None = None,
) -> PackageTrial:
    history = History(tests, wind=(log,) if log else ())
    return package_trial(
        on or site(), history, wind_m_per_s=wind, condition=condition
    )  # fmt: skip


def only(trial: PackageTrial) -> Pair:
    (pair,) = trial.pairs
    return pair


def test_the_pair_is_that_of_the_comparison_of_its_runs() -> None:
    tests = both()
    by_hand = {}
    for name, own in (("a", tests[::2]), ("b", tests[1::2])):
        runs = [(test.date.toordinal(), one) for test in own for one in test.runs]
        by_hand[name] = PackageRuns(
            name,
            np.array([one.wind_m_per_s for _, one in runs]),
            np.array([float(low_quarter_uniformity(one.reading.ravel()))
                      for _, one in runs]),
            np.array([day for day, _ in runs]),
        )  # fmt: skip
    expected = comparison(by_hand["a"], by_hand["b"], wind_m_per_s=2.0)
    pair = only(found(*tests))
    assert pair.found is not None
    assert pair.found.difference == pytest.approx(expected.difference)
    assert pair.found.low == pytest.approx(expected.low)
    assert pair.found.verdict == expected.verdict == "better"


def test_a_test_without_package_is_of_that_of_its_zone() -> None:
    sizes = {one.package: one.runs.du_lq.size for one in found(*both()).packages}
    assert sizes == {"a": 16, "b": 16}


def test_the_tie_is_where_the_invented_lines_cross() -> None:
    # 0.86 - 0.04 w and 0.76 - 0.02 w meet at 5 m/s
    assert only(found(*both())).tie_wind_m_per_s == pytest.approx(5.0, abs=0.4)


def test_lines_that_cross_below_no_wind_tie_nowhere() -> None:
    assert only(found(*both((0.80, -0.02), (0.76, -0.04)))).tie_wind_m_per_s is None


def test_equal_packages_are_not_proven() -> None:
    pair = only(found(*both((0.80, -0.03), (0.80, -0.03))))
    assert pair.found is not None
    assert pair.found.verdict == "not proven"


def test_two_days_need_one_more_and_the_runs_of_both_on_it() -> None:
    pair = only(found(*both()[:4]))
    assert (pair.days_needed, pair.runs_needed) == (1, 8)
    assert "2 days" in pair.why


def test_a_package_in_one_wind_is_said_and_its_pair_is_not_hidden() -> None:
    single = trial_test("b", 10, (0.76, -0.02))
    single = replace(single, runs=single.runs[:1])
    trial = found(*both()[::2], single)
    assert only(trial).found is None
    assert "b: one run" in only(trial).why
    assert any(one.where == "package b" for one in trial.findings)


def test_as_found_and_tuned_up_are_never_taken_together() -> None:
    tests = both()
    tuned = tuple(replace(one, condition="after tune-up") for one in tests[4:])
    trial = found(*tests[:4], *tuned)
    assert [one.condition for one in trial.packages] == ["after tune-up"] * 2
    assert [one.n_days for one in trial.packages] == [2, 2]
    asked = found(*tests[:4], *tuned, condition="as found")
    assert [one.condition for one in asked.packages] == ["as found"] * 2


def test_a_pair_of_two_conditions_says_both() -> None:
    tests = both()
    tuned = tuple(replace(one, condition="after tune-up") for one in tests[1::2])
    pair = only(found(*tests[::2], *tuned))
    assert pair.conditions == ("as found", "after tune-up")


def test_packages_of_one_zone_are_not_apart() -> None:
    assert not only(found(*both())).is_apart
    tests = both()
    moved = tuple(replace(one, zone="Z5") for one in tests[1::2])
    assert only(found(*tests[::2], *moved)).is_apart


def test_packages_tested_on_other_days_are_confounded() -> None:
    tests = both()
    later = tuple(replace(one, date=one.date + dt.timedelta(30)) for one in tests[1::2])
    pair = only(found(*tests[::2], *later))
    assert pair.found is not None
    assert pair.found.is_confounded


# --- the DU to be expected ---------------------------------------------------------


def test_expected_du_is_that_of_the_line_at_the_wind() -> None:
    # 0.86 - 0.04 x 2 m/s
    at_wind = found(*both()).expected[0].at_wind
    assert at_wind is not None
    assert at_wind.du_lq == pytest.approx(0.78, abs=0.01)
    assert at_wind.low is not None
    assert at_wind.low < 0.78


def test_expected_du_stands_by_month_where_a_log_knows_the_night() -> None:
    trial = found(*both(), on=site(NIGHT), wind=None, log=night_log(10))
    ((month, may),) = trial.expected[0].by_month
    assert month == 5
    assert may.wind_m_per_s == pytest.approx(trial.wind_m_per_s)
    assert may.du_lq == pytest.approx(0.86 - 0.04 * trial.wind_m_per_s, abs=0.01)


def test_without_a_log_no_month_is_known() -> None:
    assert all(one.by_month == () for one in found(*both()).expected)


def test_beyond_the_tested_winds_it_is_extrapolated() -> None:
    at_wind = found(*both(), wind=6.0).expected[0].at_wind
    assert at_wind is not None
    assert at_wind.is_extrapolated


def test_a_line_that_leaves_what_can_be_is_cut_and_said() -> None:
    trial = found(*both(), wind=28.0)
    at_wind = trial.expected[0].at_wind
    assert at_wind is not None
    assert at_wind.du_lq == 0.0
    assert any("was cut" in one.what for one in trial.findings)


def test_packages_without_tests_stand_in_no_pair() -> None:
    trial = found(*both(), on=site(packages="abc"))
    assert len(trial.packages) == 3
    assert len(trial.pairs) == 1


# --- the wind to compare at ----------------------------------------------------


def night_log(n_days: int) -> WindLog:
    """Hourly rows from a local midnight (UTC-4): 1 m/s at night, 4 m/s by day."""
    hour = np.arange(24 * n_days) % 24
    speed = np.where((hour >= 22) | (hour < 4), 1.0, np.where(hour == 4, 3.0, 4.0))
    return wind_log(speed, start="2026-05-01T04:00", step_min=60)


def test_the_wind_is_that_of_the_irrigation_hours() -> None:
    trial = package_trial(site(NIGHT), History(wind=(night_log(10),)))
    # six hours of 1 m/s and half an hour of 3 m/s
    assert trial.wind_m_per_s == pytest.approx((6 * 1.0 + 0.5 * 3.0) / 6.5)


def test_where_the_wind_comes_from_is_said_with_its_height() -> None:
    source = package_trial(site(NIGHT), History(wind=(night_log(10),))).wind_from
    assert source == "irrigation hours in 1 month of the log mast, at 2 m"


def test_without_a_log_the_wind_is_asked_for() -> None:
    with pytest.raises(QuantityError, match=r"no .*wind_log") as refused:
        package_trial(site(NIGHT), History())
    assert "--wind" in refused.value.fix


@pytest.mark.parametrize("wind", [-1.0, 31.0, float("nan")])
def test_a_wind_out_of_range_is_refused(wind: float) -> None:
    with pytest.raises(QuantityError, match="out of range"):
        found(*both(), wind=wind)


@pytest.mark.parametrize(
    ("units", "said", "most"),
    [("us", "a wind of 900 mph", "0 to 67 mph"), ("metric", "402.34 m/s", "30 m/s")],
)
def test_a_wind_out_of_range_is_refused_in_the_units_of_the_site(
    units: str, said: str, most: str
) -> None:
    own = site(NIGHT).model_copy(update={"units": units})
    with pytest.raises(QuantityError, match=said) as refused:
        package_trial(own, History(), wind_m_per_s=402.336)  # 900 mph
    assert refused.value.fix.endswith(most)
