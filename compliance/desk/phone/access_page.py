"""The page of the desk that lets a phone in and shuts it out."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.desk.guard import Session
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.frame import page, section
from compliance.desk.phone.address_code import code_svg
from compliance.output.checklist.html_tags import Child, Markup, tag

PHONE = "/phone"
WARNING = (
    "Anyone on this network who sees the code can read the project, add photos and record hold points. Nothing is "
    "encrypted: others on the network can read what is sent, and use it to come in too. Use it on a network that you "
    "trust. It ends with the desk."
)
_MAY = (
    "A phone reads the answer, the plan, hold points, limits, photos and papers, adds photos, and records hold and "
    "witness points with name, day and photo. All else is done at the desk, where each of its steps can be undone."
)


def access_page(snapshot: Snapshot, phone: Session | None) -> bytes:
    """The whole page; `phone` is None where the desk was started without it."""
    return page("Phone", snapshot, tag("h1", "Phone"), *_parts(phone), here=PHONE)


def _parts(phone: Session | None) -> Iterator[Child]:
    if phone is None or phone.is_ended:
        now = "is off" if phone is None else "has ended"
        yield tag("p", f"The access of phones {now}: nothing listens on the network. To switch it on:")
        yield tag("pre", "earthwall desk FOLDER --phone", tabindex="0")
        yield tag("p", _MAY)
        yield tag("p", WARNING, class_="care")
        return
    yield tag("p", WARNING, class_="care")
    yield tag("p", _MAY)
    if phone.let_in is not None:
        yield tag("p", f"A phone was let in at {phone.let_in:%H:%M}, and stays in until the end.")
    if phone.awaits:
        yield section(
            "Scan this with the phone",
            code_svg(phone.address, "Code of the address below"),
            tag("p", "The code is good once. The same address to type:"),
            tag("pre", phone.address, tabindex="0"),
        )
    else:
        yield tag("p", "Its code is used up.")
    yield tag("div", _button("code", "Make a new code"), _button("end", "End the access of phones"), class_="ways")


def _button(name: str, label: str) -> Markup:
    return tag("form", tag("button", label, type="submit"), method="post", action=f"{PHONE}/{name}")
