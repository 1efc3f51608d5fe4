"""A leaching check that goes against ET in; its likely causes, ranked, out."""

import datetime as dt
import math
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.field.guess import ZoneCatch
from scheduler.log import Respacing
from scheduler.need.capture import capture_of
from scheduler.need.pot_layout import interception_share, pots_per_m2
from scheduler.need.pot_moves import pots_on
from scheduler.proof.observed import SeenCheck
from scheduler.proof.resets import noted_pots
from scheduler.site import Pots, Zone
from scheduler.units import System, shown

# How far a cause's own number may be off, as part of itself; a test that aged may be
# off either way (common practice, no source).
GEOMETRY_SD, AGED_SD, ENTERED_SD = 0.15, 0.15, 0.20
STALE_DAYS = 180
MOVED_DAYS = 28
ONE_DAY = dt.timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Cause:
    """One thing that would set the check against the plan.

    Attributes
    ----------
    what : str
        The cause with its arithmetic.
    fix : str
        What to look at.
    expected_ratio : float
        Measured over modelled use, were it the cause. [-]
    sd : float
        How far that may be off, on the log scale. [-]
    log_likelihood : float
        Of the measured ratio, were it the cause; larger is likelier.
    """

    what: str
    fix: str
    expected_ratio: float
    sd: float
    log_likelihood: float


@dataclass(frozen=True, slots=True)
class Circumstances:
    """What a check may be set against the plan by.

    Attributes
    ----------
    zone : Zone
        As it stands in the plan.
    catch : ZoneCatch
        The test that the plan rests on.
    unconfirmed : Respacing or None
        Where log.csv and zones.toml say different spacings.
    today : date
        For the age of the test.
    units : str
        How numbers are said.
    """

    zone: Zone
    catch: ZoneCatch
    unconfirmed: Respacing | None
    today: dt.date
    units: System


def ranked_causes(seen: SeenCheck, about: Circumstances) -> tuple[Cause, ...]:
    """What may set a check against the plan, likeliest first.

    Parameters
    ----------
    seen : SeenCheck
        The check, and what was modelled.
    about : Circumstances
        Zone, test and spacing.

    Returns
    -------
    tuple of Cause
        Causes that this zone can have; the entered coefficient itself is always one.

    Notes
    -----
    Each cause says what measured over modelled use it would give; the nearer the
    measured one, for the errors of both, the likelier. A coefficient meant for the pot
    tops and taken for the bed is too large by the share of the bed under pot tops (or
    by one over capture, where it was meant as in this program). A coefficient on the
    bed goes with the pots on it.

    References
    ----------
    Source: geometry and balance of water; the errors are common practice, no source.

    Examples
    --------
    >>> ranked_causes.__name__
    'ranked_causes'
    """
    found = [
        *_wrong_area(about),
        *_respaced(seen, about),
        *_stale_test(seen, about),
        _entered_kc(seen, about),
    ]
    made = [_weighed(one, seen) for one in found]
    return tuple(sorted(made, key=lambda one: (-one.log_likelihood, one.what)))


def _weighed(cause: tuple[str, str, float, float], seen: SeenCheck) -> Cause:
    what, fix, ratio, sd = cause
    both = math.hypot(sd, seen.seen.sd)
    off = (seen.seen.log_ratio - math.log(ratio)) / both
    return Cause(what, fix, ratio, sd, -0.5 * off * off - math.log(both))


def _wrong_area(about: Circumstances) -> list[tuple[str, str, float, float]]:
    plant, pots = about.zone.plant, about.zone.pots
    if plant is None or pots is None or plant.kc_area != "bed":
        return []
    stands = pots
    if about.unconfirmed is not None:
        stands = noted_pots(pots, about.unconfirmed)
    found, share = [], interception_share(stands)
    fix = "find out what area the coefficient is on, and enter kc_area"
    if share is not None:
        what = (
            f"Kc meant per pot top, used on the bed: tops are {share:.0%} of the bed, "
            f"which would give {share:.2f} of the use"
        )
        found.append((what.replace("% of", " % of"), fix, share, GEOMETRY_SD))
    capture = capture_of(stands).factor
    if capture > 1.0:
        what = (
            f"Kc meant per pot top, and leaves lead {capture:.2f} times the water into "
            f"the pot: 1/{capture:.2f} = {1 / capture:.2f} of the use"
        )
        found.append((what, fix, 1.0 / capture, GEOMETRY_SD))
    return found


def _respaced(
    seen: SeenCheck, about: Circumstances
) -> list[tuple[str, str, float, float]]:
    pots, plant = about.zone.pots, about.zone.plant
    if pots is None or plant is None or plant.kc_area != "bed":
        return []
    noted = about.unconfirmed
    if noted is not None:
        ratio = _density_ratio(pots_on(pots, noted.date), noted_pots(pots, noted))
        if ratio is None:
            return []
        apart = shown(1000.0 * (noted.spacing_m or 0.0), "mm", about.units, digits=1)
        what = (
            f"block respaced: {noted.where} says {apart} since {noted.date}, "
            f"zones.toml another spacing; pots per area are {ratio:.2f} of before, and "
            "a Kc on the bed with them"
        )
        fix = "confirm the new spacing: enter it as [[zone.pots.moved]]"
        return [(what, fix, ratio, GEOMETRY_SD)]
    moves = [one for one in pots.moved if one.on <= seen.seen.date]
    newest = max(moves, key=lambda one: one.on, default=None)
    if newest is None or (seen.seen.date - newest.on).days > MOVED_DAYS:
        return []
    ratio = _density_ratio(pots_on(pots, newest.on - ONE_DAY), pots_on(pots, newest.on))
    if ratio is None:
        return []
    what = (
        f"pots moved on {newest.on}: pots per area are {ratio:.2f} of before, and a Kc "
        "on the bed with them"
    )
    return [(what, "enter kc anew for the new spacing", ratio, GEOMETRY_SD)]


def _density_ratio(before: Pots, after: Pots) -> float | None:
    was, now = pots_per_m2(before), pots_per_m2(after)
    return None if was is None or now is None else now / was


def _stale_test(
    seen: SeenCheck, about: Circumstances
) -> list[tuple[str, str, float, float]]:
    catch = about.catch
    rate = catch.net_rate_mm_per_h
    wanted = shown(rate / seen.seen.ratio, "mm_per_h", about.units)
    is_now = shown(rate, "mm_per_h", about.units)
    would = f"the rate would have to be {wanted}, not {is_now}"
    if catch.basis == "assumed" or catch.date is None:
        what = f"rate assumed, never tested: {would}"
        return [(what, "run a catch-can test", 1.0, 2 * AGED_SD)]
    age = (seen.seen.date - catch.date).days
    if age < STALE_DAYS:
        return []
    what = f"stale test, {age} days old at the check: {would}"
    return [(what, "test again", 1.0, AGED_SD * age / STALE_DAYS)]


def _entered_kc(seen: SeenCheck, about: Circumstances) -> tuple[str, str, float, float]:
    ratio = seen.seen.ratio
    source = about.zone.plant.kc_from if about.zone.plant else ""
    told = f" ({source})" if source else ""
    what = f"Kc as entered{told}: the check asks for {ratio:.2f} of it"
    return what, "check again in a week; two that agree are learned", 1.0, ENTERED_SD


def conflict_finding(
    seen: SeenCheck, about: Circumstances, *, plan_minutes: int | None, nights: int
) -> Finding | None:
    """ET and a leaching check that ask for opposite changes, with likely causes.

    Parameters
    ----------
    seen : SeenCheck
        The newest check that counts.
    about : Circumstances
        Zone, test and spacing.
    plan_minutes : int or None
        What the plan gives a night. [min]
    nights : int
        Nights a week on which the plan waters.

    Returns
    -------
    Finding or None
        None where both point the same way.

    Notes
    -----
    Both numbers stand side by side; no mean of them is made.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> conflict_finding.__name__
    'conflict_finding'
    """
    pots = seen.pots
    if pots.new is None or not pots.minutes or not plan_minutes or not nights:
        return None
    up = plan_minutes > pots.minutes
    if pots.new.minutes == pots.minutes or plan_minutes == pots.minutes:
        return None
    if up == (pots.new.minutes > pots.minutes):
        return None
    word, other = ("more", "less") if up else ("less", "more")
    causes = ranked_causes(seen, about)
    listed = "; ".join(f"{i}. {one.what}" for i, one in enumerate(causes, 1))
    what = (
        f"ET asks for {word}, the leaching check for {other}: {pots.minutes:g} min "
        f"ran, the plan says {plan_minutes}, the check {pots.new.minutes} "
        f"({_floor_text(pots.new.by_mean, pots.new.floor)}); it measured "
        f"{seen.seen.ratio:.2f} of the use that was modelled. Likely causes: {listed}"
    )
    where = f"{pots.check.where}: zone {about.zone.id}: conflict"
    return Finding("warning", where, what, causes[0].fix)


def _floor_text(by_mean: float, floor: float) -> str:
    return f"{by_mean:.1f} by the mean of the pots, {floor:.1f} by the driest one"
