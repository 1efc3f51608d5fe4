"""Makes the data of Alder Flat: weather from a public file, the cans invented.

usage: python -m tests.provenance.make_alder_flat SEATTLE_CSV SITE_FOLDER

SEATTLE_CSV is `vega_datasets/_data/seattle-weather.csv` of the vega-datasets 0.9.0
wheel: daily weather of Seattle, Washington, 2012 to 2015, drawn from NOAA data (public
domain). Readings are invented in the way of the first demo site and are seeded, so the
same call writes the same files.
"""

import argparse
import csv
import datetime as dt
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from tests.provenance.make_tern_hollow import Readings, catches_ml

# The demo's day: what fell or blew later is not in the file.
TODAY = dt.date(2015, 6, 8)
COLUMNS = {
    "tmax (°C)": "temp_max",
    "tmin (°C)": "temp_min",
    "wind (m/s)": "wind",
    "rain (mm)": "precipitation",
}
HEAD = """\
# Measured days of Seattle, Washington: the dates are the real ones.
# Source: NOAA daily data (public domain), as in the vega-datasets 0.9.0 wheel,
#   vega_datasets/_data/seattle-weather.csv; every number is as it stands there.
# Cut off before the demo's day, so that the plan knows no more than it could.
# Not measured, or not in that file: humidity and sun.
# ASSUMED, for that file names no station: the airport south of the city (47.44 N,
#   122.31 W, 113 m, from memory), its wind a mean of the day on a mast of 10 m,
#   temperatures in degrees C, wind in m/s, rain in mm.
# Made by: python -m tests.provenance.make_alder_flat SEATTLE_CSV SITE_FOLDER
"""
# 24 to 36 cans on a square cell. More wind carries the water further and lowers both
# what the cans catch and how evenly, as it does; by how much is invented.
RUNS = (
    Readings("2015-05-20-A1/run1.csv", 6, 6, 52.5, 0.80, 0.05, 111),
    Readings("2015-05-22-A1/run1.csv", 6, 6, 50.5, 0.75, 0.11, 112),
    Readings("2015-06-05-A1/run1.csv", 6, 6, 48.5, 0.69, 0.18, 113),
    Readings("2015-05-21-A2/run1.csv", 4, 6, 56.0, 0.73, 0.07, 121),
    Readings("2015-05-20-A3/run1.csv", 6, 6, 56.5, 0.74, 0.06, 131),
    Readings("2015-05-22-A3/run1.csv", 6, 6, 54.0, 0.68, 0.13, 132),
    Readings("2015-06-05-A3/run1.csv", 6, 6, 51.0, 0.60, 0.21, 133),
)
# Straight gauges, read to a fifth of a millimetre: drawn in fifths.
FIFTHS = (Readings("2015-05-27-A4/run1.csv", 4, 6, 33.4, 0.71, 0.09, 141),)

LOGGED_FROM = dt.date(2015, 5, 18)
STEP = dt.timedelta(minutes=10)
WIND_SEED = 20150608
# Wind of an hour over that of its day: calm before dawn, highest in the afternoon;
# and wind at 2 m over that at 10 m in the open (FAO-56 equation 47).
SHARE_OF_DAY = (
    (0, 5, 8, 13, 16, 19, 22, 24),
    (0.55, 0.5, 0.8, 1.6, 1.55, 1.15, 0.8, 0.55),
)
AT_2_M = 0.75
WIND_HEAD = f"""\
# Invented, like the nursery: a logger at 2 m, left in the home field for three weeks.
# Only the mean of each day leans on a measured one, that of the weather file brought
# down to 2 m; the course of the day, the gusts and the directions are made up, seed
# {WIND_SEED}. Its clock stays on standard time, and it stamps the end of 10 minutes.
# Made by: python -m tests.provenance.make_alder_flat SEATTLE_CSV SITE_FOLDER
time,wind speed (m/s),gust (m/s),wind direction (deg)
"""


def daily_rows(source: Path) -> Iterator[list[str]]:
    """One row a day before the demo's day, every number as it stands in the file."""
    with source.open(newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            day = dt.date.fromisoformat(row["date"].replace("/", "-"))
            if day < TODAY:
                yield [str(day), *(row[column] for column in COLUMNS.values())]


def run_texts() -> dict[str, str]:
    """File of each run under `tests/`, and its text."""
    texts = {}
    for asked in RUNS:
        rows = catches_ml(asked)
        texts[asked.file] = [",".join(f"{cell:.0f}" for cell in row) for row in rows]
    for asked in FIFTHS:
        rows = np.asarray(catches_ml(asked) / 5)
        texts[asked.file] = [",".join(f"{cell:.1f}" for cell in row) for row in rows]
    return {file: "\n".join(lines) + "\n" for file, lines in texts.items()}


def wind_text(source: Path) -> str:
    """The table of the field logger."""
    return WIND_HEAD + "".join(_wind_rows(source))


def _wind_rows(source: Path) -> Iterator[str]:
    rng = np.random.default_rng(WIND_SEED)
    of_the_day = {row[0]: float(row[3]) for row in daily_rows(source)}
    # local standard time is an hour behind the clock of these days
    at = dt.datetime.combine(LOGGED_FROM, dt.time())
    while at < dt.datetime.combine(TODAY, dt.time()):
        share = float(np.interp((at.hour + 1) % 24 + at.minute / 60, *SHARE_OF_DAY))
        speed = of_the_day[str(at.date())] * AT_2_M * share * rng.uniform(0.75, 1.25)
        gust = speed * rng.uniform(1.3, 1.8)
        direction = (200 + rng.normal(0, 25)) % 360
        at += STEP
        yield f"{at:%Y-%m-%d %H:%M},{speed:.1f},{gust:.1f},{direction:.0f}\n"


def weather_text(source: Path) -> str:
    """The whole weather file."""
    names = ",".join(["date", *COLUMNS])
    body = "\n".join(",".join(row) for row in daily_rows(source))
    return f"{HEAD}{names}\n{body}\n"


def write_all(source: Path, site: Path) -> None:
    """Write weather and invented readings into the site folder."""
    _write(site / "weather" / "seattle_2012_2015.csv", weather_text(source))
    _write(site / "wind" / "field_logger.csv", wind_text(source))
    for file, text in run_texts().items():
        _write(site / "tests" / file, text)


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")


def main() -> None:
    """Read the two arguments and write the files."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("seattle_csv", type=Path)
    parser.add_argument("site_folder", type=Path)
    asked = parser.parse_args()
    write_all(asked.seattle_csv, asked.site_folder)


if __name__ == "__main__":
    main()
