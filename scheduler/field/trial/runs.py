"""Runs of one package, checked, in; the columns that lines are drawn through out."""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, IntArray
from scheduler.errors import SchedulerError

# Winds closer than this are one wind: no logger tells them apart. [m/s]
_ONE_WIND_M_PER_S = 0.01


@dataclass(frozen=True, slots=True, eq=False)
class PackageRuns:
    """Runs of one package.

    Attributes
    ----------
    wind_m_per_s : array of shape (n_runs,)
        Mean wind over each run. [m/s]
    du_lq : array of shape (n_runs,)
        Uniformity of each run. [-]
    day : array of shape (n_runs,)
        Number of the day of each run; the same number means the same day.
    label : tuple of str
        Name of each run as the user knows it; may be empty.
    """

    package: str
    wind_m_per_s: FloatArray
    du_lq: FloatArray
    day: IntArray
    label: tuple[str, ...] = ()

    @property
    def n_days(self) -> int:
        """Days with a run."""
        return int(np.unique(self.day).size)

    @property
    def has_line(self) -> bool:
        """Whether there are two different winds."""
        winds = self.wind_m_per_s
        return winds.size >= 2 and bool(np.ptp(winds) >= _ONE_WIND_M_PER_S)

    def is_outside(self, wind_m_per_s: float) -> bool:
        """Whether a wind is outside those that were tested."""
        low, high = self.wind_m_per_s.min(), self.wind_m_per_s.max()
        return not low <= wind_m_per_s <= high

    def name_of(self, run: int) -> str:
        """A run as it can be found again."""
        name = self.label[run] if self.label else f"run {run + 1}"
        return f"{name} of {self.package} (DU {self.du_lq[run]:.2f})"

    def without(self, run: int) -> "PackageRuns":
        """The same runs without one."""
        return PackageRuns(
            self.package,
            np.delete(self.wind_m_per_s, run),
            np.delete(self.du_lq, run),
            np.delete(self.day, run),
            self.label[:run] + self.label[run + 1 :],
        )


def refuse_no_line(runs: PackageRuns) -> None:
    """Refuse runs that no line of DU against wind goes through.

    Parameters
    ----------
    runs : PackageRuns
        Runs of one package.

    Raises
    ------
    SchedulerError
        If there are fewer than two runs, or all in one wind.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> wind = np.array([1.0, 2.0])
    >>> refuse_no_line(PackageRuns("a", wind, np.array([0.8, 0.7]), np.array([1, 1])))
    """
    if not runs.has_line:
        raise SchedulerError(
            f"package {runs.package}: {runs.du_lq.size} runs give no line of DU "
            "against wind",
            "test it in at least two different winds",
        )


def line_design(runs: PackageRuns) -> FloatArray:
    """Columns of a straight line against wind.

    Parameters
    ----------
    runs : PackageRuns
        Runs of one package.

    Returns
    -------
    array of shape (n_runs, 2)
        Ones, and the wind. [-, m/s]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> wind = np.array([1.5])
    >>> line_design(PackageRuns("a", wind, np.array([0.8]), np.array([1]))).tolist()
    [[1.0, 1.5]]
    """
    return np.stack([np.ones(runs.wind_m_per_s.size), runs.wind_m_per_s], axis=1)
