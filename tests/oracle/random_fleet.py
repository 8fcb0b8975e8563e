"""A random project as CSV tables, the same for the same seed: every kind of unit and of heat, instruments with and without an
accuracy, outlets, repeated and early readings, superseded runs, values near the limits, and things missing.
All invented. `write(folder, seed)` returns the site's elevation as text."""
import csv
import os
import random
from datetime import datetime, timedelta

KINDS = ["cooling only", "reheat", "reheat", "reheat", "parallel fan", "series fan", "dual duct", "exhaust"]
HEATS = ["hot water", "electric staged", "electric modulating"]
INSTRUMENTS = [  # serial, quantity, percent, plus, resolution, basis
    ("H1", "flow", "3", "3 cfm", "1 cfm", ""), ("H2", "flow", "", "", "", ""), ("H3", "flow", "4", "", "", "standard"),
    ("H4", "flow", "", "2 L/s", "", "actual"), ("H5", "flow", "14", "", "", ""), ("T1", "temperature", "", "0.5 °F", "0.1 °F", ""),
    ("T2", "temperature", "", "0.2 °C", "", ""), ("T3", "temperature", "", "", "0.2 °F", ""), ("T4", "temperature", "1", "0.3 °F", "", ""),
    ("P1", "heater power", "1.5", "0.01 kW", "", ""), ("P2", "heater power", "", "", "", ""),
    ("W1", "water flow", "3", "0.02 gpm", "", ""), ("H1", "temperature", "", "1 °F", "", "")]
FLOW = ["H1", "H1", "H2", "H3", "H4", "H5", "", "X9"]
WARM = ["T1", "T1", "T2", "T3", "T4", "", "X9", "H1"]
COLUMNS = ["unit", "floor", "air handler", "kind", "cooling max flow", "cooling min flow", "heating max flow",
           "heating min flow", "reheat flow", "fan flow", "hot max flow", "hot min flow", "flow basis", "heat",
           "heater position", "heater power", "heater stages", "heat enable ratio", "coil water flow",
           "coil entering water temperature", "design entering air temperature", "design discharge temperature",
           "discharge limit", "zone heating setpoint", "stroke time", "controller profile"]
READING = ["unit", "run", "procedure", "step", "outlet", "quantity", "value", "instrument", "taken at", "waited"]


class Notebook:
    """The readings of one unit, one after another in time."""

    def __init__(self, rng, tag, rows):
        self.rng, self.tag, self.rows = rng, tag, rows
        self.clock = datetime(2026, 10, 12, 8) + timedelta(minutes=rng.randrange(600))
        self.timed = rng.random() < 0.9

    def start(self, run, procedure, step, needed, early=0.06):
        self.head = [self.tag, run, procedure, step]
        self.needed, self.early = needed, early
        self.fan = 0  # a parallel fan's flow in this step
        self.clock += timedelta(minutes=self.rng.randrange(2, 9))

    def read(self, quantity, value, unit, instrument="", outlet="", certain=False):
        if not certain and self.rng.random() < 0.02:
            return
        waited = self.needed + self.rng.choice([0, 1, 30, 200])
        if self.rng.random() < self.early * 0.3:
            waited = max(0, self.needed - self.rng.choice([1, 20]))
        self.clock += timedelta(seconds=10)
        taken = self.rng.choice([self.clock.isoformat() + "+00:00", self.clock.isoformat() + "Z",
                                 (self.clock - timedelta(hours=7)).isoformat() + "-07:00"]) if self.timed else ""
        text = ("%.6g %s" % (value, unit)).strip()
        self.rows.append(self.head[:4] + [outlet, quantity, text, instrument, taken,
                                          "" if self.rng.random() < 0.05 else waited])

    def repeated(self, quantity, value, unit, instrument, outlet="", scatter=0.01):
        for _ in range(self.rng.choice([1, 1, 1, 2, 3])):
            self.read(quantity, value + self.rng.gauss(0, scatter), unit, instrument, outlet)


class Fleet:
    def __init__(self, seed, units):
        self.rng = random.Random(seed)
        self.schedule, self.readings = [], []
        self.elevation = self.rng.choice([0, 0, 620, 2500, 5150, 7800])
        for i in range(units):
            unit = self.unit("U-%02d" % (i + 1))
            self.schedule.append(unit)
            self.visit(unit)

    def near(self, limit, share):
        """A value about a limit, often very close to it."""
        return limit * (1 + self.rng.gauss(0, self.rng.choice([share * 0.1, share, 0.001])))

    def unit(self, tag):
        rng = self.rng
        kind = rng.choice(KINDS)
        heated = kind in ("reheat", "parallel fan", "series fan")
        heat = rng.choice(HEATS) if heated and rng.random() < 0.95 else "none"
        top = rng.randrange(8, 40) * 50
        low = rng.choice([0, rng.randrange(40, 90), round(top * 0.3), round(top * 0.4)])
        u = dict.fromkeys(COLUMNS, "")
        u.update({"unit": tag, "floor": "1", "air handler": rng.choice(["AH-1", "AH-2", "AH-3"]), "kind": kind,
                  "cooling max flow": top, "cooling min flow": low, "heat": heat,
                  "flow basis": rng.choice(["", "actual", "actual", "standard"]),
                  "stroke time": rng.choice(["", "", 60, 120]), "controller profile": rng.choice(["", "A", "B"])})
        u["zone heating setpoint"] = rng.choice([68, 70, 70, ""])
        if heat != "none":
            self.heater(u, top, max(low, 60))
        if kind in ("parallel fan", "series fan"):
            u["fan flow"] = round(top * (1.1 if kind == "series fan" else 0.5))
        if kind == "dual duct":
            u["hot max flow"], u["hot min flow"] = round(top * 0.6), rng.choice([0, round(top * 0.2), round(top * 0.6)])
        return u

    def heater(self, u, top, low):
        rng = self.rng
        u["heating max flow"] = rng.choice([round(top * 0.5), round(top * 0.6), low, ""])
        u["heating min flow"] = rng.choice([low, low, round(top * 0.35), ""])
        u["reheat flow"] = rng.choice([u["heating min flow"], low, round(top * 0.35), "", 0])
        u["heat enable ratio"] = rng.choice(["", "", 0.6, 0.8, 0])
        u["heater position"] = rng.choice(["", "discharge", "plenum inlet"]) if u["kind"] == "parallel fan" else rng.choice(["", "discharge"])
        u["discharge limit"] = rng.choice(["", "", 88, 92])
        u["design entering air temperature"] = rng.choice([55, 56, 62, ""])
        if u["heat"] == "hot water":
            u["coil water flow"] = rng.choice([1.1, 1.6, 2.4, 2.4, ""])
            u["coil entering water temperature"] = rng.choice([140, 160, 160, ""])
            u["design discharge temperature"] = rng.choice([86, 90, 95])
        else:
            u["heater power"] = rng.choice([1.5, 3, 4.5, ""])
            u["heater stages"] = rng.choice([1, 2, 3, ""])

    # -- site

    def visit(self, u):
        rng, book = self.rng, Notebook(self.rng, u["unit"], self.readings)
        if rng.random() < 0.03:
            return
        first = rng.choice([1, 1, 1, 3])
        again = rng.random()
        self.airflow(book, u, first)
        if again < 0.06:
            self.airflow(book, u, first + 1)
        if u["heat"] != "none":
            self.lockout(book, u, 1)
            if again > 0.95:
                self.lockout(book, u, 2)
            self.rise(book, u, 1)
        if again > 0.9:
            self.airflow(book, u, first + 1)
        if 0.94 < again < 0.97 and u["heat"] != "none":
            self.lockout(book, u, 3)
            self.rise(book, u, 2)

    def flow_unit(self, cfm):
        return self.rng.choice([(cfm, "cfm"), (cfm, "cfm"), (cfm * 0.47194745, "L/s"), (cfm * 0.00047194745, "m3/s")])

    def airflow(self, book, u, run):
        rng = self.rng
        steps = [s for s in ("cooling max", "cooling min", "heating max", "heating min", "reheat", "hot max", "hot min", "fan")
                 if u[s + " flow"] not in ("", 0)]
        good = rng.random() < 0.6
        stroke = u["stroke time"] or {"A": 45, "B": 90, "": 90}[u["controller profile"]]
        for step in steps + (["shut"] if rng.random() < 0.1 else []):
            if rng.random() < 0.05:
                continue
            design = float(u.get(step + " flow", 0) or 0)
            book.start(run, "airflow", step, stroke + 60)
            flow = max(5.0, rng.choice([design, design, design * 1.02] if good else [
                design, self.near(design * 1.1, 0.02), self.near(design * 0.9, 0.02), design + 10, design - 9.999]))
            self.measure(book, u, step, flow)
            if rng.random() < 0.7:
                value, unit = self.flow_unit(flow * rng.choice([1, 1.01, 0.97] if good else [1, 1.09, 0.9, 1.11]))
                book.read("reported flow", value, unit, rng.choice(["", "", "", "H3", "H1"]))

    def measure(self, book, u, step, flow):
        rng = self.rng
        value, unit = self.flow_unit(flow)
        if rng.random() < 0.3:
            self.air_temperature(book, u)
        if step == "fan":
            way = rng.choice(["fan flow", "fan flow", "outlets", "measured flow", "both"])
        else:
            way = rng.choice(["measured flow"] * 4 + ["outlets", "both"])
        if u["kind"] == "parallel fan" and step != "fan" and rng.random() < 0.5:
            self.parallel_fan(book, u, step)
        if way in ("outlets", "both"):
            if book.fan and step != "fan":
                value *= 1 + book.fan / flow
            n = rng.randrange(1, 5)
            for i in range(n):
                outlet = "" if n == 1 and rng.random() < 0.5 else "D%d" % (i + 1)
                book.repeated("outlet flow", value / n, unit, rng.choice(["H1", "H1", "H1", rng.choice(FLOW)]), outlet,
                              value * 0.003)
            if rng.random() < 0.3:
                book.read("discharge air temperature", 57 + rng.random(), "°F", "T1")
            value, unit = self.flow_unit(flow)
        if way in ("measured flow", "fan flow", "both"):
            quantity = "fan flow" if way == "both" and step == "fan" else "measured flow" if way != "fan flow" else way
            for _ in range(rng.choice([1, 1, 1, 2])):
                book.repeated(quantity, value, unit, rng.choice(FLOW), "", value * 0.01)

    def parallel_fan(self, book, u, step):
        """The fan in an airflow step, off while the unit cools."""
        on = step.startswith("heat")
        book.fan = u["fan flow"] if on else 0
        if self.rng.random() < 0.6:
            book.read("fan on", int(on), "")
        if on and self.rng.random() < 0.6:
            book.read("fan flow", book.fan, "cfm", self.rng.choice(["H1", "H3", ""]))

    def air_temperature(self, book, u):
        if u["kind"] == "exhaust":
            book.read("zone temperature", 71 + self.rng.random(), "°F", "T1")
        else:
            name = self.rng.choice(["entering", "primary", "supply"]) + " air temperature"
            book.read(name, 55 + self.rng.gauss(0, 2), "°F", self.rng.choice(WARM))

    def air_of_heater(self, book, u, share, fan_share=1.0):
        """Flow readings of a lockout point or a rise step, the heater's air at `share` of the heating flow."""
        rng = self.rng
        base = float(u["reheat flow"] or u["heating min flow"] or u["cooling max flow"]) * share
        value, unit = self.flow_unit(max(base, 1))
        way = rng.choice(["measured"] * 5 + ["reported", "both", "outlets", "none"] if rng.random() < 0.4 else ["measured"])
        flow = rng.choice(FLOW)
        if way in ("measured", "both"):
            book.repeated("measured flow", value, unit, flow, "", value * 0.005)
        if way in ("reported", "both"):
            book.read("reported flow", value * 1.01, unit, rng.choice(["", "", "H3", "H1"]))
        if u["fan flow"]:
            fan = u["fan flow"] * (fan_share if u["kind"] == "series fan" or u["heater position"] == "plenum inlet" else 1)
            chance = rng.random()
            if chance < 0.85:
                value, unit = self.flow_unit(fan)
                book.repeated("fan flow", value, unit, rng.choice([flow, rng.choice(FLOW)]), "", value * 0.005)
            elif chance < 0.93 and u["kind"] == "parallel fan":
                book.read("fan on", 0, "")
            value, unit = self.flow_unit(fan if u["kind"] == "series fan" else base + fan)
            if chance > 0.8:
                way = "outlets"
        if way == "outlets":
            for i in range(2):
                book.repeated("outlet flow", value / 2, unit, rng.choice(["H1", "H1", "", "H3"]), "D%d" % i, value * 0.002)

    def lockout(self, book, u, run):
        rng = self.rng
        r = float(u["heat enable ratio"] or 0.75) or 0.75
        good = rng.random() < 0.6
        plan = [(r * 0.8, 1, 0), (1.0, 1, 1), (r * 0.8, 1, 0), (1.0, 0, 0)]
        if not good:
            for i in range(4):
                if rng.random() < 0.4:
                    plan[i] = (rng.choice([self.near(r, 0.03), self.near(0.9, 0.02), r, 0.9]), rng.choice([1, 1, 0]), rng.choice([0, 1]))
            if rng.random() < 0.3:
                plan.pop(rng.randrange(4))
        setpoint = rng.random() < 0.5
        numbers = [str(i + 1) for i in range(len(plan))]
        if rng.random() < 0.1:
            numbers.reverse()
        for name, (f, call, on) in zip(numbers, plan):
            book.start(run, "reheat lockout", name, 120)
            if rng.random() < 0.15:
                self.air_temperature(book, u)
            self.air_of_heater(book, u, f, f)
            if setpoint:
                base = float(u["reheat flow"] or u["heating min flow"] or u["cooling max flow"])
                if u["fan flow"]:
                    base = u["fan flow"] if u["kind"] == "series fan" or u["heater position"] == "plenum inlet" else base + u["fan flow"]
                value, unit = self.flow_unit(base)
                book.read("flow setpoint", value, unit, rng.choice(["", "", "", "H3"]))
            if rng.random() < 0.98:
                book.read("heat call", call, "")
            book.read("heat on", on, "")

    def rise(self, book, u, run):
        rng = self.rng
        for step, needed in (("heat on", 300), ("heat forced", 300),
                             ("heat off", 900 if u["heat"] == "hot water" else 180)):
            if rng.random() < 0.06:
                continue
            book.start(run, "discharge rise", step, needed)
            self.air_of_heater(book, u, 1.0)
            warm = rng.choice(WARM)
            other = warm if rng.random() < 0.5 else rng.choice(WARM)
            fan = bool(u["fan flow"])
            enters = 55.0
            if not fan or rng.random() < 0.3:
                name = "primary air temperature" if rng.random() < 0.1 else "entering air temperature"
                enters = 66.0 if fan else 55.0
                book.repeated(name, enters, "°F", other, "", 0.2)
            if fan:
                primary, fanned = float(u["reheat flow"] or u["heating min flow"] or u["cooling max flow"]), u["fan flow"]
                induced = max(0, fanned - primary) if u["kind"] == "series fan" else fanned
                enters = (55 * primary + 74 * induced) / (primary + induced)
                book.repeated("primary air temperature", 55, "°F", other, "", 0.2)
                book.repeated("plenum air temperature", 74, "°F", other if rng.random() < 0.7 else rng.choice(WARM), "", 0.2)
            self.heat(book, u, step, enters, warm)

    def heat(self, book, u, step, enters, warm):
        rng = self.rng
        rise = 0.0 if step == "heat off" else rng.choice([20, 25, 30, 33])
        leaves = enters + rise + rng.gauss(0, rng.choice([0.3, 1, 2]))
        if step == "heat on" and u["discharge limit"] and rng.random() < 0.3:
            leaves = self.near(float(u["discharge limit"]), 0.01)
        celsius = rng.random() < 0.2
        book.repeated("discharge air temperature", (leaves - 32) / 1.8 if celsius else leaves, "°C" if celsius else "°F", warm, "", 0.2)
        primary = float(u["reheat flow"] or u["heating min flow"] or u["cooling max flow"])
        flow = primary + (u["fan flow"] or 0) if u["kind"] == "parallel fan" else float(u["fan flow"] or primary)
        thin = (1 - 6.8754e-6 * self.elevation) ** 5.2559
        btu = 1.1 * thin * flow * max(rise, 0) * rng.choice([1, 1.02, 0.95, 1.16, 0.86])
        if u["heat"] == "hot water":
            drop = rng.choice([10, 20, 30])
            if rng.random() < 0.5:
                book.repeated("water flow", btu / 491 / drop if btu else 1.0, "gpm", rng.choice(["W1", ""]), "", 0.005)
            if rng.random() < 0.9:
                book.repeated("entering water temperature", 150, "°F", rng.choice(["T1", "T2", ""]), "", 0.2)
            if rng.random() < 0.5:
                book.repeated("leaving water temperature", 150 - drop, "°F", rng.choice(["T1", "T2", ""]), "", 0.2)
            book.read("valve position", rng.choice([100, 100, 96, 95, 94, 60]), "%")
        else:
            if rng.random() < 0.6:
                book.repeated("heater power", btu / 3412, "kW", rng.choice(["P1", "P2", ""]), "", 0.005)
            if rng.random() < 0.5:
                book.read("stages on", 0 if step == "heat off" else rng.choice([1, 2]), "")
            if rng.random() < 0.4:
                book.read("heat signal", rng.choice([100, 80, 50]), "%")


def table(folder, name, head, rows):
    with open(os.path.join(folder, name + ".csv"), "w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(head)
        writer.writerows(rows)


def write(folder, seed, units=24):
    fleet = Fleet(seed, units)
    flows = {"heater power": " [kW]", "coil water flow": " [gpm]", "stroke time": " [s]"}
    heads = [c + flows.get(c, " [cfm]" if c.endswith("flow") else
                           " [°F]" if c.endswith(("temperature", "limit", "setpoint")) else "") for c in COLUMNS]
    table(folder, "schedule", heads, [[u[c] for c in COLUMNS] for u in fleet.schedule])
    table(folder, "readings", READING, fleet.readings)
    table(folder, "instruments", ["serial", "quantity", "percent of reading [%]", "plus", "resolution", "flow basis"], INSTRUMENTS)
    table(folder, "air-handlers", ["air handler", "supply air temperature [°F]"], [("AH-1", 55), ("AH-2", ""), ("AH-3", 58)])
    table(folder, "profiles", ["profile", "kinds served", "heat served", "stroke time [s]"],
          [("A", "reheat", "hot water", 45), ("B", "reheat", "hot water", "")])
    return "%d ft" % fleet.elevation
