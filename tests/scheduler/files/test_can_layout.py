"""How the cans stood, as test.toml says it, and what is wrong with it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from scheduler.errors import Finding
from scheduler.files.site_folder import read_site_folder
from scheduler.record import CanLayout
from tests.scheduler.files.conftest import TEST

WHOLE = """
[layout]
can_spacing_ft = 5
row_spacing_m = 2
row_bearing_deg = 90
heads = [[0.5, 0.5], [0.5, 3.5]]
edge_rows = [1]
edge_columns = ["C"]
"""


Read = Callable[[str], tuple[CanLayout, list[Finding]]]


@pytest.fixture
def read(site: Path) -> Read:
    def with_layout(layout: str) -> tuple[CanLayout, list[Finding]]:
        path = site / "tests" / "2026-05-12-Z2" / "test.toml"
        path.write_text(TEST + layout, encoding="utf-8")
        found = read_site_folder(site)
        return found.history.tests[0].layout, list(found.findings)

    return with_layout


def test_a_whole_layout_reads_without_a_word(read: Read) -> None:
    layout, said = read(WHOLE)
    assert said == []
    assert layout.can_spacing_m == pytest.approx(1.524)
    assert (layout.row_spacing_m, layout.row_bearing_deg) == (2.0, 90.0)


def test_places_are_counted_from_1_in_the_file_and_from_0_inside(read: Read) -> None:
    layout, _ = read(WHOLE)
    assert layout.heads == ((-0.5, -0.5), (-0.5, 2.5))
    assert (layout.edge_rows, layout.edge_columns) == ((0,), (2,))


def test_corners_need_no_counting(read: Read) -> None:
    layout, said = read('[layout]\nheads = "Corners"\n')
    assert (layout.has_corner_heads, said) == (True, [])


def test_a_test_without_a_layout_knows_nothing_of_it(read: Read) -> None:
    assert read("") == (CanLayout(), [])


def test_a_column_may_be_a_number(read: Read) -> None:
    assert read("[layout]\nedge_columns = [1, 2]\n")[0].edge_columns == (0, 1)


@pytest.mark.parametrize(
    ("line", "what", "fix"),
    [
        ('heads = "everywhere"', "everywhere", 'heads = "corners"'),
        ("heads = [[1]]", "no row and column", "heads = [["),
        ("heads = [[1, true]]", "no row and column", "heads = [["),
        ("heads = [[60, 1]]", "56.5 cans outside", "from 1"),
        ("edge_rows = 1", "not a list", "edge_rows = [1, 6]"),
        ("edge_rows = [9]", "there are 3", "that is there"),
        ("edge_rows = [0]", "there are 3", "that is there"),
        ('edge_columns = ["AAA"]', "holds AAA", 'edge_columns = ["A", "F"]'),
        ("edge_columns = [true]", "holds True", 'edge_columns = ["A", "F"]'),
        ("row_bearing_deg = 400", "400", "360"),
        ("can_spacing = 5", "no unit", "can_spacing_m or can_spacing_ft"),
    ],
)
def test_what_is_wrong_is_said_with_the_remedy(
    read: Read, line: str, what: str, fix: str
) -> None:
    _, said = read(f"[layout]\n{line}\n")
    assert [one.level for one in said] == ["stop"]
    assert what in said[0].what
    assert fix in f"{said[0].what} {said[0].fix}"


def test_a_wrong_line_leaves_the_others_and_the_runs(read: Read) -> None:
    layout, said = read('[layout]\nedge_rows = [9]\nheads = "corners"\n')
    assert (layout.has_corner_heads, len(said)) == (True, 1)


def test_a_layout_that_is_no_table_is_refused(read: Read) -> None:
    _, said = read("[[layout]]\ncan_spacing_ft = 5\n")
    assert [one.level for one in said] == ["stop"]
