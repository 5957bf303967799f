"""Writes `tests/vectors/causes.json`: whole documents and what may be the matter by all that they found.

How the findings are weighed is in `weighing.py`. What a reading says of a limit is the normal distribution (scipy), or it is so
far beside the limit that nothing but the doubt of any finding is left. Records of past services are not in it, nor oxygen,
which no document gives by itself.
"""

from mixture_gas import burnt
from scipy.stats import norm
from vectors import Vectors
from weighing import SURE, answered, of_needle, of_signs

SCRIPT = "tests/oracles/causes_vectors.py"
AT = "/report/causes"
VECTORS = Vectors("causes", {}, ignition="battery")


def judged(value, u, low, high, below, inside, above):
    """The side that a reading is on with a half or more, and how surely: never more than a finding that says no doubt."""
    shares = (norm.cdf(low, value, u), norm.cdf(high, value, u) - norm.cdf(low, value, u), norm.sf(high, value, u))
    share, side = max(zip(shares, (below, inside, above)))
    return side, min(share, SURE)


FOUND = {"lash": ["in", "tight", "loose"], "compression": ["good", "oil_helps", "oil_no_help"],
         "leak": ["small", "exhaust", "intake", "breather", "coolant"], "plug": ["normal", "sooty", "white", "oily", "wet"],
         "pressure": ["right", "all_low", "all_high"], "lambda": ["right", "rich", "lean"]}
# Readings so far from the next limit that only the doubt of any finding is left.
LEAVES = {"tight": ["0.05 mm", "0.10 mm"], "in": ["0.25 mm", "0.30 mm"], "loose": ["0.55 mm", "0.60 mm"]}
GAUGE = {"good": (1.0, None), "oil_helps": (0.5, 0.95), "oil_no_help": (0.5, 0.51)}
LEVEL = {None: 1000, "right": 1000, "all_low": 500, "all_high": 1600}
# Lambda, the share of carbon that stays monoxide, and the share unburnt.
GASES = {"rich": (0.85, 0.3, 0.03), "right": (1.0, 0.03, 0.004), "lean": (1.25, 0.005, 0.004)}
RIGHT, FIRST, SECOND = 0, 1, 2


def each(kind, found, sure=SURE):
    return {at: [(kind, (FOUND[kind].index(one), sure))] for at, one in enumerate(found) if one}


def clearance(found):
    valve = {"set_to": "0.27 mm", "set": {"from": "0.20 mm", "to": "0.35 mm"}, "leave_alone": {"from": "0.20 mm", "to": "0.35 mm"}}
    leaf = lambda at, which, one: {"cylinder": str(at + 1), "valve": which, "goes": LEAVES[one][:1], "refuses": LEAVES[one][1:]}
    return {
        "valves": {"intake_per_cylinder": 1, "exhaust_per_cylinder": 1},
        "specifications": [{"id": "book", "document": "Invented book", "condition": "cold", "intake": valve, "exhaust": valve}],
        "gauge": {"leaves": sorted(sum(LEAVES.values(), [])), "stack_tolerance": "worst_case"},
        "readings": [leaf(at, which, own) for at, one in enumerate(found) for which, own in (("intake", "in"), ("exhaust", one))],
    }


def condition(compression, pressure, leak):
    section = {"valves": "settled"}
    if compression:
        kpa = lambda one: zip(("dry", "wet"), (f"{share * LEVEL[pressure]} kPa" for share in GAUGE[one] if share))
        section["compression"] = {
            "readings": [{"cylinder": str(at + 1), **dict(kpa(one))} for at, one in enumerate(compression)],
            "repeat": "5 kPa", "gauge_uncertainty": "5 kPa",
            "cranked": {"warm": True, "throttle_open": True, "all_plugs_out": True, "battery_good": True, "strokes": 6}}
    if pressure:
        section |= {"compression_ratio": 8.5, "intake_closes_abdc": "54 deg"}
    if leak:
        shows = lambda one: "90 psi" if one == "small" else "20 psi"
        where = lambda one: {} if one == "small" else {"hisses": [one]}
        section["leak"] = {
            "tester": {"supply": "100 psi", "orifice": "1.5 mm"}, "rule": {"supply": "100 psi", "orifice": "1.5 mm", "least": "60 psi"},
            "readings": [{"cylinder": str(at + 1), "shows": shows(one), "held": True} | where(one) for at, one in enumerate(leak)]}
    return section


def document(lash=None, compression=None, pressure=None, leak=None, plugs=None, dwell=None, timing=None, movement=None,
             co=None, hc=None, lamb=None, engine=None):
    """A document, and the looks it holds in the order of weighing."""
    request, looks = VECTORS.document({}, **(engine or {})), []
    if lash:
        request["clearance"] = clearance(lash)
        # Both valves of a cylinder must be right; of one that is not, that is what is found.
        said = {at: each("lash", lash, SURE if one == "tight" or one == "loose" else SURE**2)[at] for at, one in enumerate(lash)}
        looks.append(of_signs((), said))
    if compression or leak:
        request["condition"] = condition(compression, pressure, leak)
    if compression:
        whole = [("pressure", (FOUND["pressure"].index(pressure), SURE))] if pressure else []
        looks.append(of_signs(whole, each("compression", compression)))
    if leak:
        looks.append(of_signs((), each("leak", leak)))
    if plugs:
        request["causes"]["plugs"] = [{"cylinder": str(at + 1), "seen": plug} for at, plug in enumerate(plugs) if plug]
        looks.append(of_signs((), each("plug", plugs)))
    ignition = {"valves": "settled"}
    if dwell:
        ignition["contacts"] = {"dwell": {"shows": f"{dwell} deg", "uncertainty": "0.5 deg"},
                                "dwell_limits": {"from": "57 deg", "to": "63 deg"}}
        looks.append(of_signs([("dwell", judged(dwell, 0.5, 57, 63, SECOND, RIGHT, FIRST))]))
    if timing:
        ignition["timing"] = {"limits": {"from": "8 deg BTDC", "to": "12 deg BTDC"},
                              "reading": {"read": {"deg_btdc": timing}, "uncertainty": "0.5 deg", "lamp_delay_us": 0}}
        ignition["distributor"] = {"rotor": "anticlockwise", "clamp": "60 mm"}
        looks.append(of_signs([("timing", judged(timing, 0.5, 8, 12, FIRST, RIGHT, SECOND))]))
    if dwell or timing:
        request["ignition"] = ignition
    mixture = {"valves": "settled", "timing": "settled", "fuel": "E0"}
    if movement:
        mixture["gauge"] = {"movement": movement}
        looks.append(of_needle(movement))
    gas = {"probe_deep": True, "air_injection_off": True, "uncertainty": {"co": "0.2 %"}, "limits": {}}
    kinds = []
    if lamb:
        dry = burnt(GASES[lamb][0], 1.85, 0, *GASES[lamb][1:], 6)
        hc = round(1e4 * dry["hc"])
        gas |= {name: f"{dry[name]:.6f} %" for name in ("co", "co2", "o2")}
        gas["uncertainty"] = {name: "0.05 %" for name in ("co", "co2", "o2")}
        gas["limits"]["lambda"] = {"from": "0.95 lambda", "to": "1.05 lambda"}
    if co:
        gas["co"] = f"{co} %"
        gas["limits"]["co"] = {"from": "1 %", "to": "3 %"}
        kinds.append(("monoxide", judged(co, 0.2, 1, 3, SECOND, RIGHT, FIRST)))
    if hc:
        gas["hc"] = {"read": f"{hc} ppm"}
        gas["uncertainty"]["hc"] = "30 ppm"
        gas["limits"]["hc"] = {"to": "600 ppm"}
        kinds.append(("unburnt", judged(hc, 30, 0, 600, RIGHT, RIGHT, FIRST)))
    if lamb:
        kinds.append(("lambda", (FOUND["lambda"].index(lamb), SURE)))
    if kinds:
        mixture["gas"] = gas
        looks.append(of_signs(kinds))
    if movement or kinds:
        request["mixture"] = mixture
    return request, looks


def case(why, cylinders=4, percents=None, **found):
    request, looks = document(**found)
    expect = answered(looks, AT, cylinders, percents or {})
    VECTORS.case(why, f"Bayes' rule over every set of up to three; {SCRIPT}", request, expect, 1e-9)


def four(usual, **others):
    return [others.get(f"at{at + 1}", usual) for at in range(4)]


if __name__ == "__main__":
    case("one wet plug", plugs=[None, "wet", None, None])
    case("all plugs black and carbon monoxide above its limits", plugs=four("sooty"), co=4.5)
    case("carbon monoxide just below its limits and white plugs: lean, or air behind the throttle", plugs=four("white"), co=0.9)
    case("a spark that is late by the lamp, and dwell that has grown", dwell=66.0, timing=3.0)
    case("timing hardly late: as surely as the reading says", timing=7.8)
    case("one plug wet and a needle that drops regularly", plugs=four("normal", at3="wet"), movement="regular_drop")
    case("one plug oily, the needle steady", plugs=four("normal", at2="oily"), movement="steady")
    case("three things at once, each with its own sign", plugs=four("normal", at1="wet"), dwell=66.0, timing=4.0, co=4.2)
    case("unburnt fuel with carbon monoxide as it should be: a spark that fails, however seldom", co=2.0, hc=640)
    case("everything as it should be", plugs=four("normal"), dwell=60.0, timing=10.0, movement="even_ripple", co=2.0)
    case("a tight valve and a weak cylinder, the others as they should be",
         lash=four("in", at2="tight"), compression=four("good", at2="oil_no_help"))
    case("a loose valve of a cylinder whose plug is black", lash=four("in", at4="loose"), plugs=four("normal", at4="sooty"))
    case("two neighbours low that oil does not help: the gasket between them",
         compression=four("good", at2="oil_no_help", at3="oil_no_help"))
    case("low with oil's help, and air at the breather: rings", compression=four("good", at1="oil_helps"),
         leak=four("small", at1="breather"))
    case("low, and air at the exhaust: a burnt valve in its place", compression=four("good", at3="oil_no_help"),
         leak=four("small", at3="exhaust"), movement="regular_drop")
    case("all compressions low alike, the needle steady", compression=four("good"), pressure="all_low", movement="steady")
    case("all as high as they should be, one low", compression=four("good", at1="oil_no_help"), pressure="right")
    case("air in the water, and at the carburettor of another", leak=four("small", at1="coolant", at4="intake"))
    case("lambda without limits of carbon monoxide: lean, and white plugs", lamb="lean", plugs=four("white"))
    case("and rich, with unburnt fuel", lamb="rich")
    three = {"cylinders": [{"label": label} for label in "123"], "firing_order": ["1", "3", "2"]}
    case("a three: the middle plug oily, and low until oil is in", 3, engine=three,
         compression=["good", "oil_helps", "good"], plugs=["normal", "oily", "normal"])
    of_valves = dict.fromkeys(("valve_burnt", "valve_tight", "cam_worn", "cam_tooth_out"), 0)
    case("a two-stroke has no valves: what is low is not a valve", percents=of_valves, engine={"cycle": "two_stroke"},
         compression=four("good", at2="oil_no_help"), plugs=four("normal", at2="wet"))
    VECTORS.refused("a plug of no cylinder", VECTORS.document({"plugs": [{"cylinder": "7", "seen": "wet"}]}),
                    "/causes/plugs/0/cylinder", "job.no-such-cylinder")
    VECTORS.write()
