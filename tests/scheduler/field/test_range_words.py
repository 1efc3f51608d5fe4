"""Words beside the ranges: each range has its name, and one run says so."""

import numpy as np

from scheduler.field.nights import night_ranges
from scheduler.field.range_words import another_night_words, range_caveat
from scheduler.tables import read_table

RUNS = np.random.default_rng(1).normal(10.0, 2.0, (3, 24)).clip(0)


def test_the_range_of_a_run_is_not_called_one_of_another_night() -> None:
    assert "this cell in this run, not another night" in range_caveat()


def test_the_caveat_says_what_alike_neighbours_do_as_it_was_measured() -> None:
    worst = min(float(row["zone"]) for row in read_table("alike_level.csv"))
    assert f"{worst:.0%}" in range_caveat()


def test_another_night_has_range_level_and_runs() -> None:
    words = another_night_words(night_ranges(RUNS, resamples=200), 3)
    assert "this zone on another night" in words
    assert words.endswith("from 3 runs on 3 days")


def test_one_run_says_that_another_night_is_not_known() -> None:
    words = another_night_words(night_ranges(RUNS[:1]), 1)
    assert words == "one run: another night is not known"


def test_nothing_asked_nothing_said() -> None:
    assert another_night_words(None, 1) == ""


def test_runs_of_one_day_are_said_to_be_of_one_day() -> None:
    words = another_night_words(night_ranges(RUNS, resamples=200), 1)
    assert "from 3 runs on one day" in words
