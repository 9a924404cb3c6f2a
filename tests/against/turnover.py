"""How a line turns over, by the integrators of SciPy (Dormand and Prince, order 8), from the formulas of src/turnover.

Run by hand: pip install numpy scipy; python tests/against/turnover.py
It prints the figures of tests/turnover/library.rs. It needs nothing of the core, and goes its own way: time is what it steps by, the
line is a table of 0.5 mm, and the loop has 2000 places instead of 16.

It prints the figures twice. First with the means of the core: one diameter, one mass and one Reynolds number for the whole loop. Then
with every place of the loop by itself: its diameter, its mass per length, its own two Reynolds numbers, and its own turning.
At last it leaves out what the core adds to the older papers, and prints their closed form.
"""
import numpy as np
import scipy
from scipy.integrate import solve_ivp

GRAVITY, STEP = 9.80665, 0.0005
NYLON, FLY_DRAG = 1140.0, 1.0
MEAN_ACROSS, MEAN_ALONG = 0.85, 1.6
LAWS = {"usual": ((1.0, 10.0, 2 / 3), (0.0, 0.78, 0.61)), "constant": ((1.0, 0.0, 0.0), (0.010, 0.0, 0.0))}

# Pieces of the line from its tip: metres, millimetres at both ends, grams per cubic centimetre. Then outside, height of the loop, speed,
# leader, its butt, tippet and length of tippet, mass and breadth of the fly. Then density and viscosity of the air, and the law.
USUAL = (9.144, 0.6, 15.0, 2.743, 0.53, 0.18, 0.6, 0.05, 8.0)
AIR = (1.20, 1.51e-5, "usual")
LEVEL = [(20.0, 1.07, 1.07, 1.10)]
SHORT_TAPER = [(1.5, 0.6, 1.15, 1.08), (15.0, 1.15, 1.15, 1.08)]
LONG_TAPER = [(7.6, 0.6, 1.25, 1.05), (15.0, 1.25, 1.25, 1.05)]
REVERSE = [(6.0, 1.35, 1.0, 1.10), (10.0, 1.0, 0.8, 1.10)]
FLOATING = [(0.3, 0.8, 0.8, 0.80), (4.0, 0.8, 1.5, 0.80), (10.0, 1.5, 1.5, 0.80)]
CASES = [
    (LEVEL, USUAL, AIR),
    (SHORT_TAPER, USUAL, AIR),
    (LONG_TAPER, USUAL, AIR),
    (REVERSE, USUAL, AIR),
    (FLOATING, (12.0, 1.0, 22.0, 3.6, 0.6, 0.15, 1.0, 0.3, 15.0), AIR),
    (LONG_TAPER, (15.0, 0.3, 25.0, 2.0, 0.5, 0.25, 0.5, 0.02, 4.0), (1.05, 1.75e-5, "usual")),
    (SHORT_TAPER, (6.0, 0.2, 9.0, 1.5, 0.4, 0.2, 0.3, 0.01, 3.0), AIR),
    (LEVEL, (9.144, 0.6, 15.0, 2.743, 1.0, 1.0, 0.6, 0.05, 8.0), (1.20, 1.51e-5, "constant")),
]


class Line:
    """Diameter, mass and what follows from them, from the fly on."""

    def __init__(self, pieces, cast):
        outside, _, _, leader, butt, tippet, level, _, _ = cast
        parts = [(level, tippet, tippet, NYLON), (leader - level, tippet, butt, NYLON)]
        for length, thin, thick, density in pieces:
            taken = min(length, outside)
            outside -= taken
            if taken > 0:
                parts.append((taken, thin, thin + (thick - thin) * taken / length, density * 1e3))
        self.length = sum(part[0] for part in parts)
        self.at = np.arange(STEP / 2, self.length, STEP)
        self.size, self.mass = np.zeros_like(self.at), np.zeros_like(self.at)
        begin = 0.0
        for length, thin, thick, density in parts:
            inside = (self.at >= begin) & (self.at < begin + length)
            self.size[inside] = (thin + (thick - thin) * (self.at[inside] - begin) / length) / 1e3
            self.mass[inside] = density * np.pi / 4 * self.size[inside] ** 2
            begin += length
        self.ends = np.append(0.0, self.at + STEP / 2)

    def sum_of(self, values):
        """A function that sums values of the line from the fly up to a place."""
        sums = np.append(0.0, np.cumsum(values) * STEP)
        return lambda at: np.interp(at, self.ends, sums)


class Cast:
    PLACES = 2000

    def __init__(self, pieces, cast, air, by_place, is_old=False):
        self.line = Line(pieces, cast)
        _, height, self.speed, self.leader, _, _, _, fly, breadth = cast
        self.density, self.viscosity, law = air
        self.across, self.along = LAWS[law]
        self.radius, self.fly = height / 2, fly / 1e3
        self.fly_area = np.pi / 4 * (breadth / 1e3) ** 2 * FLY_DRAG
        self.mass_to = self.line.sum_of(self.line.mass)
        self.size_to = self.line.sum_of(self.line.size)
        self.skin_to = self.line.sum_of(self.line.size ** (1 - self.along[2]))
        self.begin = (np.arange(self.PLACES) + 0.5) / self.PLACES * np.pi - np.pi / 2
        self.way = self.radius * (self.begin + np.pi / 2)
        self.width = self.radius * np.pi / self.PLACES
        self.by_place, self.is_old = by_place, is_old

    def drag(self, law, reynolds):
        constant, factor, exponent = law
        return constant + factor * np.maximum(reynolds, 1e-3) ** -exponent if factor else constant + 0 * reynolds

    def local(self, left):
        at = left + self.way
        return np.interp(at, self.line.at, self.line.size), np.interp(at, self.line.at, self.line.mass)

    def moving(self, left, sine):
        """Mass of all that moves, by its energy at the speed of the upper leg."""
        _, mass = self.local(left)
        loop = 0 if self.is_old else np.sum(mass * (1 - sine) / 2) * self.width
        return self.fly + self.mass_to(left) + loop

    def nose(self, direction):
        """Length from the upper leg to where the direction is 0."""
        return np.interp(0.0, direction, self.way)

    def hold(self, left, speed, direction):
        """What the air does to the loop, as power over the third power of the speed; and how each place turns with each metre."""
        sine, cosine, half = np.sin(direction), np.cos(direction), speed / 2
        size, mass = self.local(left)
        if self.by_place:
            mean = np.trapezoid(mass * cosine, direction) / np.trapezoid(cosine, direction)
            across = self.drag(self.across, size * half * cosine / self.viscosity)
            along = self.drag(self.along, size * half * (1 - sine) / self.viscosity)
        else:
            end = left + 2 * self.nose(direction)
            size = (self.size_to(end) - self.size_to(left)) / (end - left)
            mean = mass = (self.mass_to(end) - self.mass_to(left)) / (end - left)
            across = self.drag(self.across, size * MEAN_ACROSS * half / self.viscosity)
            along = self.drag(self.along, size * MEAN_ALONG * half / self.viscosity)
        both = across * cosine**3 + np.pi * along * (1 - sine) ** 3
        loop = np.sum(0.5 * self.density * size / 8 * both) * self.width
        return loop, mean, self.density * across * size / (4 * mass) * cosine**2

    def change(self, _, state):
        left, energy, fall, _ = state[:4]
        direction = state[4:]
        mass = self.moving(left, np.sin(direction))
        speed = np.sqrt(2 * energy / mass)
        skin = self.along[0] * self.size_to(left)
        if self.along[1]:
            skin += self.along[1] * (speed / self.viscosity) ** -self.along[2] * self.skin_to(left)
        loop, mean, turn = self.hold(left, speed, direction)
        power = speed**3 * (0.5 * self.density * np.pi * skin + loop + 0.5 * self.density * self.fly_area)
        tension = 1.0 if self.is_old else max(0.1, 1 - 4 * loop / mean)
        roll = speed / 2 * np.sqrt(tension)
        turn = 0 * turn if self.is_old else roll * turn / tension
        return np.concatenate(([-roll, -power, self.falling(left, fall), fall], turn))

    def falling(self, left, speed):
        left = max(left, 0.1)
        size = self.size_to(left)
        drag = self.drag(self.across, size / left * abs(speed) / self.viscosity)
        return GRAVITY - 0.5 * self.density * drag * size * speed * abs(speed) / (self.mass_to(left) + self.fly)

    def follow(self, end):
        left = self.line.length - np.pi * self.radius
        energy = 0.5 * self.moving(left, np.sin(self.begin)) * self.speed**2
        start = np.concatenate(([left, energy, 0.0, 0.0], self.begin))
        end.terminal = True
        found = solve_ivp(self.change, (0, 20), start, "DOP853", events=end, rtol=1e-8, atol=1e-11, max_step=0.02)
        state, seconds = found.y_events[0][0], found.t_events[0][0]
        speed = np.sqrt(2 * state[1] / self.moving(state[0], np.sin(state[4:])))
        return speed, state[1] / energy, seconds, state[3]

    def at_leader(self):
        return self.follow(lambda _, state: state[0] + self.nose(state[4:]) - self.leader)


print(f"// SciPy {scipy.__version__}, NumPy {np.__version__}. Speed, energy left, seconds and drop at the leader.")
for pieces, cast, air in CASES:
    print(f"Case {{ pieces: &{pieces}, cast: {list(cast)}, air: ({air[0]}, {air[1]}), is_constant: {str(air[2] == 'constant').lower()},")
    for name, by_place in [("by_means", False), ("by_place", True)]:
        values = Cast(pieces, cast, air, by_place).at_leader()
        print(f"    {name}: [{', '.join(f'{value:.5f}' for value in values)}],")
    print("},")

# The older papers: no mass of the loop, a half circle for ever, full tension, nothing at the end. Upper leg of 9.144 m.
LOOP = 0.6
for share in (2, 4, 16):
    size = np.sqrt(0.9921e-3 / 1100 / np.pi * 4) * 1e3
    level = [(50.0, size, size, 1.10)]
    outside = 9.144 + np.pi * LOOP / 2
    numbers = (outside, LOOP, 15.0, 0.0, 1.0, 1.0, 0.0, 0.0, 0.0)
    old = Cast(level, numbers, (1.20, 1.51e-5, "constant"), False, True)
    speed = old.follow(lambda _, state, share=share: state[0] - 9.144 / share)[0]
    print(f"({share}.0, \"{speed:.4f}\"),")
