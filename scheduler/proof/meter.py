"""A site and its history in; plan against meter by interval, with causes, out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from scheduler.errors import Finding, Level
from scheduler.log import HandWater, MeterReading
from scheduler.proof.dial import DialInterval, dial_intervals
from scheduler.proof.meter_causes import Cause, Gap, likely_causes
from scheduler.proof.meter_water import (
    ZoneWater,
    frost_m3,
    hand_m3,
    zone_water,
    zones_of,
)
from scheduler.proof.told import NOT_RECORDED
from scheduler.record import History
from scheduler.said import date_text, day_text, signed
from scheduler.site import Site
from scheduler.supply import Window
from scheduler.trace import Trace
from scheduler.watering.clock import FULL_PERCENT


@dataclass(frozen=True, slots=True)
class MeterInterval:
    """Plan and meter between two readings.

    Attributes
    ----------
    dial : DialInterval
        The readings, and the water between them.
    zones : tuple of ZoneWater
        Zones that run through the meter.
    plan_m3 : float
        Minutes as told, times flow. [m3]
    logged_m3 : float
        What overrides, waterings and skips of the log make of it, more or less. [m3]
    low_m3, high_m3 : float
        Plan and log with flows at their lowest and highest. [m3]
    frost_m3, hand_m3 : float
        Water against frost and by hand, apart from the plan. [m3]
    is_frost_metered : bool
        False where frost water is minutes times flow.
    causes : tuple of Cause
        Why they differ, the likeliest first; empty within 10 %.
    trace : Trace
        Of `unexplained_m3`.
    is_off : bool
        More than 10 % is left over.
    """

    dial: DialInterval
    zones: tuple[ZoneWater, ...]
    plan_m3: float
    logged_m3: float
    low_m3: float
    high_m3: float
    frost_m3: float
    hand_m3: float
    is_frost_metered: bool
    causes: tuple[Cause, ...]
    trace: Trace
    is_off: bool = False

    @property
    def expected_m3(self) -> float:
        """Plan with what the log says, frost and hand water apart. [m3]."""
        return self.plan_m3 + self.logged_m3

    @property
    def net_m3(self) -> float | None:
        """Meter less frost and hand water. [m3]."""
        metered = self.dial.volume_m3
        return None if metered is None else metered - self.frost_m3 - self.hand_m3

    @property
    def unexplained_m3(self) -> float | None:
        """What neither plan, log, frost nor hand water explains. [m3]."""
        return None if self.net_m3 is None else self.net_m3 - self.expected_m3

    @property
    def off(self) -> float | None:
        """The unexplained as a part of what was expected."""
        if self.unexplained_m3 is None or self.expected_m3 <= 0:
            return None
        return self.unexplained_m3 / self.expected_m3

    @property
    def is_within_flows(self) -> bool:
        """Whether flows within their range explain the difference."""
        return self.net_m3 is not None and self.low_m3 <= self.net_m3 <= self.high_m3


@dataclass(frozen=True, slots=True)
class MeterTotal:
    """Sums over the intervals of one meter whose water is known. [m3]."""

    meter: str
    meter_m3: float
    plan_m3: float
    logged_m3: float
    frost_m3: float
    hand_m3: float

    @property
    def unexplained_m3(self) -> float:
        """What neither plan, log, frost nor hand water explains. [m3]."""
        known = self.plan_m3 + self.logged_m3 + self.frost_m3 + self.hand_m3
        return self.meter_m3 - known

    @property
    def off(self) -> float | None:
        """The unexplained as a part of what was expected."""
        expected = self.plan_m3 + self.logged_m3
        return self.unexplained_m3 / expected if expected > 0 else None


@dataclass(frozen=True, slots=True)
class PlanAgainstMeter:
    """All meters of a site, by meter and time, and what must be said."""

    intervals: tuple[MeterInterval, ...]
    findings: tuple[Finding, ...]

    @property
    def totals(self) -> tuple[MeterTotal, ...]:
        """One a meter, in the order of the intervals."""
        names = dict.fromkeys(one.dial.meter for one in self.intervals)
        return tuple(_total_of(name, self.intervals) for name in names)


def _total_of(name: str, intervals: Sequence[MeterInterval]) -> MeterTotal:
    own = [
        one
        for one in intervals
        if one.dial.meter == name and one.dial.volume_m3 is not None
    ]
    return MeterTotal(
        name,
        sum(one.dial.volume_m3 or 0.0 for one in own),
        *(
            sum(getattr(one, part) for one in own)
            for part in ("plan_m3", "logged_m3", "frost_m3", "hand_m3")
        ),
    )


def plan_against_meter(site: Site, history: History) -> PlanAgainstMeter:
    """What the meters say beside what was told and logged.

    Parameters
    ----------
    site : Site
        Zones, packages, pump and clock.
    history : History
        Tests, issued weeks and the log.

    Returns
    -------
    PlanAgainstMeter
        One interval a pair of readings.

    Notes
    -----
    A night belongs whole to the interval in which its evening lies. All heads at once,
    as against frost, draw no more than the pump gives.

    References
    ----------
    Source: definition (minutes x flow); more than 10 % off: common practice, no source.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> site = Site(name="Tern Hollow", units="us", place=place)
    >>> plan_against_meter(site, History()).intervals
    ()
    """
    dials, said = dial_intervals(history.log.of(MeterReading))
    made = [_interval(site, history, dial) for dial in dials]
    whole = [_with_causes(one, made, site) for one in made]
    findings = [
        *said,
        *_unknown(whole),
        *_gone(site, whole),
        *_hand_without_volume(history),
        *_read_at_night(site, dials),
        *_off(whole),
    ]
    return PlanAgainstMeter(tuple(whole), tuple(dict.fromkeys(findings)))


def _interval(site: Site, history: History, dial: DialInterval) -> MeterInterval:
    waters = tuple(
        zone_water(site, history, zone, dial) for zone in zones_of(site, dial.stop)
    )
    plan, ran, low, high = (
        float(sum(getattr(one, name) or 0.0 for one in waters))
        for name in ("told_m3", "ran_m3", "low_m3", "high_m3")
    )
    frost, is_read = frost_m3(site, history, dial)
    hand = hand_m3(history, dial, {one.zone for one in waters})
    trace = _trace(dial, waters, (plan, ran - plan, frost, hand))
    return MeterInterval(
        dial, waters, plan, ran - plan, low, high, frost, hand, is_read, (), trace
    )


# --- causes and findings ---------------------------------------------------------


def _with_causes(
    one: MeterInterval, every: Sequence[MeterInterval], site: Site
) -> MeterInterval:
    if one.net_m3 is None:
        return one
    beside = tuple(
        (other.dial.days, other.unexplained_m3, other.expected_m3)
        for other in every
        if other.dial.meter == one.dial.meter and other.unexplained_m3 is not None
    )
    gap = Gap(
        meter_m3=one.net_m3,
        expected_m3=one.expected_m3,
        low_m3=one.low_m3,
        high_m3=one.high_m3,
        days=one.dial.days,
        nights=len({night for zone in one.zones for night in zone.nights_on}),
        zone_m3={z.zone: z.ran_m3 for z in one.zones if z.ran_m3 is not None},
        zone_flow_l_per_min={
            z.zone: z.flow.flow_l_per_min for z in one.zones if z.flow
        },
        percent_adjust=_percent(site, one),
        is_shared=one.dial.stop.is_shared,
        beside=beside,
        apart_m3=one.frost_m3 + one.hand_m3,
    )
    causes = likely_causes(gap, site.units)
    return replace(one, causes=causes, is_off=gap.is_off)


def _percent(site: Site, one: MeterInterval) -> int:
    """Percent adjust of the clock of a meter's zones; 100 where clocks differ."""
    zones = [site.zone(each.zone) for each in one.zones]
    if not site.more_controllers:
        return site.controller.percent_adjust
    found = {site.controller_of(zone).percent_adjust for zone in zones if zone}
    return found.pop() if len(found) == 1 else FULL_PERCENT


def _off(intervals: Sequence[MeterInterval]) -> list[Finding]:
    """What is left over past 10 %, with what to look at first."""
    found = []
    for one in intervals:
        if not one.is_off:
            continue
        dial = one.dial
        says = "tells of water where none was planned"
        if one.off is not None:
            says = f"says {signed(one.off, '.0%')} against plan and log"
        what = f"meter {dial.meter!r} {says} from {day_text(dial.start.date)} to "
        what += date_text(dial.stop.date)
        if one.is_within_flows:
            what += ", which flows within their range would explain"
        fix = "no single cause explains it: read the meter zone by zone"
        if one.causes:
            fix = f"first {one.causes[0].name}: {one.causes[0].check}"
        level: Level = "note" if one.is_within_flows else "warning"
        found.append(Finding(level, dial.stop.where, what, fix))
    return found


def _unknown(intervals: Sequence[MeterInterval]) -> list[Finding]:
    """Zones without flow or minutes, and meters of which nobody said what runs."""
    found: dict[str, Finding] = {}
    for one in intervals:
        for zone in one.zones:
            if zone.flow is None and zone.ran_min:
                what = "has no flow (no nozzles, no cans), so its water is not counted"
                fix = "give its package nozzle_flow, or its heads and a bucket test"
                place = f"zone {zone.zone}"
                found[f"flow {zone.zone}"] = Finding("note", place, what, fix)
            if zone.ran_min is None or NOT_RECORDED in zone.sources:
                what = "nobody wrote down what the clock was told"
                fix = "write [zone.as_found], issue weeks, or record the waterings"
                found[f"told {zone.zone}"] = Finding(
                    "note", f"zone {zone.zone}", what, fix
                )
    meters: Mapping[str, MeterReading] = {o.dial.meter: o.dial.stop for o in intervals}
    for name, reading in meters.items():
        if not reading.zones and len(meters) > 1:
            what = f"meter {name!r} does not say which zones run through it"
            fix = "add the zones to a reading; all are taken"
            found[f"zones {name}"] = Finding("warning", reading.where, what, fix)
        if reading.is_shared:
            what = (
                f"meter {name!r} is shared: what is above the plan may be other water"
            )
            fix = "read it before and after a night without watering"
            found[f"shared {name}"] = Finding("note", reading.where, what, fix)
    return list(found.values())


def _gone(site: Site, intervals: Sequence[MeterInterval]) -> list[Finding]:
    """Zones of a meter that the site no longer has, once a meter."""
    ids = {zone.id.casefold() for zone in site.zones}
    found: dict[str, Finding] = {}
    for dial in (one.dial for one in intervals):
        gone = [one for one in dial.stop.zones if one.casefold() not in ids]
        if not gone or dial.meter in found:
            continue
        what = f"meter {dial.meter!r} serves {', '.join(gone)}, not in zones.toml: that"
        what += " water is counted as left over"
        fix = "give the meter's zones anew with the reading from which they hold"
        found[dial.meter] = Finding("warning", dial.stop.where, what, fix)
    return list(found.values())


def _hand_without_volume(history: History) -> list[Finding]:
    what = "water by hand has no volume, so it counts with none"
    fix = "add volume 130 gal, or what a bucket under the hose tells"
    return [
        Finding("note", one.where, what, fix)
        for one in history.log.of(HandWater)
        if one.volume_m3 is None
    ]


def _read_at_night(site: Site, dials: Sequence[DialInterval]) -> list[Finding]:
    """Meters that were read in the hours in which water may run."""
    read = {id(o): o for dial in dials for o in (dial.start, dial.stop)}
    found = []
    for one in read.values():
        if one.time is None or not any(_is_open(w, one.time) for w in site.windows):
            continue
        what = f"was read at {one.time:%H:%M}, when water may run: its night is split"
        fix = "read it in the day; a night counts whole on the side of its evening"
        found.append(Finding("note", one.where, f"meter {one.meter!r} {what}", fix))
    return found


def _is_open(window: Window, time: dt.time) -> bool:
    if window.start < window.end:
        return window.start <= time < window.end
    return time >= window.start or time < window.end


def _trace(
    dial: DialInterval,
    waters: Sequence[ZoneWater],
    parts: tuple[float, float, float, float],
) -> Trace:
    plan, logged, frost, hand = parts
    zones = tuple(
        Trace(
            f"plan_{one.zone}_m3",
            one.told_m3,
            "minutes as told x flow",
            "definition",
            (one.flow.trace,) if one.flow else (),
            f"{one.told_min or 0:.0f} min, {', '.join(one.sources)}",
        )
        for one in waters
    )
    metered = dial.volume_m3
    left = None if metered is None else metered - plan - logged - frost - hand
    source = "definition"
    return Trace(
        "unexplained_m3",
        left,
        "meter less plan, log, frost and hand water",
        source,
        (
            dial.trace,
            Trace("plan_m3", plan, "sum over the zones", source, zones),
            Trace("logged_m3", logged, "as logged less as told", source),
            Trace("frost_m3", frost, "as logged, else minutes x flow", source),
            Trace("hand_m3", hand, "as logged", source),
        ),
    )
