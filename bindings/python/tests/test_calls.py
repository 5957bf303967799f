"""Calls with nothing but the standard library."""

import importlib
import math
import pathlib
import pickle
import re
import threading
import types
import unittest
from statistics import NormalDist
from unittest import mock

import lashwork as lw
from lashwork import _structure

PACKAGE = pathlib.Path(lw.__file__).parent
BAND = lw.limits("0.15 mm", "0.20 mm")

# An invented engine.
DOCUMENT = {
    "title": "Invented <twin> & co",
    "engine": {
        "cycle": "four_stroke", "cylinders": [{"label": "left"}, {"label": "right"}], "firing_order": ["left", "right"],
        "firing": "even", "numbering": "free_end", "rotation": {"sense": "clockwise", "seen_from": "free_end"}},
    "clearance": {
        "valves": {"intake_per_cylinder": 1, "exhaust_per_cylinder": 1},
        "specifications": [{
            "id": "book", "document": "Invented book", "condition": "cold",
            "intake": {"set_to": "0.10 mm", "set": {"from": "0.08 mm", "to": "0.12 mm"}},
            "exhaust": {"set_to": "0.15 mm", "set": {"from": "0.13 mm", "to": "0.17 mm"}}}],
        "gauge": {"leaves": ["0.08 mm", "0.10 mm", "0.12 mm", "0.15 mm"], "stack_tolerance": "worst_case"},
        "readings": [{"cylinder": "left", "valve": "intake", "goes": ["0.10 mm"], "refuses": ["0.12 mm"]}]}}


class Quantities(unittest.TestCase):
    def test_an_inch_is_25_4_mm(self):
        # International yard and pound agreement of 1959: 1 in = 25.4 mm exactly.
        self.assertEqual(lw.length("0.006 in").mm, 0.1524)
        self.assertEqual(lw.length("0.006 in").nanometres, 152_400)
        self.assertEqual(lw.convert_length(1.0, lw.INCH, lw.MILLIMETRE), 25.4)

    def test_a_temperature_is_read_with_its_scale(self):
        # The freezing and boiling points of water on both scales: 32 F is 0 C, 212 F is 100 C.
        self.assertEqual((lw.temperature("32 F"), lw.temperature("212 F")), (0.0, 100.0))

    def test_a_length_is_shown_as_it_was_written(self):
        self.assertEqual([str(lw.length(text)) for text in ("0.15 mm", "0.006 in", "6 thou")], ["0.15 mm", "0.006 in", "6 thou"])


class Judging(unittest.TestCase):
    def test_a_reading_of_one_point_is_a_normal_distribution(self):
        # Beside statistics.NormalDist of the standard library.
        for value, u in ((0.16, 0.01), (0.19, 0.02), (0.14, 0.005)):
            found = lw.judge(lw.Estimate(lw.BETWEEN, value, value, u), BAND, lw.GUARDED_TIGHT)
            reference = NormalDist(value, u)
            self.assertAlmostEqual(found.below_least, reference.cdf(0.15), places=12)
            self.assertAlmostEqual(found.above_most, 1 - reference.cdf(0.20), places=12)

    def test_a_column_is_its_rows(self):
        rows = [(0.12, 0.15, 0.01), (0.16, 0.18, 0.0), (0.19, 0.24, 0.02)]
        columns = lw.judge_columns(*zip(*rows), BAND, lw.SIMPLE)
        for row, (low, high, u) in enumerate(rows):
            alone = lw.judge(lw.Estimate(lw.BETWEEN, low, high, u), BAND, lw.SIMPLE)
            for name in alone._given:
                self.assertEqual(columns[name][row], getattr(alone, name), name)

    def test_a_warm_column_is_its_rows_corrected_and_judged(self):
        rows = [(0.16, 0.18, 0.002, 45.0, 0.0004), (0.1, 0.15, 0.004, 12.0, -0.0003), (0.25, 0.3, 0.003, 80.0, 0.0006)]
        low, high, u, at, slope = zip(*rows)
        columns = lw.judge_columns(
            low, high, u, BAND, lw.GUARDED_TIGHT, at_celsius=at, at_uncertainty_kelvin=2.0, reference_celsius=20,
            mm_per_kelvin=slope, mm_per_kelvin_uncertainty=[0.00005] * 3)
        for row, numbers in enumerate(rows):
            change, doubt = lw.warmth_shift(lw.Warmth(numbers[4], 0.00005, numbers[3], 2.0, 20.0))
            cold = lw.changed(lw.Estimate(lw.BETWEEN, *numbers[:3]), -change, doubt)
            alone = lw.judge(cold, BAND, lw.GUARDED_TIGHT)
            for name in alone._given:
                self.assertEqual(columns[name][row], getattr(alone, name), name)
            for name in ("low_mm", "high_mm", "uncertainty_mm"):
                self.assertEqual(columns[name][row], getattr(cold, name), name)
        self.assertEqual(list(columns["at_reference"]), [1, 1, 1])

    def test_limits_of_each_row_stand_for_the_band(self):
        low, high, u = [0.16, 0.16, 0.16], [0.18, 0.18, 0.18], [0.0, 0.0, 0.0]
        found = lw.judge_columns(low, high, u, None, lw.SIMPLE, lower_mm=[0.15, 0.19, math.nan], upper_mm=[0.2, math.nan, 0.15])
        self.assertEqual([lw.VERDICTS[verdict] for verdict in found["verdict"]], ["in band", "below", "above"])
        for one, other in (({"lower_mm": 0.17}, {"lower_mm": [0.17] * 3}), ({"upper_mm": 0.17}, {"upper_mm": [0.17] * 3})):
            one, other = (lw.judge_columns(low, high, u, BAND, lw.SIMPLE, **stated) for stated in (one, other))
            self.assertEqual([list(column) for column in one.values()], [list(column) for column in other.values()])
            self.assertNotEqual(list(one["in_band_least"]), list(lw.judge_columns(low, high, u, BAND, lw.SIMPLE)["in_band_least"]))
        with self.assertRaises(lw.LashworkError):
            lw.judge_columns(low, high, u, None, lw.SIMPLE)

    def test_where_nothing_says_how_the_lash_follows_it_cannot_be_said(self):
        found = lw.judge_columns([0.16] * 2, [0.18] * 2, [0.0] * 2, BAND, lw.SIMPLE, at_celsius=[70.0, 20.0],
                                 at_uncertainty_kelvin=1.0, reference_celsius=20.0)
        self.assertEqual([lw.VERDICTS[verdict] for verdict in found["verdict"]], ["cannot say", "in band"])
        self.assertEqual(list(found["at_reference"]), [0, 1])
        self.assertEqual(found["uncertainty_mm"][0], lw.warmth_not_known(70.0, 1.0, 20.0)[1])

    def test_a_column_of_strobes_has_no_lash(self):
        found = lw.judge_strobe_columns(
            [10.0], [900.0], [0.5], lw.PrintedTiming(lw.BETWEEN, 8.0, 12.0, 900.0), lw.SIMPLE, hose=lw.HOSE_NOT_FITTED,
            speed_uncertainty_rpm=10.0, lamp_delay_us=0.0)
        self.assertNotIn("low_mm", found)
        self.assertIn("verdict", found)

    def test_a_refused_row_is_marked_and_the_others_are_judged(self):
        found = lw.judge_columns([0.16, math.nan, 0.3], [0.18, 0.2, 0.25], [0.0, 0.01, 0.01], BAND, lw.GUARDED_TIGHT)
        self.assertEqual([status == 0 for status in found["status"]], [True, False, False])
        self.assertEqual([lw.VERDICTS[verdict] for verdict in found["verdict"]], ["in band", "refused", "refused"])

    def test_what_is_not_stated_is_what_the_kernel_assumes(self):
        stated = lw.between("0.12 mm", "0.15 mm", tolerance="0 mm", hand="0 mm")
        self.assertEqual(stated.uncertainty_mm, 0.0)
        self.assertGreater(lw.between("0.12 mm", "0.15 mm").uncertainty_mm, 0.0)


class Mistakes(unittest.TestCase):
    def test_a_refusal_says_what_where_and_what_to_do(self):
        with self.assertRaises(lw.LashworkError) as raised:
            lw.length("0.15")
        self.assertEqual(raised.exception.code, "quantity.no-unit")
        self.assertIn("write the unit", raised.exception.hint)
        with self.assertRaises(lw.LashworkError) as raised:
            lw.temperature("-300 C")
        # Absolute zero by definition of the Celsius scale.
        self.assertEqual(raised.exception.range[:2], (-300.0, -273.15))

    def test_a_refused_row_of_a_record_is_named(self):
        record = lw.PastReadings([0.0, 500.0, 100.0], [0.2] * 3, [0.22] * 3, [0.005] * 3, counted_by=lw.DISTANCE)
        with self.assertRaises(lw.LashworkError) as raised:
            lw.drift_of_record(record, 1, BAND, lw.GUARDED_TIGHT)
        self.assertEqual(raised.exception.row, 2)

    def test_a_document_is_refused_with_all_its_problems(self):
        wrong = {**DOCUMENT, "engine": {**DOCUMENT["engine"], "cycle": "six", "numbering": 3}}
        with self.assertRaises(lw.LashworkError) as raised:
            lw.report(wrong)
        places = [problem["place"] for problem in raised.exception.problems]
        self.assertEqual(places, ["/engine/cycle", "/engine/numbering"])
        self.assertEqual(raised.exception.place, "/engine/cycle")
        self.assertTrue(all(problem["code"] and problem["message"] for problem in raised.exception.problems))

    def test_a_refusal_travels_between_processes(self):
        with self.assertRaises(lw.LashworkError) as raised:
            lw.report({"engine": {}})
        again = pickle.loads(pickle.dumps(raised.exception))
        self.assertEqual(vars(again), vars(raised.exception))
        self.assertEqual(str(again), str(raised.exception))

    def test_whole_numbers_are_not_cut_down(self):
        for wrong in (2**32 + 1, -1):
            with self.assertRaises(OverflowError):
                lw.convert_length(1.0, wrong, lw.INCH)
            with self.assertRaises(OverflowError):
                lw.Engine([1, wrong])
        with self.assertRaises(OverflowError):
            lw.Limits(lw.BETWEEN, 0, 2**64 + 1)
        with self.assertRaises(TypeError):
            lw.Engine([1.5, 2])

    def test_fields_are_stated_once_and_all_of_them(self):
        for wrong in (lambda: lw.Limits(1), lambda: lw.Limits(1, 2, 3, 4), lambda: lw.Limits(1, 2, 3, span=1),
                      lambda: lw.Limits(1, 2, upper=3)):
            with self.assertRaises(TypeError):
                wrong()

    def test_columns_of_two_lengths_are_refused_by_their_names(self):
        with self.assertRaisesRegex(ValueError, "low_mm 2, high_mm 1, uncertainty_mm 2"):
            lw.judge_columns([0.1, 0.2], [0.3], [0.0, 0.0], BAND, lw.SIMPLE)

    def test_a_bare_number_is_no_length(self):
        with self.assertRaisesRegex(TypeError, "text with its unit"):
            lw.limits(0.15, "0.20 mm")


class Jobs(unittest.TestCase):
    def test_a_job_goes_in_and_comes_out_as_a_dict(self):
        found = lw.report(DOCUMENT)
        self.assertEqual(found["clearance"]["valves"][0]["name"], "cylinder left intake")
        self.assertEqual(found["clearance"]["valves"][0]["judged"][0]["verdict"], "in_band")
        self.assertEqual(found.sheet, lw.job_sheet(DOCUMENT))
        self.assertGreater(len(found.full_sheet), len(found.sheet))

    def test_a_notebook_shows_the_sheet_and_takes_no_markup_from_it(self):
        shown = lw.report(DOCUMENT)._repr_html_()
        self.assertIn("Invented &lt;twin&gt; &amp; co", shown)
        self.assertNotIn("<twin>", shown)

    def test_an_engine_of_a_document_has_its_labels(self):
        engine = lw.Engine.of_document(DOCUMENT)
        self.assertEqual([engine.label(1), engine.label(2)], ["left", "right"])
        self.assertEqual(engine.firing_offsets(), lw.Engine([1, 2]).firing_offsets())
        with self.assertRaises(lw.LashworkError):
            lw.Engine.of_document({"engine": {}})

    def test_handles_are_given_back_from_any_thread(self):
        def work():
            for _ in range(200):
                lw.Engine([1, 3, 4, 2]).plan(lw.ValveTrain(10, 40, 40, 10, 20, 1, 1, lw.AT_LASH), lw.TWO_POSITION)

        threads = [threading.Thread(target=work) for _ in range(4)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()


class Package(unittest.TestCase):
    def test_a_library_with_other_structures_is_refused(self):
        library = mock.Mock(lw_struct_size=lambda name, length: 8)
        with self.assertRaisesRegex(ImportError, "another lw_"):
            _structure.check_layouts(library)

    def test_every_call_of_the_library_is_offered(self):
        header = PACKAGE.parents[3] / "bindings/c/include/lashwork.h"
        if not header.exists():
            self.skipTest("installed without the source tree, where the names come from")
        declared = set(re.findall(r"\b(lw_\w+)\(", header.read_text()))
        source = "".join(path.read_text() for path in PACKAGE.glob("*.py"))
        called = set(re.findall(r"\blw_\w+", source))
        called |= {"lw_" + name for name in ("engine_free", "plan_free", "plan_cue", "plan_check", "plan_unreachable")}
        called |= {"lw_error_" + name for name in ("code", "message", "hint", "place")}
        # What `call` has at hand already.
        aside = {"lw_error_status", "lw_status_name", "lw_init_structure"}
        self.assertEqual(declared - called, aside)

    def test_what_is_public_is_offered_and_documented(self):
        for path in PACKAGE.glob("[a-z]*.py"):
            if path.stem in ("arrow", "plot"):
                continue
            for name in importlib.import_module(f"lashwork.{path.stem}").__all__:
                found = getattr(lw, name)
                if isinstance(found, (type, types.FunctionType)):
                    self.assertTrue(found.__doc__, name)


if __name__ == "__main__":
    unittest.main()
