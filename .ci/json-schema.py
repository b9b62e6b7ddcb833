#!/usr/bin/python3
"""json-schema.py SCHEMA FILE: checks FILE against a JSON Schema of draft 2020-12 with Debian's
python3-jsonschema. Exit: 0 it fits, 1 it does not, with the first findings on standard error."""

import json
import sys

from jsonschema import Draft202012Validator, FormatChecker

schema, instance = (json.load(open(path, encoding="utf-8")) for path in sys.argv[1:3])
Draft202012Validator.check_schema(schema)
findings = list(Draft202012Validator(schema, format_checker=FormatChecker()).iter_errors(instance))
for finding in findings[:10]:
    print("/".join(map(str, finding.absolute_path)), finding.message[:300], file=sys.stderr)
sys.exit(1 if findings else 0)
