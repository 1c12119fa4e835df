"""What the desk refuses, asked over a real port, and what it answers with."""

from __future__ import annotations

import contextlib
import http.client
import socket
from collections.abc import Iterator, Mapping

import pytest

from compliance.desk.serving import Desk
from tests.desk.served import Visitor

FORM = b"a=b"
OTHER = "http://127.0.0.1:9"

# What is asked, with which headers other than the browser's, and the status of the refusal.
REFUSED: dict[str, tuple[str, str, bytes | None, Mapping[str, str | None], int]] = {
    "no cookie": ("GET", "/", None, {"Cookie": None}, 403),
    "no cookie for what lies still": ("GET", "/static/desk.css", None, {"Cookie": None}, 403),
    "a cookie of one's own making": ("GET", "/", None, {"Cookie": "earthwall-desk=x"}, 403),
    "a name that leads to this machine": ("GET", "/", None, {"Host": "example.org:80"}, 421),
    "this machine by another name": ("GET", "/", None, {"Host": "localhost"}, 421),
    "the right name, another port": ("GET", "/", None, {"Host": "127.0.0.1:9"}, 421),
    "no host": ("GET", "/", None, {"Host": None}, 400),
    "a form of another site": ("POST", "/end", FORM, {"Origin": "https://example.org"}, 403),
    "a form of another port": ("POST", "/end", FORM, {"Origin": OTHER}, 403),
    "a form from nowhere": ("POST", "/end", FORM, {"Origin": "null"}, 403),
    "a form without an origin": ("POST", "/end", FORM, {"Origin": None}, 403),
    "a script of another port": ("GET", "/", None, {"Origin": OTHER}, 403),
    "a link of another site": ("GET", "/", None, {"Sec-Fetch-Site": "cross-site"}, 403),
    "a page of another port": ("GET", "/", None, {"Sec-Fetch-Site": "same-site"}, 403),
    "a form that is too long": ("POST", "/end", b"x" * 300_000, {}, 413),
    "an address that is too long": ("GET", f"/{'x' * 9_000}", None, {}, 414),
    "another method": ("DELETE", "/", None, {}, 405),
    "a method that asks leave": ("OPTIONS", "/", None, {"Access-Control-Request-Method": "POST"}, 405),
    "to end by a link": ("GET", "/end", None, {}, 405),
    "a file above": ("GET", "/static/..%2f..%2f__init__.py", None, {}, 404),
    "a file of the project": ("GET", "/project.yaml", None, {}, 404),
    "a picture of nothing": ("GET", "/picture/plan.svgz", None, {}, 404),
    "a wall that is none": ("GET", "/picture/elevation.svg?wall=../x", None, {}, 404),
}


@pytest.mark.parametrize("name", REFUSED)
def test_is_refused(reader: Visitor, name: str) -> None:
    method, path, body, headers, status = REFUSED[name]
    if headers.get("Cookie"):
        headers = {"Cookie": f"{reader.desk.session.cookie_name}=x"}
    reply = reader.ask(method, path, body, headers)
    assert reply.status == status, reply.text
    assert "kestrel" not in reply.text.lower()
    assert reader.get("/").status == 200


def test_a_body_in_pieces_is_counted_as_it_comes(reader: Visitor) -> None:
    def pieces() -> Iterator[bytes]:
        for _ in range(40):
            yield b"x" * 10_000

    with contextlib.suppress(BrokenPipeError, ConnectionResetError):  # it need not wait for the rest
        assert reader.ask("POST", "/end", pieces()).status == 413
    assert reader.get("/").status == 200


def test_the_address_is_good_once(example_desk: Desk, reader: Visitor) -> None:
    assert reader.cookie
    for token in ("", "x", "None"):
        reply = Visitor(example_desk).ask("GET", f"/open?token={token}")
        assert reply.status == 403 and "set-cookie" not in reply.headers
    assert "token" not in example_desk.session.address


def test_every_answer_bears_the_policy(reader: Visitor) -> None:
    for path in ("/", "/static/live.js", "/nothing", "/picture/plan.svg"):
        headers = reader.get(path).headers
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy and "unsafe" not in policy and "http" not in policy
        assert headers["referrer-policy"] == "same-origin" and headers["x-content-type-options"] == "nosniff"
        assert "access-control-allow-origin" not in headers
    refused = Visitor(reader.desk).get("/")
    assert "content-security-policy" in refused.headers


def test_the_cookie_is_kept_from_scripts_and_from_other_sites(house: object, tmp_path: object) -> None:
    from compliance.desk.guard import Session

    session = Session(1234)
    assert {"HttpOnly", "SameSite=Strict", "Path=/"} <= set(session.cookie.split("; "))
    assert session.cookie.startswith("earthwall-desk-1234=")
    assert session.admit(session.address.partition("token=")[2]) and not session.admit("")
    assert not session.knows("") and not session.knows('a="')


def test_listens_on_this_machine_alone(example_desk: Desk) -> None:
    port = int(example_desk.session.host.rpartition(":")[2])
    assert example_desk._socket.getsockname()[0] == "127.0.0.1"
    with socket.socket() as other:
        other.settimeout(2)
        assert other.connect_ex(("127.0.0.2", port)) != 0


def test_what_is_no_request_ends_nothing(reader: Visitor) -> None:
    port = int(reader.desk.session.host.rpartition(":")[2])
    for raw in (
        b"\x16\x03\x01\x02\x00\x01",
        b"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
        b"GET http://x/ HTTP/9\r\n\r\n",
    ):
        with socket.create_connection(("127.0.0.1", port), timeout=5) as other:
            other.sendall(raw)
            other.shutdown(socket.SHUT_WR)
            assert b" 200 " not in other.recv(4096).partition(b"\r\n")[0]
    assert reader.get("/").status == 200


def test_two_cookies_of_one_name_do_not_pass_by_the_first(reader: Visitor) -> None:
    name = reader.desk.session.cookie_name
    assert reader.ask("GET", "/", headers={"Cookie": f"{reader.cookie}; {name}=x"}).status == 403


def test_a_websocket_is_not_opened(reader: Visitor) -> None:
    headers = {
        "Upgrade": "websocket",
        "Connection": "Upgrade",
        "Sec-WebSocket-Key": "x" * 22 + "==",
        "Sec-WebSocket-Version": "13",
    }
    with contextlib.suppress(http.client.HTTPException):
        assert reader.ask("GET", "/events", headers={**headers, "Cookie": None}).status in (400, 403)
