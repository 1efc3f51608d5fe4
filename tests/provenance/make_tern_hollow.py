"""Makes the data of the demo site: weather from a public file, the rest invented.

usage: python -m tests.provenance.make_tern_hollow TMY3_CSV SITE_FOLDER

TMY3_CSV is `pvlib/data/723170TYA.CSV` of the pvlib 0.16.1 wheel: the United States
government's typical meteorological year of Greensboro, North Carolina. Its rain column
is unusable (it sums to metres), so rain is drawn from a stated random model. Readings
are invented: heads on an endless grid, wettest beside each head, carried downwind, with
noise, then spread and scaled to a chosen mean and uniformity. Two runs are typed by
hand. Everything is seeded, so the same call writes the same files.
"""

import argparse
import csv
import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.uniformity import low_quarter_uniformity
from tests.provenance.yard_wind import mast_text, wind_text

YEAR = 2026
SEED = 20260608
GAUGE = (dt.date(2026, 4, 1), dt.date(2026, 6, 7))
# A two-state chain for wet days and gamma depths, by month. Round numbers for a humid
# temperate climate, from memory, fitted to nothing.
WET_AFTER_WET = (0.48, 0.47, 0.46, 0.44, 0.45, 0.46, 0.48, 0.45, 0.42, 0.38, 0.42, 0.46)
WET_AFTER_DRY = (0.26, 0.25, 0.26, 0.24, 0.25, 0.26, 0.28, 0.24, 0.20, 0.17, 0.20, 0.24)
MEAN_WET_DAY_MM = (8.0, 8.0, 8.5, 8.5, 8.5, 9.5, 10.0, 10.0, 11.0, 10.0, 8.5, 8.0)
GAMMA_SHAPE = 0.75
# A gauge shows nothing of a smaller fall.
LEAST_RAIN_MM = 0.2
DATE = "Date (MM/DD/YYYY)"
COLUMNS = {
    "tmax (°C)": ("Dry-bulb (C)", "max"),
    "tmin (°C)": ("Dry-bulb (C)", "min"),
    "RH max (%)": ("RHum (%)", "max"),
    "RH min (%)": ("RHum (%)", "min"),
    "solar radiation (MJ/m2/day)": ("GHI (W/m^2)", "energy"),
    "wind (m/s)": ("Wspd (m/s)", "mean"),
}
# Invented throw: a little past the next head, with a wet spot beside the head.
THROW = 1.1
WET_SPOT = 0.4
WET_SPOT_WIDTH = 0.3
NOISE = 0.06
# What a row along a lateral with a half shut cock lacks.
DRY_ROW_LACKS = 0.45


@dataclass(frozen=True, slots=True)
class Readings:
    """One run to invent: where the cans stand, their mean and uniformity.

    `cells` is how many cells between heads the columns span, `height` how high a cell
    is for its width, `drift` how far wind carries the water along a row, both as parts
    of the width of one cell. `dry_row` lies along a lateral with too little pressure.
    """

    file: str
    rows: int
    columns: int
    mean_ml: float
    du_lq: float
    drift: float
    seed: int
    cells: int = 1
    height: float = 1.0
    dry_row: int | None = None


RUNS = (
    Readings("2026-04-28-Z1/run1.csv", 6, 6, 50.5, 0.80, 0.06, 11),
    Readings("2026-04-28-Z1/run2.csv", 6, 6, 49.0, 0.76, 0.10, 12),
    Readings("2026-03-24-Z5/run1.csv", 4, 6, 49.5, 0.61, 0.06, 51, dry_row=3),
    Readings("2026-03-24-Z5/run2.csv", 4, 6, 50.5, 0.63, 0.07, 53, dry_row=3),
    Readings("2026-03-24-Z5/run3.csv", 4, 6, 49.0, 0.60, 0.08, 54, dry_row=3),
    Readings("2026-05-19-Z5/run1.csv", 4, 6, 53.0, 0.77, 0.07, 52),
    Readings("2026-05-20-Z6/run1.csv", 6, 6, 54.0, 0.74, 0.12, 61),
    Readings("2026-05-21-Z7/run1.csv", 4, 6, 84.0, 0.68, 0.08, 71, height=2 / 3),
    # The mean of the hollies' test, so that base for mouth reads as 196 % of gross.
    Readings("2026-05-27-Z9/run1.csv", 4, 8, 55.85, 0.72, 0.06, 91, cells=2),
)
# Typed by hand: codes, a blank and a zero; and a run of plain 24 cans.
TYPED = {
    "2026-05-05-Z2/run1.csv": (
        ",A,B,C,D,E,F\n"
        "1,53,42,36,44,,0\n"
        "2,46,40,35,39,41,44\n"
        "3,44,38,34,k,42,47\n"
        "4,52,45,39,43,48,55\n"
    ),
    "2026-05-12-Z4/run1.csv": (
        "41,52,60,48,66,71,58,39\n55,63,74,69,47,36,59,68\n50,44,62,57,33,53,65,70\n"
    ),
}


def daily_rows(tmy3: Path) -> Iterator[list[str]]:
    """One row a day from the hours of the file, which stamps the end of each hour.

    So hour 24:00 still bears the date of the day that it ends.
    """
    hours = typical_hours(tmy3)
    rain = rain_mm(YEAR)
    for number in range(365):
        day = hours[24 * number : 24 * number + 24]
        if len({hour[DATE] for hour in day}) != 1:
            raise ValueError(f"{tmy3}: day {number + 1} is not 24 hours of one date")
        month, date = day[0][DATE].split("/")[:2]
        cells = [f"{YEAR}-{month}-{date}"]
        for column, how in COLUMNS.values():
            cells.append(of_the_day([float(hour[column]) for hour in day], how))
        yield [*cells, f"{rain[number]:.1f}"]


def typical_hours(tmy3: Path) -> list[dict[str, str]]:
    """The 8760 hours of the file, in their order."""
    with tmy3.open(newline="", encoding="utf-8") as file:
        next(file)
        hours = list(csv.DictReader(file))
    if len(hours) != 365 * 24:
        raise ValueError(f"{tmy3}: {len(hours)} hours; a typical year has 8760")
    return hours


def of_the_day(values: list[float], how: str) -> str:
    """Extreme, mean or energy of the 24 hours of one day, as text."""
    if how == "energy":  # mean W/m2 of each hour x 3600 s, in MJ/m2
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
        rain.append(depth if wet and depth >= LEAST_RAIN_MM else 0.0)
    return np.asarray(np.round(rain, 1))


def gauge_rows() -> Iterator[str]:
    """The nursery's own gauge: every day of the season so far, zeros written."""
    start, end = GAUGE
    rain = rain_mm(YEAR)
    for number in range((end - start).days + 1):
        day = start + dt.timedelta(number)
        yield f"{day},{rain[day.timetuple().tm_yday - 1] / 25.4:.2f}"


def pattern(asked: Readings) -> FloatArray:
    """Water at each can from heads on an endless grid, before noise; mean 1."""
    # cans stand at the middles of an even grid; heads stand in the corners of cells
    y, x = np.meshgrid(
        (np.arange(asked.rows) + 0.5) / asked.rows * asked.height,
        (np.arange(asked.columns) + 0.5) / asked.columns * asked.cells,
        indexing="ij",
    )
    water = np.zeros_like(x)
    for across in range(-2, asked.cells + 3):
        for down in range(-3, 5):
            r = np.hypot(x - across - asked.drift, y - down * asked.height)
            water += np.maximum(1 - r / THROW, 0)
            water += WET_SPOT * np.exp(-((r / WET_SPOT_WIDTH) ** 2))
    if asked.dry_row is not None:
        water[asked.dry_row] *= 1 - DRY_ROW_LACKS
    return np.asarray(water / water.mean())


def catches_ml(asked: Readings) -> FloatArray:
    """Invented readings with very nearly the asked mean and uniformity."""
    rng = np.random.default_rng((SEED, asked.seed))
    shape = pattern(asked) - 1
    shape = shape + rng.normal(0, NOISE, shape.shape)
    shape -= shape.mean()
    low, high = 0.0, 5.0
    for _ in range(60):
        by = (low + high) / 2
        du = float(low_quarter_uniformity(np.maximum(1 + by * shape, 0.02).ravel()))
        low, high = (by, high) if du > asked.du_lq else (low, by)
    return np.asarray(np.round(asked.mean_ml * np.maximum(1 + low * shape, 0.02)))


def run_texts() -> dict[str, str]:
    """File of each run under `tests/`, and its text."""
    made = {asked.file: _lines(catches_ml(asked)) for asked in RUNS}
    return made | TYPED


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
        "#   numbers for a humid temperate climate, from memory, fitted to nothing:\n"
        f"#   wet after a wet day, Jan to Dec: {_listed(WET_AFTER_WET)}\n"
        f"#   wet after a dry day: {_listed(WET_AFTER_DRY)}\n"
        f"#   mean depth of a wet day, mm: {_listed(MEAN_WET_DAY_MM)}\n"
        f"#   gamma shape {GAMMA_SHAPE}; less than {LEAST_RAIN_MM} mm reads 0\n"
        "# Made by: python -m tests.provenance.make_tern_hollow TMY3_CSV SITE_FOLDER\n"
    )
    names = ",".join(["date", *COLUMNS, "rain (mm)"])
    body = "\n".join(",".join(row) for row in daily_rows(tmy3))
    weather = site / "weather" / "greensboro_typical_year.csv"
    _write(weather, f"{head}{names}\n{body}\n")
    note = (
        "# The nursery's own gauge, read each morning. Invented, like the place:\n"
        "# drawn from the rain model that the weather file states.\n"
    )
    gauge = "\n".join(gauge_rows())
    _write(site / "rain.csv", f"{note}date,rain (in)\n{gauge}\n")
    _write(site / "wind" / "yard_logger.csv", wind_text())
    _write(site / "wind" / "mast_year.csv", mast_text(typical_hours(tmy3)))
    for file, text in run_texts().items():
        _write(site / "tests" / file, text)


def _listed(numbers: tuple[float, ...]) -> str:
    return " ".join(f"{number:g}" for number in numbers)


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")


def main() -> None:
    """Read the two arguments and write the files."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("tmy3_csv", type=Path)
    parser.add_argument("site_folder", type=Path)
    asked = parser.parse_args()
    write_all(asked.tmy3_csv, asked.site_folder)


if __name__ == "__main__":
    main()
