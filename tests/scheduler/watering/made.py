"""Weeks made by hand for the tests of watering."""

from typing import Any

import numpy as np

from scheduler.field.uniformity import low_half_uniformity, low_quarter_uniformity
from scheduler.root_zone.intake import IntakeModel, intake_model
from scheduler.root_zone.storage import Storage
from scheduler.site import Plant, Zone
from scheduler.trace import entered
from scheduler.units import MM_PER_INCH
from scheduler.watering.zone_week import ZoneWeek, ZoneWeekInput, zone_week
from tests.scheduler.field.made import FIRST_VISIT_ML

# A worked first visit: 24 cans, DU low quarter 0.72
FIRST_SHARE = np.array(FIRST_VISIT_ML, dtype=float).ravel()
FIRST_SHARE = FIRST_SHARE / FIRST_SHARE.mean()
EVEN = np.ones(24)
EVERY_NIGHT = np.ones(7, dtype=bool)
DRY = np.zeros(7)
FREE = IntakeModel("none", None, None, None, entered("intake_model", "none"))
# field bay: 0.62 in/h on soil that takes 0.25 in/h and holds 0.10 in on its surface
BAY = IntakeModel(
    "constant intake", None, 0.25 * MM_PER_INCH, 0.1 * MM_PER_INCH,
    entered("intake_model", "constant intake"),
)  # fmt: skip
BAY_RATE = 0.62 * MM_PER_INCH


def nights(*index: int) -> Any:
    return np.isin(np.arange(7), index)


def store(total_mm: float = 40.0, allowed_mm: float = 16.0) -> Storage:
    return Storage(total_mm, allowed_mm, entered("allowed_depletion_mm", allowed_mm))


def zone(**given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": "Z4",
        "name": "can yard",
        "area_m2": 2000.0,
        "grown_in": "pots",
        "watered": "when due",
        "rule": "average",
        "rain_counted": 1.0,
        "plant": Plant(name="holly", kc=1.0, kc_area="bed"),
    }
    return Zone(**(base | given))


def inputs(one: Zone | None = None, **given: Any) -> ZoneWeekInput:
    one = one or zone()
    share = given.get("share", EVEN)
    base: dict[str, Any] = {
        "zone": one,
        "share": share,
        "net_rate_mm_per_h": 12.0,
        "du_lq": float(low_quarter_uniformity(share)),
        "du_lh": float(low_half_uniformity(share)),
        "etc_mm_per_day": np.full(7, 4.0),
        "rain_mm": DRY,
        "storage": None,
        "start_depletion_mm": 0.0,
        "allowed_day": EVERY_NIGHT,
        "intake": intake_model(one)[0],
        "rounding": "nearest",
        "max_cycles": None,
    }
    return ZoneWeekInput(**(base | given))


def week(one: Zone | None = None, **given: Any) -> ZoneWeek:
    made = inputs(one, **given)
    return zone_week(
        made,
        rate_trace=entered("net_rate_mm_per_h", made.net_rate_mm_per_h),
        du_trace=entered("du_lq", made.du_lq),
        etc_trace=entered("etc_mm", float(made.etc_mm_per_day.sum())),
        start_trace=entered("start_depletion_mm", 0.0),
    )
