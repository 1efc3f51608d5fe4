"""What a printed page is made of: leaves, sections, boxes, tables, words, pictures.

A report says once what it holds, in these parts; `paper_text` and the page templates
print the same parts as plain characters and as a page.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Literal

if TYPE_CHECKING:
    from scheduler.units import System


@dataclass(frozen=True, slots=True)
class Box:
    """One box to write in, or one that holds what is known.

    Attributes
    ----------
    label : str
        What goes into it.
    span : int
        Its width in twelfths of the line.
    value : str
        What is known already; printed instead of the space to write in.
    unit : str
        Unit of what is written.
    choices : tuple of str
        Words to tick instead of writing.
    hint : str
        What it was the last time.
    """

    label: str
    span: int = 3
    value: str = ""
    unit: str = ""
    choices: tuple[str, ...] = ()
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Boxes:
    """Boxes side by side, in lines of twelve twelfths."""

    boxes: tuple[Box, ...]
    kind: ClassVar[str] = "boxes"


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table: its head, its width in twelfths; numbers flush right."""

    head: str
    span: float = 1
    is_number: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under heads: to fill in (an empty cell is for writing), or only to read."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    is_tall: bool = False
    is_filled: bool = False
    kind: ClassVar[str] = "table"


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known: names and texts."""

    facts: tuple[tuple[str, str], ...]
    kind: ClassVar[str] = "facts"


@dataclass(frozen=True, slots=True)
class Words:
    """A paragraph."""

    text: str
    kind: ClassVar[str] = "words"


@dataclass(frozen=True, slots=True)
class Legend:
    """Letters that are written, and what each means, between two sentences."""

    meanings: tuple[tuple[str, str], ...]
    before: str = ""
    after: str = ""
    kind: ClassVar[str] = "legend"


@dataclass(frozen=True, slots=True)
class Ticks:
    """Small numbered boxes, each for one letter."""

    numbers: tuple[str, ...]
    kind: ClassVar[str] = "ticks"


@dataclass(frozen=True, slots=True)
class Cans:
    """An empty grid of cans, in bands of columns that fit the page.

    Attributes
    ----------
    bands : tuple of CanBand
        Columns that stand side by side on the page.
    say : tuple of str
        What to draw and write.
    no_can : str
        What stands where there is none.
    """

    bands: tuple[CanBand, ...]
    say: tuple[str, ...]
    no_can: str = "no can"
    kind: ClassVar[str] = "cans"


@dataclass(frozen=True, slots=True)
class CanBand:
    """Some columns of the grid: names of rows and columns, names of the cans."""

    columns: tuple[str, ...]
    rows: tuple[str, ...]
    label: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Sketch:
    """An empty field to write or draw in; dots help with the scale."""

    is_dotted: bool = False
    kind: ClassVar[str] = "sketch"


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing, with what it says in words and in tables for text and for the ear.

    Attributes
    ----------
    title, says : str
        What it shows, and what it says.
    svg : str
        The drawing as made by `charts`, which escapes every text; never typed by hand.
    tables : tuple of Table
        The same numbers; printed instead of the drawing in plain characters.
    how : str
        How to read the drawing; left out where there is none.
    high : float
        Height of the drawing at the width of the page. [points]
    """

    title: str
    says: str
    svg: str
    tables: tuple[Table, ...]
    how: str = ""
    high: float = 0.0
    kind: ClassVar[str] = "picture"


@dataclass(frozen=True, slots=True)
class Photos:
    """Empty frames for photos, each with what to show and a line to write on."""

    captions: tuple[str, ...]
    kind: ClassVar[str] = "photos"


Sheet = Literal["a4", "us-letter"]
Block = (
    Boxes | Table | Facts | Words | Legend | Ticks | Cans | Sketch | Picture | Photos
)


@dataclass(frozen=True, slots=True)
class Section:
    """A numbered part of a leaf; without a number it is only a heading."""

    title: str
    blocks: tuple[Block, ...]
    number: str = ""

    @property
    def grows(self) -> str:
        """How it shares the room that is left: `most` to draw in, `some` to write."""
        kinds = {block.kind for block in self.blocks}
        if "sketch" in kinds or "photos" in kinds:
            return "most"
        return "some" if "boxes" in kinds and "table" not in kinds else ""


@dataclass(frozen=True, slots=True)
class Leaf:
    """One side of paper.

    Attributes
    ----------
    title, part : str
        What the whole is about, and what this side holds.
    place : str
        Which side it is, such as `side 2 of 4`.
    sections : tuple of Section
        From top to bottom.
    stamp : str
        What must stand on every side, should they part; such as the date.
    foot : tuple of tuple of str
        Subjects and cautions at the bottom.
    closing : str
        The last sentence at the bottom.
    """

    title: str
    part: str
    place: str
    sections: tuple[Section, ...]
    stamp: str = ""
    foot: tuple[tuple[str, str], ...] = ()
    closing: str = ""


@dataclass(frozen=True, slots=True)
class Paper:
    """Everything that one report prints; `sheet` is the paper that a PDF is for.

    `language` is that of its texts, in which its printers say the few words of theirs.
    """

    name: str
    subject: str
    leaves: tuple[Leaf, ...]
    sheet: Sheet = "a4"
    language: Literal["en", "es"] = "en"


def sheet_of(units: System) -> Sheet:
    """The paper that lies in the printer where these units are used."""
    return "us-letter" if units == "us" else "a4"


def plain(text: str) -> str:
    """A text of the user on one line, without control characters.

    Examples
    --------
    >>> plain("yard" + chr(10) + "  east" + chr(27) + "[2J")
    'yard east [2J'
    """
    kept = (" " if unicodedata.category(c) == "Cc" else c for c in text)
    return " ".join("".join(kept).split())
