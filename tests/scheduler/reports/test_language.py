"""Texts of the sheets in another language."""

import pytest

from scheduler.reports.language import Language, language_of


@pytest.fixture
def es() -> Language:
    return language_of("es", "us")


def test_english_says_what_stands_there() -> None:
    assert language_of("en").say("nights of Mon 8 Jun") == "nights of Mon 8 Jun"


@pytest.mark.parametrize(
    ("english", "spanish"),
    [
        ("every night", "cada noche"),
        ("side 2 of 6", "cara 2 de 6"),
        ("22:00 23:10† on Mon 8–Wed 10, Fri 12", "22:00 23:10†: lun 8–mié 10, vie 12"),
        ("need 0.87 in this week, DU 0.72", "necesita 0.87 pulg esta semana, DU 0.72"),
        (
            "B Mon Tue; start 23:00; station 4 (Z4) 33 min, station 5 (Z5) 2 min",
            "B lun mar; arranque 23:00; estación 4 (Z4) 33 min, estación 5 (Z5) 2 min",
        ),
    ],
)
def test_sentences_keep_their_numbers(es: Language, english: str, spanish: str) -> None:
    assert es.say(english) == spanish


@pytest.mark.parametrize("name", ["Can yard east, hollies", "Fan on roof", "May beds"])
def test_names_of_people_stay(es: Language, name: str) -> None:
    assert es.say(name) == name


@pytest.mark.parametrize(
    ("units", "said"),
    [("us", "1,234.5 m"), ("metric", "1\N{NARROW NO-BREAK SPACE}234,5 m")],
)
def test_numbers_are_written_as_the_units_ask(units: str, said: str) -> None:
    assert language_of("es", units).data("1,234.5 m") == said  # type: ignore[arg-type]


def test_commas_between_days_stay_with_a_decimal_comma() -> None:
    assert language_of("es", "metric").data("Tue 9, Sat 13") == "mar 9, sáb 13"


def test_each_part_of_several_is_said(es: Language) -> None:
    assert es.each("weather up 9 %, Kc down 6 %", ", ") == "clima sube 9 %, Kc baja 6 %"


def test_what_is_known_as_a_whole_is_not_taken_apart(es: Language) -> None:
    said = es.each("same minutes, other nights", ", ")
    assert said == "mismos minutos, otras noches"


def test_what_is_not_known_is_told_apart_from_what_stays(es: Language) -> None:
    assert (es.found("a sentence of next year"), es.found("12 psi")) == (None, "12 psi")
