"""The same six A4 pages, made by general-purpose typesetters: a board's plan, a matrix of 32 rows,
tables of switches and voltages, sixteen sockets, prose in two columns, a summary.

usage: pages.py ENGINE COUNT FOLDER       makes COUNT distinct documents, prints the seconds of each
                                          as a JSON list; ENGINE is typst (a compiler for each
                                          document), typst-kept (one compiler for all), weasyprint
                                          or reportlab

Every engine does the same work on the same content. `benches/paper.rs` makes the same six pages
with our own typesetter, from tests/suite/generate/specimen.rs: as many boxes, wires, rows, pins and
sentences, the words drawn by other dice. `typesetters.py` runs them all and prints the ratios.
"""

import json
import pathlib
import random
import sys
import time

PINS = ["ground", "common", "low", "high"]
WORDS = (
    "turn the power off and lock it out before you open the box then move the lead to the group "
    "that gives the voltage on the plate"
).split()


def content(seed):
    """All that one document says: boxes and wires of the plan, rows of the tables, prose."""
    dice = random.Random(seed)
    return {
        "boxes": [[f"J{i + 1}", 8 + 27 * (i % 6), 20 + 26 * (i // 6)] for i in range(24)],
        "wires": [
            [[dice.randint(5, 165), dice.randint(5, 110)] for _ in range(4)] for _ in range(20)
        ],
        "matrix": [[f"c{i}" for i in range(8)]]
        + [[str(dice.randint(0, 2)) for _ in range(8)] for _ in range(32)],
        "switches": [
            [f"S1-{i + 1}", dice.choice(["on", "off"]), "The circulation pump follows the timer."]
            for i in range(10)
        ],
        "volts": [[f"J{i + 1}", f"W{i + 1}", f"F{i + 1}", "A 240 V", "B 120 V"] for i in range(12)],
        "prose": [
            " ".join(dice.choice(WORDS) for _ in range(14)).capitalize() + "." for _ in range(25)
        ],
    }


# ---- typst ----------------------------------------------------------------------------------


def typst_source(pages):
    def place(x, y, body):
        return f"#place(dx:{x}mm,dy:{y}mm,{body})\n"

    def table(rows):
        cells = ",".join(f"[{cell}]" for row in rows for cell in row)
        return f"#table(columns:{len(rows[0])},{cells})\n"

    plan = ""
    for name, x, y in pages["boxes"]:
        plan += place(x, y, f"rect(width:18mm,height:12mm)[#text(size:7pt)[{name}]]")
        plan += place(x, y + 12.5, "text(size:6pt)[ground common low]")
    for index, points in enumerate(pages["wires"]):
        stroke = '(thickness:0.8pt,dash:"dashed")' if index > 11 else "0.8pt"
        steps = ",".join(f"curve.line(({x}mm,{y}mm))" for x, y in points[1:])
        start = f"curve.move(({points[0][0]}mm,{points[0][1]}mm))"
        plan += place(0, 0, f"curve(stroke:{stroke},{start},{steps})")
    plan = f"#block(width:170mm,height:130mm)[{plan}]\n"

    sockets = ""
    for i in range(16):
        x, y = 10 + 40 * (i % 4), 10 + 55 * (i // 4)
        sockets += place(x, y, "rect(width:14mm,height:36mm)")
        for k, pin in enumerate(PINS):
            sockets += place(x + 16, y + 2 + 9 * k, f"text(size:8pt)[{pin}]")

    return (
        '#set page(paper:"a4",margin:18mm)\n#set text(size:9pt)\n'
        f"= Board plan\n{plan}"
        f"#pagebreak()\n= Layouts\n{table(pages['matrix'])}"
        f"#pagebreak()\n= Switches\n{table(pages['switches'])}{table(pages['volts'])}"
        f"#pagebreak()\n= Sockets\n#block(width:170mm,height:230mm)[{sockets}]\n"
        "#pagebreak()\n= Panel\n#columns(2)[" + "\n\n".join(pages["prose"]) + "]\n"
        f"#pagebreak()\n= Summary\n{plan}{table(pages['volts'])}"
    )


def typst_engine():
    import typst

    def make(pages, path):
        typst.compile(typst_source(pages).encode(), output=str(path))

    return make


def typst_kept_engine():
    import typst

    compiler = typst.Compiler()

    def make(pages, path):
        compiler.compile(input=typst_source(pages).encode(), output=str(path))

    return make


# ---- weasyprint -----------------------------------------------------------------------------


def html_source(pages):
    def svg(height, body):
        return (
            f'<svg width="170mm" height="{height}mm" viewBox="0 0 170 {height}" fill="none" '
            f'stroke="black" stroke-width=".3">{body}</svg>'
        )

    def words(x, y, size, text):
        return f'<text x="{x}" y="{y}" font-size="{size}" stroke="none" fill="black">{text}</text>'

    def table(rows):
        body = "".join(
            "<tr>" + "".join(f"<td>{cell}</td>" for cell in row) + "</tr>" for row in rows
        )
        return f"<table>{body}</table>"

    plan = ""
    for name, x, y in pages["boxes"]:
        plan += f'<rect x="{x}" y="{y}" width="18" height="12"/>'
        plan += words(x + 1, y + 5, 2.5, name) + words(x, y + 15, 2.1, "ground common low")
    for index, points in enumerate(pages["wires"]):
        dash = 'stroke-dasharray="2 1"' if index > 11 else ""
        plan += f'<polyline points="{" ".join(f"{x},{y}" for x, y in points)}" {dash}/>'
    plan = svg(130, plan)

    sockets = ""
    for i in range(16):
        x, y = 10 + 40 * (i % 4), 10 + 55 * (i // 4)
        sockets += f'<rect x="{x}" y="{y}" width="14" height="36"/>'
        sockets += "".join(words(x + 16, y + 4 + 9 * k, 3, pin) for k, pin in enumerate(PINS))

    prose = "".join(f"<p>{line}</p>" for line in pages["prose"])
    sections = [
        ("Board plan", plan),
        ("Layouts", table(pages["matrix"])),
        ("Switches", table(pages["switches"]) + table(pages["volts"])),
        ("Sockets", svg(230, sockets)),
        ("Panel", f'<div class="c">{prose}</div>'),
        ("Summary", plan + table(pages["volts"])),
    ]
    return (
        "<style>@page{size:A4;margin:18mm}body{font:9pt sans-serif}section{break-after:page}"
        "td{border:.3pt solid;padding:1mm}.c{columns:2}</style>"
    ) + "".join(f"<section><h1>{head}</h1>{body}</section>" for head, body in sections)


def weasyprint_engine():
    import weasyprint

    def make(pages, path):
        weasyprint.HTML(string=html_source(pages)).write_pdf(str(path))

    return make


# ---- reportlab: places every word by hand, lays nothing out ----------------------------------


def reportlab_engine():
    from reportlab.lib.units import mm
    from reportlab.pdfgen import canvas

    def make(pages, path):
        page = canvas.Canvas(str(path), pagesize=(210 * mm, 297 * mm))

        def head(text):
            page.setFont("Helvetica-Bold", 14)
            page.drawString(18 * mm, 275 * mm, text)
            page.setFont("Helvetica", 8)

        def plan():
            for name, x, y in pages["boxes"]:
                page.rect((18 + x) * mm, (255 - y) * mm, 18 * mm, 12 * mm)
                page.drawString((19 + x) * mm, (262 - y) * mm, name)
                page.drawString((18 + x) * mm, (252 - y) * mm, "ground common low")
            for index, points in enumerate(pages["wires"]):
                page.setDash(3, 2) if index > 11 else page.setDash()
                for (x1, y1), (x2, y2) in zip(points, points[1:]):
                    page.line((18 + x1) * mm, (265 - y1) * mm, (18 + x2) * mm, (265 - y2) * mm)
            page.setDash()

        def table(rows, y):
            for row in rows:
                for k, cell in enumerate(row):
                    page.rect((18 + 22 * k) * mm, y * mm, 22 * mm, 6 * mm)
                    page.drawString((19 + 22 * k) * mm, (y + 2) * mm, cell)
                y -= 6
            return y

        head("Board plan")
        plan()
        page.showPage()
        head("Layouts")
        table(pages["matrix"], 260)
        page.showPage()
        head("Switches")
        table(pages["volts"], table(pages["switches"], 260) - 10)
        page.showPage()
        head("Sockets")
        for i in range(16):
            x, y = 28 + 40 * (i % 4), 220 - 55 * (i // 4)
            page.rect(x * mm, y * mm, 14 * mm, 36 * mm)
            for k, pin in enumerate(PINS):
                page.drawString((x + 16) * mm, (y + 30 - 9 * k) * mm, pin)
        page.showPage()
        head("Panel")
        for k, line in enumerate(pages["prose"]):
            page.drawString(18 * mm, (262 - 8 * k) * mm, line[:95])
        page.showPage()
        head("Summary")
        plan()
        table(pages["volts"], 110)
        page.showPage()
        page.save()

    return make


ENGINES = {
    "typst": typst_engine,
    "typst-kept": typst_kept_engine,
    "weasyprint": weasyprint_engine,
    "reportlab": reportlab_engine,
}


def main():
    if len(sys.argv) != 4 or sys.argv[1] not in ENGINES:
        sys.exit(__doc__)
    engine, count, folder = sys.argv[1], int(sys.argv[2]), pathlib.Path(sys.argv[3])
    folder.mkdir(parents=True, exist_ok=True)
    make = ENGINES[engine]()
    seconds = []
    for seed in range(count):
        pages = content(seed)
        start = time.perf_counter()
        make(pages, folder / f"{engine}-{seed}.pdf")
        seconds.append(time.perf_counter() - start)
    print(json.dumps(seconds))


if __name__ == "__main__":
    main()
