"""Plots what lash a warm engine should show, against temperature, from a job document.

    python examples/python/plot_lash.py [DOCUMENT.json] [PICTURE.png]

The document must state the metal and a `curve`; the example's figures are invented. Shown is the value to set, as it
grows with the metal's warmth, with its standard uncertainty, the set band, and what was felt.
"""

import json
import pathlib
import sys

import lashwork as lw
from lashwork import plot

DATA = pathlib.Path(__file__).resolve().parent.parent / "data"


def main():
    document = json.loads(pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else DATA / "upright-twin-warm.json").read_text())
    picture = sys.argv[2] if len(sys.argv) > 2 else "lash.png"
    report = lw.report(document)
    stated = document.get("clearance", {}).get("metal", {}).get("temperature")
    plot.lash(report, read_at_celsius=lw.temperature(stated["is"]) if stated else None).savefig(picture)
    print(f"{picture}: lashwork {lw.version}\n\n{report.sheet}")


try:
    main()
except lw.LashworkError as refused:
    sys.exit(f"{refused.place}: {refused}")
except ValueError as refused:
    sys.exit(str(refused))
