"""Writing the home file: only what changed is touched; comments, order and the keeper's own units stay.

Files are replaced whole or not at all, and a text is read back before it is kept.
"""

import os
import tempfile
from collections.abc import Iterable, Sequence
from datetime import date, time
from decimal import Decimal
from pathlib import Path
from typing import Any

from cuttlebone.base.errors import BadInput, Problem
from cuttlebone.base.quantity import Measure, convert, parse, parse_parts
from cuttlebone.home.file import parse_home
from cuttlebone.home.model import Household, Part, key_of, measure_of


def save_home(home: Household, path: Path, *, like: str | None = None) -> None:
    """Write a home file whole or not at all: beside the target first, then moved over it."""
    text = home_text(home, like=like)
    folder = path.resolve().parent
    try:
        handle, beside = tempfile.mkstemp(dir=folder, prefix=f".{path.name}.", suffix=".part")
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(beside, path.stat().st_mode & 0o777 if path.exists() else 0o644)  # noqa: PTH101
        os.replace(beside, path)  # noqa: PTH105
    except OSError as error:
        Path(locals().get("beside", path.with_suffix(".part"))).unlink(missing_ok=True)
        raise BadInput(
            (
                Problem(
                    place=str(path),
                    came=error.strerror or "an error",
                    allowed="nothing was written; check the folder",
                ),
            )
        ) from None


def home_text(home: Household, *, like: str | None = None) -> str:
    """The text of a home file for a household.

    Parameters
    ----------
    home : Household
        What to write.
    like : str, optional
        An earlier text of the same home: what did not change keeps its line, comments, order and units.

    Returns
    -------
    str
        TOML. Reading it gives `home` again.
    """
    import tomlkit

    if like is None:
        document: Any = tomlkit.document()
        document.add(
            tomlkit.comment(
                "A home file of cuttlebone. Every line may be left out: what is missing is unknown, never guessed."
            )
        )
        document.add(
            tomlkit.comment(
                'Write units with every measure: "30 in", "76 cm", "22 °C". See docs/home-file.md for all keys.'
            )
        )
        _fill(document, home, home.units)
    else:
        document = tomlkit.parse(like)
        _sync(document, parse_home(like), home, home.units)
    text = tomlkit.dumps(document)
    if parse_home(text) != home:
        raise AssertionError("the written home file does not read back the same")
    return text


def _keyed(part: Part) -> Iterable[tuple[str, str, Any]]:
    """Field, key and value of all told fields."""
    for field in type(part).model_fields:
        value = getattr(part, field)
        if value is not None and not (
            value == type(part).model_fields[field].default and not type(part).model_fields[field].is_required()
        ):
            yield field, key_of(field), value


def _fill(table: Any, part: Part, units: str) -> None:
    import tomlkit

    nested: list[tuple[str, Any]] = []
    for field, key, value in _keyed(part):
        if isinstance(value, tuple) and value and isinstance(value[0], Part) and isinstance(part, Household):
            nested.append((key, value))
        elif isinstance(value, Part) and isinstance(part, Household):
            inner = tomlkit.table()
            _fill(inner, value, units)
            nested.append((key, inner))
        else:
            table[key] = _item(type(part), field, value, units)
    for key, value in nested:  # tables come after plain keys
        table[key] = _aot(value, units) if isinstance(value, tuple) else value


def _aot(parts: Sequence[Part], units: str) -> Any:
    import tomlkit

    rows = tomlkit.aot()
    for part in parts:
        rows.append(_table(part, units))
    return rows


def _table(part: Part, units: str) -> Any:
    import tomlkit

    table = tomlkit.table()
    _fill(table, part, units)
    return table


def _item(part: type[Part], field: str, value: Any, units: str) -> Any:
    import tomlkit

    if isinstance(value, Part):
        inline = tomlkit.inline_table()
        for inner, key, inside in _keyed(value):
            inline[key] = _item(type(value), inner, inside, units)
        return inline
    if isinstance(value, tuple):
        array = tomlkit.array()
        for each in value:
            array.append(_item(part, field, each, units))
        return array.multiline(multiline=bool(value) and isinstance(value[0], Part) and len(value) > 1)
    if (measure := measure_of(part, field)) is not None:
        return written(float(value), measure, units)
    if field == "dilution":
        return _dilution(float(value))
    if isinstance(value, time):
        return value.strftime("%H:%M") if not value.second else value.strftime("%H:%M:%S")
    return value if isinstance(value, (bool, int, float, str, date)) else str(value)


_WRITE = {"cm": "in", "mm": "in", "°C": "°F"}
_HOURS = ((168.0, "week", "weeks"), (24.0, "day", "days"))


def written(value: float, measure: Measure, units: str = "metric", unit: str | None = None) -> str:
    """A value as a keeper would write it, in their units where that loses nothing.

    Examples
    --------
    >>> written(76.2, Measure("cm", 0, 900), "imperial"), written(168, Measure("h", 0, 900))
    ('30 in', '1 week')
    """
    if measure.unit == "h" and unit is None:
        for size, one, many in _HOURS:
            if value >= size and value % size == 0:
                return f"{value / size:g} {one if value == size else many}"
    wanted = unit or (_WRITE.get(measure.unit) if units == "imperial" else None)
    if wanted and wanted != measure.unit:
        text = f"{round(convert(value, measure.unit, wanted), 4):g} {wanted}"
        if parse(text, measure.unit) == value:
            return text
    number = (
        f"{value:g}" if float(f"{value:g}") == value and "e" not in f"{value:g}" else format(Decimal(repr(value)), "f")
    )
    return f"{number} {measure.unit}"


def _dilution(share: float) -> str | float:
    parts = format(Decimal(repr(1 / share)), "f")
    text = f"1 in {parts.removesuffix('.0')}"
    return text if parse_parts(text) == share else share


def _sync(table: Any, old: Part, new: Part, units: str) -> None:
    """Bring a table from `old` to `new`, touching only what differs."""
    for field in type(new).model_fields:
        before, after = getattr(old, field), getattr(new, field)
        if before == after:
            continue
        key = key_of(field) if key_of(field) in table or field not in table else field
        if after is None or (key not in table and after == type(new).model_fields[field].default):
            table.pop(key, None)
        elif isinstance(after, tuple) and after and isinstance(after[0], Part) and key in table and before:
            _sync_list(table, key, before, after, units)
        elif isinstance(after, Part) and isinstance(before, Part) and key in table:
            _sync(table[key], before, after, units)
        elif isinstance(after, tuple) and after and isinstance(after[0], Part) and isinstance(new, Household):
            table.pop(key, None)
            table[key] = _aot(after, units)
        elif isinstance(after, Part) and isinstance(new, Household):
            table[key] = _table(after, units)
        else:
            table[key] = _changed(table.get(key), type(new), field, after, units)


def _changed(was: Any, part: type[Part], field: str, value: Any, units: str) -> Any:
    """The new value in the unit the keeper had used."""
    measure = measure_of(part, field)
    if measure and isinstance(was, str) and isinstance(value, float | int):
        unit = was.strip().lstrip("+-0123456789.,/ ").strip()
        if unit and measure.unit not in {"°", "h"}:
            return written(float(value), measure, units, unit)
    return _item(part, field, value, units)


def _name(part: Part, index: int) -> Any:
    for field in ("id", "kind", "food"):
        if hasattr(part, field):
            return getattr(part, field)
    return index


def _sync_list(table: Any, key: str, before: Sequence[Part], after: Sequence[Part], units: str) -> None:
    rows = table[key]
    old = {_name(p, i): (i, p) for i, p in enumerate(before)}
    names = [_name(p, i) for i, p in enumerate(after)]
    kept = [n for n in old if n in set(names)]
    aligned = len(old) == len(before) and len(set(names)) == len(names) and names[: len(kept)] == kept
    if not aligned:  # twins or a new order: write the list anew
        table[key] = _aot(after, units) if _is_aot(rows) else _item(type(after[0]), key, tuple(after), units)
        return
    for name in reversed([n for n in old if n not in set(names)]):
        del rows[old[name][0]]
    for index, (name, part) in enumerate(zip(names, after, strict=True)):
        if name in old:
            _sync(rows[index], old[name][1], part, units)
        else:
            rows.append(_table(part, units) if _is_aot(rows) else _item(type(part), key, part, units))


def _is_aot(rows: Any) -> bool:
    from tomlkit.items import AoT

    return isinstance(rows, AoT)
