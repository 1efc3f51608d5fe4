"""A site and its zones' minutes in; seven nights by the clock out."""

from scheduler.watering.night_plan.at_hours import (
    AtHours,
    at_planned_hours,
    hours_findings,
)
from scheduler.watering.night_plan.clock_change import Moments, moments_of
from scheduler.watering.night_plan.result import (
    NightPlan,
    NightSummary,
    Pin,
    PlannedRun,
)
from scheduler.watering.night_plan.week import night_plan

__all__ = [
    "AtHours",
    "Moments",
    "NightPlan",
    "NightSummary",
    "Pin",
    "PlannedRun",
    "at_planned_hours",
    "hours_findings",
    "moments_of",
    "night_plan",
]
