// Native and browser agree to the last bit: the cases that the Rust side wrote give the same text here.
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import test from 'node:test';
import { address, lessonOf, top } from './support/product.mjs';
import { open } from './support/sheet.mjs';

const LOT = 20_000;
const file = process.env.SEATWORK_PARITY || join(top, 'target', 'parity-cases.jsonl');

/** Runs cases in the page; gives those that came out otherwise, and how many of each call there were. */
const run = (cases) => {
  const engine = window.SEATWORK.engine();
  const read = new Map();
  const recipe = (id) => {
    if (!read.has(id)) read.set(id, new engine.Recipe(window.SEATWORK_RECIPES[id]));
    return read.get(id);
  };
  const counts = {};
  const unlike = [];
  for (const each of cases) {
    const found = each.call === 'bits' ? engine.bits(...each.args) : recipe(each.recipe)[each.call](...each.args);
    counts[each.call] = (counts[each.call] ?? 0) + 1;
    if (found !== each.expect) unlike.push({ ...each, found });
  }
  return { counts, unlike: unlike.slice(0, 5), differ: unlike.length };
};

test('the cases of the native core give the same in the browser, on the recipes as they are published', async (t) => {
  assert.ok(existsSync(file), `${file} is not there: cargo test -p seatwork-tests --test engine parity writes it`);
  const cases = readFileSync(file, 'utf8').trim().split('\n').map((line) => JSON.parse(line));
  const sheet = await open(t, lessonOf.values().next().value);
  const loaded = await sheet.evaluate(() => Object.keys(window.SEATWORK_RECIPES));
  const needed = new Set(cases.map((each) => each.recipe).filter((id) => id && !loaded.includes(id)));
  for (const id of needed) await sheet.addScriptTag({ url: address(`recipes/${id}.js`) });
  const counts = {};
  /* In lots: a page takes no more than so much text at once. */
  for (let from = 0; from < cases.length; from += LOT) {
    const found = await sheet.evaluate(run, cases.slice(from, from + LOT));
    assert.deepEqual(found.unlike, [], `${found.differ} cases differ`);
    for (const [call, count] of Object.entries(found.counts)) counts[call] = (counts[call] ?? 0) + count;
  }
  for (const call of ['bits', 'draw', 'mark', 'solve']) {
    assert.ok(counts[call] > 100, `too few cases of ${call}: ${JSON.stringify(counts)}`);
  }
  t.diagnostic(JSON.stringify(counts));
});
