"""The text of a TOML file in; its values, and where each stands, out.

A line that TOML refuses is reported and set aside, so that the rest is still read.
"""

import re
import tomllib
from dataclasses import replace
from functools import cached_property
from typing import Any

from scheduler.errors import Finding
from scheduler.files.text_file import TextFile
from scheduler.files.toml_scan import Path, Spot, spots
from scheduler.files.toml_slips import (
    Slip,
    bracket_slip,
    hidden_slip,
    key_of,
    open_text_slip,
    slip_on,
)
from scheduler.site import FORMAT

# Marks a key whose line was set aside; a character that nobody types.
BROKEN = "\ue000"
_MOST_SLIPS = 40
_AT_END = "(at end of document)"
_AT_LINE = re.compile(r"\(at line (\d+)")
_HEADER = re.compile(r"^\s*(\[\[?)\s*([\w.\"-]+)")
_ID = re.compile(r"""^\s*id\s*=\s*("[^"\\]*"|'[^']*')\s*(#.*)?$""")
_OPEN_LIST = re.compile(r"^\s*[\w-]+\s*=\s*\[")
_TEXT = re.compile(r"\"(?:\\.|[^\"\\])*\"|'[^']*'|#.*")
_REMARK = re.compile(r"(^|\s+)#.*$")
_TRIPLE = ('"""', "'''")
_MARK = re.compile(rf"{'|'.join(_TRIPLE)}|{_TEXT.pattern}")


def broken_key(key: str) -> str | None:
    """Key that stood on a line set aside; empty for a whole table, None if it reads."""
    return key.split(BROKEN)[1] if key.startswith(BROKEN) else None


class TomlText:
    """Values of a TOML file, and the line and the typed form of each of them."""

    def __init__(self, where: str, text: str, data: dict[str, Any]) -> None:
        self.where = where
        self.data = data
        self._text = text

    @cached_property
    def _spots(self) -> dict[Path, Spot]:
        # only needed once something is wrong, so a clean site never pays for it
        return spots(self._text)

    def line(self, path: Path) -> int:
        """Line of a key, or of the nearest table around it."""
        while path and path not in self._spots:
            path = path[:-1]
        return self._spots[path].line if path else 1

    def typed(self, path: Path) -> str:
        """The value as the user typed it, or empty."""
        spot = self._spots.get(path)
        text = " ".join(spot.typed.split()) if spot else ""
        return text if len(text) <= 60 else f"{text[:57]}..."

    def place(self, path: Path) -> str:
        """Place of a key as a finding names it: `zones.toml:17: area_ft2`."""
        names = [one for one in path if isinstance(one, str)]
        last = f": {names[-1]}" if names else ""
        return f"{self.where}:{self.line(path)}{last}"

    def table_place(self, path: Path) -> str:
        """Place of a table as a finding names it: `zones.toml:12`."""
        return f"{self.where}:{self.line(path)}"


def parsed_toml(file: TextFile) -> tuple[TomlText | None, tuple[Finding, ...]]:
    """Read TOML, setting aside the lines or tables that cannot be read.

    Parameters
    ----------
    file : TextFile
        The file.

    Returns
    -------
    toml : TomlText or None
        What could be read; a key that was set aside is replaced by one that begins
        with `BROKEN`, so that the table it stands in is known to be incomplete.
    findings : tuple of Finding
        One stop for each line that TOML refuses.
    """
    lines = file.text.split("\n")
    findings: list[Finding] = []
    for _ in range(_MOST_SLIPS):
        text = "\n".join(lines)
        try:
            data = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            reason = str(error)
            at = _refused_line(lines, reason)
            if BROKEN in lines[at]:  # reported already, but its table reads no better
                is_aside = _set_table_aside(lines, at)
            else:
                found, at = _slip_finding(file.where, lines, reason)
                findings.append(found)
                is_aside = _set_aside(lines, at, reason)
            if not is_aside:
                return None, tuple(dict.fromkeys(findings))
        except RecursionError:
            what = "is nested too deeply"
            fix = "write plain tables and lists"
            return None, (*findings, Finding("stop", file.where, what, fix))
        else:
            return TomlText(file.where, text, data), tuple(findings)
    return None, tuple(findings)


def _slip_finding(where: str, lines: list[str], reason: str) -> tuple[Finding, int]:
    """Finding for the line at fault, and the index of the one to set aside."""
    at = _refused_line(lines, reason)
    single = _single_bracket(lines, at, reason)
    text, opened = _open_text(lines, at, reason), _open_list(lines, at)
    aside = named = at
    if single is not None:
        aside, named = single[0], single[0]
        slip = bracket_slip(lines[named], single[1] + 1)
    elif text is not None:
        aside = named = text
        slip = open_text_slip(lines[text])
    elif opened is not None:
        aside = opened
        slip, named = _slip_in_list(lines, opened, at, reason)
    else:
        slip = slip_on(lines[at], reason)
    what = slip.what
    if "twice" in what and slip.key:
        what += _first_place(lines, at, slip.key)
    place = f"{where}:{named + 1}" + (f": {slip.key}" if slip.key else "")
    return Finding("stop", place, what, slip.fix), aside


def _slip_in_list(
    lines: list[str], opened: int, at: int, reason: str
) -> tuple[Slip, int]:
    """What is wrong in a list over several lines, and on which of them."""
    key, hidden = key_of(lines[opened]), hidden_slip(lines[at])
    is_new = at > opened and bool(key_of(lines[at]) or _HEADER.match(lines[at]))
    if hidden is not None and not is_new:
        return replace(hidden, key=key), at
    end = at + 1 if at == opened or _AT_END in reason else at
    plain = [_REMARK.sub("", one) for one in lines[opened:end]]
    plain[0] = plain[0].partition("=")[2]
    last = max(i for i, one in enumerate(plain) if one.strip())
    item, there = _short(plain[last]), opened + last
    is_open = "Unclosed" in reason or _AT_END in reason
    if is_open and end == at and not is_new and item[-1] not in "[,":
        what = f"is {item}: a comma is missing before {_short(lines[at])} on line "
        return Slip(key, f"{what}{at + 1}", f"write {item},"), there
    if is_new or is_open:
        what = "it opens a list" if last == 0 else "the last line of a list"
        what = f"is {item}: {what} that is not closed"
        return Slip(key, what, "add ]"), there
    what = f"is {_short(lines[at])}: an item of a list that cannot be read"
    return Slip(key, what, "write items with commas between them, texts in quotes"), at


def _short(typed: str) -> str:
    typed = typed.strip()
    return typed if len(typed) <= 40 else f"{typed[:37]}..."


def _open_text(lines: list[str], at: int, reason: str) -> int | None:
    """Line of the three quotes whose text goes on to the refused line by mistake."""
    is_at_end = _AT_END in reason
    opened, mark = None, ""
    for i, line in enumerate(lines[: at + 1 if is_at_end else at]):
        rest = line
        while rest:
            if mark:
                _, closing, rest = rest.partition(mark)
                mark = "" if closing else mark
                continue
            found = _MARK.search(rest)
            rest = rest[found.end() :] if found else ""
            if found and found[0] in _TRIPLE:
                opened, mark = i, found[0]
    if not mark or opened is None:
        return None
    # a text over several lines that ends well is not at fault for what follows it
    is_plain = lines[opened].rpartition(mark)[2].rstrip().endswith(mark[0])
    return opened if is_at_end or is_plain else None


def _single_bracket(lines: list[str], at: int, reason: str) -> tuple[int, int] | None:
    """Lines of a `[zone]` and of a `[[zone]]`, which do not go together."""
    mine = _HEADER.match(lines[at])
    if mine is None or not _top_header(lines[at]) or "Cannot" not in reason:
        return None
    alike = [(i, _HEADER.match(one)) for i, one in enumerate(lines)]
    here = [(found[1], i) for i, found in alike if found and found[2] == mine[2]]
    first = dict(reversed(here))
    return (first["["], first["[["]) if len(first) > 1 else None


def _refused_line(lines: list[str], reason: str) -> int:
    found = _AT_LINE.search(reason)
    if found:
        return min(int(found[1]), len(lines)) - 1
    # "at end of document": the last line that holds anything
    return max((i for i, line in enumerate(lines) if line.strip()), default=0)


def _open_list(lines: list[str], at: int) -> int | None:
    """Line above that opens a list which is still open at the refused line."""
    for i in range(at, max(at - 40, -1), -1):
        if _OPEN_LIST.match(lines[i]):
            inside = _TEXT.sub("", "\n".join(lines[i:at]) or lines[i])
            return i if inside.count("[") > inside.count("]") else None
        if i < at and _HEADER.match(lines[i]):
            return None
    return None


def _first_place(lines: list[str], at: int, key: str) -> str:
    for i in range(at - 1, -1, -1):
        if _HEADER.match(lines[i]):
            break
        if key_of(lines[i]) == key:
            return f", first on line {i + 1}"
    return ""


def _set_aside(lines: list[str], at: int, reason: str) -> bool:
    """Replace what cannot be read by a broken key; False if nothing can be saved."""
    key = key_of(lines[at])
    pair = _single_bracket(lines, at, reason)
    if pair is not None:  # read as it was meant
        lines[pair[0]] = f"[[{_HEADER.match(lines[at])[2]}]]"  # type: ignore[index]
        return True
    if key and not key.startswith(BROKEN):
        lines[at] = f'"{BROKEN}{key}{BROKEN}{at}" = 0'
        # the rest of a list that spans lines goes with its first line
        for i in range(at + 1, len(lines)):
            if not lines[i].strip() or key_of(lines[i]) or _HEADER.match(lines[i]):
                break
            lines[i] = ""
        return True
    if "Cannot declare" in reason and _top_header(lines[at]):
        end = _table_end(lines, at)
        lines[at:end] = [""] * (end - at)
        return True
    return _set_table_aside(lines, at)


def _set_table_aside(lines: list[str], at: int) -> bool:
    begin = next((i for i in range(at, -1, -1) if _top_header(lines[i])), None)
    if begin is None:
        return False
    end = _table_end(lines, at)
    bracket, name = _HEADER.match(lines[begin]).groups()  # type: ignore[union-attr]
    close = "]" * len(bracket)
    # the id is kept, so that tests of this zone do not seem to name a stranger
    known = next((_ID.match(one) for one in lines[begin:end] if _ID.match(one)), None)
    kept = f"id = {known[1]}" if known else ""
    before = list(lines)
    lines[begin:end] = [""] * (end - begin)
    lines[begin] = f"{bracket}{name}{close}"
    lines[begin + 1 : end - 1] = [kept, *[""] * (end - begin - 3)][: end - begin - 2]
    if end - begin < 2:
        return False
    lines[end - 1] = f'"{BROKEN}{BROKEN}{at}" = 0'
    return lines != before


def _table_end(lines: list[str], at: int) -> int:
    after = range(at + 1, len(lines))
    return next((i for i in after if _top_header(lines[i])), len(lines))


def _top_header(line: str) -> bool:
    found = _HEADER.match(line)
    return found is not None and "." not in found[2]


def format_findings(toml: TomlText) -> tuple[Finding, ...]:
    """Say so when a file is not in the format that is read here."""
    given = toml.data.get("format")
    if given == FORMAT and not isinstance(given, bool):
        return ()
    if given is None:
        if any(broken_key(key) == "format" for key in toml.data):
            return ()
        what = f"does not say its format; read as format = {FORMAT}"
        fix = f"write format = {FORMAT} on the first line"
        return (Finding("warning", toml.where, what, fix),)
    what = f"is {toml.typed(('format',))}; this program reads format = {FORMAT}"
    fix = "use the program that wrote the file, or a newer version of this one"
    return (Finding("stop", toml.place(("format",)), what, fix),)
