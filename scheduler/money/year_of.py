"""Zones of an option in; water, pumping and hours of a year, now and then, out."""

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.money.changes import extra_head_m
from scheduler.money.judged import ZoneTerms
from scheduler.money.water_cost import labour_hours
from scheduler.option import Option
from scheduler.site import Site
from scheduler.watering.energy_hours import supply_energy_kwh_per_m3


@dataclass(frozen=True, slots=True)
class YearOf:
    """One year of the zones of an option, each under its own rule.

    Attributes
    ----------
    water_m3 : float
        Water put on. [m3]
    energy_kwh : float or None
        Pumping; None where head or efficiency is not entered. [kWh]
    labour_hours : float or None
        Watering by hand; None where nobody counted it. [h]
    """

    water_m3: float
    energy_kwh: float | None
    labour_hours: float | None


def years_of(
    option: Option, site: Site, zones: Sequence[ZoneTerms]
) -> tuple[YearOf, YearOf]:
    """A year as it is, and one with the option done.

    Parameters
    ----------
    option : Option
        What is done.
    site : Site
        Pump and packages.
    zones : sequence of ZoneTerms
        Where it is done; one at least.

    Returns
    -------
    now, then : YearOf
        Then takes off the hours that the option is said to save.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> YearOf(1.0, None, None).energy_kwh is None
    True
    """
    water, energy = [0.0, 0.0], [0.0, 0.0]
    is_known = True
    for one in zones:
        rule = one.rule("own rule")
        extra = extra_head_m(option, site, one.response.zone)
        spans = (
            (one.response, one.now.du_lq, 0.0),
            (one.after, one.then.du_lq, extra),
        )
        for i, (response, du_lq, head) in enumerate(spans):
            volume = response.volume_m3(rule, du_lq)
            each, _ = supply_energy_kwh_per_m3(site.supply, head)
            is_known = is_known and each is not None
            water[i] += volume
            energy[i] += volume * (each or 0.0)
    hours = _hours(zones)
    saved = option.labour_saved_hours_a_year
    less = None if hours is None or saved is None else max(hours - saved, 0.0)
    return (
        YearOf(water[0], energy[0] if is_known else None, hours),
        YearOf(water[1], energy[1] if is_known else None, less),
    )


def _hours(zones: Sequence[ZoneTerms]) -> float | None:
    """Hours by hand of all zones; None where one of them is not known."""
    each = [
        None if one.response.season is None else labour_hours(one.response.season)
        for one in zones
    ]
    known = [one for one in each if one is not None]
    return sum(known) if known and len(known) == len(each) else None
