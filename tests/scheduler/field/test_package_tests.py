"""Runs of each package: which condition, which wind, and what is left out."""

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest

from scheduler.errors import Finding, QuantityError
from scheduler.field.evaluation import evaluated_site
from scheduler.field.package_tests import (
    PackageTests,
    package_findings,
    package_tests,
)
from scheduler.record import CanTest, History, WindLog
from scheduler.site import Package, Place, Site, Zone
from tests.scheduler.field.made import can_test, run
from tests.scheduler.field.wind.made import NEW_YORK, wind_log

PLACE = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
              time_zone=NEW_YORK)  # fmt: skip
ZONE = Zone(id="Z4", name="yard", area_m2=900.0, grown_in="pots", watered="off",
            package="a")  # fmt: skip
SITE = Site(name="s", units="us", place=PLACE, zones=(ZONE,),
            packages=(Package(id="a"),))  # fmt: skip


def a_test(month: int, condition: str, *winds: float | None, **given: Any) -> CanTest:
    runs = [
        replace(run(name=f"run{i}"), wind_m_per_s=wind)
        for i, wind in enumerate(winds, 1)
    ]
    test = can_test(*runs, date=dt.date(2026, month, 12), condition=condition, **given)
    return replace(test, name=f"2026-{month:02d}-12-Z4")


def of_a(*tests: CanTest, wind: tuple[WindLog, ...] = (),
         condition: str | None = None) -> PackageTests:  # fmt: skip
    done = evaluated_site(SITE, History(tests, wind=wind), with_ranges=False)
    return package_tests(SITE, done, tests, condition=condition)[0]


def said(package: PackageTests, asked: str | None = None) -> list[Finding]:
    return list(package_findings(package, asked=asked))


BOTH = (a_test(3, "as found", 1.0, 2.0), a_test(5, "after tune-up", 1.5, 2.5, 3.0))


def test_the_newest_condition_is_taken_and_the_other_counted() -> None:
    found = of_a(*BOTH)
    assert (found.condition, found.runs.du_lq.size) == ("after tune-up", 3)
    assert found.left_out == (("as found", 2),)


def test_what_is_left_out_is_said_with_the_way_to_it() -> None:
    (finding,) = said(of_a(*BOTH))
    assert "after tune-up (newest); 2 runs as found left out" in finding.what
    assert '--condition "as found"' in finding.fix


def test_another_condition_can_be_chosen_in_any_case() -> None:
    found = of_a(*BOTH, condition="As  Found")
    assert (found.runs.du_lq.size, found.left_out) == (2, (("after tune-up", 3),))


def test_the_order_of_the_tests_does_not_matter() -> None:
    assert of_a(*reversed(BOTH)).condition == "after tune-up"


def test_a_condition_that_nobody_found_is_refused_with_the_known_ones() -> None:
    with pytest.raises(QuantityError, match="'worn'") as refused:
        of_a(*BOTH, condition="worn")
    assert "as found, after tune-up" in refused.value.fix


def test_a_package_without_the_condition_has_no_runs() -> None:
    other = a_test(6, "worn", 1.0, package="b")
    done = evaluated_site(SITE, History((*BOTH, other)), with_ranges=False)
    a, b = package_tests(SITE, done, (*BOTH, other), condition="worn")
    assert (a.runs.du_lq.size, a.condition) == (0, "")
    assert (b.runs.du_lq.size, b.condition) == (1, "worn")


def test_runs_of_unknown_wind_are_counted_and_left_out() -> None:
    found = of_a(a_test(5, "as found", 1.0, None, 2.0))
    assert (found.runs.du_lq.size, found.n_unknown) == (2, 1)
    assert any("1 run of unknown wind" in one.what for one in said(found))


def test_runs_can_be_found_again_by_name() -> None:
    assert of_a(BOTH[0]).runs.label == ("2026-03-12-Z4 run1", "2026-03-12-Z4 run2")


@pytest.mark.parametrize(("height_m", "factor"), [(2.0, 1.0), (10.0, 0.748)])
def test_wind_of_a_mast_is_brought_to_2_m(height_m: float, factor: float) -> None:
    # FAO-56, equation 47
    begun = replace(run(), start=dt.datetime.fromisoformat("2026-05-12T06:10"))
    log = wind_log([3.0] * 12, height_m=height_m)
    found = of_a(can_test(begun), wind=(log,))
    assert found.runs.wind_m_per_s[0] == pytest.approx(3.0 * factor, rel=1e-3)
    assert any("brought to 2 m" in one.what for one in said(found)) is (factor < 1)


def test_wind_of_a_height_beyond_the_equation_is_warned_of() -> None:
    begun = replace(run(), start=dt.datetime.fromisoformat("2026-05-12T06:10"))
    found = of_a(can_test(begun), wind=(wind_log([3.0] * 12, height_m=80.0),))
    assert found.runs.wind_m_per_s[0] == pytest.approx(3.0)
    assert any(one.level == "warning" and "80 m" in one.what for one in said(found))


@pytest.mark.parametrize(
    ("winds", "why"),
    [((), "no run"), ((1.0,), "one run"), ((2.0, 2.0), "all runs in one wind"),
     ((1.0, 2.0), "")],
)  # fmt: skip
def test_why_there_is_no_line_is_said(winds: tuple[float, ...], why: str) -> None:
    found = of_a(*([a_test(5, "as found", *winds)] if winds else []))
    assert found.why.startswith(why)
    assert bool(found.why) == bool(why)
