#!/usr/bin/env python3
"""Makes the workbooks beside it again (python3-openpyxl). The building and its units are invented."""
import datetime
import os
import zipfile

import openpyxl
from openpyxl.styles import Font

HERE = os.path.dirname(os.path.abspath(__file__))
STAMP = datetime.datetime(2026, 3, 4, 10, 15)


def save(book, name):
    book.properties.created = book.properties.modified = STAMP
    book.save(os.path.join(HERE, name))


def schedule():
    book = openpyxl.Workbook()
    cover = book.active
    cover.title = "Cover"
    sheet = book.create_sheet("Level 2")
    sheet["A1"] = "Invented Building, terminal units"
    sheet.append([])
    sheet.append(["Tag", "Level", "Type", "Inlet (in)", "Clg Max\nCFM", "Clg Min\nCFM", "Heat", "Heater kW", "Heat enable", "Room °F"])
    sheet.append(["2-01", 2, "reheat", 8, 450, 120.5, "hot water", None, 0.75, 70])
    sheet.append(["2-02", 2, "Cooling Only", 6, "=250+50", 75, "none", None, None, None])
    sheet.append(["2-03", 2, "parallel_fan", 10, 900, 300, "electric staged", 4.5, 0.8, 70])
    sheet["I4"].number_format = "0%"
    sheet["B6"].font = Font(bold=True)
    sheet.row_dimensions[6].hidden = True
    sheet.merge_cells("A1:C1")
    save(book, "schedule_openpyxl.xlsx")


def cells():
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Cells"
    sheet.append(["what", "cell"])
    rows = [
        ("whole", 450), ("share", 0.1), ("negative", -3.25), ("text", "Büro <2> & co"), ("true", True), ("false", False),
        ("day", datetime.date(2026, 3, 4)), ("moment", datetime.datetime(2026, 3, 4, 10, 15, 30)), ("time", datetime.time(10, 15)),
        ("blank ends", "  x  "), ("empty", None), ("guarded", "'=1+1"),
    ]
    for row in rows:
        sheet.append(row)
    sheet.append(["percent", 0.075])
    sheet.cell(sheet.max_row, 2).number_format = "0.0%"
    sheet.append(["quoted letters", 12])
    sheet.cell(sheet.max_row, 2).number_format = '0" days"'
    sheet.append(["duration", datetime.timedelta(minutes=2, seconds=30)])
    sheet.append(["error", "#REF!"])
    sheet.cell(sheet.max_row, 2).data_type = "e"
    save(book, "cells_openpyxl.xlsx")


def since_1904():
    book = openpyxl.Workbook()
    book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    sheet = book.active
    sheet.append(["serial", "quantity", "calibrated on", "calibration due"])
    sheet.append(["INV-1", "flow", datetime.date(2026, 3, 4), datetime.date(2027, 3, 4)])
    save(book, "since_1904_openpyxl.xlsx")


def without(source, target, part):
    with zipfile.ZipFile(os.path.join(HERE, source)) as old, zipfile.ZipFile(os.path.join(HERE, target), "w", zipfile.ZIP_DEFLATED) as new:
        for item in old.infolist():
            if item.filename != part:
                new.writestr(zipfile.ZipInfo(item.filename, (2026, 3, 4, 10, 15, 0)), old.read(item))


schedule()
cells()
since_1904()
without("schedule_openpyxl.xlsx", "no_sheet.xlsx", "xl/worksheets/sheet2.xml")
without("schedule_openpyxl.xlsx", "no_workbook.xlsx", "xl/workbook.xml")
