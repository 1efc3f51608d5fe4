"""Two TOML texts in; what differs between them, and the same on a third one, out."""

import difflib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import zip_longest

from scheduler.errors import SaveError
from scheduler.files.toml_edit import (
    table_block,
    with_table,
    with_value,
    without_key,
    without_table,
)
from scheduler.files.toml_scan import Path, Spot, known_spots, pairs_of
from scheduler.units import split_suffix


@dataclass(frozen=True, slots=True)
class Change:
    """One value or one table that differs between two texts.

    Attributes
    ----------
    place : tuple
        The table of a value, or the table itself; of a list, ids in place of numbers
        where there are ids.
    key_was, was : str
        Key and value as they were typed; empty for what was not there.
    key, now : str
        Key and value as they are typed; empty for what is gone. Of a table the key is
        empty on both sides, and `was` or `now` holds its lines.
    """

    place: Path
    key_was: str
    was: str
    key: str
    now: str

    @property
    def is_table(self) -> bool:
        """Whether a whole table came or went."""
        return not self.key and not self.key_was

    @property
    def place_text(self) -> str:
        """Where it is, in words: `Z4 pots`."""
        return " ".join(
            str(part + 1) if isinstance(part, int) else part for part in self.place
        )


def changes(before: str, after: str) -> tuple[Change, ...]:
    r"""What was changed between two texts of one file.

    Parameters
    ----------
    before, after : str
        Valid TOML.

    Returns
    -------
    tuple of Change
        Tables gone, tables new, then values, ids last; each in the order of its text.
        A table that came or went is one change with everything inside it.

    Examples
    --------
    >>> changes('[supply]\nflow_gpm = 120\n', '[supply]\nflow_gpm = 110\n')[0].now
    '110'
    """
    if before == after:
        return ()
    old = _Named(before)
    new = _Named(after, old)
    gone = [_table(old, one, is_now=False) for one in _outermost(old, new)]
    come = [_table(new, one, is_now=True) for one in _outermost(new, old)]
    values = sorted(_values(old, new), key=lambda one: "id" in (one.key, one.key_was))
    return (*gone, *come, *values)  # an id last: the others go by the old one


def line_changes(before: str, after: str) -> tuple[Change, ...]:
    r"""Lines that differ between two texts, one of which is no TOML.

    Parameters
    ----------
    before, after : str
        The texts.

    Returns
    -------
    tuple of Change
        The key of each says its line, of one that is gone where it was; lines that
        only moved are none.

    Examples
    --------
    >>> line_changes('a = "x\n', 'a = "x"\n')[0].key
    'line 1'
    """
    was, now = before.split("\n"), after.split("\n")
    found = []
    alike = difflib.SequenceMatcher(None, was, now, autojunk=False)
    for tag, i, i_end, j, j_end in alike.get_opcodes():
        if tag == "equal":
            continue
        for at, (old, new) in enumerate(zip_longest(was[i:i_end], now[j:j_end])):
            line = f"line {(i if new is None else j) + at + 1}"
            found.append(Change((), line, old or "", line, new or ""))
    return tuple(one for one in found if one.was != one.now)


def reapplied(
    text: str, wanted: Iterable[Change]
) -> tuple[str, tuple[tuple[Change, str], ...]]:
    r"""Another text with the same changes in it.

    Parameters
    ----------
    text : str
        Valid TOML.
    wanted : iterable of Change
        What to change.

    Returns
    -------
    text : str
        The text with every change that has a place in it.
    lost : tuple of (Change, str)
        Those that have none, and why.

    Examples
    --------
    >>> mine = changes("a = 1\n", "a = 2\n")
    >>> reapplied("b = 9  # new\na = 1\n", mine)[0]
    'b = 9  # new\na = 2\n'
    """
    lost: list[tuple[Change, str]] = []
    for one in wanted:
        try:
            text = _with_change(text, one)
        except SaveError as problem:
            lost.append((one, problem.what))
    return text, tuple(lost)


class _Named:
    """A text whose places are named by ids where lists have them.

    What got another id at its place in the list, and says much the same, keeps the
    name of before.
    """

    def __init__(self, text: str, before: "_Named | None" = None) -> None:
        self.text = text
        self.laid, self.pairs = known_spots(text), pairs_of(text)
        self.ids = _ids(self.laid)
        if before is not None:
            taken, own = set(before.ids.values()), set(self.ids.values())
            for path, one in self.ids.items():
                was = before.ids.get(path)
                is_new = was is not None and one not in taken and was not in own
                if is_new and self._is_like(before, path):
                    self.ids[path] = before.ids[path]
        self.names = {path: self._named(path) for path in self.laid}
        self.tables = {
            name: path
            for path, name in self.names.items()
            if not self.laid[path].typed and not self._is_list(path)
        }

    def _is_like(self, before: "_Named", path: Path) -> bool:
        """Whether at least half of what was said there is said still."""
        was = {key: one.typed for key, one in before.pairs[path].items() if key != "id"}
        now = {key: one.typed for key, one in self.pairs[path].items()}
        kept = sum(now.get(key) == typed for key, typed in was.items())
        return kept > 0 and 2 * kept >= len(was)

    def _is_list(self, path: Path) -> bool:
        return (*path, 0) in self.laid

    def _named(self, path: Path) -> Path:
        named: list[str | int] = []
        for i, part in enumerate(path):
            named.append(self.ids.get(path[: i + 1], part))
        return tuple(named)


def _ids(laid: Mapping[Path, Spot]) -> dict[Path, str]:
    """Ids of the things of each list, by their places."""
    return {
        path[:-1]: spot.typed.strip("\"'")
        for path, spot in laid.items()
        if len(path) > 1 and path[-1] == "id" and isinstance(path[-2], int)
    }


def _outermost(mine: _Named, other: _Named) -> list[Path]:
    """Tables that only this text has, without those inside one of them."""
    only = {name for name in mine.tables if name not in other.tables}
    return [
        one
        for one in mine.tables
        if one in only and not any(one[:i] in only for i in range(1, len(one)))
    ]


def _table(named: _Named, name: Path, *, is_now: bool) -> Change:
    block = table_block(named.text, named.tables[name])
    return Change(name, "", "" if is_now else block, "", block if is_now else "")


def _values(old: _Named, new: _Named) -> Iterator[Change]:
    """Values that differ in tables that both have; another unit is the same key."""
    both = [(), *(one for one in old.tables if one in new.tables)]
    for table in dict.fromkeys(both):
        was, now = _pairs(old, table), _pairs(new, table)
        for stem in dict.fromkeys((*was, *now)):
            a, b = was.get(stem, ("", "")), now.get(stem, ("", ""))
            if a != b:
                yield Change(table, *a, *b)


def _pairs(named: _Named, table: Path) -> dict[str, tuple[str, str]]:
    """Keys and values of one table, by the key without its unit."""
    path = named.tables.get(table, ())
    return {
        split_suffix(key)[0]: (key, spot.typed)
        for key, spot in named.pairs.get(path, {}).items()
    }


def _with_change(text: str, one: Change) -> str:
    named = _Named(text)
    if one.is_table:
        return _with_table_change(named, one)
    table = named.tables.get(one.place) if one.place else ()
    if table is None:
        raise SaveError(f"{one.place_text} is not there", "")
    there = _pairs(named, one.place).get(split_suffix(one.key or one.key_was)[0])
    if not one.now:
        return without_key(text, (*table, there[0])) if there else text
    return with_value(text, (*table, there[0] if there else one.key), one.now,
                      key=one.key)  # fmt: skip


def _with_table_change(named: _Named, one: Change) -> str:
    if not one.now:
        if one.place not in named.tables:
            return named.text
        return without_table(named.text, named.tables[one.place])
    if one.place in named.tables:
        raise SaveError(f"{one.place_text} is there already", "")
    head, *lines = one.now.rstrip("\n").split("\n")
    return with_table(named.text, [head], lines, within=_within(named, one.place))


def _within(named: _Named, place: Path) -> Path:
    """Item of a list that a table belongs to; empty for one at the top."""
    for i in range(len(place) - 1, 0, -1):
        path = named.tables.get(place[:i])
        if path is not None:
            return path
    return ()
