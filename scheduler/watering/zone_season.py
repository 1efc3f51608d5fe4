"""What a zone catches, uses and holds in; the input of its season out.

Each watering draws one of the tested runs, so that several together are more even than
one.
"""

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.guess import ZoneCatch
from scheduler.need.season_days import SeasonDays
from scheduler.need.zone_leaching import zone_leaching
from scheduler.need.zone_use import ZoneUse
from scheduler.root_zone.intake import intake_model, longest_cycle_min
from scheduler.root_zone.rain import counted_rain_mm
from scheduler.root_zone.storage import Storage
from scheduler.site import Site, Zone, open_nights
from scheduler.watering.cycles import wet_rate_mm_per_h
from scheduler.watering.leached import adequacy, served_rule
from scheduler.watering.run_time import MIN_PER_H, rule_factor
from scheduler.watering.season_run import SeasonInput

SEED = 20260608
# the share of a served position that caught nothing: no factor would be enough
LEAST_SERVED = 1e-3


def season_etc(use: ZoneUse, days: SeasonDays) -> FloatArray:
    """Unstressed use on the bed, day by day.

    Parameters
    ----------
    use : ZoneUse
        What turns reference ET into a depth on the bed.
    days : SeasonDays
        Weather of the season.

    Returns
    -------
    array of shape (n_days,)
        Use. [mm/day]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equation 58.

    Examples
    --------
    >>> from scheduler.need.zone_use import zone_use
    >>> from scheduler.site import Plant
    >>> zone = Zone(id="F1", name="bay", area_m2=900.0, grown_in="soil",
    ...             plant=Plant(name="box", kc=0.8, kc_area="bed"))
    >>> dates = np.array(["2025-06-01"], "datetime64[D]")
    >>> days = SeasonDays("2025", dates, np.array([5.0]), np.zeros(1), ())
    >>> season_etc(zone_use(zone, dates)[0], days).tolist()
    [4.0]
    """
    return use.etc_mm_per_day(days.eto_mm_per_day, days.date, days.rain_mm)


def season_input(
    zone: Zone,
    site: Site,
    days: SeasonDays,
    parts: tuple[ZoneCatch, ZoneUse, Storage],
) -> tuple[SeasonInput, float]:
    """What the season of one zone rests on, and the factor of its rule.

    Parameters
    ----------
    zone : Zone
        The zone.
    site : Site
        For the nights that its windows allow.
    days : SeasonDays
        Weather of the season.
    parts : tuple of ZoneCatch, ZoneUse, Storage
        What it catches, uses, and holds.

    Returns
    -------
    input : SeasonInput
        One zone.
    factor : float
        Mean depth over need of the zone's rule. [-]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> from scheduler.need.zone_use import zone_use
    >>> from scheduler.root_zone.storage import zone_storage
    >>> from scheduler.site import Place, Plant, Soil
    >>> zone = Zone(id="F1", name="bay", area_m2=900.0, grown_in="soil",
    ...             plant=Plant(name="box", kc=0.8, kc_area="bed"), rule="average",
    ...             soil=Soil(texture="loam", root_depth_m=0.4),
    ...             assumed_net_rate_mm_per_h=12.0)
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> dates = np.array(["2025-06-01", "2025-06-02"], "datetime64[D]")
    >>> days = SeasonDays("2025", dates, np.array([5.0, 6.0]), np.zeros(2), ())
    >>> made, factor = season_input(
    ...     zone, Site(name="a", units="us", place=here), days,
    ...     (assumed(zone, None)[0], zone_use(zone, dates)[0], zone_storage(zone)[0]))
    >>> made.etc_mm_per_day[:, 0].round(1).tolist(), factor
    ([4.0, 4.8], 1.0)
    """
    catch, use, storage = parts
    rain = 1.0 if zone.rain_counted is None else zone.rain_counted
    served = rule_factor(
        served_rule(zone.chosen_rule),
        catch.share,
        share_served=zone.share_served,
        du_lq=catch.du_lq,
        du_lh=catch.du_lh,
    )
    # the position that catches 1 / factor gets its need, all others leach
    leaching, _ = zone_leaching(zone, site.supply)
    factor = adequacy(zone.chosen_rule, served, leaching).factor
    model, _ = intake_model(zone)
    wet = wet_rate_mm_per_h(catch.net_rate_mm_per_h, catch.share, zone.intake.wet_share)
    fixed = np.nan
    if zone.fixed_minutes is not None:
        fixed = zone.fixed_minutes * catch.net_rate_mm_per_h / MIN_PER_H
    etc = season_etc(use, days)
    # the night before a day belongs to the date before it
    nights = open_nights(site, zone, days.date - np.timedelta64(1, "D"))
    made = SeasonInput(
        share=_drawn_shares(catch, days.date.size),
        served_share=np.array([max(1.0 / factor, LEAST_SERVED)]),
        etc_mm_per_day=etc[:, None],
        rain_mm=counted_rain_mm(days.rain_mm, rain)[:, None],
        is_open=nights[:, None],
        is_always=np.array([zone.watered == "every allowed day"]),
        fixed_mm=np.array([fixed]),
        total_mm=np.array([storage.total_mm]),
        allowed_mm=np.array([storage.allowed_mm]),
        start_mm=np.zeros(1),
        min_per_mm=np.array([MIN_PER_H / catch.net_rate_mm_per_h]),
        longest_min=np.array([longest_cycle_min(model, wet)]),
    )
    return made, factor


def _drawn_shares(catch: ZoneCatch, n_days: int) -> FloatArray:
    """Shares by day: each watering draws one of the tested runs, by a fixed seed."""
    if catch.run_share.shape[0] < 2:
        return catch.share[None, :, None]
    drawn = np.random.default_rng(SEED).integers(catch.run_share.shape[0], size=n_days)
    return catch.run_share[drawn][:, :, None]
