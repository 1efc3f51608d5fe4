"""A text of a sheet in; the same in another language, numbers and days its way, out.

English is what the sheets say; the table of a language (`spanish`) holds every sentence
of theirs, some with slots: `{raw}` is left alone (names are the user's own), `{data}`
is numbers with units and days, `{text}` is looked up again, `{list}` item by item.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Literal

from scheduler.reports import spanish
from scheduler.units import System

Code = Literal["en", "es"]
CODES: tuple[Code, ...] = ("en", "es")
_SLOT = re.compile(r"\\\{([a-z]+\d?)\\\}")
_WORD = re.compile(r"[A-Za-z]+")
_NUMBER = re.compile(r"\d+(?:,\d{3})*(?:\.\d+)?")
THIN_SPACE = "\N{NARROW NO-BREAK SPACE}"


@dataclass(frozen=True, slots=True, eq=False)
class Language:
    """A language of the sheets.

    Attributes
    ----------
    code : str
        As in `language = "es"`; also that of the page.
    words : mapping of str to str
        English to it; empty for English.
    days, units : mapping of str to str
        Days and months, and labels of units.
    has_comma : bool
        Whether numbers have a decimal comma.
    """

    code: Code
    words: Mapping[str, str] = field(default_factory=dict)
    days: Mapping[str, str] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)
    has_comma: bool = False

    def say(self, text: str) -> str:
        """The text in this language; one that is not known is left as it is.

        Examples
        --------
        >>> language_of("es", "us").say("every night")
        'cada noche'
        """
        found = self.found(text)
        return text if found is None else found

    def found(self, text: str) -> str | None:
        """The text in this language, or None where nothing is known of it."""
        if not self.words or not text:
            return text
        if text in self.words:
            return self.words[text]
        for pattern, said in _patterns(self.code):
            match = pattern.fullmatch(text)
            if match is not None:
                slots = match.groupdict()
                return said.format(**{k: self._slot(k, v) for k, v in slots.items()})
        return self.data(text) if _data_only(self.code).fullmatch(text) else None

    def each(self, text: str, mark: str) -> str:
        """A text of several with marks between, or one that is known as a whole."""
        parts = [self.found(part) for part in text.split(mark)]
        known = [part for part in parts if part is not None]
        said = self.found(text) if len(known) < len(parts) else mark.join(known)
        return mark.join(map(self.say, text.split(mark))) if said is None else said

    def data(self, text: str) -> str:
        """Numbers, units and days in this language's manner."""
        if not self.words:
            return text
        said = _WORD.sub(lambda one: self.days.get(one[0], one[0]), text)
        for label, other in self.units.items():
            said = re.sub(rf"(?<=\d) {re.escape(label)}(?![\w/²])", f" {other}", said)
        return _NUMBER.sub(_with_comma, said) if self.has_comma else said

    def unit(self, label: str) -> str:
        """Label of a unit."""
        return self.units.get(label, label)

    def _slot(self, name: str, text: str) -> str:
        kind = name.rstrip("0123456789")
        if kind == "data":
            return self.data(text)
        if kind == "list":
            return ", ".join(map(self.say, text.split(", ")))
        return self.say(text) if kind == "text" else text


def _with_comma(number: re.Match[str]) -> str:
    whole, _, part = number[0].partition(".")
    said = whole.replace(",", THIN_SPACE)
    return f"{said},{part}" if part else said


@cache
def _data_only(code: Code) -> re.Pattern[str]:
    """Numbers and marks, with days, months and units between."""
    labels = [*DAYS[code], *UNITS[code], "x"]
    names = "|".join(map(re.escape, sorted(labels, key=len, reverse=True)))
    return re.compile(rf"(?:[^A-Za-z]|(?<![A-Za-z])(?:{names})(?![A-Za-z]))+")


@cache
def _patterns(code: Code) -> tuple[tuple[re.Pattern[str], str], ...]:
    """Sentences with slots, those with more fixed letters first."""
    words = TABLES[code]
    slotted = [one for one in words if "{" in one]
    slotted.sort(key=lambda one: -len(re.sub(r"\{\w+\}", "", one)))

    def slot(found: re.Match[str]) -> str:
        is_data = found[1].startswith("data")
        return rf"(?P<{found[1]}>{_data_only(code).pattern if is_data else '.+?'})"

    return tuple(
        (re.compile(_SLOT.sub(slot, re.escape(one))), words[one]) for one in slotted
    )


TABLES: dict[Code, Mapping[str, str]] = {"en": {}, "es": spanish.WORDS}
DAYS: dict[Code, Mapping[str, str]] = {"en": {}, "es": spanish.DAYS}
UNITS: dict[Code, Mapping[str, str]] = {"en": {}, "es": spanish.UNITS}


def language_of(code: Code, units: System = "us") -> Language:
    """A language, its numbers as the site's units ask.

    Parameters
    ----------
    code : str
        `en` or `es`.
    units : str
        Spanish has the decimal comma with metric units, the point with US units.

    Examples
    --------
    >>> language_of("es", "metric").data("1.5 m on Mon 8 Jun")
    '1,5 m on lun 8 jun'
    """
    if code == "en":
        return Language("en")
    return Language(
        "es", spanish.WORDS, spanish.DAYS, spanish.UNITS, has_comma=units == "metric"
    )
