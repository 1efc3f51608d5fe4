"""The packaged crop table: published values, and what no row may break."""

import pytest

from scheduler.errors import SchedulerError
from scheduler.tables import read_table
from scheduler.tables.crops import crop_row

NAMES = [row["crop"] for row in read_table("crops.csv")]
ROWS = {row["crop"]: row for row in read_table("crops.csv")}


# FAO-56 (Allen et al. 1998) Tables 12 and 22
@pytest.mark.parametrize(
    ("crop", "kc", "depletion", "height"),
    [
        ("turf cool season", (0.90, 0.95, 0.95), 0.40, 0.10),
        ("turf warm season", (0.80, 0.85, 0.85), 0.50, 0.10),
        ("bean dry", (0.40, 1.15, 0.35), 0.45, 0.40),
        ("maize grain", (0.30, 1.20, 0.35), 0.55, 2.00),
    ],
)
def test_coefficients_are_the_published_ones(
    crop: str, kc: tuple[float, float, float], depletion: float, height: float
) -> None:
    row = crop_row(crop)
    assert (row.kc, row.depletion, row.height_m) == (kc, depletion, height)


# FAO-56 Example 28 (p. 133): dry bean in Idaho, 25/25/30/20 days
def test_stage_lengths_are_the_published_ones() -> None:
    assert crop_row("bean dry").stage_days == (25, 25, 30, 20)


# FAO-56 Table 17, cool season turf; Examples 29 and 30 (p. 136, 141), dry bean
@pytest.mark.parametrize(
    ("crop", "basal"),
    [("turf cool season", (0.85, 0.90, 0.90)), ("bean dry", (0.15, 1.10, 0.25))],
)
def test_basal_coefficients_are_the_published_ones(
    crop: str, basal: tuple[float, float, float]
) -> None:
    assert crop_row(crop).basal == basal


def test_derived_basal_coefficients_lie_below_by_the_steps_of_table_18() -> None:
    # tomato 0.6 / 1.15 / 0.8, annual, covering the ground in mid-season
    assert crop_row("tomato").basal == pytest.approx((0.15, 1.10, 0.70))


@pytest.mark.parametrize("crop", NAMES)
def test_no_basal_coefficient_passes_that_of_the_whole_field(crop: str) -> None:
    row = crop_row(crop)
    assert all(0 < basal <= kc for basal, kc in zip(row.basal, row.kc, strict=True))


@pytest.mark.parametrize("crop", NAMES)
def test_every_row_is_within_what_crops_can_be(crop: str) -> None:
    row = crop_row(crop)
    assert min(row.kc) >= 0.1
    assert max(row.kc) <= 1.3
    assert 0.1 <= row.depletion <= 0.8
    assert 0 < row.root_low_m <= row.root_high_m
    assert sum(row.stage_days or (0,)) <= 365


@pytest.mark.parametrize("crop", NAMES)
def test_every_row_names_its_source_and_status(crop: str) -> None:
    assert "Tables 11, 12, 22" in ROWS[crop]["source"]
    assert ROWS[crop]["status"]


def test_an_unknown_crop_is_refused_with_the_names() -> None:
    with pytest.raises(SchedulerError, match=r"did you mean lettuce.*turf warm season"):
        crop_row("letuce")


@pytest.mark.parametrize("table", ["landscape.csv", "evaporation.csv", "turf.csv"])
def test_the_smaller_tables_name_source_and_status(table: str) -> None:
    assert all(row["source"] and row["status"] for row in read_table(table))
