"""Results, maps and quarters: each number is the room's, formatted."""

import itertools
from dataclasses import replace

import numpy as np

from scheduler.field.uniformity import rating
from scheduler.reports.evaluation.results import (
    BANDS,
    boxes_picture,
    map_leaves,
    map_picture,
    quarters_section,
    results_section,
    runs_table,
    wind_picture,
    wind_sections,
)
from scheduler.reports.evaluation.told import Told
from scheduler.reports.paper import Facts, Picture, Words
from scheduler.said import date_text
from scheduler.units import shown
from tests.scheduler.reports.charts.read import cells, words


def test_every_run_has_its_rate_uniformity_and_wind(both: list[Told]) -> None:
    for told in both:
        for run, row in zip(told.runs, runs_table(told).rows, strict=True):
            rate = run.catch.net_rate_mm_per_h
            text = " ".join(row)
            assert shown(rate, "mm_per_h", told.units, with_unit=False) in text
            assert run.ranges is not None
            low, high = run.ranges.du_lq.low, run.ranges.du_lq.high
            assert f"{run.uniformity.du_lq:.2f} ({low:.2f}–{high:.2f})" in text
            assert f"{run.uniformity.du_lh:.2f}" in text
            assert f"{run.uniformity.cu:.2f}" in text
            assert run.wind is not None
            assert run.wind.band in text


def facts(told: Told) -> dict[str, str]:
    found = results_section(told).blocks
    return {n: t for one in found if isinstance(one, Facts) for n, t in one.facts}


def test_runs_together_and_another_night_keep_their_names(
    tern: dict[str, Told],
) -> None:
    known = facts(tern["Z1"])
    summed = tern["Z1"].test.together
    assert summed is not None
    assert f"DU {summed.measured.du_lq:.2f}" in known["2 runs together"]
    assert "another night, on average" in known["Another night"]


def test_before_and_after_a_tune_up_stand_beside_each_other(
    tern: dict[str, Told],
) -> None:
    was = tern["Z5"].test.before
    assert was is not None
    assert f"changed by {was.change:+.2f}" in facts(tern["Z5"])["Before"]


def test_other_tests_of_the_zone_are_named(alder: dict[str, Told]) -> None:
    known = facts(alder["A1"])
    for one in alder["A1"].others:
        assert (
            f"DU {shown(one.du_lq, '', 'metric')}"
            in known[f"Test {date_text(one.date)}"]
        )


def test_bands_of_the_scale_begin_where_the_words_change() -> None:
    for low, high in itertools.pairwise(BANDS):
        assert low.high == high.low
        assert rating(low.high - 0.001) != rating(high.low)


def test_a_test_in_doubt_says_so_above_its_numbers(tern: dict[str, Told]) -> None:
    first = results_section(tern["Z9"]).blocks[0]
    assert isinstance(first, Words)
    assert "In doubt" in first.text


def test_boxes_hold_the_catches_as_depths(alder: dict[str, Told]) -> None:
    run = alder["A1"].runs[0]
    found = cells(boxes_picture(alder["A1"]))
    assert f"{run.catch.depth_mm.min():.1f}" in found
    assert f"{run.catch.depth_mm.max():.1f}" in found


def test_every_reading_stands_on_its_map(both: list[Told]) -> None:
    for told in both:
        for run in told.runs:
            picture = map_picture(run, told)
            typed = [one.strip("()*+ ") for one in cells(picture)]
            drawn = [one.strip("()") for one in words(picture)]
            reading = run.catch.run.reading
            for value in reading[np.isfinite(reading)].tolist():
                assert f"{value:g}" in typed
                assert f"{value:g}" in drawn


def test_the_driest_quarter_is_the_rooms(tern: dict[str, Told]) -> None:
    run = tern["Z4"].runs[0]
    starred = [one for one in cells(map_picture(run, tern["Z4"])) if "*" in one]
    reading = run.catch.run.reading
    assert sorted(starred) == sorted(f"{reading[at]:g}*" for at in run.driest)


def test_a_can_left_out_stands_in_brackets(tern: dict[str, Told]) -> None:
    told = tern["Z6"]
    (out,) = told.runs[0].catch.run.excluded
    value = told.runs[0].catch.run.reading[out.row, out.column]
    found = cells(map_picture(told.runs[0], told))
    assert f"({value:g})" in found


def test_codes_stay_codes_and_are_explained(tern: dict[str, Told]) -> None:
    picture = map_picture(tern["Z2"].runs[0], tern["Z2"])
    assert "k knocked over" in picture.says
    assert "k" in [one.strip() for one in cells(picture)]


def test_row_one_is_north_where_rows_run_east(alder: dict[str, Told]) -> None:
    told = alder["A1"]
    assert told.read.layout.row_bearing_deg == 90
    assert "north is up" in map_picture(told.runs[0], told).says


def test_maps_of_many_runs_are_spread_over_leaves(tern: dict[str, Told]) -> None:
    told = tern["Z1"]
    many = replace(told, test=replace(told.test, runs=told.runs * 3))
    leaves = map_leaves(many)
    maps = [len(one[0].blocks) for one in leaves if one[0].number == "3"]
    assert maps == [2, 2, 2]


def test_quarters_stand_beside_the_map_where_there_is_room(
    tern: dict[str, Told],
) -> None:
    numbers = [[one.number for one in leaf] for leaf in map_leaves(tern["Z4"])]
    assert numbers == [["3", "4"]]
    numbers = [[one.number for one in leaf] for leaf in map_leaves(tern["Z1"])]
    assert numbers == [["3"], ["4"]]


def test_wind_is_drawn_where_a_line_can_be(
    tern: dict[str, Told], alder: dict[str, Told]
) -> None:
    picture = wind_picture(alder["A1"])
    package = alder["A1"].package
    assert picture is not None
    assert package is not None
    for name, du in zip(package.runs.label, package.runs.du_lq.tolist(), strict=True):
        assert name in cells(picture)
        assert f"{du:.2f}" in cells(picture)
    assert wind_sections(replace(tern["Z4"], line=None)) == []


def test_quarters_are_those_of_every_rule(both: list[Told]) -> None:
    for told in both:
        for block in quarters_section(told).blocks:
            for rule in told.plan.rules:
                assert isinstance(block, Picture)
                assert all(f"{one:.0%}" in cells(block) for one in rule.quarters)


def test_a_blocked_zone_has_no_quarters(tern: dict[str, Told]) -> None:
    (block,) = quarters_section(tern["Z9"]).blocks
    assert isinstance(block, Words)
