"""What is said about a run: each slip with its place and its remedy."""

from typing import Any

import numpy as np
import pytest

from scheduler.errors import Finding
from scheduler.field.catch import catch, mouth_area_cm2
from scheduler.field.screening import net_gross_findings, screened
from scheduler.record import Exclusion
from tests.scheduler.field.made import (
    GROSS_MM_PER_H,
    MISSING_CODES,
    MISSING_ML,
    MOUTH_CM2,
    can_test,
    run,
)


def said(*given: Any, test: dict[str, Any] | None = None, **more: Any) -> list[Finding]:
    one = run(*given, **more)
    return list(screened(can_test(one, **(test or {})), one))


def level_of(findings: list[Finding], words: str) -> str:
    return next(one.level for one in findings if words in f"{one.where} {one.what}")


def test_a_clean_run_says_nothing() -> None:
    assert said() == []


def test_a_negative_reading_names_its_can_and_value() -> None:
    (finding,) = said([[40.0, -12.0, 41.0, 42.0]])
    assert finding.level == "stop"
    assert "can B1" in finding.where
    assert "-12" in finding.what


def test_all_zero_asks_for_valve_zone_or_file() -> None:
    (finding,) = said([[0.0] * 8])
    assert finding.level == "stop"
    assert finding.fix == "valve shut, wrong zone or wrong file?"


def test_three_cans_are_too_few() -> None:
    (finding,) = said([[40.0, 41.0, 42.0]])
    assert (finding.level, finding.what) == (
        "stop",
        "only 3 cans hold a reading, 4 are needed",
    )


@pytest.mark.parametrize("minutes", [0.0, -5.0, 2000.0])
def test_minutes_that_cannot_be_are_refused(minutes: float) -> None:
    assert level_of(said(minutes=minutes), "minutes") == "stop"


def test_more_than_the_can_holds_is_refused() -> None:
    assert level_of(said(test={"capacity_ml": 70.0}), "more than the can") == "stop"


def test_an_overflowed_can_is_said() -> None:
    grid = np.array(MISSING_ML, dtype=float)
    assert level_of(said(grid, codes={(0, 4): "o"}), "overflowed") == "warning"


def test_a_lone_zero_is_kept_and_asks_for_a_reason() -> None:
    findings = said(MISSING_ML, codes=MISSING_CODES)
    finding = next(one for one in findings if "reads 0" in one.what)
    assert "can F1" in finding.where
    assert "reason" in finding.fix


def test_leaving_out_a_can_that_moves_the_result_is_said() -> None:
    out = (Exclusion(0, 5, "arc blocked"),)
    findings = said(MISSING_ML, codes=MISSING_CODES, excluded=out)
    finding = next(one for one in findings if "DU moves" in one.what)
    assert "0.69 to 0.8" in finding.what


def test_coded_places_are_counted_by_their_meaning() -> None:
    findings = said(MISSING_ML, codes=MISSING_CODES)
    assert level_of(findings, "1 no reading, 1 knocked over") == "note"


def test_without_a_mouth_the_rate_is_refused_and_the_uniformity_stands() -> None:
    findings = said(test={"mouth_area_cm2": None})
    assert level_of(findings, "DU is valid") == "warning"


def test_depths_typed_under_millilitres_are_suspected() -> None:
    assert level_of(said([[0.4, 0.5, 0.6, 0.5] * 6]), "is the unit right") == "warning"


def test_a_small_catch_is_said() -> None:
    # common practice, no source: a mean of 25 mL or more
    assert level_of(said([[18.0, 20.0, 22.0, 19.0] * 6]), "25 or more") == "warning"


def test_fewer_than_24_cans_are_noted() -> None:
    # Univ. Maryland course 4.3 and Minnesota Extension: 20 to 24 cans
    assert level_of(said([[50.0] * 20]), "20 cans are used") == "note"


def test_a_count_that_is_no_multiple_of_four_is_noted() -> None:
    assert level_of(said([[50.0] * 26]), "multiple of 4") == "note"


def _caught(mouth_mm: float) -> Any:
    area = mouth_area_cm2(mouth_mm)
    return catch(run(), mouth_area_cm2=area, gross_rate_mm_per_h=GROSS_MM_PER_H)


def test_cans_that_surely_caught_more_than_was_delivered_stop() -> None:
    caught = _caught(76.2)
    (finding,) = net_gross_findings(caught, "run1.csv", caught.net_rate_mm_per_h)
    assert finding.level == "stop"
    assert "196 %" in finding.what
    assert "mouth" in finding.fix


def test_cans_that_perhaps_caught_more_only_warn() -> None:
    caught = _caught(106.0)
    (finding,) = net_gross_findings(caught, "run1.csv", GROSS_MM_PER_H * 0.95)
    assert finding.level == "warning"


def test_cans_below_what_was_delivered_say_nothing() -> None:
    caught = catch(run(), mouth_area_cm2=MOUTH_CM2, gross_rate_mm_per_h=GROSS_MM_PER_H)
    assert net_gross_findings(caught, "run1.csv", 1.0) == ()


# Two readers: the second wrote US fluid ounces in the millilitre column.
MIXED: list[list[float]] = [
    [52, 47, 61, 55, 44, 58, 49, 63, 57, 50, 46, 60],
    [1.9, 1.7, 2.1, 1.6, 2.0, 1.8, 1.5, 1.9, 2.2, 1.7, 1.8, 2.0],
]


def test_fluid_ounces_among_millilitres_stop_and_are_named() -> None:
    (finding,) = said(MIXED)
    assert finding.level == "stop"
    assert "29 times" in finding.what
    assert "fluid ounces" in finding.what


def test_a_half_that_is_really_dry_can_be_written_in_whole_millilitres() -> None:
    dry = [MIXED[0], [float(round(one)) for one in MIXED[1]]]
    assert all(one.level != "stop" for one in said(dry))


def test_a_catch_that_fades_to_the_edge_is_no_second_unit() -> None:
    fading = [list(np.geomspace(60.0, 1.5, 24))]
    assert all(one.level != "stop" for one in said(fading))


def test_a_zero_among_cans_that_caught_little_is_no_surprise() -> None:
    edge = [[0.0, 3.5, 60, 61], [2.5, 4, 62, 63], [50, 60, 61, 62]]
    assert not any("reads 0" in one.what for one in said(edge))


def test_cans_left_out_are_not_counted_as_used() -> None:
    out = (Exclusion(0, 0, "knocked by a cart"),)
    assert level_of(said(excluded=out), "23 cans are used") == "note"


def test_a_catch_far_below_what_was_delivered_is_a_warning() -> None:
    # a mouth of 108 mm entered as 108 in: the cans seem to catch next to nothing
    low = _caught(108 * 25.4)
    (finding,) = net_gross_findings(low, "run1.csv", low.net_rate_mm_per_h)
    assert finding.level == "warning"
    assert "70 to 100 % is usual" in finding.what
