"""A second implementation of the judgement of terminal units, made from its written definition alone and sharing no
code with the program, so that the program's scores can be compared with it. Tables as CSV in; results and scores out.
Only the default acceptance criteria. Inside: m3/s, degrees C, W, Pa, s, kg. u is a standard uncertainty (k = 1)."""
import math
import sys
from collections import defaultdict

from tables import CFM, F, ROOT3, STANDARD_DENSITY, WATER, Project, number
from values import Value, mean, propagated

FLOOR = 10 * CFM
FAN_KINDS = ("parallel fan", "series fan")
COLD = ["cooling max", "cooling min", "heating max", "heating min", "reheat"]
STREAMS = [COLD, ["hot max", "hot min"], ["fan"]]


class Step:
    """The readings of one step that were not taken too early."""

    def __init__(self, judge, readings, needed):
        self.judge, self.all = judge, readings
        self.readings = [r for r in readings if r.waited is None or r.waited >= needed]

    def of(self, quantity):
        return [r for r in self.readings if r.quantity == quantity]

    def plain(self, quantity):
        value = mean(self.of(quantity))
        return None if value is None else value.value

    def flag(self, quantity):
        found = self.of(quantity)
        return any(r.value != 0 for r in found) if found else None

    def entering_for_basis(self):
        for name in ("entering", "primary", "supply"):
            found = self.plain(name + " air temperature")
            if found is not None:
                return found
        return self.judge.inlet_temperature(self.plain("zone temperature"))

    def scale(self, celsius, standard):
        """What brings a reading of flow onto the asked basis."""
        ratio = self.judge.project.density(celsius) / STANDARD_DENSITY
        return lambda r: (ratio if standard else 1) / (ratio if r.standard else 1)

    def flow(self, quantity, standard=False, share=None):
        return mean(self.of(quantity), self.scale(self.entering_for_basis(), standard), share)

    def outlets(self, standard=False):
        celsius = self.plain("discharge air temperature")
        scale = self.scale(self.entering_for_basis() if celsius is None else celsius, standard)
        seen = defaultdict(list)
        for r in self.of("outlet flow"):
            seen[r.outlet].append(r)
        if {r.outlet for r in self.all if r.quantity == "outlet flow"} != set(seen):
            return None
        total = None
        for group in seen.values():
            one = mean(group, scale)
            total = one if total is None else total + one
        return total


# ---- decision -------------------------------------------------------------------------------------------------

def phi(x):
    return 0.5 * math.erfc(-x / math.sqrt(2))


class Check:
    """Result and conformity of y with u against [low, high] by simple acceptance."""

    def __init__(self, name, y, u, low=-math.inf, high=math.inf, open_high=False):
        self.name, self.y, self.u, self.low, self.high = name, y, u, low, high
        inside = low <= y and (y < high if open_high else y <= high)
        if u == 0:
            p = 1.0 if inside else 0.0
        else:
            a, b = (low - y) / u, (high - y) / u
            p = phi(b) - phi(a) if a < 0 else phi(-a) - phi(-b)
        self.conformity = p
        half = (high - low) / 2
        incapable = math.isfinite(half) and 2 * u > half and 0.10 < p < 0.90
        self.result = "cannot tell" if incapable else "pass" if inside else "fail"
        # How near another result is: shares of the interval's scale, or of the conformity.
        scale = max(abs(x) for x in (low, high, 1e-12) if math.isfinite(x))
        near = [abs(y - x) / scale for x in (low, high) if math.isfinite(x)]
        if math.isfinite(half):
            near += [abs(2 * u - half) / scale, abs(p - 0.10), abs(p - 0.90)]
        self.near = min(near)

    def __repr__(self):
        return "%s: y %.6g u %.6g [%.6g, %.6g] p %.6f %s" % (
            self.name, self.y, self.u, self.low, self.high, self.conformity, self.result)


class Criterion:
    def __init__(self, checks=(), missing=(), applies=True):
        self.checks, self.missing, self.applies = list(checks), list(missing), applies

    @property
    def score(self):
        return 100 * min(c.conformity for c in self.checks) if self.applies and self.checks else None

    @property
    def result(self):
        found = {c.result for c in self.checks}
        return ("not applicable" if not self.applies else "fail" if "fail" in found else
                "untested" if self.missing else "cannot tell" if "cannot tell" in found else "pass")


# ---- the judgement of one unit --------------------------------------------------------------------------------

class Judge:
    def __init__(self, project, tag):
        self.project, row = project, project.units[tag]
        self.tag, self.kind, self.heat = tag, row["kind"], row["heat"] or "none"
        self.handler = row["air handler"]
        flow = lambda name: number(row[name], "cfm")
        temperature = lambda name: number(row[name], "°F", True)
        self.design = {s: flow(s + " flow") for s in sum(STREAMS, [])}
        self.standard = row["flow basis"] == "standard"
        self.plenum_heater = self.kind == "parallel fan" and row["heater position"] == "plenum inlet"
        self.power, self.stages = number(row["heater power"], "kW"), number(row["heater stages"])
        self.ratio = number(row["heat enable ratio"])
        self.ratio = 0.75 if self.ratio is None else self.ratio
        self.water_flow, self.water_in = number(row["coil water flow"], "gpm"), temperature("coil entering water temperature")
        self.entering, self.discharge = temperature("design entering air temperature"), \
            temperature("design discharge temperature")
        self.limit = temperature("discharge limit")
        setpoint = temperature("zone heating setpoint")
        if self.limit is None and setpoint is not None:
            self.limit = setpoint + 20 * F
        stroke = number(row["stroke time"], "s")
        stroke = project.profiles.get(row["controller profile"]) if stroke is None else stroke
        self.flow_wait = (90 if stroke is None else stroke) + 60
        self.electric = self.heat.startswith("electric")
        self.rows = project.readings[tag]

    def current(self, procedure):
        rows = [r for r in self.rows if r.procedure == procedure]
        last = max((r.run for r in rows), default=0)
        return [r for r in rows if r.run == last]

    def steps(self, procedure, needed):
        groups = defaultdict(list)
        for r in self.current(procedure):
            groups[r.step].append(r)
        return defaultdict(lambda: Step(self, [], 0), {s: Step(self, g, needed(s)) for s, g in groups.items()})

    def inlet_temperature(self, zone):
        """Air at the inlet where the step has no temperature for a conversion of basis."""
        exhaust = self.kind == "exhaust"
        supply = None if exhaust else self.project.handlers.get(self.handler)
        for found in (zone if exhaust else None, self.entering, supply):
            if found is not None:
                return found
        return ((70 if exhaust else 55) - 32) * F

    def void(self, procedure):
        rows = [r for r in self.rows if r.procedure == "airflow"]
        if len({r.run for r in rows}) < 2:
            return False
        times = [r.time for r in self.current("airflow") if r.time]
        return bool(times) and any(r.time and r.time < min(times) for r in self.current(procedure))

    # -- airflow

    def measured(self, step, name):
        if name == "fan":
            own = step.flow("fan flow", self.standard)
            if own is None and self.kind != "series fan":
                own = step.flow("measured flow", self.standard)
            return own if own is not None else step.outlets(self.standard)
        own = step.flow("measured flow", self.standard)
        if own is not None or self.kind == "series fan":
            return own
        outlets = step.outlets(self.standard)
        if outlets is None or self.kind != "parallel fan":
            return outlets
        fan = self.parallel_fan(step, self.standard)
        if fan is None:
            return None if step.flag("fan on") else outlets
        return outlets + fan.scaled(-1)

    def airflow(self):
        steps = self.steps("airflow", lambda s: self.flow_wait)
        checks, missing = [], []
        for stream in STREAMS:
            for name in stream:
                wanted = self.design[name]
                equal = [name] + [s for s in stream if wanted and self.design[s] and abs(self.design[s] - wanted) < 1e-9]
                found = next((m for m in (self.measured(steps[s], s) for s in equal) if m is not None), None)
                if wanted and wanted > 0:
                    if found is None:
                        missing.append(name)
                    else:
                        tolerance = max(0.1 * wanted, FLOOR)
                        checks.append(Check("design " + name, found.value, found.u, wanted - tolerance,
                                            wanted + tolerance))
                if name == "fan" and self.kind in FAN_KINDS:
                    found = steps[name].flow("measured flow", self.standard)
                reported = steps[name].flow("reported flow", self.standard)
                if reported is not None and found is not None:
                    tolerance = max(0.1 * found.value, FLOOR)
                    checks.append(Check("reported " + name, reported.value - found.value, found.u, -tolerance, tolerance))
        if not any(f and f > 0 for f in self.design.values()):
            missing.append("any scheduled flow")
        return Criterion(checks, missing)

    # -- the air that the heater warms

    def parallel_fan(self, step, standard):
        """The fan's flow: as read, none where the fan was seen off."""
        fan = step.flow("fan flow", standard)
        return Value(0.0) if fan is None and step.flag("fan on") is False else fan

    def air(self, step, standard=False, share=None):
        """(primary, fan): the first measured, else reported; the second None in a unit without a fan."""
        primary = step.flow("measured flow", standard)
        if primary is None and self.kind not in FAN_KINDS:
            primary = step.outlets(standard)
        if primary is None:
            primary = step.flow("reported flow", standard, share)
        if self.kind not in FAN_KINDS:
            return primary, None
        fan = self.parallel_fan(step, standard) if self.kind == "parallel fan" else step.flow("fan flow", standard)
        if fan is None:
            fan = step.outlets(standard)
            if fan is not None and self.kind == "parallel fan":
                fan = fan + primary.scaled(-1) if step.of("measured flow") and not self.plenum_heater else None
        return primary, fan

    def heater_flow(self, step, standard=False, share=None):
        primary, fan = self.air(step, standard, share)
        if self.kind not in FAN_KINDS:
            return primary
        if self.kind == "series fan" or self.plenum_heater:
            return fan
        if (not step.of("measured flow") or fan is None) and step.outlets(standard) is not None:
            return step.outlets(standard)
        return None if primary is None or fan is None else primary + fan

    # -- reheat lockout

    def lockout(self):
        reheat = self.design["reheat"]
        if not (self.electric or self.heat == "hot water" and reheat and reheat > 0) or self.ratio == 0:
            return Criterion(applies=False)
        if self.void("reheat lockout"):
            return Criterion(missing=["void"])
        checks, judged, missing = [], [], []
        for number_, step in sorted(self.steps("reheat lockout", lambda s: 120).items(), key=lambda i: float(i[0])):
            call, on = step.flag("heat call"), step.flag("heat on")
            if on and call is False:
                checks.append(Check("on without call " + number_, 1, 0, 2, 3))
            flow, reference = self.heater_flow(step, self.standard, 0.10), self.reference(step)
            if None in (on, flow) or not call:
                continue
            if reference is None:
                missing.append("reference at " + number_)
                continue
            f = flow.scaled(1 / reference)
            times = [r.time for r in step.all if r.time]
            judged.append((max(times) if times else None, float(number_), f.value, on))
            checks.append(Check("on when allowed " + number_, f.value, f.u, low=self.ratio) if on else
                          Check("heats when it should " + number_, f.value, f.u, high=0.90, open_high=True))
        if not any(f < self.ratio for _, _, f, _ in judged):
            missing.append("a call below the threshold")
        if not any(f >= 0.90 for _, _, f, _ in judged):
            missing.append("a call at reheat flow")
        if self.electric and not self.tripped(judged):
            missing.append("trip")
        return Criterion(checks, missing)

    def reference(self, step):
        recorded = step.flow("flow setpoint", self.standard)
        for flow in (recorded.value if recorded else None, self.design["reheat"], self.design["heating min"]):
            if flow is not None and flow > 0:
                return flow
        return None

    def tripped(self, points):
        if all(p[0] for p in points):
            points = sorted(points, key=lambda p: (p[0], p[1]))
        seen_on = False
        for _, _, f, on in points:
            if seen_on and not on and f < self.ratio:
                return True
            seen_on = seen_on or on
        return False

    # -- discharge rise

    def entering_air(self, step):
        """(temperature, streams, readings with weights) of what enters; the temperature is a function of the streams."""
        own = step.of("entering air temperature")
        if not own and self.kind not in FAN_KINDS:
            own = step.of("primary air temperature")
        if own:
            t = mean(own).value
            return lambda flows: t, [], [(own, 1.0)]
        primary, fan = self.air(step)
        cold, warm = step.of("primary air temperature"), step.of("plenum air temperature")
        if self.kind not in FAN_KINDS or primary is None or fan is None or not cold or not warm:
            return None
        tc, tw = mean(cold).value, mean(warm).value
        induced = fan + primary.scaled(-1) if self.kind == "series fan" else fan
        induced.value = max(0.0, induced.value)

        def share(flows):
            a, b = self.project.density(tc) * flows[0], self.project.density(tw) * flows[1]
            return a / (a + b)
        if primary.value + induced.value <= 0:
            return None
        w = share([primary.value, induced.value])
        return lambda flows: share(flows) * tc + (1 - share(flows)) * tw, [primary, induced], [(cold, w), (warm, 1 - w)]

    def difference_u(self, discharge, parts):
        """u of the temperature difference: only resolutions where one named instrument read everything."""
        serials = {r.serial for r in discharge} | {r.serial for group, _ in parts for r in group}
        one = len(serials) == 1 and serials != {""}
        terms = [mean(discharge, resolution=one).u]
        terms += [weight * mean(group, resolution=one).u for group, weight in parts]
        return math.hypot(*terms)

    def rise(self):
        if self.heat == "none":
            return Criterion(applies=False)
        if self.void("discharge rise"):
            return Criterion(missing=["void"])
        off = 900 if self.heat == "hot water" else 180
        steps = self.steps("discharge rise", lambda s: off if s == "heat off" else 300)
        rise = self.rise_check(steps["heat forced"]) or self.rise_check(steps["heat on"])
        found = {"rise": rise, "limit": self.limit_check(steps["heat on"]), "cold": self.cold_check(steps["heat off"])}
        return Criterion([c for c in found.values() if c], [name for name, c in found.items() if not c])

    def limit_check(self, step):
        discharge = mean(step.of("discharge air temperature"))
        if discharge is None or self.limit is None:
            return None
        return Check("limit", discharge.value, discharge.u, high=self.limit)

    def cold_check(self, step):
        discharge, entering = step.of("discharge air temperature"), self.entering_air(step)
        if not discharge or not entering:
            return None
        temperature, flows, parts = entering
        y = mean(discharge).value - temperature([f.value for f in flows])
        u = math.hypot(self.difference_u(discharge, parts), propagated(temperature, flows).u)
        return Check("cold when off", y, u, -2 * F, 2 * F)

    def rise_check(self, step):
        discharge, entering = step.of("discharge air temperature"), self.entering_air(step)
        if not discharge or not entering:
            return None
        temperature, mixed, parts = entering
        heater = self.heater_flow(step)
        if self.plenum_heater and mixed:
            heater = mixed[0] + mixed[1]
        if heater is None or heater.value <= 0:
            return None
        te = temperature([f.value for f in mixed])
        mixed_u = propagated(temperature, mixed).u
        expected = self.expected(step, heater, te, math.hypot(*[w * mean(group).u for group, w in parts], mixed_u))
        if expected is None:
            return None
        y = mean(discharge).value - te - expected.value
        u = math.hypot(self.difference_u(discharge, parts), mixed_u, expected.u)
        tolerance = max(0.15 * abs(expected.value), 2 * F)
        return Check("rise " + step.readings[0].step, y, u, -tolerance, tolerance)

    def expected(self, step, heater, te, te_u):
        capacity = self.project.capacity(heater.value, te)
        if self.electric:
            power = mean(step.of("heater power"))
            if power is None and self.power is not None:
                nameplate = self.power * self.share_on(step)
                power = Value(nameplate, {"nameplate": 0.05 * nameplate / ROOT3})
            return None if power is None else propagated(
                lambda x: x[1] / self.project.capacity(x[0], te), [heater, power])
        water, hot, cold = (step.of(q) for q in ("water flow", "entering water temperature", "leaving water temperature"))
        if water and hot and cold:
            drop = Value(mean(hot).value - mean(cold).value, {"drop": self.difference_u(hot, [(cold, 1.0)])})
            return propagated(lambda x: WATER * x[1] * x[2] / self.project.capacity(x[0], te), [heater, mean(water), drop])
        valve = step.plain("valve position")
        if valve is None or valve < 0.95 or not hot or capacity <= 0:
            return None
        coil = self.fitted_coil()
        if coil is None:
            return None
        read = mean(water) if water else Value(self.water_flow)
        drive = mean(hot) + Value(-te, {"entering": te_u})
        rise = propagated(lambda x: coil(self.project.capacity(x[0], te), x[1], x[2]), [heater, read, drive])
        rise.sources["model"] = 0.10 * rise.value / ROOT3
        return rise

    def share_on(self, step):
        stages, signal = step.plain("stages on"), step.plain("heat signal")
        if stages is not None:
            return stages / (self.stages or 1)
        return signal if self.heat == "electric modulating" and signal is not None else 1.0

    def fitted_coil(self):
        """rise(air W/K, water m3/s, entering water over entering air) with UA from the scheduled point, or None."""
        box = next((self.design[s] for s in ("heating max", "reheat") if self.design[s]), None)
        fan = self.design["fan"]
        if self.kind == "series fan" or self.plenum_heater:
            box = fan
        elif self.kind == "parallel fan":
            box = None if box is None or fan is None else box + fan
        if None in (box, self.water_flow, self.water_in, self.entering, self.discharge) or self.water_flow <= 0:
            return None
        if self.standard:
            box *= STANDARD_DENSITY / self.project.density(self.entering)
        air, water = self.project.capacity(box, self.entering), WATER * self.water_flow
        least, ratio = min(air, water), min(air, water) / max(air, water)
        span = self.water_in - self.entering
        if span <= 0:
            return None
        wanted = air * (self.discharge - self.entering) / (least * span)
        if not 0 < wanted < effectiveness(1e3, ratio):
            return None
        low, high = 0.0, 1e3
        for _ in range(200):
            middle = (low + high) / 2
            low, high = (middle, high) if effectiveness(middle, ratio) < wanted else (low, middle)
        ua = low * least

        def rise(air_now, flow, drive):
            water_now = WATER * flow
            small = min(air_now, water_now)
            return effectiveness(ua / small, small / max(air_now, water_now)) * small * drive / air_now
        return rise

    def judge(self):
        criteria = {"airflow": self.airflow(), "reheat_lockout": self.lockout(), "discharge_rise": self.rise()}
        scores = [c.score for c in criteria.values() if c.score is not None]
        found = [c.result for c in criteria.values()]
        worst = next(r for r in ("fail", "untested", "cannot tell", "pass") if r in found)
        return {"unit": self.tag, "result": worst, "score": min(scores) if scores else None, "criteria": criteria}


def effectiveness(ntu, ratio):
    """Cross-flow, both streams unmixed."""
    return 1 - math.exp(ntu ** 0.22 / ratio * (math.exp(-ratio * ntu ** 0.78) - 1)) if ntu > 0 else 0.0


def judge_folder(folder, elevation):
    """{unit: judgement} of a folder with schedule.csv, readings.csv and so on; elevation in m."""
    project = Project(folder, elevation)
    return {tag: Judge(project, tag).judge() for tag in project.units}


if __name__ == "__main__":
    for tag, found in judge_folder(sys.argv[1], number(sys.argv[2], "ft")).items():
        print(tag, found["result"], found["score"], *(
            "%s=%s/%s" % (n, c.result, c.score) for n, c in found["criteria"].items()))
