"""The published JSON Schema, judged by an independent validator (jsonschema, draft 2020-12).

Good designs must pass, and broken ones whose fault a schema can see must not.
TOML is read by Python's own tomllib, so the designs are also shown to be TOML 1.0.
"""

import json
import pathlib
import sys
import tomllib

import jsonschema

ROOT = pathlib.Path(__file__).resolve().parents[2] / "fixtures"

# faults of keys, types and words; those of values and names are beyond a schema
VISIBLE = [
    "decimal_comma_in_point",
    "missing_key",
    "one_is_needed",
    "only_one_of",
    "unknown_key",
    "unknown_measure",
    "wrong_type",
    "strip_without_leave_on",
    "unknown_general_tolerance",
    "misspelt_keys",
]


def main():
    schema = json.loads((ROOT / "design.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    passed, failed = 0, 0
    for path in sorted((ROOT / "designs").iterdir()):
        text = path.read_text()
        design = json.loads(text) if path.suffix == ".json" else tomllib.loads(text)
        errors = list(validator.iter_errors(design))
        if errors:
            failed += 1
            print(f"{path.name}: {errors[0].json_path}: {errors[0].message[:300]}")
        else:
            passed += 1
    for name in VISIBLE:
        design = tomllib.loads((ROOT / "broken" / f"{name}.toml").read_text())
        if validator.is_valid(design):
            failed += 1
            print(f"{name}: the schema takes it")
        else:
            passed += 1
    print(f"{passed} passed, {failed} failed")
    return failed


if __name__ == "__main__":
    sys.exit(1 if main() else 0)
