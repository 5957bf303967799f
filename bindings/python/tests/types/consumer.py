"""Uses the package as a typed program would; a checker must find nothing here."""

from __future__ import annotations

import lashwork as lw
import numpy
import numpy.typing


def verdict(goes: str, refuses: str) -> str:
    found: lw.Judgement = lw.judge(lw.between(goes, refuses), lw.limits("0.15 mm", None), lw.GUARDED_TIGHT)
    return lw.VERDICTS[found.verdict]


def loose(low: numpy.typing.NDArray[numpy.float64], high: list[float], u: tuple[float, ...]) -> int:
    columns: lw.Columns = lw.judge_columns(low, high, u, lw.Limits(lw.BETWEEN, 150_000, 200_000), lw.Rule(2))
    warm: lw.Columns = lw.judge_columns(low, high, u, None, lw.Rule(2), lower_mm=0.15, at_celsius=low, reference_celsius=20)
    return sum(int(verdict) == 3 for verdict in [*columns["verdict"], *warm["verdict"]])


def stops(engine: lw.Engine, train: lw.ValveTrain) -> list[float]:
    plan: lw.Plan | None = engine.plan(train, lw.FEWEST_STOPS)
    return [stop.position_deg for stop, _, _ in plan.stops] if plan else []


def places(document: dict[str, object]) -> list[str]:
    try:
        report: lw.Report = lw.report(document)
        return [report.sheet]
    except lw.LashworkError as refused:
        where: str = refused.place
        return [where, *(problem["place"] for problem in refused.problems)]


shown, down, uncertainty = lw.dial_at_point(lw.SliderCrank(40.0, 140.0, 0.0), lw.Dial(0.01, 0.0), 12.0)
total: float = shown + down + uncertainty
estimate = lw.Estimate(span=lw.BETWEEN, low_mm=0.1, high_mm=0.2, uncertainty_mm=0.01)
