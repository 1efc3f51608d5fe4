"""An option in; what else changes with it (rate, minutes, flow, pressure), out."""

from dataclasses import dataclass

from scheduler.field.guess import ZoneCatch
from scheduler.money.energy import head_of_pressure_m
from scheduler.option import Option
from scheduler.season import ZoneSeason
from scheduler.site import Package, Site, Zone

MIN_PER_H = 60.0
# a rate that moves by less is the same
SAME = 0.005


@dataclass(frozen=True, slots=True)
class Changes:
    """What else changes in a zone; None where it cannot be told.

    Attributes
    ----------
    rate_now_mm_per_h, rate_then_mm_per_h : float or None
        Net rate; then from the new gross rate, of which the same part arrives. [mm/h]
    minutes_ratio : float or None
        Minutes then over minutes now, under the zone's own rule. [-]
    longest_night_now_min, longest_night_then_min : float or None
        Longest night of the season. [min]
    window_min : int or None
        Longest window that watering is allowed in. [min]
    flow_now_l_per_min, flow_then_l_per_min : float or None
        Flow of the zone at once: rate x area where heads are not counted. [L/min]
    pump_l_per_min : float or None
        What the pump gives. [L/min]
    pressure_now_kpa, pressure_then_kpa : float or None
        Pressure that the heads ask for. [kPa]
    """

    zone: str
    rate_now_mm_per_h: float | None
    rate_then_mm_per_h: float | None
    minutes_ratio: float | None
    longest_night_now_min: float | None
    longest_night_then_min: float | None
    window_min: int | None
    flow_now_l_per_min: float | None
    flow_then_l_per_min: float | None
    pump_l_per_min: float | None
    pressure_now_kpa: float | None
    pressure_then_kpa: float | None

    @property
    def changes_rate(self) -> bool:
        """Whether the rate is surely another than now."""
        now, then = self.rate_now_mm_per_h, self.rate_then_mm_per_h
        return now is not None and then is not None and abs(then / now - 1.0) > SAME

    @property
    def fits_pump(self) -> bool | None:
        """Whether the pump gives the flow; None where it cannot be told."""
        if self.flow_then_l_per_min is None or self.pump_l_per_min is None:
            return None
        return self.flow_then_l_per_min <= self.pump_l_per_min

    @property
    def fits_window(self) -> bool | None:
        """Whether the zone alone still fits its window; None where it is not known."""
        if self.longest_night_then_min is None or self.window_min is None:
            return None
        return self.longest_night_then_min <= self.window_min


def gross_rate_mm_per_h(package: Package | None) -> float | None:
    """Flow of a head over the ground that it waters.

    Parameters
    ----------
    package : Package or None
        With flow and spacing, where they are known.

    Returns
    -------
    float or None
        Gross rate. [mm/h]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> one = Package(id="a", nozzle_flow_l_per_min=10.0, spacing_m=10.0)
    >>> gross_rate_mm_per_h(one)
    6.0
    """
    if package is None or package.nozzle_flow_l_per_min is None:
        return None
    area = package.area_per_head_m2
    return None if area is None else package.nozzle_flow_l_per_min * MIN_PER_H / area


def extra_head_m(option: Option, site: Site, zone: Zone) -> float:
    """Head that an option's package asks for above that of now.

    Parameters
    ----------
    option : Option
        The option.
    site : Site
        For the packages.
    zone : Zone
        The zone.

    Returns
    -------
    float
        0 where a pressure is not known. [m]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> pair = (Package(id="a", pressure_kpa=300.0),
    ...         Package(id="b", pressure_kpa=200.0))
    >>> site = Site(name="a", units="us", place=here, packages=pair)
    >>> zone = Zone(id="Z", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             package="a")
    >>> lower = Option(id="B", name="b", deed="replace", zones=("Z",), package="b")
    >>> round(extra_head_m(lower, site, zone), 1)
    -10.2
    """
    now, then = site.package_of(zone), site.package(option.package)
    if now is None or then is None:
        return 0.0
    if now.pressure_kpa is None or then.pressure_kpa is None:
        return 0.0
    return head_of_pressure_m(then.pressure_kpa - now.pressure_kpa)


def zone_changes(
    option: Option,
    site: Site,
    zone: Zone,
    catch: ZoneCatch,
    *,
    season: ZoneSeason | None,
    water_ratio: float,
) -> Changes:
    """What else changes in a zone.

    Parameters
    ----------
    option : Option
        The option.
    site : Site
        Packages, windows and pump.
    zone : Zone
        The zone.
    catch : ZoneCatch
        For the rate of now.
    season : ZoneSeason or None
        For the longest night.
    water_ratio : float
        Water then over water now, under the zone's own rule. [-]

    Returns
    -------
    Changes
        Side by side, now and then.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> no = (None,) * 4
    >>> Changes("Z", *no, 900.0, 390, 400.0, 800.0, 757.0, None, None).fits_pump
    False
    """
    own = site.package_of(zone)
    new = site.package(option.package) or own
    gross_now, gross_then = gross_rate_mm_per_h(own), gross_rate_mm_per_h(new)
    rate = catch.net_rate_mm_per_h
    then = None
    if gross_now and gross_then:
        then = rate * gross_then / gross_now
    ratio = None if then is None else water_ratio * rate / then
    longest = None
    if season is not None and season.watering_mm is not None:
        longest = float(season.watering_mm.max()) / rate * MIN_PER_H
    return Changes(
        zone=zone.id,
        rate_now_mm_per_h=rate,
        rate_then_mm_per_h=then,
        minutes_ratio=ratio,
        longest_night_now_min=longest,
        longest_night_then_min=None
        if longest is None or ratio is None
        else longest * ratio,
        window_min=max((one.minutes for one in site.windows), default=None),
        flow_now_l_per_min=_flow(gross_now, zone),
        flow_then_l_per_min=_flow(gross_then, zone),
        pump_l_per_min=site.supply.flow_l_per_min if site.supply else None,
        pressure_now_kpa=own.pressure_kpa if own else None,
        pressure_then_kpa=new.pressure_kpa if new else None,
    )


def _flow(gross_mm_per_h: float | None, zone: Zone) -> float | None:
    return None if gross_mm_per_h is None else gross_mm_per_h * zone.area_m2 / MIN_PER_H
