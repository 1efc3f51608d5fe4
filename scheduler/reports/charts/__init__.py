"""Small charts for paper: numbers in, a picture with its words and tables out.

Black on white, with hatching and two greys that print, and every number that matters
written out. Files: `svg` (lines and words), `axis` (places and round marks), one file a
chart. Numbers arrive in the unit that is shown; nothing about water is computed here.
"""

from scheduler.reports.charts.bars import Bar, bars
from scheduler.reports.charts.boxes import RunBox, run_boxes
from scheduler.reports.charts.can_map import Can, CanMapLook, can_map
from scheduler.reports.charts.chance import ChanceCurve, chance_it_pays
from scheduler.reports.charts.depletion import Depletion, season_depletion
from scheduler.reports.charts.quarters import RuleBars, what_each_quarter_gets
from scheduler.reports.charts.rating import Band, rating_scale
from scheduler.reports.charts.tornado import Swing, tornado
from scheduler.reports.charts.wind import WindPicture, du_against_wind

__all__ = [
    "Band",
    "Bar",
    "Can",
    "CanMapLook",
    "ChanceCurve",
    "Depletion",
    "RuleBars",
    "RunBox",
    "Swing",
    "WindPicture",
    "bars",
    "can_map",
    "chance_it_pays",
    "du_against_wind",
    "rating_scale",
    "run_boxes",
    "season_depletion",
    "tornado",
    "what_each_quarter_gets",
]
