"""Says for each document whether it is valid by a JSON Schema of draft 7.

Usage: python3 validate.py SCHEMA DOCUMENTS
DOCUMENTS has a JSON object on each line: {"yaml": TEXT} or {"json": VALUE}. For each a line comes
out: "valid", or the path of the first fault and what it is. YAML is read as YAML 1.2 has it (the
core schema), which is how the language servers for editors read it.
"""
import json
import re
import sys

import jsonschema
import yaml


class Core(yaml.SafeLoader):
    """Plain scalars by the core schema of YAML 1.2; all keys are texts, as in JSON."""

    def construct_mapping(self, node, deep=False):
        return {key.value: self.construct_object(value, deep=True) for key, value in node.value}


Core.yaml_implicit_resolvers = {}
Core.add_constructor("tag:yaml.org,2002:map", Core.construct_mapping)
for tag, pattern, first in [
    ("bool", r"^(?:true|True|TRUE|false|False|FALSE)$", "tTfF"),
    ("null", r"^(?:~|null|Null|NULL|)$", ["~", "n", "N", ""]),
    ("int", r"^(?:[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+)$", "-+0123456789"),
    ("float", r"^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$", "-+.0123456789"),
]:
    Core.add_implicit_resolver("tag:yaml.org,2002:" + tag, re.compile(pattern), list(first))
Core.add_constructor("tag:yaml.org,2002:int", lambda loader, node: float(int(node.value, 0))
                     if node.value[:2] in ("0x", "0o") else int(node.value))
Core.add_constructor("tag:yaml.org,2002:float", lambda loader, node: float(node.value))


def main(schema_path, documents_path):
    with open(schema_path, encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft7Validator.check_schema(schema)
    # A whole plan, or a part of one.
    is_whole = jsonschema.Draft7Validator(schema["if"]).is_valid
    forms = {True: schema["then"], False: schema["else"]}
    sections = {
        (whole, name): jsonschema.Draft7Validator({**section, "definitions": schema["definitions"]})
        for whole, form in forms.items() for name, section in form["properties"].items()
    }
    # Without the sections: what the plan as a whole must be. A section that many plans have is
    # looked at once.
    tops = {
        whole: jsonschema.Draft7Validator(
            {**form, "properties": {name: {} for name in form["properties"]}})
        for whole, form in forms.items()
    }
    known = {}

    def first_fault(plan):
        whole = is_whole(plan)
        for fault in tops[whole].iter_errors(plan):
            return "plan: " + fault.message
        for name, value in plan.items():
            key = (whole, name, json.dumps(value))
            if key not in known:
                known[key] = next(
                    (".".join([name, *map(str, fault.absolute_path)]) + ": " + fault.message
                     for fault in sections[whole, name].iter_errors(value)), None)
            if known[key]:
                return known[key]
        return "valid"

    with open(documents_path, encoding="utf-8") as file:
        for line in file:
            document = json.loads(line)
            try:
                plan = (document["json"] if "json" in document
                        else yaml.load(document["yaml"], Core))
                print(first_fault(plan).replace("\n", " ")[:300])
            except yaml.YAMLError as error:
                print("not YAML: " + str(error).replace("\n", " "))


main(*sys.argv[1:])
