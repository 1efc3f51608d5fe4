"""The planned week and the nights on the economics pages."""

import datetime as dt
from dataclasses import replace

import pytest

from scheduler.reports.economics import economics_report
from scheduler.reports.paper import Facts, Table
from scheduler.reports.pdf import paper_pdf
from tests.scheduler.money.made_week import around, cost
from tests.scheduler.reports.test_pdf import n_pages

PAPER = economics_report(cost(), "us", dt.date(2026, 6, 8), around())
WEEK = PAPER.leaves[1]


def test_the_week_stands_on_a_leaf_of_its_own_behind_the_year() -> None:
    assert [one.number for one in PAPER.leaves[0].sections] == ["1", "2", "3"]
    assert [one.number for one in WEEK.sections] == ["4", "5"]


def test_the_site_is_the_last_row_of_the_three_spans() -> None:
    table = WEEK.sections[0].blocks[0]
    assert isinstance(table, Table)
    assert table.rows[-1][:3] == ("site", "48.7", "10.3")


def test_every_option_has_its_nights() -> None:
    facts = [one for one in WEEK.sections[1].blocks if isinstance(one, Facts)]
    assert [one.facts[0][0] for one in facts] == ["B", "G", "S", "N", "D"]


def test_the_week_is_one_page_of_paper() -> None:
    pytest.importorskip("typst")
    assert n_pages(paper_pdf(replace(PAPER, leaves=(WEEK,)))) == 1


def test_without_a_week_the_pages_are_as_before() -> None:
    plain = economics_report(cost(), "us", dt.date(2026, 6, 8))
    assert len(plain.leaves) == len(PAPER.leaves) - 1
