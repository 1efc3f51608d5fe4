"""Jobs and the minutes of seven nights in; the week's timetable and its bound out."""

from scheduler.watering.timetable.nouns import Grid, Job, Placed, Timetable
from scheduler.watering.timetable.pack import packed
from scheduler.watering.timetable.shortest import shortest_night
from scheduler.watering.timetable.task import all_valves

__all__ = [
    "Grid",
    "Job",
    "Placed",
    "Timetable",
    "all_valves",
    "packed",
    "shortest_night",
]
