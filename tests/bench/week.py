"""How long a week of many zones takes, and that cost grows with their number."""

import datetime as dt
import statistics
import time

import numpy as np

from scheduler.plan import build_week
from scheduler.record import CanRun, CanTest, DailySeries, History
from scheduler.site import AsFound, Package, Place, Plant, Pots, Site, Soil, Zone
from tests.bench.harness import Ratio, at_most, report

TODAY = dt.date(2026, 6, 8)
SEEDS = range(5)


def _weather(rng: np.random.Generator) -> DailySeries:
    """Two years of days with a plain yearly swing (made up for the bench)."""
    date = np.datetime64("2025-01-01") + np.arange(730)
    swing = np.sin(2 * np.pi * (np.arange(730) - 100) / 365)
    unknown = np.full(730, np.nan)
    return DailySeries(
        name="bench",
        where="weather/bench.csv",
        is_typical_year=False,
        wind_height_m=2.0,
        latitude_deg=36.0,
        elevation_m=270.0,
        date=date,
        tmax_degc=20 + 10 * swing + rng.normal(0, 1, 730),
        tmin_degc=9 + 10 * swing + rng.normal(0, 1, 730),
        rh_max=np.full(730, 0.9),
        rh_min=np.full(730, 0.5),
        rh_mean=unknown,
        dew_point_degc=unknown,
        vapour_pressure_kpa=unknown,
        radiation_mj_per_m2_day=12 + 6 * swing,
        sunshine_h=unknown,
        wind_m_per_s=np.full(730, 2.0),
        rain_mm=np.where(rng.random(730) < 0.25, 6.0, 0.0),
        eto_mm_per_day=unknown,
        line=tuple(range(2, 732)),
    )


def _test(zone: str, rng: np.random.Generator) -> CanTest:
    reading = np.round(rng.normal(55, 11, (4, 6)).clip(5))
    run = CanRun(
        name="run1",
        where=f"tests/{zone}/run1.csv",
        reading=reading,
        code=(("",) * 6,) * 4,
        label=tuple(tuple(f"{c}{r}" for c in "ABCDEF") for r in range(1, 5)),
        unit="ml",
        minutes=30.0,
    )
    date = dt.date(2026, 5, 12)
    return CanTest(zone, run.where, zone, date, "as found", 91.5, (run,))


def synthetic_site(n_zones: int, seed: int) -> tuple[Site, History]:
    """A site of pots and soil in turn, every zone tested."""
    rng = np.random.default_rng(seed)
    plant = Plant(name="shrubs", kc=0.9, kc_area="bed")
    zones = []
    for i in range(n_zones):
        in_pots = i % 2 == 0
        zones.append(
            Zone(
                id=f"Z{i}",
                name=f"block {i}",
                area_m2=1000.0,
                package="p",
                grown_in="pots" if in_pots else "soil",
                watered="every allowed day" if in_pots else "when due",
                plant=plant,
                pots=Pots(
                    top_diameter_mm=267.0, capture_factor=1.2, available_water_ml=1500.0
                )
                if in_pots
                else None,
                soil=None if in_pots else Soil(texture="loam", root_depth_m=0.4),
                as_found=AsFound(minutes=24.0),
            )
        )
    package = Package(id="p", nozzle_flow_l_per_min=19.0, spacing_m=9.144)
    place = Place(
        latitude_deg=36.0, longitude_deg=-80.0, elevation_m=270.0, time_zone="UTC"
    )
    site = Site(
        name="bench",
        units="metric",
        place=place,
        zones=tuple(zones),
        packages=(package,),
    )
    tests = tuple(_test(zone.id, rng) for zone in zones)
    return site, History(tests=tests, weather=(_weather(rng),))


def _seconds(n_zones: int, seed: int) -> float:
    """CPU time of one plan; long enough for one call to be timed by itself."""
    site, history = synthetic_site(n_zones, seed)
    begin = time.process_time()
    build_week(site, history, TODAY)
    return time.process_time() - begin


def run(*, json: bool) -> None:
    small, growth = [], []
    _seconds(20, 0)  # what is imported on the first call is not the zones' cost
    for seed in SEEDS:
        small.append(_seconds(200, seed))
        growth.append(_seconds(5000, seed) / small[-1] / 25)
    ratios: list[Ratio] = [
        at_most("CPU seconds of 200 zones in one call", statistics.median(small), 1.0),
        at_most("cost a zone, 5,000 over 200 zones", statistics.median(growth), 1.2),
    ]
    report("week", ratios, as_json=json)
