"""The lines of the page of what is given: things on one side, fields on the other."""

import datetime as dt
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from textual.content import Content

from scheduler.units import UNITS, alternatives
from tui.screens.wording import GLYPH
from tui.widgets.line_list import Line

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.files.site_things import Field, Section, Thing

DIM = "$foreground 60%"
NAME = 29  # columns of a field's name, with the gap behind it
_SHORT = 8  # where the line itself says its name
BROKEN = "line"  # a kind of thing: a line that its file cannot be read for
LISTS = {
    BROKEN: "broken lines",
    "window": "windows",
    "blocked": "blocked hours",
    "station": "weather files",
    "wind_log": "wind files",
    "zone": "zones",
    "package": "packages",
    "option": "options",
    "controller": "clocks",
}
# no list where there is none: one clock is a table, and most files can be read
OR_ONE = ("controller", BROKEN)
_SPELT = {"kc": "Kc", "du": "DU", "lq": "low quarter", "ec": "EC"}
MORE, TABLE = "+", "="  # what keys of lines begin with that are no field


# --- the things --------------------------------------------------------------


def thing_lines(
    things: "Sequence[tuple[str, Thing]]", marks: Mapping[str, str], width: int
) -> Iterator[Line]:
    """One line a thing, lists under their heads; a list not given can be picked."""
    for key, one in things:
        if not one.kind.is_list:
            # one of several clocks goes by its id
            name = f"{one.kind.words} {one.name}" if one.is_of_list else one.name
            words = name if one.is_given else f"{name}   not given"
            yield _thing_line(key, words, marks.get(key, ""), is_dim=not one.is_given)
    for kind, name in LISTS.items():
        mine = [
            (key, one)
            for key, one in things
            if one.kind.name == kind and one.kind.is_list
        ]
        if not mine and kind not in OR_ONE:
            yield _thing_line(f"{MORE}{kind}", f"{name}   none", "", is_dim=True)
        if not mine:
            continue
        yield Line("", Content.styled(f"  {name}", DIM))
        ids = max(len(one.name) for _, one in mine)
        for key, one in mine:
            words = f"{one.name:<{min(ids, width - 8)}}  {one.about}".rstrip()
            yield _thing_line(key, f"  {words}", marks.get(key, ""), is_dim=False)


def _thing_line(key: str, words: str, mark: str, *, is_dim: bool) -> Line:
    return Line(
        key,
        Content.assemble(
            (f"{mark or ' '} ", "bold $warning"), (words, DIM) if is_dim else words
        ),
    )


# --- the fields --------------------------------------------------------------


def field_name(field: "Field") -> str:
    """What a field is called: `water price`, without the unit of its key."""
    words = field.field.stem.split("_")
    return " ".join(_SPELT.get(one, one) for one in words)


def name_width(field: "Field") -> int:
    """Columns of a field's name, with the gap behind it."""
    return _SHORT if field.field.name == BROKEN else NAME


def unit_words(field: "Field") -> str:
    """Unit of a field as people write it; empty for a bare number or a text."""
    return UNITS[field.suffix].label if field.suffix else ""


def field_key(section: "Section", field: "Field") -> str:
    """What tells a field from the others of its thing."""
    return f"{section.words}/{field.field.name}"


def table_key(section: "Section") -> str:
    """What tells the head of a table."""
    return f"{TABLE}{section.words}"


def section_line(section: "Section", *, is_open: bool, is_new: bool) -> Line:
    """Head of a table inside a thing."""
    if section.is_given:
        mark = ("● ", "bold $warning") if is_new else "  "
        return Line(
            table_key(section), Content.assemble(mark, (section.words, "bold $primary"))
        )
    words = "fill in a field to add it" if is_open else "not given"
    text = Content.assemble("  ", (section.words, "$primary 70%"), (f"   {words}", DIM))
    return Line(table_key(section), text)


def field_line(
    section: "Section",
    field: "Field",
    *,
    was: str | None,
    guessed: str,
    is_typing: bool,
) -> Line:
    """A field with its value as typed and its unit, or with what stands for it."""
    name = f"  {field_name(field)}".ljust(name_width(field))
    mark = ("●", "bold $warning") if was is not None else ""
    parts: list[str | tuple[str, str]] = [mark, name[1:] if mark else name]
    unit = unit_words(field)
    if is_typing:
        pass
    elif field.typed:
        parts.append((field.text, "bold"))
        parts.append((f" {unit}" if unit else "", DIM))
    else:
        parts.append((_stands(field, guessed), DIM))
    if was is not None and not is_typing:
        parts.append((f"   was {was}", "$text-warning"))
    return Line(field_key(section, field), Content.assemble(*(p for p in parts if p)))


def _stands(field: "Field", guessed: str) -> str:
    """What stands for a field that is not given."""
    if guessed:
        return f"{guessed}  used"
    if field.default:
        return f"{field.default}  default"
    unit = unit_words(field)
    return f"– {unit}".rstrip()


def was_text(now: "Field", old: "Field | None") -> str | None:
    """What a field was on disk, where it is another now."""
    if old is None:
        return "not given" if now.typed else None
    if (old.key, old.typed) == (now.key, now.typed):
        return None
    unit = unit_words(old) if old.key != now.key or not now.typed else ""
    return f"{old.text} {unit}".rstrip()


# --- beside the field that is typed into -------------------------------------


_KINDS: tuple[tuple[type, str], ...] = (
    (float, "a number"),
    (int, "a whole number"),
    (bool, "true or false"),
    (dt.time, "a time such as 05:30"),
    (dt.date, "a date such as 2026-05-12"),
)


def hint(field: "Field") -> str:
    """What may be typed into a field."""
    one = field.field
    if one.name == BROKEN:
        return "the line as it shall be"
    if one.choices:
        words = ", ".join(one.choices)
        return f"any of {words}" if one.is_list else f"one of {words}"
    if one.suffix:
        names = [UNITS[name].label for name in alternatives(one.suffix)]
        return f"a number, in {unit_words(field)}, or with its unit: {', '.join(names)}"
    if one.is_required:
        return "must be given"
    what = next((words for kind, words in _KINDS if kind in one.kinds), "a text")
    several = ", several with commas between" if one.is_list else ""
    return f"{what}{several}; nothing typed: not given"


def broken_lines(thing: "Thing", width: int) -> list[Line]:
    """What is wrong with a line that cannot be read, and the remedy."""
    text = f"{GLYPH['stop']} {thing.about}"
    lines = textwrap.wrap(text, max(20, width - 5), subsequent_indent="  ")
    return [Line("", Content.styled(f"    {line}", "$text-error")) for line in lines]


def wrong_lines(finding: "Finding | None", said: str, width: int) -> list[Line]:
    """What is wrong with what is typed, and the remedy; else what may be typed."""
    text, colour = said, DIM
    if finding is not None:
        glyph = GLYPH[finding.level]
        colour = "$text-error" if finding.level == "stop" else "$text-warning"
        text = f"{glyph} {finding.what}; {finding.fix}"
    lines = textwrap.wrap(text, max(20, width - 5), subsequent_indent="  ")
    return [Line("", Content.styled(f"    {line}", colour)) for line in lines]
