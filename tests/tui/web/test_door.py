"""Who may come in: the token once, then its cookie; one host, one origin."""

from dataclasses import replace

import pytest

from tui.web.door import Asked, Door, security_headers

AT = Door(8123)
PLAIN = Asked("GET", "/", None, None, {"Host": "127.0.0.1:8123"})
SOCKET = {"Host": "127.0.0.1:8123", "Upgrade": "websocket"}


def token_of(door: Door) -> str:
    return door.first_address.partition("token=")[2]


def brings(door: Door, token: str) -> str | None:
    return door.key_for(replace(PLAIN, token=token))


def test_the_first_who_brings_the_token_gets_a_key() -> None:
    door = Door(8123)
    assert brings(door, token_of(door))


def test_the_key_lets_in() -> None:
    door = Door(8123)
    key = brings(door, token_of(door))
    assert door.refusal_without_token(replace(PLAIN, cookie=key)) is None


def test_the_token_is_good_once() -> None:
    door = Door(8123)
    brings(door, token_of(door))
    assert brings(door, token_of(door)) is None


def test_the_same_browser_may_come_by_the_same_address_again() -> None:
    door = Door(8123)
    key = brings(door, token_of(door))
    assert door.key_for(replace(PLAIN, token=token_of(door), cookie=key)) == key


def test_a_wrong_token_gets_no_key_and_spends_nothing() -> None:
    door = Door(8123)
    assert brings(door, token_of(door)[:-1] + "~") is None
    assert brings(door, token_of(door))


@pytest.mark.parametrize("token", ["", "é", "\x00", "\udcff"])
def test_a_token_in_any_letters_is_only_wrong(token: str) -> None:
    assert brings(AT, token) is None


def test_a_token_is_not_spent_by_asking_for_the_head_alone() -> None:
    door = Door(8123)
    assert door.key_for(replace(PLAIN, method="HEAD", token=token_of(door))) is None
    assert brings(door, token_of(door))


def test_a_token_opens_the_page_alone() -> None:
    door = Door(8123)
    asked = replace(PLAIN, path="/download/1", token=token_of(door))
    assert door.key_for(asked) is None


def test_token_and_key_are_no_part_of_what_is_printed_of_a_door() -> None:
    door = Door(8123)
    assert token_of(door) not in repr(door)


def test_each_door_has_its_own_token() -> None:
    assert token_of(Door(8123)) != token_of(Door(8123))


def test_each_port_has_its_own_cookie() -> None:
    assert Door(8123).cookie_name != Door(8124).cookie_name


def test_without_a_key_the_answer_says_where_one_comes_from() -> None:
    assert "address" in str(AT.refusal_without_token(PLAIN))


@pytest.mark.parametrize("cookie", ["", "wrong", "\udcff"])
def test_a_wrong_key_does_not_let_in(cookie: str) -> None:
    assert AT.refusal_without_token(replace(PLAIN, cookie=cookie)) is not None


@pytest.mark.parametrize(
    "host", ["", "localhost:8123", "127.0.0.1", "127.0.0.1:8124", "a.example:8123"]
)
def test_another_host_is_refused_with_the_right_one(host: str) -> None:
    assert "http://127.0.0.1:8123" in str(
        AT.refusal(replace(PLAIN, headers={"Host": host}))
    )


def test_the_usual_port_may_be_left_out() -> None:
    assert Door(80).refusal(replace(PLAIN, headers={"Host": "127.0.0.1"})) is None


@pytest.mark.parametrize(
    "origin", [None, "null", "http://localhost:8123", "http://127.0.0.1"]
)
def test_a_websocket_of_another_origin_is_refused(origin: str | None) -> None:
    headers = SOCKET | ({"Origin": origin} if origin else {})
    assert "Only the page" in str(AT.refusal(replace(PLAIN, headers=headers)))


def test_a_websocket_of_the_page_itself_is_not_refused() -> None:
    headers = SOCKET | {"Origin": "http://127.0.0.1:8123"}
    assert AT.refusal(replace(PLAIN, headers=headers)) is None


@pytest.mark.parametrize("method", ["HEAD", "POST", "PUT", "DELETE", "OPTIONS"])
def test_nothing_is_sent_but_by_the_websocket(method: str) -> None:
    assert AT.refusal(replace(PLAIN, method=method)) is not None


@pytest.mark.parametrize("sent_by", ["cross-site", "same-site"])
def test_a_page_of_elsewhere_cannot_send_a_browser_that_holds_the_key(
    sent_by: str,
) -> None:
    door = Door(8123)
    key = brings(door, token_of(door))
    headers = {**PLAIN.headers, "Sec-Fetch-Site": sent_by}
    asked = replace(PLAIN, cookie=key, headers=headers)
    assert "Another page" in str(door.refusal_without_token(asked))


def test_the_headers_allow_no_source_but_our_own() -> None:
    policy = security_headers(AT.address)["Content-Security-Policy"]
    allowed = {source for rule in policy.split("; ") for source in rule.split()[1:]}
    assert allowed == {
        "'none'", "'self'", "'unsafe-inline'", "data:", "ws://127.0.0.1:8123",
    }  # fmt: skip


def test_no_script_may_stand_in_the_page_itself() -> None:
    policy = security_headers(AT.address)["Content-Security-Policy"]
    assert "script-src 'self';" in policy
