"""Writes reference values of leak-down and of events at a lash beside this file: `cargo xtask oracles`.

The flow through a hole is the greatest over the pressures that its throat may have, from the energy of the air, so
that choking comes out of the search; areas by balance of two such flows, scatter by drawing. Events by searching a
lobe's lift for the lash.
"""

import numpy
import scipy.optimize
from generate import text, write

SOURCE = "tests/oracles/condition_leak.py"
R, CP, T = 287.05287, 1.4 / 0.4 * 287.05287, 293.15


def flux(before, behind):
    """Mass through a square metre in a second."""
    def minus(throat):
        heat = CP * T * (1 - (throat / before) ** (0.4 / 1.4))
        density = before / (R * T) * (throat / before) ** (1 / 1.4)
        return -density * numpy.sqrt(2 * max(heat, 0.0))
    if behind >= before:
        return 0.0
    found = scipy.optimize.minimize_scalar(minus, bounds=(behind, before), method="bounded", options={"xatol": 1e-10})
    return max(-found.fun, -minus(behind))


def psi(ratio):
    ratio = numpy.clip(ratio, (2 / 2.4) ** 3.5, 1.0)
    return numpy.sqrt(7 * (ratio ** (2 / 1.4) - ratio ** (2.4 / 1.4)))


def leaks():
    rng = numpy.random.default_rng(80)
    cases = []
    for supply, supply_u, bore, bore_u, shown, shown_u, air, air_u in [
        (551.58, 3.0, 1.016, 0.01, 413.69, 4.0, 101.325, 0.5),
        (551.58, 5.0, 1.016, 0.02, 275.79, 4.0, 84.307, 0.3),
        (689.48, 3.0, 1.524, 0.01, 200.0, 6.0, 99.0, 1.0),
        (600.0, 2.0, 1.0, 0.005, 560.0, 3.0, 95.0, 0.2),
        (551.58, 1.0, 1.524, 0.01, 80.0, 3.0, 101.325, 0.5),
    ]:
        p1, pc, pa = (1e3 * v for v in (air + supply, air + shown, air))
        ratio = flux(p1, pc) / flux(pc, pa)
        orifice = numpy.pi / 4 * bore**2
        draw = lambda m, s: m + s * rng.standard_normal(1_000_000)
        a, d = draw(air, air_u), draw(bore, bore_u)
        p1s, pcs = a + draw(supply, supply_u), a + draw(shown, shown_u)
        drawn = numpy.pi / 4 * d**2 * p1s * psi(pcs / p1s) / (pcs * psi(a / pcs))
        other = scipy.optimize.brentq(
            lambda p: flux(1e3 * (air + 600.0), p) * numpy.pi / 4 * 1.2**2 - orifice * ratio * flux(p, pa),
            pa * (1 + 1e-9), 1e3 * (air + 600.0) * (1 - 1e-12), xtol=1e-9, rtol=1e-14,
        )
        cases.append({
            "id": f"leak-{len(cases) + 1:03}",
            **{k: repr(v) for k, v in dict(
                supply=supply, supply_u=supply_u, bore=bore, bore_u=bore_u, shown=shown, shown_u=shown_u, air=air,
                air_u=air_u).items()},
            "area": text(float(orifice * ratio), 12),
            "area_u": text(float(numpy.std(drawn)), 6),
            "by_other": text(float(other / 1e3 - air), 10),
        })
    return cases


def events():
    cases = []
    for printed_at, running, opening, closing, rocker, angles in [
        (0.10, 0.20, (0.30, 0.010, 0.08), (0.25, 0.015, 0.09), 1.0, (18.0, 54.0, 52.0, 16.0)),
        (0.15, 0.45, (0.20, 0.012, 0.10), (0.20, 0.012, 0.10), 1.4, (20.0, 60.0, 60.0, 20.0)),
        (0.30, 0.05, (0.15, 0.008, 0.06), (0.10, 0.010, 0.07), 1.3, (6.0, 35.0, 38.0, 5.0)),
    ]:
        def at(lash, ramp):
            """Crank degrees from the base circle at which the valve would have moved by the lash."""
            height, slope, flank = ramp
            lift = lambda cam: rocker * (slope * cam if slope * cam < height else height + flank * (cam - height / slope))
            return 2 * scipy.optimize.brentq(lambda cam: lift(cam) - lash, 0.0, 200.0, xtol=1e-13)
        later = at(running, opening) - at(printed_at, opening)
        earlier = at(running, closing) - at(printed_at, closing)
        ivo, ivc, evo, evc = angles
        cases.append({
            "id": f"events-{len(cases) + 1:03}",
            "printed_at": repr(printed_at),
            "running": repr(running),
            "opening": [repr(v) for v in opening],
            "closing": [repr(v) for v in closing],
            "rocker": repr(rocker),
            "angles": [repr(v) for v in angles],
            "found": [text(float(v), 12) for v in (ivo - later, ivc - earlier, evo - later, evc - earlier)],
            "durations": [text(float(v), 12) for v in (ivo + 180 + ivc - later - earlier, evo + 180 + evc - later - earlier)],
            "overlap": text(float(ivo + evc - later - earlier), 12),
        })
    return cases


if __name__ == "__main__":
    write("condition_leak", "leak-down as an area, by energy and search", leaks(), ["numpy", "scipy"], SOURCE)
    write("condition_events", "events at a lash, by search", events(), ["numpy", "scipy"], SOURCE)
