"""Columns of numpy: taken as they lie, refused where they would be cut down."""

import unittest
from ctypes import c_double, c_uint32
from unittest import mock

import lashwork as lw
import numpy
from lashwork._columns import column

BAND = lw.limits("0.15 mm", "0.20 mm")


class Numpy(unittest.TestCase):
    def test_an_array_of_doubles_is_not_copied(self):
        values = numpy.arange(100.0)
        self.assertEqual(column(values, c_double, "x")[1], values.ctypes.data)
        self.assertEqual(column(values[10:], c_double, "x")[1], values.ctypes.data + 80)
        marks = numpy.arange(100, dtype=numpy.uint32)
        self.assertEqual(column(marks, c_uint32, "x")[1], marks.ctypes.data)

    def test_what_lies_otherwise_gives_the_same_answers(self):
        low, high, u = numpy.linspace(0.1, 0.2, 50), numpy.linspace(0.12, 0.25, 50), numpy.full(50, 0.01)
        answers = lw.judge_columns(low, high, u, BAND, lw.GUARDED_TIGHT)
        spread = numpy.empty((50, 2))
        spread[:, 0] = low
        for other in (list(low), spread[:, 0], low.astype(">f8"), tuple(low)):
            again = lw.judge_columns(other, high, u, BAND, lw.GUARDED_TIGHT)
            for name, array in answers.items():
                self.assertEqual(array.tobytes(), again[name].tobytes(), name)
                self.assertIsInstance(array, numpy.ndarray)

    def test_one_number_for_all_rows_is_that_number_in_each(self):
        low, u = numpy.linspace(0.1, 0.2, 50), numpy.full(50, 0.01)
        of_all = {
            "lower_mm": 0.14, "upper_mm": numpy.float64(0.21), "at_celsius": 60, "at_uncertainty_kelvin": numpy.float32(2.0),
            "reference_celsius": 20.0, "mm_per_kelvin": 0.0005, "mm_per_kelvin_uncertainty": 0.0001}
        answers = lw.judge_columns(low, low + 0.03, u, BAND, lw.GUARDED_TIGHT, **of_all)
        self.assertLess(answers["low_mm"][0], 0.09)
        for name in of_all:
            each = {**of_all, name: numpy.full(50, of_all[name])}
            again = lw.judge_columns(low, low + 0.03, u, None, lw.GUARDED_TIGHT, **each)
            for column_name, array in answers.items():
                self.assertEqual(array.tobytes(), again[column_name].tobytes(), (name, column_name))

    def test_a_further_column_is_not_copied(self):
        low, at = numpy.linspace(0.1, 0.2, 50), numpy.full(50, 60.0)
        seen = []
        with mock.patch("lashwork.judging.answer", lambda kind, rows, name, readings, *rest: seen.append(readings._obj)):
            lw.judge_columns(low, low, low, BAND, lw.SIMPLE, lower_mm=low, at_celsius=at)
        self.assertEqual((seen[0].lower_mm, seen[0].at_celsius), (low.ctypes.data, at.ctypes.data))
        with self.assertRaisesRegex(ValueError, "at_celsius 49"):
            lw.judge_columns(low, low, low, BAND, lw.SIMPLE, at_celsius=at[1:])

    def test_other_types_are_refused_by_the_name_of_the_column(self):
        good = [0.1, 0.2]
        for wrong in (["0.1", "0.2"], numpy.array([1, 2], "M8[s]"), [1j, 2j], [[0.1], [0.2]], [None, 0.1]):
            with self.assertRaisesRegex(TypeError, "high_mm"):
                lw.judge_columns(good, wrong, good, BAND, lw.SIMPLE)
        with self.assertRaisesRegex(TypeError, "firing_order"):
            lw.Engine(numpy.array([1.0, 2.5]))
        with self.assertRaisesRegex(OverflowError, "firing_order"):
            lw.Engine(numpy.array([1, 2**32 + 2]))

    def test_whole_numbers_serve_as_doubles(self):
        found = lw.density_of_columns(
            numpy.array([101]), numpy.array([15]), numpy.array([50]), pressure_uncertainty_kpa=0.1, uncertainty_kelvin=1.0,
            humidity_uncertainty_percent=5.0)
        self.assertEqual(found["status"][0], 0)


if __name__ == "__main__":
    unittest.main()
