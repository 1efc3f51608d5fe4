"""Logger rows in; averages over each run and the site's usual wind by hour out.

`stamps_to_utc` reads the clock of a logger, `checked` throws out what no wind can be,
`run_wind` averages over exactly one run, `other_clock` asks whether the log stands on
another clock, and `usual_wind` is the wind of the site by hour and month.
"""

from scheduler.field.wind.checking import checked
from scheduler.field.wind.clock import ClockReading, clock_stamps, read_clock
from scheduler.field.wind.hours import UsualWind, usual_by_hour_m_per_s, usual_wind
from scheduler.field.wind.log import at_height, height_factor
from scheduler.field.wind.other_clock import ClockAnswer, OtherClocks, other_clock
from scheduler.field.wind.runs import (
    NEEDED_SHARE,
    RunWind,
    WindBand,
    run_wind,
    vector_mean_deg,
    wind_band,
)
from scheduler.field.wind.stamps import (
    Mark,
    clock_findings,
    interval_starts,
    stamps_to_utc,
    utc_of,
)
from scheduler.record import WindLog

__all__ = [
    "NEEDED_SHARE",
    "ClockAnswer",
    "ClockReading",
    "Mark",
    "OtherClocks",
    "RunWind",
    "UsualWind",
    "WindBand",
    "WindLog",
    "at_height",
    "checked",
    "clock_findings",
    "clock_stamps",
    "height_factor",
    "interval_starts",
    "other_clock",
    "read_clock",
    "run_wind",
    "stamps_to_utc",
    "usual_by_hour_m_per_s",
    "usual_wind",
    "utc_of",
    "vector_mean_deg",
    "wind_band",
]
