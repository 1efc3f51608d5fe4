"""What the user said about a table in; how to say it, as option or as key, out."""

from dataclasses import dataclass
from typing import Literal

from scheduler.field.mixed_units import SmallUnit

Decimal = Literal["comma", "point"]
Total = Literal["none", "row", "column", "both"]
Labels = Literal["yes", "no"]
CHOICE_KEYS = ("sheet", "column", "decimal", "total", "labels", "mixed")


@dataclass(frozen=True, slots=True)
class Choices:
    """What the user said about one table; None or empty where nothing was said.

    Attributes
    ----------
    sheet : str or None
        Sheet of a workbook.
    decimal : {'comma', 'point'} or None
        The decimal sign of numbers that are kept as text.
    total : {'none', 'row', 'column', 'both'} or None
        Whether the last row or column is a total that nobody named.
    column : str or None
        The column of readings, by its header or letter; `all` for a grid.
    labels : {'yes', 'no'} or None
        Whether the running numbers at the edge are names of cans.
    mixed : str or None
        Unit of the small readings where two units stand in one table.
    as_keys : bool
        Whether choices are made by keys of test.toml, not by options.
    """

    sheet: str | None = None
    decimal: Decimal | None = None
    total: Total | None = None
    column: str | None = None
    labels: Labels | None = None
    mixed: SmallUnit | None = None
    as_keys: bool = False

    @property
    def is_about_layout(self) -> bool:
        """Whether anything was said that only this reader understands."""
        said = (self.sheet, self.decimal, self.total, self.column, self.labels)
        return any(one is not None for one in said)

    def say(self, name: str, *values: str) -> str:
        """How to make a choice, such as `--decimal comma or --decimal point`."""
        if self.as_keys:
            return " or ".join(f'{name} = "{one}"' for one in values)
        return " or ".join(
            f"--{name} {f'{one!r}' if ' ' in one else one}" for one in values
        )
