"""Pots and the depth of a watering in; millilitres in one pot out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.field.guess import ZoneCatch
from scheduler.field.uniformity import quarter_means
from scheduler.need.capture import capture_of, pot_volume_ml
from scheduler.need.pot_layout import (
    crowded,
    interception_share,
    pot_top_area_cm2,
)
from scheduler.need.pot_moves import move_findings
from scheduler.site import Pots, Zone
from scheduler.trace import Trace, entered
from scheduler.units import System

MIN_PER_H = 60.0


@dataclass(frozen=True, slots=True)
class PotWater:
    """What one pot gets from one watering.

    Attributes
    ----------
    mean_ml, driest_ml : float
        In a pot of the mean, and of the driest quarter. [mL]
    ml_per_min : float
        In a pot of the mean. [mL a minute]
    tops_of_bed : float or None
        Share of the bed under pot tops; None where the spacing is not known. [-]
    trace : Trace
        Of the mean pot.
    """

    mean_ml: float
    driest_ml: float
    ml_per_min: float
    tops_of_bed: float | None
    trace: Trace

    @property
    def gaps_of_bed(self) -> float | None:
        """Share of the bed between the pots; None where it is not known. [-]."""
        return None if self.tops_of_bed is None else 1.0 - self.tops_of_bed


def pot_water(
    pots: Pots,
    minutes: int,
    *,
    net_rate_mm_per_h: float,
    driest_share: float,
    inputs: tuple[Trace, ...] = (),
) -> PotWater:
    """Millilitres that one pot gets from one watering.

    Parameters
    ----------
    pots : Pots
        As they stand.
    minutes : int
        Of one watering. [min]
    net_rate_mm_per_h : float
        What the cans caught. [mm/h]
    driest_share : float
        Catch of the driest quarter over the mean. [-]
    inputs : tuple of Trace, optional
        Of the minutes and the rate.

    Returns
    -------
    PotWater
        In the mean and in the driest quarter.

    References
    ----------
    .. [1] Million and Yeager, 2015, HortScience 50: depth x pot area x capture factor.

    Examples
    --------
    >>> pots = Pots(top_diameter_mm=254.0, capture_factor=1.5)
    >>> made = pot_water(pots, 30, net_rate_mm_per_h=12.0, driest_share=0.72)
    >>> round(made.mean_ml), round(made.driest_ml), round(made.ml_per_min, 1)
    (456, 328, 15.2)
    """
    capture, top_cm2 = capture_of(pots), pot_top_area_cm2(pots)
    per_min = pot_volume_ml(net_rate_mm_per_h / MIN_PER_H, pots)
    mean = per_min * minutes
    trace = Trace(
        "pot_ml",
        mean,
        "minutes x net_rate_mm_per_h / 60 x pot_top_area_cm2 x capture_factor / 10",
        "Million and Yeager 2015, HortScience (capture factor)",
        (
            *inputs,
            entered("pot_top_area_cm2", top_cm2, "circle of the top diameter"),
            capture.trace,
        ),
    )
    # pots that cannot stand so leave no gaps to speak of: the spacing is a slip
    under = None if crowded("", pots) else interception_share(pots)
    return PotWater(mean, mean * driest_share, per_min, under, trace)


def pots_beside(
    zones: tuple[Zone, Zone],
    days: Sequence[dt.date],
    catch: ZoneCatch | None,
    *,
    minutes: int | None,
    trace: Trace,
    units: System,
) -> tuple[PotWater | None, tuple[Finding, ...]]:
    """What the pots of a planned zone get, and what must be said of moved ones.

    Parameters
    ----------
    zones : tuple of Zone
        As the file describes it, and as it stands with the plants that rule.
    days : sequence of date
        Days that are planned.
    catch : ZoneCatch or None
        What feeds the week.
    minutes : int or None
        Of one watering. [min]
    trace : Trace
        Of the minutes.
    units : str
        How numbers are said.

    Returns
    -------
    water : PotWater or None
        None where there are no pots, no minutes or no catch.
    findings : tuple of Finding
        As `move_findings`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> bay = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", watered="off")
    >>> pots_beside((bay, bay), (), None, minutes=None,
    ...             trace=entered("minutes_per_day", None), units="metric")
    (None, ())
    """
    as_filed, stands = zones
    if stands.pots is None or catch is None:
        return None, ()
    rate = catch.net_rate_mm_per_h
    said = move_findings(
        as_filed, days[0], days[-1], net_rate_mm_per_h=rate, units=units
    )
    if not minutes:
        return None, said
    made = pot_water(
        stands.pots,
        minutes,
        net_rate_mm_per_h=rate,
        driest_share=float(quarter_means(catch.share)[0]),
        inputs=(trace, catch.rate_trace),
    )
    return made, said
