"""No text of the change sheet and the field sheet is missing in Spanish."""

import ast
import dataclasses
import inspect
import re
import string
from collections.abc import Iterator
from types import ModuleType

import pytest

from scheduler.issued import KeyNumbers
from scheduler.reports import cautions, language, spanish
from scheduler.reports.field_sheet import after, before, run
from scheduler.reports.handed import change_print
from scheduler.reports.page import environment
from scheduler.watering import reason

ES = language.language_of("es", "us")
# suffixes of units, and how a zone is grown: no words of a sheet
NO_WORDS = {"pots", "mm", "m", "l", "kpa", "l_per_min", "m_per_s", "min"}


def texts(module: ModuleType) -> Iterator[str]:
    """Texts of a module that is all boxes and heads, f-strings with their slots."""
    tree = ast.parse(inspect.getsource(module))
    docs = {
        node.body[0].value
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.FunctionDef | ast.ClassDef)
        and isinstance(node.body[0], ast.Expr)
    }
    inner = {
        part
        for node in ast.walk(tree)
        if isinstance(node, ast.JoinedStr)
        for part in node.values
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            yield "".join(
                str(part.value) if isinstance(part, ast.Constant) else "7"
                for part in node.values
            )
        elif (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and node not in docs
            and node not in inner
        ):
            yield node.value


def is_word(text: str) -> bool:
    return bool(re.search(r"[A-Za-z]{2}", text)) and text not in NO_WORDS


@pytest.mark.parametrize(
    "module", [before, run, after, cautions], ids=lambda one: one.__name__
)
def test_every_text_of_the_field_sheet_is_there(module: ModuleType) -> None:
    skipped = {"no caution about 7; there are 7", "Date", "Frost"}
    skipped |= {text for subject, text in cautions.CAUTIONS if subject == "Frost"}
    skipped |= {"7%d 7b 7Y", "%d %b %Y", ":.0%"}
    wanted = {one for one in texts(module) if is_word(one)} - skipped
    wanted = {one for one in wanted if one not in ES.units}
    assert {one for one in wanted if ES.found(one) is None} == set()


def test_every_word_of_the_change_sheet_is_there() -> None:
    said = re.findall(
        r"say\(\s*['\"]([^'\"]+)['\"]\s*\)", inspect.getsource(change_print)
    )
    missing = {one for one in (*change_print.WORDS, *said) if one not in spanish.WORDS}
    assert missing == set()


@pytest.mark.parametrize("name", ["change_sheet.html", "change_sheet.typ"])
def test_the_templates_print_words_of_the_table_alone(name: str) -> None:
    source = environment().loader.get_source(environment(), name)[0]  # type: ignore[union-attr]
    asked = set(re.findall(r'(?:words\[|say\()"([^"]+)"', source))
    assert asked <= set(change_print.WORDS)
    bare = re.sub(
        r"\{[{%].*?[%}]\}|<style>.*?</style>|<[^>]*>", " ", source, flags=re.S
    )
    if name.endswith("html"):
        assert set(re.findall(r"[A-Za-z]{3,}", bare)) <= {"min", "doctype", "html"}


@pytest.mark.parametrize("cause", reason.CAUSES)
@pytest.mark.parametrize("more", [0.5, 1.5])
def test_every_cause_of_a_change_is_there(cause: str, more: float) -> None:
    was = KeyNumbers(
        30.0, 1.0, 1.0, 2.0, 1.0, "average", 1.2, (), 10.0, 0.7, 6, 0.5, 20.0, 20, "a"
    )
    given = {
        one.name: getattr(was, one.name) * more
        for one in dataclasses.fields(was)
        if isinstance(getattr(was, one.name), float)
    }
    for now in (
        dataclasses.replace(was, **given, test="b"),
        dataclasses.replace(was, eto_mm=0.0, kc=0.0),
    ):
        for a, b in ((was, now), (now, was)):
            assert ES.found(reason._words(cause, a, b)) is not None


def test_a_sentence_has_the_slots_of_its_english() -> None:
    def slots(text: str) -> set[str]:
        return {name for _, name, _, _ in string.Formatter().parse(text) if name}

    for english, said in spanish.WORDS.items():
        lost = slots(english) - slots(said)
        assert not slots(said) - slots(english), english
        assert lost <= {"raw"}, english
