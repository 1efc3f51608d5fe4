"""Crops of the table, moved to the air of the site."""

from typing import Any

import numpy as np
import pytest

from scheduler.need.climate import Climate, site_climate
from scheduler.need.kc_curve import PlantKc
from scheduler.need.table_kc import crop_kc
from scheduler.site import Plant
from tests.scheduler.need.made import day, days, plain

NO_AIR = Climate(())
# the air of FAO-56 Box 15 (p. 130): 2.2 m/s and 30 %, all year
IDAHO = site_climate(
    [plain(365, date=days("2026-01-01", 365), wind_m_per_s=2.2, rh_min=0.30)]
)


def _plant(**given: Any) -> Plant:
    base = {"name": "beans", "crop": "bean dry", "planted": day("2026-05-23")}
    return Plant.model_validate(base | given)


def _names(kc: PlantKc) -> list[str]:
    return [one.name for one in kc.inputs]


# FAO-56 Box 15 (p. 130): dry bean, 1.15 becomes 1.19, the end of 0.35 stays
def test_dry_beans_in_idaho() -> None:
    kc, _ = crop_kc(_plant(), IDAHO, "zone Z1")
    assert kc.levels == pytest.approx((0.40, 1.19, 0.35), abs=0.005)


# FAO-56 Example 29 (p. 136): basal 1.10 becomes 1.14; Example 30: 0.25 stays
def test_basal_dry_beans_in_idaho() -> None:
    kc, _ = crop_kc(_plant(dual=True), IDAHO, "zone Z1")
    assert kc.levels == pytest.approx((0.15, 1.14, 0.25), abs=0.005)


# FAO-56 Example 28 (p. 133): planted on 23 May, day 40 of 25/25/30/20, but with the
# initial 0.40 of Table 12: 0.40 + 15/25 (1.19 - 0.40)
def test_a_day_of_the_development_stage() -> None:
    kc, _ = crop_kc(_plant(), IDAHO, "zone Z1")
    date = np.array([np.datetime64("2026-05-23") + 39])
    assert kc.on(date) == pytest.approx([0.874], abs=0.005)


def test_the_trace_holds_the_table_value_and_the_air() -> None:
    kc, _ = crop_kc(_plant(), IDAHO, "zone Z1")
    mid = kc.inputs[1]
    assert [one.name for one in mid.inputs] == [
        "kc_mid_table",
        "wind_2m_mid_m_per_s",
        "rh_min_mid",
        "height_m",
    ]
    assert "eq. 62" in mid.source


def test_without_measured_air_the_table_stands_and_it_is_said() -> None:
    kc, findings = crop_kc(_plant(), NO_AIR, "zone Z1")
    assert kc.levels == (0.40, 1.15, 0.35)
    assert "2 m/s and 45 %" in findings[0].what


def test_an_own_height_moves_the_coefficient_further() -> None:
    low, _ = crop_kc(_plant(), IDAHO, "zone Z1")
    high, _ = crop_kc(_plant(height_m=2.0), IDAHO, "zone Z1")
    assert high.levels[1] > low.levels[1]


def test_the_region_of_the_stage_lengths_is_said() -> None:
    _, findings = crop_kc(_plant(), IDAHO, "zone Z1")
    assert "printed for Idaho Jun" in findings[-1].what


def test_own_stage_lengths_need_no_region() -> None:
    own = {"initial": 20, "development": 30, "mid": 60, "late": 30}
    kc, findings = crop_kc(_plant(stage_days=own), IDAHO, "zone Z1")
    assert findings == ()
    assert "as entered" in kc.note


def test_that_the_curve_begins_anew_stands_in_the_trace() -> None:
    kc, _ = crop_kc(_plant(), IDAHO, "zone Z1")
    assert "each year on 23 May" in kc.note


def test_one_planting_stands_in_the_trace() -> None:
    kc, _ = crop_kc(_plant(every_year=False), IDAHO, "zone Z1")
    assert kc.note == "one season from 2026-05-23"


# FAO-56 Table 12: cool season turf, 0.95 in mid-season
def test_turf_keeps_its_coefficient_of_mid_season() -> None:
    turf = _plant(crop="turf cool season", planted=None)
    kc, findings = crop_kc(turf, NO_AIR, "zone Z1")
    assert kc.on(days("2026-01-01", 365)) == pytest.approx(np.full(365, 0.95))
    assert any("no stage lengths" in one.what for one in findings)
    assert _names(kc) == ["kc_mid"]


def test_a_derived_basal_coefficient_is_said() -> None:
    tomato = _plant(crop="tomato", dual=True)
    _, findings = crop_kc(tomato, IDAHO, "zone Z1")
    assert "Table 18, from memory" in findings[0].what
