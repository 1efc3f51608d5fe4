"""A line that TOML refuses in; what was meant and how to write it out."""

import re
from dataclasses import dataclass
from itertools import pairwise

_PAIR = re.compile(r"""^\s*(?P<key>[\w-]+|"[^"]*")\s*=\s*(?P<value>.*?)\s*$""")
_COMMENT = re.compile(r"\s+#.*$")
_PERCENT = re.compile(r"(\d+(?:\.\d+)?)\s*%$")
_TOKEN = re.compile(r""""[^"]*"|'[^']*'|[^\s,\[\]"']+|,""")
_QUOTED = re.compile(r"\"(?:\\.|[^\"\\])*\"|'[^']*'|#.*")
# TOML takes no control character anywhere, and between words plain blanks only
_HIDDEN = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
_NO_BLANK = re.compile(r"[^\S \t]|[\u200b-\u200f\u2060\ufeff]")
_YES = {"yes", "on", "true"}
_NO = {"no", "off", "false"}

# Shape of a value, what is wrong with it, how to write it. The first that fits counts.
# In the texts: v the value, k the key, g1, g2 .. the groups.
_SHAPES: tuple[tuple[re.Pattern[str], str, str], ...] = tuple(
    (re.compile(shape), what, fix)
    for shape, what, fix in (
        (
            r"([+-]?)(\.\d+)$",
            "is {v}: a number needs a digit before the point",
            "write {k} = {g1}0{g2}",
        ),
        (
            r"([+-]?\d+)\.$",
            "is {v}: a number needs a digit after the point",
            "write {k} = {g1}.0",
        ),
        (
            r"([1-9]\d{0,2}),(\d{3})$",
            "is {v}: this could be {g1}{g2} or {g1}.{g2}",
            "write {k} = {g1}{g2} or {k} = {g1}.{g2}",
        ),
        (
            r"([+-]?\d+),(\d+)$",
            "is {v}: the decimal sign is a point",
            "write {k} = {g1}.{g2}",
        ),
        (
            r"(\d{1,2}):(\d\d)(?::\d\d)?$",
            "is {v}: a time of day stands in quotes",
            'write {k} = "{g1:0>2}:{g2}"',
        ),
        (
            r"0+([1-9]\d*(?:\.\d+)?)$",
            "is {v}: a number does not begin with 0",
            "write {k} = {g1}",
        ),
        (
            r"\d{1,4}[/.-]\d{1,2}[/.-]\d{1,4}$",
            "is {v}: dates are written year-month-day",
            "write {k} like 2026-05-12",
        ),
        (
            r"\d{1,2}\.?\s*(?i:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[A-Za-z]*"
            r"\.?(?:\s*\d{4})?$",
            "is {v}: dates are written year-month-day",
            "write {k} like 2026-05-12",
        ),
        (
            r"([+-]?\d+(?:\.\d+)?)\s*([A-Za-z°][\w°²³/ ]*)$",
            "is {v}: the unit belongs in the key, not behind the number",
            "write the number alone, {k} = {g1}, with the unit at the end of the key",
        ),
        (
            r"[“”„‘’«»]",
            "is {v}: these quotes are not plain ones",
            'write plain quotes: {k} = "..."',
        ),
        (
            r"$",
            "has no value",
            "write a value behind {k} =, or put # before the line",
        ),
        (
            r"([A-Za-z][^=\"'\[\]{{}}]*)$",
            "is {v}: a text stands in quotes",
            'write {k} = "{v}"',
        ),
    )
)


@dataclass(frozen=True, slots=True)
class Slip:
    """What is wrong on a line, and what to write.

    `key` is empty when the line cannot be pinned to one key.
    """

    key: str
    what: str
    fix: str


def key_of(line: str) -> str:
    """Key of a `key = value` line, or empty."""
    found = _PAIR.match(line)
    return found["key"].strip('"') if found else ""


def slip_on(line: str, reason: str) -> Slip:
    """Say in plain words what a line gets wrong.

    Parameters
    ----------
    line : str
        The line that TOML refuses.
    reason : str
        What the TOML reader said.

    Returns
    -------
    Slip
        What is wrong, and what to write.

    Examples
    --------
    >>> slip_on("assumed_du_lq = .7", "Invalid value").fix
    'write assumed_du_lq = 0.7'
    """
    hidden = hidden_slip(line)
    if hidden is not None:
        return hidden
    if line.lstrip().startswith("["):
        return _header_slip(line.strip(), reason)
    found = _PAIR.match(line)
    if found is None:
        typed = line.strip()[:40]
        fix = "write key = value, or put # before a remark"
        return Slip("", f"{typed!r} is not a key with a value", fix)
    return _pair_slip(found["key"].strip('"'), found["value"], reason)


def hidden_slip(line: str) -> Slip | None:
    r"""Say that a line holds a character that nobody sees and TOML refuses.

    Examples
    --------
    >>> hidden_slip("du\u00a0= 5").what
    'holds a character that cannot be seen (U+00A0)'
    """
    outside = re.split("[\"']", _QUOTED.sub("", line))[0]
    hidden = _HIDDEN.search(line) or _NO_BLANK.search(outside)
    if hidden is None:
        return None
    what = f"holds a character that cannot be seen (U+{ord(hidden[0]):04X})"
    return Slip(key_of(line), what, "type the line anew, with plain blanks")


def bracket_slip(line: str, many: int) -> Slip:
    """Say that a table in single brackets is one of several elsewhere.

    Examples
    --------
    >>> bracket_slip("[zone]", 14).what
    '[zone] stands here and [[zone]] on line 14'
    """
    line = line.split("#")[0].strip()
    what = f"{line} stands here and [{line}] on line {many}"
    return Slip("", what, f"write [{line}] for each of several")


def open_text_slip(line: str) -> Slip:
    """Say that three quotes open a text of many lines which does not end.

    Examples
    --------
    >>> open_text_slip("name = '''Old beds'").fix
    "write one quote on each side, or ''' behind the text as well"
    """
    value = line.partition("=")[2].strip()
    quote = next((one for one in ("'" * 3, '"' * 3) if one in value), '"' * 3)
    value = value if len(value) <= 40 else f"{value[:37]}..."
    what = f"is {value}: {quote} opens a text over many lines that does not end"
    fix = f"write one quote on each side, or {quote} behind the text as well"
    return Slip(key_of(line), what, fix)


def _header_slip(line: str, reason: str) -> Slip:
    if "Cannot declare" in reason or "overwrite" in reason:
        return Slip("", f"{line} stands twice", "join the two, or delete one of them")
    named = re.match(r"[\[\s]*([\w.-]*)", line)
    name = (named[1] if named else "") or "name"
    line = line if len(line) <= 40 else f"{line[:37]}..."
    fix = f"write [{name}], or [[{name}]] for one of several"
    return Slip("", f"the header {line} is not closed as it was opened", fix)


def _pair_slip(key: str, value: str, reason: str) -> Slip:
    if "overwrite" in reason or "Duplicate" in reason:
        return Slip(key, "stands twice in this table", "keep one of the two lines")
    known = _quote_slip(key, value) or _list_slip(key, value) or _brace_slip(key, value)
    if known is not None:
        return known
    value = _COMMENT.sub("", value) if not value.startswith("#") else ""
    if value.casefold() in _YES | _NO:
        meant = "true" if value.casefold() in _YES else "false"
        return Slip(key, f"is {value}: yes is true, no is false", f"write {meant}")
    if key.startswith(("minutes", "fixed_minutes")) and ":" in value:
        what = f"is {value}: minutes are wanted, not hours and minutes"
        return Slip(key, what, f"write {key} = 30 for half an hour")
    percent = _PERCENT.match(value)
    if percent:
        what = f"is {value}: shares are written from 0 to 1"
        return Slip(key, what, f"write {key} = {float(percent[1]) / 100:g}")
    for shape, what, fix in _SHAPES:
        found = shape.match(value)
        if found:
            parts = {f"g{i}": one or "" for i, one in enumerate(found.groups(), 1)}
            named = parts | {"v": value, "k": key}
            return Slip(key, what.format(**named), fix.format(**named))
    what = f"is {value[:40]}, which cannot be read"
    return Slip(key, what, f"write one value behind {key} =, a text in quotes")


def _list_slip(key: str, value: str) -> Slip | None:
    if not value.startswith("["):
        return None
    value = _COMMENT.sub("", value)
    two = _without_comma(value)
    if two is not None:
        what = f"is {value[:40]}: a comma is missing between {two[0]} and {two[1]}"
        return Slip(key, what, f"write {two[0]}, {two[1]}")
    what = f"is {value[:40]}, which cannot be read"
    return Slip(key, what, "write the items with commas between them, texts in quotes")


def _brace_slip(key: str, value: str) -> Slip | None:
    if not value.startswith("{"):
        return None
    what = f"is {value[:40]}: a table in braces cannot be read"
    fix = f"write it on one line, as {key} = {{ a = 1, b = 2 }}"
    return Slip(key, what, fix)


def _without_comma(value: str) -> tuple[str, str] | None:
    """Two items of a list with nothing but blanks between them."""
    pairs = pairwise(_TOKEN.findall(value))
    return next((two for two in pairs if "," not in two), None)


def _quote_slip(key: str, value: str) -> Slip | None:
    quote = value[:1]
    ending = _COMMENT.sub("", value)[-1:]
    if ending in ("'", '"') and value.count(ending) == 1:
        what = f"is {value}: the quote is closed but not opened"
        return Slip(key, what, f"put {ending} before the text")
    if quote not in ("'", '"'):
        return None
    body = value[1:].replace(f"\\{quote}", "")
    if quote not in body:
        what = f"is {value}: the quote is opened but not closed"
        return Slip(key, what, f"put {quote} behind the text")
    if quote == '"' and "\\" in value:
        what = f"is {value}: \\ has a meaning of its own inside quotes"
        return Slip(key, what, f"write {key} = {value.replace(chr(92), '/')}")
    return None
