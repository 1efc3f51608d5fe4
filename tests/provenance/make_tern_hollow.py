"""Makes the data of the demo site: weather from a public file, the rest invented.

usage: python -m tests.provenance.make_tern_hollow TMY3_CSV SITE_FOLDER

TMY3_CSV is `pvlib/data/723170TYA.CSV` of the pvlib 0.16.1 wheel: the United States
government's typical meteorological year of Greensboro, North Carolina. Its rain column
is unusable (it sums to metres), so rain is drawn from a stated random model. Readings
are invented: a plausible pattern between four heads, a downwind tilt and noise, scaled
to a chosen mean and uniformity. Everything is seeded, so the same call writes the same
files.
"""

import csv
import datetime as dt
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.uniformity import low_quarter_uniformity

YEAR = 2026
SEED = 20260608
GAUGE = (dt.date(2026, 4, 1), dt.date(2026, 6, 7))
# A two-state chain for wet days and gamma depths, by month. Round numbers for a humid
# temperate climate, from memory, fitted to nothing.
WET_AFTER_WET = (0.48, 0.47, 0.46, 0.44, 0.45, 0.46, 0.48, 0.45, 0.42, 0.38, 0.42, 0.46)
WET_AFTER_DRY = (0.26, 0.25, 0.26, 0.24, 0.25, 0.26, 0.28, 0.24, 0.20, 0.17, 0.20, 0.24)
MEAN_WET_DAY_MM = (8.0, 8.0, 8.5, 8.5, 8.5, 9.5, 10.0, 10.0, 11.0, 10.0, 8.5, 8.0)
GAMMA_SHAPE = 0.75
COLUMNS = {
    "tmax (°C)": ("Dry-bulb (C)", "max"),
    "tmin (°C)": ("Dry-bulb (C)", "min"),
    "RH max (%)": ("RHum (%)", "max"),
    "RH min (%)": ("RHum (%)", "min"),
    "solar radiation (MJ/m2/day)": ("GHI (W/m^2)", "energy"),
    "wind (m/s)": ("Wspd (m/s)", "mean"),
}


@dataclass(frozen=True, slots=True)
class Readings:
    """One run to invent: where, how many cans, mean and uniformity."""

    file: str
    rows: int
    columns: int
    mean_ml: float
    du_lq: float
    tilt: float
    seed: int


RUNS = (
    Readings("2026-04-28-Z1/run1.csv", 6, 6, 50.5, 0.79, 0.05, 11),
    Readings("2026-04-28-Z1/run2.csv", 6, 6, 49.0, 0.75, 0.12, 12),
    Readings("2026-05-06-Z3/run1.csv", 6, 6, 54.0, 0.77, 0.10, 31),
    Readings("2026-03-24-Z5/run1.csv", 4, 6, 46.0, 0.61, 0.18, 51),
    Readings("2026-05-19-Z5/run1.csv", 4, 6, 53.0, 0.76, 0.06, 52),
    Readings("2026-05-20-Z6/run1.csv", 6, 6, 50.0, 0.74, 0.15, 61),
    Readings("2026-05-21-Z7/run1.csv", 4, 6, 86.0, 0.70, 0.10, 71),
    Readings("2026-05-27-Z9/run1.csv", 4, 8, 55.0, 0.73, 0.08, 91),
)


def daily_rows(tmy3: Path) -> Iterator[list[str]]:
    """One row a day from the hours of the file, which stamps the end of each hour."""
    with tmy3.open(newline="", encoding="utf-8") as file:
        next(file)
        hours = list(csv.DictReader(file))
    rain = rain_mm(YEAR)
    for number in range(365):
        day = hours[24 * number : 24 * number + 24]
        month, date = day[0]["Date (MM/DD/YYYY)"].split("/")[:2]
        cells = [f"{YEAR}-{month}-{date}"]
        for column, how in COLUMNS.values():
            cells.append(_of_the_day([float(hour[column]) for hour in day], how))
        yield [*cells, f"{rain[number]:.1f}"]


def _of_the_day(values: list[float], how: str) -> str:
    if how == "energy":  # W/m2 over 24 hours to MJ/m2
        return f"{sum(values) * 0.0036:.2f}"
    if how == "mean":
        return f"{sum(values) / len(values):.2f}"
    return f"{max(values) if how == 'max' else min(values):.1f}"


def rain_mm(year: int) -> FloatArray:
    """A year of rain from the chain and the gamma depths above."""
    rng = np.random.default_rng((SEED, year))
    first, wet, rain = dt.date(year, 1, 1), False, []
    for number in range(365):
        month = (first + dt.timedelta(number)).month - 1
        wet = rng.random() < (WET_AFTER_WET if wet else WET_AFTER_DRY)[month]
        depth = rng.gamma(GAMMA_SHAPE, MEAN_WET_DAY_MM[month] / GAMMA_SHAPE)
        rain.append(depth if wet and depth >= 0.2 else 0.0)
    return np.asarray(np.round(rain, 1))


def catches_ml(asked: Readings) -> FloatArray:
    """Invented readings with very nearly the asked mean and uniformity."""
    rng = np.random.default_rng((SEED, asked.seed))
    # cans stand at the middles of an even grid between four heads in the corners
    y, x = np.meshgrid(
        (np.arange(asked.rows) + 0.5) / asked.rows,
        (np.arange(asked.columns) + 0.5) / asked.columns,
        indexing="ij",
    )
    heads = [np.hypot(x - a, y - b) for a in (0, 1) for b in (0, 1)]
    pattern = np.sum([np.maximum(1 - r / 1.1, 0) for r in heads], axis=0)
    shape = pattern / pattern.mean() - 1 + asked.tilt * (x - 0.5) * 2
    shape = shape + rng.normal(0, 0.10, shape.shape)
    shape -= shape.mean()
    low, high = 0.0, 3.0
    for _ in range(60):
        by = (low + high) / 2
        du = float(low_quarter_uniformity(np.maximum(1 + by * shape, 0.02).ravel()))
        low, high = (by, high) if du > asked.du_lq else (low, by)
    return np.asarray(np.round(asked.mean_ml * np.maximum(1 + low * shape, 0.02)))


def _lines(rows: FloatArray) -> str:
    return "\n".join(",".join(f"{cell:.0f}" for cell in row) for row in rows) + "\n"


def write_all(tmy3: Path, site: Path) -> None:
    """Write weather, gauge and invented readings into the site folder."""
    head = (
        "# A typical year, not a measured one: the dates only say month and day.\n"
        "# Station: Greensboro, North Carolina, 36.10 N 79.95 W, 273 m.\n"
        "# Source: TMY3 data set of the United States government (free to use), as\n"
        "#   in the pvlib 0.16.1 wheel (BSD 3-clause), pvlib/data/723170TYA.CSV.\n"
        "# Computed: extremes, means and sums of 24 hours; wind at 10 m.\n"
        "# Rain is NOT from the station: its rain is unusable. It is drawn from\n"
        f"#   a two-state chain and gamma depths, seed {SEED}; parameters are round\n"
        "#   numbers for a humid temperate climate, from memory, fitted to nothing.\n"
        "# Made by: python -m tests.provenance.make_tern_hollow TMY3_CSV SITE_FOLDER\n"
    )
    names = ",".join(["date", *COLUMNS, "rain (mm)"])
    body = "\n".join(",".join(row) for row in daily_rows(tmy3))
    weather = site / "weather" / "greensboro_typical_year.csv"
    _write(weather, f"{head}{names}\n{body}\n")
    start, end = GAUGE
    rain = rain_mm(YEAR)
    days = [start + dt.timedelta(n) for n in range((end - start).days + 1)]
    gauge = [f"{day},{rain[day.timetuple().tm_yday - 1] / 25.4:.2f}" for day in days]
    note = "# The nursery's own gauge, read each morning. Invented, like the place.\n"
    _write(site / "rain.csv", note + "date,rain (in)\n" + "\n".join(gauge) + "\n")
    for asked in RUNS:
        _write(site / "tests" / asked.file, _lines(catches_ml(asked)))


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    write_all(Path(sys.argv[1]), Path(sys.argv[2]))
