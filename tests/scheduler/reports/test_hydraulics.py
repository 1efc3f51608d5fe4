"""Pressure, flow and meter are shown as computed, in the units of the site."""

import json

import pytest

from scheduler.field.catch import catch
from scheduler.field.hydraulics import Hydraulics, hydraulics
from scheduler.reports.hydraulics import hydraulics_json, hydraulics_text
from scheduler.reports.machine import clean
from scheduler.site import Package
from tests.scheduler.field.hydraulics.made import (
    PACKAGE,
    ZONE,
    bucket,
    card,
    gauge,
    visit,
)
from tests.scheduler.field.made import MOUTH_CM2, run

CAUGHT = (catch(run(), mouth_area_cm2=MOUTH_CM2),)
WHOLE = visit(
    pressures=(gauge("head 1", 47), gauge("head 24", 43)),
    flows=(bucket("head 1", 4.7), bucket("head 24", 4.5)),
    meter=card(0, 331, multiplier=10.0),
)


def checked(package: Package | None = PACKAGE) -> Hydraulics:
    return hydraulics(WHOLE, ZONE, package, CAUGHT)


@pytest.mark.parametrize(
    "words",
    [
        "pressure at 2 heads        45 psi  (43 at head 24 to 47 at head 1: spread 9%",
        "flow at 2 heads            4.6 gpm  (4.5 to 4.7: spread 4%)",
        "rate, gross                0.49 in/h, from buckets",
        "meter                      3,310 gal in 30 min, 110.3 gpm",
        "rate, metered              0.49 in/h on 21,600 ft²",
        "they agree",
    ],
)
def test_each_check_has_its_line(words: str) -> None:
    assert words in hydraulics_text(checked(), "us")


def test_a_metric_site_reads_kpa_and_litres() -> None:
    text = hydraulics_text(checked(), "metric")
    assert "310 kPa" in text
    assert "17.4 L/min" in text


def test_the_block_fits_eighty_columns() -> None:
    lines = hydraulics_text(checked(), "us").splitlines()
    assert max(len(line) for line in lines) <= 80


def test_nothing_entered_shows_no_block() -> None:
    water = hydraulics(visit(), ZONE, PACKAGE, CAUGHT)
    assert hydraulics_text(water, "us") == ""
    assert hydraulics_text(None, "us") == ""


def test_no_flow_at_all_is_said_in_one_line() -> None:
    water = hydraulics(visit(), ZONE, None, CAUGHT)
    assert hydraulics_text(water, "us") == "no gross cross-check: no flow entered"


def test_the_likely_causes_stand_below_what_is_off() -> None:
    test = visit(meter=card(0.5, 331.5))
    text = hydraulics_text(hydraulics(test, ZONE, PACKAGE, CAUGHT), "us")
    assert "off: meter" in text
    assert "1 multiplier: a multiplier of 10 where 1 was used" in text


def test_the_json_holds_what_was_computed() -> None:
    water = checked()
    found = json.loads(json.dumps(clean(hydraulics_json(water))))
    assert water.pressure is not None
    assert found["pressure"]["mean_kpa"] == water.pressure.mean_kpa
    assert found["gross"]["basis"] == "buckets"
    assert found["agreement"]["off"] is None
    assert found["meter"]["flow_per_head_l_per_min"] == pytest.approx(17.4, abs=0.1)
    assert [one["head"] for one in found["flow"]["heads"]] == ["head 1", "head 24"]


def test_the_json_says_what_was_not_entered() -> None:
    found = hydraulics_json(hydraulics(visit(), ZONE, None, CAUGHT))
    assert found is not None
    assert (found["entered"], found["pressure"], found["flow"]) == (False, None, None)
    assert found["missing"][0] == "no gross cross-check: no flow entered"
    assert hydraulics_json(None) is None
