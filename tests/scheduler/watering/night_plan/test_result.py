"""The frozen result."""

import dataclasses

import pytest

from scheduler.watering.night_plan import NightSummary


def test_a_summary_cannot_be_changed() -> None:
    summary = NightSummary(None, None, None, "", None, None, 0, ())
    with pytest.raises(dataclasses.FrozenInstanceError):
        summary.fits = True  # type: ignore[misc]
