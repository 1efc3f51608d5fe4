"""A zone, its log and its test in; what was learned of its Kc, and its use, out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from scheduler.errors import Finding
from scheduler.field.guess import ZoneCatch
from scheduler.issued import IssuedWeek
from scheduler.log import Entry, LeachingPot, Log, PotWeight, Repair, Respacing
from scheduler.need.reference_et import ReferenceET
from scheduler.need.zone_leaching import ZoneLeaching, zone_leaching
from scheduler.need.zone_use import ZoneUse
from scheduler.proof.causes import Circumstances, conflict_finding
from scheduler.proof.floor import FRESH_DAYS, driest_floor, held_by_driest
from scheduler.proof.leaching_check import CheckedPots, checked_pots
from scheduler.proof.learned_words import learned_findings, learned_trace
from scheduler.proof.learning import Learned, Observation, drift, learned, seen_as
from scheduler.proof.metered_rate import rates_seen
from scheduler.proof.nights import Nights, night_of
from scheduler.proof.observed import SeenCheck, SeenWeights, seen_check, seen_weights
from scheduler.proof.past_days import PastDays
from scheduler.proof.resets import Reset, Resets, resets_of, unconfirmed_spacing
from scheduler.proof.weights import weighed_days
from scheduler.record import History
from scheduler.site import Site, Zone
from scheduler.trace import Trace

DRIFT_WEEKS = 26
# by then an eighth of what was seen would count (common practice, no source)
OLDEST_DAYS = 730
WEEK = dt.timedelta(days=7)


@dataclass(frozen=True, slots=True, eq=False)
class Lessons:
    """What all zones learn from.

    Attributes
    ----------
    site : Site
        For its clock, place and whether it learns.
    by_zone : mapping of str to Log
        The log, the only state of learning, by zone id and by package id.
    days : PastDays
        ETo and rain of past days.
    issued : tuple of IssuedWeek
        For the nights that watered.
    rate_seen : mapping of str to tuple of Observation
        What a meter says of the rate, measured over planned, by zone id.
    """

    site: Site
    by_zone: Mapping[str, Log]
    days: PastDays
    issued: tuple[IssuedWeek, ...] = ()
    rate_seen: Mapping[str, tuple[Observation, ...]] = field(default_factory=dict)

    def log_of(self, zone: Zone) -> Log:
        """Lines about a zone, and about the package that stands there."""
        names = (zone.id.casefold(), f"package {zone.package}")
        parts = [self.by_zone.get(name, Log()).entries for name in names]
        return Log((*parts[0], *parts[1]))


@dataclass(frozen=True, slots=True, eq=False)
class ZoneLearned:
    """What the log taught of one zone.

    Attributes
    ----------
    zone : str
        Its id.
    minutes, kc, rate : Learned
        Correction of use over rate, which the minutes hang on; of the coefficient
        alone; of the rate alone.
    factor : float
        What the week's use is multiplied with; exactly 1 where nothing is used. [-]
    floor : float or None
        Least factor that the driest pot allows. [-]
    why_not : str
        Why the factor is not used; empty where it is, or where it is 1.
    checks : tuple of CheckedPots
        Every leaching check by itself, by date.
    newest : SeenCheck or None
        The newest one that counts, against ET.
    weights : tuple of SeenWeights
        Weighed days that count.
    drift : tuple of Learned
        The correction week by week, with its range.
    trace : Trace
        Of the factor.
    findings : tuple of Finding
        What must be said.
    about : Circumstances
        For the causes of a conflict.
    """

    zone: str
    minutes: Learned
    kc: Learned
    rate: Learned
    factor: float
    floor: float | None
    why_not: str
    checks: tuple[CheckedPots, ...]
    newest: SeenCheck | None
    weights: tuple[SeenWeights, ...]
    drift: tuple[Learned, ...]
    trace: Trace
    findings: tuple[Finding, ...]
    about: Circumstances

    @property
    def check(self) -> CheckedPots | None:
        """The newest leaching check, by itself."""
        return self.checks[-1] if self.checks else None

    @property
    def traces(self) -> tuple[Trace, ...]:
        """Of the factor, and of what the newest check asks for by itself."""
        return (self.trace,) if self.check is None else (self.trace, self.check.trace)


def lessons_of(
    site: Site, history: History, series: Sequence[ReferenceET], today: dt.date
) -> Lessons:
    """What the zones of a site learn from on a day.

    Parameters
    ----------
    site : Site
        The site.
    history : History
        Log, gauge and issued weeks.
    series : sequence of ReferenceET
        ETo of the stations.
    today : date
        Nothing of this day or later is known of the weather.

    Returns
    -------
    Lessons
        For `learned_use`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="UTC")
    >>> site = Site(name="Tern Hollow", units="us", place=place)
    >>> lessons_of(site, History(), (), dt.date(2026, 6, 8)).by_zone
    {}
    """
    found: dict[str, list[Entry]] = {}
    for one in history.log.entries:
        if one.date > today:
            continue
        if one.zone:
            found.setdefault(one.zone.casefold(), []).append(one)
        elif isinstance(one, Repair):
            found.setdefault(f"package {one.package}", []).append(one)
    by_zone = {name: Log(tuple(every)) for name, every in found.items()}
    days = PastDays(series, history.rain, today)
    past = Log(tuple(one for one in history.log.entries if one.date <= today))
    rate_seen = rates_seen(site, replace(history, log=past))
    return Lessons(site, by_zone, days, history.issued, rate_seen)


def learned_use(
    zone: Zone, use: ZoneUse, catch: ZoneCatch, lessons: Lessons
) -> tuple[ZoneUse, ZoneLearned | None]:
    """A zone's use with what the log taught, and how it was learned.

    Parameters
    ----------
    zone : Zone
        With its pots as they stand.
    use : ZoneUse
        As entered.
    catch : ZoneCatch
        The test that the plan rests on.
    lessons : Lessons
        Of the site.

    Returns
    -------
    use : ZoneUse
        The very same where nothing was learned.
    learnt : ZoneLearned or None
        None where the log holds nothing about the zone's pots.

    References
    ----------
    Source: as `learned`; the floor is a balance of water.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="UTC")
    >>> site = Site(name="Tern Hollow", units="us", place=place)
    >>> nothing = lessons_of(site, History(), (), dt.date(2026, 6, 8))
    >>> bay = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", watered="off")
    >>> learned_use(bay, None, None, nothing)
    (None, None)
    """
    learnt = _zone_learned(zone, use, catch, lessons)
    if learnt is None or learnt.factor == 1.0:
        return use, learnt
    on_bed = Trace(
        "corrected_bed_factor",
        use.on_bed * learnt.factor,
        "bed_factor x kc_correction",
        "learned from the log",
        (use.trace, learnt.trace),
    )
    return replace(use, on_bed=use.on_bed * learnt.factor, trace=on_bed), learnt


def proof_findings(
    learnt: ZoneLearned | None, minutes: int | None, nights: int
) -> tuple[Finding, ...]:
    """What a planned zone must hear of its checks.

    Parameters
    ----------
    learnt : ZoneLearned or None
        What was learned.
    minutes : int or None
        What the plan gives a night. [min]
    nights : int
        Nights on which it waters.

    Returns
    -------
    tuple of Finding
        Its findings, and a conflict of ET with a fresh check.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> proof_findings(None, 24, 7)
    ()
    """
    if learnt is None:
        return ()
    newest, about = learnt.newest, learnt.about
    if newest is None or (about.today - newest.pots.check.date).days > FRESH_DAYS:
        return learnt.findings
    conflict = conflict_finding(newest, about, plan_minutes=minutes, nights=nights)
    return learnt.findings if conflict is None else (*learnt.findings, conflict)


@dataclass(frozen=True, slots=True, eq=False)
class _Looks:
    """What the log holds about a zone's use, and what must be said of it."""

    pots: tuple[CheckedPots, ...]
    checks: tuple[SeenCheck, ...]
    weights: tuple[SeenWeights, ...]
    metered: tuple[Observation, ...]
    findings: tuple[Finding, ...]

    @property
    def evidence(self) -> list[Observation]:
        """What may teach; one pot on the scales is one plant."""
        return [
            *(one.seen for one in self.checks),
            *(one.seen for one in self.weights if one.day.is_enough),
            *self.metered,
        ]


def _zone_learned(
    zone: Zone, use: ZoneUse, catch: ZoneCatch, lessons: Lessons
) -> ZoneLearned | None:
    log = lessons.log_of(zone)
    is_told = any(isinstance(one, LeachingPot | PotWeight) for one in log.entries)
    if not is_told and not lessons.rate_seen.get(zone.id):
        return None
    today = lessons.days.today
    resets = resets_of(zone, log, today)
    target, _ = zone_leaching(zone, lessons.site.supply)
    looks = _looks(zone, use, catch, lessons, (target, resets))
    unconfirmed = unconfirmed_spacing(zone, log, today)
    minutes = learned(looks.evidence, today)
    floor = driest_floor(zone, catch, target, looks.checks)
    why_not = _why_not(zone, lessons, unconfirmed)
    is_used = bool(minutes.used) and not why_not
    factor = held_by_driest(minutes.factor, floor) if is_used else 1.0
    where = f"zone {zone.id}: kc_correction"
    said = learned_findings(where, minutes, factor, why_not, looks.weights)
    return ZoneLearned(
        zone=zone.id,
        minutes=minutes,
        kc=seen_as(minutes, "kc"),
        rate=seen_as(minutes, "rate"),
        factor=factor,
        floor=floor,
        why_not=why_not,
        checks=looks.pots,
        newest=looks.checks[-1] if looks.checks else None,
        weights=looks.weights,
        drift=drift(minutes, _weeks(minutes, today)),
        trace=learned_trace(minutes, factor, floor, why_not=why_not, resets=resets),
        findings=(*looks.findings, *said),
        about=Circumstances(zone, catch, unconfirmed, today, lessons.site.units),
    )


def _looks(
    zone: Zone,
    use: ZoneUse,
    catch: ZoneCatch,
    lessons: Lessons,
    about: tuple[ZoneLeaching | None, Resets],
) -> _Looks:
    """Checks, weighed days and meter that still count; findings of fresh ones."""
    target, resets = about
    log, days, today = lessons.log_of(zone), lessons.days, lessons.days.today
    nights = Nights(zone, lessons.site, History(log=log, issued=lessons.issued))
    pots, checks, said = [], [], []
    for check in log.leaching_checks():
        night = night_of(check.date, check.time)
        ran = nights.minutes(night)
        one = checked_pots(check, target, minutes=ran, grid=_grid(catch))
        pots.append(one)
        if _is_before(night, resets.check_from(), today):
            continue
        found, told = seen_check(one, use, catch, nights=nights, days=days)
        if (today - check.date).days <= FRESH_DAYS:
            said += [*one.findings, *told]
        if found is not None:
            checks.append(found)
    since = today - dt.timedelta(days=FRESH_DAYS)
    weighed, told = weighed_days(log, nights, lessons.site.place, said_from=since)
    kept = [one for one in weighed if not _is_before(one.date, resets.standing, today)]
    metered = lessons.rate_seen.get(zone.id, ())
    return _Looks(
        tuple(pots),
        tuple(checks),
        seen_weights(kept, zone, use, days),
        tuple(
            one for one in metered if not _is_before(one.date, resets.hardware, today)
        ),
        (*said, *told),
    )


def _grid(catch: ZoneCatch) -> tuple[int, int] | None:
    if catch.row is None or catch.column is None or not catch.row.size:
        return None
    return int(catch.row.max()) + 1, int(catch.column.max()) + 1


def _why_not(zone: Zone, lessons: Lessons, noted: Respacing | None) -> str:
    """Why a factor is shown and not used; empty where it is used."""
    if not lessons.site.learn:
        return "learn = false in site.toml"
    as_filed = lessons.site.zone(zone.id)
    if as_filed is not None and as_filed.group:
        return (
            "several groups of plants stand there, and the log does not say whose pots"
        )
    if noted is not None:
        return (
            f"the spacing noted on {noted.date} ({noted.where}) is not the one in "
            "zones.toml"
        )
    return ""


def _is_before(date: dt.date, reset: Reset | None, today: dt.date) -> bool:
    """Whether evidence is void: from before a change, or too old to count."""
    is_old = (today - date).days > OLDEST_DAYS
    return is_old or (reset is not None and date < reset.date)


def _weeks(minutes: Learned, today: dt.date) -> list[dt.date]:
    """Today and the weeks before it, back to the first that was used."""
    if not minutes.used:
        return []
    first = minutes.used[0].date
    weeks = [today - i * WEEK for i in range(DRIFT_WEEKS)]
    return [one for one in reversed(weeks) if one >= first or one == today]
