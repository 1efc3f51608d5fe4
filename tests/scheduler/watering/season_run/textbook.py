"""A season the way one writes it down from the book, for the others to agree with.

Day by day and position by position, with nothing made fast: the yardstick of the bench
as well, so that a quicker loop in the program does not move it.
"""

import math
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.watering.season_run import SeasonInput


@dataclass(frozen=True, slots=True, eq=False)
class Written:
    """Sums of each position [mm, days], and depth and minutes of each night."""

    applied_mm: FloatArray
    used_mm: FloatArray
    percolation_mm: FloatArray
    end_mm: FloatArray
    stress_days: FloatArray
    watering_mm: FloatArray
    minutes: FloatArray


def day_of(
    depletion: float, water: float, use: float, total: float, allowed: float
) -> tuple[float, float, float, bool]:
    """One day of one position: depletion at its end, drained, used, short of water.

    FAO-56 (1998), eq. 84 (stress), 85 (balance), 88 (deep percolation).
    """
    drained = max(water - depletion, 0.0)
    depletion = max(depletion - water, 0.0)
    stress = (total - depletion) / max(total - allowed, 1e-6)
    used = min(min(stress, 1.0) * use, total - depletion)
    return depletion + used, drained, used, stress < 1.0


def nights_of(season: SeasonInput, zone: int) -> tuple[list[float], list[int]]:
    """Mean depth [mm] and minutes of each night, from the position that is served."""
    total, allowed = float(season.total_mm[zone]), float(season.allowed_mm[zone])
    served, fixed = float(season.served_share[zone]), float(season.fixed_mm[zone])
    per_mm = float(season.min_per_mm[zone])
    use = season.etc_mm_per_day[:, zone].tolist()
    rain = season.rain_mm[:, zone].tolist()
    is_open = season.is_open[:, zone].tolist()
    depletion = float(season.start_mm[zone])
    depths, minutes = [], []
    for day in range(len(use)):
        until = day + 1
        while until < len(use) and not is_open[until]:
            until += 1
        ahead = sum(use[day:until])
        is_due = bool(season.is_always[zone]) and depletion > 0
        asked = 0.0
        if is_open[day] and not math.isnan(fixed):
            asked = fixed * per_mm
        elif is_open[day] and (is_due or depletion + ahead > allowed):
            asked = depletion / served * per_mm
        whole = whole_minutes(asked, float(season.longest_min[zone]))
        water = served * whole / per_mm + rain[day]
        depletion, *_ = day_of(depletion, water, use[day], total, allowed)
        depths.append(whole / per_mm)
        minutes.append(whole)
    return depths, minutes


def whole_minutes(asked: float, longest: float) -> int:
    """Equal cycles of whole minutes, none above the longest that soaks in."""
    if asked <= 0:
        return 0
    limit = max(math.floor(longest + 1e-9), 1) if math.isfinite(longest) else math.inf
    cycles = max(math.ceil((asked - 1e-9) / limit), 1)
    each = max(math.floor(asked / cycles + 0.5 + 1e-9), 1)
    if each > limit:
        cycles += 1
        each = math.floor(asked / cycles + 0.5 + 1e-9)
    return cycles * each


def textbook_season(season: SeasonInput) -> Written:
    """Run a season."""
    n_days, n_zones = season.n_days, season.n_zones
    n_positions = season.share.shape[1]
    sums = np.zeros((5, n_positions, n_zones))
    nights, minutes = np.zeros((n_days, n_zones)), np.zeros(n_zones)
    for zone in range(n_zones):
        depths, each = nights_of(season, zone)
        nights[:, zone], minutes[zone] = depths, sum(each)
        total, allowed = float(season.total_mm[zone]), float(season.allowed_mm[zone])
        use = season.etc_mm_per_day[:, zone].tolist()
        rain = season.rain_mm[:, zone].tolist()
        for position in range(n_positions):
            shares = season.share[:, position, zone].tolist()
            depletion = float(season.start_mm[zone])
            applied = used = drained = 0.0
            stress_days = 0
            for day in range(n_days):
                water = depths[day] * shares[day % len(shares)]
                depletion, passed, taken, is_short = day_of(
                    depletion, water + rain[day], use[day], total, allowed
                )
                applied += water
                drained += passed
                used += taken
                stress_days += is_short
            sums[:, position, zone] = applied, used, drained, depletion, stress_days
    applied_mm, used_mm, drained_mm, end_mm, stressed = sums
    return Written(applied_mm, used_mm, drained_mm, end_mm, stressed, nights, minutes)
