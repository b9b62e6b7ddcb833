#!/usr/bin/python3
"""json-schema.py SCHEMA FILE...: checks each FILE against a JSON Schema of draft 2020-12 with Debian's
python3-jsonschema. Exit: 0 they fit, 1 one does not, with the first findings on standard error."""

import json
import sys

from jsonschema import Draft202012Validator, FormatChecker


def read(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file)


schema = read(sys.argv[1])
Draft202012Validator.check_schema(schema)
validator = Draft202012Validator(schema, format_checker=FormatChecker())
failed = False
for path in sys.argv[2:]:
    instance = read(path)
    for finding in list(validator.iter_errors(instance))[:10]:
        failed = True
        where = "/".join(map(str, finding.absolute_path))
        print(path, where, finding.message[:300], file=sys.stderr)
sys.exit(1 if failed else 0)
