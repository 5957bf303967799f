"""Writes reference values for timing beside this file: `cargo xtask oracles`.

Curve fits by scipy from many starts, their covariance from a numeric Jacobian; evidence of the causes by
scipy's multivariate normal; the uncertainty of a static point taken back by a table, and of a piston travel,
by Monte Carlo.
"""

import json
import platform
from importlib.metadata import version
from pathlib import Path

import numpy
import scipy.optimize
import scipy.stats

HERE = Path(__file__).resolve().parent
PACKAGES = ["numpy", "scipy"]


def text(value):
    return repr(float(value))


def write(name, about, cases):
    document = {
        "about": about,
        "made_by": "tests/oracles/ignition_timing.py",
        "versions": {"python": platform.python_version()} | {p: version(p) for p in PACKAGES},
        "cases": cases,
    }
    path = HERE / f"{name}.json"
    path.write_text(json.dumps(document, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    print(f"{path.name}: {len(cases)} cases")


def middle(curve, rpm, ends):
    x = [p[0] for p in curve]
    m = [(p[1] + p[2]) / 2 for p in curve]
    if rpm < x[0]:
        return m[0] if m[0] == 0 else curve[0][2] / 2
    return float(numpy.interp(rpm, x, m))


def half(curve, rpm):
    x = [p[0] for p in curve]
    if rpm < x[0]:
        return curve[0][2] / 2
    return float(numpy.interp(rpm, x, [(p[2] - p[1]) / 2 for p in curve]))


# Fits -----------------------------------------------------------------------------------------

CURVE = [(1000, 0, 0), (1400, 6, 8), (2400, 18, 22)]
STATIC = 10.0


def model(parameters, m, at_end):
    start, scale, end = parameters
    return start + numpy.where(at_end, end, numpy.minimum(scale * m, end))


def fit(rpm, over, u, ends):
    m = numpy.array([middle(CURVE, r, ends) for r in rpm])
    at_end = numpy.array([ends and r >= CURVE[-1][0] for r in rpm])
    best = None
    for scale in numpy.linspace(0.3, 2.5, 12):
        for end in numpy.linspace(4, 26, 23):
            for start in (-10.0, 0.0, 10.0):
                found = scipy.optimize.least_squares(
                    lambda p: (over - model(p, m, at_end)) / u, [start, scale, end],
                    xtol=1e-15, ftol=1e-15, gtol=1e-15, method="trf", x_scale=[1, 0.1, 1],
                )
                if best is None or found.cost < best.cost - 1e-12:
                    best = found
    return best, m, at_end


def fits():
    rng = numpy.random.default_rng(7)
    cases = []
    for id_, planted, speeds, ends in [
        ("late", (-4, 1.0, 20), [800, 1200, 1500, 1800, 2200, 2600, 3000], True),
        ("weak springs", (0, 1.4, 20), [700, 900, 1200, 1500, 1700, 2500, 2900], True),
        ("strong springs", (1, 0.7, 20), [800, 1300, 1600, 1900, 2200, 2600], True),
        ("ends short", (0, 1.0, 13), [800, 1200, 1500, 1700, 2000, 2200, 2300], False),
        ("weak and short", (-2, 1.5, 15), [800, 1200, 1300, 1400, 1900, 2300, 2390], False),
        ("ends on the table", (3, 1.1, 17), [800, 900, 1200, 1400, 1700, 2100, 2600, 3000], True),
    ]:
        m = numpy.array([middle(CURVE, r, ends) for r in speeds])
        at_end = numpy.array([ends and r >= CURVE[-1][0] for r in speeds])
        u = rng.uniform(0.3, 0.8, len(speeds))
        over = numpy.round(model(planted, m, at_end) + rng.normal(0, u), 2)
        best, m, at_end = fit(speeds, over, u, ends)
        start, scale, end = best.x
        # On the smooth side of the solution; a reading on the border is not part of these cases.
        assert numpy.all(numpy.abs(scale * m - end)[~at_end] > 1e-3), id_
        jacobian = numpy.zeros((len(speeds), 3))
        for i in range(3):
            step = numpy.zeros(3)
            step[i] = 1e-6
            jacobian[:, i] = (model(best.x + step, m, at_end) - model(best.x - step, m, at_end)) / 2e-6 / u
        covariance = numpy.linalg.inv(jacobian.T @ jacobian)
        squares = 2 * best.cost
        widened = max(squares / (len(speeds) - 3), 1.0)
        cases.append({
            "id": id_, "ends": ends,
            "rpm": [text(s) for s in speeds], "read": [text(STATIC + o) for o in over], "u": [text(x) for x in u],
            "static": text(STATIC + start), "scale": text(scale), "end": text(end),
            "scatter": text(numpy.sqrt(squares / (len(speeds) - 3))),
            "covariance": [text(c) for c in (covariance * widened).flatten()],
        })
    write("ignition_curve_fit", "static point, scale and end of an advance curve, least squares", cases)


# Causes ---------------------------------------------------------------------------------------

SHARED = 1 / numpy.sqrt(3)


def steps(a, b):
    return numpy.linspace(a, b, 25)


def ln_density(over, u, advance, late, sd, scatter, halves):
    n = len(over)
    covariance = numpy.diag(u**2 + scatter**2) + sd**2 * numpy.ones((n, n)) + numpy.outer(halves, halves) / 3
    return scipy.stats.multivariate_normal(advance - late, covariance).logpdf(over)


def causes():
    rng = numpy.random.default_rng(11)
    ends, limit_half = True, 2.0
    most = 20.0
    sd0 = numpy.hypot(limit_half / numpy.sqrt(3), SHARED)
    cases = []
    for id_, speeds, off in [
        ("sound", [800, 1200, 1600, 2000, 2600], lambda m: m),
        ("late", [800, 1200, 1600, 2000, 2600], lambda m: m - 7),
        ("weak", [800, 1200, 1600, 2000, 2600], lambda m: numpy.minimum(1.5 * m, 20)),
        ("strong", [800, 1200, 1600, 1900, 2200], lambda m: 0.55 * m),
        ("used up", [800, 1200, 1600, 2000, 2600], lambda m: numpy.maximum(m, 8) - 8),
        ("with vacuum", [800, 2000, 2600], lambda m: m - 24),
    ]:
        speeds = numpy.array(speeds)
        m = numpy.array([middle(CURVE, s, ends) for s in speeds])
        h = numpy.array([half(CURVE, s) for s in speeds])
        at_end = speeds >= CURVE[-1][0]
        u = numpy.full(len(speeds), 0.5)
        over = numpy.round(off(m) + rng.normal(0, 0.5, len(speeds)), 2)
        at = lambda advance, late=0.0, sd=0.0, scatter=0.0: ln_density(
            over, u, advance, late, numpy.hypot(sd0, sd), scatter, h)

        def springs(a, b):
            size = [at(numpy.minimum(t * m, most)) for t in steps(a, b)]
            speed = [at(numpy.array([middle(CURVE, min(s * numpy.sqrt(t), CURVE[-1][0]), ends) for s in speeds]))
                     for t in steps(a, b)]
            return size + speed

        short = [at(numpy.minimum(m, most - b)) for b in steps(2, most / 2)]
        far = [at(m + numpy.where(at_end, b, 0)) for b in steps(2, most / 2)]
        ln = {
            "static_point_off": [at(m, 0, 6)],
            "springs_weak": springs(1.1, 2.0),
            "springs_strong": springs(0.3, 0.9),
            "weights_sticking": [at(m, 0, 0, s) for s in steps(2, 5)]
            + [at(numpy.where(m < s * most, 0, m)) for s in steps(0.2, 0.8)],
            "end_wrong": short + far if at_end.any() else short,
            "used_up_at_idle": [at(numpy.maximum(m, d) - d) for d in steps(3, 0.8 * most)],
            "set_with_vacuum": [at(m, 22, 7)],
            "set_at_speed": [at(m, s * most) for s in steps(0.3, 1)],
            "something_else": [at(m, 0, 10, 5)],
        }
        weight = {"sound": 0.5 * numpy.exp(at(m))}
        for name, all_ in ln.items():
            weight[name] = 0.5 / len(ln) * numpy.mean(numpy.exp(all_))
        total = sum(weight.values())
        cases.append({
            "id": id_, "rpm": [text(s) for s in speeds], "read": [text(STATIC + o) for o in over],
            "posterior": {name: text(w / total) for name, w in weight.items()},
        })
    write("ignition_curve_causes", "probabilities of causes with dense covariances", cases)


# Monte Carlo ----------------------------------------------------------------------------------


def static_points():
    rng = numpy.random.default_rng(3)
    n = 2_000_000
    cases = []
    for read, rpm, u_read, u_rpm in [(20, 1200, 0.5, 40), (28, 2000, 0.6, 60), (24, 1700, 0.4, 25)]:
        share = rng.uniform(0, 1, n)
        true_rpm = rng.normal(rpm, u_rpm, n)
        x = [p[0] for p in CURVE]
        least = numpy.interp(true_rpm, x, [p[1] for p in CURVE])
        most = numpy.interp(true_rpm, x, [p[2] for p in CURVE])
        static = rng.normal(read, u_read, n) - (least + share * (most - least))
        cases.append({
            "read": text(read), "rpm": text(rpm), "u": text(u_read), "speed_u": text(u_rpm),
            "mean": text(static.mean()), "sd": text(static.std()),
        })
    write("ignition_static_point", "static point from a reading at speed, by two million draws", cases)


def travels():
    rng = numpy.random.default_rng(5)
    n = 400_000
    cases = []
    for stroke, rod, degrees, u in [(54, 100, 22, 0.05), (80, 140, 10, 0.05), (80, 140, 38, 0.1), (68, 120, 6, 0.02)]:
        r = stroke / 2
        down = lambda a: r * (1 - numpy.cos(a)) + rod - numpy.sqrt(rod**2 - (r * numpy.sin(a)) ** 2)
        s = down(numpy.radians(degrees))
        grid = numpy.radians(numpy.linspace(0, 90, 200_001))
        found = numpy.degrees(numpy.interp(rng.normal(s, u, n), down(grid), grid))
        cases.append({
            "stroke": text(stroke), "rod": text(rod), "degrees": text(degrees), "u_mm": text(u),
            "sd": text(found.std()),
        })
    write("ignition_travel_u", "ignition point from a piston travel, by draws", cases)


if __name__ == "__main__":
    fits()
    causes()
    static_points()
    travels()
