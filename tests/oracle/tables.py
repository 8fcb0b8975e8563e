"""The tables of a project as CSV, for oracle.py: missing cells are None, everything in SI, temperatures in degrees C."""
import csv
import math
import os
import re
from collections import defaultdict
from datetime import datetime

CFM, GPM, F, INWG, INCH, FOOT = 0.3048 ** 3 / 60, 3.785411784e-3 / 60, 5 / 9, 249.08891, 0.0254, 0.3048
ROOT3 = math.sqrt(3)
W, STANDARD_DENSITY, WATER = 0.008, 1.204, 4.115e6
UNITS = {"cfm": CFM, "l/s": 1e-3, "m3/s": 1, "gpm": GPM, "kw": 1e3, "w": 1, "in. w.g.": INWG, "pa": 1, "%": 0.01,
         "s": 1, "in.": INCH, "mm": 1e-3, "m": 1, "ft": FOOT, "°f": F, "°c": 1, "": 1}


def number(text, unit="", absolute=False):
    """A cell in SI, its unit in the cell or given; None where empty. `absolute` temperatures have the offset of °F."""
    match = re.match(r"\s*(-?[\d.]+(?:[eE][-+]?\d+)?)\s*(.*?)\s*$", text or "")
    if not match:
        return None
    unit = (match.group(2) or unit).lower()
    value = float(match.group(1))
    return (value - 32) * F if absolute and unit == "°f" else value * UNITS[unit]


def table(path):
    """Rows of a CSV as {column: text}; a unit in a header is put into the column's cells."""
    if not os.path.exists(path):
        return []
    rows = []
    with open(path, newline="", encoding="utf-8-sig") as file:
        for row in csv.DictReader(file):
            clean = {}
            for head, cell in row.items():
                name, _, unit = head.partition("[")
                cell = cell.strip()
                if unit and re.fullmatch(r"-?[\d.]+(?:[eE][-+]?\d+)?", cell):
                    cell += " " + unit.rstrip("] ")
                clean[name.strip()] = cell
            rows.append(clean)
    return rows


def kind_of(quantity):
    if quantity.endswith("temperature"):
        return "temperature"
    if quantity in ("heater power", "water flow"):
        return quantity
    return "flow" if quantity.endswith("flow") or quantity == "flow setpoint" else quantity


class Project:
    """The tables of one project; missing cells are None."""

    def __init__(self, folder, elevation):
        read = lambda name: table(os.path.join(folder, name + ".csv"))
        self.pressure = 101325 * (1 - 2.25577e-5 * elevation) ** 5.2559
        self.handlers = {r["air handler"]: number(r["supply air temperature"], "°F", True) for r in read("air-handlers")}
        self.profiles = {r["profile"]: number(r["stroke time"], "s") for r in read("profiles")}
        self.instruments = {(r["serial"], r["quantity"]): r for r in read("instruments")}
        self.units = {r["unit"]: r for r in read("schedule")}
        self.readings = defaultdict(list)
        for row in read("readings"):
            self.readings[row["unit"]].append(Reading(row, self))

    def density(self, celsius):
        return self.pressure * (1 + W) / (287.042 * (celsius + 273.15) * (1 + 1.607858 * W))

    def capacity(self, flow, celsius):
        """W/K of an actual flow of air entering at a temperature."""
        return self.density(celsius) * flow / (1 + W) * (1006 + 1860 * W)


class Reading:
    def __init__(self, row, project):
        self.run, self.procedure, self.step = int(row["run"] or 1), row["procedure"], row["step"]
        self.outlet, self.quantity, self.serial = row["outlet"], row["quantity"], row["instrument"]
        self.kind = kind_of(self.quantity)
        default = {"flow": "cfm", "temperature": "°F", "heater power": "kW", "water flow": "gpm",
                   "valve position": "%", "heat signal": "%"}.get(self.kind, "")
        self.value = number(row["value"], default, self.kind == "temperature")
        self.waited = number(row["waited"], "s")
        self.time = datetime.fromisoformat(row["taken at"].replace("Z", "+00:00")) if row["taken at"] else None
        instrument = project.instruments.get((self.serial, self.kind), {})
        self.standard = self.kind == "flow" and instrument.get("flow basis") == "standard"
        share, plus = number(instrument.get("percent of reading"), "%"), number(instrument.get("plus"), default)
        stated = share is not None or plus is not None
        share, plus = (share or 0, plus or 0) if stated else (0, F) if self.kind == "temperature" else (0.05, 0)
        self.u = (share * abs(self.value) + plus) / ROOT3
        resolution = number(instrument.get("resolution"), "°F") if self.kind == "temperature" else None
        self.u_resolution = (0.3 * F if resolution is None else resolution) / ROOT3
