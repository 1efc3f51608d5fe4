"""Traces: inputs before results, each name once."""

from scheduler.trace import Trace, entered


def _chain() -> Trace:
    catch = entered("depth_mm", 6.0)
    rate = Trace("net_rate_mm_per_h", 12.0, "depth over time", "definition", (catch,))
    return Trace("minutes_exact", 30.0, "depth over rate", "definition", (rate, catch))


def test_inputs_come_before_what_is_made_of_them() -> None:
    names = [one.name for one in _chain().chain()]
    assert names == ["depth_mm", "net_rate_mm_per_h", "minutes_exact"]


def test_a_name_is_found_anywhere_in_the_chain() -> None:
    found = _chain().find("net_rate_mm_per_h")
    assert found is not None
    assert found.value == 12.0


def test_a_name_that_is_not_there_is_not_found() -> None:
    assert _chain().find("rain_mm") is None
