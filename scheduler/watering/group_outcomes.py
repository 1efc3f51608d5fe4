"""Groups under one valve and the week's minutes in; what each group gets out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from scheduler.errors import Finding
from scheduler.need.groups import GroupUse
from scheduler.root_zone.storage import zone_storage
from scheduler.site import Zone
from scheduler.trace import Trace, entered

DAYS_A_WEEK = 7
# within a tenth nobody would build another valve (common practice, no source)
MUCH_MORE = 1.10
SHORT = 0.95


@dataclass(frozen=True, slots=True)
class GroupOutcome:
    """What one group of plants gets from minutes that another one may have set.

    Attributes
    ----------
    name : str
        The group.
    rules : bool
        Whether it set the minutes.
    etc_mm : float
        Its use of the week, as depth on the bed. [mm]
    got_over_need : float or None
        Mean depth put on, over what the same rule would give the group alone;
        None without watering. [-]
    days_held : float or None
        Days of use that its allowed depletion covers; None where the water it holds is
        not known. [days]
    trace : Trace
        Of `got_over_need`.
    """

    name: str
    rules: bool
    etc_mm: float
    got_over_need: float | None
    days_held: float | None
    trace: Trace


def group_outcomes(
    uses: Sequence[GroupUse], ruling: Zone, nights: Sequence[dt.date]
) -> tuple[tuple[GroupOutcome, ...], tuple[Finding, ...]]:
    """What each group gets, and what must be said of those that do not rule.

    Parameters
    ----------
    uses : sequence of GroupUse
        Every group's use.
    ruling : Zone
        The zone with the plants that set the minutes.
    nights : sequence of date
        Nights of watering.

    Returns
    -------
    outcomes : tuple of GroupOutcome
        One a group, thirstiest first.
    findings : tuple of Finding
        Groups that get much more or less than they use, or dry out between waterings.

    Notes
    -----
    The ruling group's need is what its use and its rain leave; another group's is that
    need times its own use over the ruling group's, so that rain and factor are alike.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> bay = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", watered="off")
    >>> group_outcomes((), bay, ())
    ((), ())
    """
    follows_use = ruling.watered in ("when due", "every allowed day")
    if not follows_use or not any(one.zone is ruling for one in uses):
        return (), ()  # no group sets the minutes where somebody fixed them
    first = next(one for one in uses if one.zone is ruling)
    base, name = first.etc_mm, first.name
    outcomes, findings = [], []
    for one in uses:
        ratio = base / one.etc_mm if nights and one.etc_mm > 0 else None
        per_day = one.etc_mm / DAYS_A_WEEK
        storage, _ = zone_storage(one.zone, etc_mm_per_day=per_day)
        held = storage.allowed_mm / per_day if storage and per_day > 0 else None
        trace = Trace(
            f"got_over_need ({one.name})",
            ratio,
            "use of the group that rules / use of this group, both on the bed",
            "definition",
            (entered("etc_mm", one.etc_mm, f"{one.name}, of the week"),
             entered("etc_mm", base, f"{name}, which rules")),
        )  # fmt: skip
        made = GroupOutcome(one.name, one is first, one.etc_mm, ratio, held, trace)
        outcomes.append(made)
        findings += _said(made, one.zone.id, name, nights)
    return tuple(outcomes), tuple(findings)


def _said(
    made: GroupOutcome, zone_id: str, ruling: str, nights: Sequence[dt.date]
) -> list[Finding]:
    where = f"zone {zone_id}: {made.name}"
    found: list[Finding] = []
    if made.rules or made.got_over_need is None:
        return found
    if made.got_over_need > MUCH_MORE:
        what = f"{ruling} sets the minutes: this group gets {made.got_over_need:.0%} "
        what = (what + "of what it needs").replace("%", " %")
        fix = "give it a valve of its own, or move it to plants that use alike"
        found.append(Finding("note", where, what, fix))
    if made.got_over_need < SHORT:
        what = f"gets {made.got_over_need:.0%} of what it needs: {ruling} sets the "
        what = (what + "minutes, as group_rules says").replace("%", " %")
        fix = "delete group_rules, water this group by hand, or give it its own valve"
        found.append(Finding("warning", where, what, fix))
    gap = _longest_gap_days(nights)
    if made.days_held is not None and gap > 1 and made.days_held < gap:
        what = (
            f"holds {made.days_held:.1f} days of its use, and waterings are {gap} days "
            "apart: it passes its allowed depletion"
        )
        fix = "water every allowed day, or give this group a valve of its own"
        found.append(Finding("warning", where, what, fix))
    return found


def _longest_gap_days(nights: Sequence[dt.date]) -> int:
    """Between waterings, as if the week came again: one night is seven days apart."""
    if not nights:
        return 0
    first, *rest = sorted(nights)
    again = first + dt.timedelta(days=DAYS_A_WEEK)
    return max((after - one).days for one, after in pairwise((first, *rest, again)))
