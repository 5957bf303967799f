"""Writes `tests/vectors/history.json`: whole documents of past services and what their answers must hold.

Nothing here comes from the kernel. One subject read without uncertainty is a straight line with a level for each stretch
between settings: ordinary least squares (statsmodels), whose intervals are Student's. Several of a kind, or readings with
an uncertainty, are the linear model with dense matrices of `history_drift.py`, summed here over finer grids of scatter
and spread. When to look next is where the chance of what will be found passes what the rule allows: a search (scipy).
"""

import numpy
import scipy.optimize
import scipy.stats
import statsmodels.api
from history_drift import own_slopes
from vectors import Vectors

SCRIPT = "tests/oracles/history_vectors.py"
AT = "/report/history"
SHARES = (0.025, 0.5, 0.975)

VECTORS = Vectors("history", {})


class Student:
    """A line by least squares: `stretches` are lists of times and values, each with a level of its own."""

    def __init__(self, stretches):
        times = numpy.concatenate([x for x, _ in stretches])
        levels = [numpy.full(len(x), at) for at, (x, _) in enumerate(stretches)]
        self.design = numpy.column_stack([numpy.concatenate(levels)[:, None] == numpy.arange(len(stretches)), times]).astype(float)
        self.fit = statsmodels.api.OLS(numpy.concatenate([y for _, y in stretches]), self.design).fit()

    def rate(self):
        low, high = self.fit.conf_int(0.05)[-1]
        return {"value": self.fit.params[-1], "low": low, "high": high}

    def found(self, at):
        """Where a reading of the last stretch will be: the middle, its scale, and the degrees of freedom."""
        row = numpy.append(numpy.zeros(self.design.shape[1] - 2), [1, at])
        told = self.fit.get_prediction(row)
        return told.predicted_mean[0], told.se_obs[0], self.fit.df_resid

    def forecast(self, at):
        middle, scale, freedom = self.found(at)
        return dict(zip(("low", "value", "high"), scipy.stats.t.ppf(SHARES, freedom, middle, scale)))

    def below(self, limit, at):
        middle, scale, freedom = self.found(at)
        return scipy.stats.t.cdf(limit, freedom, middle, scale)


class Dense:
    """Subjects of one kind, each a list of stretches of times and values, read with one uncertainty: all scatters and
    spreads that may be, each with the line of every subject as it is now."""

    def __init__(self, subjects, u, scatters=400, spreads=160):
        self.scale = max(x.max() for s in subjects for x, _ in s)
        lines = sum(len(s) for s in subjects)
        count = sum(len(x) for s in subjects for x, _ in s)
        X, Z, y, last, line, row = numpy.zeros((count, lines + 1)), numpy.zeros((count, len(subjects))), [], [], 0, 0
        for number, stretches in enumerate(subjects):
            for xs, ys in stretches:
                for x, value in zip(xs / self.scale, ys):
                    X[row, line], X[row, lines], Z[row, number] = 1, x, x
                    y.append(value)
                    row += 1
                line += 1
            last.append(line - 1)
        y = numpy.array(y)
        rate = own_slopes(subjects) * self.scale
        whole = numpy.sqrt(sum(numpy.sum((b - b.mean()) ** 2) for s in subjects for _, b in s) / (count - lines))
        shares = (numpy.arange(spreads) + 0.5) / spreads
        some = rate * numpy.tan(numpy.pi / 2 * shares) if len(subjects) > 1 else [0.0]
        parts = []
        for place, scatter in enumerate(u * numpy.sinh(numpy.linspace(0, numpy.arcsinh(3e3 * whole / u), scatters))):
            for spread in some:
                s2 = scatter**2 + u**2
                U = numpy.hstack([X, Z * spread])
                M = U.T @ U / s2
                M[lines + 1 :, lines + 1 :] += numpy.eye(len(subjects))
                C = numpy.linalg.inv(M)
                beta = C @ (U.T @ y) / s2
                left, own = y - U @ beta, beta[lines + 1 :]
                ln = -0.5 * (count * numpy.log(s2) + numpy.linalg.slogdet(M)[1] + left @ left / s2 + own @ own)
                told = []
                for number in range(len(subjects)):
                    # Level and slope of a subject now, and how they hang together.
                    pick = numpy.zeros((2, U.shape[1]))
                    pick[0, last[number]], pick[1, lines], pick[1, lines + 1 + number] = 1, 1, spread
                    told.append((pick @ beta, pick @ C @ pick.T))
                parts.append((ln - (numpy.log(2) if place == 0 else 0), scatter, beta[lines], C[lines, lines], told))
        logs = numpy.array([part[0] for part in parts])
        weights = numpy.exp(logs - logs.max())
        kept = weights > 1e-12
        self.parts = [part for part, is_kept in zip(parts, kept) if is_kept]
        self.weights = weights[kept] / weights[kept].sum()
        self.scatter = numpy.array([part[1] for part in self.parts])

    def quantiles(self, means, sds):
        def below(value):
            return numpy.sum(self.weights * scipy.stats.norm.cdf((value - means) / sds))

        ends = (means - 40 * sds).min(), (means + 40 * sds).max()
        found = [scipy.optimize.brentq(lambda v, share=share: below(v) - share, *ends, xtol=1e-15) for share in SHARES]
        return dict(zip(("low", "value", "high"), found))

    def rate(self):
        """Of the kind."""
        means = numpy.array([part[2] for part in self.parts])
        sds = numpy.sqrt([part[3] for part in self.parts])
        return {key: value / self.scale for key, value in self.quantiles(means, sds).items()}

    def found(self, subject, at):
        row = numpy.array([1, at / self.scale])
        means = numpy.array([row @ part[4][subject][0] for part in self.parts])
        line = numpy.array([row @ part[4][subject][1] @ row for part in self.parts])
        return means, numpy.sqrt(line + self.scatter**2)

    def forecast(self, subject, at):
        return self.quantiles(*self.found(subject, at))

    def below(self, subject, limit, at):
        means, sds = self.found(subject, at)
        return numpy.sum(self.weights * scipy.stats.norm.cdf((limit - means) / sds))


def document(services, limits=None, lash=None):
    section = {"services": services} | ({"limits": limits} if limits else {})
    request = VECTORS.document(section)
    if lash:
        valve = {"set_to": "0.30 mm", "set": {"from": "0.28 mm", "to": "0.32 mm"}, "leave_alone": {"from": lash[0], "to": lash[1]}}
        request["clearance"] = {
            "valves": {"intake_per_cylinder": 1, "exhaust_per_cylinder": 1},
            "specifications": [{"id": "book", "document": "Invented book", "condition": "cold", "intake": valve, "exhaust": valve}],
            "gauge": {"leaves": ["0.10 mm", "0.20 mm", "0.30 mm"], "stack_tolerance": "worst_case"},
            "readings": [],
        }
    return request


def told(why, services, expect, within, **more):
    VECTORS.case(why, f"Linear model, Student's t; {SCRIPT}", document(services, **more), expect, within)


def three(at, figures):
    """A figure by its middle and its interval."""
    return {f"{at}/{key}": figures[key] for key in ("value", "low", "high")}


def usual(times):
    """A usual time after the last service: as long as from one to the next so far."""
    return times[-1] + (times[-1] - times[0]) / (len(times) - 1)


def one_reading(value, unit, u):
    return {"shows": f"{value!r} {unit}", "uncertainty": f"{u!r} {unit}"}


def dwell():
    hours, degrees = [40.0, 95.0, 160.0, 210.0, 290.0, 350.0], [48.3, 48.9, 49.4, 50.1, 50.6, 51.5]
    line = Student([(numpy.array(hours), numpy.array(degrees))])
    services = [{"hours": f"{h!r} h", "dwell": [{"found": one_reading(d, "deg", 0.0)}]} for h, d in zip(hours, degrees)]
    at = usual(hours)
    own = f"{AT}/dwell/subjects/0"
    expect = three(f"{AT}/dwell/kinds/0/rate", line.rate()) | {f"{own}/forecast/at": at}
    told("dwell of six services read to the point: the least-squares line, its 95 % and those of the reading to come",
         services, expect | three(f"{own}/forecast/found", line.forecast(at)), 2e-7)
    # The simple rule accepts up to one half: where the line itself passes the limit.
    passes = scipy.optimize.brentq(lambda at: line.below(54.0, at) - 0.5, hours[-1], 2000)
    told("and when to look at the contacts next", services,
         {f"{own}/looks/0/look/at/at": passes, f"{own}/looks/0/look/at/side": "above"}, 1e-5,
         limits={"dwell": {"from": "46 deg", "to": "54 deg"}})


def lash():
    """One valve, set once: two stretches with a level each and one rate; 5 % of being tight are allowed."""
    hours = [0.0, 60.0, 130.0, 200.0, 200.0, 270.0, 330.0, 410.0]
    gaps = [0.312, 0.285, 0.262, 0.229, 0.301, 0.276, 0.249, 0.221]
    x, y = numpy.array(hours), numpy.array(gaps)
    line = Student([(x[:4], y[:4]), (x[4:], y[4:])])
    services = []
    for number, (at, gap) in enumerate(zip(hours, gaps)):
        read = {"lash": f"{gap!r} mm", "uncertainty": "0 mm"}
        if number == 4:
            services[-1]["lash"][0]["left"] = read
            continue
        services.append({"hours": f"{at!r} h", "lash": [{"cylinder": "1", "valve": "exhaust", "found": read}]})
    at = usual(sorted(set(hours)))
    own = f"{AT}/lash/subjects/0"
    told("a valve that was set once: two lines at one rate, and the reading to come on the second", services,
         three(f"{AT}/lash/kinds/0/rate", line.rate()) | three(f"{own}/rate", line.rate()) | {f"{own}/forecast/at": at}
         | three(f"{own}/forecast/found", line.forecast(at)), 1e-8, lash=("0.13 mm", "0.36 mm"))
    passes = scipy.optimize.brentq(lambda at: line.below(0.13, at) - 0.05, hours[-1], 2000)
    told("and when to look at it next: when it is tight with more than 5 %", services,
         {f"{own}/looks/0/look/at/at": passes, f"{own}/looks/0/look/at/side": "below"}, 1e-4, lash=("0.13 mm", "0.36 mm"))


def kind():
    """Four valves of one kind that borrow from each other, by days."""
    days = numpy.array([17000.0, 17370.0, 17735.0, 18110.0, 18460.0])
    dates = [str(numpy.datetime64("1970-01-01") + int(day)) for day in days]
    gaps = [[0.305, 0.298, 0.288, 0.283, 0.272], [0.311, 0.302, 0.297, 0.286, 0.281],
            [0.300, 0.294, 0.279, 0.275, 0.262], [0.307, 0.301, 0.291, 0.284, 0.279]]
    u = 0.004
    drift = Dense([[(days - days[0], numpy.array(own))] for own in gaps], u)
    services = [
        {"date": date, "lash": [
            {"cylinder": str(number + 1), "valve": "exhaust", "found": {"lash": f"{own[at]!r} mm", "uncertainty": f"{u!r} mm"}}
            for number, own in enumerate(gaps)]}
        for at, date in enumerate(dates)]
    at = usual(days)
    expect = three(f"{AT}/lash/kinds/0/rate", drift.rate())
    told("four valves of one kind, by days: the rate of the kind", services, expect, 2e-8, lash=("0.13 mm", "0.36 mm"))
    expect = {}
    for number in range(4):
        expect |= three(f"{AT}/lash/subjects/{number}/forecast/found", drift.forecast(number, at - days[0]))
    told("the readings to come, each with what its mates say", services, expect, 2e-5, lash=("0.13 mm", "0.36 mm"))
    passes = [
        days[0] + scipy.optimize.brentq(lambda at, number=number: drift.below(number, 0.13, at) - 0.05, days[-1] - days[0], 30000)
        for number in range(4)]
    told("and when to look at each next", services, {f"{AT}/lash/subjects/*/looks/0/look/at/at": passes}, 2,
         lash=("0.13 mm", "0.36 mm"))


def compression():
    """Three cylinders whose gauge scatters, by distance; one was read less often."""
    km = [20000.0, 31000.0, 42500.0, 55000.0, 64000.0]
    shown = [[1105.0, 1080.0, 1068.0, 1041.0, 1022.0], [1096.0, 1083.0, 1051.0, 1034.0, 1019.0], [None, 1092.0, None, 1040.0, 1030.0]]
    u = 15.0
    subjects = []
    for own in shown:
        read = [(at, kpa) for at, kpa in zip(km, own) if kpa is not None]
        subjects.append([(numpy.array([at for at, _ in read]) - km[0], numpy.array([kpa for _, kpa in read]))])
    drift = Dense(subjects, u)
    services = [
        {"distance": f"{distance!r} km", "compression": [
            {"cylinder": str(number + 1), "found": one_reading(own[at], "kPa", u)}
            for number, own in enumerate(shown) if own[at] is not None]}
        for at, distance in enumerate(km)]
    expect = three(f"{AT}/compression/kinds/0/rate", drift.rate())
    told("compression of three cylinders, by distance: the rate of the kind", services, expect, 2e-6)
    at, expect = usual(km), {}
    for number in range(3):
        expect |= three(f"{AT}/compression/subjects/{number}/forecast/found", drift.forecast(number, at - km[0]))
    told("the readings to come, also of the cylinder that was read less often", services, expect, 0.02)


def refusals():
    found = lambda hours: {"hours": f"{hours} h", "dwell": [{"found": one_reading(48.0, "deg", 1.0)}]}
    VECTORS.refused("services that go back in time", document([found(100), found(60)]), "/history/services/1", "history.time-backwards")
    VECTORS.refused("a service that does not say when", document([{"dwell": [{"found": one_reading(48.0, "deg", 1.0)}]}]),
                    "/history/services/0", "history.no-time")


if __name__ == "__main__":
    for part in (dwell, lash, kind, compression, refusals):
        part()
    VECTORS.write()
