"""Assumed and stated results: shares with the uniformity they claim."""

import datetime as dt

import pytest

from scheduler.field.guess import assumed, rate_without_cans, stated_catch
from scheduler.field.uniformity import low_quarter_uniformity
from scheduler.record import CanTest, StatedResult
from scheduler.site import Plant, Zone

ZONE = Zone(
    id="Z1",
    name="yard",
    area_m2=100.0,
    grown_in="pots",
    plant=Plant(name="holly", kc=0.85, kc_area="bed"),
)


def test_assumed_shares_have_the_assumed_uniformity() -> None:
    found, _ = assumed(ZONE, 12.0)
    assert found is not None
    assert float(low_quarter_uniformity(found.share)) == pytest.approx(found.du_lq)


def test_an_assumed_rate_says_how_to_replace_it() -> None:
    _, _, (finding,) = rate_without_cans(ZONE, 12.0)
    assert "catch-can test" in finding.fix


def test_the_missing_test_is_left_to_the_list_of_tests_due() -> None:
    _, findings = assumed(ZONE, 12.0)
    assert not any("test" in one.what for one in findings)


@pytest.mark.parametrize(("grown_in", "grown"), [("pots", "pots"), ("soil", "plants")])
def test_what_an_assumed_uniformity_may_cost_is_said_of_what_grows_there(
    grown_in: str, grown: str
) -> None:
    _, findings = assumed(ZONE.model_copy(update={"grown_in": grown_in}), 12.0)
    assert f"{grown} may run dry or drown" in findings[-1].fix


def test_without_any_rate_there_is_a_stop() -> None:
    rate, _, (finding,) = rate_without_cans(ZONE, None)
    assert rate is None
    assert finding.level == "stop"


def test_a_stated_rate_is_used_as_it_is() -> None:
    report = StatedResult(0.71, 12.0, "report of 2024")
    day = dt.date(2024, 5, 1)
    test = CanTest("t", "test.toml", "Z1", day, "", None, (), report)
    found, _ = stated_catch(ZONE, test, None)
    assert found is not None
    assert found.net_rate_mm_per_h == 12.0
