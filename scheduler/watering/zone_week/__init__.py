"""Need, rate, shares and intake in; one zone's week of whole minutes out."""

from scheduler.watering.zone_week.inputs import ZoneWeekInput
from scheduler.watering.zone_week.minutes import Clocked, clocked
from scheduler.watering.zone_week.nights import most_waiting_mm
from scheduler.watering.zone_week.result import ZoneWeek
from scheduler.watering.zone_week.week import zone_week

__all__ = [
    "Clocked",
    "ZoneWeek",
    "ZoneWeekInput",
    "clocked",
    "most_waiting_mm",
    "zone_week",
]
