"""Records: dataclasses that never change after they are made, made cheaply.

`dataclass(frozen=True, slots=True)` writes and compiles six methods for every class, about half a millisecond
each time the tool starts. A record compiles only `__init__`; comparing, hashing and printing are shared, and that
nothing is assigned afterwards is held by the type checker.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: type[T]) -> type[T]:
    """The class with `__init__` from its fields, equal and hashed by those that are compared."""
    made = dataclass(eq=False, repr=False, match_args=False)(cls)
    for name, method in (("__eq__", _equal), ("__hash__", _hash), ("__repr__", _show)):
        if name not in cls.__dict__:
            setattr(made, name, method)
    return made


def _compared(one: Any) -> tuple[Any, ...]:
    names = one.__class__.__dict__.get("_compared_names")
    if names is None:
        names = tuple(each.name for each in fields(one) if each.compare)
        one.__class__._compared_names = names
    return tuple([getattr(one, name) for name in names])


def _equal(one: Any, other: Any) -> Any:
    if one.__class__ is not other.__class__:
        return NotImplemented
    return one is other or _compared(one) == _compared(other)


def _hash(one: Any) -> int:
    return hash(_compared(one))


def _show(one: Any) -> str:
    shown = (f"{each.name}={getattr(one, each.name)!r}" for each in fields(one) if each.repr)
    return f"{one.__class__.__qualname__}({', '.join(shown)})"
