"""Whole documents of an invented four, and what their answers must hold: what the scripts of shared vectors have in common."""

import copy
import json
from pathlib import Path

import numpy

FOLDER = Path(__file__).resolve().parents[1] / "vectors"

FOUR = {
    "cycle": "four_stroke",
    "cylinders": [{"label": label} for label in "1234"],
    "firing_order": ["1", "3", "4", "2"],
    "firing": "even",
    "rotation": {"sense": "clockwise", "seen_from": "free_end"},
    "numbering": "free_end",
}


def plain(value):
    if isinstance(value, (list, tuple, numpy.ndarray)):
        return [plain(one) for one in value]
    return float(value) if isinstance(value, numpy.floating) else value


class Vectors:
    """The cases of a section; `section` and `engine` are what all of its documents say."""

    def __init__(self, area, section, **engine):
        self.area, self.cases = area, []
        self.base = {"lashwork": 1, "title": "Vector", "engine": FOUR | engine, area: section}

    def document(self, section, **engine):
        made = copy.deepcopy(self.base)
        made[self.area].update(section)
        made["engine"].update(engine)
        return made

    def case(self, why, source, request, expect, within):
        self.cases.append({
            "id": f"{self.area}-{len(self.cases) + 1:03}", "why": why, "source": source, "request": request,
            "expect": {key: plain(value) for key, value in expect.items()}, "within": within,
        })

    def refused(self, why, request, place, code, times=1):
        expect = {"/problems/*/place": [place] * times, "/problems/*/code": [code] * times}
        self.case(why, "Definition of the document format", request, expect, 0)

    def write(self):
        path = FOLDER / f"{self.area}.json"
        text = json.dumps({"format": 1, "cases": self.cases}, indent=2, ensure_ascii=False)
        path.write_text(text + "\n", encoding="utf-8")
        print(f"{path.name}: {len(self.cases)} cases")
