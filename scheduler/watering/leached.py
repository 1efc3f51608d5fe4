"""A rule's factor and a leaching in, the one factor that rules and what leaches out."""

from dataclasses import dataclass

from scheduler.errors import Finding, SchedulerError
from scheduler.need.zone_leaching import ZoneLeaching
from scheduler.site import Rule
from scheduler.trace import Trace
from scheduler.watering.run_time import RowName

# less than this part of the water is as good as nothing
NOTHING = 0.01


@dataclass(frozen=True, slots=True)
class Adequacy:
    """The one factor of a zone, and what made it.

    Attributes
    ----------
    ruled_by : str
        The zone's rule, or `leaching target`.
    factor : float
        Mean depth over need. [-]
    served_factor : float
        Mean depth over need that just fills the position which the rule serves; its
        depletion is the need. Smaller than `factor` where leaching is added. [-]
    """

    ruled_by: RowName
    factor: float
    served_factor: float


@dataclass(frozen=True, slots=True)
class WeekLeaching:
    """What a week leaches, and what was asked.

    Attributes
    ----------
    requirement : float or None
        Of a soil under salt. [-]
    target : float or None
        Of pots. [-]
    quarters : tuple of float
        Part of its water that each quarter, driest first, gets above its need; empty
        without watering. [-]
    rule_factor, leaching_factor : float or None
        What was compared, in pots with a target. [-]
    trace : Trace
        Of what the driest quarter leaches.
    """

    requirement: float | None
    target: float | None
    quarters: tuple[float, ...]
    rule_factor: float | None
    leaching_factor: float | None
    trace: Trace


def adequacy(
    rule: Rule, served_factor: float, leaching: ZoneLeaching | None
) -> Adequacy:
    """The factor of a rule or of a leaching target, the larger and never both.

    Parameters
    ----------
    rule : str
        The zone's rule.
    served_factor : float
        Its factor; of the low quarter, where the rule leaches it. [-]
    leaching : ZoneLeaching or None
        What the zone asks for.

    Returns
    -------
    Adequacy
        The factor and who rules.

    Raises
    ------
    SchedulerError
        If the rule leaches the low quarter and no requirement of a soil is known.

    Notes
    -----
    In pots an uneven catch leaches most pots already, so that the target is compared
    with the rule and not multiplied. The rule for soil, 1 / (DU (1 - LR)), leaches the
    driest quarter by the requirement.

    References
    ----------
    Source: definition; soil: Ayers and Westcot, 1985, FAO-29 Rev. 1, section 2.4.2.

    Examples
    --------
    >>> from scheduler.trace import entered
    >>> wanted = ZoneLeaching(0.2, True, entered("leaching_target", 0.2))
    >>> adequacy("low quarter", 1.1, wanted).ruled_by
    'leaching target'
    >>> adequacy("low quarter", 1.4, wanted).factor
    1.4
    """
    if rule == "low quarter, leached" and (leaching is None or leaching.is_target):
        raise SchedulerError(
            "the rule 'low quarter, leached' needs the leaching requirement of a soil, "
            "and none is known",
            "enter water_ec_ds_per_m under [supply] and target_ec_ds_per_m or "
            "salt_crop under [zone.soil], or choose another rule",
        )
    if leaching is None:
        return Adequacy(rule, served_factor, served_factor)
    if rule == "low quarter, leached":
        return Adequacy(rule, served_factor * leaching.factor, served_factor)
    if leaching.is_target and leaching.factor > served_factor:
        return Adequacy("leaching target", leaching.factor, served_factor)
    return Adequacy(rule, served_factor, served_factor)


def served_rule(rule: Rule) -> Rule:
    """The rule whose served position sets nights and need.

    Parameters
    ----------
    rule : str
        The zone's rule.

    Returns
    -------
    str
        The rule itself; the low quarter, where the rule leaches it.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> served_rule("low quarter, leached")
    'low quarter'
    """
    return "low quarter" if rule == "low quarter, leached" else rule


def leached_part(got_over_need: float) -> float:
    """Part of the water that passes the roots where more comes than is needed.

    Parameters
    ----------
    got_over_need : float
        What came over what is needed. [-]

    Returns
    -------
    float
        1 - need / got; 0 where less came than is needed. [-]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> leached_part(1.25), leached_part(0.8)
    (0.19999999999999996, 0.0)
    """
    return 1.0 - 1.0 / got_over_need if got_over_need > 1.0 else 0.0


def week_leaching(
    adequate: Adequacy,
    leaching: ZoneLeaching | None,
    quarters: tuple[float, ...],
    realised: tuple[Trace, Trace],
) -> WeekLeaching:
    """What each quarter leaches in a week of whole minutes.

    Parameters
    ----------
    adequate : Adequacy
        The factor that ruled.
    leaching : ZoneLeaching or None
        What was asked.
    quarters : tuple of float
        What the driest to the wettest quarter get over need; empty without watering.
    realised : tuple of Trace
        Of the need, and of the mean depth that the whole minutes give.

    Returns
    -------
    WeekLeaching
        By quarter, driest first.

    Notes
    -----
    Of the mean of each quarter. Rain leaches besides and is not in it.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.trace import entered
    >>> made = week_leaching(
    ...     Adequacy("low quarter", 1.25, 1.25), None, (1.0, 1.25, 1.25, 1.6),
    ...     (entered("need_mm", 20.0), entered("realised_depth_mm", 25.0)))
    >>> [round(one, 2) for one in made.quarters]
    [0.0, 0.2, 0.2, 0.38]
    """
    leached = tuple(leached_part(one) for one in quarters)
    is_target = leaching is not None and leaching.is_target
    fraction = leaching.fraction if leaching is not None else None
    asked = (leaching.trace,) if leaching is not None else ()
    return WeekLeaching(
        requirement=None if is_target else fraction,
        target=fraction if is_target else None,
        quarters=leached,
        rule_factor=adequate.served_factor if is_target else None,
        leaching_factor=leaching.factor if leaching and is_target else None,
        trace=Trace(
            "driest_quarter_leaching",
            leached[0] if leached else None,
            "1 - need_mm / what the driest quarter gets of realised_depth_mm; 0 where "
            "it gets less than its need",
            "definition",
            (*realised, *asked),
        ),
    )


def leaching_findings(
    where: str,
    leaching: ZoneLeaching | None,
    *,
    by_rule: tuple[float, ...],
    leached: tuple[float, ...],
) -> tuple[Finding, ...]:
    """Warnings where the driest quarter leaches nothing, or less than it must.

    Parameters
    ----------
    where : str
        The zone, as findings name it.
    leaching : ZoneLeaching or None
        What the zone asks for; nothing is said where it asks for none.
    by_rule : tuple of float
        What each quarter gets over need before minutes are rounded, driest first. [-]
    leached : tuple of float
        What each quarter leaches with whole minutes; empty without watering. [-]

    Returns
    -------
    tuple of Finding
        At most one.

    Notes
    -----
    Judged by the exact minutes: whether a warning is due must not hang on half a
    minute of rounding.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.trace import entered
    >>> wanted = ZoneLeaching(0.15, True, entered("leaching_target", 0.15))
    >>> leaching_findings("zone Z4", wanted, by_rule=(1.0, 1.1, 1.2, 1.3),
    ...                   leached=(0.01, 0.1, 0.18, 0.24))[0].level
    'warning'
    """
    if leaching is None or not leached or leaching.fraction == 0:
        return ()
    if leaching.is_covered:
        return ()
    driest, place = leached_part(by_rule[0]), f"{where}: leaching"
    each = ", ".join(f"{one:.0%}" for one in leached)
    asked = f"{leaching.fraction:.0%} {'target' if leaching.is_target else 'required'}"
    if driest < NOTHING:
        what = (
            f"the driest quarter leaches next to nothing (driest to wettest {each}; "
            f"{asked}): salts stay there"
        )
        fix = "better uniformity is the cure; until then check EC in its driest pots"
        if not leaching.is_target:
            fix = "choose rule = 'low quarter, leached', or improve uniformity"
        return (Finding("warning", place, what, fix),)
    if leaching.is_target or driest >= leaching.fraction - NOTHING:
        return ()
    what = f"the driest quarter leaches less than it must ({each}; {asked})"
    fix = "choose rule = 'low quarter, leached', or improve uniformity"
    return (Finding("note", place, what, fix),)
