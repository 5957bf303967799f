"""Prints the coefficients of crates/lashwork-tails/src/tail_fit.rs and their greatest relative error.

R(x) = 1 - x M(x), with Mills' ratio M, is interpolated on the whole half-line by a fraction whose numerator
has degree 10 and whose denominator degree 12, at the Chebyshev nodes of (x - 4) / (x + 4). R(0) = 1 and
x^2 R(x) -> 1 are kept. Needs mpmath (requirements.txt).
"""

from mpmath import cos, erfc, exp, lu_solve, matrix, mp, mpf, nstr, pi, polyval, sqrt

SCALE, DEGREE = 4, 10
FAR = 200
mp.dps = 60


def ratio(x):
    if x < FAR:
        with mp.workdps(100):
            return 1 - x * sqrt(pi / 2) * exp(x * x / 2) * erfc(x / sqrt(2))
    # Abramowitz and Stegun 26.2.12; at 200 the terms fall to 1e-70 and below.
    term = found = 1 / (x * x)
    for k in range(1, 25):
        term *= -(2 * k + 1) / (x * x)
        found += term
    return found


def place(j, count):
    t = cos(pi * (j + mpf(1) / 2) / count)
    return SCALE * (1 + t) / (1 - t)


def fit():
    """Linear equations above(x) = R(x) below(x), both polynomials beginning with 1 and ending alike."""
    count = 2 * DEGREE + 1
    rows, right = matrix(count, count), matrix(count, 1)
    for j in range(count):
        x = place(j, count)
        wanted, weight = ratio(x), (1 + x) ** -DEGREE
        for k in range(1, DEGREE + 1):
            rows[j, k - 1] = weight * x**k
        for k in range(1, DEGREE + 2):
            rows[j, DEGREE + k - 1] = -weight * wanted * x**k
        rows[j, DEGREE - 1] -= weight * wanted * x ** (DEGREE + 2)
        right[j] = weight * (wanted - 1)
    found = list(lu_solve(rows, right))
    above = [mpf(1)] + found[:DEGREE]
    return above, [mpf(1)] + found[DEGREE:] + above[-1:]


if __name__ == "__main__":
    above, below = fit()
    for name, coefficients in [("ABOVE", above), ("BELOW", below)]:
        assert min(coefficients) > 0
        for parity, start in [("EVEN", 0), ("ODD", 1)]:
            print(f"{name}_{parity}:", *(repr(float(c)) for c in coefficients[start::2]))
    points = (place(j, 1500) for j in range(1500))
    greatest = max(abs(polyval(above[::-1], x) / polyval(below[::-1], x) / ratio(x) - 1) for x in points)
    print("greatest relative error", nstr(greatest, 2))
