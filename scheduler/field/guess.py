"""A zone without readings in, its assumed or stated rate and shares out.

Nothing here is silent: every guess is a finding that says how to replace it.
"""

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from scheduler.arrays import FloatArray, IntArray
from scheduler.errors import Finding
from scheduler.field.bell import low_half_from_low_quarter, normal_shares
from scheduler.field.uniformity import uniformity
from scheduler.record import CanTest
from scheduler.site import Zone
from scheduler.trace import Trace, entered

# Univ. Florida AE194: below 60 % an overhead nursery sprinkler is low.
ASSUMED_DU_LQ = 0.60
# Common practice, no source: net is 70 to 100 % of gross; the middle.
ASSUMED_NET_OVER_GROSS = 0.85


@dataclass(frozen=True, slots=True, eq=False)
class ZoneCatch:
    """What a zone's week rests on: a rate, and the share that each position gets.

    Attributes
    ----------
    share : array of shape (n_positions,)
        Catch at each position over the mean catch; mean 1. [-]
    row, column : array of shape (n_positions,) or None
        Where each position is; None where no can was read.
    tested : array of shape (n_runs, n_positions) or None
        Shares of each tested run at the same positions; None where there is none. [-]
    wind_m_per_s : float or None
        Mean wind of the runs at 2 m; None unless that of each is known. [m/s]
    """

    zone: str
    basis: Literal["measured", "stated", "assumed"]
    share: FloatArray
    row: IntArray | None
    column: IntArray | None
    net_rate_mm_per_h: float
    du_lq: float
    du_lh: float
    cu: float
    n_cans: int
    n_runs: int
    test: str
    condition: str
    date: dt.date | None
    rate_trace: Trace
    du_trace: Trace
    tested: FloatArray | None = None
    wind_m_per_s: float | None = None

    @property
    def run_share(self) -> FloatArray:
        """Shares of each tested run, of shape (n_runs, n_positions). [-]."""
        return self.share[None] if self.tested is None else self.tested


def rate_without_cans(
    zone: Zone, gross: float | None
) -> tuple[float | None, Trace, list[Finding]]:
    """Rate where no can gives one: as entered, else a share of the gross rate.

    Parameters
    ----------
    zone : Zone
        For the rate that was entered.
    gross : float or None
        What the nozzles deliver. [mm/h]

    Returns
    -------
    rate : float or None
        Net rate. [mm/h]
    trace : Trace
        Where it came from.
    findings : list of Finding
        A warning for a guess, a stop where there is no way.

    References
    ----------
    .. [1] Common practice, no source: net is 70 to 100 % of gross.

    Examples
    --------
    >>> from scheduler.site import Plant
    >>> plant = Plant(name="holly", kc=0.85, kc_area="bed")
    >>> zone = Zone(id="Z1", name="yard", area_m2=100.0, grown_in="pots", plant=plant)
    >>> rate_without_cans(zone, 10.0)[0]
    8.5
    """
    where = f"zone {zone.id}"
    if zone.assumed_net_rate_mm_per_h is not None:
        rate = zone.assumed_net_rate_mm_per_h
        trace = entered("net_rate_mm_per_h", rate, "zones.toml: assumed net rate")
        said = Finding(
            "warning",
            where,
            "its rate is assumed, as entered in zones.toml",
            "run a catch-can test",
        )
        return rate, trace, [said]
    if gross is not None:
        rate = gross * ASSUMED_NET_OVER_GROSS
        trace = Trace(
            "net_rate_mm_per_h",
            rate,
            "0.85 x gross rate",
            "common practice, no source (net is 70 to 100 % of gross)",
            (entered("gross_rate_mm_per_h", gross, "packages.toml"),),
            "assumed",
        )
        said = Finding(
            "warning",
            where,
            "its rate is assumed: 0.85 of what the nozzles deliver",
            "run a catch-can test, or enter assumed_net_rate_in_per_h or _mm_per_h",
        )
        return rate, trace, [said]
    said = Finding(
        "stop",
        where,
        "neither a test nor a nozzle flow tells its rate",
        "run a catch-can test, or enter nozzle flow and spacing in packages.toml",
    )
    return None, entered("net_rate_mm_per_h", None, "not known"), [said]


def _unmeasured(
    zone: Zone,
    basis: Literal["stated", "assumed"],
    rate: tuple[float, Trace],
    du: tuple[float, Trace],
    test: CanTest | None,
) -> ZoneCatch:
    """Shares of a bell-shaped catch with that uniformity."""
    share = normal_shares(du[0])
    return ZoneCatch(
        zone.id,
        basis,
        share,
        None,
        None,
        rate[0],
        du[0],
        low_half_from_low_quarter(du[0]),
        uniformity(share).cu,
        0,
        0,
        test.name if test else "",
        test.condition if test else "",
        test.date if test else None,
        rate[1],
        du[1],
    )


def assumed(
    zone: Zone, gross: float | None
) -> tuple[ZoneCatch | None, tuple[Finding, ...]]:
    """What an untested zone gets, with a warning.

    Parameters
    ----------
    zone : Zone
        For what was entered.
    gross : float or None
        What the nozzles deliver. [mm/h]

    Returns
    -------
    catch : ZoneCatch or None
        None where no rate can be told.
    findings : tuple of Finding
        What is assumed and how to replace it.

    References
    ----------
    .. [1] Haman and Yeager, Univ. Florida AE194 (below 0.60 is low).

    Examples
    --------
    >>> from scheduler.site import Plant
    >>> plant = Plant(name="holly", kc=0.85, kc_area="bed")
    >>> zone = Zone(id="Z1", name="yard", area_m2=100.0, grown_in="pots", plant=plant)
    >>> assumed(zone, 10.0)[0].du_lq
    0.6
    """
    net, rate_trace, said = rate_without_cans(zone, gross)
    if net is None:
        return None, tuple(said)
    du = zone.assumed_du_lq or ASSUMED_DU_LQ
    how = "as entered" if zone.assumed_du_lq else "the mark below which it is low"
    grown = "pots" if zone.grown_in == "pots" else "plants"
    said.append(
        Finding(
            "warning",
            f"zone {zone.id}",
            f"DU low quarter is assumed as {du:.2f} ({how})",
            f"run a catch-can test; until then {grown} may run dry or drown",
        )
    )
    trace = Trace(
        "du_lq",
        du,
        f"assumed, {how}; a bell-shaped catch",
        "Univ. Florida AE194 (below 60 % is low)",
        (),
        "untested zone",
    )
    return _unmeasured(zone, "assumed", (net, rate_trace), (du, trace), None), tuple(
        said
    )


def stated_catch(
    zone: Zone, test: CanTest, gross: float | None
) -> tuple[ZoneCatch | None, tuple[Finding, ...]]:
    """What a reported result without readings gives.

    Parameters
    ----------
    zone : Zone
        For a rate, where the report has none.
    test : CanTest
        A test with a stated result.
    gross : float or None
        What the nozzles deliver. [mm/h]

    Returns
    -------
    catch : ZoneCatch or None
        None where no rate can be told.
    findings : tuple of Finding
        That the low half is a formula.

    References
    ----------
    .. [1] Mecham, 2010, ASABE IRR10-10040 (low half from low quarter).

    Examples
    --------
    >>> from scheduler.record import StatedResult
    >>> from scheduler.site import Plant
    >>> plant = Plant(name="holly", kc=0.85, kc_area="bed")
    >>> zone = Zone(id="Z1", name="yard", area_m2=100.0, grown_in="pots", plant=plant)
    >>> report = StatedResult(0.71, 12.0, "report of 2024")
    >>> day = dt.date(2024, 5, 1)
    >>> test = CanTest("t", "test.toml", "Z1", day, "", None, (), report)
    >>> round(stated_catch(zone, test, None)[0].du_lh, 3)
    0.826
    """
    stated = test.stated
    assert stated is not None, "the caller has looked"
    said: list[Finding] = []
    if stated.net_rate_mm_per_h is not None:
        net: float | None = stated.net_rate_mm_per_h
        rate_trace = entered("net_rate_mm_per_h", net, f"{test.where}: {stated.source}")
    else:
        net, rate_trace, said = rate_without_cans(zone, gross)
    if net is None:
        return None, tuple(said)
    said.append(
        Finding(
            "note",
            test.where,
            f"only a result is known (DU {stated.du_lq:.2f}, {stated.source}), no "
            "cans; the low half is taken as 0.4 + 0.6 DU",
            "keep the readings next time: the low half is then measured",
        )
    )
    trace = entered("du_lq", stated.du_lq, f"{test.where}: {stated.source}")
    found = _unmeasured(zone, "stated", (net, rate_trace), (stated.du_lq, trace), test)
    return found, tuple(said)
