"""A paper in, the same in plain characters of 80 columns out."""

from __future__ import annotations

from itertools import accumulate
from textwrap import fill, wrap

from scheduler.reports.paper import (
    Block,
    Box,
    Boxes,
    CanBand,
    Cans,
    Facts,
    Leaf,
    Legend,
    Paper,
    Photos,
    Picture,
    Section,
    Sketch,
    Table,
    Ticks,
    Words,
)
from scheduler.reports.text import WIDTH

# A form feed: printers start a new page there.
NEW_PAGE = "\f"
LEAST_SPACE = 10
GAP = "  "
INDENT = " " * 19
TICKS_IN_LINE = 12
SKETCH_LINES = 16
PHOTO_LINES = 8
FEW_ROWS = 4
CIRCLE = (
    "      .---.",
    "     /     \\",
    "    (   +   )",
    "     \\     /",
    "      '---'",
)


def paper_text(paper: Paper) -> str:
    """Everything, leaf by leaf, with a form feed between."""
    return f"\n{NEW_PAGE}".join(_leaf(paper, leaf) for leaf in paper.leaves)


def _leaf(paper: Paper, leaf: Leaf) -> str:
    head = [
        *_wrapped(leaf.title),
        *_wrapped(f"{paper.name}: {leaf.part} ({leaf.place})  {leaf.stamp}"),
        "=" * WIDTH,
    ]
    body = [line for section in leaf.sections for line in _section(section)]
    foot = [f"{subject}: {text}" for subject, text in leaf.foot]
    foot = ["-" * WIDTH, *_wrapped(" ".join([*foot, leaf.closing]))] if foot else []
    return "\n".join(line.rstrip() for line in [*head, *body, *foot]) + "\n"


def _section(section: Section) -> list[str]:
    title = f"{section.number}  {section.title}" if section.number else section.title
    lines = ["", *_wrapped(title.upper())] if title else [""]
    for i, block in enumerate(section.blocks):
        if i and _is_read(block, section.blocks[i - 1]):
            lines.append("")
        lines += _block(block)
    return lines


def _is_read(*blocks: Block) -> bool:
    """Whether one of them is a table to read, which needs air about it."""
    return any(isinstance(one, Table) and one.is_filled for one in blocks)


def _block(block: Block) -> list[str]:
    match block:
        case Boxes():
            return _boxes(block.boxes)
        case Table():
            return _filled(block) if block.is_filled else _table(block)
        case Facts():
            return _facts(block)
        case Words() | Legend():
            return _wrapped(_words(block))
        case _:
            return _drawn(block)


def _drawn(block: Ticks | Cans | Sketch | Picture | Photos) -> list[str]:
    """What is drawn or drawn into."""
    match block:
        case Ticks():
            return _ticks(block.numbers)
        case Cans():
            return _cans(block)
        case Sketch():
            return _sketch(SKETCH_LINES)
        case Picture():
            return _picture(block)
        case Photos():
            return _photos(block.captions)


def _facts(facts: Facts) -> list[str]:
    known = (f"{name and name + ':':<18} {text}" for name, text in facts.facts)
    return [
        line for one in known for line in wrap(one, WIDTH, subsequent_indent=INDENT)
    ]


def _words(block: Words | Legend) -> str:
    if isinstance(block, Words):
        return block.text
    meanings = "; ".join(f"{letter} {says}" for letter, says in block.meanings)
    return " ".join([block.before, f"{meanings}.", block.after]).strip()


def _wrapped(text: str) -> list[str]:
    return fill(text, WIDTH).splitlines()


def _boxes(boxes: tuple[Box, ...]) -> list[str]:
    """Boxes one after the other, as many in a line as have room."""
    lines: list[list[Box]] = [[]]
    for box in boxes:
        if lines[-1] and _least([*lines[-1], box]) > WIDTH:
            lines.append([])
        lines[-1].append(box)
    return [drawn for line in lines for drawn in ("", *_wrapped(_spread(line)))]


def _least(boxes: list[Box]) -> int:
    return len(GAP.join(_cell(box, LEAST_SPACE) for box in boxes))


def _spread(boxes: list[Box]) -> str:
    """One line; the room that is left goes to the lines to write on."""
    spare = WIDTH - _least(boxes)
    open_boxes = sum(not (box.value or box.choices) for box in boxes)
    more = max(0, spare) // max(1, open_boxes)
    return GAP.join(_cell(box, LEAST_SPACE + more) for box in boxes)


def _cell(box: Box, space: int) -> str:
    label = f"{box.label} ({box.hint})" if box.hint else box.label
    if box.value:
        return f"{label}: {box.value}"
    if box.choices:
        return " ".join([f"{label} ", *(f"[ ] {one}" for one in box.choices)])
    return f"{label} {'_' * space}{' ' + box.unit if box.unit else ''}"


def _table(table: Table) -> list[str]:
    room = WIDTH - len(table.columns) - 1
    whole = sum(one.span for one in table.columns)
    ends = [
        int(room * part / whole)
        for part in accumulate(one.span for one in table.columns)
    ]
    widths = [end - at for at, end in zip([0, *ends[:-1]], ends, strict=True)]
    rule = "+" + "+".join("-" * width for width in widths) + "+"
    lines = [rule, *_row([one.head for one in table.columns], widths, 1), rule]
    for row in table.rows:
        lines += [*_row(row, widths, 3 if table.is_tall else 2), rule]
    return lines


def _row(
    cells: list[str] | tuple[str, ...], widths: list[int], least: int
) -> list[str]:
    parts = [wrap(cell, width) for cell, width in zip(cells, widths, strict=True)]
    n_lines = max(least, *(len(part) for part in parts))
    return [
        "|" + "|".join(
            (part[i] if i < len(part) else "").ljust(width)
            for part, width in zip(parts, widths, strict=True)
        ) + "|"
        for i in range(n_lines)
    ]  # fmt: skip


def _ticks(numbers: tuple[str, ...]) -> list[str]:
    lines: list[str] = []
    for at in range(0, len(numbers), TICKS_IN_LINE):
        row = list(numbers[at : at + TICKS_IN_LINE])
        widths = [5] * len(row)
        rule = "+" + "+".join("-" * width for width in widths) + "+"
        lines += [*([] if lines else [rule]), *_row(row, widths, 2), rule]
    return lines


def _cans(cans: Cans) -> list[str]:
    said = _wrapped(cans.say[0]) + _wrapped(cans.say[1])
    lines = [*said, *CIRCLE]
    for band in cans.bands:
        lines += ["", *_band(band, cans.no_can)]
    return lines


def _band(band: CanBand, no_can: str) -> list[str]:
    n_columns = len(band.label[0])
    left = 4 if band.rows else 0
    widths = [min(9, (WIDTH - left - 1) // n_columns - 1)] * n_columns
    rule = " " * left + "+" + "+".join("-" * width for width in widths) + "+"
    lines = []
    if band.columns:
        heads = (
            name[:w].center(w) for name, w in zip(band.columns, widths, strict=True)
        )
        lines.append(" " * left + " " + " ".join(heads))
    lines.append(rule)
    for i, row in enumerate(band.label):
        is_named = not band.rows
        cells = [(name if is_named else "") if name else no_can for name in row]
        short = [cell[:width] for cell, width in zip(cells, widths, strict=True)]
        name = band.rows[i] if band.rows else ""
        drawn = _row(short, widths, 3 if len(band.label) <= FEW_ROWS else 2)
        lines += [
            (name if k == 1 else "").rjust(left - 1)[: max(0, left - 1)]
            + " " * bool(left)
            + line
            for k, line in enumerate(drawn)
        ]
        lines.append(rule)
    return lines


def _sketch(n_lines: int) -> list[str]:
    edge = "+" + "-" * (WIDTH - 2) + "+"
    return [edge, *["|" + " " * (WIDTH - 2) + "|"] * n_lines, edge]


def _photos(captions: tuple[str, ...]) -> list[str]:
    return [
        line
        for caption in captions
        for line in ("", *_sketch(PHOTO_LINES), *_wrapped(caption))
    ]


def _picture(picture: Picture) -> list[str]:
    """What the drawing says in words, then its numbers."""
    lines = ["", *_wrapped(picture.title), *_wrapped(picture.says)]
    for table in picture.tables:
        lines += ["", *_filled(table)]
    return [*lines, ""]


def _filled(table: Table) -> list[str]:
    """A table to read: columns as wide as they need, or wrapped into what there is."""
    heads = tuple(one.head for one in table.columns)
    rows = [heads, *table.rows] if any(heads) else list(table.rows)
    widths = [max(1, *(len(row[i]) for row in rows)) for i in range(len(table.columns))]
    if sum(widths) + len(GAP) * (len(widths) - 1) > WIDTH:
        shared = _shared(table, widths)
        lines = [
            [wrap(cell, width) for cell, width in zip(row, shared, strict=True)]
            for row in rows
        ]
        return [one for parts in lines for one in _filled_row(table, parts, shared)]
    return [
        one
        for row in rows
        for one in _filled_row(table, [[cell] for cell in row], widths)
    ]


def _shared(table: Table, natural: list[int]) -> list[int]:
    """Widths within the page: short columns as they are, long ones by their spans."""
    room = WIDTH - len(GAP) * (len(natural) - 1)
    fair = room // len(natural)
    short = [width if width <= fair else 0 for width in natural]
    left = room - sum(short)
    spans = [0 if w else one.span for w, one in zip(short, table.columns, strict=True)]
    return [
        width or max(1, int(left * span / sum(spans)))
        for width, span in zip(short, spans, strict=True)
    ]


def _filled_row(table: Table, parts: list[list[str]], widths: list[int]) -> list[str]:
    """The lines of one row, each cell given as its lines."""
    sides = [str.rjust if one.is_number else str.ljust for one in table.columns]
    return [
        GAP.join(
            side(part[i] if i < len(part) else "", width)
            for side, part, width in zip(sides, parts, widths, strict=True)
        ).rstrip()
        for i in range(max(1, *(len(part) for part in parts)))
    ]
