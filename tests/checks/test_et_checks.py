"""Published values of reference ET, crop coefficients and the soil water balance.

`et_checks.csv` holds one value a row with its source; tolerances are those of its own
column (half a unit of the last printed digit, or wider where the source rounds on the
way). Each row is either computed with our code or listed with what it waits for.
"""

import json
from fnmatch import fnmatchcase

import numpy as np
import pytest

from tests.checks.et_computed import COMPUTED, ROWS

NOT_BUILT = {
    "fao56_ex07_": "no code of ours: numpy turns degrees into radians",
    "fao56_ex13_": "comes with monthly weather: soil heat flux of a day is 0",
    "fao56_ex17_G": "comes with monthly weather: soil heat flux of a day is 0",
    "fao56_ex19_": "comes with hourly ET",
    "asce_hourly_": "comes with hourly ET",
    "twa_": "never divided by an efficiency: the rate of the cans holds the losses",
    "fao56_eq88_DP": "the balance drains before it takes ET, as example 38 does",
}


def _ways(row_id: str) -> list[str]:
    waits = [prefix for prefix in NOT_BUILT if row_id.startswith(prefix)]
    return waits + [pattern for pattern in COMPUTED if fnmatchcase(row_id, pattern)]


@pytest.mark.parametrize("row_id", ROWS)
def test_every_row_is_computed_or_waits_for_one_named_reason(row_id: str) -> None:
    assert len(_ways(row_id)) == 1


def test_no_way_is_left_without_a_row() -> None:
    used = {way for row_id in ROWS for way in _ways(row_id)}
    assert used == {*COMPUTED, *NOT_BUILT}


BUILT = [row_id for row_id in ROWS if not set(_ways(row_id)) & set(NOT_BUILT)]


@pytest.mark.parametrize("row_id", BUILT)
def test_our_code_gives_the_published_value(row_id: str) -> None:
    row = ROWS[row_id]
    value = COMPUTED[_ways(row_id)[0]](json.loads(row["inputs_json"]))
    # a hair above the tolerance, for values that lie on its edge in binary
    near = float(row["tolerance"]) + 1e-9
    assert float(np.squeeze(value)) == pytest.approx(float(row["expected"]), abs=near)
