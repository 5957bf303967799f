"""Columns: many readings in one call, from anything that holds numbers and into arrays that numpy reads."""

from __future__ import annotations

import ctypes
from numbers import Real
from typing import Any, Collection, Dict, Optional, Sequence, Tuple, Type, TypeVar, Union

from ._library import ROWS_REFUSED, call
from ._structure import Structure, Whole, addressof, byref, whole

try:
    import numpy
except ImportError:  # Columns are then arrays of ctypes.
    numpy = None  # type: ignore[assignment]

Numbers = Collection[float]
"""A column: a list, an array of numpy, a column of Arrow."""
Stated = Union[Numbers, float, None]
"""A column, one number that holds for all rows, or None where nothing is stated."""
Columns = Dict[str, Any]
"""Columns by their names: arrays of numpy, or of ctypes where there is no numpy."""

_Kind = TypeVar("_Kind", bound=Structure)


def column(values: Any, kind: Any, name: str) -> Tuple[Any, int]:
    """The values as an array that C can read, and its address; what lies there rightly is not copied."""
    if numpy is None:
        array = (kind * len(values))(*(whole(kind, value, name) if kind in Whole else value for value in values))
        return array, ctypes.addressof(array)
    found = numpy.asarray(values if hasattr(values, "__array__") else list(values))
    if found.ndim != 1:
        raise TypeError(f"{name}: a column has one dimension, this has {found.ndim}")
    if len(found) and found.dtype.kind not in ("biu" if kind in Whole else "biuf"):
        raise TypeError(f"{name}: {found.dtype} where {'whole numbers' if kind in Whole else 'numbers'} are needed")
    held = numpy.ascontiguousarray(found.astype(kind, copy=False))
    if kind in Whole and not (held == found).all():
        raise OverflowError(f"{name}: not every value fits")
    return held, held.ctypes.data


def given(kind: Type[_Kind], count: str = "rows", **stated: Any) -> _Kind:
    """A structure of columns of one length; a column that is None is not there. It keeps them alive."""
    held = {name: column(stated[name], of, name) for name, of in kind._columns.items() if stated.get(name) is not None}
    lengths = {name: len(array) for name, (array, _) in held.items()}
    if len(set(lengths.values())) > 1:
        raise ValueError("columns differ in length: " + ", ".join(f"{name} {length}" for name, length in lengths.items()))
    addresses = {name: held[name][1] if name in held else None for name in kind._columns}
    made = kind(**{count: next(iter(lengths.values())), **stated, **addresses})
    made._kept = held
    return made


def of_all(stated: Stated) -> bool:
    """Whether it is one number for all rows."""
    return isinstance(stated, Real)


def each(stated: Stated, rows: int) -> Optional[Numbers]:
    """A column of its own for one number."""
    if not of_all(stated):
        return stated  # type: ignore[return-value]
    number: Any = stated
    return [number] * rows if numpy is None else numpy.full(rows, number, dtype=float)


def _empty(rows: int, kind: Any) -> Tuple[Any, int]:
    if numpy is not None:
        array = numpy.empty(rows, dtype=kind)
        return array, array.ctypes.data
    plain = (kind * rows)()
    return plain, ctypes.addressof(plain)


def room(kind: Type[_Kind], rows: int, but: Collection[str] = ()) -> Tuple[_Kind, Columns]:
    """A structure of columns that a call fills, and the arrays themselves; `but` names those it does not fill."""
    arrays = {name: _empty(rows, of) for name, of in kind._columns.items() if name not in but}
    made = kind(rows=rows, **{name: address for name, (_, address) in arrays.items()})
    return made, {name: array for name, (array, _) in arrays.items()}


def answer(
        kind: Type[Structure], rows: int, name: str, *arguments: Any, after: Sequence[Any] = (),
        but: Collection[str] = ()) -> Columns:
    """Columns that a call fills; a refused row has a status, and NaN for numbers."""
    made, found = room(kind, rows, but)
    call(name, *arguments, byref(made), *after, but=(ROWS_REFUSED,))
    return found


def by(structure: Optional[Structure]) -> Any:
    """A structure by its address, or NULL."""
    return None if structure is None else byref(structure)


def address(structure: Optional[Structure]) -> Optional[int]:
    """Where a structure lies, for a field of another; the caller keeps it."""
    return None if structure is None else addressof(structure)
