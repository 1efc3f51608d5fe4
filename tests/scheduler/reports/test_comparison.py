"""The comparison as text and JSON: the numbers of the trial, in plain words."""

from dataclasses import replace

import numpy as np
import pytest

from scheduler.field.package_trial import PackageTrial, Pair
from scheduler.field.trial import Comparison, comparison
from scheduler.reports.comparison import in_words, trial_json, trial_text
from tests.scheduler.field.test_package_trial import NIGHT, both, found, night_log, site
from tests.scheduler.field.trial.made import Made, made_trial


@pytest.fixture(scope="module")
def trial() -> PackageTrial:
    return found(*both(), on=site(NIGHT), wind=None, log=night_log(10))


def only(trial: PackageTrial) -> Comparison:
    (pair,) = trial.pairs
    assert pair.found is not None
    return pair.found


def plain(trial: PackageTrial) -> str:
    return " ".join(trial_text(trial, "metric").split())


def test_a_proven_difference_is_one_sentence_with_its_range(
    trial: PackageTrial,
) -> None:
    one = only(trial)
    said = in_words(trial.pairs[0])
    assert said == (
        f"a waters more evenly than b in this wind, by {one.low:.2f} to {one.high:.2f} "
        "of DU."
    )
    assert said in plain(trial)


def pair_of(found: Comparison) -> Pair:
    days = found.days_needed
    runs = None if days is None else 8 * days
    return Pair("a", "b", found, found.why, days, runs, ("worn", "worn"), False)


def test_what_is_not_proven_says_how_many_more_days() -> None:
    made = Made(n_days=3, lines=((0.82, -0.03), (0.79, -0.03)))
    one = comparison(*made_trial(10, made), wind_m_per_s=2.0)
    assert one.verdict == "not proven"
    assert one.days_needed
    assert in_words(pair_of(one)) == (
        "The tests do not tell a and b apart yet; about "
        f"{one.days_needed} more days of runs would settle it "
        f"({8 * one.days_needed} runs)."
    )


def test_a_proven_difference_that_is_nothing_in_the_field_says_so() -> None:
    made = Made(n_days=8, lines=((0.786, -0.03), (0.780, -0.03)), own_sd=0.0,
                run_sd=0.0005)  # fmt: skip
    one = comparison(*made_trial(1, made), wind_m_per_s=2.0)
    assert one.verdict == "better"
    assert in_words(pair_of(one)).endswith("of DU, too little to matter.")


def test_too_few_days_say_at_least() -> None:
    (pair,) = found(*both()[:4]).pairs
    assert "at least 1 more day of runs are needed (8 runs)" in in_words(pair)


def test_the_method_of_the_range_is_said(trial: PackageTrial) -> None:
    assert "t on days)" in plain(trial)
    (pair,) = trial_json(trial, ())["pairs"]
    assert pair["method"] == "t on days"


def test_the_json_holds_the_numbers_of_the_trial(trial: PackageTrial) -> None:
    one = only(trial)
    (pair,) = trial_json(trial, ())["pairs"]
    assert (pair["difference"], pair["difference_low"], pair["difference_high"]) == (
        one.difference,
        one.low,
        one.high,
    )
    assert pair["verdict"] == "better"


def test_each_package_has_its_expected_du_by_month(trial: PackageTrial) -> None:
    a = trial_json(trial, ())["packages"][0]
    at_wind = trial.expected[0].at_wind
    assert at_wind is not None
    assert a["expected"]["du_lq"] == at_wind.du_lq
    assert [one["month"] for one in a["expected_by_month"]] == [5]
    assert "May" in trial_text(trial, "us")


def test_the_text_fits_80_columns(trial: PackageTrial) -> None:
    for text in (trial_text(trial, "us"), trial_text(trial, "metric")):
        assert max(map(len, text.splitlines())) <= 80


def test_a_wind_beyond_the_tested_ones_is_marked() -> None:
    text = trial_text(found(*both(), wind=6.0), "metric")
    assert "extrapolated" in text
    assert "Extrapolated" in text


def test_resampled_days_stand_beside_from_eight_on() -> None:
    tests = both()
    later = (
        replace(one, name=f"later-{i}", date=one.date.replace(day=one.date.day + 10))
        for i, one in enumerate(tests)
    )
    trial = found(*tests, *later)
    assert "Resampling the days gives" in plain(trial)
    (pair,) = trial_json(trial, ())["pairs"]
    assert pair["resampled_days"]["n_dropped"] == 0
    assert np.isfinite(pair["resampled_days"]["difference_low"])
