"""How far clocks are from UTC."""

import numpy as np
import pytest

from scheduler.field.wind.offsets import fixed_ahead_s, zone_of, zone_offsets


def test_a_change_is_found_to_the_second() -> None:
    # clocks back at 06:00 UTC on 3 November 2013
    change = np.datetime64("2013-11-03T06:00:00").astype(np.int64)
    offsets = zone_offsets(np.array([change]), zone_of("America/New_York"))
    assert offsets.since_s.tolist() == [change]
    assert offsets.at(np.array([change - 1, change])).tolist() == [-14400, -18000]


@pytest.mark.parametrize(
    ("text", "ahead"),
    [("+01:00", 3600), ("−0530", -19800), ("+5", 18000), ("GMT", 0), ("+15:00", None),
     ("+01:60", None), ("1:00", None)],
)  # fmt: skip
def test_fixed_offsets_are_read_as_written(text: str, ahead: int | None) -> None:
    assert fixed_ahead_s(text) == ahead
