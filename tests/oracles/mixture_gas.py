"""Writes reference values of exhaust gas beside this file: `cargo xtask oracles`.

The gas is burnt forward: from lambda, the fuel and the share of carbon that stays monoxide or unburnt, the
atoms are shared out, and the gas is read as a tester reads it. Lambda from carbon monoxide alone is searched
for over lambda, not over carbon dioxide. Uncertainties by differences and by Monte Carlo.
"""

import math

import numpy
import scipy.optimize
from generate import text, write

SOURCE = "tests/oracles/mixture_gas.py"
AIR_OXYGEN = 0.2095


def burnt(lam, y, z, monoxide, unburnt, factor):
    """Dry gas in per cent from one mole of carbon: a share stays monoxide, a share unburnt."""
    need = 1 + y / 4 - z / 2
    supplied = lam * need
    carbon = 1 - unburnt
    co, co2 = monoxide * carbon, (1 - monoxide) * carbon
    hydrogen = y / 2 * carbon
    # CO H2O / (CO2 H2) = 3.5
    water = hydrogen * 3.5 / (3.5 + co / co2)
    o2 = supplied + z / 2 * carbon - co2 - co / 2 - water / 2
    hc = unburnt / factor
    gas = {"co2": co2, "co": co, "o2": o2, "hc": hc, "h2": hydrogen - water}
    total = sum(gas.values()) + supplied * (1 - AIR_OXYGEN) / AIR_OXYGEN
    return {name: 100 * share / total for name, share in gas.items()}


def found(x, y, z, factor):
    """Lambda back from the gas, by counting atoms."""
    co2, co, o2, hc, no = x
    carbon = co2 + co
    water = y / 2 * carbon * 3.5 / (3.5 + co / co2)
    oxygen_atoms = 2 * co2 + co + 2 * o2 + no + water - z * carbon
    return oxygen_atoms / 2 / ((1 + y / 4 - z / 2) * (carbon + factor * hc))


FUELS = {"E0": (1.85, 0.0), "tester": (1.7261, 0.0176), "LPG": (2.525, 0.0), "CNG": (4.0, 0.0), "ethanol": (3.0, 0.5)}
LIMITS = {"class00": (0.3, 0.02, 0.1, 0.0004), "class0": (0.5, 0.03, 0.1, 0.001), "class_i": (0.5, 0.06, 0.1, 0.0012)}


def lambdas():
    rng = numpy.random.default_rng(20_07)
    cases = []
    for fuel, lam, monoxide, unburnt, factor, no, kind in [
        ("E0", 1.0, 0.03, 0.004, 6, None, "class0"),
        ("E0", 0.92, 0.22, 0.010, 6, None, "class_i"),
        ("tester", 0.85, 0.40, 0.012, 6, None, "class0"),
        ("tester", 1.08, 0.01, 0.006, 12, 0.12, "class0"),
        ("LPG", 0.97, 0.12, 0.004, 3, None, "class00"),
        ("CNG", 1.25, 0.004, 0.03, 1, 0.05, "class_i"),
        ("ethanol", 0.9, 0.20, 0.008, 6, None, "class0"),
        ("E0", 1.9, 0.05, 0.2, 6, None, "class0"),
        ("E0", 0.7, 0.62, 0.02, 6, None, "class0"),
    ]:
        y, z = FUELS[fuel]
        gas = burnt(lam, y, z, monoxide, unburnt, factor)
        assert gas["o2"] >= 0, (fuel, lam, gas)
        x = numpy.array([gas["co2"], gas["co"], gas["o2"], gas["hc"], 0.0])
        assert abs(found(x, y, z, factor) - lam) < 1e-12
        if no is not None:
            x[4] = no
        co2, co, o2, hc = LIMITS[kind]
        least = numpy.array([co2, co, o2, hc, 0.0025 if no is not None else 0.0])
        relative = numpy.array([0.05, 0.05, 0.05, 0.05, 0.1])
        u = numpy.maximum(least, relative * x) / math.sqrt(3)
        u_by_differences = 0.0
        for i in range(5):
            step = numpy.zeros(5)
            step[i] = 1e-5 * max(x[i], 1e-3)
            slope = (found(x + step, y, z, factor) - found(x - step, y, z, factor)) / (2 * step[i])
            u_by_differences += (slope * u[i]) ** 2
        # Errors equally likely anywhere within the limits.
        draws = x[:, None] + rng.uniform(-1, 1, (5, 400_000)) * (u * math.sqrt(3))[:, None]
        drawn = found(draws, y, z, factor)
        cases.append(
            {
                "id": f"gas-{len(cases) + 1:03}",
                "fuel": [repr(y), repr(z)],
                "factor": repr(float(factor)),
                "gas": [repr(float(v)) for v in x[:4]],
                "no": "none" if no is None else repr(no),
                "class": kind,
                "burnt_at": repr(lam),
                "lambda": text(found(x, y, z, factor), 15),
                "u": text(math.sqrt(u_by_differences), 8),
                "monte_carlo_u": text(float(numpy.std(drawn)), 6),
            }
        )
    return cases


def from_co():
    """Over lambda: the share of monoxide that shows this much of it with this much oxygen and unburnt fuel."""
    cases = []
    for fuel, co in [("E0", 0.1), ("E0", 1.9), ("E0", 3.7), ("tester", 4.5), ("tester", 7.0), ("LPG", 2.0), ("CNG", 1.0), ("ethanol", 3.0)]:
        y, z = FUELS[fuel]

        def at(co, o2, hc):
            def off(v):
                gas = burnt(v[0], y, z, v[1], v[2], 6)
                return [gas["co"] - co, gas["o2"] - o2, gas["hc"] - hc]

            made = scipy.optimize.root(off, [0.95, co / 15, 0.001 + hc * 6 / 15], tol=1e-14)
            assert max(map(abs, off(made.x))) < 1e-10, made
            return made.x[0]

        u = 0.06
        slope = (at(co + 1e-3, 0, 0) - at(co - 1e-3, 0, 0)) / 2e-3
        cases.append(
            {
                "id": f"from-co-{len(cases) + 1:03}",
                "fuel": [repr(y), repr(z)],
                "co": repr(co),
                "u_co": repr(u),
                "lambda": text(at(co, 0, 0), 11),
                "low": text(at(co, 0, 0.02), 11),
                "high": text(at(co, 1.0, 0), 11),
                "u": text(abs(slope) * u, 6),
            }
        )
    return cases


if __name__ == "__main__":
    packages = ["numpy", "scipy"]
    write("mixture_gas", "Exhaust gas burnt forward from lambda.", lambdas(), packages, SOURCE)
    write("mixture_from_co", "Lambda from carbon monoxide, searched over lambda.", from_co(), packages, SOURCE)
