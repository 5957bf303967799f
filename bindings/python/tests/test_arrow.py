"""Record batches in, record batches out."""

import pickle
import sys
import unittest
from unittest import mock

import lashwork as lw
import numpy
import pyarrow as pa
import pyarrow.compute
from lashwork import arrow

BAND, RULE, VERSION = lw.limits("0.15 mm", "0.20 mm"), lw.GUARDED_TIGHT, lw.version


def readings(rows=1000):
    draw = numpy.random.default_rng(1)
    low = draw.uniform(0.05, 0.3, rows)
    return pa.record_batch({
        "valve": pa.array(range(rows)), "low_mm": low, "high_mm": low + 0.02, "uncertainty_mm": draw.uniform(0.002, 0.01, rows)})


def past():
    """Invented: twenty valves, five services each, of unlike lengths."""
    rows = [(f"valve {n:02}", 1000.0 * k, 0.2 - n * k / 2000) for n in range(20) for k in range(5 - n % 2)]
    names, at, low = zip(*rows)
    low = numpy.array(low)
    return pa.table({
        "valve": names, "at": at, "low_mm": low, "high_mm": low + 0.02, "uncertainty_mm": numpy.full(len(low), 0.005),
        "state": pa.array([lw.FOUND] * len(low), pa.int32())})


class Judge(unittest.TestCase):
    def test_answers_are_those_of_columns_to_the_bit(self):
        batch = readings()
        found = arrow.judge([batch.slice(0, 300), batch.slice(300)], BAND, RULE).read_all()
        columns = lw.judge_columns(*(batch.column(n).to_numpy() for n in ("low_mm", "high_mm", "uncertainty_mm")), BAND, RULE)
        self.assertEqual(found.schema.names, [*batch.schema.names, *arrow.JUDGED.names])
        for name in ("below_least", "in_band_most", "above_most"):
            self.assertEqual(found[name].to_numpy().tobytes(), columns[name].tobytes())
        self.assertEqual(found["verdict"].to_pylist(), [lw.VERDICTS[v] for v in columns["verdict"]])
        self.assertEqual(set(found["status"].to_pylist()), {0})

    def test_columns_are_not_copied_on_their_way_in_and_out(self):
        batch = readings().slice(7)
        seen, call = [], arrow.call

        def spy(name, given, *rest, but):
            seen.append(given._obj.low_mm)
            return call(name, given, *rest, but=but)

        with mock.patch.object(arrow, "call", spy):
            found = next(iter(arrow.judge([batch], BAND, RULE)))
        held = batch.column("low_mm")
        self.assertEqual(seen, [held.buffers()[1].address + 7 * 8])
        self.assertEqual(found.column("low_mm").buffers()[1].address, held.buffers()[1].address)

    def test_an_answer_lies_where_the_library_wrote_it(self):
        rooms = []
        made = arrow._room

        def room(kind, rows):
            rooms.append(made(kind, rows))
            return rooms[-1]

        with mock.patch.object(arrow, "_room", room):
            found = next(iter(arrow.judge([readings()], BAND, RULE)))
        for name in ("below_least", "status"):
            self.assertEqual(found.column(name).buffers()[1].address, rooms[0][1][name].address)

    def test_a_row_with_a_null_or_nan_is_refused_and_the_others_are_done(self):
        table = pa.table({
            "low_mm": [0.16, None, float("nan"), 0.3], "high_mm": [0.18, 0.2, 0.2, 0.2], "uncertainty_mm": [0.005] * 4})
        found = arrow.judge(table, BAND, RULE).read_all()
        self.assertEqual(found["verdict"].to_pylist(), ["in band", "refused", "refused", "refused"])
        self.assertEqual([status == 0 for status in found["status"].to_pylist()], [True, False, False, False])
        self.assertEqual(found["in_band_least"].null_count, 3)
        self.assertEqual(found["low_mm"].null_count, 1)

    def test_wrong_columns_are_refused_at_once_and_all_by_name(self):
        table = pa.table({"low_mm": ["0.1"], "high_mm": [1]})
        with self.assertRaises(TypeError) as raised:
            arrow.judge(table, BAND, RULE)
        for part in ('"low_mm" is string', '"high_mm" is int64', '"uncertainty_mm" is missing', "cast it to double"):
            self.assertIn(part, str(raised.exception))
        with self.assertRaisesRegex(TypeError, '"verdict" is there already'):
            arrow.judge(readings().append_column("verdict", pa.array([""] * 1000)), BAND, RULE)

    def test_limits_and_warmth_come_from_columns_of_those_names_or_are_one_number(self):
        batch = readings()
        rows = batch.num_rows
        draw = numpy.random.default_rng(2)
        own = {
            "lower_mm": draw.uniform(0.1, 0.15, rows), "upper_mm": draw.uniform(0.2, 0.25, rows),
            "at_celsius": draw.uniform(10, 90, rows), "mm_per_kelvin": draw.uniform(-0.001, 0.001, rows)}
        of_all = {"at_uncertainty_kelvin": 2.0, "reference_celsius": 20.0, "mm_per_kelvin_uncertainty": 0.0001}
        read = [batch.column(n).to_numpy() for n in ("low_mm", "high_mm", "uncertainty_mm")]
        columns = lw.judge_columns(*read, None, RULE, **own, **of_all)
        table = pa.Table.from_batches([batch])
        for name, numbers in own.items():
            table = table.append_column(name, pa.array(numbers))
        renamed = table.rename_columns({**{name: name for name in table.schema.names}, "at_celsius": "metal"})
        for given, further in ((table, {}), (renamed, {"at_celsius": "metal"})):
            found = arrow.judge(given, None, RULE, **of_all, **further).read_all()
            self.assertEqual(found["verdict"].to_pylist(), [lw.VERDICTS[v] for v in columns["verdict"]])
            for name in ("below_least", "in_band_most"):
                self.assertEqual(found[name].to_numpy().tobytes(), columns[name].tobytes())
            for name in ("low", "high", "uncertainty"):
                self.assertEqual(found[f"{name}_at_reference_mm"].to_numpy().tobytes(), columns[f"{name}_mm"].tobytes())
            self.assertEqual(found["at_reference"].to_pylist(), [flag == 1 for flag in columns["at_reference"]])
        # One number stands before a column of the name.
        found = arrow.judge(table, None, RULE, **of_all, lower_mm=0.05, mm_per_kelvin=0.0).read_all()
        columns = lw.judge_columns(*read, None, RULE, **{**own, **of_all, "lower_mm": 0.05, "mm_per_kelvin": 0.0})
        self.assertEqual(found["below_least"].to_numpy().tobytes(), columns["below_least"].tobytes())
        with self.assertRaisesRegex(TypeError, '"warm" is missing'):
            arrow.judge(table, None, RULE, at_celsius="warm")

    def test_nothing_gives_nothing(self):
        self.assertEqual(list(arrow.judge([], BAND, RULE)), [])
        self.assertEqual(arrow.judge([readings().slice(0, 0)], BAND, RULE).read_all().num_rows, 0)


class Drift(unittest.TestCase):
    def test_batches_may_end_within_a_valve(self):
        table = past()
        whole = arrow.drift(table, BAND, RULE, lw.DISTANCE, state="state").read_all()
        self.assertEqual(whole["valve"].to_pylist(), [f"valve {n:02}" for n in range(20)])
        for rows in (1, 2, 3, 7, 50):
            batches = table.combine_chunks().to_batches(max_chunksize=rows)
            self.assertEqual(arrow.drift(batches, BAND, RULE, lw.DISTANCE).read_all(), whole)

    def test_names_of_any_kind_serve(self):
        table = past()
        whole = arrow.drift(table, BAND, RULE, lw.DISTANCE).read_all()
        for kind in (pa.large_string(), pa.string_view()):
            other = table.set_column(0, "valve", table["valve"].cast(kind)).append_column("note", table["valve"])
            found = arrow.drift(other, BAND, RULE, lw.DISTANCE).read_all()
            self.assertEqual(found["valve"].to_pylist(), whole["valve"].to_pylist())
            self.assertEqual(found.drop(["valve"]), whole.drop(["valve"]))

    def test_a_valve_by_itself_has_the_same_answer(self):
        table = past()
        found = arrow.drift(table, BAND, RULE, lw.DISTANCE).read_all().to_pylist()
        for row in found:
            own = table.filter(pa.compute.equal(table["valve"], row["valve"]))
            record = lw.PastReadings(
                *(own[n].to_numpy() for n in ("at", "low_mm", "high_mm", "uncertainty_mm")), counted_by=lw.DISTANCE)
            alone = lw.drift_of_columns(record, 1, BAND, RULE)
            self.assertEqual(row["rate"], alone["rate"][0])
            self.assertEqual(row["look"], lw.LOOKS[alone["look"][0]])

    def test_a_valve_with_a_null_is_refused_and_the_others_are_done(self):
        table = past()
        low = table["low_mm"].to_pylist()
        low[1] = None
        table = table.set_column(2, "low_mm", pa.array(low))
        found = arrow.drift(table, BAND, RULE, lw.DISTANCE).read_all()
        self.assertEqual(found["look"].to_pylist().count("refused"), 1)
        self.assertEqual(found["look"][0].as_py(), "refused")
        self.assertIsNone(found["rate"][0].as_py())

    def test_rows_out_of_order_and_names_that_are_null_are_refused(self):
        table = past()
        for wrong in (pa.concat_tables([table, table]), table.take(list(reversed(range(table.num_rows))))):
            for rows in (1, 1000):
                with self.assertRaisesRegex(ValueError, "order them by"):
                    arrow.drift(wrong.combine_chunks().to_batches(max_chunksize=rows), BAND, RULE, lw.DISTANCE).read_all()
        nameless = table.set_column(0, "valve", pa.array([None] * table.num_rows, pa.string()))
        with self.assertRaisesRegex(ValueError, '"valve" has 90 nulls'):
            arrow.drift(nameless, BAND, RULE, lw.DISTANCE).read_all()
        with self.assertRaisesRegex(TypeError, '"at" is int64'):
            arrow.drift(table.set_column(1, "at", table["at"].cast(pa.int64())), BAND, RULE, lw.DISTANCE)


class Shipped(unittest.TestCase):
    def test_work_travels_with_all_it_needs(self):
        work = pickle.loads(pickle.dumps(arrow.shipped(arrow.judge, BAND, RULE)))
        batch = readings()
        self.assertEqual(work([batch]).read_all(), arrow.judge([batch], BAND, RULE).read_all())

    def test_a_worker_with_another_version_is_refused_by_name(self):
        sent = pickle.dumps(arrow.shipped(arrow.judge, BAND, RULE))
        with mock.patch.object(lw, "version", "99.0.0"), mock.patch("platform.node", lambda: "worker-7"):
            with self.assertRaisesRegex(ImportError, "worker-7 has lashwork 99.0.0, this work is for lashwork " + VERSION):
                pickle.loads(sent)([readings()])

    def test_a_worker_without_the_library_says_what_to_do(self):
        work = arrow.shipped(arrow.judge, BAND, RULE)
        with mock.patch.dict(sys.modules, {"lashwork": None}), mock.patch("platform.node", lambda: "worker-7"):
            with self.assertRaisesRegex(ImportError, "worker-7 cannot load lashwork: .*; install lashwork " + VERSION):
                work([readings()])

    def test_what_clusters_pickle_with_sends_the_class_as_a_whole(self):
        asked = mock.Mock()
        with mock.patch.dict(sys.modules, {"pyspark.cloudpickle": asked}):
            pickle.dumps(arrow.shipped(arrow.judge, BAND, RULE))
        asked.register_pickle_by_value.assert_called_once_with(sys.modules["lashwork._shipped"])


if __name__ == "__main__":
    unittest.main()
