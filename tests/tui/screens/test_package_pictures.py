"""What the page of packages draws and says of a pair."""

import math
from dataclasses import replace

import pytest

from scheduler.field.package_trial import Pair
from tui import field_state
from tui.field_state import Packages
from tui.screens import package_pictures as drawn
from tui.session import Session

NAMES = ("yard-30", "liner-25")


@pytest.fixture(scope="module")
def found(opened: Session) -> Packages:
    answer = field_state.packages(opened, None)
    assert isinstance(answer, Packages)
    return answer


@pytest.fixture
def unsure(found: Packages) -> Pair:
    """Lines that cross at a wind of which nobody knows how sure it is."""
    pair = next(one for one in found.trial.pairs if (one.a, one.b) == NAMES)
    assert pair.found is not None
    assert pair.tie_wind_m_per_s is not None
    assert not math.isfinite(pair.found.tie_low_m_per_s)
    return pair


@pytest.fixture
def sure(unsure: Pair) -> Pair:
    assert unsure.found is not None
    known = replace(
        unsure.found, tie_wind_m_per_s=1.0, tie_low_m_per_s=0.5, tie_high_m_per_s=1.5
    )
    return replace(unsure, found=known)


def ties(found: Packages, pair: Pair) -> list[str]:
    marks = drawn.marks(found, pair, NAMES, "metric")
    return [one.text for one in marks if one.y is not None]


def test_a_tie_without_a_range_is_not_drawn(found: Packages, unsure: Pair) -> None:
    assert ties(found, unsure) == []


def test_a_tie_with_a_range_is_drawn(found: Packages, sure: Pair) -> None:
    assert ties(found, sure) == ["tie 1.0 m/s"]


def test_a_tie_without_a_range_is_said_to_be_unsure(
    found: Packages, unsure: Pair
) -> None:
    said = " ".join(drawn.verdict(found, unsure, "metric"))
    assert "cross at 0.0 m/s; how sure cannot be told" in said


def test_the_table_marks_a_tie_without_a_range(
    found: Packages, unsure: Pair, sure: Pair
) -> None:
    for pair, cell in ((unsure, "0.0 ?"), (sure, "1.0")):
        one = replace(found, trial=replace(found.trial, pairs=(pair,)))
        (row,) = drawn.rows(one, "metric", with_pairs=True)
        assert row.cells[4] == cell


def test_one_day_is_not_said_to_be_several(found: Packages) -> None:
    (liner,) = drawn.series(found, ["liner-25"], "us")
    assert liner.words.startswith("liner-25: 2 runs on 1 day;")
