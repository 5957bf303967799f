"""Plots what lash a warm engine should show, against temperature, from a job document.

    python examples/python/plot_lash.py [DOCUMENT.json] [PICTURE.png]

The document must state the metal and a `curve`; the example's figures are invented. Shown is the value to set,
as it grows with the metal's warmth, with its standard uncertainty, the set band, and what was felt.
"""

import json
import pathlib
import sys

import lashwork as lw
import matplotlib

matplotlib.use("Agg")
import matplotlib.pyplot as plt  # noqa: E402
import numpy  # noqa: E402

HERE = pathlib.Path(__file__).resolve().parent
COLOURS = {"intake": "#1f5fa8", "exhaust": "#b3411e"}


def column(points, *path):
    """A column of the points of a curve; a missing end of a band is not a number."""
    found = []
    for value in points:
        for key in path:
            value = None if value is None else value[key]
        found.append(numpy.nan if value is None else value)
    return numpy.array(found, dtype=float)


def draw(axes, curve):
    points, colour = curve["points"], COLOURS[curve["kind"]]
    celsius = column(points, "temperature", "celsius")
    lash, u = column(points, "lash", "mm"), column(points, "uncertainty_mm")
    low, high = column(points, "low", "mm"), column(points, "high", "mm")
    axes.fill_between(celsius, low, high, color=colour, alpha=0.12, label=f"{curve['kind']}: set band", linewidth=0)
    axes.plot(celsius, lash, color=colour, label=f"{curve['kind']}: value to set")
    axes.fill_between(celsius, lash - u, lash + u, color=colour, alpha=0.35, label="its standard uncertainty", linewidth=0)


def mark_readings(axes, report, celsius):
    offsets = {"intake": -0.6, "exhaust": 0.6}
    for valve in report["clearance"]["valves"]:
        ends = [valve[end]["mm"] for end in ("felt_low", "felt_high") if valve[end] is not None]
        at, colour = celsius + offsets[valve["kind"]], COLOURS[valve["kind"]]
        if len(ends) == 2:
            axes.errorbar(at, sum(ends) / 2, yerr=abs(ends[1] - ends[0]) / 2, color=colour, capsize=3, marker="o", markersize=3)
        else:
            axes.plot(at, ends[0], color=colour, marker="^" if valve["felt_low"] else "v", markersize=5)
        axes.annotate(valve["name"], (at, ends[-1]), textcoords="offset points", xytext=(9 * offsets[valve["kind"]] / 0.6, 3),
                      ha="left" if offsets[valve["kind"]] > 0 else "right", fontsize=7, color=colour)


def main():
    document = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else HERE.parent / "data/upright-twin-warm.json"
    picture = pathlib.Path(sys.argv[2]) if len(sys.argv) > 2 else pathlib.Path("lash.png")
    text = document.read_bytes()
    lw.validate(text)
    report = json.loads(lw.run(text))["report"]
    curves = report["clearance"]["lash_curves"]
    if not curves:
        sys.exit(f"{document} asks for no curve: add \"curve\" to its \"metal\"")
    specification = curves[0]["specification"]
    figure, axes = plt.subplots(figsize=(8, 5), dpi=120)
    for curve in curves:
        if curve["specification"] == specification:
            draw(axes, curve)
    stated = json.loads(text).get("clearance", {}).get("metal", {}).get("temperature")
    if stated:
        at = lw.temperature(stated["is"])
        axes.axvline(at, color="0.6", linewidth=0.8, linestyle=":")
        mark_readings(axes, report, at)
    axes.set_xlabel("temperature of the engine, °C")
    axes.set_ylabel("lash, mm")
    axes.set_title(f"{report['title']}\nlash that is right when cold, by {specification}", fontsize=10)
    axes.grid(color="0.9", linewidth=0.6)
    axes.set_axisbelow(True)
    axes.legend(loc="upper left", fontsize=8, frameon=False)
    figure.tight_layout()
    figure.savefig(picture)
    print(f"{picture}: {len(curves[0]['points'])} temperatures, lashwork {lw.version}")


try:
    main()
except lw.LashworkError as refused:
    sys.exit(f"{refused.place}: {refused}")
