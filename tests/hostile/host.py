"""Runs the tool many times over, each time in a process of its own with limits, without starting Python anew.

Reads a line of JSON for each run from standard input and answers with one: {"args", "cwd", "environment",
"break_before", "barred"} in, {"code", "out", "err", "peak", "used"} out; `peak` is the most memory the process had, in
bytes, `used` its processor time in seconds. A run is ended before its n-th step that changes the disk where
`break_before` is n, and not where it is 0 (`breaking.py`); with `barred` it is ended where it reaches the network or
starts a program (`barred/sitecustomize.py`). Started by `running.Host`.
"""

from __future__ import annotations

import contextlib
import functools
import gc
import importlib
import io
import json
import os
import pkgutil
import resource
import sys
import tempfile
import traceback
from pathlib import Path

from tests.hostile.breaking import break_before
from tests.hostile.laying_out import SOUND, write

MOST_ADDRESSES = 2_000_000_000
MOST_CPU_SECONDS = 30
LONGEST_ANSWER = 8_000_000


def load_all_modules() -> None:
    """Loads what any command will import, once for all runs, and keeps it out of the collector's sight."""
    import compliance

    for one in pkgutil.walk_packages(compliance.__path__, "compliance."):
        if not one.name.endswith(".__main__"):
            importlib.import_module(one.name)


def warm_up() -> None:
    """Works out once, for all runs, what each would begin with whatever it is asked: the tree of the commands, the
    validators of the files, units, formulas, fonts. That is two thirds of a run of a small project. Nothing of a
    project is kept; that it all goes from a cold start too is shown by the tests that start Python themselves."""
    import typer.main

    from compliance.cli import app

    typer.main.get_command = functools.cache(typer.main.get_command)
    with tempfile.TemporaryDirectory() as place:
        write(Path(place, "small"), {"project.yaml": SOUND.encode()})
        for args in (
            ["submittal", f"{place}/small", "--draft", "--output", f"{place}/small.pdf"],
            ["example", f"{place}/house"],
            ["check", f"{place}/house"],
        ):
            said = io.TextIOWrapper(io.BytesIO())
            with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said), contextlib.suppress(SystemExit):
                app(args, prog_name="earthwall", standalone_mode=False)


def run(
    args: list[str], cwd: str, environment: dict[str, str] | None, break_before: int, barred: bool
) -> dict[str, object]:
    with tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as err:
        child = os.fork()
        if child == 0:
            _be_the_tool(
                args, cwd=cwd, environment=environment, broken_at=break_before, barred=barred, out=out.fileno(),
                err=err.fileno(),
            )  # fmt: skip
        _, status, used = os.wait4(child, 0)
        return {
            "code": os.waitstatus_to_exitcode(status),
            "out": _read(out.fileno()),
            "err": _read(err.fileno()),
            "peak": used.ru_maxrss * 1024,
            "used": used.ru_utime + used.ru_stime,
        }


def _be_the_tool(
    args: list[str], cwd: str, environment: dict[str, str] | None, broken_at: int, barred: bool, out: int, err: int
) -> None:
    """Never returns."""
    code = 1
    try:
        resource.setrlimit(resource.RLIMIT_AS, (MOST_ADDRESSES, MOST_ADDRESSES))
        resource.setrlimit(resource.RLIMIT_CPU, (MOST_CPU_SECONDS, MOST_CPU_SECONDS))
        os.chdir(cwd.encode())  # also where the locale knows ASCII alone
        if environment is not None:
            os.environ.clear()
            os.environ.update(environment)
        with open(os.devnull) as nothing:  # noqa: PTH123
            os.dup2(nothing.fileno(), 0)
        os.dup2(out, 1)
        os.dup2(err, 2)
        sys.argv = ["earthwall", *args]
        if broken_at:
            sys.dont_write_bytecode = True  # a compiled module is no step of the tool's own
            break_before(broken_at)
        if barred:
            importlib.import_module("tests.hostile.barred.sitecustomize")
        main()
    except SystemExit as left:
        code = left.code if isinstance(left.code, int) else 0 if left.code is None else 1
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


def _read(handle: int) -> str:
    os.lseek(handle, 0, os.SEEK_SET)
    return os.read(handle, LONGEST_ANSWER).decode("utf-8", "replace")


if __name__ == "__main__":
    from compliance.__main__ import main

    load_all_modules()
    warm_up()
    gc.collect()
    gc.freeze()
    answers = os.fdopen(os.dup(1), "w")
    for line in sys.stdin:
        request = json.loads(line)
        answers.write(json.dumps(run(**request)) + "\n")
        answers.flush()
