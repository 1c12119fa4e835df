"""Rule sets from their files: shipped ones by name, a project's own by path, with what they extend."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from pydantic import ValidationError

from compliance.files.safe_paths import inside
from compliance.files.shipped import shipped
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import read_text
from compliance.reading.validation import problems_of
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.reading.yaml.strict_yaml import MOST_BYTES, parse_yaml, read_yaml
from compliance.record import record, replace
from compliance.refused import RefusedError, at_most, nearest
from compliance.rules.amending import AmendmentRecord, amend
from compliance.rules.compiling import compile_rule_set, compile_rules
from compliance.rules.file_schema import AmendmentText, RuleSetText
from compliance.rules.limits.borrowing import with_borrowed
from compliance.rules.rule_set import RuleSet

LOCAL = "local-rules"
_DEEPEST = 8
_MOST_BYTES = 8_000_000
_EXAMPLES = re.compile(r"^    examples:\n(?:(?: {6}.*)?\n)*", re.MULTILINE)


@record
class Adopted:
    """What a project adopts: rule sets as amended, every amendment, and the files read (name as shown, path)."""

    rule_sets: tuple[RuleSet, ...]
    amendments: tuple[AmendmentRecord, ...]
    files: tuple[tuple[str, Path], ...]


def shipped_rule_sets() -> list[str]:
    """The names of the rule sets that come with the tool."""
    return sorted(path.stem for path in shipped("rulesets").glob("*.yaml"))


class Library:
    """Reads rule sets for one project folder (None: shipped ones only) and remembers which files it read. Shipped ones
    are read once for all projects, unless `anew`. `to_judge` leaves out the examples of shipped ones, near half of all
    that stands in them, which linting and the tests run."""

    def __init__(self, folder: Path | None = None, to_judge: bool = False, anew: bool = False) -> None:
        self._folder, self._to_judge, self._anew = folder, to_judge, anew
        self._read: dict[str, Path] = {}
        self._bytes = 0
        self.amendments: list[AmendmentRecord] = []

    @property
    def files(self) -> tuple[tuple[str, Path], ...]:
        return tuple(self._read.items())

    def find(self, name: str) -> tuple[Path, str]:
        """Path of a rule set and its name as shown. Raises RefusedError."""
        if name.endswith((".yaml", ".yml")):
            if self._folder is None:
                raise RefusedError("rule-set-unknown", f"{name!r} is no shipped rule set", "write the name of one")
            return inside(self._folder, name), (self._folder / name).as_posix()
        names = shipped_rule_sets()
        if name not in names:
            near = nearest(name, names)
            known = f"write one of {', '.join(names)}, or a file of the project folder"
            raise RefusedError(
                "rule-set-unknown", f"there is no rule set {name!r}", f"did you mean {near}?" if near else known
            )
        return shipped("rulesets") / f"{name}.yaml", f"rulesets/{name}.yaml"

    def read(self, path: Path, shown: str, above: tuple[Path, ...] = ()) -> RuleSet:
        """One rule-set file with all it extends. Raises ProblemsFound with every problem in it."""
        if not self._anew and path.parent == shipped("rulesets"):
            return self._from_kept(path, shown)
        tree = self._tree(path, shown)
        self._has_read({shown: path}, path.stat().st_size)
        try:
            text = RuleSetText.model_validate(tree)
        except ValidationError as error:
            raise ProblemsFound(problems_of(error, tree, RuleSetText)) from None
        own = compile_rule_set(text, shown, lambda loc: place_of(tree, loc))
        return self._extended(own, text, tree, (*above, path)) if text.extends else own

    def _tree(self, path: Path, shown: str) -> PlacedDict:
        if not self._to_judge or path.parent != shipped("rulesets"):
            return read_yaml(path, shown)
        text = read_text(path, shown, "yaml", MOST_BYTES)
        return parse_yaml(_EXAMPLES.sub(lambda block: "\n" * block[0].count("\n"), text), shown)

    def _from_kept(self, path: Path, shown: str) -> RuleSet:
        found, library = _read_shipped_once(path, shown, path.stat().st_mtime_ns, self._to_judge)
        self._has_read(library._read, library._bytes)
        self.amendments += library.amendments
        return found

    def _has_read(self, files: dict[str, Path], size: int) -> None:
        self._read |= files
        self._bytes += size
        if self._bytes > _MOST_BYTES:
            wrong = f"with this file the rule sets hold more than {_MOST_BYTES // 1_000_000} MB together"
            last = next(reversed(files))
            raise ProblemsFound([Problem(Place(last), "rule-set-size", wrong, "adopt fewer rule sets")])

    def _extended(self, own: RuleSet, text: RuleSetText, tree: PlacedDict, above: tuple[Path, ...]) -> RuleSet:
        """The rules of what `text` extends, changed and dropped as it says, then its own."""
        place = place_of(tree, ("extends",))
        try:
            path, shown = self.find(str(text.extends))
        except RefusedError as refused:
            raise ProblemsFound([refused.at(place)]) from None
        if len(above) > _DEEPEST:
            wrong = f"more than {_DEEPEST} rule sets extend one another"
            raise ProblemsFound([Problem(place, "extends-depth", wrong, "write what they change into fewer files")])
        if path in above:
            wrong = f"{text.extends} extends this rule set in turn"
            raise ProblemsFound(
                [Problem(place, "extends-circle", wrong, "extend a rule set that does not come back here")]
            )
        problems: list[Problem] = []
        (base,), records = amend([self.read(path, shown, above)], text, lambda loc: place_of(tree, loc), problems)
        forms = own.forms if text.forms else base.forms
        if base.forms is not None and (forms is None or not forms <= base.forms):
            wrong = f"{text.extends} covers {base.forms_in_words}, and this rule set says that it covers more"
            instead = "leave forms: out, or write some of those"
            problems.append(Problem(place_of(tree, ("forms",)), "rule-set-forms", wrong, instead))
        taken = {rule.id for rule in base.rules}
        problems += [
            Problem(rule.place, "rule-repeated", f"the rule {rule.id!r} is already in {text.extends}",
                    "give it another id, or change the limits of that rule")
            for rule in own.rules if rule.id in taken
        ]  # fmt: skip
        if problems:
            raise ProblemsFound(at_most(problems, "too-many-problems"))
        self.amendments += [replace(record, rule_set=own.id) for record in records]
        rules = (*(replace(rule, rule_set=own.id) for rule in base.rules), *own.rules)
        return replace(own, rules=rules, forms=forms)


@lru_cache(maxsize=100)
def _read_shipped_once(path: Path, shown: str, changed: int, to_judge: bool) -> tuple[RuleSet, Library]:
    """A rule set that comes with the tool, and the library that read it; `changed` is when its file last was. Raises
    ProblemsFound."""
    library = Library(to_judge=to_judge, anew=True)
    return library.read(path, shown), library


def read_rule_set(path: Path, shown: str) -> RuleSet:
    """One rule-set file by path; it may extend shipped rule sets and files beside it. Raises ProblemsFound."""
    return Library(path.parent).read(path, shown)


def read_shipped(name: str) -> RuleSet:
    """A rule set that comes with the tool. Raises RefusedError for an unknown name, ProblemsFound."""
    library = Library()
    return library.read(*library.find(name))


NO_DRAFTS: Mapping[str, str] = {}


def read_adopted(
    folder: Path,
    names: list[str],
    amendment_files: list[str],
    tree: PlacedDict,
    drafts: Mapping[str, str] = NO_DRAFTS,
) -> Adopted:
    """The rule sets that a project names, with its amendments laid over them. `drafts` holds amendment files by name as
    they would be, not written yet. Raises ProblemsFound with every problem of all these files."""
    library = Library(folder, to_judge=True)
    found: list[RuleSet] = []
    problems: list[Problem] = []
    for index, name in enumerate(names):
        place = in_folder(folder, place_of(tree, ("jurisdiction", "rule_sets", index)))
        try:
            found.append(library.read(*library.find(name)))
            if name.endswith((".yaml", ".yml")):
                problems += _like_shipped(found[-1], place)
        except ProblemsFound as stopped:
            problems += stopped.problems
        except RefusedError as refused:
            problems.append(refused.at(place))
        repeated = [one.id for one in found[:-1]] if found else []
        if found and found[-1].id in repeated:
            problems.append(Problem(place, "rule-set-repeated", f"{found[-1].id} is adopted twice", "name it once"))
    if problems:
        raise ProblemsFound(at_most(problems, "too-many-problems"))
    rule_sets = tuple(found)
    records = list(library.amendments)
    files = list(library.files)
    for name in dict.fromkeys((*amendment_files, *drafts)):
        rule_sets, more = _read_amendments(
            folder, name=name, rule_sets=rule_sets, problems=problems, draft=drafts.get(name)
        )
        records += more
        if name not in drafts:
            files.append((name, folder / name))
    if problems:
        raise ProblemsFound(at_most(problems, "too-many-problems"))
    return Adopted(with_borrowed(rule_sets), tuple(records), tuple(files))


def _like_shipped(own: RuleSet, place: Place) -> list[Problem]:
    """A file of the project cannot bear the id or the title of a rule set that ships: it would pass as that one."""
    instead = "give it an id and a title of its own; to change a shipped rule set, extend it or amend it"
    names = shipped_titles()
    if own.id in names:
        wrong = f"{own.file} calls itself {own.id}, as a rule set that ships with this tool"
        return [Problem(place, "rule-set-shipped", wrong, instead)]
    if _plain(own.title) in map(_plain, names.values()):
        wrong = f"{own.file} has the title of a rule set that ships with this tool: {own.title}"
        return [Problem(place, "rule-set-shipped", wrong, instead)]
    return []


def _plain(title: str) -> str:
    return " ".join(re.findall(r"\w+", title.casefold()))


def shipped_titles() -> dict[str, str]:
    """The titles of the rule sets that come with the tool, by name, from the heads of their files."""
    found = {}
    for path in shipped("rulesets").glob("*.yaml"):
        title = re.search(r"^title: *(.*)$", path.read_text(encoding="utf-8"), re.MULTILINE)
        found[path.stem] = title[1].strip("\"'") if title else ""
    return found


def in_folder(folder: Path, place: Place) -> Place:
    return Place((folder / place.file).as_posix(), place.line, place.column)


def _read_amendments(
    folder: Path, name: str, rule_sets: tuple[RuleSet, ...], problems: list[Problem], draft: str | None = None
) -> tuple[tuple[RuleSet, ...], list[AmendmentRecord]]:
    """The rule sets with one amendment file laid over them; its own rules become a rule set beside them."""
    shown = (folder / name).as_posix()
    try:
        tree = read_yaml(inside(folder, name), shown) if draft is None else parse_yaml(draft, shown)
        text = AmendmentText.model_validate(tree)
    except RefusedError as refused:
        problems.append(refused.at(Place(shown)))
        return rule_sets, []
    except ProblemsFound as found:
        problems += found.problems
        return rule_sets, []
    except ValidationError as error:
        problems += problems_of(error, tree, AmendmentText)
        return rule_sets, []

    def placed(loc: tuple[str | int, ...]) -> Place:
        return place_of(tree, loc)

    amended, records = amend(rule_sets, text, placed, problems)
    if not text.rules:
        return amended, records
    stem = "".join(char if char.isalnum() else "-" for char in Path(name).stem.lower()).strip("-")
    own_id = f"{LOCAL}-{stem}" if any(one.id == LOCAL for one in amended) else LOCAL
    rules = compile_rules(text.rules, own_id, placed, problems)
    own = RuleSet(
        own_id,
        title=text.title or "Rules added for this project",
        edition="as amended",
        jurisdiction="local",
        material="any",
        status="code",
        scope="Rules that the project adds to the rule sets it adopts",
        source=name,
        verify="Ask the official on what authority each rests",
        notes=(),
        rules=rules,
        file=shown,
    )
    return (*amended, own), records
