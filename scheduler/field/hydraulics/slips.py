"""Two rates that do not agree in; likely causes with their arithmetic out."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from scheduler.field.catch import Catch
from scheduler.field.hydraulics.gross import GrossRate
from scheduler.field.hydraulics.laws import pressure_ratio
from scheduler.field.hydraulics.meter import MeterCheck
from scheduler.units import ML_PER_US_FL_OZ, UNITS, System, converted, shown

# A slip of a factor is named where it brings the two within this of each other.
NEAR = math.log(1.25)
# Common practice, no source: cans catch 70 to 100 % of what the nozzles deliver.
NET_LOW, NET_HIGH = 0.7, 1.0
MULTIPLIERS = (10.0, 100.0, 1000.0)
DIALS = ("gal", "ft3", "m3", "l", "kgal")
# A dial step above this part of the volume is too coarse for the run.
COARSE = 0.05
# Beyond these, pressure or wear alone is no likely cause (common practice, no source).
LEAST, MOST = 0.6, 1.5


@dataclass(frozen=True, slots=True)
class Cause:
    """One likely cause: its name, and the arithmetic that speaks for it."""

    name: str
    why: str


def meter_slips(
    meter: MeterCheck, wanted_mm_per_h: float, units: System
) -> tuple[Cause, ...]:
    """Slips of a factor that would bring the meter to the wanted rate, nearest first.

    Parameters
    ----------
    meter : MeterCheck
        What the meter says.
    wanted_mm_per_h : float
        What the others say. [mm/h]
    units : {'us', 'metric'}
        Units of the texts.

    Returns
    -------
    tuple of Cause
        Multipliers of ten and mixed units within a quarter of the wanted factor.

    References
    ----------
    Source: definition (exact factors of the units).

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.field.hydraulics.meter import meter_check
    >>> from scheduler.record import CanTest, MeterCard
    >>> from scheduler.site import Zone
    >>> card = MeterCard("t", 100.0, 110.0, "m3", minutes=60.0)
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None, meter=card)
    >>> zone = Zone(id="Z1", name="yard", area_m2=10000.0, grown_in="soil",
    ...             watered="off")
    >>> meter, _ = meter_check(test, zone, None, units="metric")
    >>> meter_slips(meter, 10.0, "metric")[0].name
    'multiplier'
    """
    rate = meter.rate_mm_per_h
    if not rate:
        return ()
    wanted = math.log(wanted_mm_per_h / rate)
    found: list[tuple[float, Cause]] = []
    for factor, name, words in _factors(meter):
        off = abs(wanted - math.log(factor))
        if off <= NEAR and off < abs(wanted):
            made = shown(rate * factor, "mm_per_h", units)
            found.append((off, Cause(name, f"{words}: it would read {made}")))
    return tuple(cause for _, cause in sorted(found, key=lambda one: one[0]))


def _factors(meter: MeterCheck) -> Iterator[tuple[float, str, str]]:
    now = meter.card.multiplier or 1.0
    for by in MULTIPLIERS:
        yield by, "multiplier", f"a multiplier of {now * by:g} where {now:g} was used"
        yield (
            1 / by,
            "multiplier",
            f"a multiplier of {now / by:g} where {now:g} was used",
        )
    typed = meter.card.unit
    for unit in DIALS:
        factor = converted(1.0, unit, to=typed)
        if unit != typed and factor not in (
            *MULTIPLIERS,
            *(1 / m for m in MULTIPLIERS),
        ):
            words = f"a dial in {UNITS[unit].label}, entered as {UNITS[typed].label}"
            yield factor, "unit", words
    yield 60.0, "minutes", "hours entered as minutes"


def meter_causes(
    meter: MeterCheck, gross: GrossRate, wanted_mm_per_h: float, units: System
) -> tuple[Cause, ...]:
    """Why a meter does not say what the others say, likeliest first.

    Parameters
    ----------
    meter : MeterCheck
        What the meter says.
    gross : GrossRate
        What the nozzles deliver.
    wanted_mm_per_h : float
        What the others say. [mm/h]
    units : {'us', 'metric'}
        Units of the texts.

    Returns
    -------
    tuple of Cause
        Slips of a factor, then leaks or other zones, coarse dials, area and minutes.

    References
    ----------
    .. [1] Common practice, no source: meter and plan agree within 10 %.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.field.hydraulics.gross import best_gross_rate
    >>> from scheduler.field.hydraulics.meter import meter_check
    >>> from scheduler.record import CanTest, MeterCard
    >>> from scheduler.site import Zone
    >>> card = MeterCard("t", 100.0, 165.0, "m3", minutes=60.0)
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None, meter=card)
    >>> zone = Zone(id="Z1", name="yard", area_m2=5000.0, grown_in="soil",
    ...             watered="off")
    >>> meter, _ = meter_check(test, zone, None, units="metric")
    >>> gross = best_gross_rate(test, None, None)
    >>> [one.name for one in meter_causes(meter, gross, 10.0, "metric")][:2]
    ['other zones on', 'leak']
    """
    rate, flow = meter.rate_mm_per_h, meter.flow_l_per_min
    if not rate or not flow:
        return ()
    causes = list(meter_slips(meter, wanted_mm_per_h, units))
    causes += _coarse(meter, units)
    if rate > wanted_mm_per_h:
        causes += _too_much(meter, gross, wanted_mm_per_h, units)
    else:
        causes += _too_little()
    causes += _area(meter, gross, units)
    if meter.minutes is not None:
        right = meter.minutes * rate / wanted_mm_per_h
        why = f"{right:.0f} min between the readings instead of {meter.minutes:g}"
        causes.append(Cause("minutes", f"{why} would bring it right"))
    return tuple(causes)


def _too_much(
    meter: MeterCheck, gross: GrossRate, wanted: float, units: System
) -> Iterator[Cause]:
    flow, rate = meter.flow_l_per_min or 0.0, meter.rate_mm_per_h or 1.0
    lost = flow * (1.0 - wanted / rate)
    said = f"{shown(lost, 'l_per_min', units)} of {shown(flow, 'l_per_min', units)}"
    if meter.card.other_zones:
        names = " and ".join(meter.card.other_zones)
        yield Cause("other zones on", f"{names} ran too: {said} would be theirs")
        return
    yield Cause("other zones on", f"another zone or a hose on the same meter: {said}")
    nozzles = "the nozzles" if gross.basis == "buckets" else "the package's nozzles"
    part = f"{100 * (1.0 - wanted / rate):.0f} %"
    yield Cause("leak", f"{said} ({part}) does not come out of {nozzles}")
    if gross.basis != "buckets":
        yield Cause(
            "worn nozzles", "nozzles that give more than new; catch some in a bucket"
        )


def _coarse(meter: MeterCheck, units: System) -> Iterator[Cause]:
    card = meter.card
    step = converted(card.multiplier or 1.0, card.unit, to="m3")
    whole = float(card.start).is_integer() and float(card.stop).is_integer()
    if whole and step > COARSE * meter.volume_m3:
        volume = shown(meter.volume_m3, "m3", units)
        part = f"{100 * (step / meter.volume_m3):.0f} % of {volume}"
        yield Cause("coarse dial", f"one step of the dial is {part}; read it longer")


def _too_little() -> Iterator[Cause]:
    yield Cause("heads shut", "heads or a row shut off or clogged, which no bucket met")
    yield Cause("slow meter", "an old meter reads low, most of all at low flow")


def _area(meter: MeterCheck, gross: GrossRate, units: System) -> Iterator[Cause]:
    """The same flow a head, another rate: then area, spacing or count is wrong."""
    each, ground = meter.flow_per_head_l_per_min, gross.area_per_head_m2
    if each is None or ground is None or not gross.rate_mm_per_h or not meter.area_m2:
        return
    nozzle = gross.rate_mm_per_h * ground / 60.0
    by_heads = meter.area_m2 / (meter.heads or 1.0)
    if abs(each / nozzle - 1.0) > 0.1 or abs(by_heads / ground - 1.0) <= 0.1:
        return
    why = (
        f"a head gets {shown(each, 'l_per_min', units)} by the meter and "
        f"{shown(nozzle, 'l_per_min', units)} by the nozzles, but "
        f"{shown(by_heads, 'm2', units)} of the zone against "
        f"{shown(ground, 'm2', units)} by spacing"
    )
    yield Cause("area or spacing", why)


def can_causes(
    caught: Catch, wanted_mm_per_h: float, units: System
) -> tuple[Cause, ...]:
    """Why cans caught more or less than can be, likeliest first.

    Parameters
    ----------
    caught : Catch
        One run with its net rate.
    wanted_mm_per_h : float
        What the others say was delivered. [mm/h]
    units : {'us', 'metric'}
        Units of the texts.

    Returns
    -------
    tuple of Cause
        The mouth and the minutes that would be right, and slips of unit.

    References
    ----------
    .. [1] Common practice, no source: net is 70 to 100 % of gross.

    Examples
    --------
    >>> import numpy as np
    >>> from scheduler.field.catch import catch
    >>> from scheduler.record import CanRun
    >>> run = CanRun("1", "run1.csv", np.array([[50.0, 60.0, 40.0, 50.0]]),
    ...              (("", "", "", ""),), (("A1", "B1", "C1", "D1"),), "ml", 30.0)
    >>> [one.name for one in can_causes(catch(run, mouth_area_cm2=100.0), 5.0, "us")]
    ['mouth', 'minutes']
    """
    net = caught.net_rate_mm_per_h
    if not net:
        return ()
    ratio = net / wanted_mm_per_h
    causes = list(_unit_slips(caught, ratio))
    if caught.mouth_area_cm2 is not None and caught.run.unit in ("ml", "fl_oz"):
        causes += _mouth(caught.mouth_area_cm2, ratio, units)
    if caught.run.minutes is not None:
        low, high = (caught.run.minutes * ratio / part for part in (NET_HIGH, NET_LOW))
        causes.append(
            Cause(
                "minutes",
                f"{low:.0f} to {high:.0f} min of water instead of "
                f"{caught.run.minutes:g} would bring it right",
            )
        )
    if ratio < NET_LOW:
        causes.append(
            Cause("losses", "wind or heat took it, or cans stood under leaves")
        )
    return tuple(causes)


def _usual(ratio: float) -> bool:
    return NET_LOW <= ratio <= NET_HIGH


def _unit_slips(caught: Catch, ratio: float) -> Iterator[Cause]:
    slips = {
        "ml": (ML_PER_US_FL_OZ, "fluid ounces entered as mL"),
        "fl_oz": (1 / ML_PER_US_FL_OZ, "mL entered as fluid ounces"),
        "mm": (25.4, "inches entered as mm"),
        "in": (1 / 25.4, "mm entered as inches"),
    }
    factor, words = slips[caught.run.unit]
    if _usual(ratio * factor):
        yield Cause(
            "unit", f"{words}: the cans would have {100 * (ratio * factor):.0f} %"
        )


def _mouth(area_cm2: float, ratio: float, units: System) -> Iterator[Cause]:
    across = 20.0 * math.sqrt(area_cm2 / math.pi)
    for factor, words in ((0.25, "the radius entered as the diameter"),
                          (4.0, "the diameter entered as the radius")):  # fmt: skip
        if _usual(ratio * factor):
            yield Cause(
                "mouth", f"{words}: the cans would have {100 * (ratio * factor):.0f} %"
            )
            return
    low, high = (across * math.sqrt(ratio / part) for part in (NET_HIGH, NET_LOW))
    ends = f"{shown(low, 'mm', units, with_unit=False)} to {shown(high, 'mm', units)}"
    yield Cause(
        "mouth",
        f"a mouth of {ends} instead of {shown(across, 'mm', units)} would bring it "
        "right (inside of the mouth, not the base)",
    )


def nozzle_causes(
    gross: GrossRate,
    wanted_mm_per_h: tuple[float, float],
    units: System,
    *,
    shared_min: float | None = None,
) -> tuple[Cause, ...]:
    """Why the nozzles do not deliver what the others say, likeliest first.

    Parameters
    ----------
    gross : GrossRate
        What the nozzles deliver.
    wanted_mm_per_h : tuple of float
        Low and high end of what the others say. [mm/h]
    units : {'us', 'metric'}
        Units of the texts.
    shared_min : float, optional
        Minutes that cans and meter share: wrong ones move both alike. [min]

    Returns
    -------
    tuple of Cause
        Minutes, pressure, wear, spacing or the bucket.

    References
    ----------
    .. [1] Common practice, no source: replace nozzles above 10 % over new.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.field.hydraulics.gross import best_gross_rate
    >>> from scheduler.record import CanTest
    >>> from scheduler.site import Package
    >>> package = Package(id="p", nozzle_flow_l_per_min=18.0, spacing_m=10.0)
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None)
    >>> gross = best_gross_rate(test, None, package)
    >>> [one.name for one in nozzle_causes(gross, (13.0, 14.0), "metric")]
    ['pressure', 'worn nozzles', 'spacing']
    """
    rate = gross.rate_mm_per_h
    if rate is None:
        return ()
    low, high = wanted_mm_per_h
    middle = (low + high) / 2.0
    more = middle > rate
    causes = []
    if shared_min is not None:
        right = shared_min * middle / rate
        why = f"cans and meter share {shared_min:g} min; {right:.0f} min would put both"
        causes.append(Cause("minutes", f"{why} right"))
    is_near = LEAST < middle / rate < MOST
    if gross.basis == "nominal" and is_near:
        causes.append(_pressure(gross, middle / rate, units))
    if gross.basis == "buckets" and more:
        causes.append(
            Cause("bucket", "a hose that holds water back, or spills, reads low")
        )
    elif more and is_near:
        why = "worn nozzles give more than the package says; catch some in a bucket"
        causes.append(Cause("worn nozzles", why))
    elif gross.basis != "buckets" and not more:
        why = "clogged or smaller nozzles than in packages.toml; catch some in a bucket"
        causes.append(Cause("nozzle size", why))
    if gross.area_per_head_m2 is not None:
        ground = gross.area_per_head_m2
        ends = sorted((ground * rate / high, ground * rate / low))
        least = shown(ends[0], "m2", units, with_unit=False)
        said = f"{least} to {shown(ends[1], 'm2', units)}"
        why = f"{said} of ground a head instead of {shown(ground, 'm2', units)}"
        causes.append(Cause("spacing", f"{why} would bring it right"))
    return tuple(causes)


def _pressure(gross: GrossRate, factor: float, units: System) -> Cause:
    why = "the pressure at the heads was not read"
    if gross.nominal_pressure_kpa is not None:
        right = gross.nominal_pressure_kpa * pressure_ratio(factor)
        nominal = shown(gross.nominal_pressure_kpa, "kpa", units)
        why += f"; {shown(right, 'kpa', units)} instead of {nominal} would put it right"
    return Cause("pressure", why)
