"""A change sheet in; plain characters of 80 columns, or a page to print, out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass
from textwrap import wrap
from typing import Any

from scheduler.reports.handed.change_sheet import OFF, ChangedZone, ChangeSheet
from scheduler.reports.language import language_of
from scheduler.reports.page import page
from scheduler.reports.pdf import typeset
from scheduler.reports.text import WIDTH, shorten

# What a side holds, in millimetres of a letter sheet; measured on printed pages.
SIDE_MM = 258.0
HEAD_MM, WARNING_MM, FOOT_MM, TITLE_MM = 27.0, 6.0, 20.0, 6.5
ROW_MM, ROW_HEAD_MM, LINE_MM, SMALL_MM = 15.0, 6.1, 4.5, 4.7
IN_A_LINE, IN_A_NAME, IN_A_SMALL_LINE, IN_A_HEAD = 36, 18, 92, 40
BESIDE_ZONE = 12
CLOCK_MM = 7.0  # a line with the name of the clock whose zones follow
UNSAID = ("minutes", "new")  # seen in the minutes themselves
Say = Callable[[str], str]
VOID = "This sheet replaces every earlier one: throw old sheets away."
# words of the templates; `change_text` has the same and a few more
WORDS = (
    "CHANGE SHEET", "CLOCK", "made", "side", "of", "Percent adjust must read",
    "zone, valve", "zone", "valve", "station", "program", "was", "NOW", "starts, why",
    "keyed", "new", "why", "no watering this week", "LEAVE AS IT IS", "Stays",
    "Nothing changes this week.", "Keyed in by (initials)", "on (date)", "at (time)",
    "If it rained more than this tonight, skip that zone tonight",
    "INSTEAD OF THE STARTS ABOVE", "no room on", "cycles", "nights", "starts",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Side:
    """One side of paper: the zones it lists, and whether the foot stands on it."""

    number: int
    of: int
    changed: tuple[ChangedZone, ...]
    has_foot: bool


def change_page(sheet: ChangeSheet) -> str:
    """The sheet as a printable page, A4 or letter; it says when it needs two sides."""
    dealt = sides(sheet)
    return page("change_sheet.html", sheet=sheet, sides=dealt, **_said(sheet, dealt))


def change_pdf(sheet: ChangeSheet) -> bytes:
    """The sheet as PDF, with the sides of the page."""
    dealt = sides(sheet)
    values = {
        "sheet": asdict(sheet),
        "sides": [
            {
                "changed": [asdict(one) for one in side.changed],
                "has_foot": side.has_foot,
            }
            for side in dealt
        ],
        **_said(sheet, dealt),
    }
    return typeset("change_sheet.typ", values)


def _said(sheet: ChangeSheet, dealt: tuple[Side, ...]) -> dict[str, Any]:
    """Words and sentences that the templates print, in the language of the sheet."""
    say = language_of(sheet.language).say
    return {
        "words": {word: say(word) for word in WORDS},
        "title": say(f"Change sheet: {sheet.site}"),
        "void": say(VOID),
        "found": _found(sheet),
        "together": say(f"This sheet has {len(dealt)} sides: keep them together.")
        if len(dealt) > 1
        else "",
    }


def _found(sheet: ChangeSheet) -> str:
    """What percent adjust was found at, where that is something else."""
    say = language_of(sheet.language).say
    return say(f"found at {sheet.percent_found}: set it") if sheet.percent_found else ""


def sides(sheet: ChangeSheet) -> tuple[Side, ...]:
    """Zones dealt out over as few sides as hold them, in their order."""
    whole = SIDE_MM - head_mm(sheet)
    needed = [row_mm(one) for one in sheet.changed]
    clocks = len({one.clock for one in sheet.changed if one.clock})
    parts: list[list[ChangedZone]] = [[]]
    if sum(needed) + CLOCK_MM * clocks + foot_mm(sheet) <= whole:
        parts[-1] += sheet.changed
    else:
        whole -= WARNING_MM
        left = whole
        for one, row in zip(sheet.changed, needed, strict=True):
            needs = row + _clock_mm(one, parts[-1])
            if needs > left and parts[-1]:
                parts.append([])
                left, needs = whole, row + _clock_mm(one, [])
            parts[-1].append(one)
            left -= needs
        if foot_mm(sheet) > left and parts[-1]:
            parts.append([])
    return tuple(
        Side(i, len(parts), tuple(part), i == len(parts))
        for i, part in enumerate(parts, 1)
    )


def _clock_mm(one: ChangedZone, above: list[ChangedZone]) -> float:
    """Height of the line with the clock, where one begins."""
    is_new = not above or above[-1].clock != one.clock
    return CLOCK_MM if one.clock and is_new else 0.0


def head_mm(sheet: ChangeSheet) -> float:
    """Height of what stands above the zones on every side."""
    more = _lines_of(f"{sheet.site}, {sheet.clock}", IN_A_HEAD) - 1
    warned = sum(_lines_of(one, IN_A_HEAD) for one in sheet.warnings)
    more += 2 if sheet.percent_found else 0
    return HEAD_MM + SMALL_MM * more + WARNING_MM * warned


def row_mm(one: ChangedZone) -> float:
    """Height of a zone on paper."""
    new = " ".join(f"new {part};" for part in one.changed if part != "minutes")
    starts = one.starts or ("no watering this week",)
    right = sum(
        _lines_of(text, IN_A_LINE)
        for text in (*starts, one.no_room, f"{new} why: {one.why}")
    )
    who = _lines_of(one.name, IN_A_NAME) + _lines_of(one.valve, BESIDE_ZONE) - 1
    who += 1 if one.station else 0
    name = ROW_HEAD_MM + LINE_MM * max(who, 1)
    minutes = ROW_HEAD_MM + 2 * LINE_MM + 3.7 if one.detail else ROW_MM
    return max(ROW_MM, 1.0 + LINE_MM * right, name, minutes)


def foot_mm(sheet: ChangeSheet) -> float:
    """Height of everything below the changed zones."""
    leave = [f"LEAVE AS IT IS: {name}. {why}" for name, why in sheet.blocked]
    same = _lines_of("Stays: " + "; ".join(sheet.same), IN_A_SMALL_LINE)
    lines = sum(_lines_of(one, IN_A_SMALL_LINE) for one in leave)
    lines += same if sheet.same else 0
    skips = TITLE_MM + SMALL_MM * (len(sheet.skips) + 1) if sheet.skips else 0.0
    instead = sum(
        _lines_of(line, IN_A_SMALL_LINE)
        for one in sheet.instead
        for line in (f"INSTEAD: {one.why}", *one.programs, *one.water)
    )
    lines += instead
    boxes = len(leave) + len(sheet.instead)
    return FOOT_MM + SMALL_MM * lines + 2.6 * boxes + skips


def _lines_of(text: str, most: int) -> int:
    return len(wrap(text, most))


# --- plain characters --------------------------------------------------------


def change_text(sheet: ChangeSheet) -> str:
    """The sheet in plain characters."""
    return "\n".join(line.rstrip() for line in _lines(sheet)) + "\n"


def _lines(sheet: ChangeSheet) -> Iterator[str]:
    say = language_of(sheet.language).say
    name = f"  {sheet.name}" if sheet.name else ""
    title = say("CHANGE SHEET")
    yield from wrap(f"{title}  {sheet.site}, {sheet.clock}{name}", WIDTH)
    yield f"{sheet.week}, {say('made')} {sheet.made}"
    yield from wrap(say(VOID), WIDTH)
    found = f" ({_found(sheet)})" if sheet.percent_found else ""
    yield f"{say('Percent adjust must read')} {sheet.percent}{found}"
    yield from (f"! {one}" for one in sheet.warnings)
    yield "=" * WIDTH
    clock = ""
    for one in sheet.changed:
        if one.clock != clock:
            clock = one.clock
            yield from wrap(f"{say('CLOCK')} {clock}", WIDTH)
            yield "-" * WIDTH
        yield from _zone(one, say)
    if not sheet.changed:
        yield say("Nothing changes this week.")
    yield from _instead_lines(sheet)
    if sheet.blocked:
        yield say("LEAVE AS IT IS")
        for who, why in sheet.blocked:
            yield from wrap(f"  {who}: {why}", WIDTH, subsequent_indent="    ")
        yield ""
    if sheet.same:
        yield f"{say('Stays as it is')}:"
        for told in sheet.same:
            yield from wrap(f"  {told}", WIDTH, subsequent_indent="    ")
        yield ""
    yield from _skip_lines(sheet)
    yield from wrap(sheet.crosses, WIDTH)
    yield ""
    by, on, at = say("Keyed in by"), say("on"), say("at")
    yield f"{by} ______________________   {on} ________________   {at} ____________"


def _zone(one: ChangedZone, say: Say) -> Iterator[str]:
    valve = f"{say('valve')} {one.valve}  " if one.valve else ""
    valve += f"{say('station')} {one.station}  " if one.station else ""
    program = f"{say('program')} {one.program or '____'}"
    yield f"{one.zone}  {shorten(one.name, 44)}  {valve}{program}"
    new = ", ".join(say(part) for part in one.changed if part not in UNSAID)
    unit = "" if one.now == say(OFF) else "  min"
    said = f"      {say('was')} {one.was}  ->  {say('NOW')}  {one.now}{unit}"
    yield said + (f"  {one.detail}" if one.detail else "")
    told = [*one.starts, f"{say('nights')}: {one.nights}"]
    told += [f"{say('no room on')} {one.no_room}"] if one.no_room else []
    told += [f"{say('also new')}: {new}"] if new else []
    for text in (*told, f"{say('why')}: {one.why}"):
        yield from wrap(text, WIDTH - 6, initial_indent=" " * 6,
                        subsequent_indent=" " * 8)  # fmt: skip
    done = f"      {say('keyed')} [ ]"
    yield done + "-" * (WIDTH - len(done))


def _instead_lines(sheet: ChangeSheet) -> Iterator[str]:
    say = language_of(sheet.language).say
    for one in sheet.instead:
        yield from wrap(f"{say('INSTEAD OF THE STARTS ABOVE')}: {one.why}", WIDTH)
        for told in (*one.programs, *one.water):
            yield from wrap(f"  {told}", WIDTH, subsequent_indent="      ")
        yield ""


def _skip_lines(sheet: ChangeSheet) -> Iterator[str]:
    if not sheet.skips:
        return
    say = language_of(sheet.language).say
    yield say(f"If it rained more than this tonight ({sheet.rain_unit}), skip tonight:")
    wide = max(4, *(len(one.zone) for one in sheet.skips))
    yield (
        "  " + say("zone").ljust(wide) + "".join(head.rjust(8) for head in sheet.nights)
    )
    for one in sheet.skips:
        yield "  " + one.zone.ljust(wide) + "".join(cell.rjust(8) for cell in one.rain)
    yield ""
