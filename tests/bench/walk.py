"""Half an hour of use as keys: visits to every page in the shares of a working day.

A visit opens something, presses keys that belong there, and leaves it. Which visit and
which keys is drawn from a seed, so a walk can be walked again.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class Visit:
    """How to open a page, what is pressed there, and how many visits in a hundred."""

    share: int
    keys: tuple[str, ...]
    inside: tuple[str, ...]
    most: int
    leave: tuple[str, ...] = ("escape",)


VISITS: dict[str, Visit] = {
    "zones": Visit(24, (), ("down", "down", "j", "up", "k", "pagedown", "home"), 9, ()),
    "zone": Visit(
        20,
        ("enter",),
        ("n", "n", "p", "v", "tab", "1", "3", "pagedown", "pageup"),
        7,
    ),
    "traces": Visit(4, ("enter", "e"), ("j", "k", "j"), 4, ("escape", "escape")),
    "tests": Visit(4, ("t",), ("down", "up"), 3),
    "cans": Visit(8, ("c",), ("right", "left", "n", "p", "1", "2", "3", "v", "x"), 6),
    "wind": Visit(4, ("w",), ("right", "left", "j", "k", "v", "x"), 5),
    "spacing": Visit(
        3, ("s",), ("right", "left", "up", "down", "l", "o", "n", "minus", "plus"), 7
    ),
    "need": Visit(
        7, ("b",), ("right", "left", "v", "tab", "d", "k", "plus", "minus", "x"), 6
    ),
    "season": Visit(4, ("y",), ("right", "left", "2", "3", "o", "plus", "minus"), 5),
    "hours": Visit(
        7, ("h",), ("right", "left", "down", "up", "right", "v", "pagedown", "minus"), 8
    ),
    "proof": Visit(5, ("l",), ("right", "left", "v", "tab", "pagedown", "x"), 6),
    "money": Visit(4, ("m",), ("j", "k", "j", "pagedown", "x"), 5),
    "findings": Visit(2, ("f",), ("down", "j", "k", "pagedown"), 6),
    "help": Visit(1, ("question_mark",), ("pagedown",), 1),
    "undo": Visit(2, ("ctrl+z", "ctrl+z"), (), 0, ()),
    "units": Visit(1, ("u",), (), 0, ("u",)),
}
HOME = ""  # not a key: from here the walk starts at the table of zones again


def walk(n_keys: int, seed: int) -> Iterator[tuple[str, str]]:
    """So many keys, each with the visit it belongs to; `home` ends a visit."""
    rng = np.random.default_rng(seed)
    names = list(VISITS)
    shares = np.array([one.share for one in VISITS.values()], dtype=float)
    # every page once, then as it comes
    first = list(rng.permutation(names))
    pressed = 0
    while pressed < n_keys:
        name = first.pop() if first else str(rng.choice(names, p=shares / shares.sum()))
        visit = VISITS[name]
        count = int(rng.integers(1, visit.most + 1)) if visit.most else 0
        inside = [str(rng.choice(visit.inside)) for _ in range(count)]
        for key in (*visit.keys, *inside, *visit.leave):
            pressed += 1
            yield name, key
        yield name, HOME
