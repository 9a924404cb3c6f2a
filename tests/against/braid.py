"""The braid at one station, and the line of many: levels of whole threads, wheels, the late angle, masses.

Formulas, all analytic: T = n T₁ (1 + c)/cos α; d = √(4 T/(π ρ φ)); D = d − 2 t; L = π D/tan α. The late angle in closed form
after the kinematics of Du & Popper 1994. Sums along the way to rest by Gauss and Legendre's rule.
"""
from math import exp, pi
from types import SimpleNamespace as Record

import numpy as np

from dressing import dressing

NODES, WEIGHTS = np.polynomial.legendre.leggauss(6)
NODES, WEIGHTS = 0.5 * (NODES + 1), 0.5 * WEIGHTS


class Machine:
    """A machine with its yarn, gears and dressing, and a line drawn for it."""

    def __init__(self, design):
        self.__dict__.update(design["braid"])
        yarn = design["yarn"]
        self.at, self.drawn = np.array(design["points"]).T
        self.length, self.dress = self.at[-1], dressing(design["dressing"])
        self.thread = 0.5 * (yarn["label_low"] + yarn["label_high"]) * yarn["kept"] * yarn["factor"] * yarn["ends"]
        self.fibre, self.heavier_by = yarn["fibre_density"], yarn["heavier_ends"] / yarn["ends"]
        self.thickness = np.sqrt(4 * self.thread / (pi * self.fibre * yarn["packing"]) / yarn["flattening"])
        self.one = self.thread * (1 + self.crimp) / np.cos(self.target_angle)  # kg/m of one thread at the target angle
        self.ladder()
        self.wheels_owned(design["take_off"])

    def ladder(self):
        """The levels, least yarn first."""
        most = self.fewest if self.build == "heavier-threads" else max(self.most, self.fewest)
        swaps = 0 if self.build == "more-threads" else most
        adding = np.arange(self.fewest, most + 1)
        self.threads = np.concatenate([adding, np.full(swaps, most)])
        self.heavy = np.concatenate([0 * adding, np.arange(1, swaps + 1)])
        self.yarn = self.threads + self.heavy * (self.heavier_by - 1)

    def bounds(self, yarn):
        """The finished diameters half-way between levels of so much yarn."""
        return self.diameter_for(0.5 * (yarn[1:] + yarn[:-1]))

    def wheels_owned(self, t):
        """All that can be fitted, shortest lay first; of pairs that draw alike the one of fewest teeth."""
        gears, owned = sorted(set(t["gears"])), lambda z, beside: t["gears"].count(z) > (z == beside)
        pairs = {"driver": [(z, t["partner"]) for z in gears], "driven": [(t["partner"], z) for z in gears],
                 "fixed-centres": [(z, t["pair_sum"] - z) for z in gears if owned(t["pair_sum"] - z, z)],
                 "free-pair": [(a, b) for a in gears for b in gears if owned(b, a)]}[t["train"]]
        by_ratio = {}
        for driver, driven in sorted(pairs, key=sum):
            by_ratio.setdefault(driver / driven, (driver, driven))
        self.wheels = [by_ratio[ratio] for ratio in sorted(by_ratio)]
        self.price, self.stop_price = t["price"], t["stop_price"]
        self.lays = t["constant"] * np.array(sorted(by_ratio))

    # The braid at one station.

    def diameter(self, mass):
        return np.sqrt(4 * mass / (pi * self.fibre * self.fibre_fraction))

    def diameter_for(self, yarn):
        return self.diameter(self.one * np.maximum(yarn, 0)) + 2 * self.dress.film

    def mass(self, yarn, buried, cosine):
        return self.thread * (yarn * (1 + self.crimp) / cosine + buried)

    def braid(self, level, buried, cosine):
        """Mass per length, diameter, path of the thread, and how fast the path shrinks as threads are drawn straighter."""
        yarn = self.yarn[level]
        thick = self.thickness * np.sqrt(yarn / self.threads[level])
        mass = self.mass(yarn, buried, cosine)
        diameter = self.diameter(mass)
        path = np.maximum(diameter - 2 * thick, thick)
        share = self.thread * yarn * (1 + self.crimp) / cosine / mass
        shrinks = np.where(diameter - 2 * thick < thick, 0, 0.5 * share * (1 - cosine**2) * diameter / path)
        return Record(mass=mass, diameter=diameter, path=path, share=share, shrinks=np.minimum(shrinks, 0.9))

    def at_lay(self, level, buried, lay):
        """Solves tan α = π D(α)/L by Newton's rule in ln tan α."""
        tangent = np.tan(self.target_angle) * np.ones(np.broadcast(level, buried, lay).shape)
        for _ in range(60):
            braid = self.braid(level, buried, 1 / np.hypot(1, tangent))
            miss = np.log(tangent * lay / (pi * braid.path))
            tangent = tangent * np.exp(-miss / (1 - braid.shrinks))
            if np.abs(miss).max(initial=0) < 1e-9:
                break
        cosine = 1 / np.hypot(1, tangent)
        braid = self.braid(level, buried, cosine)
        braid.__dict__.update(angle=np.arctan(tangent), cosine=cosine, tangent=tangent, lay=lay, level=level, buried=buried)
        return braid

    # The line: pieces over which nothing changes, and what they weigh.

    def changes_made(self, stops, at):
        """All that is done along the line: places, steps of the level, yarn that begins or ceases to be buried."""
        places, steps, buries = [], [], []
        for stop, place in zip(stops, at):
            for _, low, rising in stop:
                places, steps, buries = places + [place], steps + [1 if rising else -1], buries + [0.0]
                is_swap = self.heavy[low] != self.heavy[low + 1]
                size = (1.0 if is_swap else 0.0) if rising else (self.heavier_by if is_swap else 1.0)
                places, steps, buries = places + [place, place + self.tail], steps + [0, 0], buries + [size, -size]
        return np.array(places), np.array(steps, int), np.array(buries)

    def sweep(self, level, wheel, changes_made, fitted):
        """The braids at rest between all that is done, of one line or, in axes before the last, of so many."""
        (places, steps, buries), (fitted_at, fitted_by) = changes_made, fitted
        rows = np.broadcast_shapes(places.shape[:-1], fitted_at.shape[:-1])
        spread = lambda part: np.broadcast_to(part, rows + part.shape[-1:])
        both = lambda one, other: np.concatenate([spread(one), spread(other)], axis=-1)
        at = both(places, fitted_at)
        order = np.argsort(at, axis=-1, kind="stable")
        along = lambda one, other: np.take_along_axis(both(one, other), order, -1)

        def summed(first, parts):
            first = np.broadcast_to(first, rows)[..., None]
            return np.concatenate([first, first + np.cumsum(parts, axis=-1)], axis=-1)
        levels, wheels = summed(level, along(steps, 0 * fitted_by)), summed(wheel, along(0 * steps, fitted_by))
        rest = self.at_lay(levels, summed(0.0, along(buries, 0.0 * fitted_at)), self.lays[wheels])
        rest.at = np.take_along_axis(at, order, -1)
        return self.towards(rest)

    def towards(self, rest):
        """How the late angle comes to rest: where threads meet there, the power that decays, and over what length."""
        rest.reach = np.sqrt(np.maximum(self.guide_radius**2 - rest.path**2 / 4, 0.01 * self.guide_radius**2))
        p, wall = rest.shrinks, rest.path / rest.diameter
        grows = p * (p * (1 - wall) - 2 * rest.cosine**2 - (1 - rest.share) * (1 - rest.cosine**2))
        rest.meet = rest.reach / rest.tangent
        rest.power, rest.lag = np.maximum(2 + (1 - p) + grows / (1 - p), 0.5), rest.meet / (1 - p)
        return rest

    def follow(self, rest, begin, end, start=None):
        """The line between two places; each piece begins where the threads met at the end of the one before."""
        ends = np.ones(rest.at.shape[:-1] + (1,))
        rest.edge = np.concatenate([begin * ends, np.clip(rest.at, begin, end), end * ends], axis=-1)
        rest.span = np.diff(rest.edge, axis=-1)
        parts = [part.reshape(-1, part.shape[-1]).tolist() for part in (rest.meet, rest.power, rest.lag, rest.span)]
        off, met = [], []
        for row in zip(*parts):
            at = row[0][0] if start is None else start
            off, met = off + [[]], met + [[at]]
            for meet, power, lag, span in zip(*row):
                off[-1].append((at / meet) ** power - 1)
                at = max(meet * (1 + off[-1][-1] * exp(-span / lag)) ** (1 / power), at - span)
                met[-1].append(at)
        rest.off, rest.met = np.array(off).reshape(rest.span.shape), np.array(met).reshape(rest.edge.shape)
        return rest

    def samples(self, line):
        """Cosine of the late angle at Gauss's places, and the length each stands for, in a last axis of its own."""
        add = lambda part: part[..., None]
        left = np.exp(-line.span / line.lag)
        z = add(left) + add(1 - left) * NODES
        meet = add(line.meet) * (1 + add(line.off) * z) ** add(1 / line.power)
        start = add(line.meet * (1 + line.off) ** (1 / line.power))
        meet = np.maximum(meet, start + add(line.lag) * np.log(z))
        return meet / np.hypot(meet, add(line.reach)), add(line.lag * (1 - left)) * WEIGHTS / z

    def angle_error(self, line):
        """Squared error of the angle in degrees² · m, for each attempt."""
        squared = lambda cosine: np.degrees(np.arccos(cosine) - self.target_angle) ** 2
        cosine, part = self.samples(line)
        rest = squared(line.cosine)
        return (rest * line.span + ((squared(cosine) - rest[..., None]) * part).sum(-1)).sum(-1)

    def sums(self, line):
        """Bare mass, diameter times length, and length of one thread, of every piece."""
        cosine, part = self.samples(line)
        total = lambda rest, late: rest * line.span + ((late - rest[..., None]) * part).sum(-1)
        masses = self.mass(self.yarn[line.level][..., None], line.buried[..., None], cosine)
        threads = (1 + self.crimp) / line.cosine, (1 + self.crimp) / cosine
        return total(line.mass, masses), total(line.diameter, self.diameter(masses)), total(*threads)
