"""The kinds of line of log.csv in one table: their cells, parts, units and bounds."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from scheduler import log

FORMAT = 1
NAME = "log.csv"
COLUMNS = ("date", "time", "what", "zone", "item", "details", "note", "entered")
# How a part of the details is read: a quantity in a unit suffix, a bare number, a
# whole number, a percentage, the dial of a meter, a spacing, or a word that stands
# alone.
Reads = Literal["quantity", "number", "whole", "percent", "dial", "spacing", "word"]


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the details, such as `in 420 mL`.

    Attributes
    ----------
    label : str
        The word before the number.
    field : str
        Where the number goes in the fact.
    reads : str
        How it is read.
    example : str
        As one would type it, without the label.
    unit : str
        Unit suffix of the fact's number, for a quantity.
    low, high : float
        What the number can be at all, in that unit: bounds for slips, not for rare
        values (common practice, no source).
    takes_low : bool
        Whether the number may be `low` itself.
    look_at : str
        What to look at when it is outside.
    bare_unit : str
        Unit that a bare number stands for when it is typed at the prompt; what is
        written to the file always has its unit.
    """

    label: str
    field: str
    reads: Reads
    example: str = ""
    unit: str = ""
    low: float = 0.0
    high: float = float("inf")
    takes_low: bool = False
    look_at: str = "the number and its unit"
    bare_unit: str = ""


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of line.

    Attributes
    ----------
    fact : type of Entry
        What it becomes.
    does : str
        What it records, in a few words.
    needs : tuple of str
        Cells and parts that it cannot do without.
    one_of : tuple of str
        Cells and parts of which it needs one at least.
    parts : tuple of Part
        What its details may hold.
    item : str
        Field of the fact that the item is; empty where there is no item.
    note : str
        Field of the fact that the note is, besides the note.
    has_zones : bool
        The zone cell holds any number of zones.
    fixed : mapping
        What every line of this kind says.
    is_of_night : bool
        The date is that of the evening on which the night begins.
    """

    fact: type[log.Entry]
    does: str
    needs: tuple[str, ...] = ()
    one_of: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
    item: str = ""
    note: str = ""
    has_zones: bool = False
    fixed: Mapping[str, Any] = field(default_factory=dict)
    is_of_night: bool = False

    def part(self, label: str) -> Part | None:
        """The part with a label, if there is one."""
        return next((one for one in self.parts if one.label == label), None)


_DAY_MIN = 24 * 60.0
_RAN = Part(
    "ran", "minutes", "quantity", "24 min", "min", high=_DAY_MIN, bare_unit="min"
)
_VOLUME = Part("volume", "volume_m3", "quantity", "120 gal", "m3", high=1e6)
_SPACING = Part("spacing", "spacing_m", "spacing", "16 in")
_POT_LOOK = "the number, its unit, and whether in and out were swapped"
_IN = Part("in", "in_ml", "quantity", "420 mL", "ml", high=200e3, look_at=_POT_LOOK)
_OUT = Part(
    "out", "out_ml", "quantity", "160 mL", "ml",
    high=200e3, takes_low=True, look_at=_POT_LOOK,
)  # fmt: skip
_BEFORE = Part("before", "before_g", "quantity", "5210 g", "g", high=1e6)
_AFTER = Part("after", "after_g", "quantity", "5480 g", "g", high=1e6)
_LEACHED = Part(
    "leached", "stated_fraction", "percent", "38 %",
    high=1.0, takes_low=True, look_at="the share of the water that drained",
)  # fmt: skip
_WEIGHT = Part("weight", "weight_g", "quantity", "5210 g", "g", high=1e6)
_EC = Part(
    "EC", "ec_ds_per_m", "quantity", "1.8 mS/cm", "ds_per_m",
    low=0.005, high=50.0, takes_low=True,
    look_at="the unit: 1 mS/cm is 1 dS/m and 1000 µS/cm",
)  # fmt: skip
_PH = Part("pH", "ph", "number", "6.1", low=1.0, high=13.0, look_at="the probe")
_METER = (
    Part("reading", "reading", "dial", "48213 gal", takes_low=True),
    Part("multiplier", "multiplier", "number", "100", high=1e6),
    Part("digits", "digits", "whole", "6", low=1, high=12, takes_low=True),
    Part("shared", "is_shared", "word"),
    Part("new dial", "is_new", "word"),
)

KINDS: dict[str, Kind] = {
    "watering": Kind(
        log.Watering, "a watering that was done", ("zone", "ran"), parts=(_RAN,),
        is_of_night=True,
    ),
    "skipped": Kind(
        log.Watering, "a watering that was left out", ("zone", "note"),
        fixed={"minutes": 0.0, "is_skipped": True}, is_of_night=True,
    ),
    "meter": Kind(
        log.MeterReading, "a reading of a meter", ("item", "reading"),
        parts=_METER, item="meter", has_zones=True,
    ),
    "leaching": Kind(
        log.LeachingPot, "the pots of a leaching check", ("zone", "item"),
        parts=(_IN, _BEFORE, _AFTER, _OUT, _LEACHED, _RAN), item="place",
    ),
    "pot weight": Kind(
        log.PotWeight, "pots on the scales", ("zone", "item", "weight"),
        parts=(_WEIGHT,), item="place",
    ),
    "pour-through": Kind(
        log.PourThrough, "EC and pH of pots", ("zone", "item"), ("EC", "pH"),
        parts=(_EC, _PH), item="place",
    ),
    "dry spot": Kind(
        log.DrySpot, "a place that looked dry", ("zone", "item"), item="place"
    ),
    "override": Kind(
        log.Override, "minutes that a person chose", ("zone", "set", "note"),
        parts=(Part("set", "minutes", "quantity", "26 min", "min",
                    high=_DAY_MIN, takes_low=True, bare_unit="min"),),
        note="reason",
    ),
    "repair": Kind(
        log.Repair, "something mended", ("note",), ("zone", "item"),
        item="package", note="what",
    ),
    "hardware": Kind(
        log.Repair, "a change of the hardware", ("note",), ("zone", "item"),
        item="package", note="what", fixed={"is_change": True},
    ),
    "respaced": Kind(
        log.Respacing, "a block at a new spacing", ("zone", "spacing"),
        parts=(_SPACING,),
    ),
    "moved": Kind(
        log.Respacing, "a block that was moved", ("zone",), parts=(_SPACING,)
    ),
    "frost": Kind(
        log.FrostNight, "water against frost", (), ("ran", "volume"),
        parts=(Part("ran", "minutes", "quantity", "5.5 h", "min", high=_DAY_MIN),
               Part("volume", "volume_m3", "quantity", "12000 gal", "m3", high=1e6)),
        has_zones=True, is_of_night=True,
    ),
    "hand water": Kind(
        log.HandWater, "water given by hand", ("zone",), ("ran", "volume"),
        parts=(_RAN, _VOLUME),
    ),
}  # fmt: skip
