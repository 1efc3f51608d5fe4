"""Need, rate, shares and intake in; one zone's week of whole minutes out."""

from scheduler.watering.zone_week.inputs import ZoneWeekInput
from scheduler.watering.zone_week.minutes import (
    clocked,
    clocked_in_short,
    zone_adequacy,
)
from scheduler.watering.zone_week.nights import Demand, most_waiting_mm
from scheduler.watering.zone_week.result import ZoneWeek
from scheduler.watering.zone_week.week import zone_week

__all__ = [
    "Demand",
    "ZoneWeek",
    "ZoneWeekInput",
    "clocked",
    "clocked_in_short",
    "most_waiting_mm",
    "zone_adequacy",
    "zone_week",
]
