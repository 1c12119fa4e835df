"""Somebody at the desk in a real browser, by the keyboard alone or by the pointer: each field filled in and each thing
pressed counts as one step."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

_MOST_TABS = 500
_COMPLAIN_OF_POINTERS = "addEventListener('pointerdown', () => console.error('a pointer was used'), true)"
_FOLLOW_THE_FOCUS = """
  window.walked = { last: null, back: '' };
  document.addEventListener('focusin', event => {
    const was = window.walked.last, here = event.target;
    const knows = was?.isConnected && was !== here;
    const isOn = !knows || was.contains(here) || was.compareDocumentPosition(here) & Node.DOCUMENT_POSITION_FOLLOWING;
    if (!isOn) window.walked.back = `${was.outerHTML.slice(0, 120)} to ${here.outerHTML.slice(0, 120)}`;
    window.walked.last = here;
  });
"""
_LOOK = """wanted => {
  const here = document.activeElement;
  const follows = (one, other) => one.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_FOLLOWING;
  const isAfter = here === document.body || follows(here, wanted);
  const kinds = 'a[href], button, input, select, textarea, summary, [tabindex="0"]';
  const all = Array.from(document.querySelectorAll(kinds));
  const between = all.filter(one => one.tabIndex >= 0 && one.checkVisibility() && one.type !== 'hidden' &&
    one.type !== 'radio' && (isAfter ? follows(one, wanted) && (here === document.body || follows(here, one)) :
    follows(wanted, one) && follows(one, here)));
  return { is: here === wanted, key: isAfter ? 'Tab' : 'Shift+Tab', between: between.length, back: window.walked.back };
}"""
_HAS_STYLES = "() => Array.from(document.querySelectorAll('link[rel=stylesheet]')).every(one => one.sheet)"
_SHOWN = """one => {
  const style = getComputedStyle(one), box = one.getBoundingClientRect();
  const inner = one.querySelector?.('path, circle');
  const outlined = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
  const stroked = inner && parseFloat(getComputedStyle(inner).strokeWidth) >= 3;
  const seen = box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth;
  return one.matches(':focus-visible') && (outlined || !!stroked) && seen;
}"""


@contextmanager
def started_desk(folder: Path) -> Iterator[str]:
    """The address that the command prints; it is ended like by Ctrl-C."""
    command = [sys.executable, "-m", "compliance", "desk", str(folder), "--no-open", "--port", "0"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    try:
        assert process.stdout is not None
        printed = ""
        while not (found := re.search(r"http://\S+", printed)):
            line = process.stdout.readline()
            assert line, printed
            printed += line
        yield found[0]
    finally:
        process.terminate()
        process.wait(10)
        if process.stdout is not None:
            process.stdout.close()


class Walker:
    """`steps` counts what a person does. Targets are locators of the page."""

    def __init__(self, browser: Any, address: str, width: int, height: int = 900) -> None:
        self.steps = 0
        self.complaints: list[str] = []
        self.origin = address.partition("/open")[0]
        self.context = browser.new_context(viewport={"width": width, "height": height})
        self.page = self.context.new_page()
        self.page.set_default_timeout(20_000)
        self._listen(self.page)
        self.page.goto(address)

    def _listen(self, page: Any) -> None:
        complain = self.complaints.append
        page.on("console", lambda one: complain(one.text) if one.type in ("error", "warning") else None)
        page.on("pageerror", lambda error: complain(str(error)))
        page.on("request", lambda one: None if one.url.startswith(self.origin) else complain(one.url))
        page.on("response", lambda one: complain(f"{one.status} {one.url}") if one.status >= 400 else None)

    def find(self, selector: str) -> Any:
        """The first that matches; an id that has dots in it too."""
        return self.page.locator(f'[id="{selector[1:]}"]' if selector.startswith("#") else selector).first

    def write(self, selector: str, text: str) -> None:
        self.steps += 1
        self._write(self.find(selector), text)

    def choose(self, selector: str, value: str) -> None:
        """An option of a list, by its value or its words."""
        self.steps += 1
        self._choose(self.find(selector), value)

    def tick(self, selector: str) -> None:
        self.steps += 1
        self._tick(self.find(selector))

    def open(self, selector: str) -> None:
        """A fold."""
        self.steps += 1
        self._press(self.find(f"{selector} > summary" if not selector.startswith("#") else _summary(selector)))

    def go(self, target: Any) -> None:
        """A link or a button that leads to another page or to this one anew."""
        self.steps += 1
        with self.page.expect_navigation(wait_until="domcontentloaded"):
            self._press(target)

    def link(self, name: str, exact: bool = True) -> None:
        self.go(self.page.get_by_role("link", name=name, exact=exact).first)

    def button(self, name: str, within: str = "main") -> None:
        place = self.find(within) if within != "main" else self.page.locator("main")
        self.go(place.get_by_role("button", name=name, exact=True).first)

    def attach(self, selector: str, file: Path) -> None:
        self.steps += 1
        with self.page.expect_navigation(wait_until="domcontentloaded"):
            self._attach(self.find(selector), file)

    def close(self) -> None:
        self.context.close()

    def _write(self, target: Any, text: str) -> None:
        target.fill(text)

    def _choose(self, target: Any, value: str) -> None:
        target.select_option(_option(target, value)[1])

    def _tick(self, target: Any) -> None:
        target.check()

    def _press(self, target: Any) -> None:
        target.click()

    def _attach(self, target: Any, file: Path) -> None:
        with self.page.expect_file_chooser() as chooser:
            target.click()
        chooser.value.set_files(str(file))


class KeyboardWalker(Walker):
    """Reaches everything by Tab, sees where it is at every step, and touches no pointer."""

    def __init__(self, browser: Any, address: str, width: int, height: int = 900) -> None:
        super().__init__(browser, address, width, height)
        self.context.add_init_script(_COMPLAIN_OF_POINTERS)
        self.context.add_init_script(_FOLLOW_THE_FOCUS)
        self.page.evaluate(_FOLLOW_THE_FOCUS)

    def reach(self, target: Any) -> None:
        """Tab or Shift+Tab until it has the focus. Each press goes on in the order of the page."""
        self.page.evaluate("window.walked = { last: null, back: '' }")
        pressed = 0
        while not (found := target.evaluate(_LOOK))["is"]:
            assert pressed < _MOST_TABS, f"{target} is not reached by Tab at {self.page.url}"
            for _ in range(max(1, found["between"])):
                self.page.keyboard.press(found["key"])
                pressed += 1
        jumped = found["key"] == "Tab" and found["back"]
        assert pressed == 0 or not jumped, f"on the way to {target} the focus jumps back from {jumped}"
        self.page.wait_for_function(_HAS_STYLES)  # on a busy machine they come after the page
        # A new answer may take the place of what was just found: then what is there now is looked at.
        is_seen = target.evaluate(_SHOWN) or target.evaluate(_SHOWN)
        assert is_seen, f"it cannot be seen that {target} has the focus at {self.page.url}"

    def _write(self, target: Any, text: str) -> None:
        self.reach(target)
        if target.input_value():
            self.page.keyboard.press("Control+a")
        if "\n" in text:
            self.page.keyboard.insert_text(text)  # as pasted
        else:
            self.page.keyboard.type(text)

    def _choose(self, target: Any, value: str) -> None:
        self.reach(target)
        index, _ = _option(target, value)
        now = target.evaluate("one => one.selectedIndex")
        for _ in range(abs(index - now)):
            self.page.keyboard.press("ArrowDown" if index > now else "ArrowUp")
        assert target.evaluate("one => one.selectedIndex") == index

    def _tick(self, target: Any) -> None:
        if target.get_attribute("type") != "radio":
            self.reach(target)
            self.page.keyboard.press("Space")
            return
        group = self.page.locator(f"input[name='{target.get_attribute('name')}']")
        values = [one.get_attribute("value") for one in group.all()]
        chosen = [index for index in range(len(values)) if group.nth(index).is_checked()]
        now, wanted = next(iter(chosen), 0), values.index(target.get_attribute("value"))
        self.reach(group.nth(now))
        if not chosen:
            self.page.keyboard.press("Space")
        for _ in range(abs(wanted - now)):
            self.page.keyboard.press("ArrowDown" if wanted > now else "ArrowUp")
        assert target.is_checked()

    def _press(self, target: Any) -> None:
        self.reach(target)
        self.page.keyboard.press("Enter")

    def _attach(self, target: Any, file: Path) -> None:
        self.reach(target)
        with self.page.expect_file_chooser() as chooser:
            self.page.keyboard.press("Space")
        chooser.value.set_files(str(file))


def _summary(selector: str) -> str:
    return f'[id="{selector[1:]}"] > summary'


def _option(target: Any, value: str) -> tuple[int, str]:
    """The place in its list and the value of an option, by its value, else by how its words begin."""
    options: list[tuple[str, str]] = target.evaluate("one => Array.from(one.options, o => [o.value, o.text])")
    found = [n for n, (held, _) in enumerate(options) if held == value]
    found += [n for n, (_, words) in enumerate(options) if words.startswith(value)]
    assert found, f"{value!r} is none of {options}"
    return found[0], options[found[0]][0]
