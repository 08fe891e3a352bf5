// Native and browser agree to the last bit: the cases that the Rust side wrote give the same text here.
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import test from 'node:test';
import { address, lessonOf, recipeNames, stored, top } from './support/product.mjs';
import { open } from './support/sheet.mjs';

const LOT = 20_000;
const file = process.env.SEATWORK_PARITY || join(top, 'target', 'parity-cases.jsonl');
assert.ok(existsSync(file), `${file} is not there: cargo test -p seatwork-tests --test numbers parity writes it`);
const cases = readFileSync(file, 'utf8').trim().split('\n');

/** Runs cases, each a line; gives those that came out otherwise, and how many of each call there were. */
const run = (engine, recipes, lines) => {
  const read = new Map();
  const recipe = (id) => {
    if (!read.has(id)) read.set(id, new engine.Recipe(recipes[id]));
    return read.get(id);
  };
  const counts = {};
  const unlike = [];
  for (const each of lines.map((line) => JSON.parse(line))) {
    const found = each.call === 'bits' ? engine.bits(...each.args) : recipe(each.recipe)[each.call](...each.args);
    counts[each.call] = (counts[each.call] ?? 0) + 1;
    if (found !== each.expect) unlike.push({ ...each, found });
  }
  return { counts, unlike: unlike.slice(0, 5), differ: unlike.length };
};

/** Nothing differs, and every call was made often. */
function agreed(t, results) {
  const counts = {};
  for (const found of results) {
    assert.deepEqual(found.unlike, [], `${found.differ} cases differ`);
    for (const [call, count] of Object.entries(found.counts)) counts[call] = (counts[call] ?? 0) + count;
  }
  for (const call of ['bits', 'draw', 'mark', 'solve']) {
    assert.ok(counts[call] > 100, `too few cases of ${call}: ${JSON.stringify(counts)}`);
  }
  t.diagnostic(JSON.stringify(counts));
}

test('the cases of the native core give the same in the browser, on the recipes as they are published', async (t) => {
  const sheet = await open(t, lessonOf.values().next().value);
  const loaded = await sheet.evaluate(() => Object.keys(window.SEATWORK_RECIPES));
  for (const id of recipeNames.filter((each) => !loaded.includes(each))) await sheet.addScriptTag({ url: address(`recipes/${id}.js`) });
  await sheet.evaluate(`window.runCases = ${run}`);
  const results = [];
  /* In lots, each as one text: a page takes no more than so much at once, and many small things slowly. */
  for (let from = 0; from < cases.length; from += LOT) {
    results.push(await sheet.evaluate((text) => window.runCases(window.SEATWORK.engine(), window.SEATWORK_RECIPES, text.split('\n')),
      cases.slice(from, from + LOT).join('\n')));
  }
  agreed(t, results);
});

/* An engine that was built anew and is not in the published site, where one is named. */
const fresh = process.env.SEATWORK_ENGINE;
if (fresh) {
  test(`the cases of the native core give the same in the engine of ${fresh}`, (t) => {
    const engine = new Function(`${readFileSync(join(fresh, 'engine-glue.js'), 'utf8')}; return wasm_bindgen;`)();
    engine.initSync({ module: readFileSync(join(fresh, 'engine.wasm')) });
    agreed(t, [run(engine, Object.fromEntries(recipeNames.map((id) => [id, stored(id)])), cases)]);
  });
}
