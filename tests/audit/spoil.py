"""Spoils a good plan at random: any value of it becomes another one of its declared type."""

import types
import typing
from collections.abc import Callable, Sequence
from dataclasses import fields, is_dataclass, replace
from enum import StrEnum
from functools import cache
from typing import Any, cast

WHOLE = (-(10**12), -1441, -1, 0, 1, 2, 7, 60, 1440, 10**6, 10**12)
TEXTS = (
    "",
    " ",
    "nobody",
    "ann",
    "truck1",
    "yard2",
    "{{7*7}}",
    "<img onerror=x>",
    "\u202eyob",
    "x" * 999,
)

Pick = Callable[[Sequence[Any]], Any]
"""Chooses one of a sequence: the only source of chance."""


def spoilt(value: Any, hint: Any, pick: Pick) -> Any:
    """Return ``value`` with one spot somewhere inside it changed."""
    if typing.get_origin(hint) in (typing.Union, types.UnionType):
        hint = next(arg for arg in typing.get_args(hint) if arg is not type(None))
        if value is None:
            return _other(0, hint, pick) if hint is int else None
        if pick((False, False, True)):
            return None
    if is_dataclass(value) and not isinstance(value, type):
        name = pick([field.name for field in fields(value)])
        return replace(
            value,
            **{name: spoilt(getattr(value, name), _hints(cast(type, type(value)))[name], pick)},
        )
    if isinstance(value, tuple):
        return _spoilt_tuple(value, hint, pick)
    return _other(value, hint, pick)


@cache
def _hints(kind: type) -> dict[str, Any]:
    return typing.get_type_hints(kind)


def _spoilt_tuple(value: Any, hint: Any, pick: Pick) -> Any:
    args = typing.get_args(hint)
    fixed = hasattr(value, "_fields") or (args and args[-1] is not Ellipsis)
    spot = pick(range(len(value))) if value else 0
    way = (
        "inside"
        if fixed
        else pick(("inside", "inside", "inside", "drop", "double", "turn", "empty"))
    )
    if not value or way == "empty":
        return value if fixed else ()
    if way == "drop":
        return value[:spot] + value[spot + 1 :]
    if way == "double":
        return (*value, value[spot])
    if way == "turn":
        return value[::-1]
    inner = (
        list(_hints(cast(type, type(value))).values())[spot]
        if hasattr(value, "_fields")
        else _item(args, spot)
    )
    items = list(value)
    items[spot] = spoilt(items[spot], inner, pick)
    return type(value)(*items) if hasattr(value, "_fields") else tuple(items)


def _item(args: tuple[Any, ...], spot: int) -> Any:
    return args[0] if args[-1] is Ellipsis else args[spot]


def _other(value: Any, hint: Any, pick: Pick) -> Any:
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return pick(list(hint))
    if hint is bool:
        return not value
    if hint is int:
        return pick((*WHOLE, value + 1, value - 1))
    if hint is str:
        return pick(TEXTS)
    return value
