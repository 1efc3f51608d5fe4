"""Published and independently computed values of can tests, run time and pots.

`sprinkler_checks.csv` holds one value a row with its source; tolerances are those of
its own column. Each row is either computed with our code or listed with the reason why
it is not.
"""

import json
from fnmatch import fnmatchcase

import pytest

from tests.checks.sprinkler_computed import COMPUTED, ROWS

QUOTED = "a quoted result without its readings: nothing to compute"
NOT_COMPUTED = {
    "PUB-SC-2": "need over mean times a factor: no code of ours",
    "PUB-CYC-[12]": QUOTED,
    "PUB-FIELD-*": QUOTED,
    "PUB-UNC-*": QUOTED,
    "PUB-NURS-[12]": QUOTED,
    "PUB-NURS-4": "a ratio of two quoted rates: no code of ours",
    "PR-IN-*": "holds the printed 3.66; rows PR-INX hold the exact constant, which is "
    "what we use",
    "PUB-IE-1": "holds a rounded pot area; row PUB-IE-1x holds the exact one",
    "REL-4b": "another trade line for the low half; ours is 0.4 + 0.6 DU (rows RTM)",
    "REL-[56]": "hold the rounded 0.63 and 1.59; row REL-1 holds the exact ratio",
}


def _ways(row_id: str) -> list[str]:
    patterns = (*NOT_COMPUTED, *COMPUTED)
    return [pattern for pattern in patterns if fnmatchcase(row_id, pattern)]


@pytest.mark.parametrize("row_id", ROWS)
def test_every_row_is_computed_or_has_one_named_reason(row_id: str) -> None:
    assert len(_ways(row_id)) == 1


def test_no_way_is_left_without_a_row() -> None:
    used = {way for row_id in ROWS for way in _ways(row_id)}
    assert used == {*COMPUTED, *NOT_COMPUTED}


BUILT = [row_id for row_id in ROWS if not set(_ways(row_id)) & set(NOT_COMPUTED)]


@pytest.mark.parametrize("row_id", BUILT)
def test_our_code_gives_the_value_of_the_row(row_id: str) -> None:
    row = ROWS[row_id]
    value = COMPUTED[_ways(row_id)[0]](json.loads(row["inputs_json"]))
    # a hair above the tolerance: a tolerance of 0 still meets binary rounding
    near = float(row["tolerance"]) + 1e-9
    assert value == pytest.approx(float(row["expected"]), abs=near)
