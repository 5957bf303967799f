"""Pictures show what the report states."""

import io
import json
import pathlib
import unittest

import lashwork as lw
import numpy
from lashwork import plot

DATA = pathlib.Path(__file__).resolve().parents[3] / "examples/data"


def report(name):
    return lw.report((DATA / f"{name}.json").read_bytes())


def png(figure):
    held = io.BytesIO()
    figure.savefig(held, format="png", dpi=40)
    return held.getvalue()


class Plots(unittest.TestCase):
    def test_the_lash_by_temperature_is_the_curve_of_the_report(self):
        found = report("upright-twin-warm")
        figure = plot.lash(found, read_at_celsius=30.0)
        points = found["clearance"]["lash_curves"][0]["points"]
        drawn = figure.axes[0].containers[0].lines[0].get_xydata()
        wanted = [(p["temperature"]["celsius"], p["lash"]["mm"]) for p in points]
        numpy.testing.assert_array_equal(drawn, wanted)
        self.assertTrue(png(figure).startswith(b"\x89PNG"))
        # Two books disagree in this example: the picture says so too.
        self.assertIn("settle first", figure.get_supxlabel())

    def test_probabilities_are_those_of_the_report(self):
        found = report("inline-four")
        axes = plot.probabilities(found).axes[0]
        wanted = [
            one["probabilities"][side][end] for valve in found["clearance"]["valves"] for one in valve["judged"]
            if one["specification"] == found["clearance"]["specifications"][0]["id"]
            for side in ("below", "in_band", "above") for end in ("most", "least")]
        self.assertEqual([bar.get_width() for bar in axes.patches], wanted)

    def test_the_stops_are_those_of_the_recommended_plan(self):
        found = report("v-twin")
        plans, recommended = found["clearance"]["plans"], found["clearance"]["recommended"]["plan"]
        self.assertGreater(len(plans), 1)
        for plan, chosen in [(None, plans[recommended]), *enumerate(plans)]:
            axes = plot.stops(found, plan).axes[0]
            marks = [line.get_xdata()[0] for line in axes.lines if line.get_marker() == "o"]
            numpy.testing.assert_allclose(numpy.rad2deg(marks), [stop["position"]["deg"] for stop in chosen["stops"]])
            self.assertIn(chosen["method"].replace("_", " "), axes.get_title())

    def test_the_drift_is_that_of_its_subject(self):
        found = report("inline-four-with-history")
        subject = found["history"]["lash"]["subjects"][2]
        figure = plot.drift(found, subject["name"])
        line = subject["chart"]["lines"][0]
        numpy.testing.assert_array_equal(
            figure.axes[0].lines[0].get_xydata(), [(point["at"], point["line"]["value"]) for point in line])
        self.assertIn(subject["looks"][0]["text"], figure.get_supxlabel())
        self.assertEqual(figure.axes[0].get_xlabel(), "km")
        self.assertEqual([line.get_ydata()[0] for line in figure.axes[0].lines[-2:]], subject["chart"]["limits"])
        with self.assertRaisesRegex(ValueError, subject["name"]):
            plot.drift(found, "no such valve")

    def test_every_example_is_drawn_or_refused_in_words(self):
        drawn = 0
        for path in sorted(DATA.glob("*.json")):
            found = lw.report(json.loads(path.read_text()))
            for draw in (plot.lash, plot.probabilities, plot.stops, plot.drift):
                try:
                    draw(found)
                    drawn += 1
                except ValueError as refused:
                    self.assertIn("does not ask for it", str(refused))
        self.assertGreater(drawn, 20)


if __name__ == "__main__":
    unittest.main()
