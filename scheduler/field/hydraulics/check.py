"""A test with its runs in; whether its water adds up, and what is missing, out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.field.catch import Catch
from scheduler.field.hydraulics.agreement import Agreement, agreement
from scheduler.field.hydraulics.flow import FlowCheck, flow_check
from scheduler.field.hydraulics.gross import GrossRate, best_gross_rate
from scheduler.field.hydraulics.meter import MeterCheck, meter_check
from scheduler.field.hydraulics.pressure import PressureCheck, pressure_check
from scheduler.record import CanTest
from scheduler.site import Package, Zone
from scheduler.units import System


@dataclass(frozen=True, slots=True)
class Hydraulics:
    """Pressure, flow and meter of one test.

    Attributes
    ----------
    is_entered : bool
        Whether any pressure, flow or meter reading was entered.
    gross : GrossRate
        Best known gross rate of the test.
    missing : tuple of str
        Cross-checks that could not be made, and what was not entered.
    findings : tuple of Finding
        Of all of them.
    """

    is_entered: bool
    pressure: PressureCheck | None
    flow: FlowCheck | None
    meter: MeterCheck | None
    gross: GrossRate
    agreement: Agreement
    missing: tuple[str, ...]
    findings: tuple[Finding, ...]


def hydraulics(
    test: CanTest,
    zone: Zone | None,
    package: Package | None,
    caught: Sequence[Catch],
    *,
    units: System = "us",
) -> Hydraulics:
    """Pressure, flow and meter of a test against its cans and its package.

    Parameters
    ----------
    test : CanTest
        The test.
    zone : Zone or None
        For area and heads.
    package : Package or None
        What stood there.
    caught : sequence of Catch
        The runs that could be worked up.
    units : {'us', 'metric'}
        Units of the findings.

    Returns
    -------
    Hydraulics
        Each check that could be made, and the ones that could not.

    Notes
    -----
    Where the meter card names a run, or only one run was worked up, everything is of
    that run; else of all runs together.

    References
    ----------
    Source: definition; each check names its own.

    Examples
    --------
    >>> import datetime as dt
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None)
    >>> hydraulics(test, None, None, ()).missing[0]
    'no gross cross-check: no flow entered'
    """
    named = test.meter.run if test.meter else None
    runs = [one for one in caught if named in (None, one.run.name)]
    only = runs[0].run if len(runs) == 1 else None
    name = only.name if only else None
    pressure = pressure_check(test, package, run=name, units=units)
    flow = flow_check(test, package, pressure, run=name, units=units)
    meter, metered = meter_check(test, zone, package, units=units)
    gross = best_gross_rate(test, only, package, zone)
    agreed = agreement(runs, gross, meter, test.where, units)
    findings = (
        *(pressure.findings if pressure else ()),
        *(flow.findings if flow else ()),
        *metered,
        *agreed.findings,
    )
    return Hydraulics(
        bool(test.pressures or test.flows or test.meter or pressure),
        pressure,
        flow,
        meter,
        gross,
        agreed,
        tuple(_missing(test, zone, package, gross, meter)),
        findings,
    )


def _missing(
    test: CanTest,
    zone: Zone | None,
    package: Package | None,
    gross: GrossRate,
    meter: MeterCheck | None,
) -> Iterator[str]:
    if gross.rate_mm_per_h is None:
        has_flow = test.flows or (package and package.nozzle_flow_l_per_min)
        what = "no spacing of heads entered" if has_flow else "no flow entered"
        yield f"no gross cross-check: {what}"
    elif gross.basis == "nominal":
        yield "gross rate at nominal pressure: no pressure and no bucket flow entered"
    elif gross.basis != "buckets":
        yield "gross rate not measured: no bucket flow entered"
    if test.meter is None:
        yield "no meter cross-check: no meter entered"
    elif meter is None:
        yield "no meter cross-check: the meter card cannot be used"
    elif zone is None:
        yield "no meter cross-check: the zone and so its area is not known"
