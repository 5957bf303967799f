"""Writes reference values of air beside this file: `cargo xtask oracles`.

Density of moist air by CIPM-2007 in 40 digits, its uncertainty by differences and Monte Carlo; the standard
atmosphere by integrating the hydrostatic equation, and a barometer set to sea level by integrating it down
a column that is standard but for its pressure.
"""

import math

import mpmath
import numpy
import scipy.integrate
import scipy.optimize
from generate import text, write

SOURCE = "tests/oracles/mixture_air.py"
R, MA, MV = "8.314472", "28.96546", "18.01528"


def cipm(celsius, kpa, percent, m=mpmath.mpf, exp=mpmath.exp):
    """Picard et al., Metrologia 45 (2008) 149."""
    t, p, h = m(celsius), m(kpa) * 1000, m(percent) / 100
    k = t + m("273.15")
    psv = exp(m("1.2378847e-5") * k**2 - m("1.9121316e-2") * k + m("33.93711047") - m("6.3431645e3") / k)
    f = m("1.00062") + m("3.14e-8") * p + m("5.6e-7") * t**2
    x = h * f * psv / p
    z = (
        1
        - p / k * (
            m("1.58123e-6") + m("-2.9331e-8") * t + m("1.1043e-10") * t**2
            + (m("5.707e-6") + m("-2.051e-8") * t) * x
            + (m("1.9898e-4") + m("-2.376e-6") * t) * x**2
        )
        + (p / k) ** 2 * (m("1.83e-11") + m("-0.765e-8") * x**2)
    )
    return p * m(MA) / 1000 / (z * m(R) * k) * (1 - x * (1 - m(MV) / m(MA)))


class Plain:
    """Arrays of doubles through the same formula."""

    def __new__(cls, value):
        return float(value) if isinstance(value, str) else value


def moist():
    mpmath.mp.dps = 40
    rng = numpy.random.default_rng(149)
    cases = []
    for celsius, kpa, percent in [
        (20, 101.325, 50), (15, 101.325, 0), (25, 99.0, 0), (20, 100.0, 30), (35, 95.0, 80), (0, 101.325, 50),
        (5, 84.556, 60), (23, 98.5, 45), (38, 81.0, 100), (-15, 70.0, 90), (30, 104.0, 15),
    ]:
        x, u = [celsius, kpa, percent], [1.0, 0.2, 10.0 if percent else 0.0]
        # The kernel is handed doubles: celsius is exact here, kilopascals are not.
        exact = [mpmath.mpf(v) for v in x]
        total = mpmath.mpf(0)
        for i in range(3):
            step = mpmath.mpf("1e-12")
            up, down = list(exact), list(exact)
            up[i] += step
            down[i] -= step
            total += ((cipm(*up) - cipm(*down)) / (2 * step) * u[i]) ** 2
        draws = [v + s * rng.standard_normal(400_000) for v, s in zip(x, u)]
        drawn = cipm(*draws, m=Plain, exp=numpy.exp)
        cases.append(
            {
                "id": f"air-{len(cases) + 1:03}",
                "celsius": repr(float(celsius)),
                "kpa": repr(float(kpa)),
                "percent": repr(float(percent)),
                "u": [repr(float(v)) for v in u],
                "density": text(cipm(*exact), 18),
                "density_u": text(mpmath.sqrt(total), 10),
                "monte_carlo_u": text(float(numpy.std(drawn)), 6),
            }
        )
    return cases


G, RAIR, T0, LAPSE = 9.80665, 287.05287, 288.15, 0.0065


def column(start, frm, to):
    """Pressure in kPa from one height to another, through standard temperatures."""
    made = scipy.integrate.solve_ivp(
        lambda h, p: -G * p / (RAIR * (T0 - LAPSE * h)), (frm, to), [start], rtol=1e-13, atol=1e-14, method="DOP853"
    )
    return made.y[0, -1]


def shifted(setting, height):
    """The height scale is moved until sea level has this pressure; ICAO's altimeter."""
    zero = scipy.optimize.brentq(lambda h: column(101.325, 0, h) - setting, -3000, 3000, xtol=1e-10, rtol=1e-14)
    return column(101.325, 0, zero + height)


def standard():
    cases = []
    for metres in [-500, 0, 500, 1000, 1500, 1524, 2000, 3000, 5000]:
        kelvin = T0 - LAPSE * metres
        kpa = column(101.325, 0, metres) if metres else 101.325
        cases.append(
            {
                "id": f"standard-{len(cases) + 1:03}",
                "metres": repr(float(metres)),
                "kelvin": repr(kelvin),
                "kpa": text(kpa, 13),
                "density": text(1000 * kpa / (RAIR * kelvin), 13),
                "setting": "98.5",
                "station": text(shifted(98.5, metres), 11),
            }
        )
    return cases


if __name__ == "__main__":
    write("mixture_air", "Moist air by CIPM-2007 in 40 digits.", moist(), ["numpy", "mpmath"], SOURCE)
    write("mixture_standard", "The standard atmosphere, integrated.", standard(), ["numpy", "scipy"], SOURCE)
