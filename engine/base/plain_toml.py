"""The plain TOML that the files of a bench are mostly written in, read without the standard module, which takes longer to
load than such a file to read. What is not plain, and every mistake, is left to the standard module."""

from __future__ import annotations

from engine.base.hints import Any


class _NotPlain(Exception):
    """Something that is left to the standard module."""


def plain(text: str) -> dict[str, Any] | None:
    """The document, if it holds nothing but tables, lists of tables, and short values and lists on one line each.

    Source: TOML 1.0.0.

    >>> plain('unit = "mm"\\n[[knurls]]\\npitch = 0.8\\nrow = [1, 2]')
    {'unit': 'mm', 'knurls': [{'pitch': 0.8, 'row': [1, 2]}]}
    >>> plain("day = 2020-01-01") is None
    True
    """
    document: dict[str, Any] = {}
    table = document
    try:
        for line in text.split("\n"):
            line = line.strip(" \t")
            if line[:1] == "[":
                table = _opened(document, line)
            elif line and line[0] != "#":
                name, equals, value = line.partition("=")
                name = name.rstrip(" \t")
                if not equals or not _is_key(name) or name in table:
                    return None
                table[name] = _list(value) if value.lstrip(" \t")[:1] == "[" else _value(value)
            if line and not line.isprintable():
                return None
    except _NotPlain:
        return None
    return document


def _is_key(name: str) -> bool:
    return name.isidentifier() and name.isascii()


def _opened(document: dict[str, Any], line: str) -> dict[str, Any]:
    """The table that a header opens; the tables above it stand already."""
    several = line.startswith("[[") and line.endswith("]]")
    *above, last = (line[2:-2] if several else line[1:-1]).split(".")
    if not line.endswith("]") or not all(map(_is_key, (*above, last))):
        raise _NotPlain
    table: Any = document
    for name in above:
        table = table.get(name)
        table = table[-1] if isinstance(table, list) and table else table
        if not isinstance(table, dict):
            raise _NotPlain
    fresh: dict[str, Any] = {}
    if last not in table:
        table[last] = [fresh] if several else fresh
    elif several and isinstance(table[last], list) and table[last] and isinstance(table[last][-1], dict):
        table[last].append(fresh)
    else:
        raise _NotPlain
    return fresh


def _list(text: str) -> list[Any]:
    inside = text.strip(" \t")[1:-1]
    if not text.endswith("]") or "[" in inside:
        raise _NotPlain
    return [_value(part) for part in inside.split(",")]  # text with a comma in it comes apart, and is no value then


def _value(text: str) -> Any:
    text = text.strip(" \t")
    if text[:1] == '"' and text[-1:] == '"' and len(text) > 1 and '"' not in text[1:-1] and "\\" not in text:
        return text[1:-1]
    if text in ("true", "false"):
        return text == "true"
    digits = text.removeprefix("-")
    whole, point, parts = digits.partition(".")
    if digits.isascii() and whole.isdecimal() and (whole[0] != "0" or whole == "0"):
        if not point:
            return int(text)
        if parts.isdecimal():
            return float(text)
    raise _NotPlain
