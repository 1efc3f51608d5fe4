"""Numbers, what they hang on and their groups in; a line with what each group does out.

Runs of one day share its wind direction, pressure and helpers, so the day is what
repeats. The error of a fit is taken from how much each day pulls at it.
"""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, IntArray, frozen

# Eigenvalues below this are directions that a group fits by itself.
_OWN = 1e-10


@dataclass(frozen=True, slots=True, eq=False)
class ClusteredFit:
    """Least-squares fits whose errors are taken from their groups.

    Attributes
    ----------
    coefficients : array of shape (..., n_columns)
        Least squares.
    pulls : array of shape (..., n_groups, n_columns)
        What each group does to the coefficients, its leverage undone.
    squares : array of shape (..., n_groups, n_columns, n_columns)
        Products of the columns, summed over each group.
    levers : array of shape (..., n_groups, n_columns, n_columns)
        From the products of a group to its pulls.
    bread : array of shape (..., n_columns, n_columns)
        Inverse of the products of all groups.
    """

    coefficients: FloatArray
    pulls: FloatArray
    squares: FloatArray
    levers: FloatArray
    bread: FloatArray

    def value(self, contrast: FloatArray) -> FloatArray:
        """The contrast of the coefficients, one a fit."""
        return np.asarray(self.coefficients @ contrast)

    def variance(self, contrast: FloatArray) -> FloatArray:
        """Variance of a contrast over groups, with the bias-reducing adjustment."""
        return np.asarray(((self.pulls @ contrast) ** 2).sum(axis=-1))

    def degrees(self, contrast: FloatArray) -> FloatArray:
        """Satterthwaite degrees of freedom of a contrast, at least 1."""
        lever = self.levers @ contrast
        reach = np.einsum("...gij,...gj->...gi", self.squares, lever)
        # covariance of the groups' pulls under independent errors of the rows
        inner = -np.einsum("...gi,...ij,...hj->...gh", reach, self.bread, reach)
        own = np.arange(inner.shape[-1])
        inner[..., own, own] += (lever * reach).sum(axis=-1)
        square = (inner**2).sum(axis=(-1, -2))
        trace = np.trace(inner, axis1=-2, axis2=-1)
        found = np.divide(trace**2, square, out=np.ones_like(square), where=square > 0)
        return np.asarray(np.maximum(found, 1.0))


def group_sums(
    design: FloatArray, y: FloatArray, group: IntArray
) -> tuple[FloatArray, FloatArray]:
    """What a clustered fit needs of each group.

    Parameters
    ----------
    design : array of shape (n_rows, n_columns)
        What the numbers hang on.
    y : array of shape (n_rows,)
        The numbers.
    group : array of shape (n_rows,)
        Group of each row, such as its day.

    Returns
    -------
    tuple of array
        Products of the columns of shape (n_groups, n_columns, n_columns), and of the
        columns with the numbers of shape (n_groups, n_columns), groups ascending.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> ones, y = np.ones((3, 1)), np.array([1.0, 2.0, 6.0])
    >>> squares, cross = group_sums(ones, y, np.array([7, 7, 9]))
    >>> squares.ravel().tolist(), cross.ravel().tolist()
    ([2.0, 1.0], [3.0, 6.0])
    """
    numbers, place = np.unique(group, return_inverse=True)
    n_columns = design.shape[1]
    squares = np.zeros((numbers.size, n_columns, n_columns))
    np.add.at(squares, place, design[:, :, None] * design[:, None, :])
    cross = np.zeros((numbers.size, n_columns))
    np.add.at(cross, place, design * y[:, None])
    return squares, cross


def clustered_fit(squares: FloatArray, cross: FloatArray) -> ClusteredFit:
    """Least squares, with the variance and degrees of freedom of few groups.

    Parameters
    ----------
    squares : array of shape (..., n_groups, n_columns, n_columns)
        Products of the columns, summed over each group; independent over all groups.
    cross : array of shape (..., n_groups, n_columns)
        Products of the columns with the numbers, summed over each group.

    Returns
    -------
    ClusteredFit
        Coefficients, and what is needed for the error of any contrast.

    Notes
    -----
    The variance is the cluster-robust one with the adjustment (1 - H)^(-1/2) of each
    group, often called CR2; with one row a group it is HC2. It needs no further factor
    for few groups. The degrees of freedom are Satterthwaite's, under independent
    errors. All of it follows from sums of groups, since with bread L L' the adjusted
    columns are X L (1 - L' X'X L)^(-1/2) L^(-1). A coefficient that only one group
    knows has no variance here: ask for two groups at least.

    References
    ----------
    .. [1] Bell and McCaffrey, 2002, Bias reduction in standard errors for linear
       regression with multi-stage samples, Survey Methodology 28.
    .. [2] Imbens and Kolesár, 2016, Robust standard errors in small samples: some
       practical advice, Rev. Econ. Stat. 98.

    Examples
    --------
    The mean of three days: its variance is that of the days over three, two degrees.

    >>> day = group_sums(np.ones((3, 1)), np.array([1.0, 2.0, 6.0]), np.arange(3))
    >>> fit = clustered_fit(*day)
    >>> [round(float(one(np.ones(1))), 3) for one in (fit.variance, fit.degrees)]
    [2.333, 2.0]
    """
    bread = np.linalg.inv(squares.sum(axis=-3))
    bread = (bread + np.swapaxes(bread, -1, -2)) / 2
    coefficients = np.einsum("...ij,...gj->...i", bread, cross)
    scores = cross - np.einsum("...gij,...j->...gi", squares, coefficients)
    root = np.linalg.cholesky(bread)[..., None, :, :]
    turned = np.swapaxes(root, -1, -2)
    left = np.eye(squares.shape[-1]) - turned @ squares @ root
    values, vectors = np.linalg.eigh(left)
    by = np.where(values > _OWN, 1 / np.sqrt(np.maximum(values, _OWN)), 0.0)
    adjusted = (vectors * by[..., None, :]) @ np.swapaxes(vectors, -1, -2)
    levers = root @ adjusted @ turned
    pulls = np.einsum("...gi,...gij->...gj", scores, levers)
    return ClusteredFit(
        frozen(coefficients), frozen(pulls), frozen(squares), frozen(levers),
        frozen(bread),
    )  # fmt: skip
