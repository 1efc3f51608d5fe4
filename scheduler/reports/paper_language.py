"""A paper and a language in; the same paper in that language out.

What the user wrote (names, values in boxes) stays; days and numbers in it do not.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from scheduler.reports.paper import (
    Box,
    Boxes,
    Cans,
    Facts,
    Legend,
    Table,
    Words,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from scheduler.reports.language import Language
    from scheduler.reports.paper import Block, Leaf, Paper, Section


def paper_in(paper: Paper, language: Language) -> Paper:
    """A paper of boxes, tables, facts and words in another language."""
    return replace(
        paper,
        name=language.say(paper.name),
        leaves=tuple(_leaf(one, language) for one in paper.leaves),
        language=language.code,
    )


def _leaf(leaf: Leaf, language: Language) -> Leaf:
    say = language.say
    return replace(
        leaf,
        part=say(leaf.part),
        place=say(leaf.place),
        stamp=say(leaf.stamp),
        sections=tuple(_section(one, language) for one in leaf.sections),
        foot=tuple((say(subject), say(text)) for subject, text in leaf.foot),
        closing=say(leaf.closing),
    )


def _section(section: Section, language: Language) -> Section:
    blocks = tuple(_block(one, language) for one in section.blocks)
    return replace(section, title=language.say(section.title), blocks=blocks)


def _block(block: Block, language: Language) -> Block:
    say = language.say
    if isinstance(block, Boxes):
        return Boxes(tuple(_box(one, language) for one in block.boxes))
    if isinstance(block, Table):
        heads = (replace(one, head=_head(one.head, language)) for one in block.columns)
        rows = tuple(_each(row, language) for row in block.rows)
        return replace(block, columns=tuple(heads), rows=rows)
    if isinstance(block, Facts):
        facts = block.facts
        return Facts(
            tuple((say(name), language.each(text, "; ")) for name, text in facts)
        )
    if isinstance(block, Words):
        return Words(say(block.text))
    if isinstance(block, Legend):
        meanings = tuple((letter, say(text)) for letter, text in block.meanings)
        return Legend(meanings, say(block.before), say(block.after))
    if isinstance(block, Cans):
        said = tuple(map(say, block.say))
        return replace(block, say=said, no_can=say(block.no_can))
    return block


def _box(box: Box, language: Language) -> Box:
    is_date = box.label.startswith("Date")
    return replace(
        box,
        label=language.say(box.label),
        value=language.data(box.value) if is_date else box.value,
        unit=language.unit(box.unit),
        choices=tuple(_head(one, language) for one in box.choices),
        hint=language.say(box.hint),
    )


def _head(text: str, language: Language) -> str:
    """A head that may be the label of a unit, or end in one."""
    name, comma, unit = text.rpartition(", ")
    said = language.found(text)
    if comma and unit in language.units and said is not None:
        return language.say(f"{name}, {language.unit(unit)}")
    return language.unit(text) if text in language.units else language.say(text)


def _each(texts: Iterable[str], language: Language) -> tuple[str, ...]:
    return tuple(_head(one, language) for one in texts)
