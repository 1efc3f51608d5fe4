"""What each `lowquarter record` command takes: its zone, its parts, its pots."""

from __future__ import annotations

from dataclasses import dataclass

import click

from scheduler.files.log_kinds import KINDS, Kind, Part
from tui.commands import edge


@dataclass(frozen=True, slots=True)
class PotForm:
    """One way to type several pots in one go.

    Attributes
    ----------
    option : str
        Such as `--pots`.
    labels : tuple of str
        What the numbers behind the place are.
    units : tuple of str
        Unit of each: as typed, or the name of the option that holds it.
    help : str
        What the option says of itself.
    """

    option: str
    labels: tuple[str, ...]
    units: tuple[str, ...]
    help: str

    @property
    def name(self) -> str:
        """The option as a keyword."""
        return keyword(self.option)


POTS: dict[str, tuple[PotForm, ...]] = {
    "leaching": (
        PotForm("--pots", ("in", "out"), ("--unit", "--unit"),
                'Place, water in, water out: "A1 420 160, A2 400 90".'),
        PotForm("--weights", ("before", "after", "out"),
                ("--weight-unit", "--weight-unit", "--unit"),
                "Place, weight before and after, water out: \"A1 5210 5480 120\"."),
        PotForm("--percent", ("leached",), ("%",),
                'Place and the percentage itself: "A1 38, A2 12".'),
    ),
    "pot weight": (
        PotForm("--pots", ("weight",), ("--unit",),
                'Place and weight: "A1 5210, A2 5300".'),
    ),
    "pour-through": (
        PotForm("--pots", ("EC", "pH"), ("--unit", ""),
                'Place, EC, pH (- for none): "A1 1.8 6.1, A2 2.0 -".'),
    ),
}  # fmt: skip
# Default and help of the unit options; EC has none, since µS and mS are easily mixed up
UNITS: dict[str, dict[str, tuple[str | None, str]]] = {
    "leaching": {
        "--unit": ("mL", "Unit of the water in and out."),
        "--weight-unit": ("g", "Unit of the weights."),
    },
    "pot weight": {"--unit": ("g", "Unit of the weights.")},
    "pour-through": {"--unit": (None, "Unit of EC: mS/cm, dS/m or uS/cm.")},
}
# Options whose name is not that of the cell they fill
NOTES = {"override": "--reason", "repair": "--did", "hardware": "--did"}
ITEMS = {"dry spot": "--place", "repair": "--package", "hardware": "--package"}
HELP = {
    "ran": "How long the water ran, such as {}.",
    "volume": "How much water, such as {}.",
    "reading": "The dial as read, with its unit, such as {}.",
    "multiplier": "What the dial is multiplied by, such as {}; kept.",
    "digits": "Whole digits of the dial, for a roll-over, such as {}; kept.",
    "shared": "Other water runs through it as well.",
    "new dial": "A new or reset dial: no difference to the reading before.",
    "set": "Minutes that the clock was set to, such as {}.",
    "spacing": "From middle to middle, such as {} or 14 x 16 in.",
}


def keyword(option: str) -> str:
    """Name of an option as a keyword, such as `new_dial`."""
    return option.lstrip("-").replace("-", "_").casefold()


def option_of(label: str) -> str:
    """Option of a part of the details, such as `--new-dial`."""
    return f"--{label.replace(' ', '-').casefold()}"


def has_zone(kind: Kind) -> bool:
    """Whether lines of the kind name one zone."""
    return "zone" in (*kind.needs, *kind.one_of)


def single_parts(what: str) -> tuple[Part, ...]:
    """Parts that are options of their own, and not numbers behind a pot."""
    in_pots = {label for form in POTS.get(what, ()) for label in form.labels}
    return tuple(one for one in KINDS[what].parts if one.label not in in_pots)


def parameters(what: str) -> list[click.Parameter]:
    """Arguments and options of one command, in the order of its help."""
    kind = KINDS[what]
    found: list[click.Parameter] = []
    if has_zone(kind):
        found.append(click.Argument(["zone"], required=False))
    if what == "meter":
        found.append(click.Argument(["item"], metavar="METER", required=False))
    found += [click.Option([one.option], help=one.help) for one in POTS.get(what, ())]
    for option, (default, help_) in UNITS.get(what, {}).items():
        shows = default is not None
        found.append(
            click.Option([option], default=default, show_default=shows, help=help_)
        )
    found += [_part_option(one) for one in single_parts(what)]
    if kind.has_zones:
        help_ = 'Zones that it served, such as "Z1 Z2"; leave out for all.'
        found.append(click.Option(["--zones"], help=help_))
    if what in ITEMS:
        help_ = "Id of a package." if kind.item == "package" else "Where in the zone."
        found.append(click.Option([ITEMS[what], "item"], help=help_))
    return [*found, *_shared(what)]


def _part_option(part: Part) -> click.Option:
    help_ = HELP[part.label].format(part.example)
    # to the parser False is more than not said: a value that may be left out
    is_flag = True if part.reads == "word" else None
    return click.Option([option_of(part.label)], is_flag=is_flag, help=help_)


_DAYS = {
    True: "The day on whose evening the night began.",
    False: "The day (default: the site's today).",
}


def _shared(what: str) -> list[click.Parameter]:
    note = NOTES.get(what, "--note")
    words = {"--reason": "Why.", "--did": "What was done.", "--note": "A remark."}
    return [
        click.Option([note, "note"], help=words[note]),
        click.Option(
            ["--on"],
            type=click.DateTime(["%Y-%m-%d"]),
            help=_DAYS[KINDS[what].is_of_night],
        ),
        click.Option(["--at"], help="The time of day, such as 06:40."),
        *WRITING,
    ]


WRITING: tuple[click.Parameter, ...] = (
    click.Option(["--yes", "-y"], is_flag=True, help="Write without asking."),
    click.Option(
        ["--json", "as_json"], is_flag=True,
        help="One JSON object on stdout, nothing else; asks nothing.",
    ),
)  # fmt: skip


def asks(*, as_json: bool) -> bool:
    """Whether somebody is there to be asked."""
    return edge.has_terminal() and not as_json
