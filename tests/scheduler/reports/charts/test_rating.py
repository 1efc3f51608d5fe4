"""The scale of the trade: the band that holds the value is the one that is named."""

import pytest

from scheduler.reports.charts import Band, rating_scale
from tests.scheduler.reports.charts.read import cells, is_inside, words

BANDS = (Band("low", 0.5, 0.6), Band("fair", 0.6, 0.8), Band("high", 0.8, 0.95))


@pytest.mark.parametrize(
    ("value", "name"),
    [(0.1, "low"), (0.5999, "low"), (0.6, "fair"), (0.8, "high"), (0.99, "high")],
)
def test_the_band_that_holds_the_value_is_named(value: float, name: str) -> None:
    picture = rating_scale("DU", value, None, BANDS)
    assert f"lies in “{name}”" in picture.says
    assert is_inside(picture)


def test_value_bands_and_range_are_written() -> None:
    picture = rating_scale("DU", 0.72, (0.61, 0.77), BANDS)
    assert {"0.72", "low", "fair", "high", "0.60"} <= set(words(picture))
    assert "range 0.61–0.77" in picture.says
    assert "<- 0.72" in cells(picture)
