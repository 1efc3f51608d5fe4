"""The whole report: order of the sections, eighty columns, pages, JSON, escaping."""

import json
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from scheduler.reports.evaluation import (
    Told,
    evaluation_report,
    evaluation_report_json,
)
from scheduler.reports.machine import clean, run_json, zone_json
from scheduler.reports.page import paper_page
from scheduler.reports.paper import Paper
from scheduler.reports.paper_text import paper_text
from scheduler.reports.pdf import paper_pdf
from scheduler.reports.text import WIDTH
from scheduler.said import date_text
from tests.scheduler.reports.test_page import parsed
from tests.scheduler.reports.test_pdf import n_pages

NAME = '<b>Zoë & "Söhne"</b>'


def report(*told: Told) -> Paper:
    return evaluation_report("Tern Hollow Nursery", told[0].units, told)


def numbers(paper: Paper) -> list[str]:
    return [one.number for leaf in paper.leaves for one in leaf.sections if one.number]


def test_sections_stand_in_the_order_in_which_they_are_read(both: list[Told]) -> None:
    for told in both:
        assert list(dict.fromkeys(numbers(report(told)))) == [
            str(i) for i in range(1, 11)
        ]


def test_every_leaf_names_zone_test_and_its_place(both: list[Told]) -> None:
    for told in both:
        leaves = report(told).leaves
        for i, leaf in enumerate(leaves, 1):
            assert leaf.title.startswith(told.plan.zone.id)
            assert leaf.place == f"part {i} of {len(leaves)}"
            assert leaf.stamp == f"tested {date_text(told.test.date)}"


def test_cautions_stand_on_the_last_leaf_of_each_report(tern: dict[str, Told]) -> None:
    *others, last = report(tern["Z4"]).leaves
    assert dict(last.foot).keys() >= {"Electrics", "Pressure", "Chemigation"}
    assert not any(one.foot for one in others)


def test_no_line_is_wider_than_eighty_columns(both: list[Told]) -> None:
    for told in both:
        lines = paper_text(report(told)).splitlines()
        assert max(map(len, lines)) <= WIDTH


def test_a_page_is_well_formed_and_asks_for_nothing(both: list[Told]) -> None:
    for told in both:
        html = paper_page(report(told))
        assert parsed(html).open == []
        bare = html.replace('xmlns="http://www.w3.org/2000/svg"', "")
        assert "//" not in bare


def test_what_a_user_typed_is_never_a_tag(tern: dict[str, Told]) -> None:
    told = tern["Z4"]
    zone = told.plan.zone.model_copy(update={"name": NAME})
    named = replace(
        told,
        plan=replace(told.plan, zone=zone),
        test=replace(told.test, condition=NAME),
        currency=NAME,
        year=NAME,
    )
    html = paper_page(report(named))
    assert "<b>Zoë" not in html
    assert "&lt;b&gt;Zoë" in html


def test_every_leaf_is_one_page(both: list[Told]) -> None:
    pytest.importorskip("typst")
    for told in both:
        paper = report(told)
        assert n_pages(paper_pdf(paper)) == len(paper.leaves)


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="needs poppler")
def test_the_pdf_holds_the_words_of_the_report(
    tern: dict[str, Told], tmp_path: Path
) -> None:
    pytest.importorskip("typst")
    path = tmp_path / "report.pdf"
    path.write_bytes(paper_pdf(report(tern["Z4"])))
    done = subprocess.run(
        ["pdftotext", "-layout", str(path), "-"],
        capture_output=True,
        check=True,
        text=True,
    )
    for word in ("Z4 Can yard east, hollies", "DU low quarter 0.72", "low quarter (ch"):
        assert word in " ".join(done.stdout.split())


def test_the_sheet_follows_the_units(
    tern: dict[str, Told], alder: dict[str, Told]
) -> None:
    assert report(tern["Z4"]).sheet == "us-letter"
    assert evaluation_report("a", "metric", [alder["A1"]]).sheet == "a4"


def test_json_holds_the_finding_the_actions_and_the_rooms_numbers(
    tern: dict[str, Told],
) -> None:
    value = evaluation_report_json("Tern Hollow", [tern["Z4"]], ())
    (one,) = value["reports"]
    json.dumps(clean(value), allow_nan=False)
    assert one["zone"] == "Z4"
    assert len(one["actions"]) == 3
    assert one["week"] == zone_json(tern["Z4"].plan)
    assert one["test"]["runs"][0]["du_lq"] == run_json(tern["Z4"].runs[0])["du_lq"]
    assert one["next_test"] == "2027-05-12"


def test_a_test_with_only_a_stated_result_still_makes_a_report(
    tern: dict[str, Told],
) -> None:
    told = tern["Z4"]
    from scheduler.record import StatedResult

    stated = StatedResult(0.71, 12.0, "report of 2024")
    test = replace(
        told.test, runs=(), shape=None, together=None, stated=stated, hydraulics=None
    )
    text = paper_text(report(replace(told, test=test)))
    assert "report of 2024" in text
    assert "No readings were kept" in text
