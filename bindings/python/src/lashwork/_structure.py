"""Structures of the C interface, from classes whose annotations say what each field is in C and in Python."""

from __future__ import annotations

import ctypes
import re
import sys
from ctypes import c_double, c_int64, c_size_t, c_uint8, c_uint32, c_void_p
from typing import TYPE_CHECKING, Any, ClassVar, Dict, List, Optional, Type, TypeVar, get_args, get_type_hints

if sys.version_info >= (3, 11):
    from typing import Annotated, Literal, dataclass_transform
elif TYPE_CHECKING:
    from typing_extensions import Annotated, Literal, dataclass_transform
else:
    from typing import Annotated, Literal

    def dataclass_transform(**_):
        return lambda decorator: decorator


if TYPE_CHECKING:

    class _Base:
        """The types of ctypes would let a slip in the name of a field pass."""

        struct_size: int
        _fields_: ClassVar[Any]

        def __init__(self, *values: Any) -> None: ...

    def byref(structure: Any) -> Any: ...
    def addressof(structure: Any) -> int: ...
    def sizeof(structure: Any) -> int: ...

else:
    from ctypes import Structure as _Base, addressof, byref, sizeof


F64 = Annotated[float, c_double]
I64 = Annotated[int, c_int64]
U32 = Annotated[int, c_uint32]
Size = Annotated[int, c_size_t]
Address = Annotated[Optional[int], c_void_p]
# Columns: an address, and what lies there.
Doubles = Annotated[Optional[int], c_void_p, c_double]
Words = Annotated[Optional[int], c_void_p, c_uint32]
Bytes = Annotated[Optional[int], c_void_p, c_uint8]

Whole = (c_int64, c_size_t, c_uint8, c_uint32)
_Kind = TypeVar("_Kind", bound="Structure")
_all: List[Type[Structure]] = []


def whole(kind: Any, value: Any, name: str = "a whole number") -> Any:
    """A whole number as C takes it; refused where C would cut it down."""
    if kind(value).value != value:
        raise OverflowError(f"{name}: {value!r} does not fit")
    return kind(value)


def u32(value: int) -> c_uint32:
    """A choice or a count."""
    found: c_uint32 = whole(c_uint32, value)
    return found


def i64(value: int) -> c_int64:
    """Whole nanometres."""
    found: c_int64 = whole(c_int64, value)
    return found


def unused(*, init: Literal[False] = False) -> Any:
    """A field of C that nobody sets."""
    return 0


class Structure(_Base):
    """What all structures have in common; fields are given in their order or by name."""

    _given: ClassVar[Dict[str, Any]]
    _default: ClassVar[Dict[str, Any]]
    _columns: ClassVar[Dict[str, Any]]
    _kept: Any  # The columns it points to.

    def __init__(self, *values: Any, **named: Any) -> None:
        own = type(self)
        twice = [name for name, _ in zip(own._given, values) if name in named]
        if len(values) > len(own._given) or twice or not named.keys() <= own._given.keys():
            raise TypeError(f"{own.__name__} has the fields {', '.join(own._given)}, each once")
        stated = {**own._default, **dict(zip(own._given, values)), **named}
        missing = [name for name in own._given if name not in stated]
        if missing:
            raise TypeError(f"{own.__name__} needs {', '.join(missing)}")
        super().__init__(sizeof(own))
        for name, kind in own._given.items():
            value = stated[name]
            setattr(self, name, whole(kind, value, f"{own.__name__}.{name}") if kind in Whole else value)

    @classmethod
    def empty(cls: Type[_Kind]) -> _Kind:
        """One that a call will fill."""
        structure = cls.__new__(cls)
        structure.struct_size = sizeof(cls)
        return structure

    def __repr__(self) -> str:
        fields = ", ".join(f"{name}={getattr(self, name)!r}" for name in type(self)._given)
        return f"{type(self).__name__}({fields})"


@dataclass_transform(field_specifiers=(unused,), eq_default=False)
def structure(kind: Type[_Kind]) -> Type[_Kind]:
    """Gives a class of annotated fields the layout of C, the size in front."""
    hints = get_type_hints(kind, include_extras=True)
    in_c = {name: get_args(hints[name])[1] for name in kind.__annotations__}
    kind._default = {name: vars(kind)[name] for name in in_c if name in vars(kind)}
    kind._given = {name: of for name, of in in_c.items() if name != "reserved"}
    kind._default.pop("reserved", None)
    kind._columns = {name: get_args(hints[name])[2] for name in in_c if len(get_args(hints[name])) == 3}
    kind._fields_ = [("struct_size", c_size_t), *in_c.items()]
    _all.append(kind)
    return kind


def check_layouts(library: ctypes.CDLL) -> None:
    """Refuses a library whose structures are others than those of this package."""
    for kind in _all:
        in_c = "lw" + re.sub("([A-Z])", r"_\1", kind.__name__.lstrip("_")).lower()
        if library.lw_struct_size(in_c.encode(), c_size_t(len(in_c))) != sizeof(kind):
            raise ImportError(f"the library knows another {in_c} than this package")
