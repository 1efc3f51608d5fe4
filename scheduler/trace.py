"""Where a number came from: name, value, unit, inputs, formula in words, source."""

from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Trace:
    """One number of the chain from the cans to the minutes.

    Attributes
    ----------
    name : str
        Key of the quantity with its unit suffix, as in the JSON (`net_rate_mm_per_h`).
    value : float, str or None
        The value itself, in the unit of the suffix; None when it cannot be known.
    formula : str
        The formula in words, with the names of the inputs.
    source : str
        Publication, "measured", "entered", "common practice, no source" or
        "definition".
    inputs : tuple of Trace
        What it was made from.
    note : str
        Anything the reader must know, such as a guess and how to replace it.
    """

    name: str
    value: float | str | None
    formula: str
    source: str
    inputs: tuple["Trace", ...] = ()
    note: str = ""

    def chain(self) -> Iterator["Trace"]:
        """Every trace this one rests on, inputs before results, each name once."""
        yield from _walk(self, set())

    def find(self, name: str) -> "Trace | None":
        """Return the first trace of that name in the chain, or None."""
        return next((one for one in self.chain() if one.name == name), None)


def _walk(node: Trace, seen: set[str]) -> Iterator[Trace]:
    for one in node.inputs:
        yield from _walk(one, seen)
    if node.name not in seen:
        seen.add(node.name)
        yield node


def entered(name: str, value: float | str | None, where: str = "") -> Trace:
    """Trace of a value that somebody entered in the site folder.

    Parameters
    ----------
    name : str
        Key with its unit suffix.
    value : float, str or None
        The value.
    where : str
        File or field it was read from.

    Returns
    -------
    Trace
        A leaf of the chain.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> entered("mouth_area_cm2", 91.5).source
    'entered'
    """
    return Trace(name, value, "as entered", "entered", (), where)
