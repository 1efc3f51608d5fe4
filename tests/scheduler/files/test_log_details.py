"""Details of a line of the log: numbers with units in, SI-style numbers out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import QuantityError
from scheduler.files.log_details import parsed_details, read_part
from scheduler.files.log_kinds import COLUMNS, KINDS, Part


def read(what: str, text: str) -> dict[str, object]:
    values, said = parsed_details(text, KINDS[what], "log.csv:3")
    assert said == ()
    return values


def refused(what: str, text: str) -> str:
    _, said = parsed_details(text, KINDS[what], "log.csv:3")
    assert {one.level for one in said} == {"stop"}
    return "\n".join(map(str, said))


# --- by hand -----------------------------------------------------------------


def test_water_in_and_out_of_a_pot_is_in_millilitres() -> None:
    assert read("leaching", "in 0.42 L; out 160 mL; ran 0.4 h") == {
        "in_ml": 420.0,
        "out_ml": 160.0,
        "minutes": 24.0,
    }


def test_water_on_the_scales_counts_a_gram_as_a_millilitre() -> None:
    assert read("leaching", "in 1 lb; out 90 g")["in_ml"] == pytest.approx(453.59237)


def test_a_pot_in_pounds_is_weighed_in_grams() -> None:
    assert read("pot weight", "weight 10 lb")["weight_g"] == pytest.approx(4535.9237)


@pytest.mark.parametrize("text", ["EC 1.8 mS/cm", "EC 1.8 dS/m", "EC 1800 µS/cm"])
def test_conductivity_in_three_spellings_is_one(text: str) -> None:
    assert read("pour-through", text)["ec_ds_per_m"] == pytest.approx(1.8)


def test_a_dial_is_kept_in_its_own_unit() -> None:
    assert read("meter", "reading 48213 gal; multiplier 100; digits 6; shared") == {
        "reading": 48213.0,
        "unit": "gal",
        "multiplier": 100.0,
        "digits": 6,
        "is_shared": True,
    }


def test_one_spacing_stands_for_a_square() -> None:
    values = read("respaced", "spacing 16 in")
    assert values == {"spacing_m": pytest.approx(0.4064), "row_spacing_m": None}


def test_two_spacings_are_along_and_between_rows() -> None:
    values = read("respaced", "spacing 14 x 16 in")
    assert values["row_spacing_m"] == pytest.approx(0.4064)


def test_hours_against_frost_are_minutes_and_gallons_cubic_metres() -> None:
    values = read("frost", "ran 5.5 h; volume 1000 gal")
    assert values == {"minutes": 330.0, "volume_m3": pytest.approx(3.785411784)}


def test_a_percentage_is_a_fraction() -> None:
    assert read("leaching", "leached 38%") == {"stated_fraction": 0.38}


@pytest.mark.parametrize("text", ["RAN 24 min", "ran: 24 min;", " ran=24min ; "])
def test_capitals_colons_and_spaces_do_not_matter(text: str) -> None:
    assert read("watering", text) == {"minutes": 24.0}


# --- laws --------------------------------------------------------------------


def test_every_part_reads_its_own_example() -> None:
    for kind in KINDS.values():
        for part in kind.parts:
            assert part.field in read_part(part, part.example)


def test_every_part_goes_to_a_field_of_its_fact() -> None:
    for kind in KINDS.values():
        fields = kind.fact.__dataclass_fields__
        names = {part.field for part in kind.parts} | set(kind.fixed)
        assert names | set(filter(None, (kind.item, kind.note))) <= set(fields)


def test_no_label_is_the_beginning_of_another_of_its_kind() -> None:
    for kind in KINDS.values():
        labels = [f"{part.label} ".casefold() for part in kind.parts]
        assert not [
            (a, b) for a in labels for b in labels if a != b and b[: len(a)] == a
        ]


def test_every_need_is_a_cell_or_a_part() -> None:
    for kind in KINDS.values():
        for name in (*kind.needs, *kind.one_of):
            assert name in COLUMNS or kind.part(name) is not None


@given(st.text(max_size=40), st.sampled_from(sorted(KINDS)))
def test_no_text_raises(text: str, what: str) -> None:
    parsed_details(text, KINDS[what], "log.csv:3")


# --- refusals ----------------------------------------------------------------


def test_a_number_without_its_unit_is_refused_with_the_units_there_are() -> None:
    assert "has no unit; write one of mL, L" in refused("leaching", "in 420")


def test_a_unit_of_another_kind_is_refused() -> None:
    assert "gal cannot be turned into g" in refused("pot weight", "weight 4 gal")


def test_a_thousands_sign_is_asked_about() -> None:
    said = refused("meter", "reading 48,213 gal")
    assert "could be 48213 or 48.213" in said


def test_a_decimal_comma_is_refused_with_the_point_to_write() -> None:
    assert "write '4.5 L'" in refused("leaching", "in 4,5 L")


def test_micro_and_milli_mixed_up_name_the_unit_to_check() -> None:
    said = refused("pour-through", "EC 1800 mS/cm")
    assert "is 1800 mS/cm; it must be 0.005 to 50 dS/m" in said
    assert "1000 µS/cm" in said


@pytest.mark.parametrize(
    ("what", "text", "message"),
    [
        ("watering", "ran 0 min", "above 0 and at most 1440 min"),
        ("watering", "ran 25 h", "at most 1440 min"),
        ("watering", "ran", "has no number behind it; write it like 24 min"),
        ("watering", "24 min", "'24 min' is not understood; write parts such as: ran"),
        ("watering", "ran 5 min; ran 6 min", "stands twice"),
        ("dry spot", "wilting", "put words in the note"),
        ("leaching", "leached 0.38", "without %"),
        ("leaching", "leached 138 %", "0 to 100 %"),
        ("leaching", "in -5 mL", "above 0"),
        ("pour-through", "pH 61", "above 1 and at most 13"),
        ("pour-through", "pH 6.1 units", "has 'units' behind the number"),
        ("meter", "digits 6.5", "not a whole number"),
        ("meter", "shared yes", "let it stand alone"),
        ("meter", "reading -4 gal", "0 or more"),
        ("meter", "reading 4 min", "min cannot be turned into m"),
        ("respaced", "spacing 14", "has no unit"),
        ("respaced", "spacing wide", "is not a number"),
    ],
)
def test_what_cannot_be_is_refused_with_a_remedy(
    what: str, text: str, message: str
) -> None:
    assert message in refused(what, text)


def test_every_wrong_part_is_named_and_the_good_ones_are_kept() -> None:
    values, said = parsed_details(
        "in 420; out 160 mL; up 3 m", KINDS["leaching"], "log.csv:3"
    )
    assert values == {"out_ml": 160.0}
    assert [one.where for one in said] == ["log.csv:3: in", "log.csv:3: details"]


def test_a_number_that_overflows_is_refused() -> None:
    with pytest.raises(QuantityError, match="must be"):
        read_part(Part("a", "a", "number", high=10.0), "9" * 400)
