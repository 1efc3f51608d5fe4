"""Repairs and moves of a zone in; from when each kind of evidence still counts out."""

import datetime as dt
from dataclasses import dataclass

from scheduler.log import Entry, Log, Respacing
from scheduler.need.pot_layout import centres_m
from scheduler.need.pot_moves import pots_on
from scheduler.proof.hardware import changed_on
from scheduler.site import Pots, Zone

# spacings closer than this are one spacing, rounded (common practice, no source)
SAME_SPACING = 0.03


@dataclass(frozen=True, slots=True)
class Reset:
    """A day from which on older evidence of some kind says nothing any more."""

    date: dt.date
    why: str
    where: str


@dataclass(frozen=True, slots=True)
class Resets:
    """What invalidated older evidence of a zone, newest of each kind.

    Attributes
    ----------
    hardware : Reset or None
        Other hardware: minutes bring another depth. Leaching checks before it rest on
        the old rate; pot weights know nothing of sprinklers and stay.
    standing : Reset or None
        The block was moved or set anew: a plant has another ground, light and rain
        shadow. Nothing older counts.
    """

    hardware: Reset | None
    standing: Reset | None

    def check_from(self) -> Reset | None:
        """What the newest leaching check must not be older than."""
        both = [one for one in (self.hardware, self.standing) if one is not None]
        return max(both, key=lambda one: one.date, default=None)


def resets_of(zone: Zone, log: Log, today: dt.date) -> Resets:
    """The newest change of hardware and of the standing of pots, up to a day.

    Parameters
    ----------
    zone : Zone
        With its package, and the moves of its pots.
    log : Log
        Repairs, changes of hardware, respaced and moved blocks.
    today : date
        Nothing later counts.

    Returns
    -------
    Resets
        None where there was no change. A repair that is no change resets nothing.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.log import Repair
    >>> new = Repair(where="log.csv:9", typed="", date=dt.date(2026, 5, 18), zone="Z5",
    ...              what="new nozzles", is_change=True)
    >>> yard = Zone(id="Z5", name="yard", area_m2=9.0, grown_in="pots", watered="off")
    >>> resets_of(yard, Log((new,)), dt.date(2026, 6, 8)).hardware.why
    'new nozzles'
    """
    change = changed_on(zone, log, dt.date.min, today)
    hardware = None
    if change is not None:
        why = change.what or change.note or "the hardware changed"
        hardware = Reset(change.date, why, change.where)
    moves = [
        Reset(one.date, "the block was respaced", one.where)
        for one in respacings(zone, log, today)
    ]
    if zone.pots is not None:
        moves += [
            Reset(one.on, "the pots were moved", f"zone {zone.id}: pots")
            for one in zone.pots.moved
        ]
    return Resets(hardware, _newest(moves, today))


def respacings(zone: Zone, log: Log, today: dt.date) -> tuple[Respacing, ...]:
    """Blocks of a zone that the log says were moved or respaced, oldest first.

    Parameters
    ----------
    zone : Zone
        The zone.
    log : Log
        What was noted.
    today : date
        Nothing later counts.

    Returns
    -------
    tuple of Respacing
        In the order of their days.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> yard = Zone(id="Z5", name="yard", area_m2=9.0, grown_in="pots", watered="off")
    >>> respacings(yard, Log(), dt.date(2026, 6, 8))
    ()
    """
    every = log.of(Respacing)
    return tuple(one for one in every if one.date <= today and _is_of(zone, one))


def unconfirmed_spacing(zone: Zone, log: Log, today: dt.date) -> Respacing | None:
    """The newest respacing of the log, where zones.toml says another spacing.

    Parameters
    ----------
    zone : Zone
        With its pots as the file describes them.
    log : Log
        What was noted.
    today : date
        Nothing later counts.

    Returns
    -------
    Respacing or None
        None where both agree, or nobody measured.

    Notes
    -----
    A move in zones.toml of that day or later is the newer word, and answers it.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> apart = Respacing(where="log.csv:9", typed="", date=dt.date(2026, 6, 2),
    ...                   zone="Z4", spacing_m=0.4)
    >>> yard = Zone(id="Z4", name="yard", area_m2=9.0, grown_in="pots", watered="off",
    ...             pots=Pots(top_diameter_mm=254.0, spacing_m=0.35))
    >>> unconfirmed_spacing(yard, Log((apart,)), dt.date(2026, 6, 8)).where
    'log.csv:9'
    """
    noted = [one for one in respacings(zone, log, today) if one.spacing_m is not None]
    if zone.pots is None or not noted:
        return None
    newest = noted[-1]
    if any(newest.date <= one.on <= today for one in zone.pots.moved):
        return None
    stands = centres_m(pots_on(zone.pots, newest.date))
    return newest if stands is None or not _is_same(newest, stands) else None


def noted_pots(pots: Pots, noted: Respacing) -> Pots:
    """Pots as the log says that they stand since a respacing.

    Parameters
    ----------
    pots : Pots
        As the file describes them.
    noted : Respacing
        With its spacing.

    Returns
    -------
    Pots
        At the noted spacing; in an offset block equilateral, if no rows were noted.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> apart = Respacing(where="log.csv:9", typed="", date=dt.date(2026, 6, 2),
    ...                   zone="Z4", spacing_m=0.4)
    >>> noted_pots(Pots(top_diameter_mm=254.0, gap_m=0.0), apart).spacing_m
    0.4
    """
    spaced = {"spacing_m": noted.spacing_m, "row_spacing_m": noted.row_spacing_m}
    return pots.model_copy(update={**spaced, "gap_m": None})


def _is_same(noted: Respacing, stands: tuple[float, float]) -> bool:
    along, across = noted.spacing_m, noted.row_spacing_m
    assert along is not None, "asked before"
    pairs = [(along, stands[0])] + ([(across, stands[1])] if across else [])
    return all(abs(said / known - 1.0) <= SAME_SPACING for said, known in pairs)


def _is_of(zone: Zone, entry: Entry) -> bool:
    return entry.zone.casefold() == zone.id.casefold()


def _newest(every: list[Reset], today: dt.date) -> Reset | None:
    past = [one for one in every if one.date <= today]
    return max(past, key=lambda one: (one.date, one.where), default=None)
