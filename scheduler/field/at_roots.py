"""A zone's catch and its tests in, the catch as roots in soil reach it out."""

from collections.abc import Sequence
from dataclasses import replace

from scheduler.arrays import frozen
from scheduler.errors import Finding
from scheduler.field.guess import ZoneCatch
from scheduler.field.smoothing import smoothed_shares
from scheduler.record import CanTest
from scheduler.site import Zone


def at_the_roots(
    zone: Zone, catch: ZoneCatch, tests: Sequence[CanTest]
) -> tuple[ZoneCatch, tuple[Finding, ...]]:
    """The catch as roots in soil reach it, where somebody said how far they spread.

    Parameters
    ----------
    zone : Zone
        With `root_spread_m` under its soil.
    catch : ZoneCatch
        What its cans caught.
    tests : sequence of CanTest
        Tests of the zone, for how far apart the cans stood.

    Returns
    -------
    catch : ZoneCatch
        With smoothed shares; as it was where nobody asked, or nobody can know.
    findings : tuple of Finding
        That it was done, or why not.

    References
    ----------
    Source: definition, as `smoothed_shares`.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> zone = Zone(id="Z1", name="yard", area_m2=100.0, grown_in="soil",
    ...             watered="off", assumed_net_rate_mm_per_h=12.0)
    >>> catch = assumed(zone, None)[0]
    >>> at_the_roots(zone, catch, ())[0] is catch
    True
    """
    spread_m = zone.soil.root_spread_m if zone.soil is not None else None
    if spread_m is None or catch.row is None or catch.column is None:
        return catch, ()
    where = f"zone {zone.id}: root_spread"
    test = next((one for one in tests if one.name == catch.test), None)
    along = test.layout.can_spacing_m if test is not None else None
    if test is None or along is None:
        what = (
            "roots cannot be spread: how far apart the cans stood is not written down"
        )
        fix = "enter can_spacing under [layout] in the test's test.toml"
        return catch, (Finding("note", where, what, fix),)
    share = smoothed_shares(
        catch.run_share,
        (catch.row, catch.column),
        (test.layout.row_spacing_m or along, along),
        spread_m=spread_m,
    )
    what = "roots are taken to draw alike from the places within their spread"
    fix = "probe wet and dry places to see whether they do; pots never share water"
    said = Finding("note", where, what, fix)
    mean = frozen(share.mean(axis=0))
    return replace(catch, share=mean, tested=share), (said,)
