"""Records: dataclasses that never change after they are made, made cheaply.

`dataclass` writes and compiles methods for every class each time the tool starts: with two hundred classes, a fifth
of a whole check. Here `__init__` of all records with as many fields is compiled once and given other names; comparing,
hashing and printing are shared; what `dataclasses.fields` and `replace` look for is worked out when they ask. That
nothing is assigned afterwards is held by the type checker.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, Field, dataclass, field
from functools import cache
from types import CodeType, FunctionType
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: type[T]) -> type[T]:
    """The class with `__init__` from its fields, equal and hashed by those that are compared. Raises TypeError where a
    field without a default follows one with a default."""
    made: Any = cls
    made._parameters = parameters = _parameters_of(cls)
    made.__init__ = _init(cls, parameters)
    made.__dataclass_fields__ = _FieldsWhenAsked()
    for name, method in (("__eq__", _equal), ("__hash__", _hash), ("__repr__", _show)):
        if name not in cls.__dict__:
            setattr(made, name, method)
    return cls


def replace(one: T, **values: Any) -> T:
    """The record with some of its fields changed."""
    kept = {name: getattr(one, name) for name in type(one)._parameters}  # type: ignore[attr-defined]
    return type(one)(**(kept | values))


class _FieldsWhenAsked:
    """Stands for `__dataclass_fields__` until it is read; `dataclass` puts them in its place."""

    def __get__(self, one: object, cls: type[Any]) -> dict[str, Field[Any]]:
        found: dict[str, Field[Any]] = dataclass(init=False, eq=False, repr=False, match_args=False)(
            cls
        ).__dataclass_fields__
        return found


def _parameters_of(cls: type[Any]) -> dict[str, Any]:
    """Each field, inherited ones first, with its default, the `field` that says it, or MISSING."""
    found: dict[str, Any] = {}
    for base in reversed(cls.__mro__[1:]):
        found |= base.__dict__.get("_parameters", {})
    return found | {name: cls.__dict__.get(name, MISSING) for name in cls.__annotations__}


def _init(cls: type[Any], parameters: Mapping[str, Any]) -> Any:
    names = tuple(parameters)
    defaults, makers = [], {}
    for name, given in parameters.items():
        default = given.default if isinstance(given, Field) else given
        if isinstance(given, Field) and given.default_factory is not MISSING:
            default, makers[f"make_{name}"] = _TO_MAKE, given.default_factory
        if default is not MISSING:
            defaults.append(default)
        elif defaults:
            raise TypeError(f"{cls.__qualname__}.{name} has no default and follows a field that has one")
    finishes = hasattr(cls, "__post_init__")
    if makers or finishes:
        code = _code(names, frozenset(makers), finishes)
    else:
        code = _template(len(names)).replace(co_names=names, co_varnames=("self", *names))
    code = code.replace(co_qualname=f"{cls.__qualname__}.__init__")
    return FunctionType(code, {"TO_MAKE": _TO_MAKE, **makers}, "__init__", tuple(defaults))


_TO_MAKE: Any = object()
"""The default of a field whose value is made anew for each record."""


@cache
def _template(count: int) -> CodeType:
    return _code(tuple(f"field{index}" for index in range(count)), frozenset(), False)


def _code(names: tuple[str, ...], makers: frozenset[str], finishes: bool) -> CodeType:
    """Of an `__init__` that assigns each of its parameters."""
    lines = [
        f"self.{name} = make_{name}() if {name} is TO_MAKE else {name}"
        if f"make_{name}" in makers
        else f"self.{name} = {name}"
        for name in names
    ]
    lines += ["self.__post_init__()"] if finishes else []
    made: dict[str, Any] = {}
    exec(f"def __init__(self, {', '.join(names)}):\n " + "\n ".join(lines or ["pass"]), made)
    code: CodeType = made["__init__"].__code__
    return code


def _names(one: Any, use: str) -> list[str]:
    """Of the fields that take part in a use, "compare" or "repr"."""
    given = one.__class__._parameters.items()
    return [name for name, each in given if not isinstance(each, Field) or getattr(each, use)]


def _compared(one: Any) -> tuple[Any, ...]:
    names = one.__class__.__dict__.get("_compared_names")
    if names is None:
        names = one.__class__._compared_names = tuple(_names(one, "compare"))
    return tuple([getattr(one, name) for name in names])


def _equal(one: Any, other: Any) -> Any:
    if one.__class__ is not other.__class__:
        return NotImplemented
    return one is other or _compared(one) == _compared(other)


def _hash(one: Any) -> int:
    """Worked out once: worked lines hold others and are asked for theirs again and again."""
    kept = one.__dict__.get("_hash_kept")
    if kept is None:
        kept = one._hash_kept = hash(_compared(one))
    return kept  # type: ignore[no-any-return]


def _show(one: Any) -> str:
    shown = (f"{name}={getattr(one, name)!r}" for name in _names(one, "repr"))
    return f"{one.__class__.__qualname__}({', '.join(shown)})"
