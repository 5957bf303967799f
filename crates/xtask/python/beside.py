"""Times of the same work with numpy and scipy, one line each: name, a tab, nanoseconds.

Written as a user of these packages would write it: whole arrays where the work is an array, the same
formulas, and no more than the kernel gives (probabilities; a correction with its uncertainty).
"""

import timeit

import numpy
import scipy.optimize
import scipy.stats
import statsmodels.api
from scipy.special import erfcx, ndtr

LOW, HIGH = 0.15, 0.20


def integral(z):
    return z * ndtr(z) + numpy.exp(-z * z / 2) / numpy.sqrt(2 * numpy.pi)


def at_most(limit, a, b, u):
    return u / (b - a) * (integral((limit - a) / u) - integral((limit - b) / u))


def verdicts(a, b, u):
    tight = at_most(LOW, a, b, u)
    loose = 1 - at_most(HIGH, a, b, u)
    in_band = 1 - tight - loose
    return numpy.select([tight > 0.95, loose > 0.5, (tight < 0.05) & (loose <= 0.5)], [1, 2, 0], 3), tight, in_band, loose


def ramp(z):
    """The integral of the normal distribution function, without cancellation in the tail: the scaled error
    function keeps twelve digits as deep as these readings go."""
    x = numpy.abs(z)
    density = numpy.exp(-0.5 * x * x) / numpy.sqrt(2 * numpy.pi)
    tail = density * (1 - numpy.sqrt(numpy.pi / 2) * x * erfcx(x * numpy.sqrt(0.5)))
    return numpy.where(z > 0, z + tail, tail)


def needless(cases):
    """Looks for cases that need other formulas, as the kernel does; these readings have none."""
    if cases.any():
        raise ValueError("a narrow interval or band")


def sides(limit, a, b, u):
    """Chance to lie below and above, each from the small tail of the two."""
    width = (b - a) / u
    q, p = (limit - b) / u, (limit - a) / u
    flip = p + q > 0
    q, p = numpy.where(flip, -p, q), numpy.where(flip, -q, p)
    small = (ramp(p) - ramp(q)) / width
    needless(width * (1 + numpy.abs(p)) <= 1)
    large = 1 - small
    return numpy.where(flip, large, small), numpy.where(flip, small, large)


def probabilities(a, b, u, low=LOW, high=HIGH):
    tight, above_low = sides(low, a, b, u)
    below_high, loose = sides(high, a, b, u)
    outside = tight + loose
    depth = numpy.maximum(numpy.maximum(a - high, low - b) / u, 0)
    needless((outside > 0.5) & ((high - low) / u * (1 + depth) <= 1))
    difference = numpy.where(loose >= tight, below_high - tight, above_low - loose)
    return tight, numpy.where(outside <= 0.5, 1 - outside, numpy.maximum(difference, 0)), loose


def codes_of(tight, loose):
    accepted = (tight <= 0.05 + 1e-12) & (loose <= 0.5 + 1e-12)
    is_tight, is_loose = tight >= 0.5 - 1e-12, loose >= 0.5 - 1e-12
    return numpy.select([accepted, is_tight & ~is_loose, is_loose & ~is_tight], [1, 2, 3], 4), accepted


REACH = numpy.sqrt(-2 * numpy.log(0.05))


def judged_readings(low, high, u, lower, upper, celsius, kelvin, reference, slope, slope_u):
    """What one column of readings gives: the range of every number looked at, the reading brought to the
    temperature of its limits, probabilities with safe tails, the verdict, and whether any reading of that spread
    could be accepted, worked out only for rows of which no simple bound says it."""
    status = ~(
        (low <= high) & (numpy.abs(low) <= 20) & (numpy.abs(high) <= 20) & (u >= 0) & (u <= 40) & (lower <= upper)
        & (numpy.abs(lower) <= 20) & (numpy.abs(upper) <= 20) & (celsius >= -273.15) & (celsius <= 2000)
        & (reference >= -273.15) & (reference <= 2000) & (kelvin >= 0) & (kelvin <= 2500) & (slope_u >= 0)
    )
    rise = celsius - reference
    change = slope * rise
    status |= ~(numpy.abs(change) <= 40)
    u = numpy.hypot(u, numpy.hypot(rise * slope_u, slope * kelvin))
    a, b = low - change, high - change
    tight, in_band, loose = probabilities(a, b, u, lower, upper)
    codes, accepted = codes_of(tight, loose)
    provable = accepted | (upper - lower > (b - a) + 2 * REACH * u)
    rest = numpy.flatnonzero(~provable)
    low, high = lower[rest], upper[rest]
    middle, half = low + (high - low) / 2, (b - a)[rest] / 2
    centre_tight, _, centre_loose = probabilities(middle - half, middle + half, u[rest], low, high)
    # Where even the centre fails the kernel searches on; these readings do not come to that.
    provable[rest] = codes_of(centre_tight, centre_loose)[1]
    return a, b, u, codes.astype(numpy.uint8), provable, tight, in_band, loose, status.astype(numpy.uint32)


def fleet(count):
    """The readings of `benches/src/fleet.rs`."""
    rows = numpy.arange(count)

    def over(step, low, high):
        return low + (high - low) * (rows * step % count / count)

    lower = 0.10 + 0.05 * (rows % 7)
    upper = lower + 0.07 + 0.01 * (rows % 3)
    low = lower + over(37, -0.1, 0.15)
    reference = numpy.where(rows % 5 == 0, 80.0, 20.0)
    u, celsius, kelvin = over(61, 0.003, 0.008), over(89, 10.0, 80.0), over(97, 1.0, 3.0)
    return low, low + 0.05, u, lower, upper, celsius, kelvin, reference, over(53, 0.0002, 0.0012), over(53, 0.000_02, 0.000_12)


STARTS = 0.05 + 0.25 * numpy.arange(1000) / 1000
LENGTHS = numpy.array([200.0, 200.0])
SIGNS = numpy.array([1.0, -1.0])
COEFFICIENTS = numpy.array([21.5e-6, 11.7e-6])
RISE = 60.0


def correction():
    each = SIGNS * COEFFICIENTS * LENGTHS * RISE
    by_length = SIGNS * COEFFICIENTS * RISE * 0.5
    by_coefficient = LENGTHS * RISE * 0.5e-6
    by_temperature = (SIGNS * COEFFICIENTS * LENGTHS).sum() * 3.0
    return each.sum(), numpy.sqrt((by_length**2).sum() + (by_coefficient**2).sum() + by_temperature**2)


CURVE_RPM = numpy.array([600.0, 1600.0, 2600.0])
LEAST, MOST = numpy.array([0.0, 12.0, 20.0]), numpy.array([2.0, 14.0, 22.0])
STEEP = numpy.concatenate([[0], numpy.diff((LEAST + MOST) / 2) / numpy.diff(CURVE_RPM), [0]])
LATEST, EARLIEST, SPEED_U = 8.0, 12.0, 50.0
ROWS = numpy.arange(10_000)
RPM = 700 + 3000 * (ROWS * 37 % 10_000 / 10_000)
READ = 6 + 8 * (ROWS * 61 % 10_000 / 10_000) + numpy.interp(RPM, CURVE_RPM, (LEAST + MOST) / 2)
READ_U = numpy.full(10_000, 0.5)


def slope(rpm):
    """How steep the curve is; on a point the steeper of its two sides."""
    return numpy.maximum(*(STEEP[numpy.searchsorted(CURVE_RPM, rpm, side=side)] for side in ("left", "right")))


def timings(read, rpm, u):
    """What one column of strobe readings gives: each brought to the standing engine by the curve, with what its
    width and the speed leave uncertain, then judged as the other columns are, the early side guarded."""
    status = ~((numpy.abs(read) <= 60) & (rpm >= 0) & (rpm <= 30_000) & (u >= 0) & (u <= 90))
    least, most = numpy.interp(rpm, CURVE_RPM, LEAST), numpy.interp(rpm, CURVE_RPM, MOST)
    middle, half = read - (least + most) / 2, (most - least) / 2
    u = numpy.hypot(u, slope(rpm) * SPEED_U)
    a, b = middle - half, middle + half
    late, in_band, early = probabilities(a, b, u, LATEST, EARLIEST)
    accepted = (late <= 0.5 + 1e-12) & (early <= 0.05 + 1e-12)
    is_late, is_early = late >= 0.5 - 1e-12, early >= 0.5 - 1e-12
    codes = numpy.select([accepted, is_late & ~is_early, is_early & ~is_late], [1, 2, 3], 4)
    spreads, of_row = numpy.unique(numpy.round(half + 1j * u, 9), return_inverse=True)
    centre = (LATEST + EARLIEST) / 2
    ends = centre - spreads.real, centre + spreads.real
    centre_late, _, centre_early = probabilities(*ends, spreads.imag, LATEST, EARLIEST)
    fits = (centre_late <= 0.5 + 1e-12) & (centre_early <= 0.05 + 1e-12)
    return codes.astype(numpy.uint8), accepted | fits[of_row], late, in_band, early, a, b, u, status.astype(numpy.uint32)


FIT_RPM = numpy.array([650.0, 900, 1200, 1500, 2000, 2700, 3000])
FIT_OVER = numpy.array([9.1, 13.9, 18.2, 22.0, 27.3, 30.8, 31.2]) - 10
FIT_ENDS = FIT_RPM >= CURVE_RPM[-1]


def curve_fit():
    """Static point, scale of the curve and its end, with their covariance, from where the book has them."""
    table = numpy.interp(FIT_RPM, CURVE_RPM, (LEAST + MOST) / 2)
    u = numpy.hypot(0.5, slope(FIT_RPM) * SPEED_U)

    def off(p):
        return (FIT_OVER - p[0] - numpy.where(FIT_ENDS, p[2], numpy.minimum(p[1] * table, p[2]))) / u

    found = scipy.optimize.least_squares(off, [0.0, 1.0, 21.0])
    covariance = numpy.linalg.inv(found.jac.T @ found.jac)
    return found.x, covariance * max(2 * found.cost / (len(FIT_RPM) - 3), 1)


HYDROGEN, OXYGEN_OF_AIR, WATER_GAS, FACTOR = 1.85, 0.2095, 3.5, 6
NEED = 1 + HYDROGEN / 4
AIR_FUEL_RATIO = NEED * 28.965 / OXYGEN_OF_AIR / (12.011 + 1.008 * HYDROGEN)
CLASS_0 = numpy.array([0.5, 0.03, 0.1, 0.001])


def spread(step, low, high):
    return low + (high - low) * (ROWS * step % 10_000 / 10_000)


GASES = spread(37, 11.0, 15.0), spread(61, 0.1, 5.0), spread(89, 0.1, 3.0), 1e-4 * spread(97, 20.0, 900.0)
AIRS = spread(37, 80.0, 104.0), spread(61, -10.0, 40.0), spread(89, 0.0, 100.0)


def lambdas(co2, co, o2, hc):
    """Brettschneider's lambda with the uncertainty of the tester, and the first thing that does not fit, as one
    column gives them."""
    status = ~((co2 > 0) & (co2 <= 16.5) & (co >= 0) & (co <= 100) & (o2 >= 0) & (o2 <= 20.95) & (hc >= 0) & (hc <= 100))
    ours = [numpy.maximum(0.05 * gas, least) / numpy.sqrt(3) for gas, least in zip((co2, co, o2, hc), CLASS_0)]
    burnt, mixed = co2 + co, WATER_GAS * co2 + co
    quarter = HYDROGEN / 4 * WATER_GAS
    water = quarter * co2 / mixed
    water_by_co2, water_by_co = quarter * co / mixed**2, -quarter * co2 / mixed**2
    oxygen = co2 + co / 2 + o2 + water * burnt
    by_co2, by_co = 1 + water_by_co2 * burnt + water, 0.5 + water_by_co * burnt + water
    carbon = burnt + FACTOR * hc
    burns = NEED * carbon
    found = oxygen / burns
    lost = found / carbon
    slopes = by_co2 / burns - lost, by_co / burns - lost, 1 / burns, -lost * FACTOR
    u = numpy.sqrt(sum((slope * one) ** 2 for slope, one in zip(slopes, ours)))
    rest = (1 - OXYGEN_OF_AIR) / OXYGEN_OF_AIR
    free = HYDROGEN / 2 - 2 * water
    total = burnt + o2 + hc + free * burnt + rest * oxygen
    slopes = 1 + free - 2 * water_by_co2 * burnt + rest * by_co2, 1 + free - 2 * water_by_co * burnt + rest * by_co, 1 + rest, 1
    total_u = numpy.sqrt(sum((slope * one) ** 2 for slope, one in zip(slopes, ours)))
    unburnt = numpy.minimum(NEED * FACTOR * hc / numpy.where(o2 > 0, o2, numpy.inf), 1)
    doubts = [
        (o2 >= 1.5) & (co >= 1), (o2 >= 1.5) & (unburnt > 0.25), found > 1.3,
        (found < 0.6) | (found > 2), numpy.abs(total - 100) > 3 * total_u,
    ]
    return found, u, numpy.select(doubts, [1, 2, 4, 8, 16], 0).astype(numpy.uint8), status.astype(numpy.uint32)


def lambda_verdict():
    """Lambda of one analysis, judged between 0.88 and 0.93 with the lean side guarded, and Spindt's beside it."""
    co2, co, o2, hc = (numpy.array([value]) for value in (12.5, 3.5, 0.6, 0.025))
    found, u, doubt, _ = lambdas(co2, co, o2, hc)
    rich, lean = ndtr((0.88 - found) / u), ndtr((found - 0.93) / u)
    carbon = 12.011 / (12.011 + 1.008 * HYDROGEN)

    def spindt(r, q):
        return 11.492 * carbon * (1 + r / 2 + q) / (1 + r) + 120 * (1 - carbon) / (WATER_GAS + r)

    burnt = co2 + co
    beside = burnt / (burnt + FACTOR * hc) * spindt(co / co2, o2 / co2) / spindt(0, 0)
    verdict = numpy.select([(rich <= 0.5) & (lean <= 0.05), (rich > 0.5) & (lean <= 0.5), lean > 0.5], [1, 2, 3], 4)
    return verdict, found, u, beside, found * AIR_FUEL_RATIO, doubt, rich, 1 - rich - lean, lean


def densities(kpa, celsius, percent):
    """Moist air by CIPM-2007 with the uncertainty of the readings, and density altitude, as one column gives them."""
    status = ~((kpa >= 20) & (kpa <= 120) & (celsius >= -60) & (celsius <= 80) & (percent >= 0) & (percent <= 100))
    p, k, h = 1000 * kpa, celsius + 273.15, percent / 100
    a, b, c, d = 1.2378847e-5, -1.9121316e-2, 33.93711047, -6.3431645e3
    saturated = numpy.exp(a * k * k + b * k + c + d / k)
    saturated_by_t = saturated * (2 * a * k + b - d / (k * k))
    enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * celsius * celsius
    vapour = enhancement * saturated / p
    x = h * vapour
    x_by_p = h * saturated * (3.14e-8 / p - enhancement / (p * p))
    x_by_t = h * (enhancement * saturated_by_t + 2 * 5.6e-7 * celsius * saturated) / p
    a0, a1, a2, b0, b1, c0, c1, d, e = (
        1.58123e-6, -2.9331e-8, 1.1043e-10, 5.707e-6, -2.051e-8, 1.9898e-4, -2.376e-6, 1.83e-11, -0.765e-8)
    first = a0 + a1 * celsius + a2 * celsius * celsius + (b0 + b1 * celsius) * x + (c0 + c1 * celsius) * x * x
    second = d + e * x * x
    q = p / k
    z = 1 - q * first + q * q * second
    z_by_x = -q * (b0 + b1 * celsius + 2 * (c0 + c1 * celsius) * x) + q * q * 2 * e * x
    z_by_p = -first / k + 2 * q / k * second + z_by_x * x_by_p
    z_by_t = (
        q / k * first - q * (a1 + 2 * a2 * celsius + b1 * x + c1 * x * x) - 2 * q * q / k * second + z_by_x * x_by_t)
    lighter = 1 - 18.01528 / 28.96546
    left = 1 - x * lighter
    found = p * 28.96546e-3 / (z * 8.314472 * k) * left
    by_p = 1000 * found * (1 / p - z_by_p / z - lighter * x_by_p / left)
    by_t = found * (-1 / k - z_by_t / z - lighter * x_by_t / left)
    by_h = 0.01 * found * vapour * (-z_by_x / z - lighter / left)
    u = numpy.sqrt((by_p * 0.2) ** 2 + (by_t * 1.0) ** 2 + (by_h * 5.0) ** 2)
    power = 9.80665 / (287.05287 * 0.0065)
    altitude = 288.15 / 0.0065 * (1 - (found / (101325 / (287.05287 * 288.15))) ** (1 / (power - 1)))
    altitude = numpy.where((altitude >= -1524) & (altitude <= 6096), altitude, numpy.nan)
    return found, u, altitude, status.astype(numpy.uint32)


LOOKS = numpy.array([[25.1, 25.3], [27.0, 26.8], [29.4, 29.1], [30.2, 30.5]])
# What each screw moves: the first throttle, the fourth, the third and fourth.
MOVED = numpy.array([[1.0, 0, 0], [0, 0, 0], [0, 0, 1], [0, 1, 1]])
TRIALS = [(0, 45.0, 25.2, 22.2), (1, 45.0, 30.3, 27.6), (2, -30.0, 29.2, 31.9), (2, 30.0, 29.3, 26.5)]
SCATTER, ALLOWED = 0.2, 5.0


def balance():
    """By how much each screw has to be turned, each with its uncertainty, and the chance that greatest less least is
    within what is allowed."""
    means, variance = LOOKS.mean(axis=1), SCATTER**2 / LOOKS.shape[1]
    design = numpy.column_stack([numpy.ones(4), -MOVED])
    change = numpy.linalg.lstsq(design, means, rcond=None)[0][1:]
    change_u = numpy.sqrt(numpy.diag(numpy.linalg.inv(design.T @ design))[1:] * variance)
    turns = []
    for screw, (need, u) in enumerate(zip(change, change_u)):
        turn, seen = numpy.array([(angle, after - before) for own, angle, before, after in TRIALS if own == screw]).T
        square = turn @ turn
        slope = turn @ seen / square
        left = seen - slope * turn
        single = max(numpy.sqrt(2) * SCATTER, numpy.sqrt(left @ left / max(len(turn) - 1, 1)))
        turns.append((need / slope, numpy.hypot(u, need / slope * single / numpy.sqrt(square)) / abs(slope)))
    sd = numpy.sqrt(variance)
    at = numpy.linspace(means.min() - 8 * sd, means.max() + 8 * sd, 400)
    density = numpy.exp(-0.5 * ((at[:, None] - means) / sd) ** 2) / (sd * numpy.sqrt(2 * numpy.pi))
    within = ndtr((at[:, None] + ALLOWED - means) / sd) - ndtr((at[:, None] - means) / sd)
    least = sum(density[:, own] * numpy.delete(within, own, axis=1).prod(axis=1) for own in range(4))
    return turns, numpy.trapezoid(least, at)


SERVICES = numpy.arange(20)
HOURS = 50.0 * SERVICES
GAP_SCATTER = -0.004 + 0.008 * ((ROWS[:, None] * 7 + SERVICES * 613) * 37 % 10_000 / 10_000)
GAPS = 0.36 - spread(61, 1e-4, 5e-4)[:, None] * HOURS / 5 + GAP_SCATTER
TIGHT, RISK, AHEAD = 0.13, 0.05, 10


def drifts(gaps):
    """Straight lines through all rows at once: the rate with its standard deviation, and when a reading to come is under
    the limit with more than the risk, by Student's t, as far ahead as ten records. Readings are points, and what they
    state of themselves does not count: least squares on arrays has no place for either."""
    count = len(HOURS)
    x = HOURS - HOURS.mean()
    square = x @ x
    middle = gaps.mean(axis=1)
    rate = gaps @ x / square
    left = gaps - middle[:, None] - rate[:, None] * x
    variance = (left * left).sum(axis=1) / (count - 2)
    quantile = scipy.stats.t.ppf(1 - RISK, count - 2) ** 2
    # limit = middle + rate t - q sqrt(variance (1 + 1 / n + t^2 / square)): the later root of a quadratic.
    a = rate * rate - quantile * variance / square
    b = 2 * rate * (middle - TIGHT)
    c = (middle - TIGHT) ** 2 - quantile * variance * (1 + 1 / count)
    root = numpy.sqrt(numpy.maximum(b * b - 4 * a * c, 0))
    at = HOURS.mean() + numpy.where(a != 0, (-b - root) / (2 * a), -c / b)
    far = HOURS[-1] + AHEAD * (HOURS[-1] - HOURS[0])
    at = numpy.where((rate < 0) & (at <= far), numpy.maximum(at, HOURS[-1]), far)
    return rate, numpy.sqrt(variance / square), at


def drift_by_row(gaps):
    """The same of one row with a package for regression: weights by what the readings state, and a search."""
    design = statsmodels.api.add_constant(HOURS)
    found = statsmodels.api.WLS(gaps, design, weights=numpy.full(len(HOURS), 0.003**-2)).fit()

    def over(at):
        told = found.get_prediction(numpy.array([[1.0, at]]), weights=0.003**-2)
        return scipy.stats.t.cdf(TIGHT, found.df_resid, told.predicted_mean[0], told.se_obs[0]) - RISK

    far = HOURS[-1] + AHEAD * (HOURS[-1] - HOURS[0])
    at = scipy.optimize.brentq(over, HOURS[-1], far, xtol=1e-6) if over(HOURS[-1]) < 0 < over(far) else far
    return found.params[1], found.bse[1], at


# Row by row takes minutes for all: so many, and the time of all by their number.
BY_ROW = 100

SHOWN, AROUND = spread(37, 30.0, 545.0), spread(61, 80.0, 104.0)


def leak_ratio(supply, shown, air):
    def flow(ratio):
        ratio = numpy.clip(ratio, (2 / 2.4) ** 3.5, 1)
        return numpy.sqrt(numpy.maximum(7 * (ratio ** (2 / 1.4) - ratio ** (2.4 / 1.4)), 0))

    shown = numpy.clip(shown, 0.02 * supply, supply)
    before, inside = supply + air, shown + air
    return before * flow(inside / before) / (inside * flow(air / inside))


def leaks(shown, air):
    """Areas of leaks with what gauge, supply, air and orifice leave uncertain, as one column gives them."""
    status = ~((shown >= 0.02 * 551.58) & (shown <= 551.58) & (air >= 30) & (air <= 110))
    orifice = numpy.pi / 4 * 1.016**2
    ratio = leak_ratio(551.58, shown, air)
    by_shown = (leak_ratio(551.58, shown - 4, air) - leak_ratio(551.58, shown + 4, air)) / 2
    by_supply = (leak_ratio(554.58, shown, air) - leak_ratio(548.58, shown, air)) / 2
    by_air = (leak_ratio(551.58, shown, air + 0.5) - leak_ratio(551.58, shown, air - 0.5)) / 2
    u = orifice * numpy.sqrt(by_shown**2 + by_supply**2 + by_air**2 + (ratio * 2 * 0.01 / 1.016) ** 2)
    area = orifice * ratio
    return area, u, numpy.sqrt(4 * area / numpy.pi), status.astype(numpy.uint32)


def nanoseconds(work):
    timer = timeit.Timer(work)
    count, _ = timer.autorange()
    return min(timer.repeat(repeat=5, number=count)) / count * 1e9


if __name__ == "__main__":
    FEW, MANY = fleet(10_000), fleet(1_000_000)
    for name, work in [
        ("one_verdict", lambda: verdicts(0.1333, 0.1833, 0.005)),
        ("thousand_verdicts", lambda: verdicts(STARTS, STARTS + 0.05, 0.005)),
        ("fleet_same_work 10000", lambda: judged_readings(*FEW)),
        ("fleet_same_work 1000000", lambda: judged_readings(*MANY)),
        ("one_correction", correction),
        ("one_timing_verdict", lambda: timings(numpy.array([21.0]), numpy.array([1300.0]), numpy.array([0.5]))),
        ("one_curve_fit", curve_fit),
        ("ten_thousand_timings", lambda: timings(READ, RPM, READ_U)),
        ("one_lambda_verdict", lambda_verdict),
        ("one_balance", balance),
        ("ten_thousand_densities", lambda: densities(*AIRS)),
        ("ten_thousand_lambdas", lambda: lambdas(*GASES)),
        ("ten_thousand_drifts", lambda: drifts(GAPS)),
        ("ten_thousand_leaks", lambda: leaks(SHOWN, AROUND)),
    ]:
        print(f"{name}\t{nanoseconds(work):.1f}")
    by_row = nanoseconds(lambda: [drift_by_row(gaps) for gaps in GAPS[:BY_ROW]])
    print(f"ten_thousand_drifts_by_row\t{by_row * len(GAPS) / BY_ROW:.1f}")
