"""What a phone may do, all that it is refused, and that what it records stands in the files as from elsewhere."""

from __future__ import annotations

import http.client
import re
import shutil
import socket
from collections.abc import Iterator, Mapping
from datetime import date
from html import unescape
from pathlib import Path

import pytest
from typer.testing import CliRunner

from compliance.checking import check_folder
from compliance.cli import app
from compliance.desk.guard import NOT_FOR_PHONES
from compliance.desk.kept_check import Watcher
from compliance.desk.paperwork.inspection_pages import points_asked
from compliance.desk.phone.access_page import WARNING
from compliance.desk.phone.network_address import network_address, refuse_open_address
from compliance.desk.routing.phone_routes import PERMITTED
from compliance.desk.serving import Desk
from compliance.editing.evidence_files import Evidence
from compliance.editing.written_answers import GivenAnswer, enter_answers
from compliance.reading.project_folder import read_project
from compliance.refused import RefusedError
from compliance.report.limits.limit_list import limit_text, limits_of_codes
from compliance.units import Writer
from tests.conftest import EXAMPLE
from tests.desk.form_fields import fields_of_form
from tests.desk.served import Visitor, served
from tests.desk.test_editing import state
from tests.desk.test_pages import events, number_of, words
from tests.desk.test_photos import photo

ELSEWHERE = "127.0.0.2"
"""Another address of this machine, in place of the one on the network; Linux has all of 127.0.0.0/8."""
DAY = "2026-11-20"
MAY_READ = """/ /open /static/{name} /favicon.ico /events /subject/{subject:path} /plan /picture/{view}.svg /inspections
/limits /papers /out/{name:path} /cautions /photos /photos/file/{mark} /photos/new/{number} /photos/held/{number}"""
MAY_WRITE = {("PUT", "/photos/drop/{name}"), ("POST", "/photos/new/{number}"), ("POST", "/inspections")}


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Watcher, "run", lambda self: None)


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    folder = tmp_path_factory.mktemp("phone") / "house"
    shutil.copytree(EXAMPLE, folder)
    try:
        socket.create_server((ELSEWHERE, 0)).close()
    except OSError:
        pytest.skip("this system has one address alone for itself")
    with served(folder, ELSEWHERE) as opened:
        yield opened


@pytest.fixture(scope="module")
def at_desk(desk: Desk) -> Visitor:
    return Visitor(desk).let_in()


@pytest.fixture(scope="module")
def phone(desk: Desk) -> Visitor:
    """Was let in by the code; the tests that read share it."""
    return Visitor(desk, desk.phone).let_in()


def test_a_phone_may_do_what_is_listed_here_and_nothing_else(desk: Desk, phone: Visitor) -> None:
    assert {("GET", path) for path in MAY_READ.split()} | MAY_WRITE == PERMITTED
    before = state(desk.kept.folder)
    routes = desk._server.config.app._app.routes  # type: ignore[union-attr]
    asked = {(method, one.path) for one in routes for method in one.methods - {"HEAD"}}
    assert asked >= PERMITTED
    refused = asked - PERMITTED
    assert {("POST", path) for path in (
        "/edit", "/try", "/undo", "/redo", "/end", "/mend", "/limits", "/questions", "/papers", "/plan/wall",
        "/plan/part", "/plan/corner", "/plan/remove", "/add", "/earth/jar", "/tests/paste", "/begin",
        "/phone/code", "/phone/end",
    )} <= refused  # fmt: skip
    assert {("GET", "/questions"), ("GET", "/mend"), ("GET", "/phone"), ("GET", "/parts")} <= refused
    for method, path in refused:
        path = re.sub(r"\{[^}]*\}", "1", path)
        reply = phone.ask(method, path, None if method == "GET" else b"a=b")
        assert (reply.status, reply.text) == (403, NOT_FOR_PHONES), (method, path)
    for path in ("/project.yaml", "/photos/../edit", "//edit", "/edit/", "/inspections/", "/static/../../guard.py"):
        for method in ("GET", "POST", "PUT"):
            assert phone.ask(method, path, None if method == "GET" else b"a=b").status == 403, (method, path)
    for what in ({"do": "confirm"}, {"do": "accept"}, {"do": "stage", "stage": "completion"}, {"do": "make"}):
        assert phone.post("/inspections", what).status == 400
    assert state(desk.kept.folder) == before


# At the phone's address: what is asked, with which headers other than those of a phone that was let in.
REFUSED: dict[str, tuple[str, str, Mapping[str, str | None], int]] = {
    "no cookie": ("GET", "/", {"Cookie": None}, 403),
    "no cookie for a photo": ("PUT", "/photos/drop/a.jpg", {"Cookie": None}, 403),
    "the cookie of the desk": ("GET", "/", {"Cookie": "DESK"}, 403),
    "the secret of the desk by the name of the phone's": ("GET", "/", {"Cookie": "RENAMED"}, 403),
    "the address of the desk": ("GET", "/", {"Host": "DESK"}, 421),
    "the address of the desk with its cookie": ("GET", "/", {"Host": "DESK", "Cookie": "DESK"}, 421),
    "a name that leads to this machine": ("GET", "/", {"Host": "example.org"}, 421),
    "the right address, another port": ("GET", "/", {"Host": f"{ELSEWHERE}:9"}, 421),
    "a form of the desk": ("POST", "/inspections", {"Origin": "DESK"}, 403),
    "a form of another site": ("POST", "/inspections", {"Origin": "https://example.org"}, 403),
    "a form from nowhere": ("POST", "/inspections", {"Origin": "null"}, 403),
    "a form without an origin": ("POST", "/inspections", {"Origin": None}, 403),
    "a photo without an origin": ("PUT", "/photos/drop/a.jpg", {"Origin": None}, 403),
    "a link of another site": ("GET", "/", {"Sec-Fetch-Site": "cross-site"}, 403),
    "another method": ("DELETE", "/", {}, 405),
    "a form that is too long": ("POST", "/inspections", {"Content-Length": "300000"}, 413),
    "a photo that is too large": ("PUT", "/photos/drop/a.jpg", {"Content-Length": "40000001"}, 413),
}


@pytest.mark.parametrize("name", REFUSED)
def test_is_refused_at_the_address_of_the_phone(desk: Desk, at_desk: Visitor, phone: Visitor, name: str) -> None:
    assert desk.phone is not None
    method, path, headers, status = REFUSED[name]
    secret = at_desk.cookie.partition("=")[2]
    of_desk = {"Cookie": at_desk.cookie, "Host": desk.session.host, "Origin": desk.session.origin}
    put = {"DESK": of_desk, "RENAMED": {"Cookie": f"{desk.phone.cookie_name}={secret}"}}
    given = {key: put[value][key] if value in put else value for key, value in headers.items() if value is not None}
    reply = phone.ask(method, path, None if method == "GET" else b"a=b", {**headers, **given})
    assert reply.status == status, reply.text
    assert "kestrel" not in reply.text.lower()
    assert phone.get("/").status == 200


def test_neither_cookie_nor_token_is_good_at_the_other_address(desk: Desk, at_desk: Visitor, phone: Visitor) -> None:
    assert desk.phone is not None
    assert at_desk.ask("GET", "/", headers={"Cookie": phone.cookie}).status == 403
    assert at_desk.ask("GET", "/", headers={"Host": desk.phone.host}).status == 421
    secret = phone.cookie.partition("=")[2]
    assert at_desk.ask("GET", "/", headers={"Cookie": f"{desk.session.cookie_name}={secret}"}).status == 403
    assert (
        phone.ask("GET", "/").headers["content-security-policy"] == at_desk.get("/").headers["content-security-policy"]
    )


def test_a_code_is_good_once_at_its_own_address_and_a_new_one_is_made(
    desk: Desk, at_desk: Visitor, phone: Visitor
) -> None:
    assert desk.phone is not None and phone.cookie and not desk.phone.awaits
    assert 'class="code"' not in at_desk.get("/phone").text and "A phone was let in at" in at_desk.get("/phone").text
    assert at_desk.post("/phone/code").status == 303
    path = desk.phone.address.removeprefix(desk.phone.origin)
    assert at_desk.ask("GET", path).status == 403  # at the desk's address
    page = at_desk.get("/phone").text
    assert desk.phone.address in page and 'class="code"' in page and WARNING in page
    second = Visitor(desk, desk.phone)
    reply = second.get(path)
    assert {"HttpOnly", "SameSite=Strict", "Path=/"} <= set(reply.headers["set-cookie"].split("; "))
    again = second.get(path)
    assert again.status == 403 and "set-cookie" not in again.headers and "Scan the code" in again.text
    assert phone.get("/").status == 200


def test_without_the_option_one_address_of_this_machine_is_listened_at(
    house: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    bound: list[object] = []
    bind = socket.socket.bind

    def watched(self: socket.socket, address: object) -> None:
        bound.append(address)
        bind(self, address)  # type: ignore[arg-type]

    monkeypatch.setattr(socket.socket, "bind", watched)
    with served(house) as opened:
        assert bound == [("127.0.0.1", 0)] and opened.phone is None
        visitor = Visitor(opened).let_in()
        page = visitor.get("/phone").text
        assert "is off" in page and "--phone" in page and WARNING in page and 'class="code"' not in page
        assert visitor.post("/phone/code").status == 303 and visitor.post("/phone/end").status == 303
        with socket.socket() as other:
            other.settimeout(2)
            assert other.connect_ex((ELSEWHERE, int(opened.session.host.rpartition(":")[2]))) != 0


def test_the_access_ends_at_the_desk_and_its_socket_is_closed(house: Path) -> None:
    with served(house, ELSEWHERE) as opened:
        assert opened.phone is not None
        visitor, one = Visitor(opened).let_in(), Visitor(opened, opened.phone).let_in()
        connection = http.client.HTTPConnection(opened.phone.host, timeout=20)
        connection.request("GET", "/events", headers={"Host": opened.phone.host, "Cookie": one.cookie})
        stream = connection.getresponse()
        number_of(stream)
        assert visitor.post("/phone/end").status == 303
        while stream.readline():
            pass
        with pytest.raises(OSError):
            for _ in range(100):
                assert one.get("/").status == 403
        assert not opened.phone.admit("") and visitor.post("/phone/code").status == 303
        assert opened.phone.address == opened.phone.origin
        assert "has ended" in visitor.get("/phone").text
        assert number_of(events(opened, visitor.cookie)) >= 0


def test_a_hold_point_with_its_photo_is_recorded_as_the_command_records_it(house: Path, tmp_path: Path) -> None:
    before, other, data = state(house), tmp_path / "other", photo(6)
    shutil.copytree(house, other)
    (tmp_path / "image.jpg").write_bytes(data)
    point = next(one for one in points_asked(check_folder(house)) if len(one.subjects) > 1)
    with served(house, ELSEWHERE) as opened:
        one = Visitor(opened, opened.phone).let_in()
        number = one.ask("PUT", "/photos/drop/image.jpg", data).text.removeprefix("/photos/new/")
        assert one.ask("GET", f"/photos/held/{number}", raw=True).headers["content-type"] == "image/jpeg"
        assert state(house) == before
        sent = {"do": "inspect", "on": DAY, f"photo:{point.key}": number, f"title:{number}": "First <b>lift</b>"}
        reply = one.post("/inspections", {**sent, "by": "Bo Li"})
        assert reply.status == 422 and "a photo is there and no answer" in words(reply.text)
        assert f"/photos/held/{number}" in reply.text and "First &lt;b&gt;lift" in reply.text
        sent |= {f"all:{point.key}": "yes", f"note:{point.key}": "dry"}
        assert "who" in words(one.post("/inspections", sent).text) and state(house) == before
        for strange in ("99", "x", ""):
            reply = one.post("/inspections", {**sent, "by": "Bo Li", f"photo:{point.key}": strange})
            assert reply.status == 422 and "not held any more" in words(reply.text), strange
        assert state(house) == before
        reply = one.post("/inspections", {**sent, "by": "Bo Li"})
        assert (reply.status, reply.headers["location"]) == (303, "/inspections")
        assert 'value="Bo Li"' not in one.get("/inspections").text.partition("<datalist")[0]
        after = state(house)
        visitor = Visitor(opened).let_in()
        assert visitor.post("/undo").status == 303 and state(house) == before
        assert not (house / "photos" / "image.jpg").exists()
    proof = Evidence((tmp_path / "image.jpg").as_posix(), "First <b>lift</b>", date(2026, 5, 14))
    enter_answers(other, [
        GivenAnswer("inspections", rule=point.name, about=point.subjects, answer=True, by="Bo Li",
                    on=date.fromisoformat(DAY), evidence=(proof,), note="dry")
    ])  # fmt: skip
    assert after == state(other) != before
    assert (other / "photos" / "image.jpg").read_bytes() == data


def kept(visitor: Visitor, data: bytes, name: str, **changes: str) -> int:
    address = visitor.ask("PUT", f"/photos/drop/{name}", data).text
    fields = [(key, changes.get(key, value)) for key, value in fields_of_form(visitor.get(address).text, address)]
    return visitor.post(address, fields).status


def test_a_photo_is_kept_as_from_the_desk_and_tied_to_records_of_the_site_alone(house: Path, tmp_path: Path) -> None:
    other = tmp_path / "other"
    shutil.copytree(house, other)
    before, given = state(house), {"mark": "pit", "title": "South pit"}
    with served(house, ELSEWHERE) as opened, served(other) as second:
        one = Visitor(opened, opened.phone).let_in()
        reply = one.ask("PUT", "/photos/drop/letter.pdf", b"%PDF-1.7\n")
        assert reply.status == 415 and "photos alone" in reply.text
        assert kept(one, photo(), "pit.jpg", **given, tie='["soils", "S1", "photos", 0]') == 422
        assert kept(one, photo(), "pit.jpg", **given, tie='["test_sets", "C1", "report"]') == 422
        assert state(house) == before
        assert kept(one, photo(), "pit.jpg", **given) == 303
        assert kept(Visitor(second).let_in(), photo(), "pit.jpg", **given) == 303
        page = unescape(one.get(one.ask("PUT", "/photos/drop/b.jpg", photo()).text).text)
        assert '["inspections"' in page and '["soils"' not in page and '["attestations"' not in page
        assert "South pit" in one.get("/photos").text
    assert state(house) == state(other) != before
    assert read_project(house).project.attachments["pit"].title == "South pit"


PAGES = ("/", "/plan", "/plan?wall=W3", "/inspections", "/limits", "/papers", "/photos", "/cautions", "/subject/W6")


def test_pages_hold_no_way_to_what_is_refused(phone: Visitor) -> None:
    checked = check_folder(phone.desk.kept.folder)
    found = {address for path in PAGES for address in re.findall(r'(?:href|src)="(/[^"]*)"', phone.get(path).text)}
    assert len(found) > 30
    subjects = [one for one in found if one.startswith("/subject/")]
    for address in sorted(found - set(subjects[4:])):
        reply = phone.ask("GET", unescape(address), raw=True)
        assert reply.status == 200 or address.startswith("/events"), address
    forms = {one for path in PAGES for one in re.findall(r'<form[^>]* action="([^"]*)"', phone.get(path).text)}
    assert forms == {"/inspections"}
    limits, writer = phone.get("/limits").text, Writer("us")
    assert "<input" not in limits and "<form" not in limits
    known = [limit_text(one.limit, writer) for one in limits_of_codes(checked) if one.limit.value is not None]
    assert len(known) > 5 and all(words(one) in words(limits) for one in known)
    assert all(words(one.asks) in words(phone.get("/inspections").text) for one in points_asked(checked))
    assert "encrypted" in words(phone.get("/").text).rpartition("photos")[2]


def test_a_folder_without_a_project_and_files_that_do_not_read_have_pages(tmp_path: Path) -> None:
    with served(tmp_path, ELSEWHERE) as opened:
        one = Visitor(opened, opened.phone).let_in()
        for path in ("/", "/plan", "/inspections", "/limits", "/papers", "/photos", "/cautions"):
            reply = one.get(path)
            assert reply.status == 200 and "cannot be read" in words(reply.text) and "/mend" not in reply.text, path


def test_a_phone_is_answered_and_nobody_is_asked(desk: Desk, phone: Visitor, monkeypatch: pytest.MonkeyPatch) -> None:
    """With --phone too the desk takes connections and makes none; finding the address sends nothing either: it is a
    datagram socket with a destination and without a datagram."""
    made: list[object] = []
    connect = socket.socket.connect

    def watched(self: socket.socket, address: object) -> None:
        made.append((self.type, address))
        connect(self, address)  # type: ignore[arg-type]

    assert desk.phone is not None
    monkeypatch.setattr(socket.socket, "connect", watched)
    for path in ("/", "/plan", "/inspections", "/picture/plan.svg"):
        assert phone.get(path).status == 200
    host, _, port = desk.phone.host.rpartition(":")
    assert set(made) == {(socket.SOCK_STREAM, (host, int(port)))}
    made.clear()
    monkeypatch.setattr(socket.socket, "send", None)
    monkeypatch.setattr(socket.socket, "sendto", None)
    try:
        assert refuse_open_address(network_address())
    except RefusedError as refused:
        assert refused.code == "phone-address"
    assert made == [(socket.SOCK_DGRAM, ("198.51.100.1", 9))]  # RFC 5737: documentation


def test_an_address_that_is_not_of_a_local_network_is_refused() -> None:
    # RFC 1918 private, RFC 3927 link-local; then all, this machine, the open internet, a group, a name, IPv6
    for good in ("10.0.0.7", "172.16.3.4", "192.168.1.20", "169.254.9.9"):
        assert refuse_open_address(good) == good
    for bad in ("0.0.0.0", "127.0.0.1", "8.8.8.8", "224.0.0.1", "house.local", "::1", "192.168.1.20:80", ""):
        with pytest.raises(RefusedError, match="address"):
            refuse_open_address(bad)


def test_the_command_warns_and_prints_the_address(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[Desk] = []
    monkeypatch.setattr(Desk, "serve", lambda self: opened.append(self))
    monkeypatch.setattr("compliance.desk.phone.network_address.network_address", lambda: ELSEWHERE)
    plain = CliRunner().invoke(app, ["desk", str(house), "--no-open"])
    assert plain.exit_code == 0 and "phone" not in plain.output and opened[0].phone is None
    ran = CliRunner().invoke(app, ["desk", str(house), "--no-open", "--phone"])
    assert opened[1].phone is not None
    assert ran.exit_code == 0 and WARNING in ran.output and opened[1].phone.address in ran.output
    for args, says in (
        (["--phone-address", "192.168.1.20"], "write --phone too"),
        (["--phone", "--phone-address", "0.0.0.0"], "all addresses at once"),
        (["--phone", "--phone-address", "192.168.251.251"], "cannot be listened at"),
    ):
        ran = CliRunner().invoke(app, ["desk", str(house), "--no-open", *args])
        assert ran.exit_code == 2 and says in ran.output, ran.output
    for one in opened:
        for held in (one._socket, one._phone_socket):
            if held is not None:
                held.close()
