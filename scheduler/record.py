"""What happened at a site: catch-can tests, weather, rain, wind, issued weeks."""

import datetime as dt
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from scheduler.arrays import DateArray, FloatArray, IntArray, frozen
from scheduler.errors import Finding

# issued weeks have a room of their own and are known from here as well
from scheduler.issued import IssuedRun as IssuedRun
from scheduler.issued import IssuedWeek as IssuedWeek
from scheduler.issued import IssuedZone as IssuedZone
from scheduler.log import Log
from scheduler.units import UNITS, converted

CanUnit = Literal["ml", "fl_oz", "mm", "in"]
Code = Literal["", "-", "k", "l", "o"]
CODES: dict[str, str] = {
    "-": "no reading",
    "k": "knocked over",
    "l": "leaf or canopy in the way",
    "o": "overflowed at the rim",
}


@dataclass(frozen=True, slots=True)
class Exclusion:
    """One can left out of a run, with the physical reason for it."""

    row: int
    column: int
    reason: str


@dataclass(frozen=True, slots=True, eq=False)
class CanRun:
    """Readings of one run, laid out as the cans stood.

    Attributes
    ----------
    reading : array of shape (n_rows, n_columns)
        Readings as typed, NaN where there is none. [unit of `unit`]
    code : tuple of tuple of str
        Per place: empty for a reading, else a key of `CODES`; same shape.
    label : tuple of tuple of str
        Per place: the name of the can, such as `A3`; same shape.
    line : tuple of tuple of int
        Per place: its line of the file; same shape, or empty where there are no lines.
    """

    name: str
    where: str
    reading: FloatArray
    code: tuple[tuple[Code, ...], ...]
    label: tuple[tuple[str, ...], ...]
    unit: CanUnit
    minutes: float | None
    start: dt.datetime | None = None
    pressure_kpa: float | None = None
    wind_m_per_s: float | None = None
    excluded: tuple[Exclusion, ...] = ()
    line: tuple[tuple[int, ...], ...] = ()

    def place(self, row: int, column: int) -> str:
        """A can as findings name it: `tests/a/run1.csv:3: can B3`."""
        line = f":{self.line[row][column]}" if self.line else ""
        return f"{self.where}{line}: can {self.label[row][column]}"


@dataclass(frozen=True, slots=True)
class StatedResult:
    """A result somebody reported without its readings."""

    du_lq: float
    net_rate_mm_per_h: float | None
    source: str


@dataclass(frozen=True, slots=True)
class CanLayout:
    """How the cans of a test stood on the ground, as far as it was written down.

    Attributes
    ----------
    can_spacing_m, row_spacing_m : float or None
        From can to can along a row, and from row to row. [m]
    row_bearing_deg : float or None
        Compass bearing of a walk along a row, from its first can to its last. [deg]
    heads : tuple of (row, column)
        Heads in can places, as an array is counted: the first can stands at (0, 0).
    has_corner_heads : bool
        Heads stand half a can beyond the four corner cans.
    edge_rows, edge_columns : tuple of int
        Rows and columns along the edge of the block, the first one being 0.
    """

    can_spacing_m: float | None = None
    row_spacing_m: float | None = None
    row_bearing_deg: float | None = None
    heads: tuple[tuple[float, float], ...] = ()
    has_corner_heads: bool = False
    edge_rows: tuple[int, ...] = ()
    edge_columns: tuple[int, ...] = ()


HeadPlace = Literal[
    "first", "middle", "last", "highest", "lowest", "head", "valve", "pump",
    "regulator inlet",
]  # fmt: skip
# Places that are no nozzle: they count in no spread between heads.
LINE_PLACES = ("valve", "pump", "regulator inlet")


@dataclass(frozen=True, slots=True)
class PressureReading:
    """One gauge reading, at a head or on the line before it.

    Attributes
    ----------
    name : str
        The head as findings name it, such as `head 3`, `first head` or `valve`.
    rise_m : float or None
        How high the place lies above the valve; below 0 where it lies deeper. [m]
    run : str or None
        The run it belongs to; None for all runs of the test.
    """

    where: str
    name: str
    place: HeadPlace
    pressure_kpa: float
    is_static: bool = False
    rise_m: float | None = None
    run: str | None = None

    @property
    def is_running_head(self) -> bool:
        """Whether it tells what a nozzle had while water ran."""
        return not self.is_static and self.place not in LINE_PLACES


@dataclass(frozen=True, slots=True)
class BucketFlow:
    """One head's water caught in a bucket, through a hose over the nozzle.

    Attributes
    ----------
    new_flow_l_per_min : float or None
        Flow of a new nozzle, at `new_pressure_kpa` or else at the package's pressure.
    nozzle_mm : float or None
        Bore of a new nozzle, as stamped. [mm]
    """

    where: str
    name: str
    place: HeadPlace
    volume_l: float
    seconds: float
    pressure_kpa: float | None = None
    new_flow_l_per_min: float | None = None
    new_pressure_kpa: float | None = None
    nozzle_mm: float | None = None
    run: str | None = None

    @property
    def flow_l_per_min(self) -> float:
        """Volume over time, in litres a minute."""
        return self.volume_l / self.seconds * 60.0


@dataclass(frozen=True, slots=True)
class MeterCard:
    """A water meter read before and after a run.

    Attributes
    ----------
    start, stop : float
        The dial as read, in `unit`, before `multiplier`.
    digits : int or None
        Whole digits on the dial, for a roll-over.
    minutes : float or None
        Between the two readings; None for those of the run.
    other_zones : tuple of str
        Zones that ran through the same meter meanwhile.
    """

    where: str
    start: float
    stop: float
    unit: str
    multiplier: float | None = None
    digits: int | None = None
    minutes: float | None = None
    other_zones: tuple[str, ...] = ()
    run: str | None = None


@dataclass(frozen=True, slots=True, eq=False)
class CanTest:
    """One catch-can test of one zone on one date: a folder under `tests/`."""

    name: str
    where: str
    zone: str
    date: dt.date
    condition: str
    mouth_area_cm2: float | None
    runs: tuple[CanRun, ...] = ()
    stated: StatedResult | None = None
    capacity_ml: float | None = None
    note: str = ""
    # the package that stood there; None means that of the zone
    package: str | None = None
    layout: CanLayout = CanLayout()
    pressures: tuple[PressureReading, ...] = ()
    flows: tuple[BucketFlow, ...] = ()
    meter: MeterCard | None = None


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a station's days come from.

    Attributes
    ----------
    reference : str
        Which reference the ET is for that the file itself reports; `unsaid` where
        neither the column nor the site tells.
    alfalfa_over_grass : float or None
        Alfalfa reference over grass reference, where the station's keeper gives it.
    issued : date or None
        Day on which a forecast was made; None for what was measured.
    """

    reference: Literal["grass", "alfalfa", "unsaid"] = "grass"
    alfalfa_over_grass: float | None = None
    distance_km: float | None = None
    issued: dt.date | None = None


@dataclass(frozen=True, slots=True, eq=False)
class DailySeries:
    """Daily weather of one station, NaN where nothing was measured.

    Attributes
    ----------
    date : array of shape (n_days,)
        Days, ascending, each once; gaps are allowed. [datetime64[D]]
    tmax_degc, tmin_degc : array of shape (n_days,)
        Air temperature. [degc]
    rh_max, rh_min, rh_mean : array of shape (n_days,)
        Relative humidity, 0 to 1.
    dew_point_degc, vapour_pressure_kpa : array of shape (n_days,)
        Humidity as dew point [degc] or vapour pressure [kpa].
    radiation_mj_per_m2_day, sunshine_h, wind_m_per_s : array of shape (n_days,)
        Global radiation, bright sunshine, wind at `wind_height_m`.
    rain_mm, eto_mm_per_day : array of shape (n_days,)
        Rain, and reference ET that the station itself reports, as `origin` says.
    """

    name: str
    where: str
    is_typical_year: bool
    wind_height_m: float | None
    latitude_deg: float
    elevation_m: float
    date: DateArray
    tmax_degc: FloatArray
    tmin_degc: FloatArray
    rh_max: FloatArray
    rh_min: FloatArray
    rh_mean: FloatArray
    dew_point_degc: FloatArray
    vapour_pressure_kpa: FloatArray
    radiation_mj_per_m2_day: FloatArray
    sunshine_h: FloatArray
    wind_m_per_s: FloatArray
    rain_mm: FloatArray
    eto_mm_per_day: FloatArray
    # days that are not in the file (gap) read as NaN; `line` is the file line of a day
    line: tuple[int, ...] = ()
    origin: Origin = Origin()


@dataclass(frozen=True, slots=True, eq=False)
class RainSeries:
    """The site's own rain gauge.

    Attributes
    ----------
    date : array of shape (n_days,)
        Days with a reading; a day that is missing is unknown, not dry. [datetime64[D]]
    rain_mm : array of shape (n_days,)
        Rain of that day. [mm]
    """

    where: str
    date: DateArray
    rain_mm: FloatArray


def _no_lines() -> IntArray:
    return frozen(np.zeros(0), np.int64)


@dataclass(frozen=True, slots=True, eq=False)
class WindLog:
    """Wind as a logger wrote it, one row an interval.

    Attributes
    ----------
    start_utc : array of shape (n_rows,)
        Start of each interval. [datetime64[s]]
    interval_s : float
        Length of every interval. [s]
    speed_m_per_s : array of shape (n_rows,)
        Mean speed of the interval, NaN where missing. [m/s]
    gust_m_per_s : array of shape (n_rows,)
        Highest speed within the interval, NaN where missing. [m/s]
    direction_deg : array of shape (n_rows,)
        Where the wind comes from, clockwise from north, NaN where missing. [deg]
    height_m : float or None
        Height of the sensor above the ground; None when nobody said. [m]
    name, where : str
        The logger, and its file as the user knows it.
    findings : tuple of Finding
        What was found in the rows.
    clock, time_zone : str
        The clock that the log was read with, and the zone of the site.
    clock_is_confirmed : bool
        Somebody compared the logger with a watch.
    line : array of shape (n_rows,)
        File line of each row; empty when there is no file.
    unit : str
        Unit of the speeds in the file, for quoting them as they were written.
    """

    start_utc: DateArray
    interval_s: float
    speed_m_per_s: FloatArray
    gust_m_per_s: FloatArray
    direction_deg: FloatArray
    height_m: float | None
    name: str
    where: str
    findings: tuple[Finding, ...] = ()
    clock: str = "utc"
    time_zone: str = "UTC"
    clock_is_confirmed: bool = False
    line: IntArray = field(default_factory=_no_lines)
    unit: str = "m_per_s"

    def place(self, row: int, column: str = "") -> str:
        """Place of a row as the user knows it, such as `wind/mast.csv:7: gust`."""
        at = (
            f"{self.where}:{self.line[row]}"
            if self.line.size
            else f"{self.where}: {str(self.start_utc[row]).replace('T', ' ')} UTC"
        )
        return f"{at}: {column}" if column else at

    def as_written(self, speed_m_per_s: float) -> str:
        """A speed in the unit of the file, such as `1048 mph`."""
        size = converted(speed_m_per_s, "m_per_s", to=self.unit)
        return f"{size:.4g} {UNITS[self.unit].label}"


@dataclass(frozen=True, slots=True, eq=False)
class History:
    """Everything that happened, as read from the site folder."""

    tests: tuple[CanTest, ...] = ()
    weather: tuple[DailySeries, ...] = ()
    rain: RainSeries | None = None
    issued: tuple[IssuedWeek, ...] = field(default=())
    wind: tuple[WindLog, ...] = ()
    log: Log = field(default_factory=Log)
