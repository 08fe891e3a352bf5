// Measures the built engine for `core.rs` and prints the median nanoseconds of one.
//   node wasm.mjs ENGINE-FOLDER relation ID "ARGUMENTS" TIMES ROUNDS    works a relation over and over, under Node
//   node wasm.mjs ENGINE-FOLDER problem RECIPE-FILE PART TIMES ROUNDS   draws and marks problems, in Chromium
import { readFileSync } from 'node:fs';

const [folder, what, first, second, times, rounds] = process.argv.slice(2);
const glue = readFileSync(`${folder}/engine-glue.js`, 'utf8');

/** The median time of one of so many, in nanoseconds; `now` gives nanoseconds. */
const median = (work, now) => {
  const taken = [];
  for (let round = 0; round < Number(rounds); round += 1) {
    const start = now();
    work();
    taken.push((now() - start) / Number(times));
  }
  return taken.sort((one, other) => one - other)[Math.floor(taken.length / 2)];
};

function underNode() {
  const engine = new Function(`${glue}; return wasm_bindgen;`)();
  engine.initSync({ module: readFileSync(`${folder}/engine.wasm`) });
  return median(() => engine.repeat(first, second, Number(times)), () => Number(process.hrtime.bigint()));
}

async function inChromium() {
  const { chromium } = await import('../browser/node_modules/playwright-core/index.mjs');
  const browser = await chromium.launch({
    executablePath: process.env.SEATWORK_CHROMIUM || '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'],
  });
  const page = await browser.newPage();
  const module = readFileSync(`${folder}/engine.wasm`).toString('base64');
  const found = await page.evaluate(({ glue, module, recipe, part, times, rounds }) => {
    const engine = new Function(`${glue}; return wasm_bindgen;`)();
    engine.initSync({ module: Uint8Array.from(atob(module), (letter) => letter.charCodeAt(0)) });
    const read = new engine.Recipe(recipe);
    const taken = [];
    for (let round = 0; round < rounds; round += 1) {
      const start = performance.now();
      if (read.repeat(part, times) !== times) throw new Error('a right answer was not right');
      taken.push((performance.now() - start) * 1e6 / times);
    }
    return taken.sort((one, other) => one - other)[Math.floor(taken.length / 2)];
  }, { glue, module, recipe: readFileSync(first, 'utf8'), part: second, times: Number(times), rounds: Number(rounds) });
  await browser.close();
  return found;
}

console.log(what === 'relation' ? underNode() : await inChromium());
