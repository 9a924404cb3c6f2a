"""Best cuts into straight pieces by ruptures, and broken lines by NumPy and SciPy.

Run by hand: pip install numpy scipy ruptures; python tests/against/segments.py
It prints the figures of tests/tables/segments.rs.
"""
import numpy
import ruptures
import scipy
from scipy.optimize import minimize


def numbers(seed, count):
    """Uneven places, and numbers that follow four pieces with a jump and two bends, plus noise of a whole-number generator."""
    state, at, places, values = seed, 0.0, [], []
    for _ in range(count):
        state = (1103515245 * state + 12345) % 2**31
        step = 0.5 + (state >> 8) % 1000 / 1000
        state = (1103515245 * state + 12345) % 2**31
        noise = ((state >> 8) % 2001 - 1000) / 2000
        at += step
        share = at / count
        if share < 0.3:
            line = 2.0
        elif share < 0.55:
            line = 2.0 + 0.4 * (at - 0.3 * count)
        elif share < 0.8:
            line = 1.0 + 0.1 * count
        else:
            line = 1.0 + 0.1 * count - 0.3 * (at - 0.8 * count)
        places.append(at)
        values.append(line + noise)
    return numpy.array(places), numpy.array(values)


def hats(places, knots):
    return numpy.array([numpy.interp(places, knots, row) for row in numpy.eye(len(knots))]).T


print("ruptures", ruptures.__version__, "numpy", numpy.__version__, "scipy", scipy.__version__)
for seed, count in [(1, 40), (2, 60), (3, 90)]:
    x, y = numbers(seed, count)
    signal = numpy.column_stack([y, x, numpy.ones(count)])
    search = ruptures.Dynp(model="linear", min_size=2, jump=1).fit(signal)
    for penalty in [0.5, 2.0, 10.0]:
        best = min(
            ((search.cost.sum_of_costs(ends) + penalty * (len(ends) - 1), ends)
             for ends in [[count]] + [search.predict(n_bkps=k) for k in range(1, 13)]),
            key=lambda pair: pair[0])
        print(f"({seed}, {count}, {penalty}, {best[0]!r}, &{[int(end) for end in best[1]]}),")

x, y = numbers(4, 80)
knots = numpy.array([0.0, 20.0, 47.0, 61.0, 85.0])
print("along", numpy.linalg.lstsq(hats(x, knots), y, rcond=None)[0].tolist())


def best_left(inner):
    """Squares left with the best values for these places."""
    at = numpy.concatenate([[0.0], inner, [85.0]])
    if numpy.any(numpy.diff(at) < 0.01):
        return 1e9
    shares = hats(x, at)
    return float(numpy.sum((shares @ numpy.linalg.lstsq(shares, y, rcond=None)[0] - y) ** 2))


# Slopes change where a knot crosses a number, so that a search without slopes has the last word.
places = knots[1:-1]
for _ in range(20):
    search = minimize(best_left, places, method="Nelder-Mead", options={"xatol": 1e-11, "fatol": 1e-14, "maxiter": 20000, "maxfev": 20000})
    places = search.x
at = numpy.concatenate([[0.0], places, [85.0]])
shares = hats(x, at)
values = numpy.linalg.lstsq(shares, y, rcond=None)[0]
print("refined", values.tolist(), places.tolist(), "squares", search.fun)
slopes = (numpy.diff(values) / numpy.diff(at))[numpy.searchsorted(at, x) - 1]
moved = numpy.column_stack([shares, -slopes[:, None] * shares[:, 1:-1]])
print("spreads", numpy.sqrt(numpy.diag(numpy.linalg.inv(moved.T @ moved))).tolist())
