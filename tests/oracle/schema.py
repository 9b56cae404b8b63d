"""Holds an export (the protocol, a proof, a verdict, a plan, a handover sheet, or cage cards) against its published schema (JSON Schema 2020-12), and the schema against spoiled exports.

The validator is PyPI `jsonschema`. Exit code 1 where the export does not fit, or where a spoiled one does.
"""

import copy
import json
import sys

from jsonschema import Draft202012Validator

with open(sys.argv[1], encoding="utf-8") as file:
    schema = json.load(file)
Draft202012Validator.check_schema(schema)
validator = Draft202012Validator(schema)
protocol = json.load(sys.stdin)
faults = [f"{error.json_path}: {error.message[:200]}" for error in validator.iter_errors(protocol)]

spoilings = {
    "a caution left out": lambda p: p.pop("caution"),
    "called reviewed": lambda p: p.update(reviewed_by_a_veterinarian=True),
}
of_protocol = {
    "a rule without a condition": lambda p: p["rules"][0].pop("when"),
    "a rule without a source": lambda p: p["rules"][0]["finding"].pop("source"),
    "a rung nobody knows": lambda p: p["rules"][0].update(need="Someday"),
    "a condition of two kinds": lambda p: p["rules"][0].update(when={"always": True, "all": []}),
    "a question with one answer": lambda p: p["questions"][0].update(answers=p["questions"][0]["answers"][:1]),
    "a measure nobody knows": lambda p: p["questions"][0].update(gives="mood"),
}
of_sheet = {
    "a part nobody knows": lambda p: p["parts"][0].update(id="mood"),
    "a part left out": lambda p: p["parts"].pop(),
    "a line that tells nothing": lambda p: p["parts"][0]["rows"].append({"name": "Age"}),
    "another order": lambda p: p.update(order=["SBAR"]),
    "a moment without a zone": lambda p: p.update(made_at="2026-05-01T14:00:00"),
}
of_plan = {
    "a rung in words": lambda p: p["need"].update(at_least="vet at once"),
    "a moment to a fraction of a second": lambda p: p.update(judged_at="2026-05-01T14:00:00.5Z"),
    "a step that is neither": lambda p: p["do_now"][0].update(id=None, phone=None),
    "a step that lacks a field": lambda p: p["do_now"][0].pop("timer_s"),
    "no bans at all": lambda p: p.pop("never"),
}
of_verdict = of_plan | {
    "a rule without a label": lambda p: p["reasons"][0].update(labels=[]),
    "a rung that would be, in words": lambda p: p["explained"][0].update(milder_if={"instead": [{}], "then": "vet within a day"}),
    "a figure without its unit": lambda p: p["figures"].update(hurt_ago={"low": 1, "high": 2}),
}
of_cards = {
    "a card without a need": lambda p: p["cards"][0].pop("need"),
    "a need in words": lambda p: p["cards"][0].update(need="vet at once"),
    "a number that is empty": lambda p: p["cards"][0].update(intake=""),
    "a card that says when not": lambda p: p["cards"][0].update(next_look=""),
    "no card": lambda p: p.update(cards=[]),
}
of_proof = {
    "a claim that is neither": lambda p: p["claims"][0].update(outcome="perhaps"),
    "a claim without words": lambda p: p["claims"][0].pop("claim"),
    "no comparison at all": lambda p: p.pop("against_the_shipped"),
}
of_each = {"proof": of_proof, "handover": of_sheet, "cards": of_cards, "verdict": of_verdict, "plan": of_plan, "protocol": of_protocol}
spoilings |= of_each[schema["properties"]["schema"]["const"].removeprefix("coopside.").split("/")[0]]
for name, spoil in spoilings.items():
    spoiled = copy.deepcopy(protocol)
    spoil(spoiled)
    if validator.is_valid(spoiled):
        faults.append(f"the schema lets pass: {name}")
for fault in faults[:20]:
    print(fault)
print(f"schema: {len(schema.get('$defs', {}))} shapes, {len(spoilings)} spoiled exports refused" if not faults else "the schema and the export differ")
sys.exit(1 if faults else 0)
