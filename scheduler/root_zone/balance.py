"""Use, rain and watering in, depletion out: FAO-56 chapter 8 at every position.

Order of a day: water comes early, what does not fit drains, then plants use water.
That is the order of FAO-56 example 38. Equation 88 as printed takes the day's use off
before it drains (I - ETc - Dr), as if plants drank before the excess was gone: on the
first day of that example it would drain 11.5 mm and end full, where the book's own
table drains 17 mm and ends 5.5 mm down. Sprinklers run at night, so the table is right.

Stress follows the depletion that plants meet: at the start of the day, after the early
water. Without water that is example 37; example 35 sets its start of day the same way.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import SchedulerError
from scheduler.root_zone.storage import Storage

ROUND_OFF_MM = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class BalanceDay:
    """One day at every position.

    Attributes
    ----------
    depletion_mm : array of shape (..., n_positions)
        Depletion at the end of the day. [mm]
    etc_mm : array of the same shape
        Water used, less than asked where plants were short. [mm]
    percolation_mm : array of the same shape
        Water that drained below the roots. [mm]
    stored_rain_mm : array of the same shape
        Rain that found room after the night's watering. [mm]
    """

    depletion_mm: FloatArray
    etc_mm: FloatArray
    percolation_mm: FloatArray
    stored_rain_mm: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Balance:
    """Days at every position; all arrays are of shape (..., n_days, n_positions).

    Attributes
    ----------
    depletion_mm : array
        Depletion at the end of each day, before the night's watering. [mm]
    etc_mm, percolation_mm, stored_rain_mm : array
        As in `BalanceDay`. [mm]
    closure_error_mm : float
        Largest difference, over positions, between what came and what went. [mm]
    """

    depletion_mm: FloatArray
    etc_mm: FloatArray
    percolation_mm: FloatArray
    stored_rain_mm: FloatArray
    closure_error_mm: float


def stress_ks(
    depletion_mm: npt.ArrayLike, *, total_mm: float, allowed_mm: float
) -> FloatArray:
    """Water stress coefficient.

    Parameters
    ----------
    depletion_mm : float or array
        Depletion of the root zone. [mm]
    total_mm, allowed_mm : float
        Total and readily available water, TAW and RAW. [mm]

    Returns
    -------
    array of the same shape
        1 without stress, 0 where nothing is left. [-]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 169, equation 84.

    Examples
    --------
    >>> float(stress_ks(80.0, total_mm=110.0, allowed_mm=44.0).round(2))
    0.45
    """
    left = total_mm - np.asarray(depletion_mm, dtype=np.float64)
    # all of it allowed: no stress until nothing is left
    below = max(total_mm - allowed_mm, ROUND_OFF_MM)
    # np.clip costs several times as much on a few positions
    return np.asarray(np.minimum(np.maximum(left / below, 0.0), 1.0))


def balance_day(
    depletion_mm: npt.ArrayLike,
    *,
    etc_mm: npt.ArrayLike,
    rain_mm: npt.ArrayLike,
    watering_mm: npt.ArrayLike,
    storage: Storage,
) -> BalanceDay:
    """One day of the root zone balance: water early, drain, then use.

    Parameters
    ----------
    depletion_mm : array of shape (..., n_positions)
        Depletion at the end of the day before. [mm]
    etc_mm, rain_mm : float or array
        Unstressed use of the day, and its rain. [mm]
    watering_mm : array of shape (..., n_positions)
        Depth that each position got in the night before. [mm]
    storage : Storage
        What the root zone holds.

    Returns
    -------
    BalanceDay
        The end of the day.

    Notes
    -----
    No runoff and no rise from below. Watering came in the night, so it finds room
    before the rain of the day; rain that then finds none is percolation.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equations 81, 84 to 88 in the order of
       example 38, p. 172.

    Examples
    --------
    >>> from scheduler.trace import entered
    >>> bed = Storage(39.0, 23.4, entered("allowed_depletion_mm", 23.4))
    >>> day = balance_day([23.0], etc_mm=5.5, rain_mm=0.0, watering_mm=40.0,
    ...                   storage=bed)
    >>> day.percolation_mm.tolist(), day.depletion_mm.tolist()
    ([17.0], [5.5])
    """
    start = np.asarray(depletion_mm, dtype=np.float64)
    rain = np.asarray(rain_mm, dtype=np.float64)
    asked = np.asarray(etc_mm, dtype=np.float64)
    watering = np.asarray(watering_mm, dtype=np.float64)
    room = np.maximum(start - watering, 0.0)
    stored_rain = np.minimum(rain, room)
    early = np.maximum(room - rain, 0.0)
    percolation = np.maximum(watering + rain - start, 0.0)
    ks = stress_ks(early, total_mm=storage.total_mm, allowed_mm=storage.allowed_mm)
    used = np.minimum(ks * asked, np.maximum(storage.total_mm - early, 0.0))
    return BalanceDay(early + used, used, percolation, stored_rain)


def run_balance(
    start_depletion_mm: npt.ArrayLike,
    *,
    etc_mm_per_day: npt.ArrayLike,
    rain_mm: npt.ArrayLike,
    watering_mm: FloatArray,
    storage: Storage,
) -> Balance:
    """Root zone balance of many days at every position.

    Parameters
    ----------
    start_depletion_mm : array of shape (..., n_positions)
        Depletion before the first day. [mm]
    etc_mm_per_day, rain_mm : array of shape (..., n_days)
        Unstressed use and rain of each day. [mm]
    watering_mm : array of shape (..., n_days, n_positions)
        Depth that each position got before each day. [mm]
    storage : Storage
        What the root zone holds; the same along leading axes.

    Returns
    -------
    Balance
        Every day; nothing is lost between what came and what went.

    Raises
    ------
    SchedulerError
        If a number is negative or unknown, or the start is drier than dry.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8, as in `balance_day`.

    Examples
    --------
    >>> from scheduler.trace import entered
    >>> bed = Storage(160.0, 64.0, entered("allowed_depletion_mm", 64.0))
    >>> dry = run_balance([55.0], etc_mm_per_day=[6.0] * 3, rain_mm=[0.0] * 3,
    ...                   watering_mm=np.zeros((3, 1)), storage=bed)
    >>> dry.depletion_mm[:, 0].round(1).tolist()
    [61.0, 67.0, 72.8]
    """
    start = np.asarray(start_depletion_mm, dtype=np.float64)
    etc = np.asarray(etc_mm_per_day, dtype=np.float64)
    rain = np.asarray(rain_mm, dtype=np.float64)
    for name, values in (
        ("start_depletion_mm", start),
        ("etc_mm_per_day", etc),
        ("rain_mm", rain),
        ("watering_mm", watering_mm),
    ):
        _refuse_below_zero(name, values)
    _refuse_drier_than_dry(start, storage)
    depletion = np.broadcast_to(start, np.shape(watering_mm[..., 0, :]))
    days = []
    for d in range(watering_mm.shape[-2]):
        day = balance_day(
            depletion,
            etc_mm=etc[..., d, None],
            rain_mm=rain[..., d, None],
            watering_mm=watering_mm[..., d, :],
            storage=storage,
        )
        depletion = day.depletion_mm
        days.append(day)
    return _joined(days, start, rain, watering_mm)


def _joined(
    days: list[BalanceDay], start: FloatArray, rain: FloatArray, watering: FloatArray
) -> Balance:
    depletion = np.stack([day.depletion_mm for day in days], axis=-2)
    used = np.stack([day.etc_mm for day in days], axis=-2)
    percolation = np.stack([day.percolation_mm for day in days], axis=-2)
    stored = np.stack([day.stored_rain_mm for day in days], axis=-2)
    came = watering.sum(axis=-2) + rain.sum(axis=-1)[..., None]
    went = used.sum(axis=-2) + percolation.sum(axis=-2)
    change = depletion[..., -1, :] - start
    closure = float(np.max(np.abs(went - came - change)))
    return Balance(
        frozen(depletion), frozen(used), frozen(percolation), frozen(stored), closure
    )


def _refuse_below_zero(name: str, values: FloatArray) -> None:
    if not np.all(values >= 0) or not np.all(np.isfinite(values)):
        wrong = values[~((values >= 0) & np.isfinite(values))].flat[0]
        raise SchedulerError(f"{name} is {wrong:g}", "give 0 or more for every day")


def _refuse_drier_than_dry(start: FloatArray, storage: Storage) -> None:
    if np.any(start > storage.total_mm + ROUND_OFF_MM):
        raise SchedulerError(
            f"start_depletion_mm is {start.max():g}, but the root zone only holds "
            f"{storage.total_mm:g} mm",
            "start at most that dry",
        )
