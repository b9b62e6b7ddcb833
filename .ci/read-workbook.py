#!/usr/bin/python3
"""read-workbook.py FILE: what a general reader of workbooks (Debian's python3-openpyxl) finds in
FILE: a line for each sheet and each cell, with its kind as it is kept and its number format."""

import sys

from openpyxl import load_workbook

book = load_workbook(sys.argv[1])
for sheet in book.worksheets:
    print("sheet", sheet.title, sheet.freeze_panes or "-", sheet.oddHeader.right.text or "-",
          sep="\t")
    for row in sheet.iter_rows():
        for cell in row:
            if cell.value is not None:
                kind = "date" if cell.is_date else {"n": "number", "s": "text"}[
                    "s" if cell.data_type in ("s", "inlineStr") else cell.data_type]
                value = cell.value.date().isoformat() if cell.is_date else cell.value
                print(cell.coordinate, kind, cell.number_format, value, sep="\t")
