"""Writes reference values of coil and plug beside this file: `cargo xtask oracles`.

The current is integrated from its differential equation, the speed is searched for, the least of Paschen's
law is minimised, the cylinder's volume is that of a crank in the plane; uncertainties by differences.
"""

import math

import numpy
import scipy.integrate
import scipy.optimize
import scipy.stats
from generate import text, write

SOURCE = "tests/oracles/ignition_electrics.py"


def combined(f, x, u):
    """Standard uncertainty by central differences."""
    total = 0.0
    for i in range(len(x)):
        step = 1e-4 * abs(x[i])
        up, down = list(x), list(x)
        up[i] += step
        down[i] -= step
        total += ((f(*up) - f(*down)) / (2 * step) * u[i]) ** 2
    return math.sqrt(total)


def integrated(v, r, l, t):
    """Current in ampere by the differential equation; volt, ohm, henry, second."""
    made = scipy.integrate.solve_ivp(
        lambda _, i: [(v - r * i[0]) / l], (0, t), [0.0], rtol=1e-12, atol=1e-13, method="DOP853"
    )
    return made.y[0, -1]


def closed(lobes, turns, dwell, rpm):
    """Seconds the contacts are closed: the cam turns through the dwell."""
    assert dwell < 360 / lobes
    return dwell / 360 / (rpm / 60 / turns)


# Volt, ohm, millihenry, lobes, crank turns a cam turn, dwell, rpm, each of the first three and dwell with u.
COILS = [
    ((12, 0.2), (3, 0.05), (10, 0.5), 4, 2, (60, 1), 1000),
    ((12, 0.2), (3, 0.05), (10, 0.5), 4, 2, (60, 1), 3000),
    ((12, 0.2), (3, 0.05), (10, 0.5), 4, 2, (60, 1), 6000),
    ((13.5, 0.3), (3, 0.1), (8, 0.4), 8, 2, (30, 0.5), 5000),
    ((13.5, 0.3), (3, 0.1), (6.5, 0.4), 6, 2, (38, 0.7), 4000),
    ((6, 0.1), (0.9, 0.02), (4.5, 0.3), 2, 1, (105, 2), 3500),
    ((12, 0.2), (4.2, 0.1), (16, 1), 1, 1, (180, 4), 7000),
]


def coil():
    cases = []
    for v, r, l, lobes, turns, dwell, rpm in COILS:
        x, u = [v[0], r[0], l[0], dwell[0]], [v[1], r[1], l[1], dwell[1]]
        current = lambda v, r, l, d: integrated(v, r, l / 1e3, closed(lobes, turns, d, rpm))
        energy = lambda v, r, l, d: 0.5 * l * current(v, r, l, d) ** 2
        cases.append(
            {
                "id": f"coil-{len(cases) + 1:03}",
                "supply": [repr(float(n)) for n in v],
                "resistance": [repr(float(n)) for n in r],
                "inductance": [repr(float(n)) for n in l],
                "lobes": lobes,
                "turns": turns,
                "dwell": [repr(float(n)) for n in dwell],
                "rpm": str(rpm),
                "closed_ms": text(1e3 * closed(lobes, turns, dwell[0], rpm), 15),
                "current": [text(current(*x), 12), text(combined(current, x, u), 8)],
                "energy": [text(energy(*x), 12), text(combined(energy, x, u), 8)],
            }
        )
    return cases


def weak():
    """The speed at which the integrated current or energy crosses what is wanted."""
    cases = []
    wants = [("share_of_current", 0.8), ("share_of_energy", 0.5), ("current", 2.5), ("energy", 25.0)]
    for v, r, l, lobes, turns, dwell, _ in [COILS[0], COILS[3], COILS[6]]:
        for kind, wanted in wants:

            def speed(v, r, l, d):
                def over(rpm):
                    t = closed(lobes, turns, d, rpm)
                    i = v / r * (1 - math.exp(-t * r * 1e3 / l))
                    return {
                        "share_of_current": i * r / v,
                        "share_of_energy": (i * r / v) ** 2,
                        "current": i,
                        "energy": 0.5 * l * i * i,
                    }[kind] - wanted

                return scipy.optimize.brentq(over, 10, 60000, xtol=1e-11, rtol=1e-14)

            x, u = [v[0], r[0], l[0], dwell[0]], [v[1], r[1], l[1], dwell[1]]
            cases.append(
                {
                    "id": f"weak-{len(cases) + 1:03}",
                    "supply": [repr(float(n)) for n in v],
                    "resistance": [repr(float(n)) for n in r],
                    "inductance": [repr(float(n)) for n in l],
                    "lobes": lobes,
                    "turns": turns,
                    "dwell": [repr(float(n)) for n in dwell],
                    "kind": kind,
                    "wanted": repr(wanted),
                    "rpm": [text(speed(*x), 12), text(combined(speed, x, u), 8)],
                }
            )
    return cases


def paschen(pd, a=15.0, b=365.0, gamma=0.01):
    return b * pd / (math.log(a * pd) - math.log(math.log(1 + 1 / gamma)))


def plug():
    """Both formulas, their uncertainties, and the chance that a voltage suffices."""
    cases = []
    for mm, mm_u, kpa, kpa_u, celsius, available, available_u in [
        (0.5, 0.01, 101.325, 1.0, 20.0, 4000.0, 100.0),
        (0.6, 0.02, 810.6, 40.0, 20.0, 20000.0, 1000.0),
        (0.7, 0.02, 1013.25, 60.0, 20.0, 22000.0, 1000.0),
        (0.7, 0.02, 1013.25, 60.0, 300.0, 12000.0, 800.0),
    ]:
        product = lambda mm, kpa: mm / 10 * kpa / 101.325 * 760 * 293.15 / (celsius + 273.15)
        law = lambda mm, kpa: paschen(product(mm, kpa))
        line = lambda mm, kpa: 30000 * product(mm, kpa) / 760 + 1350
        x, u = [mm, kpa], [mm_u, kpa_u]
        low, high = 0.8 * min(law(*x), line(*x)), 1.2 * max(law(*x), line(*x))
        blur = math.hypot(max(combined(law, x, u), combined(line, x, u)), available_u)
        enough = scipy.integrate.quad(
            lambda need: scipy.stats.norm.cdf((available - need) / blur), low, high, epsabs=1e-10
        )[0] / (high - low)
        cases.append(
            {
                "id": f"plug-{len(cases) + 1:03}",
                "gap": [repr(mm), repr(mm_u)],
                "pressure": [repr(kpa), repr(kpa_u)],
                "celsius": repr(celsius),
                "available": [repr(available), repr(available_u)],
                "paschen": text(law(*x), 13),
                "linear": text(line(*x), 13),
                "low": text(low, 13),
                "high": text(high, 13),
                "u": text(max(combined(law, x, u), combined(line, x, u)), 8),
                "enough": text(enough, 10),
            }
        )
    found = scipy.optimize.minimize_scalar(paschen, bounds=(0.5, 3), method="bounded", options={"xatol": 1e-10})
    cases.append({"id": "minimum", "volts": text(found.fun, 10), "product": text(found.x, 6)})
    return cases


def compression():
    """Volume from the place of the piston pin in the plane."""
    cases = []
    for ratio, n, n_u, start, start_u, radius, rod, closes, spark in [
        (8.0, 1.3, 0.03, 100.0, 3.0, 40.0, 140.0, None, 10.0),
        (8.5, 1.28, 0.03, 95.0, 4.0, 44.5, 150.0, 52.0, 28.0),
        (7.5, 1.3, 0.0, 101.3528, 0.0, 45.0, 170.0, None, 0.0),
        (10.5, 1.25, 0.05, 60.0, 5.0, 27.0, 100.0, 65.0, 35.0),
    ]:

        def pin(deg):
            x, y = radius * math.cos(math.radians(deg)), radius * math.sin(math.radians(deg))
            return x + math.sqrt(rod**2 - y**2)

        def volume(deg):
            return 1 + (ratio - 1) * (radius + rod - pin(deg)) / (2 * radius)

        def pressure(n, start):
            return start * (volume(180 - (closes or 0.0)) / volume(spark)) ** n

        cases.append(
            {
                "id": f"compression-{len(cases) + 1:03}",
                "ratio": repr(ratio),
                "exponent": [repr(n), repr(n_u)],
                "start": [repr(start), repr(start_u)],
                "radius": repr(radius),
                "rod": repr(rod),
                "closes": repr(closes) if closes is not None else "bottom",
                "spark": repr(spark),
                "pressure": [
                    text(pressure(n, start), 13),
                    text(combined(pressure, [n, start], [n_u, start_u]), 8),
                ],
            }
        )
    return cases


if __name__ == "__main__":
    packages = ["numpy", "scipy"]
    about = "Coil and plug: "
    write("ignition_coil", about + "the integrated differential equation.", coil(), packages, SOURCE)
    write("ignition_weak", about + "the speed by brentq.", weak(), packages, SOURCE)
    write("ignition_plug", about + "both breakdown formulas and the chance by quad.", plug(), packages, SOURCE)
    write("ignition_compression", about + "the crank in the plane.", compression(), packages, SOURCE)
