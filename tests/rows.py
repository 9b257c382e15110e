"""Tables of many rows, asked in one test: for most rows pytest's own work on a test costs more than the question."""

from functools import wraps
from inspect import Signature, signature
from itertools import product

import pytest

PARAM = type(pytest.param())
PLAIN = (str, int, float, type(None))  # written as they are in the name of a row


def each_row(names, table, ids=None):
    """Ask a test of every row, as `pytest.mark.parametrize` does and stacked like it, but in one test.

    It goes on after a row that fails, and fails once at the end, naming each such row with what was wrong there. Its
    other arguments are fixtures, made once for all rows: a row that needs its own, or takes long, is better a test.
    """
    single = isinstance(names, str) and "," not in names
    names = [name.strip() for name in names.split(",")] if isinstance(names, str) else list(names)
    ids = ids if callable(ids) or ids is None else list(ids)
    asked = []
    for number, row in enumerate(table):
        row = row if isinstance(row, PARAM) else pytest.param(*((row,) if single else row))
        if row.marks:
            raise ValueError(f"row {number} has a mark: it needs a test of its own")
        given = dict(zip(names, row.values, strict=True))
        asked.append((row.id or _name(given, number, ids), given))

    def decorate(test):
        question, tables = getattr(test, "question", test), [*getattr(test, "tables", ()), asked]

        @wraps(question)
        def whole(*instance, **fixtures):
            wrong, every = [], list(product(*tables))
            for row in every:
                given = {name: value for _, part in row for name, value in part.items()}
                try:
                    question(*instance, **fixtures, **given)
                except (Exception, pytest.fail.Exception, pytest.skip.Exception) as error:
                    wrong.append(f"[{'-'.join(name for name, _ in row)}]\n{_what(error)}")
            if wrong or not every:
                pytest.fail("\n\n".join([f"{len(wrong)} of {len(every)} rows", *wrong]), pytrace=False)

        left = [one for one in signature(test).parameters.values() if one.name not in names]
        whole.__signature__ = Signature(left)
        whole.question, whole.tables = question, tables
        return whole

    return decorate


def _name(given, number, ids):
    """The name of a row, as pytest makes it."""
    if isinstance(ids, list):
        return str(ids[number])
    shown = []
    for name, value in given.items():
        own = ids(value) if ids else None
        shown.append(str(own if own is not None else value if isinstance(value, PLAIN) else f"{name}{number}"))
    return "-".join(shown)


def _what(error):
    """What pytest shows of a failure: the line, the assertion and its values."""
    caught = pytest.ExceptionInfo.from_exception(error)
    caught.traceback = caught.traceback[1:] or caught.traceback
    return str(caught.getrepr(style="short"))
