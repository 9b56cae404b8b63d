"""A second mind: proves monotonicity, totality and freedom from conflicts again, from the exported protocol alone.

It reads `coopside protocol --json` on standard input and knows nothing of the program but that schema. The solver is z3
(PyPI `z3-solver`). What a measure comes to is left free but for its order: what holds here of every bird holds all the more of
real ones, and what some bird is shown to come to here rests on answers alone. Exit code 1 where a claim does not hold.
"""

import json
import sys
import time

from z3 import And, Bool, Implies, Int, Not, Or, Solver, Sum, If, sat, unsat

NEED = ["None", "Home", "WithinADay", "WithinHours", "Now"]
HUMANE = ["NotInQuestion", "MayComeIntoQuestion", "AdvisedUnlessVet", "Advised"]
AUTHORITY = ["None", "Ask", "CallNow"]
# Scale, its rungs, and the rung doubt alone can reach.
SCALES = [("need", NEED, 4), ("humane_end", HUMANE, 1), ("authority_call", AUTHORITY, 1)]
WOUNDS = 2
CANNOT_TELL = -1


def snake(name):
    return "".join("_" + c.lower() if c.isupper() and at else c.lower() for at, c in enumerate(name))


class Bird:
    """One bird as variables: an answer to every question, wounds that are there or not, measures by their two ends."""

    def __init__(self, protocol, name):
        self.protocol, self.name, self.rules = protocol, name, []
        self.questions = {q["id"]: q for q in protocol["questions"]}
        self.values, self.marks, self.memo = {}, {}, {}
        self.present = [Bool(f"{name}.present.{w}") for w in range(WOUNDS)]
        for q in protocol["questions"]:
            for column in range(WOUNDS) if q["of_a_wound"] else [None]:
                value = Int(f"{name}.{q['id']}.{column}")
                self.values[q["id"], column] = value
                self.rules.append(And(value >= CANNOT_TELL, value < len(q["answers"])))
        kind = protocol["kind_question"]
        for q in protocol["questions"]:
            for at, answer in enumerate(q["answers"]):
                if answer["kinds"] and not q["of_a_wound"]:
                    kinds = enumerate(self.questions[kind]["answers"])
                    told = [self.values[kind, None] == place for place, k in kinds if k["stands_for_kind"] in answer["kinds"]]
                    self.rules.append(Implies(self.values[q["id"], None] == at, Or(told)))
        for out in protocol["exclusions"]:
            for column in [None, *range(WOUNDS)]:
                self.rules.append(Not(And(self.holds(out["one"], column, False), self.holds(out["other"], column, False))))

    def place(self, question, answer):
        return next(at for at, a in enumerate(self.questions[question]["answers"]) if a["id"] == answer)

    def holds(self, cond, column, doubt):
        key = (id(cond), column, doubt)
        if key not in self.memo:
            self.memo[key] = self.weigh(cond, column, doubt)
        return self.memo[key]

    def weigh(self, cond, column, doubt):
        if "always" in cond:
            return And()
        if "question" in cond:
            return self.answered(cond["question"], cond["one_of"], column, doubt)
        if "all" in cond:
            return And([self.holds(part, column, doubt) for part in cond["all"]])
        if "any" in cond:
            return Or([self.holds(part, column, doubt) for part in cond["any"]])
        if "not" in cond:
            return Not(self.holds(cond["not"], column, not doubt))
        if "of" in cond:
            return Sum([If(self.holds(part, column, doubt), 1, 0) for part in cond["of"]]) >= cond["at_least"]
        if "some_wound" in cond:
            return Or([And(self.present[w], self.holds(cond["some_wound"], w, doubt)) for w in range(WOUNDS)])
        if "measure_at_least" in cond:
            return self.reaches(cond["measure_at_least"], column, doubt)
        if "measure_under" in cond:
            return Not(self.reaches(cond["measure_under"], column, not doubt))
        raise ValueError(f"a condition this program does not know: {cond}")

    def answered(self, question, answers, column, doubt):
        q = self.questions[question]
        column = column if q["of_a_wound"] else None
        value = self.values[question, column]
        said = Or([value == self.place(question, answer) for answer in answers] + ([value == CANNOT_TELL] if doubt else []))
        return said if q["applies"] is None else And(said, self.holds(q["applies"], column, doubt))

    def reaches(self, measure, column, doubt):
        column = column if measure["measure"] == "time_since" else None
        if measure["measure"] == "blood_lost":
            frail = self.holds(self.protocol["frail_when"], None, True)
            return Or(And(frail, self.end(measure, "frail", doubt)), And(Not(frail), self.end(measure, "sound", doubt)))
        return self.end(measure, column, doubt)

    def end(self, measure, column, doubt):
        key = (measure["measure"], column)
        marks = self.marks.setdefault(key, {})
        if measure["value"] not in marks:
            name = f"{self.name}.{key}.{measure['value']}"
            marks[measure["value"]] = (Bool(name + ".low"), Bool(name + ".high"))
        return marks[measure["value"]][1 if doubt else 0]

    def ordered_marks(self):
        """The low end is no higher than the high end, and who reaches a value reaches every lower one."""
        for marks in self.marks.values():
            values = sorted(marks)
            for value in values:
                yield Implies(marks[value][0], marks[value][1])
            for below, value in zip(values, values[1:]):
                for end in (0, 1):
                    yield Implies(marks[value][end], marks[below][end])

    def columns(self, rule):
        return range(WOUNDS) if rule["of_a_wound"] else [None]

    def stands(self, rule, column, doubt):
        there = [self.present[column]] if column is not None else []
        held = [Not(self.holds(cond, column, not doubt)) for cond in rule["unless"]]
        return And(there + [self.holds(rule["when"], column, doubt)] + held)

    def reached(self, scale, rungs, in_doubt, rung):
        doubt = rung <= in_doubt
        rules = [r for r in self.protocol["rules"] if r[scale] and level(r[scale], rungs) >= rung]
        return Or([self.stands(rule, column, doubt) for rule in rules for column in self.columns(rule)])


def level(name, rungs):
    return [snake(rung) for rung in rungs].index(snake(name))


def worse(protocol, mild, bad):
    """Every ordered answer at least as bad, all else the same; measures that are read from ordered answers no lower."""
    yield from (one == other for one, other in zip(mild.present, bad.present))
    for key, value in mild.values.items():
        other = bad.values[key]
        if mild.questions[key[0]]["ordered"]:
            yield (value == CANNOT_TELL) == (other == CANNOT_TELL)
            yield Implies(value != CANNOT_TELL, other >= value)
        else:
            yield value == other
    for (measure, column), marks in mild.marks.items():
        for mark, ends in marks.items():
            others = [bad.marks[measure, column]] + ([bad.marks[measure, "frail"]] if column == "sound" else [])
            for other in others:
                for one, two in zip(ends, other[mark]):
                    # Time and weight are read from answers without an order, which are the same in both.
                    yield one == two if measure in ("time_since", "weight") else Implies(one, two)


def monotone(protocol):
    mild, bad = Bird(protocol, "mild"), Bird(protocol, "bad")
    claims = []
    for scale, rungs, in_doubt in SCALES:
        for rung in range(1, len(rungs)):
            one, other = mild.reached(scale, rungs, in_doubt, rung), bad.reached(scale, rungs, in_doubt, rung)
            claims.append((f"{scale} {rungs[rung]}", And(one, Not(other))))
    solver = Solver()
    solver.add(mild.rules + bad.rules + list(mild.ordered_marks()) + list(bad.ordered_marks()))
    solver.add(list(worse(protocol, mild, bad)))
    return [(name, solver.check(claim) == unsat) for name, claim in claims]


def total(protocol):
    """Some bird comes to every rung but the mildest, and none stands above a rung it does not reach."""
    bird = Bird(protocol, "bird")
    found = []
    for scale, rungs, in_doubt in SCALES:
        reached = [And()] + [bird.reached(scale, rungs, in_doubt, rung) for rung in range(1, len(rungs))] + [Or()]
        solver = Solver()
        solver.add(bird.rules + list(bird.ordered_marks()))
        for rung in range(1, len(rungs)):
            found.append((f"{scale} {rungs[rung]} is reached", solver.check(And(reached[rung], Not(reached[rung + 1]))) == sat))
            found.append((f"{scale} {rungs[rung]} skips none", solver.check(And(reached[rung], Not(reached[rung - 1]))) == unsat))
    return found


def no_conflicts(protocol):
    """The plan made from the rules as the schema's description says, and no bird for whom it tells and forbids the same."""
    bird = Bird(protocol, "bird")
    actions = {a["id"]: a for a in protocol["actions"]}

    def target(action, column):
        return (action, column if actions[action]["of_a_wound"] else None)

    acts, never = {}, {}
    for rule in protocol["rules"]:
        for column in bird.columns(rule):
            there = [bird.present[column]] if column is not None else []
            held = Or([bird.holds(cond, column, False) for cond in rule["unless"]])
            met = And(there + [bird.holds(rule["when"], column, True), Not(held)])
            seen = And(met, bird.holds(rule["when"], column, False))
            for action in rule["acts"]:
                acts.setdefault(target(action, column), []).append(seen)
            for action in rule["never"]:
                never.setdefault(target(action, column), []).append(met)
    acts = {key: Or(value) for key, value in acts.items()}
    never = {key: Or(value) for key, value in never.items()}

    def meet(one, other):
        return one[1] == other[1] or one[1] is None or other[1] is None

    dragged = {(out["never"], out["drop"]) for out in protocol["rules_out"]}
    plan = {}
    for act, holds in acts.items():
        against = [
            forbids
            for key, forbids in never.items()
            if meet(act, key) and (key[0] == act[0] or (key[0], act[0]) in dragged)
        ]
        plan[act] = And(holds, Not(Or(against)))
    for conflict in protocol["conflicts"]:
        keepers = {act: told for act, told in plan.items() if act[0] == conflict["keep"]}
        for act in [act for act in plan if act[0] == conflict["drop"]]:
            plan[act] = And(plan[act], Not(Or([told for keep, told in keepers.items() if meet(keep, act)])))
    solver = Solver()
    solver.add(bird.rules + list(bird.ordered_marks()))
    both = [And(told, forbids) for act, told in plan.items() for key, forbids in never.items() if act[0] == key[0] and meet(act, key)]
    found = [("nothing told and forbidden", solver.check(Or(both)) == unsat)]
    pairs = [
        And(keep_told, drop_told)
        for conflict in protocol["conflicts"]
        for keep, keep_told in plan.items()
        if keep[0] == conflict["keep"]
        for drop, drop_told in plan.items()
        if drop[0] == conflict["drop"] and meet(keep, drop)
    ]
    found.append(("no two actions in conflict", solver.check(Or(pairs)) == unsat))
    airs = {action: actions[action]["air"] for action, _ in plan if actions[action]["air"]}
    mixed = [
        And(one_told, other_told)
        for one, one_told in plan.items()
        for other, other_told in plan.items()
        if one[0] in airs and other[0] in airs and airs[one[0]] < airs[other[0]]
    ]
    found.append(("no bird gets air of two warmths", solver.check(Or(mixed)) == unsat))
    return found


def main():
    protocol = json.load(sys.stdin)
    if protocol["schema"] != "coopside.protocol/1":
        sys.exit(f"this program reads coopside.protocol/1, not {protocol['schema']}")
    refuted = 0
    for claim in (monotone, total, no_conflicts):
        began = time.monotonic()
        found = claim(protocol)
        took = time.monotonic() - began
        wrong = [name for name, holds in found if not holds]
        refuted += len(wrong)
        print(f"{claim.__name__}: {len(found)} claims, {'all hold' if not wrong else 'REFUTED: ' + ', '.join(wrong)}; {took:.2f} s")
    sys.exit(1 if refuted else 0)


if __name__ == "__main__":
    main()
