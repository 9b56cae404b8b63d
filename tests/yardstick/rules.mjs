// The same birds judged by a general JSON rule engine (npm `json-rules-engine`); every one is checked first.
import { readFileSync } from "node:fs";
import { Engine } from "json-rules-engine";

const { rules, birds, expected, ours_ns } = JSON.parse(readFileSync(process.argv[2], "utf8"));
const engine = new Engine(rules);
const judged = async (bird) => {
  const { events } = await engine.run(bird);
  const at = { need: 0, humane: 0, authority: 0 };
  for (const { type, params } of events) at[type] = Math.max(at[type], params.rung);
  return [at.need, at.humane, at.authority];
};
for (const [at, bird] of birds.entries()) {
  const found = await judged(bird);
  if (found.join() !== expected[at].join()) throw new Error(`bird ${at}: ${found} instead of ${expected[at]}`);
}
let best = Infinity;
for (let turn = 0; turn < 3; turn++) {
  const began = process.hrtime.bigint();
  for (const bird of birds) await judged(bird);
  best = Math.min(best, Number(process.hrtime.bigint() - began) / birds.length);
}
console.log(`the same in a general JSON rule engine${" ".repeat(8)} ${(best / 1000).toFixed(2).padStart(9)} us a bird   ${(best / ours_ns).toFixed(2).padStart(8)} x ours`);
