"""A second judge: judges made-up birds, figures among their answers, from the exported protocol alone, and has to agree.

    second_judge.py PROTOCOL.json PROGRAM [BIRDS] [SEED]

It knows `coopside protocol --json` and what its schema and DEVELOPERS.md say of it, and nothing of the program. Each bird is
told in full: every question that applies to her is answered, with an answer, "cannot tell", a weight or a figure. She is then
judged by the program from notes, and by this file; need, humane end, authority call and what must never be done have to be the
same. Arithmetic is exact (fractions) but for the two roots. Exit code 1 where a bird is judged otherwise.
"""

import json
import math
import random
import subprocess
import sys
from fractions import Fraction

NEED = ["none", "home", "within_a_day", "within_hours", "now"]
HUMANE = ["not_in_question", "may_come_into_question", "advised_unless_vet", "advised"]
AUTHORITY = ["none", "ask", "call_now"]
# Scale, its rungs, and the rung doubt alone can reach.
SCALES = [("need", NEED, 4), ("humane_end", HUMANE, 1), ("authority_call", AUTHORITY, 1)]
ENDLESS = 2**32 - 1


class Figure:
    """A figure as it is written in notes, what it comes to, and the answers it may stand for."""

    def __init__(self, text, low, high):
        self.text, self.low, self.high = text, low, high


class Judge:
    """One bird: her answers by question and column (None, or the number of a wound), judged as the schema says."""

    def __init__(self, protocol, answers, wounds):
        self.protocol, self.answers, self.wounds = protocol, answers, wounds
        self.measuring = protocol["measuring"]
        self.questions = {q["id"]: q for q in protocol["questions"]}
        self.memo = {}

    def column(self, question, column):
        return column if self.questions[question]["of_a_wound"] else None

    def said(self, question, column):
        return self.answers.get((question, self.column(question, column)))

    def applies(self, question, column, doubt):
        """Whether a question applies, doubt counted as met or as unmet. All of it is told, so nothing is open."""
        key = (question, self.column(question, column), doubt)
        if key not in self.memo:
            cond = self.questions[question]["applies"]
            self.memo[key] = True if cond is None else self.holds(cond, self.column(question, column), doubt)
        return self.memo[key]

    def holds(self, cond, column, doubt):
        if "always" in cond:
            return True
        if "question" in cond:
            return self.answered(cond["question"], cond["one_of"], column, doubt)
        if "all" in cond:
            return all(self.holds(part, column, doubt) for part in cond["all"])
        if "any" in cond:
            return any(self.holds(part, column, doubt) for part in cond["any"])
        if "not" in cond:
            return not self.holds(cond["not"], column, not doubt)
        if "of" in cond:
            return sum(self.holds(part, column, doubt) for part in cond["of"]) >= cond["at_least"]
        if "some_wound" in cond:
            return any(self.holds(cond["some_wound"], wound, doubt) for wound in range(self.wounds))
        if "measure_at_least" in cond:
            return self.reaches(cond["measure_at_least"], column, doubt)
        if "measure_under" in cond:
            return not self.reaches(cond["measure_under"], column, not doubt)
        raise ValueError(f"a condition this program does not know: {cond}")

    def answered(self, question, one_of, column, doubt):
        said = self.said(question, column)
        if said is None or not self.applies(question, column, doubt):
            return False
        if said == "cannot_tell":
            return doubt
        if isinstance(said, Figure):
            first, last = self.stands_for(question, said)
            names = [a["id"] for a in self.questions[question]["answers"]][first : last + 1]
            hits = [name in one_of for name in names]
            return any(hits) if doubt else all(hits)
        return said in one_of

    def stands_for(self, question, figure):
        answers = self.questions[question]["answers"]
        highs = [a["worth"][1] for a in answers if a["worth"]]
        return tuple(min(sum(high < end for high in highs), len(answers) - 1) for end in (figure.low, figure.high))

    # Measures: a band each, low and high.

    def reaches(self, measure, column, doubt):
        low, high = getattr(self, measure["measure"])(column)
        return (high if doubt else low) >= measure["value"]

    def giving(self, measure, of_a_wound=False):
        found = [q["id"] for q in self.protocol["questions"] if q["gives"] == measure and q["of_a_wound"] == of_a_wound]
        return found[0] if found else None

    def most(self, question, otherwise):
        return max([a["worth"][1] for a in self.questions[question]["answers"] if a["worth"]], default=otherwise)

    def worth(self, question, column, otherwise):
        if question is None:
            return 0, otherwise
        if not self.applies(question, column, True):
            return 0, 0
        said = self.said(question, column)
        if said == "cannot_tell":
            low, high = 0, self.most(question, otherwise)
        elif isinstance(said, Figure):
            low, high = said.low, said.high
        else:
            answer = next(a for a in self.questions[question]["answers"] if a["id"] == said)
            low, high = answer["worth"] if answer["worth"] else (0, otherwise)
        return (low if self.applies(question, column, False) else 0), high

    def kind(self):
        said = self.said(self.protocol["kind_question"], None)
        answers = self.questions[self.protocol["kind_question"]]["answers"]
        return next((answer["stands_for_kind"] for answer in answers if answer["id"] == said), None)

    def taken(self):
        told = self.measuring["weight"]
        return told["grams_taken_by_kind"].get(self.kind(), told["grams_taken_of_any_kind"])

    def weight(self, _=None):
        question = self.giving("weight")
        said = self.said(question, None)
        least, most = self.taken()
        if isinstance(said, Figure):
            return (said.low, said.high) if least <= said.low <= most else (least, most)
        for answer in self.questions[question]["answers"]:
            if answer["id"] == said and self.kind() in answer["kinds"]:
                return tuple(answer["worth"])
        return least, most

    def time_since(self, column):
        question = self.giving("time_since", column is not None)
        said = self.said(question, column) if question else None
        if said in (None, "cannot_tell"):
            return 0, ENDLESS
        answer = next(a for a in self.questions[question]["answers"] if a["id"] == said)
        return tuple(answer["worth"]) if answer["worth"] else (0, ENDLESS)

    def share(self, whole_low, whole_high):
        low, high = self.worth(self.giving("blood_lost"), None, self.figure_most("blood_lost"))
        return min(low * 1000 // max(whole_high, 1), 1000), min(-(-high * 1000 // max(whole_low, 1)), 1000)

    def figure_most(self, of):
        return self.measuring["figures"]["of"][of]["most"]

    def blood_lost(self, _=None):
        blood = self.measuring["blood"]
        least, most = blood["microlitres_a_gram_by_kind"].get(self.kind(), blood["microlitres_a_gram_of_any_kind"])
        light, heavy = self.weight()
        frail = self.holds(self.protocol["frail_when"], None, True)
        part = blood["frail_low_end_hundredths"] if frail else 100
        return self.share(light * least * part // 100, heavy * most)

    def blood_of_weight(self, _=None):
        light, heavy = self.weight()
        of = self.measuring["blood"]["microlitres_a_gram_of_weight"]
        return self.share(light * of, heavy * of)

    def breath_rate(self, _=None):
        return self.worth(self.giving("breath_rate"), None, self.figure_most("breath_rate"))

    def dryness(self, _=None):
        low, high = self.worth(self.giving("dryness"), None, 1000)
        vein = self.giving("refill")
        if vein and self.applies(vein, None, True):
            said, answers = self.said(vein, None), self.questions[vein]["answers"]
            worst = said in ("cannot_tell", answers[-1]["id"])
            if isinstance(said, Figure):
                worst = self.stands_for(vein, said)[1] == len(answers) - 1
            if worst:
                high = max(high, self.measuring["dryness"]["slow_vein_thousandths"])
        return low, high

    def skin_open(self, _=None):
        question, told = self.giving("wound_area", True), self.measuring["skin"]["square_millimetres_by_weight"]
        areas = [self.worth(question, wound, ENDLESS) for wound in range(self.wounds)]
        light, heavy = self.weight()
        power = told["to_the_power"][0] / told["to_the_power"][1]
        low = math.floor(1000 * sum(area[0] for area in areas) / (told["times"] * heavy**power))
        high = math.ceil(1000 * sum(area[1] for area in areas) / (told["times"] * light**power))
        return min(low, 1000), min(high, 1000)

    # Rules.

    def columns(self, rule):
        return range(self.wounds) if rule["of_a_wound"] else [None]

    def stands(self, rule, column, doubt):
        held = any(self.holds(cond, column, not doubt) for cond in rule["unless"])
        return self.holds(rule["when"], column, doubt) and not held

    def verdict(self):
        found = {}
        for scale, rungs, in_doubt in SCALES:
            highest = 0
            for rule in self.protocol["rules"]:
                rung = rungs.index(rule[scale]) if rule[scale] else 0
                for column in self.columns(rule):
                    if self.stands(rule, column, False):
                        highest = max(highest, rung)
                    if self.stands(rule, column, True):
                        highest = max(highest, min(rung, in_doubt))
            found[scale] = rungs[highest]
        never = {
            action
            for rule in self.protocol["rules"]
            if rule["never"]
            and any(self.holds(rule["when"], c, True) and not any(self.holds(u, c, False) for u in rule["unless"]) for c in self.columns(rule))
            for action in rule["never"]
        }
        return found | {"never": sorted(never)}


class Made:
    """Makes birds up."""

    def __init__(self, protocol, seed):
        self.protocol, self.rolled = protocol, random.Random(seed)
        self.doubt, self.fine = 0.0, 1.0

    def cut(self, of, low, high):
        most = self.protocol["measuring"]["figures"]["of"][of]["most"]
        return min(low, most), min(high, most)

    def figure(self, gives):
        told, roll = self.protocol["measuring"]["figures"], self.rolled
        if gives == "wound_area":
            length, width = roll.randint(2, 150), roll.randint(2, 150)
            area = math.pi / 4 * length * width
            ruler = told["wound_area"]["ruler_micrometres"] / 1000
            doubt = min(math.hypot(ruler / length, ruler / width), 1.0)
            band = math.floor(area * (1 - doubt)), math.ceil(area * (1 + doubt))
            return Figure(f"{length} x {width} mm", *self.cut(gives, *band))
        if gives == "breath_rate":
            counts = [(roll.randint(4, 90), roll.choice([15, 30, 60])) for _ in range(roll.randint(1, 2))]
            aside = told["breath_rate"]["breaths_more_or_less"]
            lows = [(breaths - aside) * 600 // seconds for breaths, seconds in counts]
            highs = [-(-(breaths + aside) * 600 // seconds) for breaths, seconds in counts]
            text = "; ".join(f"{breaths} in {seconds} s" for breaths, seconds in counts)
            return Figure(text, *self.cut(gives, min(lows), max(highs)))
        if gives == "refill":
            tenths = roll.randint(1, 60)
            return Figure(f"{tenths // 10}.{tenths % 10} s", *self.cut(gives, tenths, tenths))
        return self.spilt(told["blood_lost"])

    def spilt(self, told):
        roll, parts, low, high = self.rolled, [], 0, 0
        for _ in range(roll.randint(1, 3)):
            sort = roll.choice(["drops", "pads", "weighed", "pool", "amount", "dripping"])
            if sort == "drops":
                count = roll.randint(1, 80)
                parts.append(f"{count} drops")
                ends = [count * drop for drop in told["drop_microlitres"]]
            elif sort == "pads":
                count, pad, full = roll.randint(1, 4), roll.choice(list(told["pads_microlitres"])), roll.choice(list(told["fullness_hundredths"]))
                parts.append(f"{count} {pad} {full}")
                ends = [count * size * share // 100 for size, share in zip(told["pads_microlitres"][pad], told["fullness_hundredths"][full])]
            elif sort == "weighed":
                dry, grams, read = roll.randint(1, 60), roll.randint(1, 60), told["scale_read_to_grams"]
                parts.append(f"wet {dry + grams} g dry {dry} g")
                least, most = Fraction(*told["microlitres_a_gram"]["low"]), Fraction(*told["microlitres_a_gram"]["high"])
                ends = [math.floor(max(grams - read, 0) * least), math.ceil((grams + read) * most)]
            elif sort == "pool":
                width, floor = roll.randint(1, 30), roll.choice(list(told["floors_depth_micrometres"]))
                parts.append(f"pool {width} cm {floor}")
                discs = [math.pi / 4 * (width * 10) ** 2 * depth / 1000 for depth in told["floors_depth_micrometres"][floor]]
                ends = [math.floor(discs[0]), math.ceil(discs[1])]
            elif sort == "amount":
                millilitres = roll.randint(1, 60)
                parts.append(f"{millilitres} ml")
                ends = [millilitres * 1000] * 2
            else:
                drops, seconds, minutes = roll.randint(1, 30), roll.choice([10, 30, 60]), roll.randint(1, 40)
                parts.append(f"{drops} drops in {seconds} s for {minutes} min")
                all_of = Fraction(drops * minutes * 60, seconds)
                ends = [math.floor(all_of) * told["drop_microlitres"][0], math.ceil(all_of) * told["drop_microlitres"][1]]
            low, high = low + ends[0], high + ends[1]
        return Figure("; ".join(parts), *self.cut("blood_lost", low, high))

    def weight(self, judge):
        least, most = judge.taken()
        grams = self.rolled.randint(least, most)
        return Figure(f"{grams} g", grams, grams)

    def answer(self, judge, question):
        roll = self.rolled
        kind = judge.kind()
        if question["worked_out"]:
            return question["answers"][0]["id"]
        dice = roll.random()
        if dice < self.doubt and question["id"] != self.protocol["kind_question"]:
            return "cannot_tell"
        if question["typed_weight"] and dice < 0.5:
            return self.weight(judge)
        if question["takes_a_figure"] and dice < 0.6:
            return self.figure(question["gives"])
        offered = [a["id"] for a in question["answers"] if not a["kinds"] or kind in a["kinds"]]
        if not offered:
            return "cannot_tell"
        # What is fine comes more often: else every bird would be at death's door.
        return offered[0] if dice < self.fine and question["ordered"] else roll.choice(offered)

    def bird(self):
        """Answers in the order of asking, each where it applies, what could not be told counted as so."""
        wounds = self.rolled.choice([0, 0, 1, 1, 2, 3])
        # From birds with hardly a sign to such with many.
        self.doubt, self.fine = self.rolled.choice([(0.06, 0.9), (0.01, 0.98), (0.0, 1.0)])
        judge = Judge(self.protocol, {}, wounds)
        for question in self.protocol["questions"]:
            for column in range(wounds) if question["of_a_wound"] else [None]:
                if judge.applies(question["id"], column, True):
                    judge.answers[question["id"], column] = self.answer(judge, question)
        judge.memo.clear()
        return judge


def notes(judge):
    def written(said):
        return said.text if isinstance(said, Figure) else said

    def of(column):
        asked = {q["id"] for q in judge.protocol["questions"] if not q["worked_out"]}
        return {q: written(said) for (q, at), said in judge.answers.items() if at == column and q in asked}

    return json.dumps({"answers": of(None), "wounds": [of(wound) for wound in range(judge.wounds)], "looked_over": True})


SPOILED = 400


def caught(protocol, made):
    """How many birds are judged otherwise once the figures of the measures are others: none would mean that none is used."""
    other = json.loads(json.dumps(protocol))
    blood, skin = other["measuring"]["blood"], other["measuring"]["skin"]["square_millimetres_by_weight"]
    blood["microlitres_a_gram_by_kind"] = {kind: [low // 4, high] for kind, (low, high) in blood["microlitres_a_gram_by_kind"].items()}
    skin["times"] /= 4
    found = 0
    for _ in range(SPOILED):
        judge = made.bird()
        found += judge.verdict() != Judge(other, judge.answers, judge.wounds).verdict()
    return found


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        protocol = json.load(file)
    program, birds, seed = sys.argv[2], *[int(n) for n in (sys.argv[3:] + ["300", "7"][len(sys.argv) - 3 :])[:2]]
    made, wrong, figures, reached = Made(protocol, seed), 0, 0, set()
    for number in range(birds):
        judge = made.bird()
        text = notes(judge)
        ran = subprocess.run([program, "judge", "-", "--json"], input=text, capture_output=True, text=True, check=False)
        if ran.returncode:
            wrong += 1
            print(f"bird {number} is refused: {ran.stderr.strip()}\n{text}")
            continue
        told, own = json.loads(ran.stdout), judge.verdict()
        theirs = {scale: told[scale]["at_least"] for scale, _, _ in SCALES}
        theirs["never"] = sorted({ban["id"] for ban in told["never"]})
        figures += sum(isinstance(said, Figure) for said in judge.answers.values())
        reached |= {(scale, own[scale]) for scale, _, _ in SCALES}
        if theirs != own:
            wrong += 1
            print(f"bird {number}: the program says {theirs}, the second judge {own}\n{text}")
    spoiled = caught(protocol, made)
    print(f"{birds} birds with {figures} figures, {len(reached)} rungs reached: {birds - wrong} judged alike")
    print(f"{spoiled} of {SPOILED} birds are judged otherwise where blood, skin and weight are")
    sys.exit(1 if wrong or not figures or not spoiled else 0)


if __name__ == "__main__":
    main()
