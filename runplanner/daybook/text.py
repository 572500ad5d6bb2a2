"""A plan to and from stable JSON text.

Dataclasses become objects with their fields in order, tuples become lists, enums their
value.  A phrase becomes its English text, or, where something was put in, its sentence and the
parts, so that it can still be said in another language.  Reading checks every value against
the field's declared type, collects all faults and names the path of each.
"""

import json
import math
import types
import typing
from collections import Counter
from dataclasses import Field, fields, is_dataclass
from datetime import date
from enum import StrEnum
from functools import cache
from typing import Any, TypeVar, Union, cast

from runplanner.daybook.plan import SCHEMA, Plan
from runplanner.errors import Fault, ScenarioError
from runplanner.phrase import Number, Part, Phrase, named, phrase, verbatim

T = TypeVar("T")
DEEPEST = 8
"""Phrases may stand in one another so deep; ours need three."""


def plan_text(plan: Plan) -> str:
    """Return ``plan`` as JSON text, the same text for the same plan."""
    body = {"schema": SCHEMA, "plan": _plain(plan)}
    return json.dumps(body, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def plan_from_text(text: str, file: str = "plan.json") -> Plan:
    """Return the plan in ``text``.

    Raises:
        ScenarioError: With every fault found, when the text is no plan of this schema.
    """
    try:
        body = json.loads(text, parse_constant=_no_constant, object_pairs_hook=_each_once)
    except (ValueError, RecursionError) as error:
        raise ScenarioError(
            (
                Fault(
                    file,
                    "",
                    "",
                    " ".join(text[:200].split()) or phrase("an empty file"),
                    phrase("a plan as JSON text ({error})", error=str(error)),
                    phrase("Give the plan.json that runplanner wrote, or its folder."),
                ),
            )
        ) from None
    if not isinstance(body, dict) or body.get("schema") != SCHEMA:
        said = (
            str(body["schema"])[:80]
            if isinstance(body, dict) and "schema" in body
            else phrase("no schema")
        )
        raise ScenarioError(
            (
                Fault(
                    file,
                    "",
                    "schema",
                    said,
                    verbatim(SCHEMA),
                    phrase("Plan again with this version."),
                ),
            )
        )
    reader = _Reader(file)
    plan = reader.value(Plan, body.get("plan"), "plan")
    if reader.faults:
        raise ScenarioError(tuple(reader.faults))
    return cast(Plan, plan)


def _no_constant(name: str) -> float:
    message = f"{name} is no number"
    raise ValueError(message)


def _each_once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    """Return an object of which no key stands twice: of two the last one would count, unsaid."""
    for key, count in Counter(key for key, _ in pairs).items():
        if count > 1:
            message = f"{key[:60]!r} stands {count} times in one object"
            raise ValueError(message)
    return dict(pairs)


def _plain(value: object) -> object:
    if is_dataclass(value) and not isinstance(value, type):
        kept = (field for field in fields(value) if not _is_default(field, value))
        return {field.name: _plain(getattr(value, field.name)) for field in kept}
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, (tuple, list)):
        return [_plain(item) for item in value]
    if isinstance(value, Phrase):
        return _sentence(value) if value.parts else str(value)
    return value


def _sentence(phrase: Phrase) -> dict[str, object]:
    parts = {name: _part(part) for name, part in phrase.parts.items()}
    many = {"many": phrase.many} if phrase.many else {}
    return {"say": phrase.one, **many, **({"parts": parts} if parts else {})}


def _part(part: Part) -> object:
    if isinstance(part, Phrase):
        return _sentence(part)
    if isinstance(part, Number):
        return {"number": str(part)}
    return {"date": part.isoformat()} if isinstance(part, date) else part


def _is_default(field: Field[Any], value: object) -> bool:
    """Tell whether a fact that may be lacking is as if it were lacking."""
    return "may_lack" in field.metadata and getattr(value, field.name) == field.default


@cache
def _hints(kind: type) -> dict[str, Any]:
    return typing.get_type_hints(kind)


class _Reader:
    """Builds typed values from plain ones and keeps every fault."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.faults: list[Fault] = []

    def value(self, kind: Any, raw: object, path: str) -> object:  # noqa: ANN401 - a type form
        origin = typing.get_origin(kind)
        if origin in (Union, types.UnionType):
            return self._optional(kind, raw, path)
        if origin is tuple:
            return self._tuple(typing.get_args(kind), raw, path)
        if isinstance(kind, type) and issubclass(kind, tuple):
            return self._named(kind, raw, path)
        if is_dataclass(kind):
            return self._object(cast(type, kind), raw, path)
        if isinstance(kind, type) and issubclass(kind, StrEnum):
            return self._enum(kind, raw, path)
        return self._scalar(kind, raw, path)

    def _phrase(self, raw: object, path: str, depth: int = 0) -> Phrase:
        """Return a phrase from its text, or from its sentence and parts."""
        if not isinstance(raw, dict):
            return Phrase(str(self._scalar(str, raw, path)))
        parts, many = raw.get("parts", {}), raw.get("many", "")
        if set(raw) - {"say", "many", "parts"} or not isinstance(parts, dict) or depth > DEEPEST:
            self._fault(path, raw, phrase('text, or "say" with "parts"'))
            return Phrase("")
        one, other = (str(self._scalar(str, text, path)) for text in (raw.get("say"), many))
        put = {name: self._part(part, f"{path}.{name}", depth) for name, part in parts.items()}
        if other and type(put.get("number")) is not int:
            self._fault(f"{path}.number", put.get("number"), _ALLOWED[int])
            return Phrase("")
        if any(len(names) > len(set(names)) for names in (named(one), named(other))):
            self._fault(
                path, one, phrase("each part once")
            )  # else a short file could say a huge text
            return Phrase("")
        return Phrase(one, put, other)

    def _part(self, raw: object, path: str, depth: int) -> Part:
        """Return what is put into a phrase: a count, text, a number, a day, a phrase."""
        if isinstance(raw, dict):
            if set(raw) == {"number"}:
                return Number(self._scalar(str, raw["number"], path))
            return (
                self._day(raw, path) if set(raw) == {"date"} else self._phrase(raw, path, depth + 1)
            )
        kind = int if isinstance(raw, int) else str
        return cast(Part, self._scalar(kind, raw, path))

    def _day(self, raw: dict[str, object], path: str) -> Part:
        try:
            return date.fromisoformat(str(raw["date"]))
        except ValueError:
            self._fault(path, raw["date"], phrase("a date such as 2027-03-04"))
            return ""

    def _fault(self, path: str, raw: object, allowed: Phrase) -> None:
        cure = phrase("Use a plan file as written, or plan again.")
        self.faults.append(Fault(self.file, path, "", repr(raw)[:80], allowed, cure))

    def _optional(self, kind: Any, raw: object, path: str) -> object:  # noqa: ANN401
        if raw is None:
            return None
        (inner,) = (arg for arg in typing.get_args(kind) if arg is not type(None))
        return self.value(inner, raw, path)

    def _tuple(self, args: tuple[Any, ...], raw: object, path: str) -> object:
        if not isinstance(raw, list):
            self._fault(path, raw, phrase("a list"))
            return ()
        if len(args) == 2 and args[1] is Ellipsis:
            return tuple(self.value(args[0], item, f"{path}[{i}]") for i, item in enumerate(raw))
        if len(args) != len(raw):
            self._fault(path, raw, phrase("a list of {args}", args=len(args)))
            return ()
        return tuple(
            self.value(arg, item, f"{path}[{i}]")
            for i, (arg, item) in enumerate(zip(args, raw, strict=True))
        )

    def _named(self, kind: type, raw: object, path: str) -> object:
        hints = _hints(kind)
        return kind(
            *cast(
                tuple[Any, ...], self._tuple(tuple(hints.values()), raw, path) or (0,) * len(hints)
            )
        )

    def _object(self, kind: type, raw: object, path: str) -> object:
        if not isinstance(raw, dict):
            self._fault(path, raw, phrase("an object"))
            return None
        hints = _hints(kind)
        wanted = {field.name for field in fields(kind)}
        for name in sorted(set(raw) - wanted):
            self._fault(f"{path}.{name}", raw[name], phrase("no such field"))
        built = {}
        for field in fields(kind):
            name = field.name
            if name not in raw:
                if "may_lack" not in field.metadata:
                    self._fault(f"{path}.{name}", phrase("nothing"), phrase("a value"))
                continue
            built[name] = self.value(hints[name], raw[name], f"{path}.{name}")
        return None if self.faults else kind(**built)

    def _enum(self, kind: type[StrEnum], raw: object, path: str) -> object:
        for member in kind:
            if member.value == raw:
                return member
        self._fault(path, raw, verbatim(" | ".join(member.value for member in kind)))
        return None

    def _scalar(self, kind: type, raw: object, path: str) -> object:
        if kind is Phrase:
            return self._phrase(raw, path)
        if kind is float and isinstance(raw, int) and not isinstance(raw, bool):
            raw = _as_float(raw)
        if type(raw) is not kind or not _sound(raw):
            self._fault(path, raw, _ALLOWED.get(kind, verbatim(kind.__name__)))
            return kind()
        return raw


_ALLOWED: dict[type, Phrase] = {
    int: phrase("a whole number"),
    float: phrase("a finite number"),
    str: phrase("text that can be written in UTF-8"),
    bool: phrase("true or false"),
}


def _as_float(raw: int) -> float:
    try:
        return float(raw)
    except OverflowError:
        return math.inf


def _sound(raw: object) -> bool:
    """Tell whether a value read from JSON can be written again: no infinity, no half letter."""
    if isinstance(raw, float):
        return math.isfinite(raw)
    return not (isinstance(raw, str) and any("\ud800" <= char <= "\udfff" for char in raw))
