"""Days of use and rain in, every catch position of a season out."""

from scheduler.watering.season_run.inputs import SeasonInput, SeasonResult
from scheduler.watering.season_run.run import season_run

__all__ = ["SeasonInput", "SeasonResult", "season_run"]
