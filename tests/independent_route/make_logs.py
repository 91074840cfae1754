"""Invented load-cell logs, computed by the full two-dimensional model and recorded by an invented cell with noise.

Run as `python -m tests.independent_route.make_logs` to write data/logs/*.csv again: a minute. Nothing in them was measured.
Each file says its rig, its truth, its noise and its seed in remarks on top.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from linelib import Setup, webbings
from linelib.studies.cell import sampled
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.log_model import changed
from linelib.tables import DATA

from .full_model import full_fall

Array = NDArray[np.float64]
FOLDER, ELEMENTS, BEFORE = DATA / "logs", 100, 1.0
WINDOW = 0.002  # [s] of the invented cell
INVENTED = "invented, computed by a model, not measured"


@dataclass(frozen=True, kw_only=True)
class Case:
    """A fall, its truth over the lesson's rig, and the cell: rate [Hz], noise [N], seed, seconds [s], the cell's end [N]."""

    setup: Setup
    truth: dict[str, float]
    rate: float
    noise: float
    seed: int
    seconds: float
    most: float = np.inf

    @property
    def fallen(self) -> Setup:
        """The setup that falls in the log."""
        return changed(self.setup, self.truth)


TABLE = webbings()
CASES = {
    "one_fall": Case(
        setup=lesson_setup(),
        truth={"stiffness": 0.9, "pretension": 2700.0, "leash_damping": 400.0},
        rate=500.0,
        noise=15.0,
        seed=11,
        seconds=8.0,
    ),
    "clipped_fall": Case(
        setup=lesson_setup(length=70.0, insert_length=5.0, position=0.4),
        truth={"stiffness": 1.15, "pretension": 3300.0, "leash_damping": 250.0},
        rate=200.0,
        noise=20.0,
        seed=12,
        seconds=5.0,
        most=6500.0,
    ),
}
TWO, TWO_SEED, TWO_NOISE, TWO_RATE, TWO_DRIFT = (1.0, 2.0), 13, 25.0, 100.0, 4.0  # leashes [m]; noise [N], rate [Hz], [N/s]


def pull(setup: Setup, seconds: float, elements: int = ELEMENTS) -> tuple[Array, Array]:
    """Times [s] and tension at A [N], the line standing for BEFORE first, then the fall."""
    full = full_fall(setup=setup, elements=elements, duration=seconds)
    return np.append(0.0, full.time + BEFORE), np.append(full.tension_a[0], full.tension_a)


def readings(case: Case, elements: int = ELEMENTS) -> tuple[Array, Array]:
    """What the invented cell records of a case: times [s], forces [N]."""
    time, force = pull(case.fallen, case.seconds, elements)
    at, read = sampled(time=time, force=force, rate=case.rate, averaging=WINDOW, noise=case.noise, seed=case.seed)
    return at, np.minimum(read, case.most)


def two_falls() -> tuple[Array, Array]:
    """Two falls of one rig on leashes of different length, a cell whose zero drifts; what lies between is drawn, not computed:
    over 1.5 s the walker comes back to standing."""
    parts: list[Array] = []
    for leash in TWO:
        setup = lesson_setup()
        time, force = pull(replace(setup, leash=replace(setup.leash, length=leash)), 6.0, 80)
        at = np.arange(0.0, BEFORE + 5.99, 1.0 / TWO_RATE)
        parts += [np.full(300, force[0]), np.interp(at, time, force)]
        back = 0.5 + 0.5 * np.cos(np.linspace(0.0, np.pi, 150))
        parts.append(force[0] + back * (parts[-1][-1] - force[0]))
    parts.append(np.full(300, parts[0][0]))
    force = np.concatenate(parts)
    at = np.arange(len(force)) / TWO_RATE
    noise = TWO_NOISE * np.random.default_rng(TWO_SEED).standard_normal(len(force))
    return at, force + TWO_DRIFT * at + noise


def _remarks(case: Case) -> list[str]:
    truth = ", ".join(f"{name} {value:g}" for name, value in case.truth.items())
    cell = f"cell at anchor A: {case.rate:g} Hz, averaging {1e3 * WINDOW:g} ms, noise {case.noise:g} N, seed {case.seed}"
    line = case.setup.rig
    soft = f", {line.segments[0].length:g} m of polyamide at A" if len(line.segments) > 1 else ""
    end = f", ends at {case.most:g} N" if np.isfinite(case.most) else ""
    rig = f"rig of the lessons, {line.span:g} m of HMPE{soft}, walker at {100 * case.setup.walker.position:g} %; truth: {truth}"
    return [f"# {INVENTED}", f"# {rig}", f"# {cell}{end}"]


def write() -> None:
    """All three files."""
    FOLDER.mkdir(exist_ok=True)
    time, force = readings(CASES["one_fall"])
    rows = [f"{t:.3f},{f / 1e3:.3f}" for t, f in zip(time, force, strict=True)]
    _write("one_fall", [*_remarks(CASES["one_fall"]), "time [s],force [kN]", *rows])
    time, force = readings(CASES["clipped_fall"])
    rows = [f"{1e3 * t:.0f}\t{f / 9.80665:.1f}".replace(".", ",") for t, f in zip(time, force, strict=True)]
    _write("clipped_fall", [*_remarks(CASES["clipped_fall"]), "time (ms)\tforce (kgf)", *rows])
    time, force = two_falls()
    rows = [f"{t:.2f};{f / 10:.1f}".replace(".", ",") for t, f in zip(time, force, strict=True)]
    rows[700], rows[701] = rows[701], rows[700]  # out of order
    for i in (950, 951, 1730):
        rows[i] = rows[i].split(";")[0] + ";"  # no force
    rows.insert(400, rows[400].split(";")[0] + ";" + rows[401].split(";")[1])  # one time twice
    del rows[820:845]  # a gap
    rig = (
        f"rig of the lessons, 100 m of HMPE, truth as rigged; leash {TWO[0]:g} m in the first fall, {TWO[1]:g} m in the second"
    )
    zero = f"zero drifts by {TWO_DRIFT:g} N/s, seed {TWO_SEED}"
    cell = f"cell at anchor A: {TWO_RATE:g} Hz, no averaging, noise {TWO_NOISE:g} N, {zero}"
    _write("two_falls", [f"# {INVENTED}", f"# {rig}", f"# {cell}", "time_s;force_daN", *rows])


def _write(name: str, lines: list[str]) -> None:
    (FOLDER / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write()
