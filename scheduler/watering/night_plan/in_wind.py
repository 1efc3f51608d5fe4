"""A zone's catch and its package in wind in; DU and the water its rule asks for out."""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.drawn import EVEN
from scheduler.field.package_wind import PackageWind
from scheduler.watering.leached import served_rule
from scheduler.watering.night_plan.result import WateredZone
from scheduler.watering.run_time import served_share
from scheduler.watering.timetable.minute_cost import extra_water

# no zone is watered less evenly, nor is a position served that catches less (keeps a
# line drawn far from dividing by 0)
LEAST_DU = 0.05


@dataclass(frozen=True, slots=True)
class ZoneInWind:
    """A zone at any wind.

    Attributes
    ----------
    line : PackageWind
        What wind does to its package.
    ref_m_per_s : float
        Wind of the runs that its week was planned with. [m/s]
    du_lq : float
        DU low quarter that its week was planned with. [-]
    served : float
        Share of the position that its rule serves; 1 where uniformity does not count.
        [-]
    """

    line: PackageWind
    ref_m_per_s: float
    du_lq: float
    served: float

    def du_at(self, wind_m_per_s: FloatArray | float) -> FloatArray:
        """DU low quarter in these winds."""
        change = self.line.du_change(wind_m_per_s, self.ref_m_per_s)
        return np.asarray(np.clip(self.du_lq + change, LEAST_DU, 1.0))

    def rate_over(self, wind_m_per_s: FloatArray | float) -> FloatArray:
        """Net rate over that of the week."""
        return self.line.rate_over(wind_m_per_s, self.ref_m_per_s)

    def extra(self, wind_m_per_s: FloatArray) -> FloatArray:
        """Water beyond that of the week which the rule asks for in these winds. [-]."""
        ref = max(1.0 - self.du_lq, EVEN)
        # the map is drawn together or apart, and with it the position that is served
        served = 1.0 - (1.0 - self.du_at(wind_m_per_s)) / ref * (1.0 - self.served)
        return extra_water(
            1.0 / np.maximum(served, LEAST_DU),
            self.rate_over(wind_m_per_s),
            ref_factor=1.0 / self.served,
            ref_rate_mm_per_h=1.0,
        )


def zone_in_wind(
    one: WateredZone, line: PackageWind, usual_m_per_s: float
) -> ZoneInWind:
    """What a zone's week rests on, ready to be asked at any wind.

    Parameters
    ----------
    one : WateredZone
        The zone and its catch.
    line : PackageWind
        What wind does to its package.
    usual_m_per_s : float
        Wind taken for that of its tests where it is not known. [m/s]

    Returns
    -------
    ZoneInWind
        Without a catch, the DU of the line at that wind.

    References
    ----------
    Source: definition; `served_share` names its own.
    """
    catch = one.evidence
    ref = catch.wind_m_per_s if catch else None
    wind = usual_m_per_s if ref is None else ref
    if catch is None:
        at = float(line.du_at_calm + line.du_per_m_per_s * line.held(wind))
        du = min(max(at, LEAST_DU), 1.0)
    else:
        du = catch.du_lq
    return ZoneInWind(line, wind, du, max(_served(one, du), LEAST_DU))


def _served(one: WateredZone, du_lq: float) -> float:
    rule = served_rule(one.zone.chosen_rule)
    if rule == "average" or one.rule == "leaching target":
        return 1.0
    catch = one.evidence
    if catch is None:
        if rule == "share served":
            rule = "low quarter"
        return served_share(rule, du_lq=du_lq)
    return served_share(
        rule,
        catch.share,
        share_served=one.zone.share_served,
        du_lq=catch.du_lq,
        du_lh=catch.du_lh,
    )
