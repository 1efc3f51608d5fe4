"""Wind logs made by hand or read from the extract, for the tests of the wind rooms."""

from pathlib import Path
from typing import Any

import numpy as np

from scheduler.field.wind import WindLog
from scheduler.files.text_file import TextFile
from scheduler.files.wind_csv import WindFileOptions, read_wind_log

NEW_YORK = "America/New_York"
EXTRACT = Path(__file__).parents[3] / "data" / "nyc_wind_2013.csv"
M_PER_S_PER_MPH = 0.44704


def moment(text: str) -> np.datetime64:
    return np.datetime64(text, "s")


def wind_log(
    speed: Any,
    *,
    start: str = "2026-05-12T10:10",
    step_min: int = 5,
    gust: Any = None,
    direction: Any = None,
    **given: Any,
) -> WindLog:
    """Rows without gaps from a start in UTC."""
    speeds = np.asarray(speed, dtype=float)
    none = np.full(speeds.size, np.nan)
    return WindLog(
        start_utc=moment(start)
        + np.arange(speeds.size) * np.timedelta64(step_min, "m"),
        interval_s=60.0 * step_min,
        speed_m_per_s=speeds,
        gust_m_per_s=none if gust is None else np.asarray(gust, dtype=float),
        direction_deg=none if direction is None else np.asarray(direction, dtype=float),
        height_m=given.pop("height_m", 2.0),
        name="mast",
        where="wind/mast.csv",
        **given,
    )


# A test from 06:10 to 06:50 local (UTC-4), the logger in UTC, rows of 5 minutes, those
# of 10:20 and 10:35 missing. [mph]
MORNING_UTC_MPH = {
    "10:10": 2.0, "10:15": 2.6, "10:25": 3.0, "10:30": 3.2, "10:40": 2.9, "10:45": 3.1,
}  # fmt: skip
# What stands four hours earlier in the same file, where a local clock would look
MORNING_LOCAL_MPH = {
    "06:10": 8.1, "06:15": 9.5, "06:20": 9.0, "06:25": 9.4, "06:30": 8.8, "06:35": 9.6,
    "06:40": 9.2, "06:45": 9.2,
}  # fmt: skip


def morning_log(**given: Any) -> WindLog:
    """The morning's log; rows outside the two windows are windier."""
    mph = {"06:05": 20.0, "06:50": 20.0, "10:05": 20.0, "10:50": 20.0}
    mph |= MORNING_UTC_MPH | MORNING_LOCAL_MPH
    starts = np.array([f"2026-05-12T{one}" for one in mph], dtype="datetime64[s]")
    speed = np.array(list(mph.values())) * M_PER_S_PER_MPH
    none = np.full(speed.size, np.nan)
    return WindLog(
        starts, 300.0, speed, none, none, 2.0, "mast", "wind/mast.csv",
        time_zone=NEW_YORK, **given,
    )  # fmt: skip


def extract_text(origin: str) -> str:
    """Remarks, header and the rows of one airport."""
    lines = EXTRACT.read_text(encoding="utf-8").split("\n")
    return "\n".join(one for one in lines if one.startswith(("#", "origin,", origin)))


def real_log(origin: str) -> WindLog:
    """Wind at one airport, from the local clock that the publisher gives."""
    options = WindFileOptions("local", "start", interval_min=60, height_m=10.0)
    file = TextFile(f"wind/{origin}.csv", extract_text(origin), "")
    log, said = read_wind_log(file, options, time_zone=NEW_YORK)
    assert log is not None, said
    return log
