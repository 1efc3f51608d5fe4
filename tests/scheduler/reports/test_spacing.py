"""The spacing report shows the pattern's own numbers, in either system."""

from functools import cache

import numpy as np
import pytest

from scheduler.field.overlap import Pattern, Sweep, pattern, sweep
from scheduler.field.profile import Profile, radial_profile
from scheduler.reports.machine import clean
from scheduler.reports.spacing import pattern_text, spacing_json, sweep_text
from scheduler.units import System, shown

FOOT = 0.3048
STEPS = np.array([20.0, 24.0, 28.0, 32.0]) * FOOT


@cache
def made() -> tuple[Profile, Pattern, Sweep]:
    cone, _ = radial_profile([0.0, 28 * FOOT], [20.0, 0.0], minutes=60)
    assert cone is not None
    at = pattern(
        cone, spacing_m=24 * FOOT, row_spacing_m=28 * FOOT, layout="rectangular"
    )
    swept = sweep(cone, spacings_m=STEPS, row_spacings_m=STEPS, layout="rectangular")
    return cone, at, swept


def cells(row: str) -> list[str]:
    return row.replace("[", " ").replace("]", " ").split()


@pytest.mark.parametrize("units", ["us", "metric"])
def test_each_number_of_the_pattern_is_shown_formatted(units: System) -> None:
    cone, at, _ = made()
    text = pattern_text(cone, at, units)
    for line in (
        shown(at.mean_rate_mm_per_h, "mm_per_h", units),
        f"{at.du_lq:.2f}",
        f"{at.du_lh:.2f}",
        f"{at.cu:.2f}",
        f"{at.scheduling_coefficient:.2f}  (driest 5%",
        shown(cone.flow_l_per_min, "l_per_min", units),
    ):
        assert line in text


def test_heads_are_counted_by_the_acre() -> None:
    cone, at, _ = made()
    # 43560 ft2 of an acre on 24 by 28 ft, by hand
    assert f"{43560 / (24 * 28):.1f} per acre" in pattern_text(cone, at, "us")


def test_the_map_has_a_row_for_each_row_spacing_and_a_column_for_each_along() -> None:
    _, at, swept = made()
    lines = sweep_text(swept, at, "us").splitlines()
    assert cells(lines[1]) == ["20", "24", "28", "32"]
    assert cells(lines[5]) == [
        "32", *(f"{one:.2f}" for one in swept.du_lq[:, 3])
    ]  # fmt: skip


def test_the_rate_stands_below_at_the_same_places() -> None:
    _, at, swept = made()
    lines = sweep_text(swept, at, "us").splitlines()
    start = next(i for i, one in enumerate(lines) if one.startswith("precipitation"))
    rates = (one / 25.4 for one in swept.mean_rate_mm_per_h[:, 0])
    assert cells(lines[start + 2]) == ["20", *(f"{one:.1f}" for one in rates)]


def test_rates_of_the_map_keep_two_digits() -> None:
    cone, _ = radial_profile([0.0, 28 * FOOT], [150.0, 0.0], minutes=60)
    assert cone is not None
    m = np.array([8.0, 24.0, 60.0]) * FOOT
    at = pattern(cone, spacing_m=m[1], row_spacing_m=m[1], layout="square")
    swept = sweep(cone, spacings_m=m, row_spacings_m=m, layout="square")
    text = sweep_text(swept, at, "us").partition("precipitation")[2]
    # by hand: the water of a cone is a third of its cylinder, over the ground of a head
    water = 150 / 25.4 * np.pi * 28**2 / 3
    by_hand = [f"{water / 64:.0f}", f"{water / 192:.0f}", f"{water / 480:.0f}"]
    assert cells(text.splitlines()[2]) == ["8", *by_hand]
    assert f"[{water / 576:.1f}]" in text


def test_brackets_stand_at_the_spacing_asked_about_alone() -> None:
    _, at, swept = made()
    lines = sweep_text(swept, at, "us").splitlines()[:6]
    marked = [one for one in lines if "[" in one]
    assert len(marked) == 1
    assert marked[0].startswith("28 ")
    before = marked[0].partition("[")[0]
    assert len(before.split()) == 2  # the label and one cell: the second is marked


def test_the_marked_cell_tells_the_same_as_the_pattern() -> None:
    _, at, swept = made()
    assert f"[{at.du_lq:.2f}]" in sweep_text(swept, at, "us")


def test_columns_stay_under_their_heads_beside_the_brackets() -> None:
    _, at, swept = made()
    lines = sweep_text(swept, at, "us").splitlines()[1:6]
    assert len({len(one.rstrip("]")) for one in lines}) == 1


def test_a_wide_map_is_cut_into_blocks_that_fit_80_columns() -> None:
    cone, at, _ = made()
    many = np.linspace(20, 32, 40) * FOOT
    swept = sweep(cone, spacings_m=many, row_spacings_m=STEPS, layout="rectangular")
    text = sweep_text(swept, at, "us")
    assert max(len(line) for line in text.splitlines()) <= 80
    rows = text.split("\n\nprecipitation")[0].splitlines()
    assert sum(len(cells(one)) - 1 for one in rows if one.startswith("24 ")) == 40


def test_the_json_carries_the_numbers_themselves() -> None:
    cone, at, swept = made()
    value = clean(spacing_json(cone, at, swept, ()))
    assert value["format"] == 1
    assert value["at"]["du_lq"] == at.du_lq
    assert value["sweep"]["du_lq"] == swept.du_lq.tolist()
    assert value["sweep"]["spacings_m"] == STEPS.tolist()


def test_what_could_not_be_worked_out_is_null() -> None:
    value = spacing_json(None, None, None, ())
    assert (value["profile"], value["at"], value["sweep"]) == (None, None, None)
