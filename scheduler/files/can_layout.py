"""The [layout] of a test.toml in; how the cans stood, and what is wrong, out."""

import math
from collections.abc import Callable, Iterator

from scheduler.files.can_runs import OpenTest
from scheduler.files.can_test_nouns import Layout
from scheduler.files.toml_scan import Path as Keys
from scheduler.record import CanLayout, CanRun

LISTS = ("heads", "edge_rows", "edge_columns")
CORNERS = "corners"
# A head further out than this many cans tells of another count of places (common
# practice, no source).
MOST_CANS_OUT = 12.0


def read_layout(inside: OpenTest, runs: tuple[CanRun, ...]) -> CanLayout:
    """Read how the cans of a test stood; what is wrong is left out and said.

    Parameters
    ----------
    inside : OpenTest
        The test folder; it gathers what is wrong.
    runs : tuple of CanRun
        The runs, for how many rows and columns there are.

    Returns
    -------
    CanLayout
        What could be read.
    """
    table = inside.toml.data.get("layout")
    if table is None:
        return CanLayout()
    noun = inside.reading.noun(Layout, inside.toml, ("layout",), skip=LISTS)
    if not isinstance(table, dict):
        return CanLayout()
    shape = runs[0].reading.shape if runs else (0, 0)
    heads = table.get("heads", [])
    is_corners = isinstance(heads, str) and heads.casefold() == CORNERS
    places = () if is_corners else tuple(_heads(inside, heads, shape))
    noun = noun or Layout()
    return CanLayout(
        noun.can_spacing_m,
        noun.row_spacing_m,
        noun.row_bearing_deg,
        places,
        is_corners,
        tuple(_lines(inside, "edge_rows", table.get("edge_rows", []), shape[0])),
        tuple(_lines(inside, "edge_columns", table.get("edge_columns", []), shape[1])),
    )


def _heads(
    inside: OpenTest, heads: object, shape: tuple[int, ...]
) -> Iterator[tuple[float, float]]:
    """Places of the heads, counted from 0."""
    keys: Keys = ("layout", "heads")
    fix = (
        'write heads = "corners", or row and column of each, such as '
        "heads = [[0.5, 0.5], [0.5, 6.5]] for heads half a can beyond row 1"
    )
    if not isinstance(heads, list):
        inside.say("stop", keys, f"is {inside.toml.typed(keys)}", fix)
        return
    for one in heads:
        if not _is_pair(one):
            inside.say("stop", keys, f"holds {one}, which is no row and column", fix)
            continue
        row, column = float(one[0]), float(one[1])
        out = max(
            0.5 - row, row - shape[0] - 0.5, 0.5 - column, column - shape[1] - 0.5
        )
        if shape[0] and out > MOST_CANS_OUT:
            what = f"holds {one}, {out:g} cans outside the cans"
            inside.say("stop", keys, what, "count rows and columns in cans, from 1")
            continue
        yield row - 1, column - 1


def _is_pair(one: object) -> bool:
    return (
        isinstance(one, list)
        and len(one) == 2
        and all(isinstance(x, int | float) and not isinstance(x, bool) for x in one)
        and all(math.isfinite(x) for x in one)
    )


def _lines(inside: OpenTest, key: str, given: object, count: int) -> Iterator[int]:
    """Rows or columns along the edge, counted from 0."""
    keys: Keys = ("layout", key)
    number_of = _row_number if key == "edge_rows" else _column_number
    example = (
        "edge_rows = [1, 6]" if key == "edge_rows" else 'edge_columns = ["A", "F"]'
    )
    if not isinstance(given, list):
        what = f"is {inside.toml.typed(keys)}, not a list"
        inside.say("stop", keys, what, f"write {example}")
        return
    yield from _numbers(inside, keys, given, (number_of, count, example))


def _numbers(
    inside: OpenTest,
    keys: Keys,
    given: list[object],
    how: tuple[Callable[[object], int | None], int, str],
) -> Iterator[int]:
    number_of, count, example = how
    seen: set[int] = set()
    for one in given:
        number = number_of(one)
        if number is None:
            inside.say("stop", keys, f"holds {one}", f"write {example}")
        elif not 1 <= number <= count and count:
            what = f"holds {one}, and there are {count}"
            inside.say("stop", keys, what, "name one that is there")
        elif number not in seen:
            seen.add(number)
            yield number - 1


def _row_number(one: object) -> int | None:
    return one if isinstance(one, int) and not isinstance(one, bool) else None


def _column_number(one: object) -> int | None:
    """Number of a column, 1 for A, 27 for AA; a number stands for itself."""
    if not isinstance(one, str):
        return _row_number(one)
    letters = one.strip().upper()
    if not 1 <= len(letters) <= 2 or not all("A" <= mark <= "Z" for mark in letters):
        return None
    number = 0
    for mark in letters:
        number = 26 * number + ord(mark) - ord("A") + 1
    return number
