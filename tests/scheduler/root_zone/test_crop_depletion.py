"""The part of the water that a crop of the table uses without stress."""

import pytest

from scheduler.root_zone.crop_depletion import crop_depletion, crop_of
from scheduler.site import Plant, Zone
from scheduler.tables.crops import crop_row


def _zone(plant: Plant | None) -> Zone:
    return Zone(
        id="L1", name="lawn", area_m2=9.0, grown_in="soil", watered="off", plant=plant
    )


def test_a_zone_without_a_named_crop_has_no_row() -> None:
    assert crop_of(_zone(Plant(name="a", kc=0.8, kc_area="bed"))) is None
    assert crop_of(_zone(None)) is None


# FAO-56 Table 22: onion 0.30; footnote 2 at 8 mm/day by hand: 0.30 + 0.04 (5 - 8)
@pytest.mark.parametrize(("use", "part"), [(None, 0.30), (5.0, 0.30), (8.0, 0.18)])
def test_the_part_follows_the_use(use: float | None, part: float) -> None:
    trace = crop_depletion(crop_row("onion dry"), use)
    assert trace.value == pytest.approx(part)


def test_table_and_use_stand_in_the_trace() -> None:
    trace = crop_depletion(crop_row("onion dry"), 8.0)
    assert [one.name for one in trace.inputs] == [
        "depletion_table",
        "mean_etc_mm_per_day",
    ]
    assert "footnote 2" in trace.source
