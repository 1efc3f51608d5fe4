"""Small zones, logs and weather that several tests of the proof share."""

import datetime as dt
from collections.abc import Sequence

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.guess import ZoneCatch
from scheduler.issued import IssuedWeek
from scheduler.log import Entry, LeachingPot, Log, PotWeight
from scheduler.need.reference_et import Method, ReferenceET
from scheduler.need.zone_use import ZoneUse, zone_use
from scheduler.proof.nights import Nights
from scheduler.proof.past_days import PastDays
from scheduler.proof.zone_learning import Lessons, lessons_of
from scheduler.record import History, RainSeries
from scheduler.site import Place, Plant, Pots, Site, Zone
from scheduler.trace import entered

START = dt.date(2026, 4, 1)
TODAY = dt.date(2026, 6, 8)
DAY = dt.date(2026, 6, 3)
PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC"
)
POTS = Pots(top_diameter_mm=254.0, spacing_m=0.4, capture_factor=1.25)
HOLLY = Plant(name="hollies", kc=0.85, kc_area="bed", kc_from="a guess")
ETO_MM = 5.0
RATE_MM_PER_H = 12.0
# the six pots of a check in S-shape: 24 min, 38 % by volume, 12 to 61 %
SIX = {
    "E2": (232.0, 28.0),
    "H1": (262.0, 67.0),
    "B1": (325.0, 106.0),
    "A2": (344.0, 125.0),
    "B2": (394.0, 160.0),
    "C2": (463.0, 282.0),
}


def yard(**changes: object) -> Zone:
    """Pots under one valve, watered every night."""
    whole = Zone(
        id="Z4", name="yard", area_m2=900.0, grown_in="pots", plant=HOLLY, pots=POTS,
        watered="every allowed day", package="yard-30",
    )  # fmt: skip
    return whole.model_copy(update=changes)


def catch(
    share: Sequence[float] = (0.8, 0.9, 1.0, 1.3), date: dt.date | None = START
) -> ZoneCatch:
    """A test of a zone on a grid of 3 rows and 8 columns."""
    got = np.array(share)
    spots = np.arange(24)
    return ZoneCatch(
        zone="Z4", basis="measured", share=got / got.mean(), row=spots // 8,
        column=spots % 8, net_rate_mm_per_h=RATE_MM_PER_H, du_lq=0.8, du_lh=0.88,
        cu=0.8, n_cans=24, n_runs=1, test="t", condition="as found", date=date,
        rate_trace=entered("net_rate_mm_per_h", RATE_MM_PER_H),
        du_trace=entered("du_lq", 0.8),
    )  # fmt: skip


def station(
    eto_mm: float | FloatArray = ETO_MM,
    n_days: int = 120,
    *,
    typical: bool = False,
) -> ReferenceET:
    """Measured ETo of every day from the start."""
    first = np.datetime64(START, "D")
    stated: Method = "stated"
    return ReferenceET(
        name="county", is_typical_year=typical, date=first + np.arange(n_days),
        eto_mm_per_day=np.broadcast_to(np.asarray(eto_mm, float), n_days).copy(),
        method=tuple(stated for _ in range(n_days)), rain_mm=np.zeros(n_days),
        trace_note="",
    )  # fmt: skip


def dry_gauge(wet: dict[dt.date, float] | None = None, n_days: int = 120) -> RainSeries:
    """A gauge that was read each day."""
    date = np.datetime64(START, "D") + np.arange(n_days)
    rain = np.zeros(n_days)
    for day, depth in (wet or {}).items():
        rain[(day - START).days] = depth
    return RainSeries("rain.csv", date, rain)


def past_days(today: dt.date = TODAY, rain: RainSeries | None = None) -> PastDays:
    """ETo of 5 mm and no rain."""
    return PastDays([station()], rain or dry_gauge(), today)


def nights_of(
    zone: Zone, log: Log | None = None, issued: tuple[IssuedWeek, ...] = ()
) -> Nights:
    """The nights of a site with this zone."""
    site = Site(name="Tern Hollow", units="us", place=PLACE, zones=(zone,))
    return Nights(zone, site, History(log=log or Log(), issued=issued))


def use_of(zone: Zone) -> ZoneUse:
    """The zone's use as entered."""
    use, _ = zone_use(zone, np.array([TODAY], "datetime64[D]"))
    assert use is not None
    return use


def pots_of_check(
    volumes: dict[str, tuple[float, float]] | None = None,
    day: dt.date = DAY,
    minutes: float | None = 24.0,
    line: int = 10,
) -> tuple[LeachingPot, ...]:
    """Lines of one leaching check."""
    return tuple(
        LeachingPot(
            where=f"log.csv:{line + i}", typed="", date=day, time=dt.time(6, 50),
            zone="Z4", place=place, in_ml=came, out_ml=out, minutes=minutes,
        )
        for i, (place, (came, out)) in enumerate((volumes or SIX).items())
    )  # fmt: skip


def weight(
    place: str, hour: int, grams: float, day: dt.date = DAY, zone: str = "Z4"
) -> PotWeight:
    """One weighing."""
    return PotWeight(
        where=f"log.csv:{hour}", typed="", date=day, time=dt.time(hour), zone=zone,
        place=place, weight_g=grams,
    )  # fmt: skip


def lessons(
    *entries: Entry,
    today: dt.date = TODAY,
    zone: Zone | None = None,
    learn: bool = True,
    eto: ReferenceET | None = None,
    rain: RainSeries | None = None,
) -> Lessons:
    """What a site with one zone learns from these lines."""
    site = Site(
        name="Tern Hollow",
        units="us",
        place=PLACE,
        zones=(zone or yard(),),
        learn=learn,
    )
    history = History(log=Log(entries), rain=rain or dry_gauge())
    return lessons_of(site, history, [eto or station()], today)
