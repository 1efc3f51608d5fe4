"""Rates from cans, nozzles and meter in; which one is off and why out."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from scheduler.errors import Finding
from scheduler.field.catch import Catch
from scheduler.field.hydraulics.gross import GrossRate
from scheduler.field.hydraulics.meter import MeterCheck
from scheduler.field.hydraulics.slips import (
    NET_HIGH,
    NET_LOW,
    Cause,
    can_causes,
    meter_causes,
    nozzle_causes,
)
from scheduler.units import System, shown

Odd = Literal[
    "", "cans", "nozzles", "nozzles or minutes", "meter", "cans or nozzles",
    "meter or nozzles", "cans or meter", "cannot tell",
]  # fmt: skip
# Common practice, no source: a meter, or a set of nozzles, within 10 %.
WITHIN = 0.10
SHOWN_CAUSES = 4


@dataclass(frozen=True, slots=True)
class Agreement:
    """Whether the water adds up.

    Attributes
    ----------
    net_mm_per_h, gross_mm_per_h, meter_mm_per_h : float or None
        From cans, nozzles and meter. [mm/h]
    net_over_gross, meter_over_gross, net_over_meter : float or None
        The three ratios. [-]
    is_checked : bool
        Whether there are two rates to compare.
    odd : str
        Which one is off; empty where they agree.
    causes : tuple of Cause
        Likeliest first.
    """

    net_mm_per_h: float | None
    gross_mm_per_h: float | None
    meter_mm_per_h: float | None
    net_over_gross: float | None
    meter_over_gross: float | None
    net_over_meter: float | None
    is_checked: bool
    odd: Odd
    causes: tuple[Cause, ...]
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class _Rates:
    net: float | None
    net_error: float
    gross: GrossRate
    meter: float | None
    has_others: bool

    def cans_fit(self, delivered: float | None) -> bool | None:
        """Whether cans can have caught this of what was delivered, error allowed."""
        if self.net is None or not delivered:
            return None
        ratio, room = self.net / delivered, 2.0 * self.net_error
        return ratio * (1.0 - room) <= NET_HIGH and ratio * (1.0 + room) >= NET_LOW

    def meter_fits(self, delivered: float | None) -> bool | None:
        """Whether meter and nozzles agree; other zones only add to a meter."""
        if self.meter is None or not delivered:
            return None
        ratio = self.meter / delivered
        return ratio >= 1.0 - WITHIN and (self.has_others or ratio <= 1.0 + WITHIN)

    def cans_fit_meter(self) -> bool | None:
        """Whether cans and meter agree, each with its own room."""
        if self.net is None or not self.meter:
            return None
        ratio, room = self.net / self.meter, 2.0 * self.net_error
        high = ratio * (1.0 - room) > NET_HIGH * (1.0 + WITHIN)
        low = ratio * (1.0 + room) < NET_LOW * (1.0 - WITHIN)
        return not high and (self.has_others or not low)


def agreement(
    caught: Sequence[Catch],
    gross: GrossRate,
    meter: MeterCheck | None,
    where: str,
    units: System,
) -> Agreement:
    """Compare what the cans caught, the nozzles delivered and the meter counted.

    Parameters
    ----------
    caught : sequence of Catch
        The runs that the rates are of.
    gross : GrossRate
        Best known gross rate of these runs.
    meter : MeterCheck or None
        The meter card of these runs.
    where : str
        Place for the finding.
    units : {'us', 'metric'}
        Units of the finding.

    Returns
    -------
    Agreement
        Ratios, the odd one out, and likely causes.

    Notes
    -----
    Cans should have 70 to 100 % of what the nozzles deliver (two standard errors of
    their mean allowed), and meter and nozzles should agree within 10 %. The one that
    disagrees with two that agree is off; where the package and the buckets agree, the
    nozzles count as two. Two alone cannot tell which.

    References
    ----------
    .. [1] Common practice, no source: net is 70 to 100 % of gross; 10 % for a meter.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.field.hydraulics.gross import best_gross_rate
    >>> from scheduler.record import CanTest
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None)
    >>> agreement((), best_gross_rate(test, None, None), None, "t", "us").is_checked
    False
    """
    rates = _rates(caught, gross, meter)
    odd = _odd(rates, meter)
    causes = _causes(odd, rates, caught, meter, units) if odd else ()
    net, best, counted = rates.net, gross.rate_mm_per_h, rates.meter
    both = sum(one is not None for one in (net, best, counted))
    found = Agreement(
        net,
        best,
        counted,
        _over(net, best),
        _over(counted, best),
        _over(net, counted),
        both > 1,
        odd,
        causes,
    )
    # cans against a package alone are weighed by the screening of each run
    told = odd and (counted is not None or gross.basis == "buckets")
    said = (_finding(found, gross, where, units),) if told else ()
    return replace(found, findings=said)


def _over(part: float | None, whole: float | None) -> float | None:
    return part / whole if part is not None and whole else None


def _rates(
    caught: Sequence[Catch], gross: GrossRate, meter: MeterCheck | None
) -> _Rates:
    known = [one for one in caught if one.net_rate_mm_per_h is not None]
    nets = [one.net_rate_mm_per_h or 0.0 for one in known]
    net = sum(nets) / len(nets) if nets else None
    error = max(
        (
            float(one.depth_mm.std(ddof=1) / one.depth_mm.mean())
            / math.sqrt(one.n_cans)
            for one in known
        ),
        default=0.0,
    )
    counted = meter.rate_mm_per_h if meter else None
    return _Rates(net, error, gross, counted, bool(meter and meter.card.other_zones))


def _odd(rates: _Rates, meter: MeterCheck | None) -> Odd:
    best = rates.gross.rate_mm_per_h
    cans, counted = rates.cans_fit(best), rates.meter_fits(best)
    both = rates.cans_fit_meter()
    if None not in (cans, counted, both):
        shared = meter is not None and meter.has_run_minutes
        return _odd_of_three((cans, counted, both), shared)
    if cans is False:
        return _odd_of_cans_and_nozzles(rates)
    if counted is False:
        return "meter or nozzles"
    return "cans or meter" if both is False else ""


def _odd_of_three(fits: tuple[bool | None, ...], shared_minutes: bool) -> Odd:
    nozzles: Odd = "nozzles or minutes" if shared_minutes else "nozzles"
    # by which pairs agree: cans and nozzles, meter and nozzles, cans and meter
    found: dict[tuple[bool | None, ...], Odd] = {
        (True, True, True): "",
        (False, True, False): "cans",
        (True, False, False): "meter",
        (False, False, True): nozzles,
        (True, False, True): "meter or nozzles",
        (False, True, True): "cans or nozzles",
        (True, True, False): "cans or meter",
        (False, False, False): "cannot tell",
    }
    return found[fits]


def _odd_of_cans_and_nozzles(rates: _Rates) -> Odd:
    """Buckets and package are two witnesses of the nozzles."""
    gross = rates.gross
    package = gross.carried_mm_per_h or gross.nominal_mm_per_h
    if gross.basis != "buckets" or package is None:
        return "cans or nozzles"
    if abs((gross.bucket_mm_per_h or 0.0) / package - 1.0) <= WITHIN:
        return "cans"
    return "nozzles" if rates.cans_fit(package) else "cans or nozzles"


def _causes(
    odd: Odd,
    rates: _Rates,
    caught: Sequence[Catch],
    meter: MeterCheck | None,
    units: System,
) -> tuple[Cause, ...]:
    causes: list[Cause] = []
    best = rates.gross.rate_mm_per_h
    from_cans = rates.net / 0.85 if rates.net is not None else None
    wide = odd == "cannot tell"
    if (wide or "meter" in odd) and meter is not None:
        wanted = best if best is not None else from_cans
        causes += (
            meter_causes(meter, rates.gross, wanted or 0.0, units) if wanted else ()
        )
    delivered = best if best is not None else rates.meter
    if (wide or "cans" in odd) and caught and delivered:
        causes += can_causes(caught[-1], delivered, units)
    if wide or "nozzles" in odd:
        causes += _of_nozzles(odd, rates, meter, units)
    return tuple(causes)


def _of_nozzles(
    odd: Odd, rates: _Rates, meter: MeterCheck | None, units: System
) -> tuple[Cause, ...]:
    if rates.meter is not None and odd != "cans or nozzles":
        wanted = (rates.meter, rates.meter)
    else:
        net = rates.net or 0.0
        wanted = (net / NET_HIGH, net / NET_LOW)
    minutes = meter.minutes if meter and odd == "nozzles or minutes" else None
    return nozzle_causes(rates.gross, wanted, units, shared_min=minutes)


def _finding(found: Agreement, gross: GrossRate, where: str, units: System) -> Finding:
    each = {
        "the cans caught": found.net_mm_per_h,
        f"the nozzles deliver ({gross.basis})": found.gross_mm_per_h,
        "the meter counted": found.meter_mm_per_h,
    }
    said = ", ".join(
        f"{name} {shown(rate, 'mm_per_h', units)}"
        for name, rate in each.items()
        if rate is not None
    )
    off = f"the {found.odd.replace(' or ', ' or the ')} must be off"
    if found.odd == "cannot tell":
        off = "no two of them agree"
    ranked = "; ".join(
        f"{i} {one.name}: {one.why}"
        for i, one in enumerate(found.causes[:SHOWN_CAUSES], 1)
    )
    fix = f"likeliest first: {ranked}" if ranked else "measure again"
    return Finding("warning", where, f"{said}: {off}", fix)
