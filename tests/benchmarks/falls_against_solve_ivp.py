"""How long falls take, one and many at once, beside a general solver of differential equations on the same chain.

    python -m tests.benchmarks.falls_against_solve_ivp [--repeats 7] [--quick]

Both solve the same reduced equations from the same start: heights of the nodes, the ring's x, the walker's x and z. The
general solver is scipy.integrate.solve_ivp; its right-hand side below is written apart from linelib.models.march, from the
arrays of the chain. Its tolerance is the loosest at which peak and lowest point are as close to a tight solution as ours.
Times depend on the machine and on what else runs: read the ratios, which come from one run. Not a test.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable

import numpy as np
from scipy.integrate import solve_ivp

from linelib import Fall, Setup, fall, falls
from linelib.models.chain import Chain, chain_of
from tests.setups import GRAVITY, one_webbing, reference_setup

MANY = (64, 256, 1024)
METHODS = ("RK23", "RK45", "DOP853", "LSODA")
TOLERANCES = tuple(10.0 ** (-0.5 * n) for n in range(2, 19))  # 1e-1 to 1e-9
MOST_FOR_256, SOON_ENOUGH = 3.0, 0.080  # times one fall, or seconds


class Equations:
    """The right-hand side of one fall on webbing of straight laws: state = places, then speeds."""

    def __init__(self, chain: Chain, setup: Setup) -> None:
        self.count, self.ring = len(chain.z), chain.ring
        self.share, self.span = chain.share[:, 0], float(chain.span[0])
        self.mass = np.concatenate([chain.mass[1:-1, 0], chain.mass_x, [setup.walker.mass] * 2])
        self.drag, self.natural, self.loss = chain.drag[1:-1, 0], chain.natural[:, 0], chain.loss[:, 0]
        self.compliance = chain.sides.stretch(chain.tension, np.broadcast_to(chain.tension, chain.sides.length.shape))[1][:, 0]
        self.ends, self.leash, self.rise = chain.z[[0, -1], 0], setup.leash, np.empty(self.count)
        ring_z = chain.z[self.ring, 0]
        places = [chain.z[1:-1, 0], chain.ring_x, chain.ring_x, [ring_z + setup.walker.standing_height]]
        self.start = np.concatenate([*places, np.zeros(len(self.mass))])

    def tensions(self, state: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
        """Tension of both sides [N]; slope and lean (run over length) of each element; how a side lengthens with ring x."""
        half, ring = len(self.mass), self.ring
        z, speed = np.concatenate([self.ends[:1], state[: half - 3], self.ends[1:]]), state[half:]
        v = np.concatenate([[0.0], speed[:-3], [0.0]])
        x = state[half - 3]
        run = self.share * np.where(np.arange(self.count - 1) < ring, x, self.span - x)
        long = np.hypot(np.diff(z), run)
        slope, lean = np.diff(z) / long, self.share * run / long
        sides = np.array([lean[:ring].sum(), -lean[ring:].sum()])
        rate = np.add.reduceat(slope * np.diff(v), [0, ring]) + sides * speed[-3]
        elastic = np.maximum((np.add.reduceat(long, [0, ring]) - self.natural) / self.compliance, 0.0)
        pull = np.maximum(elastic + (elastic > 0.0) * self.loss * rate / self.compliance, 0.0)
        return pull, slope, lean, sides

    def __call__(self, _: float, state: np.ndarray) -> np.ndarray:
        """Speeds and accelerations: virtual work of the sides, gravity, drag, and a leash that only pulls."""
        half, ring = len(self.mass), self.ring
        speed = state[half:]
        pull, slope, _lean, sides = self.tensions(state)
        up = slope * np.where(np.arange(self.count - 1) < ring, pull[0], pull[1])
        force = np.empty(half)
        force[:-3] = np.diff(up) - self.drag * np.abs(speed[:-3]) * speed[:-3]
        force[-3] = -(pull @ sides)
        ring_row = ring - 1
        x, z = state[half - 2] - state[half - 3], state[half - 1] - state[ring_row]
        apart = np.hypot(x, z)
        stretch = apart - self.leash.length
        if stretch > 0.0:
            rate = (x * (speed[-2] - speed[-3]) + z * (speed[-1] - speed[ring_row])) / apart
            taut = max(self.leash.stiffness * stretch + self.leash.damping * rate, 0.0) / apart
            force[ring_row] += taut * z
            force[-3] += taut * x
            force[-2:] = -taut * x, -taut * z
        else:
            force[-2:] = 0.0
        faster = force / self.mass
        faster[:-3] -= GRAVITY
        faster[-1] -= GRAVITY
        return np.concatenate([speed, faster])

    def solve(self, end: float, method: str, rtol: float, **more: float) -> np.ndarray:
        """Peak tension of both sides [N] and lowest tie-in [m below the anchors' level], after one run."""
        found = solve_ivp(self, (0.0, end), self.start, method=method, rtol=rtol, atol=1e-3 * rtol, **more)
        pulls = np.array([self.tensions(state)[0] for state in found.y.T])
        return np.append(pulls.max(0), -found.y[len(self.mass) - 1].min())


def results(one: Fall) -> np.ndarray:
    """The same three numbers of a fall of ours."""
    return np.array([one.peak_tension_a, one.peak_tension_b, one.lowest_point])


def best(call: Callable[[], object], repeats: int) -> float:
    """The shortest of several times [s]."""
    times = []
    for _ in range(repeats):
        begin = time.perf_counter()
        call()
        times.append(time.perf_counter() - begin)
    return min(times)


def off(found: np.ndarray, exact: np.ndarray) -> float:
    return float(np.abs(found / exact - 1.0).max())


def as_close(equations: Equations, end: float, exact: np.ndarray, allowed: float) -> list[tuple[str, float, float]]:
    """For every method the loosest tolerance that is as close to the tight solution as ours: name, tolerance, how far off."""
    rows = []
    for method in METHODS:
        for rtol in TOLERANCES:
            error = off(equations.solve(end, method, rtol), exact)
            if error <= allowed:
                rows.append((method, rtol, error))
                break
    return rows


def many(count: int) -> list[Setup]:
    """The curve beside a slider: the same rig over pretensions from 1 to 6 kN."""
    return [reference_setup(one_webbing(pretension=p)) for p in np.linspace(1e3, 6e3, count)]


def line(name: str, seconds: float, falls_done: int, one: float, error: str) -> None:
    per_fall = 1e3 * seconds / falls_done
    print(
        f"{name:<34}{1e3 * seconds:>11.1f}{per_fall:>11.3f}{seconds / one:>12.2f}{seconds / falls_done / one:>13.3f}{error:>12}"
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--repeats", type=int, default=7, help="each time is the best of so many")
    parser.add_argument("--quick", action="store_true", help="few repeats")
    asked = parser.parse_args()
    repeats = 2 if asked.quick else asked.repeats
    setup = reference_setup()
    ours = fall(setup=setup)
    equations, end = Equations(chain_of([setup]), setup), float(ours.time[-1])
    exact = equations.solve(end, "DOP853", 1e-9, max_step=5e-4)
    error = off(results(ours), exact)
    one = best(lambda: falls(setups=[setup]), 3 * repeats)
    print("Best times of several, 100 m line. 'off': largest of both peaks and lowest point from a tight run.")
    print(f"{'':<34}{'all [ms]':>11}{'each [ms]':>11}{'over one':>12}{'each over':>13}{'off':>12}")
    line("linelib, 1 fall, peaks", one, 1, one, f"{error:.2e}")
    line("linelib, 1 fall with its series", best(lambda: fall(setup=setup), 3 * repeats), 1, one, f"{error:.2e}")
    took = {}
    for count in MANY:
        setups = many(count)
        took[count] = best(lambda s=setups: falls(setups=s), repeats)  # type: ignore[misc]
        line(f"linelib, {count} falls", took[count], count, one, "")
    for method, rtol, how_far in as_close(equations, end, exact, error):
        seconds = best(lambda m=method, r=rtol: equations.solve(end, m, r), max(2, repeats // 2))  # type: ignore[misc]
        line(f"solve_ivp, {method}, rtol {rtol:.1e}", seconds, 1, one, f"{how_far:.2e}")
    ratio, seconds = took[256] / one, took[256]
    kept = ratio <= MOST_FOR_256 or seconds <= SOON_ENOUGH
    print(f"256 falls take {ratio:.2f} times one fall, {1e3 * seconds:.0f} ms: at most {MOST_FOR_256:g} times or ", end="")
    print(f"{1e3 * SOON_ENOUGH:.0f} ms {'kept' if kept else 'NOT kept'}.")


if __name__ == "__main__":
    main()
