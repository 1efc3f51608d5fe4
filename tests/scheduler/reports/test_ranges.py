"""Ranges and windows in text: the numbers of the rooms, named in plain words."""

import numpy as np

from scheduler.field.driest_window import driest_windows
from scheduler.field.together import together
from scheduler.reports.ranges import together_text, windows_text

RUNS = np.random.default_rng(1).normal(10.0, 2.0, (3, 24)).clip(0)


def _text(n_runs: int) -> str:
    found = together(RUNS[:n_runs], resamples=300)
    assert found is not None
    return together_text(found)


def test_one_run_says_upper_bound() -> None:
    assert "upper bound" in _text(1)


def test_several_runs_have_both_ranges_by_name() -> None:
    text = " ".join(_text(3).split())
    assert "for this cell in these runs" in text
    assert "for this zone on another night" in text


def test_the_sum_stands_beside_one_run() -> None:
    found = together(RUNS, resamples=None)
    assert found is not None
    expected = f"{found.measured.du_lq:.2f}, one run alone {found.one_run_du_lq:.2f}"
    assert expected in together_text(found)


def test_no_line_is_wider_than_eighty_columns() -> None:
    assert max(len(line) for n in (1, 3) for line in _text(n).splitlines()) <= 80


def test_a_window_prints_its_share_of_the_area() -> None:
    (_, said), *_ = windows_text(driest_windows(RUNS[0].reshape(4, 6)))
    assert "driest 1 can, 4% of the area" in said


def test_a_dry_window_prints_no_number() -> None:
    grid = np.full((4, 6), 5.0)
    grid[0, 0] = 0.0
    assert windows_text(driest_windows(grid))[0][1].startswith("no water there")
