"""The pace of a machine from timed stretches, by the robust linear model of statsmodels (biweight of Tukey, constant 4.685).

Run by hand: pip install numpy statsmodels; python tests/against/pace.py
It prints the figures of tests/tables/pace.rs.
"""
import numpy
import statsmodels
import statsmodels.api as sm

PRESS, STEADINESS = 3.0, 0.01


def stretches(seed, count, wrong):
    """Stretches of a machine of 41 circuits a minute whose presses are late by up to 6 s; every `wrong`-th holds a stop of minutes."""
    state, all_of_them = seed, []
    for index in range(count):
        state = (1103515245 * state + 12345) % 2**31
        circuits = 80 + (state >> 8) % 900
        state = (1103515245 * state + 12345) % 2**31
        late = ((state >> 8) % 1201 - 600) / 100
        seconds = circuits / 41 * 60 + late
        if wrong and index % wrong == wrong - 1:
            seconds += 90 + (state >> 12) % 300
        all_of_them.append((circuits, round(seconds, 2)))
    return all_of_them


def pace(timed):
    circuits, seconds = (numpy.array(column, dtype=float) for column in zip(*timed))
    value = seconds / circuits
    middle = numpy.median(value)
    spread = middle * numpy.hypot(PRESS / (middle * circuits), STEADINESS)
    model = sm.RLM(value / spread, 1 / spread, M=sm.robust.norms.TukeyBiweight(c=4.685))
    return 60 / model.fit(maxiter=200).params[0]


print(f"// statsmodels {statsmodels.__version__}, NumPy {numpy.__version__}")
for seed, count, wrong in [(1, 5, 0), (2, 5, 5), (3, 8, 4), (4, 12, 5), (5, 20, 6), (6, 40, 7)]:
    print(f"({seed}, {count}, {wrong}, {pace(stretches(seed, count, wrong)):.4f}),")
