"""Answers to slow questions: how many are kept, and for whom."""

from tui.field_state import once


def test_the_answers_asked_for_last_are_kept_so_many_of_each_kind() -> None:
    owner, asked = object(), list[int]()

    def answer(of: int) -> int:
        def work() -> int:
            asked.append(of)
            return of

        return once(owner, ("kind", of), work, keep=2)

    assert [answer(one) for one in (1, 2, 1, 3, 1, 2)] == [1, 2, 1, 3, 1, 2]
    assert asked == [1, 2, 3, 2]  # 2 gave way to 3, 1 was asked for in between


def test_an_answer_of_another_reading_is_neither_given_nor_kept() -> None:
    first, second = object(), object()
    assert once(first, ("kind of two",), lambda: 5) == 5
    assert once(second, ("kind of two",), lambda: 7) == 7
    assert once(first, ("kind of two",), lambda: 9) == 9
