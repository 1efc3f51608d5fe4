"""A week's timetable in; what a common clock must be keyed with to run it, out."""

from scheduler.watering.clock_view.nouns import (
    ClockView,
    MovedRun,
    OtherWater,
    PercentWay,
    Program,
    Station,
)
from scheduler.watering.clock_view.percent import Keyed
from scheduler.watering.clock_view.said import water_text
from scheduler.watering.clock_view.view import clock_view, clock_views

__all__ = [
    "ClockView",
    "Keyed",
    "MovedRun",
    "OtherWater",
    "PercentWay",
    "Program",
    "Station",
    "clock_view",
    "clock_views",
    "water_text",
]
