"""A meter card in; volume, flow and rate over the zone out, or why not."""

from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.field.hydraulics.gross import area_per_head_m2
from scheduler.record import CanTest, MeterCard
from scheduler.site import Package, Zone
from scheduler.trace import Trace, entered
from scheduler.units import UNITS, System, converted, shown

# Common practice, no source: a count of heads and a spacing agree within a tenth.
HEADS_AGREE = 0.10


@dataclass(frozen=True, slots=True)
class MeterCheck:
    """What the meter says of one run.

    Attributes
    ----------
    volume_m3 : float
        Water between the two readings. [m3]
    minutes : float or None
        Between the readings. [min]
    flow_l_per_min, rate_mm_per_h : float or None
        Of all that runs through it, and spread over the zone. [L/min], [mm/h]
    heads : float or None
        Heads of the zone: as entered, else area over the ground of one head.
    flow_per_head_l_per_min : float or None
        Flow over heads. [L/min]
    area_m2 : float or None
        Ground of the zone. [m2]
    is_rolled_over : bool
        The dial passed its last digit.
    has_run_minutes : bool
        Its minutes are those of the run.
    """

    volume_m3: float
    minutes: float | None
    flow_l_per_min: float | None
    rate_mm_per_h: float | None
    heads: float | None
    flow_per_head_l_per_min: float | None
    area_m2: float | None
    is_rolled_over: bool
    has_run_minutes: bool
    card: MeterCard
    trace: Trace | None


def meter_check(
    test: CanTest, zone: Zone | None, package: Package | None, *, units: System
) -> tuple[MeterCheck | None, tuple[Finding, ...]]:
    """Volume, flow and rate that the meter tells, with what must be said.

    Parameters
    ----------
    test : CanTest
        The test with its meter card.
    zone : Zone or None
        For the area.
    package : Package or None
        For the ground of one head.
    units : {'us', 'metric'}
        Units of the findings.

    Returns
    -------
    check : MeterCheck or None
        None where no volume can be told.
    findings : tuple of Finding
        Why not; a roll-over; minutes or area that are not known; heads and spacing
        that do not fit the area.

    References
    ----------
    Source: definition (volume over minutes over area).

    Examples
    --------
    >>> import datetime as dt
    >>> card = MeterCard("t", 99990.0, 20.0, "m3", digits=5, minutes=30.0)
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None, meter=card)
    >>> found, said = meter_check(test, None, None, units="metric")
    >>> found.volume_m3, found.is_rolled_over, found.flow_l_per_min
    (30.0, True, 1000.0)
    """
    card = test.meter
    if card is None:
        return None, ()
    said = list(_dial_findings(card))
    if any(one.level != "note" for one in said):
        return None, tuple(said)
    turned = card.stop < card.start
    dial = card.stop - card.start + (10.0 ** (card.digits or 0) if turned else 0.0)
    volume_l = converted(dial * (card.multiplier or 1.0), card.unit, to="l")
    minutes, why = _minutes(test, card)
    if minutes is None:
        fix = "write minutes in [meter], or run = the run it was read at"
        said.append(Finding("warning", card.where, why, fix))
    flow = volume_l / minutes if minutes else None
    area = zone.area_m2 if zone else None
    heads = _heads(zone, package)
    said += _heads_findings(zone, package, units)
    rate = flow / area * 60.0 if flow is not None and area else None
    return (
        MeterCheck(
            volume_m3=volume_l / 1000.0,
            minutes=minutes,
            flow_l_per_min=flow,
            rate_mm_per_h=rate,
            heads=heads,
            flow_per_head_l_per_min=flow / heads
            if flow is not None and heads
            else None,
            area_m2=area,
            is_rolled_over=turned,
            has_run_minutes=card.minutes is None,
            card=card,
            trace=_trace(card, volume_l / 1000.0, minutes, area, rate),
        ),
        tuple(said),
    )


def _dial_findings(card: MeterCard) -> list[Finding]:
    dial = f"start {card.start:.10g}, stop {card.stop:.10g}"
    if card.stop == card.start:
        what = f"the meter did not move ({dial})"
        fix = "read it again: stuck, on another line, or too coarse for this run"
        return [Finding("warning", card.where, what, fix)]
    if card.stop > card.start:
        return []
    if card.digits is None:
        what = f"the meter went backwards ({dial}), so it is not used"
        fix = (
            "if the dial rolled over, write digits = its whole digits; else correct it"
        )
        return [Finding("warning", card.where, what, fix)]
    whole = 10.0**card.digits
    if card.start >= whole:
        what = f"start {card.start:.10g} has more than {card.digits} digits"
        fix = "correct digits or start; the meter is not used"
        return [Finding("warning", card.where, what, fix)]
    turned, swapped = card.stop - card.start + whole, card.start - card.stop
    if turned > swapped:
        what = (
            f"the meter went backwards ({dial}): a roll-over of {card.digits} digits "
            f"would be {turned:.10g}, a swap of the two {swapped:.10g}, which is "
            "likelier"
        )
        fix = "swap start and stop, or correct digits; the meter is not used"
        return [Finding("warning", card.where, what, fix)]
    what = f"the dial rolled over ({dial}, {card.digits} digits): {turned:.10g} passed"
    return [Finding("note", card.where, what, "correct digits if this is wrong")]


def _minutes(test: CanTest, card: MeterCard) -> tuple[float | None, str]:
    if card.minutes is not None:
        return card.minutes, ""
    runs = [one for one in test.runs if card.run in (None, one.name)]
    if len(runs) > 1:
        return None, f"the meter card does not say which of {len(runs)} runs it is of"
    if not runs or runs[0].minutes is None:
        return None, "the minutes between the meter readings are not known"
    return runs[0].minutes, ""


def _heads(zone: Zone | None, package: Package | None) -> float | None:
    if zone is None:
        return None
    if zone.heads is not None:
        return zone.heads
    ground = area_per_head_m2(package, zone)
    return zone.area_m2 / ground if ground else None


def _heads_findings(
    zone: Zone | None, package: Package | None, units: System
) -> list[Finding]:
    ground = package.area_per_head_m2 if package else None
    if zone is None or zone.heads is None or ground is None:
        return []
    by_heads = zone.heads * ground
    if abs(by_heads / zone.area_m2 - 1.0) <= HEADS_AGREE:
        return []
    each, whole, area = (
        shown(one, "m2", units) for one in (ground, by_heads, zone.area_m2)
    )
    what = (
        f"{zone.heads:g} heads on {each} each make {whole}, and the zone has {area}: "
        "area, spacing or count is off"
    )
    fix = "tape the spacing, count the heads (a half circle is half a head)"
    return [Finding("warning", f"zone {zone.id}", what, fix)]


def _trace(
    card: MeterCard,
    volume_m3: float,
    minutes: float | None,
    area_m2: float | None,
    rate: float | None,
) -> Trace:
    label = UNITS[card.unit].label
    dial = f"{card.start:.10g} to {card.stop:.10g} {label} x {card.multiplier or 1.0:g}"
    others = ", ".join(card.other_zones)
    return Trace(
        "meter_rate_mm_per_h",
        rate,
        "metered volume over minutes over the zone's area",
        "measured",
        (
            Trace(
                "meter_volume_m3",
                volume_m3,
                "dial after less dial before, x multiplier",
                "measured",
                (),
                f"{card.where}: {dial}",
            ),
            entered("meter_minutes_min", minutes, card.where),
            entered("zone_area_m2", area_m2, "zones.toml"),
        ),
        f"a check only; other zones on: {others}" if others else "a check only",
    )
