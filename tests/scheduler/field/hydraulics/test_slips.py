"""Likely causes, with their arithmetic."""

from typing import Any

import pytest

from scheduler.field.catch import catch, mouth_area_cm2
from scheduler.field.hydraulics.gross import GrossRate, best_gross_rate
from scheduler.field.hydraulics.meter import MeterCheck, meter_check
from scheduler.field.hydraulics.slips import (
    Cause,
    can_causes,
    meter_causes,
    meter_slips,
    nozzle_causes,
)
from tests.scheduler.field.hydraulics.made import PACKAGE, ZONE, bucket, card, visit
from tests.scheduler.field.made import FIRST_VISIT_ML, GROSS_MM_PER_H, MOUTH_CM2, run


def meter(volume: float, unit: str = "gal", **given: Any) -> MeterCheck:
    test = visit(meter=card(0.5, 0.5 + volume, unit, **given))
    found, _ = meter_check(test, ZONE, PACKAGE, units="us")
    assert found is not None
    return found


def gross(**given: Any) -> GrossRate:
    return best_gross_rate(visit(**given), None, PACKAGE)


def names(causes: tuple[Cause, ...]) -> list[str]:
    return [one.name for one in causes]


# The zone takes 24 x 4.6 x 30 = 3312 gal, 442.7 ft3, 12.54 m3 in a run.
@pytest.mark.parametrize(
    ("found", "words"),
    [
        (meter(331.2), "a multiplier of 10 where 1 was used"),
        (meter(33.12), "a multiplier of 100 where 1 was used"),
        (meter(3312, multiplier=10.0), "a multiplier of 1 where 10 was used"),
        (meter(442.7), "a dial in ft³, entered as gal"),
        (meter(3312, "ft3"), "a dial in gal, entered as ft³"),
        (meter(442.7, "m3"), "a dial in ft³, entered as m³"),
        (meter(12.54, "gal"), "a dial in m³, entered as gal"),
        (meter(3312, minutes=0.5), "hours entered as minutes"),
    ],
)
def test_a_slip_of_a_factor_is_named_first(found: MeterCheck, words: str) -> None:
    rate = found.rate_mm_per_h
    assert rate is not None
    wanted = GROSS_MM_PER_H if "hours" not in words else rate * 60
    first = meter_slips(found, wanted, "us")[0]
    assert first.why.startswith(words)


def test_the_right_factor_is_shown_to_bring_the_right_rate() -> None:
    (first, *_) = meter_slips(meter(331.2), GROSS_MM_PER_H, "us")
    assert first.why.endswith("it would read 0.49 in/h")


def test_a_meter_that_is_nearly_right_has_no_slip_of_a_factor() -> None:
    assert meter_slips(meter(3600), GROSS_MM_PER_H, "us") == ()


def test_too_much_over_the_buckets_is_a_leak_with_its_flow() -> None:
    even = gross(flows=(bucket("head 1", 4.6),))
    causes = meter_causes(meter(4140), even, GROSS_MM_PER_H, "us")
    assert names(causes)[:2] == ["other zones on", "leak"]
    # 138 gpm metered, 110.4 from the nozzles
    assert causes[1].why.startswith("27.6 gpm of 138.0 gpm (20 %)")


def test_too_much_over_a_package_may_be_wear_as_well() -> None:
    assert "worn nozzles" in names(
        meter_causes(meter(4140), gross(), GROSS_MM_PER_H, "us")
    )


def test_other_zones_that_were_named_get_what_is_left() -> None:
    found = meter(6624, other_zones=("Z3",))
    causes = meter_causes(found, gross(), GROSS_MM_PER_H, "us")
    own = next(one for one in causes if one.name == "other zones on")
    assert own.why == "Z3 ran too: 110.4 gpm of 220.8 gpm would be theirs"


def test_a_coarse_dial_is_shown_by_its_step() -> None:
    test = visit(meter=card(48, 50, multiplier=1000.0))
    found, _ = meter_check(test, ZONE, PACKAGE, units="us")
    assert found is not None
    causes = meter_causes(found, gross(), GROSS_MM_PER_H, "us")
    assert any("one step of the dial is 50 %" in one.why for one in causes)


def test_the_same_flow_a_head_on_another_ground_is_area_or_spacing() -> None:
    wide = ZONE.model_copy(update={"heads": 24.0, "area_m2": 2 * ZONE.area_m2})
    found, _ = meter_check(visit(meter=card(0, 3312)), wide, PACKAGE, units="us")
    assert found is not None
    causes = meter_causes(found, gross(), GROSS_MM_PER_H, "us")
    own = next(one for one in causes if one.name == "area or spacing")
    assert "1,800 ft² of the zone against 900 ft² by spacing" in own.why


def test_the_base_for_the_mouth_is_undone_by_its_arithmetic() -> None:
    base = catch(run(), mouth_area_cm2=mouth_area_cm2(76.2))
    causes = can_causes(base, GROSS_MM_PER_H, "us")
    assert names(causes) == ["mouth", "minutes"]
    # the true mouth of 4.25 in lies within 3.0 x sqrt(1.957) and 3.0 x sqrt(1.957 / .7)
    assert causes[0].why.startswith("a mouth of 4.20 to 5.02 in instead of 3.00 in")


@pytest.mark.parametrize(
    ("area_cm2", "words"),
    [
        (MOUTH_CM2 / 4, "the radius entered as the diameter"),
        (MOUTH_CM2 * 4, "the diameter entered as the radius"),
    ],
)
def test_radius_and_diameter_are_told_apart(area_cm2: float, words: str) -> None:
    found = can_causes(catch(run(), mouth_area_cm2=area_cm2), GROSS_MM_PER_H, "us")
    assert found[0].why.startswith(words)


def test_fluid_ounces_entered_as_ml_are_named() -> None:
    ounces = [[cell / 29.5735 for cell in row] for row in FIRST_VISIT_ML]
    found = can_causes(
        catch(run(ounces), mouth_area_cm2=MOUTH_CM2), GROSS_MM_PER_H, "us"
    )
    assert found[0].why.startswith("fluid ounces entered as mL")


def test_little_water_in_the_cans_may_be_wind() -> None:
    half = [[cell / 2 for cell in row] for row in FIRST_VISIT_ML]
    found = can_causes(catch(run(half), mouth_area_cm2=MOUTH_CM2), GROSS_MM_PER_H, "us")
    assert names(found)[-1] == "losses"


def test_shared_minutes_come_first_where_cans_and_meter_agree() -> None:
    found = nozzle_causes(gross(), (GROSS_MM_PER_H * 1.2,) * 2, "us", shared_min=30.0)
    assert found[0] == Cause(
        "minutes", "cans and meter share 30 min; 36 min would put both right"
    )


def test_a_pressure_that_was_not_read_is_asked_for_with_its_arithmetic() -> None:
    found = nozzle_causes(gross(), (GROSS_MM_PER_H * 1.1,) * 2, "us")
    # 45 psi x 1.1 squared
    assert found[0].why.endswith("54 psi instead of 45 psi would put it right")


def test_neither_wear_nor_pressure_doubles_a_rate() -> None:
    found = nozzle_causes(gross(), (GROSS_MM_PER_H * 2,) * 2, "us")
    assert names(found) == ["spacing"]


def test_buckets_that_read_low_have_the_hose_to_blame() -> None:
    low = gross(flows=(bucket("head 1", 3.0),))
    assert names(nozzle_causes(low, (GROSS_MM_PER_H,) * 2, "us"))[0] == "bucket"


def test_less_than_the_package_may_be_another_nozzle() -> None:
    found = nozzle_causes(gross(), (GROSS_MM_PER_H * 0.7,) * 2, "us")
    assert "nozzle size" in names(found)
