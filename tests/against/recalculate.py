#!/usr/bin/env python3
"""Opens the workbook in a headless office suite, changes one control point by a thousandth, lets everything be reckoned anew,
reads class and head mass back, so many times; prints what the workbook says of the line as drawn, and the seconds, as JSON.

    recalculate.py PLAN.fods --repeat N
"""
import argparse
import json
import os
import pathlib
import subprocess
import tempfile
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

PARTS = ("tip", "front", "belly", "rear", "end")


def started(folder):
    """The office suite with settings of its own, listening on a pipe; and its desktop."""
    pipe = f"taperwright-{os.getpid()}"
    office = subprocess.Popen(
        ["soffice", "--headless", "--norestore", "--nologo", f"--accept=pipe,name={pipe};urp;",
         f"-env:UserInstallation={pathlib.Path(folder).as_uri()}"],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    here = uno.getComponentContext()
    resolver = here.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", here)
    while True:
        try:
            there = resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
            return office, there.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", there)
        except NoConnectException:
            if office.poll() is not None:
                raise SystemExit("The office suite ended before it could be asked.")
            time.sleep(0.02)


class Workbook:
    def __init__(self, desktop, file):
        hidden = PropertyValue(Name="Hidden", Value=True)
        self.book = desktop.loadComponentFromURL(pathlib.Path(file).resolve().as_uri(), "_blank", 0, (hidden,))
        self.book.calculateAll()

    def cell(self, name):
        return self.book.NamedRanges.getByName(name).getReferredCells().getCellByPosition(0, 0)

    def number(self, name):
        """The number in a cell; None where it holds words."""
        cell = self.cell(name)
        if cell.getError():
            raise SystemExit(f"{name}: the workbook has error {cell.getError()}.")
        return None if cell.getString() in ("none", "too short") else cell.getValue()

    def column(self, sheet, title):
        table = self.book.Sheets.getByName(sheet)
        cursor = table.createCursor()
        cursor.gotoEndOfUsedArea(False)
        head, *rows = table.getCellRangeByPosition(
            0, 0, cursor.RangeAddress.EndColumn, cursor.RangeAddress.EndRow).getDataArray()
        return [row[head.index(title)] for row in rows]

    def answer(self):
        number = self.number("class")
        parts = [{"part": part, "mass": self.number(f"mass_{part}")} for part in PARTS]
        wound = {kind: sorted(length for length in self.column("Bobbins", kind) if length) for kind in ("light", "heavy")}
        return {
            "head_mass": self.number("head_mass"), "total_mass": self.number("total_mass"),
            "class": None if number is None else int(number), "changes": int(self.number("changes")),
            "places": [at for at in self.column("Changes", "at") if at != ""], "belly_angle": self.number("belly_angle"),
            "parts": [part for part in parts if part["mass"] > 0], "bobbins": wound,
        }


def changed(workbook, repeat):
    """Seconds of each change of the thickest point with class and head read back, and the head after the last."""
    drawn = workbook.column("Drawing", "diameter")
    row = drawn.index(max(drawn))
    point = workbook.book.Sheets.getByName("Drawing").getCellByPosition(1, row + 1)
    group, grains, seconds = workbook.cell("class"), workbook.cell("head_mass"), []
    for turn in range(repeat):
        begun = time.perf_counter()
        point.setValue(drawn[row] * (1.001 if turn % 2 == 0 else 0.999))
        workbook.book.calculate()
        group.getString(), grains.getValue()
        seconds.append(time.perf_counter() - begun)
    return seconds, workbook.number("head_mass")


def main():
    arguments = argparse.ArgumentParser(description="Reckons a workbook anew, so many times.")
    arguments.add_argument("workbook")
    arguments.add_argument("--repeat", type=int, default=1)
    asked, begun = arguments.parse_args(), time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        office, desktop = started(folder)
        try:
            workbook = Workbook(desktop, asked.workbook)
            answer, start = workbook.answer(), time.perf_counter() - begun
            seconds, head = changed(workbook, asked.repeat)
            workbook.book.close(True)
            desktop.terminate()
        finally:
            try:
                office.wait(30)
            except subprocess.TimeoutExpired:
                office.kill()
    print(json.dumps({**answer, "head_mass_changed": head, "seconds": seconds, "start_seconds": start,
                      "whole_seconds": time.perf_counter() - begun}))


if __name__ == "__main__":
    main()
