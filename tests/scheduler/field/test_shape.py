"""What the map of a test says once its runs lie over each other."""

import numpy as np

from scheduler.field.shape import RunMap, shape_of_test
from scheduler.field.wind_during import WindDuring
from scheduler.record import CanLayout
from tests.scheduler.field.made import can_test, run

LAYOUT = CanLayout(1.5, 2.2, 90.0, (), True, (0,), ())
TEST = can_test(run(), layout=LAYOUT)


def dry_row(seed: int, wind: WindDuring | None = None) -> RunMap:
    depth = 10 * (1 + 0.08 * np.random.default_rng(seed).normal(size=(3, 8)))
    depth[1] *= 0.6
    return RunMap(f"run{seed}", 1, depth, wind)


def blown(speed: float) -> WindDuring:
    return WindDuring(mean_m_per_s=speed, direction_deg=225.0)


def test_the_first_cause_is_a_note_with_its_first_check() -> None:
    found = shape_of_test(TEST, [dry_row(1), dry_row(2)])
    assert found is not None
    (note,) = found.findings
    assert note.level == "note"
    assert "strip, row 2" in note.what
    assert note.fix.startswith("check first")


def test_one_run_has_causes_but_nothing_that_lasts() -> None:
    found = shape_of_test(TEST, [dry_row(1)])
    assert found is not None
    assert found.persistence is None
    assert found.causes[0].kind == "strip"


def test_wind_of_every_run_unlocks_downwind() -> None:
    found = shape_of_test(TEST, [dry_row(1, blown(3.0)), dry_row(2, blown(2.0))])
    assert found is not None
    assert found.locked == ()


def test_one_run_of_unknown_wind_locks_it() -> None:
    found = shape_of_test(TEST, [dry_row(1, blown(3.0)), dry_row(2)])
    assert found is not None
    assert any("wind log" in one for one in found.locked)


def test_air_that_hardly_moves_is_not_blamed() -> None:
    found = shape_of_test(TEST, [dry_row(1, blown(0.5))])
    assert found is not None
    assert all(one.kind != "downwind" for one in found.causes)


def test_runs_on_other_grids_have_no_common_map() -> None:
    other = RunMap("b", 1, np.ones((4, 6)))
    assert shape_of_test(TEST, [dry_row(1), other]) is None


def test_a_dry_strip_inside_does_not_pass_for_a_wet_edge() -> None:
    found = shape_of_test(TEST, [dry_row(1), dry_row(2)])
    assert found is not None
    assert found.edges is not None
    assert found.edges.differs
    assert all("edge" not in one.what for one in found.findings)


def test_a_wet_edge_is_said() -> None:
    depth = 10 * (1 + 0.08 * np.random.default_rng(4).normal(size=(3, 8)))
    depth[0] *= 1.5
    found = shape_of_test(TEST, [RunMap("a", 1, depth)])
    assert found is not None
    assert any("cans along the edge" in one.what for one in found.findings)
