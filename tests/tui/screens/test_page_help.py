"""The help names every key of a page, and every key it names works there."""

from typing import Any

import pytest

from tui.screens.cost import CostScreen
from tui.screens.doors import Doors
from tui.screens.field import FieldScreen
from tui.screens.findings import FindingsScreen
from tui.screens.given import GivenScreen
from tui.screens.help import KEYS, subject_of
from tui.screens.keep import KeepScreen
from tui.screens.moves import MovesScreen
from tui.screens.need import NeedScreen
from tui.screens.packages import PackagesScreen
from tui.screens.page_help import PAGES
from tui.screens.proof import ProofScreen
from tui.screens.season import SeasonScreen
from tui.screens.spacing import SpacingScreen
from tui.screens.tests import TestsScreen
from tui.screens.walk import WalkScreen
from tui.screens.week import WeekScreen
from tui.screens.zone import ZoneScreen
from tui.screens.zones import ZonesScreen
from tui.widgets.line_list import LineList

SUBJECTS: dict[str, type[Doors[Any]]] = {
    "zones": ZonesScreen,
    "the weekly walk": WalkScreen,
    "one zone": ZoneScreen,
    "tests of a zone": TestsScreen,
    "tests and wind": FieldScreen,
    "packages against wind": PackagesScreen,
    "spacing": SpacingScreen,
    "need of a zone": NeedScreen,
    "season of a zone": SeasonScreen,
    "hours of the week": WeekScreen,
    "moves": MovesScreen,
    "proof of a zone": ProofScreen,
    "cost": CostScreen,
    "what is tried": KeepScreen,
    "what is given": GivenScreen,
    "findings": FindingsScreen,
}
FACE = {
    "left": "←", "right": "→", "up": "↑", "down": "↓", "minus": "-", "plus": "+",
    "escape": "esc", "dollar_sign": "$", "pageup": "page", "pagedown": "page",
    "equals_sign": "+", "slash": "/", "left_square_bracket": "[",
    "right_square_bracket": "]",
}  # fmt: skip
# the widgets whose keys a page is worked with
WITHIN: dict[type[Doors[Any]], tuple[type, ...]] = {GivenScreen: (LineList,)}
# told in words beside the key they go with
BESIDE = {"shift+tab", "shift+left", "shift+right", "shift+down", "shift+up"}
# a table's own, and every page's way back
OF_ITSELF = {"↑", "↓", "esc", "j", "k", "home", "end"}
# an inherited key that has no rule to try there
IDLE = {("season of a zone", "5")}


def by_action(page: type[Doors[Any]]) -> dict[str, set[str]]:
    """Keys of a page, as the help writes them, by what they do."""
    found: dict[str, set[str]] = {}
    for one in (*page.__mro__, *WITHIN.get(page, ())):
        if not one.__module__.startswith("tui."):
            continue
        for binding in one.__dict__.get("BINDINGS", ()):
            keys = {key for key in binding.key.split(",") if key not in BESIDE}
            faces = {FACE.get(key, key) for key in keys}
            found.setdefault(binding.action, set()).update(faces)
    return found


def told(subject: str) -> set[str]:
    """Keys that the help names under a subject."""
    keys = next(keys for name, keys in (*KEYS, *PAGES) if name == subject)
    said = " ".join(key for key, _ in keys).replace("page keys", "page")
    return set(said.replace("arrows", "← → ↑ ↓").split())


@pytest.mark.parametrize("subject", SUBJECTS)
def test_every_act_of_a_page_has_a_key_in_the_help(subject: str) -> None:
    known = told(subject) | told("everywhere") | OF_ITSELF
    for action, keys in by_action(SUBJECTS[subject]).items():
        if action.startswith("door("):
            continue  # told with the page that it opens
        if not keys or any((subject, key) in IDLE for key in keys):
            continue
        assert keys & known, f"{subject}: {action} by {keys}"


@pytest.mark.parametrize("subject", SUBJECTS)
def test_every_key_that_the_help_names_is_bound_on_its_page(subject: str) -> None:
    bound = set().union(*by_action(SUBJECTS[subject]).values())
    assert told(subject) - bound - OF_ITSELF == set()


@pytest.mark.parametrize("subject", SUBJECTS)
def test_the_help_knows_which_page_is_in_front(subject: str) -> None:
    assert subject_of(SUBJECTS[subject].__new__(SUBJECTS[subject])) == subject
