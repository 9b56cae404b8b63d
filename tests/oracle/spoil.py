"""Spoils an exported protocol on purpose: "beak open or worse" becomes "beak open", so a worse sign would look better."""

import json
import sys

protocol = json.load(sys.stdin)
rule = next(rule for rule in protocol["rules"] if rule["id"] == "breath_open_not_heat")
rule["when"]["one_of"] = rule["when"]["one_of"][:1]
protocol["rules"] = [other for other in protocol["rules"] if other["need"] != rule["need"] or other is rule]
json.dump(protocol, sys.stdout)
