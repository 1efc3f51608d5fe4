"""A TOML text before an edit and after it in; the latter, if it says so much, out."""

import contextlib
import copy
import tomllib
from collections.abc import Callable
from itertools import accumulate
from typing import Any

from scheduler.errors import SaveError
from scheduler.files.toml_scan import Path

BY_HAND = "change this place in the file by hand, then read the folder again"


def quoted(text: str) -> str:
    r"""A text as TOML writes it.

    Examples
    --------
    >>> quoted('rim of the 4" pot')
    '"rim of the 4\\" pot"'
    """
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    for plain, sign in (("\n", "\\n"), ("\t", "\\t"), ("\r", "\\r")):
        escaped = escaped.replace(plain, sign)
    return f'"{escaped}"'


def inside(data: Any, place: Path) -> Any:
    """What stands at a place of a file's values; refused where there is none."""
    try:
        return list(accumulate(place, lambda one, part: one[part], initial=data))[-1]
    except (KeyError, IndexError, TypeError) as lost:
        raise SaveError(f"{named(place)} is not there", BY_HAND) from lost


def named(place: Path) -> str:
    """A place as a message names it: `zone.4.soil`."""
    return ".".join(f"{part + 1}" if isinstance(part, int) else part for part in place)


def checked(before: str, after: str, change: Callable[[Any], object]) -> str:
    """The new text, if it says what it should and nothing else."""
    wanted = copy.deepcopy(tomllib.loads(before))
    try:
        change(wanted)
    except tomllib.TOMLDecodeError as wrong:
        raise SaveError(f"what was typed is not TOML ({wrong})", BY_HAND) from wrong
    with contextlib.suppress(tomllib.TOMLDecodeError):
        if tomllib.loads(after) == wanted:
            return after
    what = "the layout of the file does not let this be changed from here"
    raise SaveError(what, BY_HAND)
