// What a learner's device holds, and the file that brings it: hostile strings, wrong types, what is cut short, huge or deep,
// in every place of a file of progress and of what lies in the storage of the browser; a storage that is full or refused.
// Nothing runs, pages keep their shape, what is refused is told in words, and earlier work stands.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import test from 'node:test';
import { fill, words } from './support/product.mjs';
import { addressOf, drawn, folder, problemOf, settle } from './support/forms.mjs';
import { faultsOf, shapes, sheetOf, strange, strings, usualOf } from './support/hostile.mjs';
import { alive } from './support/sheet.mjs';

const { progress, kept } = words.live;
const RIGHT = words.live.verdicts.right.word;
const TYPES = [null, true, 0, -7, 1.5, 1e9, '', 'x', [], {}, [[]], { now: 1 }, '<img src=x onerror=hostile()>'];

/** JSON of so many lists or mappings in each other, as text: it is too deep to be written by a program. */
const lists = (depth) => '['.repeat(depth) + ']'.repeat(depth);
const mappings = (depth) => `${'{"a":'.repeat(depth)}0${'}'.repeat(depth)}`;

/** Every way down to a value within a value that has none below it. */
const leaves = (value) => (typeof value !== 'object' || value === null ? [[]]
  : Object.entries(value).flatMap(([key, inner]) => leaves(inner).map((way) => [key, ...way])));

const at = (value, way) => way.reduce((inner, key) => inner[key], value);

/** A copy with something else at the end of a way; its text. */
function changed(value, way, other) {
  const copy = structuredClone(value);
  at(copy, way.slice(0, -1))[way.at(-1)] = other;
  return JSON.stringify(copy);
}

/** A copy in which the value has another name; its text. */
function renamed(value, way, name) {
  const copy = structuredClone(value);
  const above = at(copy, way.slice(0, -1));
  const inner = above[way.at(-1)];
  delete above[way.at(-1)];
  Object.defineProperty(above, name, { value: inner, enumerable: true });
  return JSON.stringify(copy);
}

/** Works some problems rightly, so that there is a record to lose. */
async function goodWork(t, sheet, seed = 43210) {
  for (const recipe of ['point', 'claim', 'several']) {
    const { block, part } = await problemOf(t, recipe, seed, sheet);
    assert.equal(await settle(block, part, drawn(recipe, seed).answers[0].exact), RIGHT);
  }
}

const stored = (sheet, key) => sheet.evaluate((name) => localStorage.getItem(window.SEATWORK.prefix + name), key);

/** In the browser: loads each file, keeps what is here where that is asked, and tells what was said. */
const load = async (files) => {
  const chooser = document.querySelector('[data-load]');
  const status = document.querySelector('[data-progress-status]');
  const { port1, port2 } = new MessageChannel();
  const turn = () => new Promise((done) => {
    port1.onmessage = done;
    port2.postMessage(0);
  });
  const all = [];
  for (const { name, text } of files) {
    status.textContent = '';
    const chosen = new DataTransfer();
    chosen.items.add(new File([text], name, { type: 'application/json' }));
    chooser.files = chosen.files;
    chooser.dispatchEvent(new Event('change'));
    for (let count = 0; count < 100_000 && !status.textContent && !document.querySelector('dialog'); count += 1) await turn();
    const asked = document.querySelector('dialog');
    if (asked) asked.querySelector('button').click();
    while (document.querySelector('dialog')) await turn();
    all.push(asked ? 'asked' : status.textContent);
  }
  return all;
};

/** Chooses a file to load, as a learner does. */
const choose = (sheet, name, text) =>
  sheet.locator('[data-load]').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

const fileOf = (record) => JSON.stringify({ seatwork: 'progress', format: 1, site: 'every_form', record });

/** Texts that are no file of progress, or a broken one. */
function badFiles(saved) {
  const text = JSON.stringify(saved);
  const [first] = Object.keys(saved.record.recipes);
  const texts = leaves(saved).filter((way) => typeof at(saved, way) === 'string');
  const one = texts.filter((way) => !way.includes('recipes') || way.includes(first));
  const others = leaves(saved).filter((way) => !way.includes('recipes') || way.includes(first));
  return [
    ...strings, ...strings.map((each) => JSON.stringify(each)),
    ...one.flatMap((way) => strings.map((each) => changed(saved, way, each))),
    ...others.flatMap((way) => TYPES.filter((type) => typeof type !== typeof at(saved, way) || type === '' || type < 0 || type > 9)
      .map((type) => changed(saved, way, type))),
    ...others.map((way) => renamed(saved, way, '__proto__')),
    ...[0, -1, 2, 1.5, '1', null, 1e99, [1]].map((format) => JSON.stringify({ ...saved, format })),
    ...Array.from({ length: 20 }, (each, place) => text.slice(0, Math.floor((text.length * place) / 20))),
    '[1]'.repeat(400_000), `${text}${' '.repeat(1_000_000)}`, lists(400_000), mappings(150_000),
    ...others.map((way) => changed(saved, way, 'deep').replace('"deep"', lists(100_000))),
  ];
}

/** A sheet on which some problems were worked rightly, their record, and what pages are like. */
async function worked(t) {
  const sheet = await sheetOf(t, folder);
  await goodWork(t, sheet);
  await sheet.goto(addressOf('en/practice/progress.html'));
  const before = await stored(sheet, 'record');
  return { sheet, before, usual: usualOf(await sheet.evaluate(shapes, {})) };
}

const faultsIn = async (sheet, usual) =>
  [...strange((await sheet.evaluate(shapes, {}))[0], usual), ...await sheet.evaluate(faultsOf)];

test('whatever a file of progress holds, it is taken whole or refused in words', async (t) => {
  const { sheet, before, usual } = await worked(t);
  const coming = sheet.waitForEvent('download');
  await sheet.locator('[data-save]').click();
  const text = readFileSync(await (await coming).path(), 'utf8');
  const files = badFiles(JSON.parse(text)).map((each, place) => ({ name: strings[place % strings.length], text: each }));
  const said = await sheet.evaluate(load, files);
  const reasons = [progress.not_ours, progress.newer, progress.other_course, progress.broken];
  const refused = ({ name }, place) => reasons.some((reason) => said[place] === fill(progress.refused, { file: name, reason }));
  const taken = files.map((file, place) => (refused(file, place) ? null : [file.text.slice(0, 400), said[place]]));
  assert.deepEqual(taken.filter(Boolean), []);
  assert.equal(await stored(sheet, 'record'), before);
  assert.deepEqual(await faultsIn(sheet, usual), []);
  t.diagnostic(`${files.length} files`);
  /* What a file holds beside is not taken along, however deep. */
  const beside = text.replace('"recipes":', `"deep": ${lists(100_000)}, "recipes":`);
  await choose(sheet, 'deep.json', beside);
  await sheet.getByRole('button', { name: progress.replace }).click();
  assert.equal(await sheet.locator('[data-progress-status]').textContent(), fill(progress.loaded, { file: 'deep.json', tried: 3 }));
  assert.equal(await stored(sheet, 'record'), before);
});

/** In the browser: puts each text where the record lies, and tells what the sheet of progress then says, and its level. */
const laid = (texts) => texts.map((text) => {
  const { prefix, begin } = window.SEATWORK;
  ['record', 'units', 'look'].forEach((key) => localStorage.setItem(prefix + key, text));
  begin();
  document.dispatchEvent(new CustomEvent('seatwork:record'));
  const { units, look } = document.documentElement.dataset;
  const levels = [...document.querySelectorAll('[data-level-shown]')].filter((line) => !line.hidden).length;
  return { all: document.querySelector('[data-all]').textContent, units, look: look || null, levels };
});

test('whatever lies where the record was, the sheet of progress stands, and what is whole of it counts', async (t) => {
  const { sheet, before, usual } = await worked(t);
  const record = JSON.parse(before);
  const none = fill(progress.all, { tried: 0, clean: 0, due: 0 });
  const garbage = [...strings, ...strings.map((each) => JSON.stringify(each)), ...TYPES.map((type) => JSON.stringify(type)),
    before.slice(0, -1), lists(400_000), mappings(150_000), JSON.stringify({ ...record, format: 2 })];
  const plain = { units: 'us', look: null, levels: 1 };
  for (const found of await sheet.evaluate(laid, garbage)) assert.deepEqual(found, { all: none, ...plain });
  /* One entry that is spoilt takes none of the others along. */
  const first = leaves(record).filter((way) => way.includes('point'));
  const spoilt = [...first.flatMap((way) => [...strings.map((each) => changed(record, way, each)), changed(record, way, null)]),
    renamed(record, ['recipes', 'point'], '__proto__'), renamed(record, ['recipes', 'point'], '<b>'),
    ...first.map((way) => changed(record, way, 'deep').replace('"deep"', lists(100_000)))];
  const two = fill(progress.all, { tried: 2, clean: 2, due: 0 });
  for (const found of await sheet.evaluate(laid, spoilt)) assert.deepEqual(found, { all: two, ...plain });
  assert.deepEqual(await faultsIn(sheet, usual), []);
  await goodWork(t, sheet, 43211);
  assert.equal(JSON.parse(await stored(sheet, 'record')).recipes.point.tried, 1);
});

/** A session that was kept: the problems of some recipes, with what was answered. */
const session = (items, others = {}) => ({ format: 1, what: 'all', many: 5, worked: 0, clean: 0, items, ...others });
const item = (recipe, us = {}, no = '48213') =>
  ({ recipe, problem: { no, us, si: {}, first: {}, opened: false, settled: false, clean: false }, counted: false });

/** In the browser: lays each text where a problem was kept, and brings the problem to life from it. */
const revived = ({ id, texts }) => {
  const { prefix, kept, Problem } = window.SEATWORK;
  const block = document.querySelector('.practice[data-recipe]');
  const names = new Set();
  const faults = texts.filter((text) => {
    localStorage.setItem(`${prefix}practice/${id}`, text);
    new Problem(block, kept.ofRecipe(id)).refresh();
    window.namesWithin(block, names);
    return !block.querySelector('form') || !/\b[1-9]\d{4}\b/.test(block.querySelector('.practice-number').textContent);
  });
  return { names: [...names], faults };
};

test('whatever lies where a problem was kept, a problem comes, with the answers that are texts', async (t) => {
  const sheet = await sheetOf(t, folder);
  for (const [from, id] of ['chain', 'trace', 'one', 'several', 'order', 'pairs', 'point', 'claim'].entries()) {
    await sheet.goto(addressOf(`en/practice/${id}.html`));
    const block = await alive(sheet, id);
    const { problem: old } = item(id, Object.fromEntries(drawn(id).parts.map((part) => [part.id, ''])));
    const usual = await sheet.evaluate(revived, { id, texts: [JSON.stringify(old)] });
    const some = strings.filter((each, place) => place % 4 === from % 4);
    const texts = [...some, ...TYPES.map((type) => JSON.stringify(type)), lists(100_000),
      ...leaves(old).flatMap((way) => [...(way[0] === 'us' ? some : some.slice(0, 6)), null, 5, [], {}]
        .map((each) => changed(old, way, each))),
      ...['<b>', 'constructor', '__proto__'].map((each) => renamed(old, ['us'], each))];
    const found = await sheet.evaluate(revived, { id, texts });
    assert.deepEqual(found.faults, [], id);
    assert.deepEqual(found.names.filter((name) => !usual.names.includes(name)), [], id);
    /* A good one after all that is as it was left. */
    await sheet.evaluate(revived, { id, texts: [JSON.stringify(old)] });
    assert.match(await block.locator('.practice-number').textContent(), /48213/);
  }
});

/** Opens the sheet of practice on what lies where its session was kept; how many problems come. */
async function opened(sheet, text) {
  await sheet.evaluate((laid) => localStorage.setItem(`${window.SEATWORK.prefix}session`, laid), text);
  await sheet.goto(addressOf('en/practice/index.html'));
  const blocks = await sheet.locator('[data-session] .practice').count();
  for (let place = 0; place < blocks; place += 1) await sheet.locator('[data-session] form').nth(place).waitFor();
  return blocks;
}

test('whatever lies where a session was kept, the sheet of practice stands, and what is whole of it goes on', async (t) => {
  const { sheet, before } = await worked(t);
  const five = ['rounded', 'one', 'order', 'pairs', 'trace'].map((recipe) => item(recipe));
  const others = ['rounded', 'one', 'several', 'order', 'pairs'];
  const shaped = [];
  for (const items of [[], five, others.map((recipe) => item(recipe))]) {
    assert.equal(await opened(sheet, JSON.stringify(session(items))), items.length);
    shaped.push(...await sheet.evaluate(shapes, {}));
  }
  const usual = usualOf(shaped);
  const parts = Object.fromEntries(others.map((recipe) => [recipe, drawn(recipe).parts]));
  const answered = (recipe, place) => item(recipe, Object.fromEntries(parts[recipe].map((part) => [part.id, strings[place]])));
  for (const [text, problems] of [
    [strings[0], 0], [JSON.stringify(session(five)).slice(0, -1), 0], [lists(400_000), 0], ['[]', 0], ['null', 0], ['7', 0],
    [JSON.stringify(session(five, { format: 2 })), 0], [JSON.stringify(session('<b>')), 0], [JSON.stringify(session([])), 0],
    [JSON.stringify(session(five, { many: strings[20] })), 0], [JSON.stringify(session(five, { worked: '<b>' })), 0],
    /* So many that the page would not come to an end. */
    [JSON.stringify(session(Array(20_000).fill(item('rounded')))), 5],
    [JSON.stringify(session(five, { what: strings[21], more: 'deep' })).replace('"deep"', lists(100_000)), 5],
    /* What is spoilt takes nothing else along. */
    [JSON.stringify(session([...five.slice(0, 2), item('constructor'), item('__proto__'), { ...item('one'), problem: { no: '<b>' } }])), 2],
    ...[0, 80, 160].map((from) => [JSON.stringify(session(others.map((recipe, place) => answered(recipe, from + place * 7)))), 5]),
  ]) {
    assert.equal(await opened(sheet, text), problems, text.slice(0, 200));
    assert.deepEqual(await faultsIn(sheet, usual), [], text.slice(0, 200));
    await sheet.locator('[data-session] form').evaluateAll((forms) => forms.forEach((form) => form.requestSubmit()));
  }
  const { point } = JSON.parse(await stored(sheet, 'record')).recipes;
  assert.deepEqual(point, JSON.parse(before).recipes.point);
});

/** A problem is worked and told to be right; then also, where nothing can be kept, that it is not. */
async function workedUnkept(t, sheet, recipe, seed) {
  const { block, part } = await problemOf(t, recipe, seed, sheet);
  assert.equal(await settle(block, part, drawn(recipe, seed).answers[0].exact), RIGHT);
  assert.equal(await sheet.locator('.notice').textContent(), kept.refused);
  assert.deepEqual(await sheet.evaluate(faultsOf), []);
}

test('where the storage is full, that is told, and what was kept before stands', async (t) => {
  const { sheet, before } = await worked(t);
  await sheet.evaluate(() => {
    for (let size = 2 ** 22; size >= 1; size /= 2) {
      try {
        for (;;) localStorage.setItem(`full ${localStorage.length}`, 'x'.repeat(size));
      } catch (full) { /* Smaller ones may still go in. */ }
    }
  });
  await workedUnkept(t, sheet, 'rounded', 43211);
  assert.equal(await stored(sheet, 'record'), before);
  await sheet.goto(addressOf('en/practice/progress.html'));
  const grown = JSON.parse(before);
  Object.assign(grown.recipes, Object.fromEntries(Array.from({ length: 2000 }, (each, place) => [`more_${place}`, grown.recipes.point])));
  await choose(sheet, 'p.json', fileOf(grown));
  await sheet.getByRole('button', { name: progress.replace }).click();
  const told = fill(progress.refused, { file: 'p.json', reason: progress.no_room });
  assert.equal(await sheet.locator('[data-progress-status]').textContent(), told);
  assert.equal(await stored(sheet, 'record'), before);
});

test('where storage is refused, pages work, and that nothing is kept is told', async (t) => {
  const sheet = await sheetOf(t, folder);
  await sheet.addInitScript(() => Object.defineProperty(window, 'localStorage', {
    get() { throw new DOMException('refused', 'SecurityError'); },
  }));
  await workedUnkept(t, sheet, 'claim', 43211);
  await sheet.goto(addressOf('en/lessons/forms.html'));
  await alive(sheet, 'point');
  assert.equal(await sheet.locator('.notice').count(), 0, 'nobody has done anything yet');
  await sheet.goto(addressOf('en/practice/index.html'));
  await sheet.locator('[data-choosing] [type="submit"]').click();
  await sheet.locator('[data-session] form').first().waitFor();
  assert.equal(await sheet.locator('.notice').textContent(), kept.refused);
  await sheet.goto(addressOf('en/practice/progress.html'));
  const record = { format: 1, level: { now: 1, run: 0, fixed: false }, recipes: {} };
  const [said] = await sheet.evaluate(load, [{ name: 'p.json', text: fileOf(record) }]);
  assert.equal(said, fill(progress.refused, { file: 'p.json', reason: progress.no_room }));
  assert.deepEqual(await sheet.evaluate(faultsOf), []);
});
