"""The shared library: where it is, what its calls return, and how one is made."""

from __future__ import annotations

import ctypes
import os
from ctypes import POINTER, c_char_p, c_double, c_size_t, c_void_p
from pathlib import Path
from typing import Any, Dict, List, Optional, Sequence, Tuple, Type, TypeVar

from ._structure import Structure, byref

ABI = 1
_TEXTS = ("code", "message", "hint", "place")


def _load() -> ctypes.CDLL:
    """The library that lies beside this module; from a source tree, the one that LASHWORK_LIBRARY names."""
    beside = Path(__file__).with_name("liblashwork.so")
    name = str(beside) if beside.exists() else os.environ.get("LASHWORK_LIBRARY")
    if not name:
        raise ImportError(f"no {beside}: install the wheel, or from a source tree set LASHWORK_LIBRARY to liblashwork.so")
    library = ctypes.CDLL(name)
    if library.lw_abi_version() != ABI:
        raise ImportError(f"{name} has binary interface {library.lw_abi_version()}, this package needs {ABI}")
    for text in _TEXTS:
        getattr(library, "lw_error_" + text).restype = c_char_p
        getattr(library, "lw_error_" + text).argtypes = [c_void_p]
    library.lw_version.restype = c_char_p
    library.lw_struct_size.restype = c_size_t
    library.lw_error_row.argtypes = [c_void_p, POINTER(c_size_t)]
    library.lw_error_row.restype = ctypes.c_bool
    library.lw_error_range.argtypes = [c_void_p, POINTER(c_double)]
    library.lw_error_range.restype = ctypes.c_bool
    library.lw_assumed_leaf_tolerance_nm.restype = ctypes.c_int64
    library.lw_assumed_hand_nm.restype = ctypes.c_int64
    for free in ("error", "text", "engine", "plan"):
        getattr(library, f"lw_{free}_free").argtypes = [c_void_p]
        getattr(library, f"lw_{free}_free").restype = None
    return library


library = _load()
version: str = library.lw_version().decode()

SHORT_BUFFER, ROWS_REFUSED = 6, 9


class LashworkError(ValueError):
    """A value that the kernel refuses, or a mistake in a call.

    `code` is text that never changes its meaning, `place` where it was (of a document: a JSON pointer), `hint` what
    to do, `row` the row of a column or None, `range` the number that was refused with the least and the greatest
    accepted, or None, `status` the number of the C interface. Of a document, `problems` are all that is wrong with it,
    each with its own place, code, message and hint.
    """

    def __init__(
            self, status: int, texts: Dict[str, str], row: Optional[int] = None,
            limits: Optional[Tuple[float, ...]] = None) -> None:
        super().__init__(texts["message"] + (f" ({texts['hint']})" if texts["hint"] else ""))
        self.status, self.row, self.range = status, row, limits
        self.code, self.message, self.hint, self.place = (texts[key] for key in _TEXTS)
        self.problems: List[Dict[str, str]] = [texts]

    def __reduce__(self) -> Tuple[Any, ...]:
        # Workers of a cluster send it home.
        return (LashworkError, (self.status, {key: getattr(self, key) for key in _TEXTS}, self.row), self.__dict__)


# Where users find it, and where it is looked for when it comes from another process.
LashworkError.__module__ = "lashwork"


def call(name: str, *arguments: Any, but: Sequence[int] = ()) -> int:
    """Calls a function; raises unless it returns 0 or a status in `but`."""
    error = c_void_p()
    status: int = getattr(library, name)(*arguments, byref(error))
    if status == 0:
        return status
    try:
        if status not in but:
            texts = {key: getattr(library, "lw_error_" + key)(error).decode() for key in _TEXTS}
            row = c_size_t()
            has_row = library.lw_error_row(error, byref(row))
            limits = (c_double * 3)()
            has_range = library.lw_error_range(error, limits)
            raise LashworkError(status, texts, row.value if has_row else None, tuple(limits) if has_range else None)
        return status
    finally:
        library.lw_error_free(error)


Made = TypeVar("Made", bound=Structure)


def made(kind: Type[Made], name: str, *arguments: Any) -> Made:
    """A structure that a call fills."""
    structure = kind.empty()
    call(name, *arguments, byref(structure))
    return structure


def filled(kind: Any, name: str, *arguments: Any) -> Any:
    """A number or a pointer that a call fills."""
    value = kind()
    call(name, *arguments, byref(value))
    return value.value


def double(name: str, *arguments: Any) -> float:
    """One number that a call gives."""
    return float(filled(c_double, name, *arguments))


def doubles(name: str, count: int, *arguments: Any) -> Tuple[float, ...]:
    """Several numbers that a call gives."""
    found = [c_double() for _ in range(count)]
    call(name, *arguments, *map(byref, found))
    return tuple(value.value for value in found)


def pair(name: str, *arguments: Any) -> Tuple[float, float]:
    """Two numbers that a call gives, mostly a value and its standard uncertainty."""
    first, second = doubles(name, 2, *arguments)
    return first, second


class _Text(ctypes.Structure):
    _fields_ = [("data", c_void_p), ("len", c_size_t)]


def shown(name: str, *arguments: Any) -> str:
    """Text that a call writes into a buffer."""
    needed = c_size_t()
    call(name, *arguments, None, c_size_t(0), byref(needed), but=(SHORT_BUFFER,))
    buffer = ctypes.create_string_buffer(needed.value)
    call(name, *arguments, buffer, needed, byref(needed))
    return buffer.value.decode()


def text_of(name: str, *arguments: Any) -> bytes:
    """Text that the library owns, copied and given back."""
    text = _Text()
    call(name, *arguments, byref(text))
    try:
        return ctypes.string_at(text.data, text.len)
    finally:
        library.lw_text_free(byref(text))
