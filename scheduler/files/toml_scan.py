"""A TOML text in; the line and the typed value of every key out.

The standard reader gives values without places. This scanner gives the places; it only
runs on text which that reader has accepted, so it need not check anything.
"""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

Path = tuple[str | int, ...]

_BLANK = re.compile(r"(?:[ \t\n]+|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_PLAIN = re.compile(r"[^,\]}\n#]*")
_STRING = re.compile(
    r'"""(?:\\.|[^\\])*?"{3,5}' r"|'''.*?'{3,5}" r'|"(?:\\.|[^"\\])*"' r"|'[^']*'",
    re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a key or table stands, and the value as typed (empty for a table).

    The spans are of the value or of the header, and of the key.
    """

    line: int
    typed: str
    span: tuple[int, int] = field(default=(0, 0), repr=False, compare=False)
    key: tuple[int, int] = field(default=(0, 0), repr=False, compare=False)


def spots(text: str) -> dict[Path, Spot]:
    r"""Line and typed value of every key, table and list item of a valid TOML text.

    Parameters
    ----------
    text : str
        Valid TOML with newlines as Unix writes them.

    Returns
    -------
    dict
        By path: keys, and 0-based numbers in lists.

    Examples
    --------
    >>> spots('[[zone]]\nid = "Z1"\narea_ft2 = -4  # measured')["zone", 0, "area_ft2"]
    Spot(line=3, typed='-4')
    """
    return _Scan(text).run()


@lru_cache(maxsize=16)
def is_toml(text: str) -> bool:
    """Whether a text can be read as TOML."""
    try:
        tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError):
        return False
    return True


@lru_cache(maxsize=16)
def known_spots(text: str) -> Mapping[Path, Spot]:
    """The same, kept for texts that are asked for again; not to be changed."""
    return spots(text)


@lru_cache(maxsize=16)
def pairs_of(text: str) -> Mapping[Path, Mapping[str, Spot]]:
    r"""Keys and values right inside each table, by its path; tables are left out.

    Examples
    --------
    >>> list(pairs_of('[a]\nx = 1\n[a.b]\ny = 2')["a",])
    ['x']
    """
    found: dict[Path, dict[str, Spot]] = {}
    for path, spot in known_spots(text).items():
        if spot.typed and path and isinstance(path[-1], str):
            found.setdefault(path[:-1], {})[path[-1]] = spot
    return found


class _Scan:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.found: dict[Path, Spot] = {}
        self.count: dict[Path, int] = {}
        # line numbers are asked for in rising order, so they are counted as we go
        self._seen_at = 0
        self._seen_line = 1

    def run(self) -> dict[Path, Spot]:
        table: Path = ()
        self._skip(_BLANK)
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                table = self._header()
            else:
                self._pair(table)
            self._skip(_BLANK)
        return self.found

    def _skip(self, pattern: re.Pattern[str]) -> str:
        found = pattern.match(self.text, self.at)
        if found is None:
            self.at += 1  # never reached on valid text; keeps the scan finite
            return ""
        self.at = found.end()
        return found.group()

    def _line(self, at: int) -> int:
        if at < self._seen_at:
            return self.text.count("\n", 0, at) + 1
        self._seen_line += self.text.count("\n", self._seen_at, at)
        self._seen_at = at
        return self._seen_line

    def _key(self) -> tuple[str, ...]:
        parts: list[str] = []
        while self.at < len(self.text):
            self._skip(_SPACE)
            if self.text[self.at] in "\"'":
                parts.append(self._skip(_STRING)[1:-1])
            else:
                parts.append(self._skip(_BARE))
            self._skip(_SPACE)
            if self.text[self.at : self.at + 1] != ".":
                break
            self.at += 1
        return tuple(parts)

    def _header(self) -> Path:
        line, begin = self._line(self.at), self.at
        is_list = self.text.startswith("[[", self.at)
        self.at += 2 if is_list else 1
        path: Path = ()
        key = self._key()
        for i, part in enumerate(key):
            path = (*path, part)
            if is_list and i == len(key) - 1:
                self.count[path] = self.count.get(path, 0) + 1
            if path in self.count:
                self.found.setdefault(path, Spot(line, "", (begin, begin)))
                path = (*path, self.count[path] - 1)
        self.at += 2 if is_list else 1
        self.found.setdefault(path, Spot(line, "", (begin, self.at)))
        return path

    def _pair(self, table: Path) -> None:
        line, begin = self._line(self.at), self.at
        path = table + self._key()
        end = begin + len(self.text[begin : self.at].rstrip())
        self.at += 1  # the = sign
        self._skip(_SPACE)
        self._value(path, line, (begin, end))

    def _value(self, path: Path, line: int, key: tuple[int, int] = (0, 0)) -> None:
        begin = self.at
        first = self.text[begin : begin + 1]
        if first == "[":
            self._list(path)
        elif first == "{":
            self._inline(path)
        elif first in ('"', "'"):
            self._skip(_STRING)
        else:
            self._skip(_PLAIN)
        typed = self.text[begin : self.at].strip()
        self.found[path] = Spot(line, typed, (begin, begin + len(typed)), key)

    def _list(self, path: Path) -> None:
        self.at += 1
        i = 0
        self._skip(_BLANK)
        while self.text[self.at : self.at + 1] not in ("]", ""):
            self._value((*path, i), self._line(self.at))
            i += 1
            self._comma()
        self.at += 1

    def _inline(self, path: Path) -> None:
        self.at += 1
        self._skip(_BLANK)
        while self.text[self.at : self.at + 1] not in ("}", ""):
            self._pair(path)
            self._comma()
        self.at += 1

    def _comma(self) -> None:
        self._skip(_BLANK)
        if self.text[self.at : self.at + 1] == ",":
            self.at += 1
            self._skip(_BLANK)
