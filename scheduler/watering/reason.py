"""The key numbers of two weeks in; what each cause did to the minutes, in words, out.

The minutes of a night are a product: (ETo x Kc x learned x bed factor - rain +
carried) x factor
/ rate / nights x kept, and the rounding on top. Each cause is credited with its mean
effect over all orders in which the old numbers can be replaced by the new ones, so the
shares add up to the whole change.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import factorial

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.issued import KeptOverride, KeyNumbers
from scheduler.trace import Trace, entered

MOST_WORDS = 8
# A second cause is named when it did at least this part of what the first one did
# (common practice, no source).
WORTH_NAMING = 0.4
CAUSES = (
    "weather", "rain", "carried", "crop", "learned", "spacing", "rate", "uniformity",
    "rule", "leaching", "nights", "shortage", "rounding",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class CauseShare:
    """What one cause did to a zone's minutes a night.

    Attributes
    ----------
    cause : str
        One of `CAUSES`.
    minutes : float
        Its part of the change; all parts add up to it. [min]
    words : str
        Such as `weather up 9 %`.
    """

    cause: str
    minutes: float
    words: str


@dataclass(frozen=True, slots=True)
class ZoneChange:
    """What changes at the clock for one zone, and why.

    Attributes
    ----------
    was_minutes : float or None
        Minutes a night that the clock holds. [min]
    was_from : str
        How that is known.
    now_minutes : int or None
        Minutes a night from now on; None where the clock is left as it is. [min]
    change : float or None
        NOW over was, less 1. [-]
    reason : str
        In at most eight words.
    shares : tuple of CauseShare
        Largest first; empty where the numbers of the week before are not known.
    overrides : tuple of KeptOverride
        What people chose since the week before, with their reasons.
    is_changed : bool
        Something has to be keyed in: minutes, cycles, soak or nights.
    trace : Trace
        Of `change`.
    """

    was_minutes: float | None
    was_from: str
    now_minutes: int | None
    change: float | None
    reason: str
    shares: tuple[CauseShare, ...]
    overrides: tuple[KeptOverride, ...]
    is_changed: bool
    trace: Trace


def cause_shares(was: KeyNumbers, now: KeyNumbers) -> tuple[CauseShare, ...]:
    """Each cause's part of the change in minutes a night.

    Parameters
    ----------
    was, now : KeyNumbers
        Of the issued week and of the new one; both water.

    Returns
    -------
    tuple of CauseShare
        Causes that did anything, the largest first; they add up to the change. [min]

    Notes
    -----
    Shapley value over the causes that differ. The rule counts on the catches of the
    week, the uniformity under the rule of the week.

    References
    ----------
    .. [1] Shapley, 1953, A value for n-person games, Contributions to the Theory of
       Games II, eq. 13 (from memory).

    Examples
    --------
    >>> one = KeyNumbers(30.0, 1.0, 1.0, 0.0, 0.0, "average", 1.0, (), 10.0, 0.7, 6,
    ...                  1.0, 30.0, 30)
    >>> from dataclasses import replace
    >>> two = replace(one, eto_mm=33.0, exact_min=33.0, minutes=33)
    >>> [(share.words, round(share.minutes, 6)) for share in cause_shares(one, two)]
    [('weather up 10 %', 3.0)]
    """
    old, new = _inputs(was), _inputs(now)
    differ = [one for one in CAUSES if not np.isclose(old[one], new[one], rtol=1e-9)]
    if was.rule != now.rule and "rule" not in differ:
        differ.append("rule")
    if was.factor_of(now.rule) != now.factor_of(now.rule):
        differ.append("uniformity")
    differ = [one for one in CAUSES if one in differ]
    minutes = _shapley(
        len(differ), lambda bits: _minutes((was, now), (old, new), differ, bits)
    )
    shares = (
        CauseShare(cause, float(part), _words(cause, was, now))
        for cause, part in zip(differ, minutes, strict=True)
    )
    done = (one for one in shares if abs(one.minutes) > 1e-9)
    return tuple(sorted(done, key=lambda one: -abs(one.minutes)))


def reason_words(shares: Sequence[CauseShare]) -> str:
    """The one or two causes that did most, in at most eight words.

    Parameters
    ----------
    shares : sequence of CauseShare
        Largest first.

    Returns
    -------
    str
        The second one is named where it did enough and has room.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> reason_words([CauseShare("weather", 3.0, "weather up 9 %"),
    ...               CauseShare("crop", 2.0, "Kc up 6 %")])
    'weather up 9 %, Kc up 6 %'
    """
    if not shares:
        return "no cause among the key numbers"
    first = shares[0]
    for other in shares[1:]:
        both = f"{first.words}, {other.words}"
        is_enough = abs(other.minutes) >= WORTH_NAMING * abs(first.minutes)
        if is_enough and len(both.split()) <= MOST_WORDS:
            return both
    return first.words


def change_trace(
    was: float | None, was_from: str, now: int | None, shares: Sequence[CauseShare]
) -> Trace:
    """Where the percent change comes from.

    Parameters
    ----------
    was : float or None
        Minutes a night before. [min]
    was_from : str
        How they are known.
    now : int or None
        Minutes a night from now on. [min]
    shares : sequence of CauseShare
        What each cause did.

    Returns
    -------
    Trace
        Of `change`, over the causes.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> change_trace(24.0, "issued week 2026-W23", 22, ()).value
    -0.08333333333333337
    """
    change = now / was - 1.0 if was and now is not None else None
    below = [entered("was_min", was, was_from), entered("now_min", now, "this week")]
    below += [
        Trace(
            f"{one.cause}_effect_min",
            one.minutes,
            f"{one.words}: mean effect over all orders of replacing the old numbers",
            "Shapley (1953), from memory",
        )
        for one in shares
    ]
    return Trace("change", change, "now_min / was_min - 1", "definition", tuple(below))


def _inputs(one: KeyNumbers) -> dict[str, float]:
    exact = one.factor_of(one.rule)
    return {
        "weather": one.eto_mm,
        "rain": one.rain_mm,
        "carried": one.carried_mm,
        "crop": one.kc,
        "learned": one.learned,
        "spacing": one.bed_factor,
        "rate": one.net_rate_mm_per_h,
        "uniformity": 0.0,  # held by the factors of both weeks
        "rule": 0.0,
        "leaching": one.factor / exact,
        "nights": float(one.nights),
        "shortage": one.kept,
        "rounding": one.minutes - one.exact_min,
    }


def _minutes(
    weeks: tuple[KeyNumbers, KeyNumbers],
    inputs: tuple[dict[str, float], dict[str, float]],
    differ: Sequence[str],
    bits: FloatArray,
) -> FloatArray:
    """Minutes a night for each set of new numbers; bits of shape (n_sets, n_causes)."""
    (was, now), (old, new) = weeks, inputs

    def is_new(cause: str) -> FloatArray:
        at = list(differ).index(cause) if cause in differ else None
        return np.zeros(len(bits)) if at is None else bits[:, at]

    def value(cause: str) -> FloatArray:
        return old[cause] + (new[cause] - old[cause]) * is_new(cause)

    rule, test = is_new("rule").astype(int), is_new("uniformity").astype(int)
    rules = (was.rule, now.rule)
    factors = np.array([[week.factor_of(name) for week in weeks] for name in rules])
    need = value("weather") * value("crop") * value("learned") * value("spacing")
    need = np.maximum(need - value("rain") + value("carried"), 0.0)
    depth = need * factors[rule, test] * value("leaching")
    minutes = 60.0 * depth / value("rate") / value("nights") * value("shortage")
    return np.asarray(minutes + value("rounding"))


def _shapley(n: int, worth: Callable[[FloatArray], FloatArray]) -> FloatArray:
    """Shapley value of n players; `worth` of all sets at once."""
    if n == 0:
        return np.zeros(0)
    sets = np.arange(2**n)
    bits = (sets[:, None] >> np.arange(n)) & 1
    values = worth(bits.astype(np.float64))
    size = bits.sum(axis=1)
    weight = np.array(
        [factorial(k) * factorial(n - k - 1) / factorial(n) for k in range(n)] + [0.0]
    )
    parts = np.empty(n)
    for i in range(n):
        without = sets[bits[:, i] == 0]
        gain = values[without | (1 << i)] - values[without]
        parts[i] = float((weight[size[without]] * gain).sum())
    return parts


def _ways(name: str, was: float, now: float) -> str:
    """A cause that went up or down, with its percent."""
    if not was:
        return f"{name} changed"
    change = now / was - 1.0
    return f"{name} {'up' if change > 0 else 'down'} {abs(change) * 100:.0f} %"


def _words(cause: str, was: KeyNumbers, now: KeyNumbers) -> str:
    tested = "new test: " if was.test != now.test else ""
    words = {
        "weather": _ways("weather", was.eto_mm, now.eto_mm),
        "rain": f"{'more' if now.rain_mm > was.rain_mm else 'less'} rain counted",
        "carried": (
            f"week begins {'drier' if now.carried_mm > was.carried_mm else 'wetter'}"
        ),
        "crop": _ways("Kc", was.kc, now.kc),
        "learned": _ways("learned Kc", was.learned, now.learned),
        "spacing": _ways("respaced: bed depth", was.bed_factor, now.bed_factor),
        "rate": tested + _ways("rate", was.net_rate_mm_per_h, now.net_rate_mm_per_h),
        "uniformity": f"{tested}DU {now.du_lq:.2f} (was {was.du_lq:.2f})",
        "rule": f"rule now {now.rule}",
        "leaching": "leaching target changed",
        "nights": f"{now.nights} nights (were {was.nights})",
        "shortage": (
            f"water short: {now.kept * 100:.0f} % kept"
            if now.kept < was.kept
            else "water less short"
        ),
        "rounding": "whole minutes",
    }
    return words[cause]
