"""Need, rate, shares and intake in; one zone's week of whole minutes out."""

from scheduler.watering.zone_week.inputs import ZoneWeekInput
from scheduler.watering.zone_week.result import ZoneWeek
from scheduler.watering.zone_week.week import zone_week

__all__ = ["ZoneWeek", "ZoneWeekInput", "zone_week"]
