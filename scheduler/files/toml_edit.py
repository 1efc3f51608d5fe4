"""A TOML text and one change in; the text with that change and nothing else out.

The text is cut and joined, never written anew: every remark, blank and line ending
that is not part of the change stays byte for byte. Each result is read again and held
against the values it should have, so that a layout not foreseen here is refused.
"""

import re
import tomllib
from collections.abc import Mapping, Sequence
from typing import Any

from scheduler.errors import SaveError
from scheduler.files.toml_says import BY_HAND, checked, inside, named, quoted
from scheduler.files.toml_scan import Path, Spot, known_spots

_REMARK = re.compile(r"([ \t]{2,})#")
_TEXT_OR_REMARK = re.compile(r"\"(?:\\.|[^\"\\\n])*\"|'[^'\n]*'|#[^\n]*")
_BARE = re.compile(r"[A-Za-z0-9_-]+$")
_ATTACHED = re.compile(r"[ \t]*#[^\n]*\n")


def with_value(text: str, place: Path, typed: str, *, key: str = "") -> str:
    """Text with the value of one key set, or the key added to its table.

    Parameters
    ----------
    text : str
        Valid TOML with newlines as Unix writes them.
    place : tuple
        The key, such as `("zone", 3, "soil", "slope")`; its table must be there.
    typed : str
        The value as TOML writes it.
    key : str
        Another name for the key, where its unit changes; its line stays where it is.

    Returns
    -------
    str
        The text with the change.

    Raises
    ------
    SaveError
        If the text or the value is not TOML, or the table is not there.

    Examples
    --------
    >>> text = "flow_gpm = 120  # nameplate"
    >>> with_value(text, ("flow_gpm",), "27", key="flow_m3_per_h")
    'flow_m3_per_h = 27  # nameplate'
    """
    found = _spots(text)
    name = key or str(place[-1])
    table, target = place[:-1], (*place[:-1], name)

    def change(data: Any) -> None:
        there = inside(data, table)
        if not isinstance(there, dict):
            raise SaveError(f"[{named(table)}] is a list", BY_HAND)
        there.pop(place[-1], None)
        there[name] = tomllib.loads(f"v = {typed}")["v"]

    spot = found.get(place)
    if spot is None:
        done = _with_key(text, found, target, typed)
    elif not spot.typed or spot.key == (0, 0):
        raise SaveError(f"{place[-1]} is a table, not a value", BY_HAND)
    else:
        done = _with_span(text, spot, _key(name), typed)
    return checked(text, done, change)


def without_key(text: str, place: Path) -> str:
    r"""Text without one key: its line goes, and the remark behind it.

    Raises
    ------
    SaveError
        If the key is not there.

    Examples
    --------
    >>> without_key('units = "us"\nnote = "a demo"  # or none\n', ("note",))
    'units = "us"\n'
    """
    spot = _spots(text).get(place)
    if spot is None or not spot.typed or spot.key == (0, 0):
        raise SaveError(f"{place[-1]} is not there", BY_HAND)
    begin, end = _line_begin(text, spot.key[0]), _line_end(text, spot.span[1])
    rest = text[spot.span[1] : end].strip()
    alone = not text[begin : spot.key[0]].strip() and (not rest or rest[0] == "#")
    done = text[:begin] + text[end:] if alone else _without_item(text, spot)
    return checked(text, done, lambda data: inside(data, place[:-1]).pop(place[-1]))


def with_table(
    text: str, header: Sequence[str], lines: Sequence[str], *, within: Path = ()
) -> str:
    r"""Text with one more table: `[tariff]`, `[[zone]]`, or one inside a zone.

    Parameters
    ----------
    text : str
        Valid TOML with newlines as Unix writes them.
    header : sequence of str
        The header line with its brackets, after which `lines` stand.
    lines : sequence of str
        `key = value` each; remarks and further headers are allowed.
    within : tuple
        Table of a list that the new one belongs to, such as `("zone", 3)`.

    Returns
    -------
    str
        The text with the table behind its like, behind what belongs to `within`, or at
        the end.

    Raises
    ------
    SaveError
        If the place is not there or the lines are not TOML.

    Examples
    --------
    >>> with_table("[[a]]\nx = 1  # one\n", ["[[a]]"], ["x = 2"])
    '[[a]]\nx = 1  # one\n\n[[a]]\nx = 2\n'
    """
    found = _spots(text)
    if within and within not in found:
        raise SaveError(f"{named(within)} is not there", BY_HAND)
    block = "\n".join((*header, *lines)) + "\n"
    name = _header_name(header[0])
    at = _table_end(text, found, within, name)
    before, after = text[:at], text[at:]
    if before and not before.endswith("\n"):
        before += "\n"
    gap = (
        "\n"
        if before.strip()
        and not before.endswith("\n\n")
        and _wants_gap(text, found, within)
        else ""
    )
    if after.strip() and not after.startswith("\n"):
        after = gap + after
    done = before + gap + block + after

    def change(data: Any) -> None:
        outer = inside(data, within)
        added = tomllib.loads(_as_top(block, name))
        key = name[-1]
        if header[0].startswith("[["):
            outer.setdefault(key, []).extend(added[key])
        elif key in outer:
            raise SaveError(f"[{'.'.join(name)}] is there already", BY_HAND)
        else:
            outer[key] = added[key]

    return checked(text, done, change)


def without_table(text: str, place: Path) -> str:
    r"""Text without a table and what stands inside it, and the remarks right above it.

    Raises
    ------
    SaveError
        If it is not there as a table of its own.

    Examples
    --------
    >>> without_table('[a]\nx = 1\n\n# dry\n[b]\ny = 2\n', ("b",))
    '[a]\nx = 1\n'
    """
    found = _spots(text)
    begin, end = _extent(text, found, place)
    begin = _with_remarks(text, begin)
    before, after = text[:begin], text[end:]
    # one gap stays, the one that stood above
    after = after.lstrip("\n") if before.endswith("\n\n") else after
    done = before + after if after.strip() else before.rstrip("\n") + "\n" + after
    done = done if before.strip() else done.lstrip("\n")

    def change(data: Any) -> None:
        outer, last = inside(data, place[:-1]), place[-1]
        del outer[last]
        if isinstance(last, int) and not outer:
            del inside(data, place[:-2])[place[-2]]

    return checked(text, done, change)


def with_copy(text: str, place: Path, values: Mapping[str, str]) -> str:
    r"""Text with a table of a list once more, behind its like, some values changed.

    Parameters
    ----------
    text : str
        Valid TOML with newlines as Unix writes them.
    place : tuple
        The table, such as `("zone", 3)`.
    values : mapping
        By key of the copy: the value as TOML writes it.

    Returns
    -------
    str
        The text with the copy.

    Raises
    ------
    SaveError
        If the table is not there as one of its own.

    Examples
    --------
    >>> with_copy('[[a]]\nid = "X"\nn = 2\n', ("a", 0), {"id": '"Y"'})
    '[[a]]\nid = "X"\nn = 2\n\n[[a]]\nid = "Y"\nn = 2\n'
    """
    if len(place) != 2:
        raise SaveError(f"{named(place)} is no table of a list", BY_HAND)
    block = table_block(text, place)
    for key, typed in values.items():
        block = with_value(block, (place[0], 0, key), typed)
    head, *lines = block.rstrip("\n").split("\n")
    return with_table(text, [head], lines)


def table_block(text: str, place: Path) -> str:
    r"""Lines of a table with everything inside it, as they stand.

    Raises
    ------
    SaveError
        If it is not there as a table of its own.

    Examples
    --------
    >>> table_block('[a]\nx = 1  # one\n\n[b]\ny = 2\n', ("a",))
    '[a]\nx = 1  # one\n'
    """
    begin, end = _extent(text, _spots(text), place)
    return text[begin:end]


# --- cut and join ------------------------------------------------------------


def _spots(text: str) -> Mapping[Path, Spot]:
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        fix = "correct the file by hand first: lowquarter inspect names the line"
        raise SaveError("cannot be read as TOML", fix) from wrong
    return known_spots(text)


def _key(name: str) -> str:
    return name if _BARE.match(name) else quoted(name)


def _with_span(text: str, spot: Spot, key: str, typed: str) -> str:
    """The key and the value in place of the old ones; a remark keeps its column.

    Remarks inside a list of several lines come to stand above it.
    """
    old = text[slice(*spot.key)]
    kept = old if old.endswith(key) and old[: -len(key)][-1:] in (".", "") else key
    head = kept + text[spot.key[1] : spot.span[0]] + typed
    tail = text[spot.span[1] :]
    longer = len(head) - (spot.span[1] - spot.key[0])
    remark = _REMARK.match(tail)
    if remark and "\n" not in head:
        gap = max(2, len(remark[1]) - longer)
        tail = " " * gap + tail[len(remark[1]) :]
    inner = "".join(f"{one}\n" for one in _remarks_in(text[slice(*spot.span)]))
    begin = _line_begin(text, spot.key[0]) if inner else spot.key[0]
    return text[:begin] + inner + text[begin : spot.key[0]] + head + tail


def _remarks_in(value: str) -> list[str]:
    return [one for one in _TEXT_OR_REMARK.findall(value) if one.startswith("#")]


def _with_key(text: str, found: Mapping[Path, Spot], place: Path, typed: str) -> str:
    table, line = place[:-1], f"{_key(str(place[-1]))} = {typed}"
    spot = found.get(table)
    if spot is not None and spot.typed.startswith("{"):
        pairs = text[spot.span[0] + 1 : spot.span[1] - 1].rstrip()
        comma = ", " if pairs.strip() else " "
        done = f"{{{pairs}{comma}{line} }}"
        return text[: spot.span[0]] + done + text[spot.span[1] :]
    if table and spot is None:
        raise SaveError(f"[{named(table)}] is not there", BY_HAND)
    own = [one.span[1] for path, one in found.items()
           if path[:-1] == table and one.typed and one.key != (0, 0)]  # fmt: skip
    if own:
        at = _line_end(text, max(own))
    elif spot is not None:
        at = _line_end(text, spot.span[1])
    else:
        at = 0
    before = text[:at]
    if before and not before.endswith("\n"):
        before += "\n"
    return before + line + "\n" + text[at:]


def _without_item(text: str, spot: Spot) -> str:
    """Take one pair out of a table written in braces, and one comma with it."""
    begin, end = spot.key[0], spot.span[1]
    behind = re.match(r"\s*,\s*", text[end:])
    if behind:
        return text[:begin] + text[end + behind.end() :]
    ahead = re.search(r"\s*,\s*$", text[:begin])
    return text[: ahead.start() if ahead else begin] + text[end:]


def _line_begin(text: str, at: int) -> int:
    return text.rfind("\n", 0, at) + 1


def _line_end(text: str, at: int) -> int:
    """Just behind the newline of the line that `at` stands on."""
    end = text.find("\n", at)
    return len(text) if end < 0 else end + 1


def _headers(found: Mapping[Path, Spot]) -> list[tuple[int, Path]]:
    """Where each header begins, and the table it opens, in the order of the file."""
    by_place: dict[int, Path] = {}
    for path, spot in found.items():
        if not spot.typed and len(path) >= len(by_place.get(spot.span[0], ())):
            by_place[spot.span[0]] = path
    return sorted(by_place.items())


def _extent(text: str, found: Mapping[Path, Spot], place: Path) -> tuple[int, int]:
    """From a table's header to behind its last key, tables inside it included."""
    mine = [at for at, path in _headers(found) if path[: len(place)] == place]
    spot = found.get(place)
    if spot is None or spot.typed or not mine:
        raise SaveError(f"{named(place)} is not a table of its own", BY_HAND)
    order = [at for at, _ in _headers(found)]
    first = order.index(mine[0])
    if order[first : first + len(mine)] != mine:
        raise SaveError(f"{named(place)} stands in several pieces", BY_HAND)
    return mine[0], _content_end(text, found, place)


def _content_end(text: str, found: Mapping[Path, Spot], place: Path) -> int:
    ends = [one.span[1] for path, one in found.items() if path[: len(place)] == place]
    return _line_end(text, max(ends)) if ends else len(text)


def _table_end(
    text: str, found: Mapping[Path, Spot], within: Path, name: tuple[str, ...]
) -> int:
    """Where a new table goes: behind its like, else behind what it belongs to."""
    like = (*within, name[-1])
    if like in found:
        return _content_end(text, found, like)
    return _content_end(text, found, within) if within else len(text)


def _wants_gap(text: str, found: Mapping[Path, Spot], within: Path) -> bool:
    """Whether tables of that rank have a blank line between them."""
    if not within:
        return True
    inner = [at for at, path in _headers(found)
             if path[: len(within)] == within and len(path) > len(within)]  # fmt: skip
    return any(text[:at].endswith("\n\n") for at in inner)


def _with_remarks(text: str, begin: int) -> int:
    """Begin of the remarks that stand right above a line."""
    while begin > 0:
        above = _line_begin(text, begin - 1)
        if not _ATTACHED.fullmatch(text[above:begin]):
            return begin
        begin = above
    return begin


def _header_name(header: str) -> tuple[str, ...]:
    found = re.match(r"\s*\[\[?([^\]]+)\]", header)
    name = found[1] if found else header
    return tuple(part.strip().strip('"') for part in name.split("."))


def _as_top(block: str, name: tuple[str, ...]) -> str:
    """The block as if its table stood at the top of a file."""
    outer = ".".join(name[:-1])
    return (
        re.sub(rf"(?m)^(\[\[?){re.escape(outer)}\.", r"\1", block) if outer else block
    )
