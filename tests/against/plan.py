#!/usr/bin/env python3
"""The plan of a braided tapered line, calculated with NumPy: what an engineer would write instead of a program with a page.

Reads a design as JSON of plain SI numbers from standard input and prints the plan as JSON.

In order: levels of whole threads, each as heavy as the wheels nearest to the target make it; places where the drawing passes
half-way between two of them, gathered to stops at least the least distance apart; wheels by dynamic programming over the
intervals; every stop moved so that mass is kept; wheels fitted early or late where that centres the angle, and stops moved by
what that adds; what is not worth its stops left out; all again while the wheels chosen call for other levels; the late angle in
closed form (kinematics after Du & Popper 1994); sums by Gauss.
Left out: pins, orders of carriers, a line too short for its stops, notices, ranges and chances, amounts for each dressing
step, handle turns, strength.
"""
import json
import sys
from math import ceil, pi

import numpy as np

sys.dont_write_bytecode = True  # nothing is left beside the scripts
from braid import Machine, Record  # noqa: E402

GRAIN, FOOT, INCH = 64.79891e-6, 0.3048, 0.0254
HAIR = 1e-6  # places and diameters that differ by less are equal
LEVEL_ENDS = ("tip", "front", "belly", "rear", "end")
# Number, least and greatest grains of the first 30 ft. Source: AFFTA fly line weight standard.
CLASSES = [(1, 54, 66), (2, 74, 86), (3, 94, 106), (4, 114, 126), (5, 134, 146), (6, 152, 168), (7, 177, 193), (8, 202, 218),
           (9, 230, 250), (10, 270, 290), (11, 318, 342), (12, 368, 392), (13, 435, 465), (14, 485, 515), (15, 535, 565)]
TRIED = np.array([0.0, 0.5, -0.5, 1.0, -1.0, 2.0, -2.0])  # lags at which a change of wheels is tried beside its stop


class Plan(Machine):
    # Where threads are changed.

    def made_with(self, lays):
        """Yarn that at the target angle would weigh what each level does on its lay; a level lighter than the last is no step."""
        levels = np.arange(len(self.yarn))
        return np.maximum.accumulate(self.at_lay(levels, 0.0, lays).mass / self.one)

    def made_nearest(self):
        """The same with the wheels that bring each level nearest to the target angle, of equals the shorter lay."""
        levels = np.arange(len(self.yarn))[:, None]
        off = np.abs(self.at_lay(levels, 0.0, self.lays[None, :]).angle - self.target_angle)
        return self.made_with(self.lays[off.argmin(axis=1)])

    def made_as_laid_out(self, made, levels, wheels, at):
        """The same with the wheels of the longest interval of each level that the line has."""
        made, spans = made.copy(), np.diff(np.concatenate([[0.0], at, [self.length]]))
        for level in set(levels.tolist()):
            own = np.flatnonzero(levels == level)
            wheel = wheels[own[spans[own].argmax()]]
            made[level] = (self.at_lay(np.array([level]), 0.0, self.lays[[wheel]]).mass / self.one)[0]
        return np.maximum.accumulate(made)

    def changes(self, made):
        """The level at the tip and every change: [place, lower level, whether rising]."""
        bounds = self.bounds(made)
        goals = np.searchsorted(bounds, self.drawn, side="right")
        found = []
        for i, (before, after) in enumerate(zip(goals[:-1], goals[1:])):
            rising = bool(after > before)
            lower = np.arange(before, after) if rising else np.arange(before - 1, after - 1, -1)
            share = (bounds[lower] - self.drawn[i]) / ((self.drawn[i + 1] - self.drawn[i]) or 1)
            for at, low in zip(self.at[i] + (self.at[i + 1] - self.at[i]) * np.clip(share, 0, 1), lower.tolist()):
                if found and found[-1] == [at, low, not rising]:
                    found.pop()
                else:
                    found.append([at, low, rising])
        found = [change for change in found if change[0] < self.length]
        first = int(goals[0])
        while found and found[0][0] <= 0:
            _, low, rising = found.pop(0)
            first = low + rising
        return first, found

    def gather(self, changes):
        """Stops: changes that would come closer than the least distance are made together, or not at all."""
        kept = []
        for change in changes:
            if kept and kept[-1][1:] == [change[1], not change[2]] and change[0] - kept[-1][0] < self.spacing - HAIR:
                kept.pop()
            else:
                kept.append(change)
        stops = []
        for change in kept:
            if stops and stops[-1][0][2] == change[2] and change[0] - stops[-1][0][0] < self.spacing - HAIR:
                stops[-1].append(change)
            else:
                stops.append([change])
        if len(stops) > 1 and self.spacing * (len(stops) + 1) > self.length + HAIR:
            sys.exit("The line is too short for its stops, which is not calculated here.")
        return stops, self.apart(np.array([np.mean([change[0] for change in stop]) for stop in stops]))

    def apart(self, at):
        """Forwards, then backwards, so that every stop is at least the least distance behind the one before."""
        slots = self.spacing * np.arange(len(at))
        at = np.maximum.accumulate(np.maximum(at - slots, self.spacing)) + slots
        back = slots[::-1]
        return np.minimum.accumulate(np.minimum(at + back, self.length - self.spacing)[::-1])[::-1] - back

    def place_in_run(self, diameter, rising, near):
        """Where the drawing passes a diameter within the slope that a place lies in; held at the ends of it."""
        sign = 1 if rising else -1
        step, here = sign * np.diff(self.drawn), np.searchsorted(self.at, near, side="right") - 1
        piece = next((p for p in (here, here - 1) if 0 <= p < len(step) and step[p] > 0), None)
        if piece is None:
            return near
        first, last = piece, piece + 1
        while first > 0 and step[first - 1] > 0:
            first -= 1
        while last < len(step) and step[last] > 0:
            last += 1
        return np.interp(sign * diameter, sign * self.drawn[first:last + 1], self.at[first:last + 1])

    # Which wheels.

    def choose_wheels(self, levels, lengths):
        """Least squared error of the settled angle, degrees² · m, and a price for each change; of equals the smaller step."""
        ideal = self.braid(levels, 0, np.cos(self.target_angle)).path * pi / np.tan(self.target_angle)
        low = max(np.searchsorted(self.lays, ideal.min()) - 1, 0)
        high = np.searchsorted(self.lays, ideal.max(), side="right") + 1
        some = np.arange(low, min(high, len(self.lays)))
        some = some[::max(ceil(len(some) / 128), 1)]
        used, row = np.unique(levels, return_inverse=True)
        error = np.degrees(self.at_lay(used[:, None], 0, self.lays[some]).angle - self.target_angle) ** 2
        cost = error[row] * lengths[:, None]
        size = np.log(self.lays[some])
        change = self.price * ~np.eye(len(some), dtype=bool) + 1e-9 * np.abs(size[:, None] - size)
        best, back = cost[0], []
        for own in cost[1:]:
            ways = best[:, None] + change
            back.append(ways.argmin(axis=0))
            best = ways.min(axis=0) + own
        chosen = [int(best.argmin())]
        for froms in reversed(back):
            chosen.append(int(froms[chosen[-1]]))
        return some[chosen[::-1]]

    # Where stops and wheels really go.

    def worthless(self, first, stops, at):
        """Stops not worth their work: (index, changes of it that the next undoes), last first, or else one end, alone.

        A stop is worth its price where the threads it changes, times the length over which they would be wrong, are as much."""
        pairs, free = [], len(stops)
        for i in reversed(range(len(stops) - 1)):
            apart, undone = at[i + 1] - at[i], min(len(stops[i]), len(stops[i + 1]))
            if stops[i][0][2] == stops[i + 1][0][2] or i + 1 >= free:
                continue
            lower = [change[1] for change in stops[i + 1][:undone]]
            threads = self.yarn[max(lower) + 1] - self.yarn[min(lower)]
            saved = sum(len(stop) == undone for stop in stops[i:i + 2])
            if apart < self.spacing - HAIR:
                pairs.append((i, 1))
            elif apart * threads < self.stop_price * saved:
                pairs.append((i, undone))
            else:
                continue
            free = i
        if pairs or not stops:
            return pairs
        after = [first] + [stop[-1][1] + stop[-1][2] for stop in stops]
        threads = np.abs(np.diff(self.yarn[after]))
        if at[0] * threads[0] < self.stop_price:
            return [(0, "first")]
        if (self.length - at[-1]) * threads[-1] < self.stop_price:
            return [(len(stops) - 1, "last")]
        return []

    def without(self, first, stops, at, worthless):
        """What is left without what is not worth its stops: the level at the tip, the stops, their places."""
        stops = [list(stop) for stop in stops]
        for i, what in worthless:
            if what == "first":
                first = stops[i][-1][1] + stops[i][-1][2]
            if what in ("first", "last"):
                stops[i] = []
                continue
            stops[i] = stops[i][:len(stops[i]) - what]
            stops[i + 1] = stops[i + 1][what:]
        left = [bool(stop) for stop in stops]
        return first, [stop for stop in stops if stop], at[left]

    def keep_mass(self, levels, wheels, stops, at):
        """Moves every stop to where the levels as really braided meet half-way, then by what tails and late angle add.

        Gives the places and nothing, or no places and the stops that are not worth their work there."""
        at = at.copy()
        rest = self.at_lay(levels, 0.0, self.lays[wheels]).mass
        real = rest / self.one
        for i, stop in enumerate(stops):
            by = 0.5 * (real[i] + real[i + 1]) - 0.5 * (self.yarn[levels[i]] + self.yarn[levels[i + 1]])
            half = lambda low: 0.5 * (self.yarn[low] + self.yarn[low + 1]) + by
            at[i] = np.mean([self.place_in_run(self.diameter_for(half(low)), rising, place) for place, low, rising in stop])
        if worthless := self.worthless(levels[0], stops, at):
            return None, worthless
        at = self.apart(at)
        rest_of_line = self.sweep(levels[0], wheels[0], self.changes_made(stops, at), (at, np.diff(wheels)))
        line = self.follow(rest_of_line, 0.0, self.length)
        tread = np.searchsorted(at, line.edge[:-1], side="right")
        mass = np.bincount(tread, weights=self.sums(line)[0], minlength=len(levels))
        ends = np.concatenate([[0.0], at, [self.length]])
        span, jump = np.diff(ends), np.diff(rest)
        piece = np.minimum(np.searchsorted(line.edge[1:], at, side="right"), len(line.lag) - 1)
        reach = 2 * self.tail + 3 * line.lag[piece]
        still = np.abs(jump) < 0.25 * self.one * np.abs(np.diff(self.yarn[levels]))
        by = (mass - span * rest)[1:] / np.where(still, np.inf, jump)
        at = at + np.clip(by, np.maximum(-span[:-1] / 2, -reach), np.minimum(span[1:] / 2, reach))
        worthless = self.worthless(levels[0], stops, at)
        return (None, worthless) if worthless else (self.apart(at), [])

    def bare_between(self, levels, wheels, stops, at, fitted_at, cuts):
        """Bare mass between each cut and the next, and how far from each stop tails and a late angle reach."""
        places, steps, buries = self.changes_made(stops, at)
        none = np.zeros(len(cuts), int)
        changes_made = np.append(places, cuts), np.append(steps, none), np.append(buries, none)
        line = self.follow(self.sweep(levels[0], wheels[0], changes_made, (fitted_at, np.diff(wheels))), 0.0, self.length)
        upto = np.insert(np.cumsum(self.sums(line)[0]), 0, 0)
        piece = np.minimum(np.searchsorted(line.edge[1:], at, side="right"), len(line.lag) - 1)
        return np.diff(np.interp(cuts, line.edge, upto)), 2 * self.tail + 3 * line.lag[piece]

    def keep_mass_beside(self, levels, wheels, stops, at, fitted_at):
        """Moves stops, and wheels with them, by the mass that wheels fitted beside their stops add or take away."""
        if np.array_equal(at, fitted_at):
            return at, fitted_at
        at, fitted_at = at.copy(), fitted_at.copy()
        ends = np.concatenate([[0.0], at, [self.length]])
        middles = (ends[1:] + ends[:-1]) / 2
        wanted, _ = self.bare_between(levels, wheels, stops, at, at, middles)
        jump = np.diff(self.at_lay(levels, 0.0, self.lays[wheels]).mass)
        jump = np.where(np.abs(jump) < 0.25 * self.one * np.abs(np.diff(self.yarn[levels])), np.inf, jump)
        for _ in range(3):
            mass, reach = self.bare_between(levels, wheels, stops, at, fitted_at, middles)
            by = np.clip((mass - wanted) / jump, -reach, reach)
            first, last = np.minimum(at, fitted_at), np.maximum(at, fitted_at)
            half = lambda room: np.maximum(room - self.spacing, 0) / 2
            by = np.minimum(by, half(np.append(first[1:], self.length) - last))
            by = np.maximum(by, -half(first - np.append(0.0, last[:-1])))
            by[np.abs(by) < HAIR] = 0
            if not by.any():
                break
            at, fitted_at = at + by, fitted_at + by
        return at, fitted_at

    def centre(self, levels, wheels, stops, at):
        """Where wheels are fitted: at their stop, or beside it where that saves a quarter of a change's price."""
        fitted_at, start, begin, change = at.copy(), None, 0.0, np.diff(wheels)
        if not stops:
            return fitted_at
        lag = self.towards(self.at_lay(levels[1:], 0.0, self.lays[wheels[1:]])).lag[:, None]
        places = at[:, None] + np.sign(TRIED) * np.maximum(lag * np.abs(TRIED), self.spacing)
        until = np.maximum(places, at[:, None])
        # Every stop by itself with every attempt, all in one; so many changes_made for each that none has too few.
        changes_made = [self.changes_made([stop], [place]) for stop, place in zip(stops, at)]
        most = max(len(one[0]) for one in changes_made)
        padded = [np.stack([np.pad(one[part], (0, most - len(one[part])), "edge" if part == 0 else "constant")
                            for one in changes_made])[:, None] for part in range(3)]
        fitted = np.stack([places, until], axis=-1), np.stack([change, 0 * change], axis=-1)[:, None]
        every = self.sweep(levels[:-1, None], wheels[:-1, None], padded, fitted)
        for i in range(len(stops)):
            end, best = at[i + 1] if i + 1 < len(at) else self.length, 0
            tried = self.follow(Record(**{name: part[i] for name, part in vars(every).items()}), begin, end, start)
            if change[i]:
                error = self.angle_error(tried)
                fits = (places[i] >= begin + self.spacing) & (places[i] <= end - self.spacing)
                worth = fits & (error < error[0] - 0.25 * self.price)
                best = int(np.where(worth, error, np.inf).argmin()) if worth.any() else 0
                fitted_at[i] = places[i, best]
            begin = until[i, best]
            start = tried.met[best, np.searchsorted(tried.at[best], begin, side="right")]
        return fitted_at

    # What is asked of it.

    def parts(self):
        """Tip, front, belly, rear and level end, where the line has them: name, begin, end."""
        level, last = np.abs(np.diff(self.drawn)) <= HAIR, len(self.at) - 1
        full = np.flatnonzero(self.drawn.max() - self.drawn <= HAIR)
        tip = min(int(np.argmin(np.append(level, False))), full[0])
        rear = max(last - int(np.argmin(np.append(level[::-1], False))), full[-1])
        cuts = self.at[[0, tip, full[0], full[-1], rear, last]]
        return [(name, a, b) for name, a, b in zip(LEVEL_ENDS, cuts, cuts[1:]) if a < b], (cuts[2] + cuts[3]) / 2

    def lay_out(self, made):
        first, changes = self.changes(made)
        stops, at = self.gather(changes)
        while True:
            levels = np.array([first] + [stop[-1][1] + stop[-1][2] for stop in stops])
            spans = np.diff(np.concatenate([[0.0], at, [self.length]]))
            wheels = self.choose_wheels(levels, spans)
            moved, worthless = self.keep_mass(levels, wheels, stops, at)
            if not worthless:
                fitted_at = self.centre(levels, wheels, stops, moved)
                moved, fitted_at = self.keep_mass_beside(levels, wheels, stops, moved, fitted_at)
                worthless = self.worthless(first, stops, moved)
            if not worthless:
                return levels, wheels, stops, moved, fitted_at
            first, stops, at = self.without(first, stops, at, worthless)

    def calculate(self):
        made = self.made_nearest()
        for left in (2, 1, 0):
            levels, wheels, stops, at, fitted_at = self.lay_out(made)
            again = self.made_as_laid_out(made, levels, wheels, at)
            order = lambda made: (lambda first, found: (first, [change[1:] for change in found]))(*self.changes(made))
            if not left or order(made) == order(again):
                break
            made = again
        parts, belly = self.parts()
        tip = min(parts[0][2], 6 * INCH) if parts[0][0] == "tip" else 0.0
        head = (tip, tip + 30 * FOOT)
        places, steps, buries = self.changes_made(stops, at)
        cuts = np.array([end for _, _, end in parts] + [belly, *head])
        none = np.zeros(len(cuts), int)
        changes_made = np.append(places, cuts), np.append(steps, none), np.append(buries, none)
        line = self.follow(self.sweep(levels[0], wheels[0], changes_made, (fitted_at, np.diff(wheels))), 0.0, self.length)
        return self.answer(line, levels, wheels, stops, at, fitted_at, parts, head, belly)

    def answer(self, line, levels, wheels, stops, at, fitted_at, parts, head, belly):
        to = [np.insert(np.cumsum(sums), 0, 0) for sums in self.sums(line)]
        upto = lambda sums, place: np.interp(place, line.edge, sums)
        between = lambda sums, a, b: float(upto(sums, b) - upto(sums, a))
        bare = lambda a, b: between(to[0], a, b)

        def mass(a, b):
            voids = bare(a, b) / self.fibre * (1 - self.fibre_fraction) / self.fibre_fraction
            film = pi * self.dress.film * (between(to[1], a, b) + self.dress.film * (b - a)) * self.dress.density
            under = bare(a, b) + voids * self.dress.filling + film
            return under * (1 + self.dress.grease) * self.dress.weighed
        is_whole = head[1] <= self.length + 50e-6
        head_mass = mass(*head) if is_whole else None
        grains = (head_mass or 0) / GRAIN
        number = next((n for n, low, high in CLASSES if low <= grains <= high), None)
        piece = min(int(np.searchsorted(line.edge[1:], belly, side="right")), len(line.span) - 1)
        meet = line.meet[piece] * (1 + line.off[piece]) ** (1 / line.power[piece])
        rest = self.at_lay(levels, 0.0, self.lays[wheels])
        listed = {name: getattr(rest, name).tolist() for name in ("angle", "diameter", "path", "lay")}
        return {
            "threads": self.threads[levels].tolist(), "heavy": self.heavy[levels].tolist(), "stops": at.tolist(),
            "wheels": [self.wheels[wheel] for wheel in wheels], "wheels_at": fitted_at.tolist(), **listed,
            "head_mass": head_mass, "head_bare_mass": bare(*head) if is_whole else None, "class": number,
            "total_mass": mass(0, self.length), "bare_mass": bare(0, self.length),
            "parts": [{"part": name, "mass": mass(a, b)} for name, a, b in parts],
            "belly_angle": float(np.arctan2(line.reach[piece], meet)),
            "bobbins": self.bobbins(line, levels, stops, at, lambda place: float(upto(to[2], place))),
        }

    def bobbins(self, line, levels, stops, at, thread):
        """Light and heavy bobbins as they enter, last in first out. Which carrier of a heavier thread is which is not asked."""
        lead = self.lead_in * (1 + self.crimp) / line.cosine[0]
        wound, since = {}, {}
        engaged = lambda level: {(False, k) for k in range(self.heavy[level], self.threads[level])} | {
            (True, k) for k in range(self.heavy[level])}
        places = [0.0] + [place for stop, place in zip(stops, at) for _ in stop] + [self.length]
        after = [levels[0]] + [low + rising for stop in stops for _, low, rising in stop]
        for place, now in zip(places, [engaged(level) for level in after] + [set()]):
            for gone in set(since) - now:
                wound[gone] += thread(place) - thread(since.pop(gone)) + min(self.tail, self.length - place)
            for new in now - set(since):
                since[new], wound[new] = place, wound.get(new, 0) + self.allowance + (lead if place == 0 else 0)
        return {name: sorted(length for (heavy, _), length in wound.items() if heavy == is_heavy)
                for name, is_heavy in (("light", False), ("heavy", True))}


def main():
    print(json.dumps(Plan(json.load(sys.stdin)).calculate()))


if __name__ == "__main__":
    main()
