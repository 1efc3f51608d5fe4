"""Two periods of a site in; its saving, raw and made comparable step by step, out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.log import Repair
from scheduler.proof.period import Period
from scheduler.proof.uniformity_change import UniformityChange
from scheduler.supply import Supply
from scheduler.trace import Trace, entered

# standard gravity and water of 1000 kg/m3
KWH_PER_M3_M = 1000.0 * 9.80665 / 3.6e6
# Below this part of ETo, rain leaves too little for a ratio (common practice, no
# source).
LEAST_INDEX = 0.1
SAME_DAYS = 0.03
# Periods that begin further apart in the year are of other growth (common practice, no
# source).
SAME_SEASON_DAYS, YEAR_DAYS = 14, 365


@dataclass(frozen=True, slots=True)
class Step:
    """Both periods made comparable in one more respect than in the step before.

    Attributes
    ----------
    key, name : str
        For machines, for people.
    before_m3, after_m3 : float or None
        Water; None where the step cannot be made. [m3]
    note : str
        What was done, or why it could not be.
    is_estimated : bool
        A number in it was not measured.
    """

    key: str
    name: str
    before_m3: float | None
    after_m3: float | None
    note: str
    is_estimated: bool = False

    @property
    def change(self) -> float | None:
        """After over before, less 1; below 0 where water was saved. [-]."""
        if not self.before_m3 or self.after_m3 is None:
            return None
        return self.after_m3 / self.before_m3 - 1.0


@dataclass(frozen=True, slots=True)
class Saving:
    """Before and after of a site.

    Attributes
    ----------
    steps : tuple of Step
        As metered, then at the same weather, without frost, on the same ground.
    actual : Step or None
        The last step, where both periods are metered and their weather measured.
    why_not : str
        Why no saving is claimed; empty where one is.
    changes : tuple of UniformityChange
        Zones that were tested before and after.
    potential : float or None
        Part of the water before that the better uniformity need not cost. [-]
    kwh_per_m3 : float or None
        Energy of pumping. [kWh/m3]
    work : tuple of Repair
        What was mended or changed from the start of one to the end of the other.
    trace : Trace
        Of the change that is claimed, or would be.
    """

    before: Period
    after: Period
    steps: tuple[Step, ...]
    actual: Step | None
    why_not: str
    changes: tuple[UniformityChange, ...]
    potential: float | None
    kwh_per_m3: float | None
    trace: Trace
    findings: tuple[Finding, ...] = ()
    work: tuple[Repair, ...] = ()

    def step(self, key: str) -> Step | None:
        """The step of that key, or None."""
        return next((one for one in self.steps if one.key == key), None)

    @property
    def potential_change(self) -> float | None:
        """The potential as a change: below 0 where less water is needed. [-]."""
        return None if self.potential is None else -self.potential

    def energy_kwh(self, step: Step) -> tuple[float | None, float | None]:
        """Energy of pumping the water of a step, before and after. [kWh]."""
        each = self.kwh_per_m3
        before, after = (
            None if water is None or each is None else water * each
            for water in (step.before_m3, step.after_m3)
        )
        return before, after


def saving(
    before: Period,
    after: Period,
    *,
    changes: Sequence[UniformityChange] = (),
    zone_m3: Mapping[str, float] | None = None,
    supply: Supply | None = None,
    findings: Sequence[Finding] = (),
) -> Saving:
    """What was saved from one period to the other, and what of it is proven.

    Parameters
    ----------
    before, after : Period
        With their areas, where the ground changed.
    changes : sequence of UniformityChange
        Tests before and after.
    zone_m3 : mapping of str to float, optional
        Water of each zone in `before`, for the potential; zones weigh alike without it.
    supply : Supply, optional
        Head and efficiency, for energy.
    findings : sequence of Finding
        What was said of the periods.

    Returns
    -------
    Saving
        Water at each step. The raw change is never what is claimed.

    Notes
    -----
    Water after is brought to the weather before by the ratio of reference ET; where
    rain is known, also by the ratio of ETo less the rain that weeks could use, and of
    the two the smaller saving goes on. Frost water is taken off both and not scaled.

    References
    ----------
    Source: definition; the choice of the smaller saving is common practice, no source.

    Examples
    --------
    >>> import datetime as dt
    >>> day = dt.date(2025, 1, 1)
    >>> old = Period(name="2025", start=day, stop=day, days=365, water_m3=2100.0,
    ...              eto_mm=24.0)
    >>> new = Period(name="2026", start=day, stop=day, days=365, water_m3=1550.0,
    ...              eto_mm=21.0)
    >>> [f"{one.change:.0%}" for one in saving(old, new).steps[:2]]
    ['-26%', '-16%']
    """
    steps, factor = _weather_steps(before, after)
    steps[1:1] = _length_step(before, after)
    frost = _frost_step(before, after, factor)
    steps += [frost, _area_step(before, after, frost)]
    last = next(
        one for one in reversed(steps) if one.change is not None or one is frost
    )
    why_not = _why_not(before, after, factor)
    return Saving(
        before,
        after,
        tuple(steps),
        last if not why_not and last.change is not None else None,
        why_not,
        tuple(changes),
        _potential(changes, zone_m3),
        _kwh_per_m3(supply),
        _trace(before, after, last, factor),
        (*findings, *_findings(before, after)),
    )


def _weather_steps(before: Period, after: Period) -> tuple[list[Step], float | None]:
    """As metered, and at the same weather; the factor that water after is given."""
    estimated = not (before.is_metered and after.is_metered)
    raw = Step(
        "raw", "as metered" if not estimated else "as known",
        before.water_m3, after.water_m3,
        "not a saving: weather, frost and ground are in it", estimated,
    )  # fmt: skip
    unmeasured = not (before.weather_is_measured and after.weather_is_measured)
    is_rough = estimated or unmeasured
    eto = _ratio(before.eto_mm, after.eto_mm)
    if eto is None:
        note = "reference ET of one period is not known"
        return [raw, Step("weather", "at the same weather", None, None, note)], None
    found = [raw, _scaled("weather", "at the same ETo", before, after, eto, is_rough)]
    demand = _ratio(_demand(before), _demand(after))
    if demand is None:
        return found, eto
    name = "at the same ETo less rain"
    found.append(_scaled("weather and rain", name, before, after, demand, is_rough))
    return found, max(eto, demand)


def _scaled(
    key: str, name: str, before: Period, after: Period, factor: float, is_rough: bool
) -> Step:
    now = None if after.water_m3 is None else after.water_m3 * factor
    note = f"water after x {factor:.3f}, the ratio of both"
    return Step(key, name, before.water_m3, now, note, is_rough)


def _demand(one: Period) -> float | None:
    """ETo that rain left to the sprinklers; None where it is nearly nothing."""
    if one.eto_mm is None or one.rain_used_mm is None:
        return None
    left = one.eto_mm - one.rain_used_mm
    return left if left > LEAST_INDEX * one.eto_mm else None


def _ratio(before: float | None, after: float | None) -> float | None:
    return before / after if before and after else None


def _length_step(before: Period, after: Period) -> list[Step]:
    """Water a day, where the periods are not of one length."""
    if not before.days or not after.days or before.water_m3 is None:
        return []
    if abs(after.days / before.days - 1) <= SAME_DAYS or after.water_m3 is None:
        return []
    note = f"{before.days} days, then {after.days}; ETo takes care of it as well"
    return [
        Step(
            "a day", "a day", before.water_m3 / before.days,
            after.water_m3 / after.days, note,
            not (before.is_metered and after.is_metered),
        )
    ]  # fmt: skip


def _frost_step(before: Period, after: Period, factor: float | None) -> Step:
    name = "frost water apart"
    if before.water_m3 is None or after.water_m3 is None or factor is None:
        return Step("frost", name, None, None, "needs the steps before it")
    if any((one.water_m3 or 0.0) < one.frost_m3 for one in (before, after)):
        note = "more frost water than water: correct the log of the frost nights"
        return Step("frost", name, None, None, note)
    read = before.is_frost_metered and after.is_frost_metered
    note = "taken off both, ETo has no part in it"
    if not before.frost_m3 and not after.frost_m3:
        note = "none in the log"
    elif not read:
        note += "; its hours x flow, not metered"
    rough = not (before.is_metered and after.is_metered and read)
    rough |= not (before.weather_is_measured and after.weather_is_measured)
    return Step(
        "frost", name, before.water_m3 - before.frost_m3,
        (after.water_m3 - after.frost_m3) * factor, note, rough,
    )  # fmt: skip


def _area_step(before: Period, after: Period, frost: Step) -> Step:
    name = "on the same ground"
    if before.area_m2 is None or after.area_m2 is None:
        note = "taken as the same: nobody said that it changed"
        return Step("area", name, frost.before_m3, frost.after_m3, note, True)
    if frost.after_m3 is None:
        return Step("area", name, None, None, "needs the steps before it")
    factor = before.area_m2 / after.area_m2
    note = f"water after x {factor:.3f}, ground before over ground after"
    now = frost.after_m3 * factor
    return Step("area", name, frost.before_m3, now, note, frost.is_estimated)


def _why_not(before: Period, after: Period, factor: float | None) -> str:
    for one in (before, after):
        if one.water_m3 is None:
            return f"the water of {one.name} is not known"
        if not one.is_metered:
            return f"the water of {one.name} is an estimate, not metered"
        if one.water_m3 < one.frost_m3:
            return f"the log of {one.name} has more frost water than water"
    if factor is None:
        return "the weather of one period is not known"
    for one in (before, after):
        if not one.weather_is_measured:
            return (
                f"the ETo of {one.name} was not measured, so weather may be all of it"
            )
    return ""


def _potential(
    changes: Sequence[UniformityChange], zone_m3: Mapping[str, float] | None
) -> float | None:
    """Mean of the zones' potential, weighed by their water; others count with none."""
    if not changes:
        return None
    if not zone_m3 or not sum(zone_m3.values()):
        return sum(one.potential for one in changes) / len(changes)
    saved = sum(one.potential * zone_m3.get(one.zone, 0.0) for one in changes)
    return saved / sum(zone_m3.values())


def _kwh_per_m3(supply: Supply | None) -> float | None:
    if supply is None or supply.head_m is None or supply.pumping_efficiency is None:
        return None
    return KWH_PER_M3_M * supply.head_m / supply.pumping_efficiency


def _findings(before: Period, after: Period) -> tuple[Finding, ...]:
    found = []
    if before.area_m2 is None or after.area_m2 is None:
        what = "the ground before and after is taken as the same"
        fix = "give --area-before and --area-after if it changed"
        found.append(Finding("note", "zones.toml: area", what, fix))
    apart = abs(_day_of_year(before) - _day_of_year(after))
    if min(apart, YEAR_DAYS - apart) > SAME_SEASON_DAYS and before.water_m3 is not None:
        what = (
            f"{before.name} and {after.name} are not the same part of the year: plants "
            "grow between, and ETo does not know it"
        )
        fix = "compare the same months of two years"
        found.append(Finding("warning", "periods", what, fix))
    return tuple(found)


def _day_of_year(one: Period) -> int:
    return one.start.timetuple().tm_yday


def _trace(before: Period, after: Period, last: Step, factor: float | None) -> Trace:
    inputs = (*_inputs("before", before), *_inputs("after", after))
    areas = (entered("before_area_m2", before.area_m2),
             entered("after_area_m2", after.area_m2))  # fmt: skip
    ratio = Trace("weather_factor", factor, "the smaller saving of ETo, ETo less rain",
                  "common practice, no source")  # fmt: skip
    formula = "water after x weather x ground, frost apart, over water before, less 1"
    return Trace("change", last.change, formula, "definition", (*inputs, ratio, *areas))


def _inputs(name: str, one: Period) -> tuple[Trace, ...]:
    how = (
        ("metered", "measured") if one.is_metered else ("minutes x flow", "definition")
    )
    below = (one.trace,) if one.trace else ()
    weather = "measured" if one.weather_is_measured else "of other years"
    week = "of a week no more than its ETo"
    return (
        Trace(f"{name}_water_m3", one.water_m3, *how, below),
        Trace(f"{name}_eto_mm", one.eto_mm, "sum over the days", weather),
        Trace(
            f"{name}_rain_used_mm", one.rain_used_mm, week, "common practice, no source"
        ),
        Trace(f"{name}_frost_m3", one.frost_m3, "of the log", "entered"),
    )
