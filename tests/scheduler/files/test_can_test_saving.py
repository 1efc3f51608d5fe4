"""What is typed is written so that it reads back the same, and overwrites nothing."""

import datetime as dt
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scheduler.errors import SaveError
from scheduler.files.can_test_saving import (
    CanSheet,
    RunSheet,
    quantities,
    save_new_test,
    save_run,
)
from scheduler.files.can_tests import read_tests
from scheduler.files.catch_csv import Grid, read_catch
from scheduler.files.catch_writing import catch_text
from scheduler.files.folder_reading import FolderReading
from scheduler.files.text_file import TextFile
from scheduler.record import CanTest

DAY = dt.date(2026, 6, 8)
BY_HAND = """\
# typed by hand on the tailgate
format = 1
zone = "Z4"
date = 2026-06-08      # a Monday
condition = "as found"

[can]
mouth_in = 4.250   # inside the rim
unit = "ml"

[[run]]
file = "run1.csv"
minutes = 30       # by the clock
"""


def grid(*rows: tuple[Any, ...]) -> Grid:
    reading = np.array([[np.nan if isinstance(c, str) else c for c in r] for r in rows])
    code = tuple(tuple(c if isinstance(c, str) else "" for c in r) for r in rows)
    label = tuple(
        tuple(f"{chr(65 + j)}{i + 1}" for j in range(len(row)))
        for i, row in enumerate(rows)
    )
    return Grid(reading, code, label)  # type: ignore[arg-type]


def sheet(**changes: Any) -> CanSheet:
    known: dict[str, Any] = {
        "condition": "as found",
        "unit": "mL",
        "mouth": (4.25, "in"),
        "capacity": (400.0, "ml"),
    }
    return CanSheet("Z4", DAY, **{**known, **changes})


def read_back(site: Path) -> tuple[list[CanTest], FolderReading]:
    reading = FolderReading(site)
    return list(read_tests(reading, ["Z4"])), reading


@pytest.fixture
def by_hand(tmp_path: Path) -> Path:
    folder = tmp_path / "tests" / "2026-06-08-Z4"
    folder.mkdir(parents=True)
    (folder / "test.toml").write_text(BY_HAND, encoding="utf-8")
    (folder / "run1.csv").write_text("# north is up\n41,52\n60,48\n", encoding="utf-8")
    return tmp_path


# --- a new test ----------------------------------------------------------------


def test_a_new_test_reads_back_without_a_finding(tmp_path: Path) -> None:
    run = RunSheet(
        grid((41, 52.5, "k"), (0, "-", 66)),
        minutes=30.0,
        start=dt.datetime.fromisoformat("2026-06-08T06:10"),
        wind=(3.0, "mph"),
        excluded=((1, 0, "blocked arc"),),
    )
    save_new_test(tmp_path / "tests", sheet(), run)
    (test,), reading = read_back(tmp_path)
    assert reading.findings == []
    (read,) = test.runs
    assert test.mouth_area_cm2 == pytest.approx(91.52, abs=0.01)
    assert test.capacity_ml == 400.0
    np.testing.assert_array_equal(read.reading, run.grid.reading)
    assert read.code == run.grid.code
    assert (read.minutes, read.start) == (30.0, run.start)
    assert read.wind_m_per_s == pytest.approx(1.341, abs=0.001)
    assert [(e.row, e.column, e.reason) for e in read.excluded] == [
        (1, 0, "blocked arc")
    ]


def test_numbers_are_written_in_the_unit_they_were_typed_in(tmp_path: Path) -> None:
    save_new_test(tmp_path / "tests", sheet(), RunSheet(grid((41, 52)), minutes=30.0))
    text = (tmp_path / "tests/2026-06-08-Z4/test.toml").read_text("utf-8")
    assert "mouth_in = 4.25\n" in text
    assert "minutes = 30\n" in text


def test_a_second_test_of_the_day_gets_a_folder_of_its_own(tmp_path: Path) -> None:
    run = RunSheet(grid((41, 52)))
    first = save_new_test(tmp_path / "tests", sheet(), run)
    second = save_new_test(tmp_path / "tests", sheet(condition="after tune-up"), run)
    assert (first.test, second.test) == ("2026-06-08-Z4", "2026-06-08-Z4-2")


def test_a_test_that_cannot_be_written_leaves_nothing(tmp_path: Path) -> None:
    (tmp_path / "tests").write_text("in the way", encoding="utf-8")
    with pytest.raises(SaveError, match="cannot be saved"):
        save_new_test(tmp_path / "tests", sheet(), RunSheet(grid((41, 52))))
    assert [one.name for one in tmp_path.iterdir()] == ["tests"]


def test_what_would_not_read_back_is_refused_and_leaves_nothing(
    tmp_path: Path,
) -> None:
    twice = Grid(np.array([[1.0, 2.0]]), (("", ""),), (("gate", "gate"),))
    with pytest.raises(SaveError, match="would not read back"):
        save_new_test(tmp_path / "tests", sheet(), RunSheet(twice))
    assert not (tmp_path / "tests").exists()


def test_a_last_row_that_looks_like_totals_is_written_as_a_list() -> None:
    total = grid((1, 2), (3, 4), (5, 6), (9, 12))
    assert catch_text(total).startswith("can,reading\nA1,1\n")


# --- a test that is there --------------------------------------------------------


def digests(site: Path) -> dict[str, str]:
    return read_back(site)[1].digests


def test_remarks_and_spelling_of_a_hand_written_test_stay(by_hand: Path) -> None:
    run = RunSheet(grid((41, 52), (60, 49)), file="run1.csv", minutes=26.0)
    edited = sheet(capacity=None)
    save_run(by_hand / "tests", "2026-06-08-Z4", edited, run, digests(by_hand))
    text = (by_hand / "tests/2026-06-08-Z4/test.toml").read_text("utf-8")
    assert text == BY_HAND.replace("minutes = 30 ", "minutes = 26 ")


def test_remarks_of_a_table_stay(by_hand: Path) -> None:
    run = RunSheet(grid((41, 52), (60, 49)), file="run1.csv", minutes=30.0)
    save_run(by_hand / "tests", "2026-06-08-Z4", sheet(), run, digests(by_hand))
    text = (by_hand / "tests/2026-06-08-Z4/run1.csv").read_text("utf-8")
    assert text == "# north is up\n,A,B\n1,41,52\n2,60,49\n"


def test_another_run_gets_the_next_name_and_leaves_the_first(by_hand: Path) -> None:
    run = RunSheet(grid((1, 2), (3, 4)), minutes=30.0, excluded=((0, 0, "leaf"),))
    done = save_run(by_hand / "tests", "2026-06-08-Z4", sheet(), run, digests(by_hand))
    (test,), reading = read_back(by_hand)
    assert done.file == "run2.csv"
    assert [one.level for one in reading.findings if one.level == "stop"] == []
    assert [one.reading.sum() for one in test.runs] == [201.0, 10.0]
    assert [len(one.excluded) for one in test.runs] == [0, 1]


def test_an_exclusion_can_be_taken_back(by_hand: Path) -> None:
    tests, name = by_hand / "tests", "2026-06-08-Z4"
    run = RunSheet(
        grid((41, 52), (60, 48)), "run1.csv", 30.0, excluded=((0, 0, "leaf"),)
    )
    save_run(tests, name, sheet(), run, digests(by_hand))
    assert len(read_back(by_hand)[0][0].runs[0].excluded) == 1
    run = RunSheet(run.grid, "run1.csv", 30.0)
    save_run(tests, name, sheet(), run, digests(by_hand))
    assert read_back(by_hand)[0][0].runs[0].excluded == ()


@pytest.mark.parametrize("file", ["test.toml", "run1.csv"])
def test_what_changed_on_disk_meanwhile_is_not_overwritten(
    by_hand: Path, file: str
) -> None:
    folder = by_hand / "tests/2026-06-08-Z4"
    before = digests(by_hand)
    with (folder / file).open("a", encoding="utf-8") as other:
        other.write("# mine\n")
    whole = {one.name: one.read_bytes() for one in folder.iterdir()}
    run = RunSheet(grid((1, 2), (3, 4)), file="run1.csv")
    with pytest.raises(SaveError, match="changed by somebody else"):
        save_run(by_hand / "tests", "2026-06-08-Z4", sheet(), run, before)
    assert {one.name: one.read_bytes() for one in folder.iterdir()} == whole


# --- laws -----------------------------------------------------------------------

CELLS = st.one_of(
    st.sampled_from(["-", "k", "l", "o"]),
    st.integers(0, 400).map(float),
    st.floats(0.001, 2000.0),
)
GRIDS = st.integers(1, 12).flatmap(
    lambda n: st.lists(
        st.lists(CELLS, min_size=n, max_size=n).map(tuple), min_size=1, max_size=3
    )
)


@given(GRIDS)
def test_a_table_reads_back_as_it_was_typed(rows: list[tuple[Any, ...]]) -> None:
    written = grid(*rows)
    read, said = read_catch(TextFile("run1.csv", catch_text(written), ""))
    assert said == ()
    assert read is not None
    np.testing.assert_array_equal(read.reading, written.reading)
    assert (read.code, read.label) == (written.code, written.label)


@given(
    mouth=st.tuples(st.floats(1.0, 12.0), st.just("in")),
    minutes=st.floats(0.5, 1440.0),
    reason=st.text(min_size=1, max_size=40).filter(lambda text: text.strip()),
)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=25)
def test_a_test_reads_back_as_it_was_typed(
    tmp_path_factory: pytest.TempPathFactory,
    mouth: tuple[float, str],
    minutes: float,
    reason: str,
) -> None:
    site = tmp_path_factory.mktemp("site")
    run = RunSheet(grid((41, 52)), minutes=minutes, excluded=((0, 1, reason),))
    save_new_test(site / "tests", sheet(mouth=mouth), run)
    (test,), _ = read_back(site)
    inch = 2.54
    assert test.mouth_area_cm2 == pytest.approx(np.pi / 4 * (mouth[0] * inch) ** 2)
    assert test.runs[0].minutes == minutes
    assert test.runs[0].excluded[0].reason == reason


def test_row_letters_and_plain_names_are_kept() -> None:
    for label in ((("A1", "A2"), ("B1", "B2")),), ((("can 1", "can 2"),),):
        names = label[0]
        size = np.arange(1.0, 1.0 + sum(map(len, names))).reshape(len(names), -1)
        code = tuple(("",) * len(row) for row in names)
        written = Grid(size, code, names)  # type: ignore[arg-type]
        read, _ = read_catch(TextFile("run1.csv", catch_text(written), ""))
        assert read is not None
        assert read.label == names


def test_only_numbers_with_a_unit_are_quantities() -> None:
    table = {"mouth_cm": 10.8, "unit": "mL", "minutes": 30, "wind_mph": 3}
    assert quantities(table) == {"mouth": (10.8, "cm"), "wind": (3.0, "mph")}
