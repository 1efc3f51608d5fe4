"""What a result rests on, in words."""

from dataclasses import replace

from scheduler.reports.evaluation.told import Told, how_sure


def test_one_calm_run_is_called_one_calm_run(tern: dict[str, Told]) -> None:
    assert how_sure(tern["Z4"]) == "1 run on 1 day, wind calm"


def test_several_runs_are_counted_with_their_days(tern: dict[str, Told]) -> None:
    assert how_sure(tern["Z1"]) == "2 runs on 1 day, wind calm"


def test_an_unknown_wind_is_said(tern: dict[str, Told]) -> None:
    told = tern["Z4"]
    run = replace(told.runs[0], wind=None)
    test = replace(told.test, runs=(run,))
    assert how_sure(replace(told, test=test)) == "1 run on 1 day, wind unknown"


def test_a_test_without_readings_says_so(tern: dict[str, Told]) -> None:
    told = tern["Z4"]
    assert how_sure(replace(told, test=replace(told.test, runs=()))) == "no readings"


def test_stops_are_those_of_the_test(tern: dict[str, Told]) -> None:
    assert tern["Z4"].stops == ()
    assert "196 %" in tern["Z9"].stops[0]


def test_the_chosen_rule_is_the_one_of_the_week(both: list[Told]) -> None:
    for told in both:
        if told.chosen is not None:
            assert told.chosen.rule == told.plan.rule
