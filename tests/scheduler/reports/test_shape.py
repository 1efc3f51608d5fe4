"""What the map says, as text and as JSON, of the demo's three dry runs."""

import json
from dataclasses import replace

import pytest

from scheduler.field.evaluation import TestEvaluation, evaluated_site
from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder
from scheduler.reports.machine import evaluation_json
from scheduler.reports.shape import persistence_text, shape_json, shape_text


@pytest.fixture(scope="module")
def tests() -> dict[str, TestEvaluation]:
    read = read_site_folder(demo_source() / "tern_hollow")
    assert read.site is not None
    found = evaluated_site(read.site, read.history, zone_id="Z5", with_ranges=False)
    return {one.condition: one for one in found}


def test_the_map_marks_the_row_that_was_dry_in_every_run(
    tests: dict[str, TestEvaluation],
) -> None:
    lines = shape_text(tests["as found"]).splitlines()
    assert lines[1:5] == ["· · · · · ·"] * 3 + ["3 3 3 3 3 3"]


@pytest.mark.parametrize(
    ("n_always", "said"), [(1, "1 place was dry"), (2, "2 places were dry")]
)
def test_one_dry_place_is_named_as_one(
    tests: dict[str, TestEvaluation], n_always: int, said: str
) -> None:
    shape = tests["as found"].shape
    assert shape is not None
    found = shape.persistence
    assert found is not None
    assert said in persistence_text(replace(found, n_always=n_always))


def test_every_line_fits_80_columns(tests: dict[str, TestEvaluation]) -> None:
    for test in tests.values():
        assert max(map(len, shape_text(test).splitlines())) <= 80


def test_the_first_cause_is_listed_with_its_checks(
    tests: dict[str, TestEvaluation],
) -> None:
    text = shape_text(tests["as found"])
    assert "1 strip, row 4" in text
    assert text.index("1 strip, row 4") < text.index("check: see that the valves")


def test_before_and_after_stand_in_one_line(tests: dict[str, TestEvaluation]) -> None:
    assert "DU 0.61 as found (24 Mar 2026) → 0.77 after tune-up" in shape_text(
        tests["after tune-up"]
    )


def test_what_is_not_looked_for_names_its_entry(
    tests: dict[str, TestEvaluation],
) -> None:
    assert "row_bearing_deg" in shape_text(tests["after tune-up"])


def test_json_has_the_same_shape_for_every_test(
    tests: dict[str, TestEvaluation],
) -> None:
    keys = {"before", "persistence", "causes", "causes_locked", "edge", "interior"}
    found = json.loads(json.dumps(evaluation_json(tests.values(), ())))["tests"]
    assert all(keys <= set(one) for one in found)
    assert found[0]["persistence"]["times_driest"][3] == [3] * 6
    assert found[1]["persistence"] is None
    assert [run["wind_band"] for run in found[0]["runs"]] == ["calm"] * 3


def test_edge_and_interior_share_the_cans(tests: dict[str, TestEvaluation]) -> None:
    found = shape_json(tests["as found"])
    assert (found["edge"]["n_cans"], found["interior"]["n_cans"]) == (4, 20)


def test_the_layout_of_the_dry_runs_locks_no_cause(
    tests: dict[str, TestEvaluation],
) -> None:
    assert shape_json(tests["as found"])["causes_locked"] == []
