"""What is taken out of the dashboard: names of files, and tables as text."""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

GAP = "  "


@dataclass(frozen=True, slots=True)
class Table:
    """Heads and rows of ready-made texts, and which columns end flush right."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    is_right: tuple[bool, ...]


def of_lines(lines: Sequence[str]) -> Table | None:
    """Table that was written in columns two spaces or more apart; None if it is none.

    It ends with the first line that has another number of cells.
    """
    cells = [tuple(re.split(r" {2,}", line.strip())) for line in lines]
    if not cells or len(cells[0]) < 2:
        return None
    rows: list[tuple[str, ...]] = []
    for one in cells[1:]:
        if len(one) != len(cells[0]):
            break
        rows.append(one)
    right = (False, *[True] * (len(cells[0]) - 1))
    return Table(cells[0], tuple(rows), right) if rows else None


def aligned(table: Table) -> str:
    """Write a table in columns under each other, for a letter or a message."""
    lines = [table.heads, *table.rows]
    wide = [max(len(one[i]) for one in lines) for i in range(len(table.heads))]
    return "\n".join(
        GAP.join(
            text.rjust(width) if right else text.ljust(width)
            for text, width, right in zip(line, wide, table.is_right, strict=True)
        ).rstrip()
        for line in lines
    )


def tabbed(table: Table) -> str:
    """Write a table with a tab between cells, for a spreadsheet."""
    return "\n".join("\t".join(map(_cell, line)) for line in (table.heads, *table.rows))


def _cell(text: str) -> str:
    return " ".join(text.split())


def slug(text: str) -> str:
    """Write a text as part of a file name: small letters, digits and hyphens."""
    bare = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", bare.lower()).strip("-")


def file_name(parts: Iterable[str], ending: str) -> str:
    """Name of a file, from the parts that are not empty.

    >>> file_name(("Tern Hollow", "zone 3", "need", "2026-06-08"), "txt")
    'tern-hollow_zone-3_need_2026-06-08.txt'
    """
    named = [slug(one) for one in parts]
    return "_".join(one for one in named if one) + f".{ending}"


def claimed(folder: Path, name: str) -> Path:
    """Path of a new empty file; where the name is taken a number is added.

    The file is made at once, so that two programs never get the same one.
    """
    folder.mkdir(parents=True, exist_ok=True)
    stem, _, ending = name.rpartition(".")
    for number in range(1, 10_000):
        path = folder / (name if number == 1 else f"{stem}-{number}.{ending}")
        try:
            path.open("x", encoding="utf-8").close()
        except FileExistsError:
            continue
        return path
    raise FileExistsError(f"{folder} holds too many files named {name}")


def whole_text(parts: Sequence[str]) -> str:
    """Texts one below the other with a free line between, none of them empty."""
    kept = ["\n".join(line.rstrip() for line in one.splitlines()) for one in parts]
    return "\n\n".join(one.strip("\n") for one in kept if one.strip()) + "\n"
