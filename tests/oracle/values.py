"""Values with their sources of error, for oracle.py."""
import math

from tables import ROOT3


class Value:
    """A value and what each independent source of error adds to it, signed."""

    def __init__(self, value, sources=None):
        self.value, self.sources = value, dict(sources or {})

    @property
    def u(self):
        return math.hypot(*self.sources.values()) if self.sources else 0.0

    def scaled(self, factor):
        return Value(self.value * factor, {k: c * factor for k, c in self.sources.items()})

    def __add__(self, other):
        total = Value(self.value + other.value, self.sources)
        for key, c in other.sources.items():
            total.sources[key] = total.sources.get(key, 0) + c
        return total


def mean(readings, scale=lambda r: 1.0, share=None, resolution=False):
    """The mean; one instrument's errors (and those of readings without one) add linearly, scatter in quadrature."""
    if not readings:
        return None
    n = len(readings)
    values = [r.value * scale(r) for r in readings]
    result = Value(math.fsum(values) / n)
    for r, v in zip(readings, values):
        u = abs(v) * share / ROOT3 if share is not None else r.u_resolution if resolution else r.u * scale(r)
        key = (r.serial, r.kind)
        result.sources[key] = result.sources.get(key, 0) + u / n
    if n > 1:
        scatter = math.sqrt(math.fsum((v - result.value) ** 2 for v in values) / (n - 1) / n)
        result.sources[("scatter", id(readings[0]))] = scatter
    return result


def propagated(function, inputs):
    """function(inputs) with every source of error carried through by central differences."""
    at = [i.value for i in inputs]
    result = Value(function(at))
    for k, one in enumerate(inputs):
        step = 1e-5 * max(abs(at[k]), 1e-6)
        slope = (function(at[:k] + [at[k] + step] + at[k + 1:]) - function(at[:k] + [at[k] - step] + at[k + 1:])) / (2 * step)
        for key, c in one.sources.items():
            result.sources[key] = result.sources.get(key, 0) + slope * c
    return result
