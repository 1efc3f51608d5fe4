"""What was given to a `lowquarter record` command, the rest asked for; lines out."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

import click

from scheduler.errors import QuantityError
from scheduler.files.log_kinds import KINDS, Kind, Part
from tui.commands import record_options as options

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from scheduler.files.log_writing import TypedLine


@dataclass(frozen=True, slots=True)
class Asked:
    """What was given for one kind, and whether the rest may be asked for."""

    what: str
    given: dict[str, Any]
    asks: bool

    @property
    def kind(self) -> Kind:
        return KINDS[self.what]

    def lines(self, day: dt.date, ids: Sequence[str]) -> list[TypedLine]:
        """The lines to write, one a pot."""
        from scheduler.files.log_writing import TypedLine

        zone = self._zone(ids)
        pots = self._pots() if self.what in options.POTS else ((self._item(), ""),)
        parts = self._parts()
        note = options.NOTES.get(self.what, "--note")
        needs_note = "note" in self.kind.needs
        said = self._text("note", note, needed=needs_note, example="in a few words")
        return [
            TypedLine(
                date=day,
                time=_time(self.given.get("at")),
                what=self.what,
                zone=zone,
                item=item,
                details="; ".join(one for one in (details, *parts) if one),
                note=said,
            )
            for item, details in pots
        ]

    def _text(
        self,
        name: str,
        option: str,
        *,
        needed: bool,
        example: str,
        read: Callable[[str], object] = str,
    ) -> str:
        text = str(self.given.get(name) or "").strip()
        if text or not needed:
            return text
        if not self.asks:
            is_word = not option.startswith("-")
            shown = example if is_word else f'{option} "{example}"'
            raise QuantityError(f"{option} is missing", f"give it, such as {shown}")
        words = option.lstrip("-").replace("-", " ")
        words = f"{words} (such as {example})"
        return str(click.prompt(words, value_proc=lambda one: _tried(one, read)))

    def _zone(self, ids: Sequence[str]) -> str:
        if self.kind.has_zones:
            return "; ".join(_zones_typed(str(self.given.get("zones") or ""), ids))
        is_needed = "zone" in self.kind.needs or (
            options.has_zone(self.kind) and not self.given.get("item")
        )
        name = "ZONE or --package" if self.kind.one_of == ("zone", "item") else "ZONE"
        return self._text("zone", name, needed=is_needed, example="Z4")

    def _item(self) -> str:
        option = options.ITEMS.get(self.what, "METER")
        example = "N corner" if self.what == "dry spot" else "pump house"
        needed = "item" in self.kind.needs
        return self._text("item", option, needed=needed, example=example)

    def _parts(self) -> list[str]:
        parts = options.single_parts(self.what)
        texts = {one.label: self._part(one, one.label in self.kind.needs)
                 for one in parts}  # fmt: skip
        wanted = [one for one in parts if one.label in self.kind.one_of]
        if wanted and not any(texts[one.label] for one in wanted):
            if not self.asks:
                names = " or ".join(options.option_of(one.label) for one in wanted)
                first = wanted[0]
                shown = f'{options.option_of(first.label)} "{first.example}"'
                raise QuantityError(f"{names} is missing", f"give one, such as {shown}")
            for one in wanted:
                texts[one.label] = self._offered(one)
        elif self.what == "leaching" and self.asks and not texts["ran"]:
            texts["ran"] = self._offered(parts[0])
        return [text for text in texts.values() if text]

    def _part(self, part: Part, needed: bool) -> str:
        option = options.option_of(part.label)
        if part.reads == "word":
            return part.label if self.given.get(options.keyword(option)) else ""
        return _labelled(
            part,
            self._text(
                options.keyword(option),
                option,
                needed=needed,
                example=part.example,
                read=lambda text: _read_part(part, text),
            ),
        )

    def _offered(self, part: Part) -> str:
        """Ask for what may be left out."""
        words = f"{part.label} (such as {part.example}; empty if not known)"

        def read(text: str) -> object:
            return _read_part(part, text) if text else text

        typed = click.prompt(
            words,
            default="",
            show_default=False,
            value_proc=lambda one: _tried(one, read),
        )
        return _labelled(part, typed)

    def _pots(self) -> tuple[tuple[str, str], ...]:
        from scheduler.files.log_pots import parsed_pots

        forms = options.POTS[self.what]
        given = [one for one in forms if self.given.get(one.name)]
        pots: list[tuple[str, str]] = []
        for form in given or forms[:1]:
            example = form.help.partition('"')[2].partition('"')[0]
            units = tuple(self._unit(one) for one in form.units)
            read = partial(
                parsed_pots, labels=form.labels, units=units, option=form.option
            )
            text = self._text(
                form.name, form.option, needed=True, example=example, read=read
            )
            pots += read(text)
        return tuple(pots)

    def _unit(self, unit: str) -> str:
        if not unit.startswith("--"):
            return unit
        name = options.keyword(unit)
        return self._text(name, unit, needed=True, example="mS/cm")


def _tried(text: str, read: Callable[[str], object]) -> str:
    """What was typed at the prompt, asked for again where it is not understood."""
    try:
        read(text.strip())
    except QuantityError as wrong:
        raise click.UsageError(str(wrong)) from None
    return text.strip()


def _read_part(part: Part, text: str) -> object:
    from scheduler.files.log_details import read_part

    return read_part(part, _with_unit(part, text))


def _labelled(part: Part, text: str) -> str:
    """A part as the file holds it; empty where nothing was given."""
    return f"{part.label} {_with_unit(part, text)}" if text else ""


def _with_unit(part: Part, text: str) -> str:
    """The text, with the unit that a bare number stands for."""
    from scheduler.files.csv_text import PLAIN

    return f"{text} {part.bare_unit}".strip() if PLAIN.match(text) else text


def _time(text: str | None) -> dt.time | None:
    if not text:
        return None
    try:
        return dt.datetime.strptime(text.strip(), "%H:%M").time()  # noqa: DTZ007
    except ValueError:
        what = f"--at {text!r} is no time of day"
        raise QuantityError(what, "write it like 06:40, by the 24-hour clock") from None


def _zones_typed(text: str, known: Sequence[str]) -> Sequence[str]:
    """Zones between semicolons or commas, or between spaces where all are known."""
    from scheduler.files.log_line import zones_in

    words = text.split()
    ids = {one.casefold() for one in known}
    return words if words and {w.casefold() for w in words} <= ids else zones_in(text)
