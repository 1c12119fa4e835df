"""Rule sets: listing, showing, linting and comparing them, and the vocabulary they are written in."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.shared import put, stop, stop_with

if TYPE_CHECKING:
    from compliance.rules.rule_set import RuleSet

app = typer.Typer(no_args_is_help=True, help="Rule sets: list, show, lint, compare; and the facts they are written in.")

Source = Annotated[str, typer.Argument(metavar="RULE_SET", help="The name of a shipped rule set, or a file.")]


def _read(source: str) -> RuleSet:
    from compliance.problems import ProblemsFound
    from compliance.reading.rule_files.rule_library import read_rule_set, read_shipped
    from compliance.refused import RefusedError

    try:
        return read_rule_set(Path(source), source) if source.endswith((".yaml", ".yml")) else read_shipped(source)
    except ProblemsFound as found:
        raise stop_with(found, end="") from None
    except RefusedError as refused:
        raise stop(str(refused)) from None


@app.command("list")
def list_sets() -> None:
    """Lists the shipped rule sets by what they are: code, standard, guide or practice.

    Example: earthwall rules list
    """
    from compliance.output.terminal.rule_pages import set_list
    from compliance.reading.rule_files.rule_library import shipped_rule_sets

    sets = [_read(name) for name in shipped_rule_sets()]
    put(set_list(sets))


@app.command()
def show(
    source: Source,
    rule: Annotated[str | None, typer.Argument(metavar="RULE", help="Without it: the whole rule set.")] = None,
) -> None:
    """Shows a rule in full: text, formula, limits with standing and source, tables, examples.

    Example: earthwall rules show cob-irc-2021-au wall-thickness-least
    """
    from compliance.output.terminal.rule_pages import rule_page, set_page
    from compliance.refused import nearest

    rule_set = _read(source)
    if rule is None:
        put(set_page(rule_set))
        return
    for one in rule_set.rules:
        if one.id == rule:
            put(rule_page(one))
            return
    near = nearest(rule, (one.id for one in rule_set.rules))
    raise stop(f"{rule_set.id} has no rule {rule!r}" + (f" (did you mean {near}?)" if near else ""))


@app.command()
def new(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The file to write, such as my_house/county.yaml.")],
    amendment: Annotated[
        bool, typer.Option("--amendment", help="An amendment file: changes to adopted rule sets, not one of your own.")
    ] = False,
) -> None:
    """Begins a rule set of your own, or an amendment file, from a template with notes on every line.

    Example: earthwall rules new my_house/county.yaml
    """
    from compliance.output.files.new_rules import write_template

    if file.suffix not in (".yaml", ".yml"):
        raise stop(f"{file}: give the file a name that ends in .yaml")
    try:
        write_template(file, "amendments.yaml" if amendment else "county.yaml")
    except FileExistsError:
        raise stop(f"{file}: there is a file of that name already; nothing was written") from None
    except OSError as error:
        raise stop(f"{file}: not written: {error.strerror or error}") from None
    section = "amendments:" if amendment else "rule_sets:"
    put(f"Wrote {file}. Edit it, name it under {section} in project.yaml, then: earthwall rules lint {file}\n")


@app.command()
def lint(
    files: Annotated[list[Path], typer.Argument(metavar="FILE...", help="Rule-set or amendment files.")],
) -> None:
    """Reads rule sets and amendments as strictly as a check does, runs their examples and the cases beside them, and
    names every slip with its line.

    Example: earthwall rules lint my_house/county.yaml
    """
    from compliance.linting.lint_rule_set import lint_file

    found = [problem for path in files for problem in lint_file(path)]
    if found:
        from compliance.problems import ProblemsFound

        raise stop_with(ProblemsFound(found), end="")
    put(f"{len(files)} {'file' if len(files) == 1 else 'files'}, no problems found\n")


@app.command()
def compare(
    one: Annotated[str, typer.Argument(metavar="A", help="A shipped rule set or a file.")],
    other: Annotated[str, typer.Argument(metavar="B", help="The one to compare it with.")],
) -> None:
    """Says what one rule set or edition changes against another, limit by limit.

    Example: earthwall rules compare cob-irc-2021-au my_house/county.yaml
    """
    from compliance.output.terminal.rule_comparison import comparison

    put(comparison(_read(one), _read(other)))


@app.command()
def facts(
    about: Annotated[
        str | None, typer.Argument(metavar="SUBJECT", help="wall, opening, mix ...: all without it.")
    ] = None,
) -> None:
    """Lists the facts that formulas may use, by subject, with their units.

    Example: earthwall rules facts wall
    """
    from compliance.facts.catalogue import ABOUTS
    from compliance.output.terminal.rule_pages import fact_pages

    if about is not None and about not in ABOUTS:
        raise stop(f"there are no facts about {about!r} (known: {', '.join(ABOUTS)})")
    put(fact_pages(about))


@app.command()
def questions() -> None:
    """Lists the questions that rules answer: the answers of several rule sets to one are laid side by side.

    Example: earthwall rules questions
    """
    from compliance.output.terminal.rule_pages import question_pages
    from compliance.reading.rule_files.question_list import read_questions

    put(question_pages(read_questions().values()))
