"""Pictures of a report, drawn from the numbers that it states: `pip install lashwork[plot]`.

    lashwork.plot.lash(lashwork.report(document)).savefig("lash.png")

Nothing is worked out here. A picture shows no order of work and no cautions: the sheet goes before it.
"""

from __future__ import annotations

from typing import Any, Dict, List, Mapping, Optional, Tuple

import numpy
from matplotlib.figure import Figure

__all__ = ("drift", "lash", "probabilities", "stops")

_COLOURS = {"intake": "#1f5fa8", "exhaust": "#b3411e"}
_SHADES = {"below": "#8c4a86", "in_band": "#3d7f4f", "above": "#b5842c"}


def _figure(title: str, height: float = 5.0, **axes: Any) -> Tuple[Figure, Any]:
    figure = Figure(figsize=(8, height), dpi=120, layout="constrained")
    drawn: Any = figure.add_subplot(**axes)
    drawn.set_title(title, fontsize=10)
    drawn.set_axisbelow(True)
    drawn.grid(color="0.9", linewidth=0.6)
    return figure, drawn


def _column(points: List[Any], *path: str) -> Any:
    """A column of points; what is not there is not a number."""
    found = []
    for value in points:
        for key in path:
            value = None if value is None else value[key]
        found.append(numpy.nan if value is None else value)
    return numpy.array(found, dtype=float)


def _section(report: Mapping[str, Any], *path: str) -> Any:
    found: Any = report
    for key in path:
        found = found[key] if found else None
    if not found:
        raise ValueError(f"the report has no {'.'.join(path)}: its document does not ask for it")
    return found


def _note(figure: Figure, texts: List[str]) -> None:
    """What must be settled first stands on the picture too."""
    if texts:
        figure.supxlabel("\n".join(texts), fontsize=7, x=0.01, ha="left", color="#a02020", wrap=True)


def _stop_work(report: Mapping[str, Any]) -> List[str]:
    return [f"settle first: {stop['text']}" for stop in report["clearance"]["stop_work"]]


def lash(report: Mapping[str, Any], specification: Optional[str] = None, read_at_celsius: Optional[float] = None) -> Figure:
    """What lash an engine should show, by its temperature, with the set band and the standard uncertainty.

    The document must state the metal and a `curve`. Of several specifications the first, or the one that is named;
    `read_at_celsius` is where to draw what the leaves found.
    """
    curves = _section(report, "clearance", "lash_curves")
    which = specification or curves[0]["specification"]
    figure, axes = _figure(f"{report['title'] or ''}\nlash that is right at the reference temperature, by {which}")
    for curve in (curve for curve in curves if curve["specification"] == which):
        points, colour, kind = curve["points"], _COLOURS[curve["kind"]], curve["kind"]
        celsius = _column(points, "temperature", "celsius")
        low, high = _column(points, "low", "mm"), _column(points, "high", "mm")
        axes.fill_between(celsius, low, high, color=colour, alpha=0.12, label=f"{kind}: set band", linewidth=0)
        axes.errorbar(
            celsius, _column(points, "lash", "mm"), _column(points, "uncertainty_mm"), color=colour, capsize=2,
            label=f"{kind}: value to set, with its standard uncertainty")
    if read_at_celsius is not None:
        axes.axvline(read_at_celsius, color="0.6", linewidth=0.8, linestyle=":")
        for valve in report["clearance"]["valves"]:
            ends = [valve[end]["mm"] for end in ("felt_low", "felt_high") if valve[end] is not None]
            axes.plot([read_at_celsius] * len(ends), ends, color=_COLOURS[valve["kind"]], marker="_")
            axes.annotate(valve["name"], (read_at_celsius, ends[-1]), xytext=(5, 2), textcoords="offset points", fontsize=7)
    axes.set_xlabel("temperature of the engine, °C")
    axes.set_ylabel("lash, mm")
    axes.legend(loc="upper left", fontsize=8, frameon=False)
    _note(figure, _stop_work(report))
    return figure


def probabilities(report: Mapping[str, Any], specification: Optional[str] = None) -> Figure:
    """How probable it is that each valve is below, in and above its band; pale where it is only known to lie between."""
    valves = _section(report, "clearance", "valves")
    which = specification or report["clearance"]["specifications"][0]["id"]
    judged = [(valve["name"], one) for valve in valves for one in valve["judged"] if one["specification"] == which]
    figure, axes = _figure(f"{report['title'] or ''}\nby {which}, rule {report['clearance']['rule']}", 1.6 + 0.6 * len(judged))
    for row, (_, one) in enumerate(judged):
        for side, colour in _SHADES.items():
            chance, at = one["probabilities"][side], row + 0.27 * (list(_SHADES).index(side) - 1)
            label = side.replace("_", " ") if row == 0 else None
            axes.barh(at, chance["most"], 0.25, color=colour, alpha=0.3)
            axes.barh(at, chance["least"], 0.25, color=colour, label=label)
        axes.annotate(one["verdict_text"], (1, row), xytext=(6, 0), textcoords="offset points", va="center", fontsize=8,
                      annotation_clip=False)
    axes.set_yticks(range(len(judged)), [name for name, _ in judged])
    axes.set_ylim(len(judged) - 0.5, -0.5)
    axes.set_xlim(0, 1)
    axes.set_xlabel("probability")
    figure.legend(loc="outside lower center", ncols=3, fontsize=8, frameon=False)
    _note(figure, _stop_work(report))
    return figure


def stops(report: Mapping[str, Any], plan: Optional[int] = None) -> Figure:
    """Where to stop the crank, a ring for each stop from the inside out, and how far off it may be.

    The recommended plan, or the one at that place in `clearance.plans`. Angles run as the crank does, seen from the side
    that the document names, from the firing position of the first cylinder of the firing order.
    """
    plans = _section(report, "clearance", "plans")
    if plan is None:
        plan = _section(report, "clearance", "recommended")["plan"]
    chosen = plans[plan]
    rotation = report["engine"]["rotation"]
    title = f"{report['title'] or ''}\n{chosen['method'].replace('_', ' ')}, crank turns {rotation['sense']}, seen from {rotation['seen_from']}"
    figure, axes = _figure(title, 7.0, projection="polar")
    axes.set_theta_zero_location("N")
    axes.set_theta_direction(-1 if rotation["sense"] == "clockwise" else 1)
    lines = _stop_work(report)
    for ring, stop in enumerate(chosen["stops"], 1):
        at, off = stop["position"]["deg"], stop["may_be_off"]
        ends = at + numpy.linspace(-off["before"]["deg"], off["after"]["deg"], 60)
        axes.plot(numpy.deg2rad(ends), numpy.full(60, ring), color=_COLOURS["intake"], alpha=0.3, linewidth=6)
        axes.plot(numpy.deg2rad(at), ring, "o", color=_COLOURS["exhaust"])
        axes.annotate(str(ring), (numpy.deg2rad(at), ring), xytext=(6, 4), textcoords="offset points", fontsize=9)
        lines.append(f"{ring}: {at:g} deg, {', '.join(check['valve'] for check in stop['check'])}")
    axes.set_ylim(0, len(chosen["stops"]) + 0.7)
    axes.set_yticks([])
    figure.supxlabel("\n".join(lines), fontsize=8, x=0.02, ha="left")
    return figure


def drift(report: Mapping[str, Any], name: Optional[str] = None, quantity: str = "lash") -> Figure:
    """How one subject of `history` changed over past services, what it is expected to be found at, and its limits.

    `quantity` is a field of `history` such as lash, dwell or compression; `name` one of its subjects, or the first. Pale
    is where a reading is expected (95 %), darker where the line is.
    """
    kind = _section(report, "history", quantity)
    subjects: Dict[str, Any] = {subject["name"]: subject for subject in kind["subjects"]}
    if name is not None and name not in subjects:
        raise ValueError(f"no {name!r} in history.{quantity}: {', '.join(subjects)}")
    subject = subjects[name] if name is not None else next(iter(subjects.values()))
    chart = subject["chart"]
    figure, axes = _figure(f"{subject['name']}\n{subject['rate_text'] or subject['not_known'] or ''}")
    for points in chart["lines"]:
        at = _column(points, "at")
        for of, alpha in (("found", 0.15), ("line", 0.3)):
            axes.fill_between(at, _column(points, of, "low"), _column(points, of, "high"), alpha=alpha, color="#1f5fa8", linewidth=0)
        axes.plot(at, _column(points, "line", "value"), color="#1f5fa8")
    for reading in chart["readings"]:
        axes.plot([reading["at"]] * 2, [reading["from"], reading["to"]], color="0.2", linewidth=1)
        axes.plot([reading["at"]] * 2, [reading["low"], reading["high"]], "o" if reading["is_left"] else "_", color="0.2")
    for end in chart["limits"]:
        axes.axhline(end, color="#b3411e", linewidth=0.8, linestyle="--")
    axes.set_xlabel(chart["time_unit"])
    axes.set_ylabel(f"{quantity}, {chart['value_unit']}")
    figure.supxlabel("\n".join(look["text"] for look in subject["looks"]), fontsize=8, x=0.01, ha="left")
    return figure
