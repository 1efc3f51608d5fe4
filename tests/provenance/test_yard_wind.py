"""The invented wind of the demo site's test mornings."""

import tomllib

from scheduler.field.evaluation import evaluated_site
from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder
from tests.provenance.yard_wind import MORNINGS, wind_text

SHIPPED = demo_source() / "tern_hollow"


def test_the_shipped_log_is_what_the_maker_writes() -> None:
    text = (SHIPPED / "wind" / "yard_logger.csv").read_text("utf-8")
    assert text == wind_text()


def test_every_test_of_the_demo_has_its_morning() -> None:
    tomls = (SHIPPED / "tests").glob("*/test.toml")
    dates = {str(tomllib.loads(one.read_text("utf-8"))["date"]) for one in tomls}
    assert dates == set(MORNINGS)


def test_every_run_of_the_demo_has_logged_wind_and_no_doubt_about_it() -> None:
    found = read_site_folder(SHIPPED)
    assert found.site is not None
    for test in evaluated_site(found.site, found.history, with_ranges=False):
        for run in test.runs:
            assert run.wind is not None
            assert (run.wind.source, run.wind.share_logged) == ("log", 1.0)
            assert run.wind.findings == ()
