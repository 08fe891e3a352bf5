// The author's guide in Chromium: each lesson as it is opened and worked on, wide and on a phone, and its source beside
// what it becomes.
import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import test from 'node:test';
import { pathToFileURL } from 'node:url';
import { published, words } from './support/product.mjs';
import { violations } from './support/axe.mjs';
import { NARROW, WIDE, alive, awaken, offline, openAll, resize, sideways, still } from './support/sheet.mjs';

const guide = published('content/guide');
const lessons = readdirSync(join(guide, 'en/lessons')).filter((name) => name.endsWith('.html')).sort();

async function openLesson(t, name, options = {}) {
  const sheet = await (await offline(t, options, guide)).newPage();
  await sheet.goto(pathToFileURL(join(guide, 'en/lessons', name)).href);
  return sheet;
}

/* One maker writes the chapters of faults: the first of them stands for the rest. */
const faults = lessons.filter((name) => name.startsWith('faults_'));
const toLookAt = lessons.filter((name) => !faults.slice(1).includes(name) || process.env.SEATWORK_EVERY_PAGE);

for (const name of toLookAt) {
  test(`${name} is usable by everyone, wide and narrow`, async (t) => {
    const sheet = await openLesson(t, name);
    await awaken(sheet);
    await openAll(sheet);
    assert.deepEqual(await violations(sheet), [], 'wide');
    await sheet.getByRole('button', { name: words.pages.look.blueprint, exact: true }).click();
    await resize(sheet, NARROW);
    assert.deepEqual(await violations(sheet, ['color-contrast', 'target-size', 'scrollable-region-focusable']), [], 'narrow');
    assert.deepEqual(await sheet.evaluate(sideways), still);
  });
}

test('source stands beside what it becomes on a wide sheet, and above it on a phone', async (t) => {
  const sheet = await openLesson(t, 'first_recipe.html');
  const shown = sheet.locator('.shown').first();
  const boxes = async () => [
    await shown.locator('.shown-source').boundingBox(), await shown.locator('.shown-becomes').boundingBox()];
  const [left, right] = await boxes();
  assert.ok(left.x + left.width <= right.x && left.y === right.y);
  await resize(sheet, NARROW);
  const [above, below] = await boxes();
  assert.ok(above.x === below.x && above.y + above.height <= below.y);
});

test('the recipe that is shown is the one that is live', async (t) => {
  const sheet = await openLesson(t, 'first_recipe.html', { viewport: WIDE });
  const block = await alive(sheet, 'rise_to_full_lift');
  const shown = sheet.locator('.shown', { has: block });
  assert.match(await shown.locator('pre').textContent(), /^---\nformat: 1\nid: rise_to_full_lift\n/);
  await block.getByLabel('Opening accumulation', { exact: true }).fill('1000 psi');
  await block.getByRole('button', { name: words.live.practice.check, exact: true }).click();
  await block.locator('.verdict').waitFor();
});
