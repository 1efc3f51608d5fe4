"""A bed's soil, plants and watering nights in; plants and wet ground by the day out."""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, DateArray, FloatArray, IntArray, frozen
from scheduler.errors import Finding, SchedulerError
from scheduler.need.climate import Climate
from scheduler.need.dual import (
    EVAPORATION_DEPTH_M,
    Skin,
    cover_fraction,
    kc_max,
    skin_day,
    total_evaporable_mm,
)
from scheduler.plant import Plant
from scheduler.site import Soil
from scheduler.tables import read_table
from scheduler.tables.crops import crop_row
from scheduler.trace import Trace, entered
from scheduler.units import shown

# Air for which the tables are printed, FAO-56 p. 121
STANDARD_WIND_M_PER_S, STANDARD_RH_MIN = 2.0, 0.45
# days that are run once before the asked ones, so that the ground is as wet as this
# watering leaves it (common practice, no source)
RUN_IN_DAYS = 14
WEEK = 7
DUAL_SOURCE = "FAO-56 (1998) eq. 71 to 79, in the order of examples 31 and 35"


@dataclass(frozen=True, slots=True)
class Wetting:
    """When the ground of a zone is wetted.

    Attributes
    ----------
    open_weekdays : tuple of 7 bool
        Evenings on which watering may begin, Monday first.
    allowed_mm : float or None
        Depletion that calls for water; None where every open night waters. [mm]
    first_evening : int
        Day number of the first evening of a plan. [days since 1970-01-01]
    planned : tuple of bool
        Whether that evening and those after it water; others follow the above.
    """

    open_weekdays: tuple[bool, ...]
    allowed_mm: float | None
    first_evening: int = 0
    planned: tuple[bool, ...] = ()

    @property
    def text(self) -> str:
        """Which nights wet the ground, for traces."""
        if self.planned:
            return (
                f"the ground is wetted on the {sum(self.planned)} nights of a first "
                f"plan of {len(self.planned)}"
            )
        if self.allowed_mm is None:
            return "every allowed night wets the ground"
        return (
            "the ground is wetted on the allowed nights on which the mean position "
            f"would pass {_both(self.allowed_mm)} before the next one"
        )


@dataclass(frozen=True, slots=True, eq=False)
class DualDays:
    """Plants and ground day by day; all arrays are of shape (n_days,).

    Attributes
    ----------
    kcb, ke, most, cover : array
        Basal and evaporation coefficients, Kc max, share under leaves. [-]
    wind_2m_m_per_s, rh_min : array
        Air that Kc max was moved to. [m/s, -]
    is_wetted : array
        Whether the night before watered.
    """

    kcb: FloatArray
    ke: FloatArray
    most: FloatArray
    cover: FloatArray
    wind_2m_m_per_s: FloatArray
    rh_min: FloatArray
    is_wetted: BoolArray


@dataclass(frozen=True, slots=True, eq=False)
class DualUse:
    """What the evaporation from a bed rests on.

    Attributes
    ----------
    skin : Skin
        Evaporable water of the soil.
    height_m : float
        Height of the plants. [m]
    ground_cover : float or None
        Share under leaves as entered; None follows the basal coefficient. [-]
    inputs : tuple of Trace
        Where the evaporable water and the height came from.
    """

    skin: Skin
    height_m: float
    ground_cover: float | None
    climate: Climate
    wetting: Wetting
    inputs: tuple[Trace, ...]

    def days(
        self, kcb: FloatArray, eto_mm: FloatArray, rain_mm: FloatArray, dates: DateArray
    ) -> DualDays:
        """Evaporation coefficient of every day, after a run-in on the first ones."""
        days = dates.astype("datetime64[D]")
        wind, rh = self._air(days)
        most = kc_max(kcb, wind_2m_m_per_s=wind, rh_min=rh, height_m=self.height_m)
        cover = self._cover(kcb, most)
        bare = 1.0 - cover
        rows = np.stack([kcb, eto_mm, rain_mm, most, bare], axis=1)
        number = days.astype(np.int64)
        before = _walk(self, rows[:RUN_IN_DAYS], number[:RUN_IN_DAYS], _DRY)
        run = _walk(self, rows, number, before.end)
        return DualDays(
            frozen(kcb),
            frozen(run.ke),
            frozen(most),
            frozen(cover),
            frozen(wind),
            frozen(rh),
            frozen(run.is_wetted, np.bool_),
        )

    def _cover(self, kcb: FloatArray, most: FloatArray) -> FloatArray:
        if self.ground_cover is not None:
            return np.full(kcb.shape, self.ground_cover)
        return cover_fraction(kcb, most=most, height_m=self.height_m)

    def _air(self, days: DateArray) -> tuple[FloatArray, FloatArray]:
        """Wind and lowest humidity of every day: the mean of its month on record."""
        month = days.astype("datetime64[M]")
        wind = np.full(days.shape, STANDARD_WIND_M_PER_S)
        rh = np.full(days.shape, STANDARD_RH_MIN)
        for one in np.unique(month):
            begin, end = one.astype("datetime64[D]"), (one + 1).astype("datetime64[D]")
            air = self.climate.mean_on(np.arange(begin, end))
            if air is not None:
                wind[month == one] = air.wind_2m_m_per_s
                rh[month == one] = air.rh_min
        return wind, rh


@dataclass(frozen=True, slots=True)
class _Wetness:
    """How dry skin and root zone are, and what the last day used."""

    skin_mm: float
    root_mm: float
    used_mm: float


_DRY = _Wetness(float("inf"), 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class _Run:
    ke: list[float]
    is_wetted: list[bool]
    end: _Wetness


def _walk(use: DualUse, rows: FloatArray, number: IntArray, start: _Wetness) -> _Run:
    """Day by day: the night before waters or not, then the ground evaporates."""
    gone = min(start.skin_mm, use.skin.total_mm)
    root, used = start.root_mm, start.used_mm
    each_ke, each_wetted = [], []
    for day, (kcb, eto, rain, most, bare) in zip(
        number.tolist(), rows.tolist(), strict=True
    ):
        is_wetted = _is_watered(use.wetting, day - 1, root, used or kcb * eto)
        # a night's watering fills the root zone, and so at least its skin
        water = rain + (max(root, gone) if is_wetted else 0.0)
        _, ke, gone, _ = skin_day(gone, water, use.skin, (most, kcb, bare), eto)
        used = (kcb + ke) * eto
        root = max(root - water, 0.0) + used
        each_ke.append(ke)
        each_wetted.append(is_wetted)
    return _Run(each_ke, each_wetted, _Wetness(gone, root, used))


def _is_watered(wetting: Wetting, evening: int, root_mm: float, use_mm: float) -> bool:
    """Whether the night that begins on the evening of that day number waters."""
    since = evening - wetting.first_evening
    if 0 <= since < len(wetting.planned):
        return wetting.planned[since]
    # 1 January 1970, day number 0, was a Thursday
    opens, evening = wetting.open_weekdays, (evening + 3) % WEEK
    if not opens[evening] or wetting.allowed_mm is None:
        return opens[evening]
    ahead = next(n for n in range(1, WEEK + 1) if opens[(evening + n) % WEEK])
    return root_mm + ahead * use_mm > wetting.allowed_mm


def _both(depth_mm: float) -> str:
    return f"{shown(depth_mm, 'mm', 'metric')} ({shown(depth_mm, 'mm', 'us')})"


def dual_use(
    plant: Plant, soil: Soil, wetting: Wetting, climate: Climate, where: str
) -> tuple[DualUse | None, tuple[Finding, ...]]:
    """What the evaporation from a bed rests on.

    Parameters
    ----------
    plant : Plant
        With `dual`.
    soil : Soil
        Texture, or field capacity and wilting point.
    wetting : Wetting
        When the ground is wetted.
    climate : Climate
        Wind and lowest humidity.
    where : str
        The zone, as findings name it.

    Returns
    -------
    use : DualUse or None
        None where the evaporable water cannot be known; the findings then hold a stop.
    findings : tuple of Finding
        What was taken from a neighbouring texture, and air that is not known.

    Notes
    -----
    Sprinklers and rain wet all of the ground (FAO-56 Table 20). In all evaporable:
    equation 73 from entered water contents, else the middle of Table 19; readily: as
    entered, else the middle of Table 19.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 144, equation 73 and Table 19.

    Examples
    --------
    >>> from scheduler.site import Plant, Soil
    >>> lawn = Plant(name="lawn", crop="turf cool season", dual=True)
    >>> nightly = Wetting((True,) * 7, None)
    >>> use, _ = dual_use(lawn, Soil(texture="loam"), nightly, Climate(()), "zone Z1")
    >>> use.skin.total_mm, use.skin.readily_mm
    (19.0, 9.0)
    """
    try:
        total, readily, said = _evaporable(soil, where)
    except SchedulerError as refused:
        return None, (refused.finding(f"{where}: readily_evaporable"),)
    height = plant.height_m
    if height is not None:
        tall = entered("height_m", height, "zone.plant")
    else:
        assert plant.crop is not None, "the plant holds one of the two"
        row = crop_row(plant.crop)
        height = row.height_m
        tall = Trace("height_m", height, "of the grown crop", row.source)
    skin = Skin(_size(total), _size(readily))
    use = DualUse(
        skin, height, plant.ground_cover, climate, wetting, (total, readily, tall)
    )
    return use, (*said, *_no_air(climate, where))


def _no_air(climate: Climate, where: str) -> tuple[Finding, ...]:
    year = np.arange("2025-01-01", "2026-01-01", dtype="datetime64[D]")
    if climate.mean_on(year) is not None:
        return ()
    what = (
        "what wet ground can use at most is that of 2 m/s and 45 %: no station "
        "measured both wind and lowest humidity"
    )
    fix = "add wind and lowest humidity (or dew point) to a weather file"
    return (Finding("note", f"{where}: kc_max", what, fix),)


def _size(trace: Trace) -> float:
    assert isinstance(trace.value, float), "made here"
    return trace.value


def _evaporable(soil: Soil, where: str) -> tuple[Trace, Trace, tuple[Finding, ...]]:
    row = next(
        (
            one
            for one in read_table("evaporation.csv")
            if one["texture"] == soil.texture
        ),
        None,
    )
    said: tuple[Finding, ...] = ()
    if row is not None and row["row_of"] != soil.texture:
        what = f"FAO-56 Table 19 has no row for {soil.texture}: that of {row['row_of']}"
        fix = "enter readily_evaporable, field_capacity and wilting_point"
        said = (Finding("note", f"{where}: evaporable water", what, fix),)
    total, readily = _total(soil, row), _readily(soil, row)
    if _size(readily) >= _size(total):
        raise SchedulerError(
            f"{readily.value:g} mm evaporate readily, of {total.value:.1f} mm in all",
            "give readily_evaporable below that, or check field_capacity",
        )
    return total, readily, said


def _total(soil: Soil, row: dict[str, str] | None) -> Trace:
    full, dry = soil.field_capacity, soil.wilting_point
    if full is not None and dry is not None:
        return Trace(
            "total_evaporable_mm",
            total_evaporable_mm(full, dry),
            f"1000 (field_capacity - 0.5 wilting_point) x {EVAPORATION_DEPTH_M:g} m",
            "FAO-56 (1998) eq. 73",
            (
                entered("field_capacity", full, "[zone.soil]"),
                entered("wilting_point", dry, "[zone.soil]"),
            ),
        )
    assert row is not None, "the soil holds a texture or both numbers"
    return _of_table("total", row)


def _readily(soil: Soil, row: dict[str, str] | None) -> Trace:
    own = soil.readily_evaporable_mm
    if own is not None:
        return entered("readily_evaporable_mm", own, "[zone.soil]")
    if row is None:
        raise SchedulerError(
            "how much of the wet soil evaporates readily is not known",
            "give texture or readily_evaporable in [zone.soil] (2 to 7 mm in sand, "
            "8 to 12 mm in clay), or leave out dual",
        )
    return _of_table("readily", row)


def _of_table(which: str, row: dict[str, str]) -> Trace:
    low, high = float(row[f"{which}_low_mm"]), float(row[f"{which}_high_mm"])
    return Trace(
        f"{which}_evaporable_mm",
        (low + high) / 2.0,
        f"middle of the printed {low:g} to {high:g} mm for {row['row_of']}",
        row["source"],
    )
