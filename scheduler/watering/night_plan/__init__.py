"""A site and its zones' minutes in; seven nights by the clock out."""

from scheduler.watering.night_plan.result import (
    NightPlan,
    NightSummary,
    Pin,
    PlannedRun,
)
from scheduler.watering.night_plan.week import night_plan

__all__ = ["NightPlan", "NightSummary", "Pin", "PlannedRun", "night_plan"]
