"""A leaching check in; its fraction with a range, new minutes and their floor out."""

import math
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding
from scheduler.log import LeachingCheck
from scheduler.need.leaching import (
    FractionRange,
    NewMinutes,
    fraction_range,
    new_minutes,
)
from scheduler.need.zone_leaching import BAND, ZoneLeaching
from scheduler.proof.sampling import place_findings
from scheduler.trace import Trace, entered

# middle of the band that nurseries aim at (common practice, no source)
USUAL_TARGET = sum(BAND) / 2
SOURCE = "balance of water; Million and Yeager, UF/IFAS ENH1268 (definition)"
# what drained of all that came; above it no minutes can be worked out
ALL_OF_IT = 0.999


@dataclass(frozen=True, slots=True)
class CheckedPots:
    """What one leaching check says by itself, without any ET.

    Attributes
    ----------
    check : LeachingCheck
        The pots.
    leaching : FractionRange
        All pots together, by volume.
    driest, driest_place : float, str
        Fraction of the pot that leached least, and where it stood. [-]
    n_without : int
        Pots that drained nothing.
    use_part : float
        Use of the plants over all water that came: what stayed, a dry pot among
        draining ones taken as using what they use, if that is more than it got. [-]
    target : float
        Fraction that is aimed at. [-]
    minutes : float or None
        How long the water ran; None where nobody wrote it down. [min]
    new : NewMinutes or None
        What it asks of the clock; None without minutes.
    trace : Trace
        Of the new minutes, or of the fraction where there are none.
    findings : tuple of Finding
        What must be said of the pots.
    """

    check: LeachingCheck
    leaching: FractionRange
    driest: float
    driest_place: str
    n_without: int
    use_part: float
    target: float
    minutes: float | None
    new: NewMinutes | None
    trace: Trace
    findings: tuple[Finding, ...] = ()

    @property
    def is_at_least(self) -> bool:
        """Whether a pot drained nothing: its plant may have used more than it got."""
        return self.n_without > 0

    @property
    def is_use_at_least(self) -> bool:
        """Whether so many pots drained nothing that their use is only a lower limit."""
        has_volumes = all(one.in_ml is not None for one in self.check.pots)
        few = 2 * self.n_without < len(self.check.pots)
        return self.is_at_least and not (few and has_volumes)

    @property
    def percent_of_clock(self) -> int | None:
        """The same change as a percent adjust of the clock, instead of the minutes."""
        if self.new is None or not self.minutes:
            return None
        return math.ceil(100.0 * self.new.minutes / self.minutes - 1e-9)


def checked_pots(
    check: LeachingCheck,
    target: ZoneLeaching | None,
    *,
    minutes: float | None = None,
    grid: tuple[int, int] | None = None,
) -> CheckedPots:
    """What a leaching check says of the minutes that ran.

    Parameters
    ----------
    check : LeachingCheck
        Pots of one zone that were checked together.
    target : ZoneLeaching or None
        Of the zone's pots; the middle of the usual band if not known.
    minutes : float or None
        What the log of waterings says; used where the check does not say. [min]
    grid : tuple of int and int, or None
        Rows and columns of the zone's can map, which positions are counted on.

    Returns
    -------
    CheckedPots
        Fraction, range, target, new minutes and findings.

    Notes
    -----
    By volume, so that a pot that got more water counts more. The driest pot is a floor
    for the new minutes; where it drained nothing they are "at least". More leaching
    never asks for more minutes.

    References
    ----------
    .. [1] Million and Yeager, UF/IFAS ENH1268: leaching fraction; target below 0.15.
       The band of 10 to 20 % is common practice, no source.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.log import LeachingPot, Log
    >>> day = dt.date(2026, 6, 3)
    >>> pots = tuple(
    ...     LeachingPot(where="log.csv:3", typed="", date=day, zone="Z4", place=place,
    ...                 in_ml=400.0, out_ml=out, minutes=24.0)
    ...     for place, out in (("A1", 120.0), ("D2", 80.0)))
    >>> made = checked_pots(Log(pots).leaching_checks()[0], None)
    >>> made.leaching.fraction, made.new.minutes, made.new.is_held_by_driest
    (0.25, 22, False)
    """
    came, drained = _volumes(check)
    leaching = fraction_range(came, drained)
    parts = drained / came
    i = int(np.argmin(parts))
    driest = min(float(parts[i]), leaching.fraction)
    wanted = target.fraction if target and target.is_target else USUAL_TARGET
    ran = check.minutes if check.minutes is not None else minutes
    said = _said(check, leaching, parts)
    new = None
    if ran is not None and leaching.fraction < ALL_OF_IT:
        new = new_minutes(
            ran,
            mean_leaching=leaching.fraction,
            driest_leaching=driest,
            target=wanted,
        )
    return CheckedPots(
        check=check,
        leaching=leaching,
        driest=driest,
        driest_place=check.pots[i].place,
        n_without=int((parts <= 0).sum()),
        use_part=_use_part(came, drained),
        target=wanted,
        minutes=ran,
        new=new,
        trace=_trace(check, leaching, driest, (ran, new), _target_trace(target)),
        findings=(*said, *place_findings(check, grid)),
    )


def _volumes(check: LeachingCheck) -> tuple[FloatArray, FloatArray]:
    """Water in and out of each pot; a pot without volumes counts as the others do."""
    known = [one.in_ml for one in check.pots if one.in_ml is not None]
    usual = float(np.mean(known)) if known else 1.0
    came = np.array([usual if one.in_ml is None else one.in_ml for one in check.pots])
    parts = np.array([one.fraction for one in check.pots])
    return came, came * parts


def _use_part(came: FloatArray, drained: FloatArray) -> float:
    """Use over water: a pot that drained used what stayed, a dry one maybe more."""
    stays, is_dry = came - drained, drained <= 0
    if is_dry.all() or not is_dry.any():
        return float(stays.sum() / came.sum())
    use = np.where(is_dry, np.maximum(stays, stays[~is_dry].mean()), stays)
    return float(use.sum() / came.sum())


def _said(
    check: LeachingCheck, leaching: FractionRange, parts: FloatArray
) -> list[Finding]:
    place, found = f"{check.where}: zone {check.zone}: leaching", []
    dry = [p.place for p, part in zip(check.pots, parts, strict=True) if part <= 0]
    if dry:
        what = f"nothing drained from {', '.join(dry)}: such a pot may have been short"
        fix = "take the minutes as at least; water longer once and check again"
        found.append(Finding("warning", place, what, fix))
    if any(one.in_ml is None for one in check.pots) and len(check.pots) > 1:
        what = "no volumes were noted: the pots are averaged as if each got the same"
        fix = "note the water into each pot as well, for the average goes by volume"
        found.append(Finding("note", place, what, fix))
    if leaching.fraction >= ALL_OF_IT:
        what = (
            f"{leaching.fraction:.0%} drained: nothing stayed, so it ran past the mix"
        )
        fix = "look for a dry mix that sheds water; pre-wet with a short pulse"
        found.append(Finding("warning", place, what.replace("%", " %"), fix))
    return found


def _target_trace(target: ZoneLeaching | None) -> Trace:
    if target is not None and target.is_target:
        return target.trace
    return Trace(
        "leaching_target",
        USUAL_TARGET,
        "middle of the usual 10 to 20 %",
        "common practice, no source",
        (),
        "enter leaching_target under [zone.pots] to replace it",
    )


def _trace(
    check: LeachingCheck,
    leaching: FractionRange,
    driest: float,
    minutes: tuple[float | None, NewMinutes | None],
    target: Trace,
) -> Trace:
    day = check.date
    fraction = Trace(
        "leaching_fraction",
        leaching.fraction,
        f"all that drained over all that came, {len(check.pots)} pots on {day}",
        SOURCE,
        (),
        f"{check.where}; {leaching.low:.0%} to {leaching.high:.0%} for the zone, "
        f"{leaching.level:.0%} sure",
    )
    ran, new = minutes
    if ran is None or new is None:
        return fraction
    run = entered("check_min", ran, f"minutes that ran at the check of {day}")
    least = entered("driest_pot_leaching", driest, check.where)
    floor = Trace(
        "driest_pot_min", new.floor, "check_min x (1 - driest_pot_leaching)",
        "balance of water", (run, least),
        "" if new.is_floor_sure else "at least: the pot drained nothing",
    )  # fmt: skip
    return Trace(
        "check_minutes_min",
        new.minutes,
        "the larger of check_min x (1 - leaching_fraction) / (1 - leaching_target) "
        "and driest_pot_min, in whole minutes, rounded up",
        SOURCE,
        (fraction, target, floor),
    )
