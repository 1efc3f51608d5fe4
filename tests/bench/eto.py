"""Daily reference ET of 40 years x 1,000 stations, against a loop and whole arrays.

The weather is made up. The loop is timed on a sample, per element; the adapter and the
library called once on everything are timed on the whole set.
"""

import math
import statistics
import time
from collections.abc import Callable

import numpy as np
import refet

from scheduler.arrays import FloatArray
from scheduler.need.air import wind_height_factor
from scheduler.need.penman_monteith import penman_monteith_eto_mm_per_day
from tests.bench.harness import at_least, at_most, report

# the library brings wind to 2 m even when it was measured there; this undoes it
WIND_AS_IT_IS = 1.0 / float(wind_height_factor(2.0))
N_DAYS, N_STATIONS = 40 * 365, 1000
SAMPLE = 100_000
ROUNDS = 3
Weather = dict[str, FloatArray]


def made_up_weather(n_days: int, n_stations: int, seed: int = 20240) -> Weather:
    """Days in rows, stations in columns."""
    rng = np.random.default_rng(seed)
    shape = (n_days, n_stations)
    tmin = rng.uniform(0, 20, shape)
    return {
        "tmax_degc": tmin + rng.uniform(3, 18, shape),
        "tmin_degc": tmin,
        "vapour_pressure_kpa": rng.uniform(0.3, 1.5, shape),
        "radiation_mj_per_m2_day": rng.uniform(3, 25, shape),
        "wind_2m_m_per_s": rng.uniform(0.5, 5, shape),
        "latitude_deg": rng.uniform(20, 50, n_stations),
        "elevation_m": rng.uniform(0, 2000, n_stations),
        "day_of_year": (np.arange(n_days) % 365 + 1).astype(np.float64),
    }


def scalar_eto(
    tmax: float, tmin: float, ea: float, rs: float, u2: float,
    latitude: float, height: float, day: float,
) -> float:  # fmt: skip
    """One day of one station with `math`, as a plain program would write it."""
    gamma = 0.000665 * 101.3 * ((293 - 0.0065 * height) / 293) ** 5.26
    tmean = (tmax + tmin) / 2
    slope = 2503 * math.exp(17.27 * tmean / (tmean + 237.3)) / (tmean + 237.3) ** 2
    top = 0.6108 * math.exp(17.27 * tmax / (tmax + 237.3))
    es = (top + 0.6108 * math.exp(17.27 * tmin / (tmin + 237.3))) / 2
    phi, turn = math.radians(latitude), 2 * math.pi * day / 365
    delta = 0.409 * math.sin(turn - 1.39)
    ws = math.acos(min(max(-math.tan(phi) * math.tan(delta), -1), 1))
    path = ws * math.sin(phi) * math.sin(delta)
    path += math.cos(phi) * math.cos(delta) * math.sin(ws)
    ra = 24 / math.pi * 4.92 * (1 + 0.033 * math.cos(turn)) * path
    clear = min(max(rs / ((0.75 + 2e-5 * height) * ra), 0.3), 1)
    glow = ((tmax + 273.16) ** 4 + (tmin + 273.16) ** 4) / 2
    rnl = 4.901e-9 * (1.35 * clear - 0.35) * (0.34 - 0.14 * math.sqrt(ea)) * glow
    warm = 0.408 * slope * (0.77 * rs - rnl)
    drying = gamma * 900 * u2 * max(es - ea, 0) / (tmean + 273)
    eto: float = (warm + drying) / (slope + gamma * (0.34 * u2 + 1))
    return max(eto, 0.0)


def _loop_inputs(weather: Weather, n: int) -> list[tuple[float, ...]]:
    """The first n elements as plain numbers; making them is not part of the loop."""
    rows = -(-n // N_STATIONS)
    full = [
        np.broadcast_to(one[:rows], (rows, N_STATIONS))
        for one in (
            weather["tmax_degc"],
            weather["tmin_degc"],
            weather["vapour_pressure_kpa"],
            weather["radiation_mj_per_m2_day"],
            weather["wind_2m_m_per_s"],
        )
    ]
    full.append(np.broadcast_to(weather["latitude_deg"], (rows, N_STATIONS)))
    full.append(np.broadcast_to(weather["elevation_m"], (rows, N_STATIONS)))
    full.append(
        np.broadcast_to(weather["day_of_year"][:rows, None], (rows, N_STATIONS))
    )
    return list(zip(*(one.ravel()[:n].tolist() for one in full), strict=True))


def whole_array_eto(weather: Weather) -> FloatArray:
    """The library called once on everything, without blocks and without checks."""
    return np.asarray(
        refet.Daily(
            tmin=weather["tmin_degc"],
            tmax=weather["tmax_degc"],
            rs=weather["radiation_mj_per_m2_day"],
            uz=weather["wind_2m_m_per_s"] * WIND_AS_IT_IS,
            zw=2.0,
            elev=weather["elevation_m"][None, :],
            lat=weather["latitude_deg"][None, :],
            doy=weather["day_of_year"][:, None],
            ea=weather["vapour_pressure_kpa"],
            method="asce",
        ).eto()
    )


def _seconds(call: Callable[[], object]) -> float:
    begin = time.process_time()
    call()
    return time.process_time() - begin


def run(*, json: bool) -> None:
    weather = made_up_weather(N_DAYS, N_STATIONS)
    # the library keeps a score of whole arrays; a tenth of the days (1.46 M elements,
    # far beyond any cache) shows the same time an element without filling the memory
    tenth = {
        name: one[: N_DAYS // 10] if len(one) == N_DAYS else one
        for name, one in weather.items()
    }
    inputs = _loop_inputs(weather, SAMPLE)
    n_all, n_tenth = N_DAYS * N_STATIONS, (N_DAYS // 10) * N_STATIONS
    against_loop, against_whole, seconds = [], [], []
    for _ in range(ROUNDS):  # interleaved, so that a busy moment meets all three
        loop = _seconds(lambda: [scalar_eto(*one) for one in inputs]) / SAMPLE
        ours = _seconds(lambda: penman_monteith_eto_mm_per_day(**weather))  # type: ignore[arg-type]
        whole = _seconds(lambda: whole_array_eto(tenth)) / n_tenth
        against_loop.append(loop / (ours / n_all))
        against_whole.append(whole / (ours / n_all))
        seconds.append(ours)
    report(
        "eto",
        [
            at_least(
                "scalar loop over adapter, CPU time an element",
                statistics.median(against_loop),
                60,
            ),
            at_least(
                "library on whole arrays over adapter, CPU time an element",
                statistics.median(against_whole),
                2,
            ),
            at_most(
                "CPU seconds of 40 years x 1,000 stations",
                statistics.median(seconds),
                0.4,
            ),
        ],
        as_json=json,
    )
