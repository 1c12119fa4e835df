"""The fields of a form as a browser would send them."""

from __future__ import annotations

from html.parser import HTMLParser


class FormReader(HTMLParser):
    """Reads the first form whose action begins so."""

    def __init__(self, action: str) -> None:
        super().__init__()
        self.fields: list[tuple[str, str]] = []
        self._action = action
        self._state = "before"
        self._name = ""
        self._texts: list[str] = []
        self._options: list[tuple[str, bool]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        held = {name: value or "" for name, value in attrs}
        if tag == "form" and self._state == "before" and held["action"] == self._action:
            self._state = "in"
        if self._state != "in":
            return
        if tag == "input" and "name" in held and (held.get("type") not in ("radio", "checkbox") or "checked" in held):
            self.fields.append((held["name"], held.get("value", "")))
        elif tag in ("select", "textarea"):
            self._name, self._texts, self._options = held.get("name", ""), [], []
        elif tag == "option":
            self._options.append((held.get("value", ""), "selected" in held))

    def handle_data(self, data: str) -> None:
        self._texts.append(data)

    def handle_endtag(self, tag: str) -> None:
        if self._state != "in":
            return
        if tag == "form":
            self._state = "after"
        elif tag == "textarea":
            self.fields.append((self._name, "".join(self._texts)))
        elif tag == "select" and self._options:
            chosen = next((value for value, is_chosen in self._options if is_chosen), self._options[0][0])
            self.fields.append((self._name, chosen))


def fields_of_form(text: str, action: str) -> list[tuple[str, str]]:
    """Names and values in order."""
    reader = FormReader(action)
    reader.feed(text)
    assert reader.fields, action
    return reader.fields
