// Works a relation over and over in the built engine and prints the median nanoseconds of one: for `core.rs`.
//   node wasm.mjs ENGINE-FOLDER RELATION "ARGUMENTS" TIMES ROUNDS
import { readFileSync } from 'node:fs';

const [folder, relation, given, times, rounds] = process.argv.slice(2);
const glue = readFileSync(`${folder}/engine-glue.js`, 'utf8');
const engine = new Function(`${glue}; return wasm_bindgen;`)();
engine.initSync({ module: readFileSync(`${folder}/engine.wasm`) });

const taken = [];
for (let round = 0; round < Number(rounds); round += 1) {
  const start = process.hrtime.bigint();
  engine.repeat(relation, given, Number(times));
  taken.push(Number(process.hrtime.bigint() - start) / Number(times));
}
taken.sort((one, other) => one - other);
console.log(taken[Math.floor(taken.length / 2)]);
