"""A paper in another language: every text but the names."""

import datetime as dt
import re

import pytest

from scheduler.field.visit import zone_visits
from scheduler.reports.field_sheet import Asked, field_sheets
from scheduler.reports.language import language_of
from scheduler.reports.page import paper_page
from scheduler.reports.paper import Paper
from scheduler.reports.paper_language import paper_in
from scheduler.reports.paper_text import paper_text
from tests.scheduler.reports.handed.made import MONDAY, demo_site, folder

ENGLISH = re.compile(
    r"\b(the|of|and|with|last|heads?|cans?|wind|rate|pressure|yes|side|spacing|map)\b"
)


@pytest.fixture(scope="module")
def english() -> Paper:
    site = demo_site()
    visits = zone_visits(site, folder().history, MONDAY)
    names = Asked(site.name, "us", 2, dt.date(2026, 6, 9))
    return field_sheets(visits, names)


@pytest.fixture(scope="module")
def paper(english: Paper) -> Paper:
    return paper_in(english, language_of("es", "us"))


def test_no_english_word_is_left_but_in_names(paper: Paper) -> None:
    site = demo_site()
    names = [one.name for one in site.zones]
    names += [one.name for one in site.packages]
    names += [one.plant.name for one in site.zones if one.plant] + [site.name]
    text = " ".join(paper_text(paper).split())
    for name in names:
        text = text.replace(" ".join(name.split()), "")
    # a package and a plant may be wrapped inside a table, so only lone words count
    left = {one.group() for one in ENGLISH.finditer(text)}
    assert left <= {"spacing"} & set(" ".join(names).split())


def test_a_date_is_written_in_its_words(paper: Paper) -> None:
    assert "Fecha 9 jun 2026" in paper_text(paper)


def test_names_stay(paper: Paper, english: Paper) -> None:
    assert [leaf.title for leaf in paper.leaves] == [
        leaf.title for leaf in english.leaves
    ]


def test_the_page_says_its_language(paper: Paper) -> None:
    assert '<html lang="es">' in paper_page(paper)
    assert "círculo para el norte" in paper_page(paper)
