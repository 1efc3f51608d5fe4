"""The daily balance: FAO-56 examples 37 to 39, and nothing lost."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.root_zone.balance import Balance, balance_day, run_balance, stress_ks
from tests.scheduler.root_zone.made import store

BED = store(40.0, 16.0)
N_DAYS, N_POSITIONS = 9, 5
DAILY_MM = arrays(np.float64, N_DAYS, elements=st.floats(0.0, 30.0))
WATERINGS_MM = arrays(np.float64, (N_DAYS, N_POSITIONS), elements=st.floats(0.0, 60.0))
STARTS_MM = arrays(np.float64, N_POSITIONS, elements=st.floats(0.0, 40.0))


def test_water_that_fits_is_stored() -> None:
    day = balance_day([20.0], etc_mm=0.0, rain_mm=0.0, watering_mm=[8.0], storage=BED)
    assert day.depletion_mm.tolist() == [12.0]
    assert day.percolation_mm.tolist() == [0.0]


def test_rain_finds_only_the_room_that_the_watering_left() -> None:
    day = balance_day([20.0], etc_mm=0.0, rain_mm=9.0, watering_mm=[15.0], storage=BED)
    assert day.stored_rain_mm.tolist() == [5.0]
    assert day.percolation_mm.tolist() == [4.0]


def test_plants_that_were_watered_in_the_night_are_not_short_that_day() -> None:
    day = balance_day([39.0], etc_mm=6.0, rain_mm=0.0, watering_mm=[39.0], storage=BED)
    assert day.etc_mm.tolist() == [6.0]


def test_plants_cannot_use_more_than_is_left() -> None:
    day = balance_day([38.0], etc_mm=60.0, rain_mm=0.0, watering_mm=[0.0], storage=BED)
    assert day.depletion_mm.tolist() == [40.0]
    assert day.etc_mm.tolist() == [2.0]


def test_everything_allowed_means_no_stress_until_nothing_is_left() -> None:
    ks = stress_ks([0.0, 39.0, 40.0], total_mm=40.0, allowed_mm=40.0)
    assert ks.tolist() == [1.0, 1.0, 0.0]


# FAO-56 example 37, p. 168: TAW 160, RAW 64, ETc 6 mm/day, no water, start 55 mm
DRY_DOWN_MM = [61.0, 67.0, 72.8, 78.3, 83.4, 88.2, 92.6, 96.9, 100.8, 104.5]
DRY_DOWN_KS = [1.00, 1.00, 0.97, 0.91, 0.85, 0.80, 0.75, 0.70, 0.66, 0.62]


def test_fao_example_37_dries_as_printed() -> None:
    run = run_balance(
        [55.0],
        etc_mm_per_day=np.full(10, 6.0),
        rain_mm=np.zeros(10),
        watering_mm=np.zeros((10, 1)),
        storage=store(160.0, 64.0),
    )
    np.testing.assert_allclose(run.depletion_mm[:, 0], DRY_DOWN_MM, atol=0.15)


def test_fao_example_37_is_stressed_as_printed() -> None:
    start = [55.0, *DRY_DOWN_MM[:-1]]
    ks = stress_ks(start, total_mm=160.0, allowed_mm=64.0)
    np.testing.assert_allclose(ks, DRY_DOWN_KS, atol=0.006)


# FAO-56 example 38, p. 172: FC 0.23, WP 0.10, p 0.6, roots from 0.30 to 0.35 m
WET_ETC = [5.5, 6.1, 4.0, 2.9, 2.5, 2.7, 4.7, 2.8, 2.2, 6.3]
WET_ROOTS = [0.30, 0.31, 0.31, 0.32, 0.32, 0.33, 0.33, 0.34, 0.34, 0.35]
WET_WATER = [40.0, 0, 0, 0, 0, 0, 0, 0, 0, 27.0]
WET_RAIN = [0, 0, 0, 0, 0, 6.0, 0, 0, 0, 0]
WET_END_MM = [5, 12, 16, 18, 21, 18, 22, 25, 27, 6]


def test_fao_example_38_runs_as_printed() -> None:
    depletion, ends = np.array([23.0]), []
    for d in range(10):
        total = 1000 * (0.23 - 0.10) * WET_ROOTS[d]
        day = balance_day(
            depletion,
            etc_mm=WET_ETC[d],
            rain_mm=WET_RAIN[d],
            watering_mm=[WET_WATER[d]],
            storage=store(total, 0.6 * total),
        )
        depletion = day.depletion_mm
        ends.append(float(depletion[0]))
    np.testing.assert_allclose(ends, WET_END_MM, atol=1.0)


def test_fao_example_38_drains_before_plants_drink() -> None:
    # the printed table drains 17 mm; equation 88 as printed would drain 11.5
    total = 39.0
    day = balance_day(
        [23.0], etc_mm=5.5, rain_mm=0.0, watering_mm=[40.0], storage=store(total, 23.4)
    )
    assert float(day.percolation_mm[0]) == pytest.approx(17.0, abs=0.05)


# FAO-56 example 39, p. 182, without salt: TAW 110, RAW 44
@pytest.mark.parametrize(
    ("depletion_mm", "ks"),
    [(50, 0.91), (70, 0.61), (80, 0.45), (90, 0.30), (100, 0.15)],
)
def test_fao_example_39_is_stressed_as_printed(depletion_mm: float, ks: float) -> None:
    stress = stress_ks(depletion_mm, total_mm=110.0, allowed_mm=44.0)
    assert float(stress) == pytest.approx(ks, abs=0.006)


def run(
    start: FloatArray, etc: FloatArray, rain: FloatArray, water: FloatArray
) -> Balance:
    return run_balance(
        start, etc_mm_per_day=etc, rain_mm=rain, watering_mm=water, storage=BED
    )


@given(start=STARTS_MM, etc=DAILY_MM, rain=DAILY_MM, water=WATERINGS_MM)
def test_the_balance_closes(
    start: FloatArray, etc: FloatArray, rain: FloatArray, water: FloatArray
) -> None:
    done = run(start, etc, rain, water)
    came = rain.sum() + water.sum(axis=0) + done.depletion_mm[-1] - start
    went = done.etc_mm.sum(axis=0) + done.percolation_mm.sum(axis=0)
    np.testing.assert_allclose(came, went, atol=1e-9)
    assert done.closure_error_mm < 1e-9


@given(start=STARTS_MM, etc=DAILY_MM, rain=DAILY_MM, water=WATERINGS_MM)
def test_depletion_stays_between_full_and_dry(
    start: FloatArray, etc: FloatArray, rain: FloatArray, water: FloatArray
) -> None:
    done = run(start, etc, rain, water)
    assert done.depletion_mm.min() >= 0.0
    assert done.depletion_mm.max() <= BED.total_mm + 1e-9


@given(start=STARTS_MM, etc=DAILY_MM, rain=DAILY_MM, water=WATERINGS_MM)
def test_no_more_is_used_than_asked_and_no_more_rain_stored_than_fell(
    start: FloatArray, etc: FloatArray, rain: FloatArray, water: FloatArray
) -> None:
    done = run(start, etc, rain, water)
    assert (done.etc_mm <= etc[:, None] + 1e-12).all()
    assert (done.stored_rain_mm <= rain[:, None]).all()


@given(start=STARTS_MM, etc=DAILY_MM, rain=DAILY_MM, more=DAILY_MM, water=WATERINGS_MM)
def test_more_rain_never_leaves_a_position_drier(
    start: FloatArray,
    etc: FloatArray,
    rain: FloatArray,
    more: FloatArray,
    water: FloatArray,
) -> None:
    less = run(start, etc, rain, water)
    wetter = run(start, etc, rain + more, water)
    assert (wetter.depletion_mm <= less.depletion_mm + 1e-9).all()


@given(etc=DAILY_MM, rain=DAILY_MM, water=WATERINGS_MM)
def test_a_position_does_not_know_its_neighbours(
    etc: FloatArray, rain: FloatArray, water: FloatArray
) -> None:
    start = np.full(N_POSITIONS, 10.0)
    whole = run(start, etc, rain, water)
    alone = run(start[:1], etc, rain, water[:, :1])
    np.testing.assert_array_equal(whole.depletion_mm[:, :1], alone.depletion_mm)


@given(etc=DAILY_MM, rain=DAILY_MM, water=WATERINGS_MM)
def test_zones_along_a_leading_axis_give_what_each_gives_alone(
    etc: FloatArray, rain: FloatArray, water: FloatArray
) -> None:
    start = np.full((2, N_POSITIONS), 10.0)
    both = run(
        start,
        np.stack([etc, etc / 2]),
        np.stack([rain, rain * 0]),
        np.stack([water, water / 3]),
    )
    second = run(start[1], etc / 2, rain * 0, water / 3)
    np.testing.assert_array_equal(both.depletion_mm[1], second.depletion_mm)


def test_results_cannot_be_written_to() -> None:
    done = run(np.zeros(1), np.ones(2), np.zeros(2), np.zeros((2, 1)))
    assert not done.depletion_mm.flags.writeable


@pytest.mark.parametrize(
    ("start", "etc", "rain", "named"),
    [
        ([-1.0], [1.0], [0.0], "start_depletion_mm is -1"),
        ([0.0], [float("nan")], [0.0], "etc_mm_per_day is nan"),
        ([0.0], [1.0], [-2.0], "rain_mm is -2"),
        ([41.0], [1.0], [0.0], "start_depletion_mm is 41.*only holds 40"),
    ],
)
def test_numbers_that_cannot_be_are_refused_by_name(
    start: list[float], etc: list[float], rain: list[float], named: str
) -> None:
    with pytest.raises(SchedulerError, match=named):
        run(np.array(start), np.array(etc), np.array(rain), np.zeros((1, 1)))


def test_an_endless_watering_is_refused() -> None:
    with pytest.raises(SchedulerError, match="watering_mm is inf"):
        run(np.zeros(1), np.ones(1), np.zeros(1), np.full((1, 1), np.inf))
