"""The packaged table of salt tolerance."""

import pytest

from scheduler.errors import SchedulerError
from scheduler.tables import read_table
from scheduler.tables.salt import salt_row

ROWS = {row["crop"]: row for row in read_table("salt.csv")}


# FAO-56 (Allen et al. 1998) Table 23
@pytest.mark.parametrize(
    ("crop", "threshold", "loss"),
    [("bean", 1.0, 0.19), ("cotton", 7.7, 0.052), ("date palm", 4.0, 0.036)],
)
def test_thresholds_and_slopes_are_the_published_ones(
    crop: str, threshold: float, loss: float
) -> None:
    row = salt_row(crop)
    assert float(row["threshold_low_ds_per_m"]) == threshold
    assert float(row["loss_low_per_ds_per_m"]) == loss


@pytest.mark.parametrize("crop", ROWS)
def test_the_ends_of_each_range_stand_in_order(crop: str) -> None:
    row = ROWS[crop]
    for name in ("threshold", "loss"):
        low, high = (
            float(v) for k, v in row.items() if k.startswith((f"{name}_l", f"{name}_h"))
        )
        assert 0 < low <= high


@pytest.mark.parametrize("crop", ROWS)
def test_every_row_names_its_source_and_status(crop: str) -> None:
    assert "Table 23" in ROWS[crop]["source"]
    assert ROWS[crop]["status"]


def test_a_crop_is_found_in_any_case() -> None:
    assert salt_row("Perennial  Ryegrass")["crop"] == "perennial ryegrass"


def test_an_unknown_crop_is_refused_with_the_nearest() -> None:
    with pytest.raises(SchedulerError, match="no crop of the salt table") as refused:
        salt_row("beans")
    assert "did you mean bean?" in refused.value.fix
