"""The observatory chain as a vectorised script: what one would write with numpy for one run.

Simplified where the simulator is exact: noises are shaped by FFT over the whole run and wrap around at
its end; the loop is its transfer function sampled at the burst rate; what a burst leaves behind for the
next is left out. Every burst is computed, as in the recording mode `bursts`. Two detectors:

- frozen: the receiver's noise is one deviate a burst, so that the crossing follows by closed form and
  Newton steps. Noise that moves crosses earlier: mean and spread of the delay come out wrong by 1 %.
- stepwise: charge and noise from half cycle to half cycle, the crossing by a straight line between.

Usage: chain.py frozen|stepwise TICKS [RUNS] -> JSON with seconds of CPU time per run, ticks, mean delay
and its spread.
"""

import json
import resource
import sys
import time

import numpy as np

BURSTS_PER_TICK = 5
OUTPUT_HZ = 5.01368954675
CARRIER_HZ, BURST_S, AMPLITUDE, AMPLITUDE_NOISE = 1370.0, 0.06, 12.0, 0.02
TAU, THRESHOLD, NOISE = 0.010, 4.5, 0.15
NATURAL_HZ, DAMPING = 1.5, 0.8


def shaped(rng, n, dt, density):
    """Gaussian series of n points with the one-sided spectral density given for f > 0."""
    f = np.fft.rfftfreq(n, dt)
    f[0] = f[1]
    spectrum = np.fft.rfft(rng.standard_normal(n))
    spectrum *= np.sqrt(density(f) / (2 * dt))
    spectrum[0] = 0
    return np.fft.irfft(spectrum, n)


def loop_response(f):
    """H(f) of a type-2 second-order loop."""
    omega = 2 * np.pi * NATURAL_HZ
    s = 2j * np.pi * f
    return (2 * DAMPING * omega * s + omega**2) / (s**2 + 2 * DAMPING * omega * s + omega**2)


def reference_density(f):
    """S_x of the reference: white, flicker and random-walk FM, through the loop."""
    h0, h1, h2 = 2 * 2e-11**2, 2e-13**2 / (2 * np.log(2)), 6 * 1e-16**2 / (2 * np.pi) ** 2
    return (h0 + h1 / f + h2 / f**2) / (2 * np.pi * f) ** 2 * np.abs(loop_response(f)) ** 2


def own_density(f):
    """S_x of the loop's own oscillator: white and flicker FM, through 1 - H."""
    h0, h1 = 2 * 3e-6**2, 5e-7**2 / (2 * np.log(2))
    return (h0 + h1 / f) / (2 * np.pi * f) ** 2 * np.abs(1 - loop_response(f)) ** 2


def stepwise(rng, start):
    """Delay of each burst, charge and noise stepped from half cycle to half cycle of the tone."""
    n = len(start)
    amplitude = AMPLITUDE * np.maximum(0, 1 + AMPLITUDE_NOISE * rng.standard_normal(n))
    half = 0.5 / CARRIER_HZ
    decay = np.exp(-half / TAU)
    omega = np.pi * TAU / half
    per_half = omega * (1 + decay) / (1 + omega**2)
    x = start / half
    x -= np.floor(x)
    # The first half cycle counts from where the burst begins in it: the rest of the tone's area.
    u = amplitude * per_half * 0.5 * (1 + np.cos(np.pi * x)) + NOISE * rng.standard_normal(n)
    delay = np.full(n, np.nan)
    active = np.arange(n)
    spread = NOISE * np.sqrt(1 - decay**2)
    for step in range(1, int(BURST_S / half)):
        later = decay * u + per_half * amplitude + spread * rng.standard_normal(len(u))
        crossed = later >= THRESHOLD
        if crossed.any():
            part = (THRESHOLD - u[crossed]) / (later[crossed] - u[crossed])
            delay[active[crossed]] = (step - x[crossed] + np.maximum(part, 0)) * half
            waiting = ~crossed
            active, u, amplitude, x = active[waiting], later[waiting], amplitude[waiting], x[waiting]
        else:
            u = later
        if len(active) == 0:
            break
    return delay


def frozen(rng, start):
    """Delay from the start of each burst to the first crossing of the threshold, noise frozen."""
    n = len(start)
    amplitude = AMPLITUDE * np.maximum(0, 1 + AMPLITUDE_NOISE * rng.standard_normal(n))
    threshold = THRESHOLD - NOISE * rng.standard_normal(n)
    half = 0.5 / CARRIER_HZ
    ratio = half / TAU
    omega = np.pi / ratio  # of the rectified tone, in units of tau
    growth = np.exp(ratio)
    x = start / half
    x -= np.floor(x)
    # Charge per volt at the end of a half cycle, and what settles after many.
    scale = 1 / (1 + omega**2)
    per_half = scale * omega * (growth + 1) / growth
    settled = per_half / (1 - 1 / growth)

    def response(y):
        """E(y) R(y): charge per volt from 0 to y of a half cycle, without decay of what was there."""
        a = np.pi * y
        e = np.exp(ratio * y)
        return scale * (e * (np.sin(a) - omega * np.cos(a)) + omega), e

    r0, _ = response(x)
    # Charge at the end of the first, partial half cycle.
    first = amplitude * (scale * omega * (growth + 1) - r0) / growth
    limit = amplitude * settled
    # Half cycles after it that end below the threshold.
    with np.errstate(invalid="ignore", divide="ignore"):
        whole = np.floor(np.log((limit - first) / (limit - threshold)) / ratio)
    whole = np.maximum(whole, 0)
    charge = limit + (first - limit) * np.exp(-ratio * whole)
    # Newton steps on charge + A R(y) - threshold E(y) = 0.
    y = np.full(n, 0.45)
    for _ in range(5):
        a = np.pi * y
        e = np.exp(ratio * y)
        s = np.sin(a)
        g = charge + amplitude * scale * (e * (s - omega * np.cos(a)) + omega) - threshold * e
        slope = ratio * e * (amplitude * s - threshold)
        y -= np.clip(g / slope, -0.2, 0.2)
        np.clip(y, 0.02, 0.98, out=y)
    delay = (1 - x + whole + y) * half
    return np.where(delay < BURST_S, delay, np.nan)


def run(seed, ticks, delays):
    """One run: time error of the ticks against an even grid, and the delays."""
    rng = np.random.default_rng(seed)
    bursts = ticks * BURSTS_PER_TICK
    period = 1 / OUTPUT_HZ
    grid = np.arange(1, bursts + 1) * period
    noise = shaped(rng, bursts, period, reference_density)
    noise += shaped(rng, bursts, period, own_density)
    ageing = 0.5 * (1.5e-12 / 86400) * grid**2
    start = grid * (1 - 2e-11) - ageing - noise
    # A free tone: its phase at the start of the run is anything.
    delay = delays(rng, start + rng.random() / CARRIER_HZ)
    made = start + delay
    tick = made[BURSTS_PER_TICK - 1 :: BURSTS_PER_TICK]
    error = grid[BURSTS_PER_TICK - 1 :: BURSTS_PER_TICK] - tick
    return error, delay


def main():
    delays = {"frozen": frozen, "stepwise": stepwise}[sys.argv[1]]
    ticks = int(sys.argv[2])
    runs = int(sys.argv[3]) if len(sys.argv) > 3 else 1
    seconds = []
    for seed in range(runs):
        begin = time.process_time()
        error, delay = run(seed, ticks, delays)
        seconds.append(time.process_time() - begin)
    print(
        json.dumps(
            {
                "ticks": len(error),
                "cpu_s": seconds,
                "mean_delay_s": float(np.nanmean(delay)),
                "rms_delay_s": float(np.nanstd(delay)),
                "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
                "numpy": np.__version__,
            }
        )
    )


if __name__ == "__main__":
    main()
