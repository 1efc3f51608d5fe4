"""The wind of the demo site: test mornings invented, a year taken from a public file.

A logger is carried to each test. Its speeds scatter about what the tester wrote down,
so that log and test.toml tell one story; the test without a typed wind gets one here.
A mast stands for a year that ends before the first test: hour by hour it has the speed
and direction of the typical year, with seeded gusts.
"""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

SEED = 20260609
# Local mornings, and from which time on the wind is about that many mph.
MORNINGS: dict[str, tuple[tuple[str, float], ...]] = {
    "2026-03-24": (("06:00", 3.0),),
    "2026-04-28": (("05:30", 2.0), ("06:20", 3.5)),
    "2026-05-05": (("05:40", 2.8),),
    "2026-05-12": (("05:30", 2.5),),
    "2026-05-19": (("05:35", 2.2),),
    "2026-05-20": (("05:10", 3.8),),
    "2026-05-21": (("05:20", 2.4),),
    "2026-05-27": (("05:45", 1.8),),
}
# Written with numbers of their own, so that the mornings above keep theirs.
LATER: dict[str, tuple[tuple[str, float], ...]] = {
    "2026-03-24": (("07:00", 3.4),),
}
STEP = dt.timedelta(minutes=5)
LENGTH = dt.timedelta(hours=1)
# All mornings lie in daylight time, four hours behind UTC.
BEHIND_UTC = dt.timedelta(hours=4)
HEAD = """\
# Invented, like the place: wind on the mornings of the tests, a logger at 2 m in the
# yard. Its clock is on UTC and it stamps the end of each 5 minutes.
# Made by: python -m tests.provenance.make_tern_hollow TMY3_CSV SITE_FOLDER
time,wind speed (mph),gust (mph),wind direction (deg)
"""


def wind_text() -> str:
    """The table of the yard logger."""
    rows = [
        *_rows(np.random.default_rng(SEED), MORNINGS),
        *_rows(np.random.default_rng((SEED, 1)), LATER),
    ]
    return HEAD + "".join(sorted(rows))


def _rows(
    rng: np.random.Generator, mornings: dict[str, tuple[tuple[str, float], ...]]
) -> Iterator[str]:
    for day, parts in mornings.items():
        for i, (start, mph) in enumerate(parts):
            begin = dt.datetime.fromisoformat(f"{day}T{start}")
            end = begin + LENGTH
            if i + 1 < len(parts):
                end = dt.datetime.fromisoformat(f"{day}T{parts[i + 1][0]}")
            while begin < end:
                begin += STEP
                speed = max(0.2, mph + rng.normal(0, 0.3))
                gust = speed * rng.uniform(1.3, 1.8)
                direction = (225 + rng.normal(0, 20)) % 360
                at = f"{begin + BEHIND_UTC:%Y-%m-%d %H:%M}"
                yield f"{at},{speed:.1f},{gust:.1f},{direction:.0f}\n"


# --- the mast --------------------------------------------------------------------

FIRST_DAY = dt.date(2025, 3, 1)
SPEED, DIRECTION = "Wspd (m/s)", "Wdir (degrees)"
# Gusts of an hour over its mean: round numbers, common practice, no source.
GUST_TIMES = (1.3, 1.8)
MAST_HEAD = f"""\
# NOT logged at the nursery: a typical year dressed up as a year of a mast of 10 m.
# Speed and direction of every hour are those of the TMY3 file that the first lines of
# weather/greensboro_typical_year.csv name (an airport, wind at 10 m); only the year is
# invented, so that the log reads {FIRST_DAY} to 2026-02-28.
# Gusts are invented: the speed times {GUST_TIMES[0]} to {GUST_TIMES[1]}, seed {SEED}.
# Stamps: local standard time, the end of each hour.
# Made by: python -m tests.provenance.make_tern_hollow TMY3_CSV SITE_FOLDER
time,wind speed (m/s),gust (m/s),wind direction (deg)
"""


def mast_text(hours: Sequence[Mapping[str, str]]) -> str:
    """The table of the mast, from the 8760 hours of the public file in their order."""
    return MAST_HEAD + "".join(_mast_rows(hours))


def _mast_rows(hours: Sequence[Mapping[str, str]]) -> Iterator[str]:
    rng = np.random.default_rng((SEED, FIRST_DAY.year))
    # the file begins with January, the mast with March
    begin = 24 * (FIRST_DAY.timetuple().tm_yday - 1)
    at = dt.datetime.combine(FIRST_DAY, dt.time())
    for i in range(len(hours)):
        at += dt.timedelta(hours=1)
        hour = hours[(begin + i) % len(hours)]
        speed = float(hour[SPEED])
        gust = speed * rng.uniform(*GUST_TIMES)
        yield f"{at:%Y-%m-%d %H:%M},{speed:.1f},{gust:.1f},{hour[DIRECTION]}\n"
