"""The pages of the dashboard in the order water flows: the one place that lists them.

Doors, line of keys, path line and command palette are made from this list; the help has
the keys of a page under its name. A page is loaded when it is first opened.
"""

from dataclasses import dataclass
from importlib import import_module


@dataclass(frozen=True, slots=True)
class Entry:
    """One page.

    Attributes
    ----------
    page : str
        How the code calls it.
    key : str
        The key that opens it, as Textual writes it; several with commas.
    word : str
        Its name in the line of keys and in the path.
    name : str
        Its name in full: in the help and in the command palette.
    purpose : str
        What it shows, in a line.
    place : str
        Module and class.
    is_door : bool
        Whether its key opens it from everywhere; the others have a way of their own.
    """

    page: str
    key: str
    word: str
    name: str
    purpose: str
    place: str
    is_door: bool = True

    @property
    def face(self) -> str:
        """The key as people read it."""
        first = self.key.split(",")[0]
        return first.upper() if first.startswith("f") and len(first) > 1 else first


ENTRIES = (
    Entry("zones", "f2", "Zones", "zones", "All zones of the site in a table",
          "tui.screens.zones:ZonesScreen", False),
    Entry("zone", "enter", "Zone", "one zone", "A zone's week, all of it",
          "tui.screens.zone:ZoneScreen", False),
    Entry("tests", "t", "Tests", "tests of a zone", "Its tests: look, type one in",
          "tui.screens.tests:TestsScreen"),
    Entry("field", "c", "Cans", "tests and wind", "Catches, cans and wind of a zone",
          "tui.screens.field:FieldScreen"),
    Entry("packages", "w", "Wind", "packages against wind",
          "DU against wind, the tie, verdicts", "tui.screens.packages:PackagesScreen"),
    Entry("spacing", "s", "Spacing", "spacing", "DU over both spacings of a sprinkler",
          "tui.screens.spacing:SpacingScreen"),
    Entry("need", "b", "Need", "need of a zone", "Weather, Kc and depletion of a zone",
          "tui.screens.need:NeedScreen"),
    Entry("week", "h", "Hours", "hours of the week", "Nights by the clock, the pump",
          "tui.screens.week:WeekScreen"),
    Entry("season", "y", "Year", "season of a zone",
          "A year of a zone, quarter by quarter", "tui.screens.season:SeasonScreen"),
    Entry("proof", "l", "Proof", "proof of a zone",
          "Checks, drift, meter, what is due; record", "tui.screens.proof:ProofScreen"),
    Entry("cost", "m,dollar_sign", "Money", "cost",
          "What uneven water costs, and whether a retrofit pays",
          "tui.screens.cost:CostScreen"),
    Entry("given", "g", "Given", "what is given",
          "What the files of the folder say; change it there",
          "tui.screens.given:GivenScreen"),
    Entry("findings", "f", "Findings", "findings", "Everything wrong, worst first",
          "tui.screens.findings:FindingsScreen", False),
)  # fmt: skip
DOORS = tuple(one for one in ENTRIES if one.is_door)


def entry_of(page: str) -> Entry:
    """A page by name.

    Raises
    ------
    KeyError
        If there is no such page.
    """
    for one in ENTRIES:
        if one.page == page:
            return one
    raise KeyError(page)


def page_of(kind: type) -> str:
    """Name of the page that a class shows; empty where it is none of the list."""
    for above in kind.__mro__:
        place = f"{above.__module__}:{above.__name__}"
        for one in ENTRIES:
            if one.place == place:
                return one.page
    return ""


def beside(page: str, by: int) -> str:
    """The page so many steps further along the path; the ends are ends."""
    pages = [one.page for one in ENTRIES]
    at = pages.index(page) + by if page in pages else 0
    return pages[min(max(at, 0), len(pages) - 1)]


def loaded(page: str) -> type:
    """Class of a page, loaded now."""
    module, _, name = entry_of(page).place.partition(":")
    found = getattr(import_module(module), name)
    assert isinstance(found, type), "the list names classes"
    return found
