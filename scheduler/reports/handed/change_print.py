"""A change sheet in; plain characters of 80 columns, or a page to print, out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from textwrap import wrap

from scheduler.reports.handed.change_sheet import OFF, ChangedZone, ChangeSheet
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
VOID = "This sheet replaces every earlier one: throw old sheets away."


@dataclass(frozen=True, slots=True)
class Side:
    """One side of paper: the zones it lists, and whether the foot stands on it."""

    number: int
    of: int
    changed: tuple[ChangedZone, ...]
    has_foot: bool


def change_page(sheet: ChangeSheet) -> str:
    """The sheet as a printable page, A4 or letter; it says when it needs two sides."""
    return page("change_sheet.html", sheet=sheet, sides=sides(sheet), void=VOID)


def change_pdf(sheet: ChangeSheet) -> bytes:
    """The sheet as PDF, with the sides of the page."""
    dealt = [
        {"changed": [asdict(one) for one in side.changed], "has_foot": side.has_foot}
        for side in sides(sheet)
    ]
    values = {"sheet": asdict(sheet), "sides": dealt, "void": VOID}
    return typeset("change_sheet.typ", values)


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
    name = f"  {sheet.name}" if sheet.name else ""
    yield from wrap(f"CHANGE SHEET  {sheet.site}, {sheet.clock}{name}", WIDTH)
    yield f"{sheet.week}, made {sheet.made}"
    yield VOID
    found = f" (found at {sheet.percent_found}: set it)" if sheet.percent_found else ""
    yield f"Percent adjust must read {sheet.percent}{found}"
    yield from (f"! {one}" for one in sheet.warnings)
    yield "=" * WIDTH
    clock = ""
    for one in sheet.changed:
        if one.clock != clock:
            clock = one.clock
            yield from wrap(f"CLOCK {clock}", WIDTH)
            yield "-" * WIDTH
        yield from _zone(one)
    if not sheet.changed:
        yield "Nothing changes this week."
    yield from _instead_lines(sheet)
    if sheet.blocked:
        yield "LEAVE AS IT IS"
        for who, why in sheet.blocked:
            yield from wrap(f"  {who}: {why}", WIDTH, subsequent_indent="    ")
        yield ""
    if sheet.same:
        yield "Stays as it is:"
        for told in sheet.same:
            yield from wrap(f"  {told}", WIDTH, subsequent_indent="    ")
        yield ""
    yield from _skip_lines(sheet)
    yield from wrap(sheet.crosses, WIDTH)
    yield ""
    yield "Keyed in by ______________________   on ________________   at ____________"


def _zone(one: ChangedZone) -> Iterator[str]:
    valve = f"valve {one.valve}  " if one.valve else ""
    valve += f"station {one.station}  " if one.station else ""
    program = f"program {one.program or '____'}"
    yield f"{one.zone}  {shorten(one.name, 44)}  {valve}{program}"
    new = ", ".join(part for part in one.changed if part not in ("minutes", "new"))
    unit = "" if one.now == OFF else "  min"
    said = f"      was {one.was}  ->  NOW  {one.now}{unit}"
    yield said + (f"  {one.detail}" if one.detail else "")
    told = [*one.starts, f"nights: {one.nights}"]
    told += [f"no room on {one.no_room}"] if one.no_room else []
    told += [f"also new: {new}"] if new else []
    for text in (*told, f"why: {one.why}"):
        yield from wrap(text, WIDTH - 6, initial_indent=" " * 6,
                        subsequent_indent=" " * 8)  # fmt: skip
    yield f"      keyed [ ]{'-' * (WIDTH - 15)}"


def _instead_lines(sheet: ChangeSheet) -> Iterator[str]:
    for one in sheet.instead:
        yield from wrap(f"INSTEAD OF THE STARTS ABOVE: {one.why}", WIDTH)
        for told in (*one.programs, *one.water):
            yield from wrap(f"  {told}", WIDTH, subsequent_indent="      ")
        yield ""


def _skip_lines(sheet: ChangeSheet) -> Iterator[str]:
    if not sheet.skips:
        return
    yield f"If it rained more than this tonight ({sheet.rain_unit}), skip tonight:"
    wide = max(4, *(len(one.zone) for one in sheet.skips))
    yield "  " + "zone".ljust(wide) + "".join(head.rjust(8) for head in sheet.nights)
    for one in sheet.skips:
        yield "  " + one.zone.ljust(wide) + "".join(cell.rjust(8) for cell in one.rain)
    yield ""
