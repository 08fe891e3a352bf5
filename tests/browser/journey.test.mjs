// An instructor's first day, in the order a person would go: from an empty folder to a problem of their own that somebody
// solves from a memory stick. With SEATWORK_PICTURES set to a folder, a picture of each step is left there.
import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import test from 'node:test';
import { pathToFileURL } from 'node:url';
import { answer, draw, runIn, words } from './support/product.mjs';
import { alive, check, offline } from './support/sheet.mjs';

const LESSON = 'en/lessons/valve_on_the_line.md';
const RECIPE = 'en/recipes/drain_area.md';
const WRITTEN = `---
format: 1
id: drain_area
title: "The bore of the drain"
objectives: [work_disc_force]
level: 1
draw:
  bore: { us: "1 in .. 3 in by 1/8 in", si: "25 mm .. 75 mm by 1 mm" }
ask:
  - { id: area, label: "Area", answer: "bore_area(bore: bore)", unit: { us: in2, si: mm2 } }
---
## Question
The drain of RV-1 has a bore of {bore}. What area has the water to leave by?
`;

/** A scratch folder, removed at the end of the test. */
function scratch(t) {
  const folder = mkdtempSync(join(tmpdir(), 'seatwork-journey-'));
  t.after(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** What the command says when it refuses, with its exit status. */
function refused(folder, ...typed) {
  try {
    runIn(folder, ...typed);
  } catch (error) {
    return { status: error.status, said: error.stderr };
  }
  return assert.fail(`${typed.join(' ')} was taken`);
}

const edit = (file, change) => writeFileSync(file, change(readFileSync(file, 'utf8')));

/** A file with one of its words changed for another. */
const changed = (file, from, to) => edit(file, (text) => {
  assert.ok(text.includes(from), `${file} has no ${from}`);
  return text.replace(from, to);
});

/** Every file of a folder with what is in it. */
const contents = (folder) => readdirSync(folder, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile())
  .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
  .sort()
  .map((file) => [file, readFileSync(file).toString('base64')]);

/** Opens a page of a folder, offline, and leaves a picture of it. */
async function look(t, folder, page, name) {
  const sheet = await (await offline(t, {}, folder)).newPage();
  await sheet.goto(pathToFileURL(join(folder, page)).href);
  await picture(sheet, name);
  return sheet;
}

async function picture(sheet, name) {
  const folder = process.env.SEATWORK_PICTURES;
  if (folder) await sheet.screenshot({ path: join(folder, `${name}.png`) });
}

test('from an empty folder to a problem of one\'s own on a memory stick', async (t) => {
  const folder = scratch(t);
  const mine = (file) => join(folder, 'mine', file);
  const site = join(folder, 'mine-site');

  const started = runIn(folder, 'start', 'mine');
  const typed = started.split('\n').filter((line) => line.startsWith('  seatwork ')).map((line) => line.trim().split(' ').slice(1));
  assert.deepEqual(typed.map(([name]) => name), ['proof', 'publish', 'draw']);
  const publish = typed[1];
  assert.match(runIn(folder, ...publish), /mine-site.index\.html/);
  const first = await look(t, site, 'index.html', '1-started');
  assert.equal(await first.locator('a[href="en/lessons/valve_on_the_line.html"]').count() > 0, true);

  changed(mine(LESSON), 'Relief valve RV-1 is', 'Our own relief valve, RV-1, is');
  changed(mine(LESSON), '```practice\nrecipe: disc_force\n```', '```practice\nrecipe: disc_force\n```\n\n```practice\nrecipe: drain_area\n```');
  writeFileSync(mine(RECIPE), WRITTEN);
  changed(mine(RECIPE), 'bore_area(bore: bore)', 'bore_area(boer: bore)');

  const before = contents(site);
  const { status, said } = refused(folder, ...publish);
  assert.equal(status, 1, said);
  const lines = WRITTEN.replace('(bore: bore)', '(boer: bore)').split('\n');
  const line = lines.findIndex((text) => text.includes('boer'));
  assert.ok(said.includes(`mine/${RECIPE}:${line + 1}:${lines[line].indexOf('boer') + 1}`), said);
  assert.match(said, /error\[formula-unknown-input\]: bore_area has no input called boer/);
  assert.match(said, /help: .*\bbore\b/);
  assert.match(said, /1 fault found; nothing was written/);
  assert.deepEqual(contents(site), before, 'the site of before is left alone');

  changed(mine(RECIPE), 'boer', 'bore');
  const proof = runIn(folder, ...typed[0]);
  assert.match(proof, /drain_area/);
  assert.match(proof, /5 recipes proven/);
  runIn(folder, ...publish);
  runIn(folder, ...typed[2]);

  const stick = join(scratch(t), 'memory stick');
  cpSync(site, stick, { recursive: true });
  const sheet = await look(t, stick, 'index.html', '2-on-the-stick');
  await sheet.locator('main a[href$="valve_on_the_line.html"]').first().click();
  await sheet.getByText('Our own relief valve, RV-1, is').waitFor();
  const block = await alive(sheet, 'drain_area');
  await picture(sheet, '3-own-problem');
  const seed = /(\d{5})/.exec(await block.locator('.practice-number').textContent())[1];
  const { value } = answer(draw('drain_area', seed, 'us', join(folder, 'mine')), 'area');
  const wrong = await check(block, 'Area', (4 * value).toPrecision(4));
  assert.notEqual(wrong.word, words.live.verdicts.right.word);
  await picture(sheet, '4-wrong');
  const right = await check(block, 'Area', `${value.toPrecision(4)} in2`);
  assert.equal(right.word, words.live.verdicts.right.word);
  await picture(sheet, '5-solved');
});
