"""Writes `tests/vectors/condition.json`: whole condition documents and what their answers must hold.

Nothing here comes from the kernel. Expected compression is from the piston's place in the triangle of crank and rod
and the polytropic law; the exponent the good cylinders show is that law turned round; leaks are from the greatest
flow through a throat, as in `condition_leak.py`; the wrench is a lever; a rule is what it says of the readings.
"""

import numpy
from condition_compression import effective
from condition_leak import flux
from vectors import Vectors

SCRIPT = "tests/oracles/condition_vectors.py"
PSI = 6.894757293168
AT = "/report/condition"

VECTORS = Vectors(
    "condition",
    {"valves": "settled", "head": {"bolts_are": "settled"}},
    crank={"throw": "45 mm", "rod": "150 mm", "offset": "0 mm"},
)


def case(why, source, section, expect, within):
    VECTORS.case(why, source, VECTORS.document(section), expect, within)


def refused(why, section, place, code):
    VECTORS.refused(why, VECTORS.document(section), place, code)


def air(kpa):
    """Read where the engine stands, so that it is the pressure there."""
    return {"barometer": {"shows": f"{kpa} kPa", "set_to": "place"}, "temperature": "20 C"}


def compression():
    of = lambda shown: [{"cylinder": str(i + 1), "dry": f"{kpa!r} kPa"} for i, kpa in enumerate(shown)]
    for ratio, closes, kpa, low, high, shown in [
        (8.5, 54.0, 101.325, 1.2, 1.3, [1040.0, 1015.0, 1030.0, 1035.0]),
        (9.5, 62.0, 84.3, 1.15, 1.25, [980.0, 990.0, 965.0, 985.0]),
        (6.5, 40.0, 70.1, 1.2, 1.3, [520.0, 512.0, 518.0, 505.0]),
    ]:
        inside = effective(ratio, 90.0, 150.0, closes)
        at = lambda n: kpa * (inside**n - 1)
        case(f"compression of a sound engine of {ratio} to 1 at {kpa} kPa: what it should show, and the rules",
             f"Polytropic law; {SCRIPT}",
             {"air": air(kpa), "compression_ratio": ratio, "intake_closes_abdc": f"{closes} deg",
              "compression": {"exponent": {"from": low, "to": high}, "readings": of(shown),
                              "rules": [{"percent_of_highest": 75}]}},
             {f"{AT}/compression/level/expected_from/kpa": at(low), f"{AT}/compression/level/expected_to/kpa": at(high),
              f"{AT}/compression/rules/0/limit/kpa": 0.75 * max(shown),
              f"{AT}/compression/rules/0/lowest": f"cylinder {shown.index(min(shown)) + 1}",
              f"{AT}/compression/rules/0/judged/verdict": "in_band",
              f"{AT}/compression/cylinders/*/dry/kpa": shown}, 1e-9)
    shown = [1000.0, 650.0, 990.0, 1010.0]
    case("one cylinder far below its mates: the rule is not met, whatever the engine should show",
         f"The rule as it is printed; {SCRIPT}",
         {"air": air(101.325), "compression": {"readings": of(shown), "rules": [{"percent_of_highest": 75}]}},
         {f"{AT}/compression/rules/0/judged/verdict": "below", f"{AT}/compression/rules/0/low": ["cylinder 2"],
          f"{AT}/steps/*/standing": ["settled", "settled", "not_settled"]}, 1e-9)
    refused("a compression ratio of no engine", {"compression_ratio": 2.5, "compression": {"readings": of(shown)}},
            "/condition/compression_ratio", "engine.compression-ratio")


def leak():
    for supply, bore, kpa, shown in [(80, 1.016, 101.325, [74.0, 60.0, 41.0]), (100, 1.524, 84.3, [88.0, 35.0, 12.0])]:
        areas = []
        for psi in shown:
            before, inside, behind = (1e3 * (kpa + PSI * x) for x in (supply, psi, 0.0))
            areas.append(numpy.pi / 4 * bore**2 * flux(before, inside) / flux(inside, behind))
        readings = [{"cylinder": str(i + 1), "shows": f"{psi} psi", "held": True} for i, psi in enumerate(shown)]
        case(f"leak-down with {supply} psi before a hole of {bore} mm at {kpa} kPa: the area behind it",
             f"Compressible flow through two holes; {SCRIPT}",
             {"air": air(kpa), "leak": {"tester": {"supply": f"{supply} psi", "orifice": f"{bore} mm"}, "readings": readings}},
             {f"{AT}/leak/cylinders/*/area_mm2": areas,
              f"{AT}/leak/cylinders/*/hole/mm": [numpy.sqrt(4 * area / numpy.pi) for area in areas],
              f"{AT}/leak/cylinders/*/percent_lost": [100 * (1 - psi / supply) for psi in shown],
              f"{AT}/leak/worst": "cylinder 3"}, 1e-7)
    over = [{"cylinder": "1", "shows": "82 psi", "held": True}]
    refused("a cylinder that holds more than is let in",
            {"leak": {"tester": {"supply": "80 psi", "orifice": "1 mm"}, "readings": over}},
            "/condition/leak/readings/0/shows", "condition.leak-over-supply")


def head():
    """A lever: what of the adapter lies along the wrench makes its arm longer, which then takes less."""
    for torque, length, adapter, turned in [(68.0, 420.0, 40.0, 0.0), (95.0, 500.0, 60.0, 60.0), (95.0, 500.0, 60.0, 90.0)]:
        longer = adapter * numpy.cos(numpy.radians(turned))
        bolts = [{"name": f"{2 * i + j + 1}", "along": f"{90 * i} mm", "across": f"{80 * j} mm"}
                 for i in range(3) for j in range(2)]
        case(f"{torque} Nm by a wrench of {length} mm with an adapter of {adapter} mm turned by {turned} degrees", f"Lever; {SCRIPT}",
             {"head": {"bolts_are": "settled", "bolts": bolts, "torque": f"{torque} Nm",
                       "adapter": {"wrench_length": f"{length} mm", "length": f"{adapter} mm",
                                   "turned": f"{turned} deg"}}},
             {f"{AT}/head/set/nm": torque * length / (length + longer)}, 1e-9)


if __name__ == "__main__":
    for part in (compression, leak, head):
        part()
    VECTORS.write()
