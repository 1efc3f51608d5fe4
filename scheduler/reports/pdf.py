"""A paper in, its pages as PDF out: the same parts as the printable page.

Set by the general typesetting package `typst` with the fonts that it brings along;
nothing is fetched, and the same paper gives the same bytes.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from scheduler.errors import SaveError

if TYPE_CHECKING:
    from scheduler.reports.paper import Block, Leaf, Paper

HOW_TO_GET = (
    "a PDF needs the extra package typst",
    "get it with: pip install 'lowquarter[pdf]'; or name a file that ends in .html and "
    "print that from a browser",
)


def paper_pdf(paper: Paper) -> bytes:
    """A paper as PDF.

    Raises
    ------
    SaveError
        If the typesetting package is not installed.
    """
    return typeset("paper.typ", {"paper": _paper(paper)})


def typeset(template: str, values: Mapping[str, Any]) -> bytes:
    """A template of `templates/` filled in, as PDF; each value comes in as JSON.

    Raises
    ------
    SaveError
        If the typesetting package is not installed.
    """
    try:
        # 80 MB that most people do without
        import typst
    except ImportError as problem:
        raise SaveError(*HOW_TO_GET) from problem
    made = typst.compile(
        (files("scheduler.reports") / "templates" / template).read_bytes(),
        sys_inputs={
            name: json.dumps(value, ensure_ascii=False)
            for name, value in values.items()
        },
        ignore_system_fonts=True,
        format="pdf",
    )
    if not isinstance(made, bytes):
        raise TypeError(f"expected the bytes of one PDF, not {type(made).__name__}")
    return made


def _paper(paper: Paper) -> dict[str, Any]:
    return {
        "name": paper.name,
        "subject": paper.subject,
        "sheet": paper.sheet,
        "language": paper.language,
        "leaves": [_leaf(leaf) for leaf in paper.leaves],
    }


def _leaf(leaf: Leaf) -> dict[str, Any]:
    known = {name: getattr(leaf, name) for name in ("title", "part", "place", "stamp")}
    return {
        **known,
        "foot": leaf.foot,
        "closing": leaf.closing,
        "sections": [
            {
                "title": section.title,
                "number": section.number,
                "blocks": [_block(block) for block in section.blocks],
            }
            for section in leaf.sections
        ],
    }


def _block(block: Block) -> dict[str, Any]:
    return {"kind": block.kind, **asdict(block)}
