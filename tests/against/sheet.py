#!/usr/bin/env python3
"""Writes the plan of a line as a workbook of formulas (.fods), as a competent maker would keep it.

    sheet.py OUT.fods < design.json

Inputs stand in cells under names; nothing but inputs is a value. One row for each dressing step, level, possible change, tread
and bobbin. Left out, since a sheet cannot do it sensibly: the choice of wheels by dynamic programming (here every level has the
wheels nearest to its lay), wheels fitted beside a stop, the late angle, changes gathered to one stop (they are pushed apart
forwards only), swellings too short to make, pins, carriers.
"""
import json
import sys
from xml.sax.saxutils import quoteattr

CLASSES = [(1, 54, 66), (2, 74, 86), (3, 94, 106), (4, 114, 126), (5, 134, 146), (6, 152, 168), (7, 177, 193), (8, 202, 218),
           (9, 230, 250), (10, 270, 290), (11, 318, 342), (12, 368, 392), (13, 435, 465), (14, 485, 515), (15, 535, 565)]
ROUNDS = 10  # of tan α = π D(α)/L, in a column each
PARTS = ("tip", "front", "belly", "rear", "end")


def letters(index):
    return (chr(64 + index // 26) if index >= 26 else "") + chr(65 + index % 26)


class Sheet:
    """A table with a head; formulas name columns of the same row as {column}, of the row above or below as {^column}, {_column},
    and whole columns of any sheet as {Sheet.column}."""
    all = {}

    def __init__(self, name, columns, rows):
        self.name, self.columns, self.count, self.rows = name, list(columns), len(rows), rows
        Sheet.all[name] = self

    def column(self, name):
        letter = letters(self.columns.index(name))
        return f"[${self.name}.${letter}$2:.${letter}${self.count + 1}]"

    def filled(self, formula, row):
        for name in self.columns:
            letter = letters(self.columns.index(name))
            for sign, by in (("", 0), ("^", -1), ("_", 1)):
                formula = formula.replace("{" + sign + name + "}", f"[.{letter}{row + by}]")
        for sheet in Sheet.all.values():
            for name in sheet.columns:
                formula = formula.replace("{" + sheet.name + "." + name + "}", sheet.column(name))
        return formula

    def xml(self):
        lines = [f"<table:table table:name={quoteattr(self.name)}>", row_of(map(cell, self.columns))]
        for number, row in enumerate(self.rows, start=2):
            lines.append(row_of(cell(self.filled(value, number) if isinstance(value, str) else value) for value in row))
        return "\n".join(lines + ["</table:table>"])


def row_of(cells):
    return "<table:table-row>" + "".join(cells) + "</table:table-row>"


def cell(value):
    if value is None:
        return "<table:table-cell/>"
    if isinstance(value, str) and value.startswith("="):
        return f"<table:table-cell table:formula={quoteattr('of:' + value)}/>"
    if isinstance(value, str):
        text = value.replace("&", "&amp;").replace("<", "&lt;")
        return f'<table:table-cell office:value-type="string"><text:p>{text}</text:p></table:table-cell>'
    return f'<table:table-cell office:value-type="float" office:value="{value!r}"/>'


def inputs(design):
    """Every number of the design, and what follows from them alone."""
    given = {name: value for part in ("yarn", "braid", "take_off", "dressing") for name, value in design[part].items()
             if not isinstance(value, list)}
    derived = {
        "thread": "=(label_low+label_high)/2*kept*factor*ends",
        "thickness": "=SQRT(4*thread/(PI()*fibre_density*packing)/flattening)",
        "section": "=4/(PI()*fibre_density*fibre_fraction)",
        "most_adding": '=IF(build="heavier-threads";fewest;MAX(most;fewest))',
        "filling": "=" + last("Dressing", "dried on") + "+" + last("Dressing", "not yet dry"),
        "film_on": '=IF(SUMPRODUCT(({Dressing.do}="varnish")*({Dressing.stays}>0))>0;film*pick_up;0)',
        "grease_on": '=IF(COUNTIF({Dressing.do};"grease")>0;grease;0)',
        "weighed_on": '=IF(COUNTIF({Dressing.do};"dry")<COUNTA({Dressing.do});weighed;1)',
        "line_length": "=MAX({Drawing.at})",
        "in_voids": "=1+(1-fibre_fraction)/fibre_fraction*filling/fibre_density",
        "on_scales": "=(1+grease_on)*weighed_on",
        "tip_level": "=SUMPRODUCT({Levels.next from}<=INDEX({Drawing.diameter};1))",
        "changes": "=COUNT({Changes.place})",
        "belly_from": "=MIN({Drawing.full at})",
        "belly_to": "=MAX({Drawing.full at})",
        "tip_to": "=MIN(MAX({Drawing.tip at});belly_from)",
        "rear_from": "=MAX(MIN({Drawing.end at});belly_to)",
        "head_from": "=MIN(tip_to;6*0.0254)",
        "head_to": "=head_from+30*0.3048",
    }
    return Sheet("Inputs", ["name", "value"], [[name, value] for name, value in {**given, **derived}.items()])


def last(sheet, column):
    return "INDEX({%s.%s};ROWS({%s.%s}))" % (sheet, column, sheet, column)


def drawing(design):
    """The points; which of them are of the full diameter, or level with the tip or the end."""
    level = "ABS({diameter}-{%sdiameter})<=0.000001"
    count = len(design["points"])
    rows = [[at, diameter, "=IF(MAX({Drawing.diameter})-{diameter}<=0.000001;{at};\"\")",
             "=1" if i == 0 else f"=IF({level % '^'};{{^tip}};0)", '=IF({tip}=1;{at};"")',
             "=1" if i == count - 1 else f"=IF({level % '_'};{{_end}};0)", '=IF({end}=1;{at};"")']
            for i, (at, diameter) in enumerate(design["points"])]
    return Sheet("Drawing", ["at", "diameter", "full at", "tip", "tip at", "end", "end at"], rows)


def recipe(design):
    """What each step puts into the voids, in kg per m³ of them."""
    columns = {
        "bound": "=IF(ISBLANK({pressure});1;MAX(0;1-{pressure}/air))",
        "fill": '=IF({do}="oil";MIN(oil_fill;{bound});IF({do}="varnish";MIN(varnish_fill*pick_up;{bound});0))',
        "empty before": "={^empty after}",
        "wet": '={empty before}*{fill}/IF({do}="oil";(1-{varnish share})/oil_density+{varnish share}/varnish_density;'
               "(1-{solvent share})/varnish_density+{solvent share}/solvent_density)",
        "dried oil": '=IF({do}="oil";{wet}*(1-{varnish share})*(1+oil_gain);0)',
        "solids": '={wet}*IF({do}="oil";{varnish share};1-{solvent share})*varnish_solids',
        "stays": "={dried oil}+{solids}",
        "not yet dry": '=IF({do}="dry";0;{^not yet dry}+{stays})',
        "its volume": '=IF({do}="dry";0;{^its volume}+{dried oil}/dried_oil_density+{solids}/film_density)',
        "its room wet": '=IF({do}="dry";0;{^its room wet}+{empty before}*{fill})',
        "dried on": '={^dried on}+IF({do}="dry";{^not yet dry};0)',
        "empty after": '=IF({do}="dry";MIN(1;MAX(0;{empty before}+{^its room wet}-{^its volume}));{empty before}*(1-{fill}))',
    }
    rows = [[None, None, None, None] + [0] * (len(columns) - 1) + [1]]
    rows += [[step["do"], step["pressure"], step["varnish"], step["solvent"], *columns.values()]
             for step in design["dressing"]["steps"]]
    return Sheet("Dressing", ["do", "pressure", "varnish share", "solvent share", *columns], rows)


def wheels(design):
    """All that can be fitted, by lay; which pairs there are is an input, as a maker would type them."""
    t = design["take_off"]
    gears, owned = sorted(set(t["gears"])), lambda z, beside: t["gears"].count(z) > (z == beside)
    pairs = {"driver": [(z, t["partner"]) for z in gears], "driven": [(t["partner"], z) for z in gears],
             "fixed-centres": [(z, t["pair_sum"] - z) for z in gears if owned(t["pair_sum"] - z, z)],
             "free-pair": [(a, b) for a in gears for b in gears if owned(b, a)]}[t["train"]]
    ratios = {a / b: (a, b) for a, b in sorted(pairs, key=sum, reverse=True)}
    return Sheet("Wheels", ["driver", "driven", "draws"],
                 [[*ratios[ratio], "=constant*{driver}/{driven}"] for ratio in sorted(ratios)])


def levels(design):
    """Every level with the wheels nearest to its lay, and the braid they make of it."""
    b = design["braid"]
    most = b["fewest"] if b["build"] == "heavier-threads" else max(b["most"], b["fewest"])
    count = most - b["fewest"] + 1 + (0 if b["build"] == "more-threads" else most)
    wide = "MAX(SQRT(section*thread*{yarn}*(1+crimp)*%s)-2*{thick};{thick})"
    rounds = {f"tan {i}": f"=PI()*{wide % f'SQRT(1+{{tan {i - 1}}}^2)'}/{{lay}}" for i in range(1, ROUNDS + 1)}
    columns = {
        "threads": "=MIN(fewest+{level};most_adding)",
        "heavy": "={level}-({threads}-fewest)",
        "yarn": "={threads}+{heavy}*(heavier_ends/ends-1)",
        "thick": "=thickness*SQRT({yarn}/{threads})",
        "ideal lay": f"=PI()*{wide % '(1/COS(target_angle))'}/TAN(target_angle)",
        "below": "=IFERROR(MATCH({ideal lay};{Wheels.draws};1);1)",
        "wheel": "=IF({below}=ROWS({Wheels.draws});{below};IF(INDEX({Wheels.draws};{below}+1)-{ideal lay}<"
                 "{ideal lay}-INDEX({Wheels.draws};{below});{below}+1;{below}))",
        "lay": "=INDEX({Wheels.draws};{wheel})",
        "tan 0": "=TAN(target_angle)", **rounds,
        "angle": f"=ATAN({{tan {ROUNDS}}})",
        "take-up": "=(1+crimp)/COS({angle})",
        "bare": "=thread*{yarn}*{take-up}",
        "bare diameter": "=SQRT(section*{bare})",
        "path": "=MAX({bare diameter}-2*{thick};{thick})",
        "finished": "=({bare}*in_voids+PI()*film_on*({bare diameter}+film_on)*film_density)*on_scales",
        "finished diameter": "={bare diameter}+2*film_on",
        "next from": "=SQRT(section*({bare}+{_bare})/2)+2*film_on",
    }
    rows = [[0 if i == 0 else "={^level}+1", *columns.values()] for i in range(count)]
    rows[-1][-1] = "=1"  # a metre: nothing is drawn thicker than the last level
    return Sheet("Levels", ["level", *columns], rows)


def changes(design, level_count):
    """Every piece of the drawing with every boundary: where it passes, if it does; then all of them in order."""
    pick = lambda column, by: f"INDEX({{Drawing.{column}}};{{piece}}+{by})"
    columns = {
        "from": "=" + pick("at", 0), "from diameter": "=" + pick("diameter", 0),
        "to": "=" + pick("at", 1), "to diameter": "=" + pick("diameter", 1),
        "boundary": "=INDEX({Levels.next from};{lower}+1)",
        "place": "=IF(AND({boundary}>MIN({from diameter};{to diameter});{boundary}<=MAX({from diameter};{to diameter}));{from}+"
                 '({to}-{from})*({boundary}-{from diameter})/({to diameter}-{from diameter});"")',
        "drawn at": '=IF({number}<=changes;SMALL({Changes.place};{number});"")',
        "row": '=IF({number}<=changes;MATCH({drawn at};{Changes.place};0);"")',
        "rising": '=IF({number}<=changes;IF(INDEX({Changes.to diameter};{row})>INDEX({Changes.from diameter};{row});1;0);"")',
        "after": '=IF({number}<=changes;INDEX({Changes.lower};{row})+{rising};"")',
        "jump": "=IF({number}<=changes;(2*{rising}-1)*(INDEX({Levels.bare};INDEX({Changes.lower};{row})+2)-"
                'INDEX({Levels.bare};INDEX({Changes.lower};{row})+1));"")',
        "is swap": "=IF({number}<=changes;IF(INDEX({Levels.heavy};INDEX({Changes.lower};{row})+2)>"
                   'INDEX({Levels.heavy};INDEX({Changes.lower};{row})+1);1;0);"")',
        "buried": '=IF({number}<=changes;IF({rising}=1;{is swap};IF({is swap}=1;heavier_ends/ends;1));"")',
        # A tail weighs something behind the change, so the change goes to where mass is kept.
        "wished": '=IF({number}<=changes;{drawn at}+tail*thread*{buried}/{jump};"")',
        "at": '=IF({number}<=changes;MAX({wished};N({^at})+spacing);"")',
    }
    pieces = [(piece, lower) for piece in range(1, len(design["points"])) for lower in range(level_count - 1)]
    rows = [[piece, lower, number, *columns.values()] for number, (piece, lower) in enumerate(pieces or [(1, 0)], start=1)]
    return Sheet("Changes", ["piece", "lower", "number", *columns], rows)


def treads(change_count):
    """The line between its changes; behind the last one rows of no length."""
    is_one, level = "{number}<=changes", "INDEX({Levels.%s};{level}+1)"
    over = "MAX(0;MIN({%s};%s)-MAX({%s};%s))"
    ends = {"tip": ("0", "tip_to"), "front": ("tip_to", "belly_from"), "belly": ("belly_from", "belly_to"),
            "rear": ("belly_to", "rear_from"), "end": ("rear_from", "line_length"), "head": ("head_from", "head_to"),
            "whole": ("0", "line_length")}
    weigh = {name: f"={over % ('to', b, 'from', a)}*{{finished}}+{over % ('tail to', b, 'from', a)}*{{tail weighs}}"
             for name, (a, b) in ends.items()}
    columns = {
        "from": f"=IF({is_one};INDEX({{Changes.at}};{{number}});line_length)",
        "to": "=IF({number}<changes;INDEX({Changes.at};{number}+1);line_length)",
        "level": f"=IF({is_one};INDEX({{Changes.after}};{{number}});{{^level}})",
        "threads": f"=IF({is_one};{level % 'threads'};0)", "heavy": f"=IF({is_one};{level % 'heavy'};0)",
        "threads before": f"=IF({is_one};{{^threads}};0)", "heavy before": f"=IF({is_one};{{^heavy}};0)",
        "take-up": "=" + level % "take-up", "finished": "=" + level % "finished", "angle": "=" + level % "angle",
        "thread": "=({to}-{from})*{take-up}",
        "tail to": "=MIN({from}+tail;line_length)",
        "tail weighs": f"=IF({is_one};INDEX({{Changes.buried}};{{number}});0)*thread*in_voids*on_scales",
        **weigh,
    }
    first = {**columns, "from": "=0", "level": "=tip_level", "threads before": "=0", "heavy before": "=0", "tail weighs": "=0"}
    first["to"] = "=IF(changes>0;INDEX({Changes.at};1);line_length)"
    rows = [[0, *first.values()]] + [[number, *columns.values()] for number in range(1, change_count + 1)]
    return Sheet("Treads", ["number", *columns], rows)


def bobbins(most):
    """Thread of each light and each heavy bobbin, in the order of entering, last in first out; 0 where one is never engaged."""
    light = "({Treads.threads%s}>={bobbin})*({Treads.heavy%s}<{bobbin})"
    heavy = "({Treads.heavy%s}>={bobbin})"
    def wound(kind):
        now, before = kind.replace("%s", ""), kind.replace("%s", " before")
        lead = now.replace("{Treads.threads}", "INDEX({Treads.threads};1)").replace("{Treads.heavy}", "INDEX({Treads.heavy};1)")
        return (f"=SUMPRODUCT({now}*{{Treads.thread}})+SUMPRODUCT({now}*(1-{before}))*allowance"
                f"+SUMPRODUCT((1-{now})*{before}*({{Treads.tail to}}-{{Treads.from}}))"
                f"+{lead}*lead_in*INDEX({{Treads.take-up}};1)")
    return Sheet("Bobbins", ["bobbin", "light", "heavy"], [[k, wound(light), wound(heavy)] for k in range(1, most + 1)])


def results():
    parts = [[f"mass_{part}", f"=SUM({{Treads.{part}}})"] for part in PARTS]
    return Sheet("Results", ["name", "value"], [
        ["head_mass", '=IF(head_to<=line_length+0.00005;SUM({Treads.head});"too short")'],
        ["head_grains", '=IF(ISNUMBER(head_mass);head_mass/0.00006479891;0)'],
        ["class_row", "=IFERROR(MATCH(head_grains;{Classes.low};1);0)"],
        ["class", '=IF(class_row=0;"none";IF(head_grains<=INDEX({Classes.high};class_row);INDEX({Classes.class};class_row);"none"))'],
        ["total_mass", "=SUM({Treads.whole})"],
        ["belly_angle", "=INDEX({Treads.angle};MATCH((belly_from+belly_to)/2;{Treads.from};1))"],
        *parts,
    ])


def workbook(design):
    Sheet.all.clear()
    level_sheet = levels(design)
    change_sheet = changes(design, level_sheet.count)
    sheets = [inputs(design), drawing(design), recipe(design), wheels(design), level_sheet, change_sheet,
              treads(change_sheet.count), bobbins(max(design["braid"]["most"], design["braid"]["fewest"])),
              Sheet("Classes", ["class", "low", "high"], [list(row) for row in CLASSES]), results()]
    names = "".join(
        f'<table:named-range table:name={quoteattr(row[0])} table:base-cell-address="$Inputs.$A$1" '
        f'table:cell-range-address="${sheet.name}.$B${number}"/>'
        for sheet in sheets if sheet.name in ("Inputs", "Results") for number, row in enumerate(sheet.rows, start=2))
    return ('<?xml version="1.0" encoding="UTF-8"?>\n<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
            'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" '
            'xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.2" '
            'office:mimetype="application/vnd.oasis.opendocument.spreadsheet"><office:body><office:spreadsheet>\n'
            + "\n".join(sheet.xml() for sheet in sheets)
            + f"\n<table:named-expressions>{names}</table:named-expressions></office:spreadsheet></office:body></office:document>\n")


if __name__ == "__main__":
    with open(sys.argv[1], "w", encoding="utf-8") as out:
        out.write(workbook(json.load(sys.stdin)))
