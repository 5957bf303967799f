"""Fleets: record batches of Arrow in, record batches out, for every engine that speaks Arrow.

    lashwork.arrow.judge(batches, lashwork.limits("0.15 mm", "0.20 mm"), lashwork.GUARDED_TIGHT)

`batches` is what gives record batches: a list, a reader, a table, a frame of Polars, a relation of DuckDB. The answer is
a reader; it works batch by batch as it is read. Columns are taken and filled without a copy. A null counts as not
known: that row is refused, as one with NaN is, and the others are done.
"""

from __future__ import annotations

import ctypes
import pickle
from itertools import chain
from typing import Any, Callable, Dict, Iterable, Iterator, List, Optional, Tuple, Union

import pyarrow as pa
import pyarrow.compute as pc

from ._columns import address, by
from ._library import ROWS_REFUSED, call, version
from ._shipped import Shipped
from ._structure import Structure, byref
from .drift import LOOKS, _DriftColumns, _PastReadings, size
from .judging import VERDICTS, Limits, Warmth, _JudgementColumns, _ReadingColumns, rule_of, warmth_of_all

__all__ = ("DRIFT", "JUDGED", "Shipped", "drift", "judge", "shipped")

ColumnOrNumber = Union[str, float, None]
"""The name of a column, one number for all rows, or None where neither is stated."""
_DOUBLES = {
    name: pa.float64()
    for name in ("below_least", "below_most", "in_band_least", "in_band_most", "above_least", "above_most")}
_AT_REFERENCE = {
    "low_mm": "low_at_reference_mm", "high_mm": "high_at_reference_mm", "uncertainty_mm": "uncertainty_at_reference_mm"}
JUDGED = pa.schema({
    "verdict": pa.string(), "provable": pa.bool_(), **_DOUBLES, "status": pa.int32(),
    **dict.fromkeys(_AT_REFERENCE.values(), pa.float64()), "at_reference": pa.bool_()})
"""What `judge` adds to each row: `verdict` of VERDICTS, probabilities from 0 to 1, `status` 0 or why it was refused, and
the reading at the temperature of its limits, if `at_reference` says that it is known."""
DRIFT = pa.schema({
    "rate": pa.float64(), "rate_uncertainty": pa.float64(), "look": pa.string(), "look_at": pa.float64(), "status": pa.int32()})
"""What `drift` says of each valve: millimetres a unit of time, `look` of LOOKS, when, `status` as in JUDGED."""


def _stream(batches: Any) -> Tuple[Optional[Any], Iterator[Any]]:
    """The schema, if it is known, and the batches one by one."""
    if isinstance(batches, pa.RecordBatch):
        batches = [batches]
    elif isinstance(batches, pa.Table):
        # Not by its stream, by which pyarrow 21 and before crash where text is held as views.
        batches = batches.to_reader()
    elif hasattr(batches, "__arrow_c_stream__") and not isinstance(batches, pa.RecordBatchReader):
        batches = pa.RecordBatchReader.from_stream(batches)
    if isinstance(batches, pa.RecordBatchReader):
        return batches.schema, iter(batches)
    rest = iter(batches)
    first = next(rest, None)
    return (None, rest) if first is None else (first.schema, chain([first], rest))


def _refuse(schema: Any, wanted: Dict[str, Callable[[Any], bool]], needs: Dict[str, str]) -> None:
    """One refusal that names every column that is missing, twice there or of another type."""
    wrong = []
    for name, fits in wanted.items():
        found = schema.get_all_field_indices(name)
        if len(found) != 1:
            wrong.append(f'column "{name}" is {"there twice" if found else "missing"}')
        elif not fits(schema.field(found[0]).type):
            wrong.append(f'column "{name}" is {schema.field(found[0]).type}, cast it to {needs[name]}')
    if wrong:
        raise TypeError("; ".join(wrong))


def _taken(batch: Any, name: str) -> Any:
    """A column of doubles; what is not known is NaN, which the kernel refuses."""
    array = batch.column(name)
    return pc.fill_null(array, float("nan")) if array.null_count else array


def _at(array: Any) -> int:
    """Where the values of an array begin."""
    buffer = array.buffers()[1]
    return 0 if buffer is None else int(buffer.address) + array.offset * array.type.bit_width // 8


def _room(kind: Any, rows: int) -> Tuple[Structure, Dict[str, Any]]:
    """Room of Arrow for columns that a call fills."""
    buffers = {name: pa.allocate_buffer(rows * ctypes.sizeof(of)) for name, of in kind._columns.items()}
    return kind(rows=rows, **{name: buffer.address for name, buffer in buffers.items()}), buffers


def _answers(schema: Any, buffers: Dict[str, Any], rows: int, words: Dict[str, Tuple[str, ...]]) -> List[Any]:
    """The columns that a call filled; a number that there is none of, as of a refused row, is null."""
    found = []
    for field in schema:
        def held(kind: Any, name: str = field.name) -> Any:
            return pa.Array.from_buffers(kind, rows, [None, buffers[name]])

        if pa.types.is_float64(field.type):
            array = held(field.type)
            nothing = pc.is_nan(array)
            found.append(pc.if_else(nothing, None, array) if pc.any(nothing).as_py() else array)
        elif pa.types.is_int32(field.type):
            found.append(held(field.type))
        else:
            told = words.get(field.name)
            found.append(pc.take(pa.array(told), held(pa.uint8())) if told else held(pa.uint8()).cast(field.type))
    return found


def _together(schema: Optional[Any], added: Any, work: Iterator[Any]) -> Any:
    return pa.RecordBatchReader.from_batches(pa.schema([*(schema or ()), *added]), work)


def judge(
        batches: Any, band: Optional[Limits], rule: Tuple[int, float, float], *, low: str = "low_mm", high: str = "high_mm",
        uncertainty: str = "uncertainty_mm", lower_mm: ColumnOrNumber = None, upper_mm: ColumnOrNumber = None,
        at_celsius: ColumnOrNumber = None, at_uncertainty_kelvin: ColumnOrNumber = None,
        reference_celsius: ColumnOrNumber = None, mm_per_kelvin: ColumnOrNumber = None,
        mm_per_kelvin_uncertainty: ColumnOrNumber = None) -> Any:
    """Judges every row; a reader of the same rows, with the columns of JUDGED behind theirs.

    `low`, `high` and `uncertainty` name the columns of both ends and their standard uncertainty, doubles in
    millimetres; an end that is not there is infinite. Limits and the fields of Warmth are as in `judge_columns`: each is
    the name of a column of doubles, or one number for all rows; where neither is stated, a column of just that name is
    taken if there is one. A null among limits is no such limit, among temperatures one that was not taken, among
    coefficients one that is not known. TypeError names every column that is missing or of another type.
    """
    names = (low, high, uncertainty)
    stated: Dict[str, ColumnOrNumber] = {
        "lower_mm": lower_mm, "upper_mm": upper_mm, "at_celsius": at_celsius,
        "at_uncertainty_kelvin": at_uncertainty_kelvin, "reference_celsius": reference_celsius,
        "mm_per_kelvin": mm_per_kelvin, "mm_per_kelvin_uncertainty": mm_per_kelvin_uncertainty}
    schema, rest = _stream(batches)
    there = () if schema is None else schema.names
    further: Dict[str, ColumnOrNumber] = {
        name: name if one is None and name in there else one for name, one in stated.items()}
    if schema is not None:
        wanted = [*names, *(name for name in further.values() if isinstance(name, str))]
        _refuse(schema, dict.fromkeys(wanted, pa.types.is_float64), dict.fromkeys(wanted, "double"))
        _not_there(schema, JUDGED.names)
    warmth = warmth_of_all(**{name: one for name, one in further.items() if name in Warmth._given and not isinstance(one, str)})

    def work() -> Iterator[Any]:
        for batch in rest:
            rows = batch.num_rows
            columns = [_taken(batch, name) for name in names]
            own = {field: _own(batch, name, field) for field, name in further.items()}
            made, buffers = _room(_JudgementColumns, rows)
            if rows:
                addresses: Dict[str, Any] = {field: None if column is None else _at(column) for field, column in own.items()}
                addresses["warmth"] = address(warmth)
                readings = _ReadingColumns(rows, *map(_at, columns), **addresses)
                by_what = (byref(readings), by(band), byref(rule_of(rule)))
                call("lw_judge_columns", *by_what, byref(made), but=(ROWS_REFUSED,))
            named = {_AT_REFERENCE.get(name, name): buffer for name, buffer in buffers.items()}
            found = _answers(JUDGED, named, rows, {"verdict": VERDICTS})
            yield pa.RecordBatch.from_arrays([*batch.columns, *found], schema=pa.schema([*batch.schema, *JUDGED]))

    return _together(schema, JUDGED, work())


def _own(batch: Any, stated: ColumnOrNumber, field: str) -> Optional[Any]:
    """A column of the batch, or of one number where C has no other place for it."""
    if isinstance(stated, str):
        return _taken(batch, stated)
    if stated is None or field in Warmth._given:
        return None
    return pa.repeat(pa.scalar(stated, pa.float64()), batch.num_rows)


def _not_there(schema: Any, names: Iterable[str]) -> None:
    taken = [name for name in names if name in schema.names]
    if taken:
        raise TypeError("; ".join(f'column "{name}" is there already, give it another name' for name in taken))


def drift(
        batches: Any, band: Limits, rule: Tuple[int, float, float], counted_by: int, *, valve: str = "valve", at: str = "at",
        low: str = "low_mm", high: str = "high_mm", uncertainty: str = "uncertainty_mm", state: Optional[str] = None,
        bedding_in: float = 0.0, scatter_mm: Optional[float] = None) -> Any:
    """How fast the lash of each valve changes, and when to look next; a reader with one row a valve.

    One past reading a row, ordered by `valve`, which names it (any type that has an order), then by `at`, in the unit of
    `counted_by` (HOURS, DISTANCE, DAYS). Ends and uncertainty as in `judge`; `state` names a column of FOUND, LEFT_SET,
    LEFT_RENEWED, whole numbers. A valve with a row that is no reading is refused, and the others are done. A valve may
    go on in the next batch, but not come again after another: that is a ValueError, as is a null among names or states.
    """
    of_row = {"at": at, "low_mm": low, "high_mm": high, "uncertainty_mm": uncertainty}
    names = tuple(of_row.values())
    fits: Dict[str, Callable[[Any], bool]] = {valve: _has_order, **dict.fromkeys(names, pa.types.is_float64)}
    needs = {valve: "text or whole numbers", **dict.fromkeys(names, "double")}
    if state is not None:
        fits[state], needs[state] = pa.types.is_integer, "whole numbers"
    schema, rest = _stream(batches)
    if schema is not None:
        _refuse(schema, fits, needs)
        _not_there(pa.schema([schema.field(valve)]), DRIFT.names)
    stated: Dict[str, Any] = {
        "bedding_in": bedding_in, "scatter_mm": scatter_mm or 0.0, "counted_by": counted_by, "scatter_known": scatter_mm is not None}
    by_what = (byref(band), byref(rule_of(rule)))

    def work() -> Iterator[Any]:
        for batch, keys, numbers in _whole_valves((_only(batch, fits, valve) for batch in rest), valve):
            held = {name: _taken(batch, of) for name, of in of_row.items()}
            if state is not None:
                held["state"] = _without_nulls(batch.column(state), state).cast(pa.uint8())
            columns: Dict[str, Any] = {name: _at(array) for name, array in held.items()}
            readings = _PastReadings(rows=batch.num_rows, valve=_at(numbers), **{"state": None, **columns}, **stated)
            made, buffers = _room(_DriftColumns, len(keys))
            call("lw_drift_of_columns", byref(readings), size(len(keys)), *by_what, byref(made), but=(ROWS_REFUSED,))
            found = _answers(DRIFT, buffers, len(keys), {"look": LOOKS})
            yield pa.RecordBatch.from_arrays([keys, *found], names=[valve, *DRIFT.names])

    named = [] if schema is None else [pa.field(valve, _named_plainly(schema.field(valve).type))]
    return _together(named, DRIFT, work())


def _has_order(kind: Any) -> bool:
    return bool(pa.types.is_integer(kind) or pa.types.is_string(kind) or pa.types.is_large_string(kind) or _is_view(kind))


def _is_view(kind: Any) -> bool:
    return str(kind) == "string_view"


def _named_plainly(kind: Any) -> Any:
    """The type of names in the answer: Arrow compares no views."""
    return pa.large_string() if _is_view(kind) else kind


def _only(batch: Any, names: Iterable[str], valve: str) -> Any:
    """The columns that are looked at."""
    columns = {name: batch.column(name) for name in names}
    columns[valve] = columns[valve].cast(_named_plainly(columns[valve].type))
    return pa.RecordBatch.from_arrays(list(columns.values()), names=list(columns))


def _without_nulls(array: Any, name: str) -> Any:
    if array.null_count:
        raise ValueError(f'column "{name}" has {array.null_count} nulls')
    return array


def _whole_valves(batches: Iterator[Any], valve: str) -> Iterator[Tuple[Any, Any, Any]]:
    """Batches that end where a valve ends, with the names in them and, for each row, which of them it is."""
    held, last = None, None
    for batch in chain(batches, [None]):
        if batch is None:
            ready, held = held, None
        elif not batch.num_rows:
            continue
        else:
            joined = batch if held is None else _joined(held, batch)
            names = _without_nulls(joined.column(valve), valve)
            begins = pc.indices_nonzero(_firsts(names))[-1].as_py()
            ready, held = joined.slice(0, begins), joined.slice(begins)
        if ready is None or not ready.num_rows:
            continue
        firsts = _firsts(ready.column(valve))
        keys = ready.column(valve).filter(firsts)
        order = keys if last is None else pa.concat_arrays([last, keys])
        if len(order) > 1 and not pc.all(pc.less(order[:-1], order[1:])).as_py():
            raise ValueError(f'rows of a valve must stand together: order them by "{valve}"')
        last = keys[-1:]
        counted = pc.cumulative_sum(firsts.cast(pa.uint32()))
        yield ready, keys, pc.subtract(counted, pa.scalar(1, pa.uint32()))


def _firsts(names: Any) -> Any:
    """Where a name stands that is not the one before it."""
    return pa.concat_arrays([pa.array([True]), pc.not_equal(names[1:], names[:-1])])


def _joined(first: Any, second: Any) -> Any:
    columns = [pa.concat_arrays([a, b]) for a, b in zip(first.columns, second.columns)]
    return pa.RecordBatch.from_arrays(columns, schema=first.schema)


def shipped(function: Callable[..., Any], *arguments: Any, **named: Any) -> Shipped:
    """`judge` or `drift` with its arguments, to be called with batches on any worker that has this version.

    `frame.mapInArrow(shipped(judge, band, rule), schema)`
    """
    return Shipped(function.__name__, version, pickle.dumps((arguments, named)))
