// What the record keeps of practice: tries, clean answers, the level, when a problem comes again; saving and loading it.
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import test from 'node:test';
import { fill, plain, words } from './support/product.mjs';
import { addressOf, context, drawn, problemOf, settle, visit } from './support/forms.mjs';
import { alive } from './support/sheet.mjs';

const { progress, practice } = words.live;
const DAY = 24 * 60 * 60 * 1000;
const WRONG = { several: '2 3', point: 'cap', claim: 'true 0', one: '1', rounded: '9' };

let last = 20000;

/** Works problems of recipes on their pages, one after the other, each with a number of its own. */
async function work(t, sheet, list) {
  for (const [recipe, right] of list) {
    const seed = last += 1;
    const { block, part } = await problemOf(t, recipe, seed, sheet);
    const { exact } = drawn(recipe, seed).answers[0];
    const answer = right ? exact.replace(' turn', '') : WRONG[recipe];
    await settle(block, part, answer);
  }
}

const tried = (sheet) => sheet.evaluate(() => window.SEATWORK.record.read().recipes);

async function levelOn(sheet) {
  await sheet.goto(addressOf('en/practice/index.html'));
  return /level (\d)/.exec(await sheet.locator('[data-level-now]').textContent())[1];
}

/** The table of progress: for each objective tried, clean and due; and the line for all. */
async function progressOn(sheet) {
  await sheet.goto(addressOf('en/practice/progress.html'));
  return sheet.evaluate(() => ({
    rows: [...document.querySelectorAll('[data-objective]')].map((row) => [...row.cells].slice(1).map((cell) => Number(cell.textContent))),
    when: [...document.querySelectorAll('[data-when]')].map((each) => each.textContent),
    all: document.querySelector('[data-all]').textContent,
  }));
}

test('two clean answers in a row raise the level, two misses in a row lower it', async (t) => {
  const sheet = await (await context(t)).newPage();
  assert.equal(await levelOn(sheet), '1');
  await work(t, sheet, [['point', true], ['several', false], ['claim', true]]);
  assert.equal(await levelOn(sheet), '1', 'not in a row');
  await work(t, sheet, [['one', true]]);
  assert.equal(await levelOn(sheet), '2');
  await work(t, sheet, [['point', true], ['claim', true]]);
  assert.equal(await levelOn(sheet), '2', 'what is below the level does not raise it');
  await work(t, sheet, [['rounded', false], ['point', false]]);
  assert.equal(await levelOn(sheet), '1');
});

test('a level that is set by hand holds until it is to follow again', async (t) => {
  const sheet = await visit(t, 'en/practice/index.html');
  const choose = (value) => sheet.locator(`input[name="level"][value="${value}"]`).check();
  await choose('3');
  await work(t, sheet, [['point', false], ['several', false]]);
  assert.equal(await levelOn(sheet), '3');
  assert.ok(await sheet.locator('input[name="level"][value="3"]').isChecked());
  await choose('follow');
  await work(t, sheet, [['point', false], ['several', false]]);
  assert.equal(await levelOn(sheet), '2');
});

test('what was right comes again after 1, 3, 7 and 21 days, and what was missed at once', async (t) => {
  const sheet = await (await context(t)).newPage();
  await sheet.clock.install({ time: new Date('2026-03-02T08:00:00Z') });
  const due = async () => (await progressOn(sheet)).rows.reduce((sum, [, , each]) => sum + each, 0);
  const right = () => work(t, sheet, [['several', true]]);
  await right();
  for (const days of [1, 3, 7, 21, 21]) {
    assert.equal(await due(), 0, `at once, before ${days}`);
    await sheet.clock.fastForward(days * DAY - 60_000);
    assert.equal(await due(), 0, `before ${days} days`);
    await sheet.clock.fastForward(120_000);
    assert.equal(await due(), 1, `after ${days} days`);
    await right();
  }
  await work(t, sheet, [['several', false]]);
  assert.equal(await due(), 1);
  assert.ok((await progressOn(sheet)).when.includes(progress.due_now));
});

test('only the first check of a number counts, and not as clean once the working was open', async (t) => {
  const { sheet, block, part } = await problemOf(t, 'several');
  await settle(block, part, '0');
  for (const box of await block.locator('input:checked').all()) await box.uncheck();
  await settle(block, part, '0 1');
  assert.deepEqual((({ tried: all, clean, box }) => ({ all, clean, box }))((await tried(sheet)).several), { all: 1, clean: 0, box: 1 });
  const { block: other, part: asked } = await problemOf(t, 'claim', 48213, sheet);
  await other.getByRole('button', { name: practice.working }).click();
  await settle(other, asked, 'false 0');
  assert.equal((await tried(sheet)).claim.clean, 0);
  await other.getByRole('button', { name: practice.fresh }).click();
  await settle(other, drawn('claim').parts[0], 'false 0');
  assert.deepEqual((({ tried: all, clean }) => ({ all, clean }))((await tried(sheet)).claim), { all: 2, clean: 1 });
});

test('an answer that cannot be marked yet settles nothing', async (t) => {
  const { sheet, block } = await problemOf(t, 'rounded');
  for (const typed of ['', 'abc']) {
    await block.locator('.part input').fill(typed);
    await block.locator('.action-main').click();
  }
  assert.deepEqual(await tried(sheet), {});
});

test('a problem of several parts is settled when all are answered, or one is missed', async (t) => {
  const [allowed, highest] = drawn('chain').answers;
  const { sheet, block } = await problemOf(t, 'chain');
  const put = async (label, text) => {
    await block.getByLabel(label, { exact: true }).fill(text);
    await block.locator('.action-main').click();
  };
  await put(allowed.label, allowed.shown);
  assert.deepEqual(await tried(sheet), {});
  await put(highest.label, highest.shown);
  assert.equal((await tried(sheet)).chain.clean, 1);
});

test('a problem in a lesson counts as well', async (t) => {
  const sheet = await visit(t, 'en/lessons/forms.html');
  const block = await alive(sheet, 'point');
  await settle(block, drawn('point').parts[0], 'adjusting_screw');
  assert.equal((await tried(sheet)).point.clean, 1);
});

test('progress is the same after saving, clearing and loading', async (t) => {
  const scratch = mkdtempSync(join(tmpdir(), 'seatwork-progress-'));
  t.after(() => rmSync(scratch, { recursive: true }));
  const sheet = await (await context(t, { acceptDownloads: true })).newPage();
  await work(t, sheet, [['point', true], ['several', false], ['rounded', true]]);
  const before = await progressOn(sheet);
  assert.deepEqual(before.rows.map(([all]) => all), [2, 0, 1]);
  const coming = sheet.waitForEvent('download');
  await sheet.locator('[data-save]').click();
  const download = await coming;
  const file = join(scratch, download.suggestedFilename());
  await download.saveAs(file);
  assert.equal(JSON.parse(readFileSync(file, 'utf8')).format, 1);
  await sheet.locator('.progress-file [data-clear-work]').click();
  await sheet.getByRole('dialog').getByRole('button', { name: words.live.clear.confirm }).click();
  assert.deepEqual((await sheet.locator('[data-tried]').allTextContents()).map(Number), [0, 0, 0]);
  await sheet.locator('[data-load]').setInputFiles(file);
  const status = sheet.locator('[data-progress-status]');
  await status.filter({ hasText: /./ }).waitFor();
  assert.equal(await status.textContent(), fill(progress.loaded, { file: download.suggestedFilename(), tried: 3 }));
  assert.deepEqual(await progressOn(sheet), before);
});

test('loading over progress asks first', async (t) => {
  const sheet = await (await context(t)).newPage();
  await work(t, sheet, [['point', true]]);
  const before = await progressOn(sheet);
  const record = { format: 1, level: { now: 2, run: 0, fixed: false }, recipes: {} };
  const text = JSON.stringify({ seatwork: 'progress', format: 1, site: 'every_form', record });
  const load = () => sheet.locator('[data-load]').setInputFiles({ name: 'p.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  const answer = (name) => sheet.getByRole('dialog', { name: progress.replace_title }).getByRole('button', { name }).click();
  await load();
  await answer(progress.replace_keep);
  assert.deepEqual(await progressOn(sheet), before);
  await load();
  await answer(progress.replace);
  assert.deepEqual(await tried(sheet), {});
  assert.equal(await levelOn(sheet), '2');
});

test('a file that is not ours, newer, of another course or damaged is refused in words', async (t) => {
  const sheet = await (await context(t)).newPage();
  await work(t, sheet, [['point', true]]);
  const before = await progressOn(sheet);
  const ours = { seatwork: 'progress', format: 1, site: 'every_form', record: await sheet.evaluate(() => window.SEATWORK.record.read()) };
  const entry = ours.record.recipes.point;
  for (const [text, reason] of [
    ['{"seatwork": "prog', 'not_ours'],
    ['[1, 2]', 'not_ours'],
    ['<html>', 'not_ours'],
    [JSON.stringify({ ...ours, format: 2 }), 'newer'],
    [JSON.stringify({ ...ours, site: 'another' }), 'other_course'],
    [JSON.stringify({ ...ours, record: { ...ours.record, recipes: { point: { ...entry, box: 9 } } } }), 'broken'],
    [JSON.stringify({ ...ours, record: { ...ours.record, recipes: { point: { ...entry, due: '<b>now</b>' } } } }), 'broken'],
    [JSON.stringify({ ...ours, record: null }), 'broken'],
    ['x'.repeat(1_000_001), 'not_ours'],
  ]) {
    await sheet.locator('[data-load]').setInputFiles({ name: 'class.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    const wanted = fill(progress.refused, { file: 'class.json', reason: progress[reason] });
    await sheet.waitForFunction((said) => document.querySelector('[data-progress-status]').textContent === said, wanted, { timeout: 5000 });
    assert.deepEqual(await progressOn(sheet), before);
  }
});

test('a broken record on the device breaks no page and is replaced', async (t) => {
  const sheet = await visit(t, 'en/practice/progress.html');
  for (const broken of ['{"format": 1', '{"format":1,"level":"high","recipes":{}}', '[]', '7', '{"format":2}']) {
    await sheet.evaluate((text) => {
      localStorage.setItem(`${window.SEATWORK.prefix}record`, text);
      localStorage.setItem(`${window.SEATWORK.prefix}session`, text);
    }, broken);
    assert.match((await progressOn(sheet)).all, /0/);
    assert.equal(await levelOn(sheet), '1');
  }
  await work(t, sheet, [['point', true]]);
  assert.equal((await tried(sheet)).point.tried, 1);
  assert.ok(plain((await progressOn(sheet)).all).includes('1'));
});
