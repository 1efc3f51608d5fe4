"""Observations of Kc and rate with dates in; corrections, their range and drift out.

Corrections are ratios, so all of it is on the log scale: a prior around 1, observations
with their own errors, and a truth that wanders over the season. Two things may be off,
the coefficient and the rate: pots on the scales see the first, a meter the second, a
leaching check their quotient, which is what the minutes hang on. The log is the only
state: whoever takes a line out of it takes back what it taught.
"""

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from scheduler.arrays import FloatArray

Kind = Literal["leaching check", "pot weights", "meter"]

Asked = Literal["minutes", "kc", "rate"]
# how each sees the logarithms of Kc and rate, true over entered
SEES: dict[str, tuple[float, float]] = {
    "leaching check": (1.0, -1.0),
    "pot weights": (1.0, 0.0),
    "meter": (0.0, 1.0),
    "minutes": (1.0, -1.0),
    "kc": (1.0, 0.0),
    "rate": (0.0, 1.0),
}
# One standard deviation of a coefficient as entered, over the true one: 20 % either
# way; and of a rate by cans over that of the season's nights: 8 % (common practice, no
# source).
KC_SD, RATE_SD = 0.20, 0.08
# How long the difference lasts: after a year about a third of what was seen still
# counts, and from week to week the truth moves by about 4 % (common practice, no
# source).
FADING_DAYS = 365.0
# Past this many standard deviations from what all else says, it is not believed yet.
GATE = 2.0
LEVEL, LEVEL_FACTOR = 0.90, 1.6448536269514722
LEAST, MOST = 0.5, 2.0


@dataclass(frozen=True, slots=True, order=True)
class Observation:
    """One look at the correction: measured over modelled.

    Attributes
    ----------
    date : date
        The day it stands for.
    log_ratio : float
        Natural logarithm of measured over modelled. [-]
    sd : float
        Its standard error. [-]
    kind, where : str
        What it is, and its first line in the log.
    is_at_least : bool
        The true ratio is this or more, as where a pot leached nothing.
    """

    date: dt.date
    log_ratio: float
    sd: float
    kind: Kind
    where: str
    is_at_least: bool = False

    @property
    def ratio(self) -> float:
        """Measured over modelled. [-]."""
        return math.exp(self.log_ratio)


@dataclass(frozen=True, slots=True)
class Learned:
    """A correction as it stands on a day.

    Attributes
    ----------
    of : str
        Of the minutes (Kc over rate), of Kc alone, or of the rate.
    on : date
        The day.
    log_mean, log_sd : float
        On the log scale. [-]
    used, held : tuple of Observation
        What it rests on, and what stands against all else and is not believed yet.
    unheard : tuple of Observation
        Lower limits that the rest passes anyway.
    """

    of: Asked
    on: dt.date
    log_mean: float
    log_sd: float
    used: tuple[Observation, ...] = ()
    held: tuple[Observation, ...] = ()
    unheard: tuple[Observation, ...] = ()

    @property
    def factor(self) -> float:
        """What the coefficient is multiplied with; 1 without evidence. [-]."""
        return min(MOST, max(LEAST, math.exp(self.log_mean)))

    @property
    def low(self) -> float:
        """Lower end of its range, 90 % sure. [-]."""
        return math.exp(self.log_mean - LEVEL_FACTOR * self.log_sd)

    @property
    def high(self) -> float:
        """Upper end of its range, 90 % sure. [-]."""
        return math.exp(self.log_mean + LEVEL_FACTOR * self.log_sd)

    @property
    def weight(self) -> float:
        """Weight of the evidence against what was entered, 0 to 1. [-]."""
        return max(0.0, 1.0 - (self.log_sd / prior_sd(self.of)) ** 2)


def prior_sd(of: Asked) -> float:
    """How far off what was entered may be, before anything is observed.

    Parameters
    ----------
    of : str
        Of the minutes, of Kc, or of the rate.

    Returns
    -------
    float
        One standard deviation of the logarithm. [-]

    References
    ----------
    Source: common practice, no source.

    Examples
    --------
    >>> prior_sd("kc"), round(prior_sd("minutes"), 3)
    (0.2, 0.215)
    """
    kc, rate = SEES[of]
    return math.hypot(kc * KC_SD, rate * RATE_SD)


def learned(
    observations: Sequence[Observation], on: dt.date, of: Asked = "minutes"
) -> Learned:
    """A correction on a day from all observations up to it.

    Parameters
    ----------
    observations : sequence of Observation
        In any order; those after the day are left out.
    on : date
        The day.
    of : str
        Of the minutes (Kc over rate), of Kc alone, or of the rate.

    Returns
    -------
    Learned
        A factor of exactly 1 where nothing was observed.

    Notes
    -----
    The logarithms of both corrections are Gaussian processes with mean 0, standard
    deviations of 0.20 and 0.08 and correlation exp(-days / 365); their posterior is
    exact. An observation that the others and the prior together leave more than 2
    standard deviations away is held back, the worst first, until another one agrees
    with it. A lower limit counts only where it lies above what the rest says.

    References
    ----------
    .. [1] Rasmussen and Williams, 2006, Gaussian Processes for Machine Learning,
       equations 2.25, 2.26 and 5.12 (left out one at a time; from memory).

    Examples
    --------
    >>> day = dt.date(2026, 6, 8)
    >>> seen = Observation(day, math.log(0.9), 0.10, "leaching check", "log.csv:3")
    >>> now = learned([seen], day)
    >>> round(now.factor, 3), round(now.weight, 2)
    (0.917, 0.82)
    >>> learned([], day).factor
    1.0
    """
    known = sorted(one for one in observations if one.date <= on)
    sure = [one for one in known if not one.is_at_least]
    used, held = _agreeing(sure)
    limits = [one for one in known if one.is_at_least]
    raising = [one for one in limits if _is_above(one, used)]
    more, not_yet = _agreeing([*used, *raising])
    mean, sd = _posterior(more, [on], of)
    return Learned(
        of,
        on,
        float(mean[0]),
        float(sd[0]),
        tuple(more),
        tuple(sorted([*held, *not_yet])),
        tuple(one for one in limits if one not in raising),
    )


def seen_as(learnt: Learned, of: Asked) -> Learned:
    """The same evidence, asked about something else.

    Parameters
    ----------
    learnt : Learned
        What is believed, and what is held back.
    of : str
        Of the minutes, of Kc alone, or of the rate.

    Returns
    -------
    Learned
        On the same day, from the same looks.

    References
    ----------
    Source: as `learned`.

    Examples
    --------
    >>> day = dt.date(2026, 6, 8)
    >>> seen = Observation(day, math.log(0.9), 0.10, "leaching check", "log.csv:3")
    >>> round(seen_as(learned([seen], day), "rate").factor, 3)
    1.012
    """
    mean, sd = _posterior(learnt.used, [learnt.on], of)
    return replace(learnt, of=of, log_mean=float(mean[0]), log_sd=float(sd[0]))


def drift(learnt: Learned, days: Sequence[dt.date]) -> tuple[Learned, ...]:
    """How the correction went over the weeks, seen from its day with all it rests on.

    Parameters
    ----------
    learnt : Learned
        As it stands.
    days : sequence of date
        Days that are asked for.

    Returns
    -------
    tuple of Learned
        One a day, with its own range.

    References
    ----------
    Source: as `learned`.

    Examples
    --------
    >>> day = dt.date(2026, 6, 8)
    >>> seen = Observation(day, math.log(0.9), 0.10, "leaching check", "log.csv:3")
    >>> before = drift(learned([seen], day), [dt.date(2026, 4, 8)])[0]
    >>> 0.917 < before.factor < 1
    True
    """
    if not days:
        return ()
    mean, sd = _posterior(learnt.used, days, learnt.of)
    return tuple(
        Learned(learnt.of, day, float(mean[i]), float(sd[i]), learnt.used)
        for i, day in enumerate(days)
    )


def _together(
    days: Sequence[tuple[dt.date, str]], others: Sequence[tuple[dt.date, str]]
) -> FloatArray:
    """Covariance of what is seen or asked on some days with the same on others."""
    first = np.array([one.toordinal() for one, _ in days], dtype=float)
    other = np.array([one.toordinal() for one, _ in others], dtype=float)
    fading = np.exp(-np.abs(first[:, None] - other[None, :]) / FADING_DAYS)
    sees, of = (
        np.array([SEES[name] for _, name in each]).reshape(-1, 2)
        for each in (days, others)
    )
    return np.asarray((sees * [KC_SD**2, RATE_SD**2]) @ of.T * fading)


def _dated(seen: Sequence[Observation]) -> list[tuple[dt.date, str]]:
    return [(one.date, one.kind) for one in seen]


def _noisy(seen: Sequence[Observation]) -> FloatArray:
    noise = np.diag([one.sd**2 for one in seen])
    return _together(_dated(seen), _dated(seen)) + noise


def _posterior(
    seen: Sequence[Observation], on: Sequence[dt.date], of: str
) -> tuple[FloatArray, FloatArray]:
    """Mean and standard deviation on the asked days."""
    asked = [(day, of) for day in on]
    prior = np.diag(_together(asked, asked))
    if not seen:
        return np.zeros(len(on)), np.sqrt(prior)
    cross = _together(asked, _dated(seen))
    log_ratio = np.array([one.log_ratio for one in seen])
    pulled = np.linalg.solve(_noisy(seen), cross.T)
    variance = prior - np.einsum("ij,ji->i", cross, pulled)
    return log_ratio @ pulled, np.sqrt(np.maximum(variance, 0.0))


def _apart(seen: Sequence[Observation]) -> FloatArray:
    """Distance of each from what all others say, in standard deviations."""
    inverse = np.linalg.inv(_noisy(seen))
    pulled = inverse @ np.array([one.log_ratio for one in seen])
    return np.asarray(np.abs(pulled) / np.sqrt(np.diag(inverse)))


def _agreeing(
    seen: Sequence[Observation],
) -> tuple[list[Observation], list[Observation]]:
    """Those that agree, and those that stand against all else; the worst goes first."""
    kept: list[Observation] = list(seen)
    held: list[Observation] = []
    while kept:
        apart = _apart(kept)
        worst = float(apart.max())
        if worst <= GATE:
            break
        # twins go together, so that the order of their lines cannot matter
        out = [one for one, far in zip(kept, apart, strict=True) if far > worst - 1e-9]
        held += out
        kept = [one for one in kept if one not in out]
    return kept, held


def _is_above(limit: Observation, used: Sequence[Observation]) -> bool:
    mean, _ = _posterior(used, [limit.date], limit.kind)
    return limit.log_ratio > float(mean[0])
