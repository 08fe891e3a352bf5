// An outside judge looks at every page, as it is opened and as it is worked on, in both looks, wide and narrow.
import assert from 'node:assert/strict';
import test from 'node:test';
import { lessonOf, kinds, words } from './support/product.mjs';
import { violations } from './support/axe.mjs';
import { NARROW, WIDE, awaken, open, openAll, openNumbered, resize } from './support/sheet.mjs';

/** Answers every part wrongly, and opens every first step and working, so that all of it is looked at. */
async function workOn(sheet) {
  for (const recipe of await awaken(sheet)) {
    const block = sheet.locator(`.practice[data-recipe="${recipe}"]`);
    for (const field of await block.locator('.part input[type="text"]').all()) await field.fill('1,234');
    for (const part of await block.locator('fieldset:has(> .choice), fieldset:has(.point-list)').all()) {
      await part.locator('input').last().check();
    }
    for (const menu of await block.locator('select').all()) await menu.selectOption({ index: 1 });
    await block.getByRole('button', { name: words.live.practice.check, exact: true }).click();
  }
  await openAll(sheet);
}

/** What a look can change; all else is the same in both. */
const LOOK_RULES = { paper: null, blueprint: ['color-contrast', 'link-in-text-block'] };

for (const page of kinds) {
  test(`${page} on paper and on blueprint`, async (t) => {
    const sheet = await openNumbered(t, page);
    await workOn(sheet);
    for (const look of ['paper', 'blueprint']) {
      await sheet.getByRole('button', { name: words.pages.look[look], exact: true }).click();
      for (const viewport of [NARROW, WIDE]) {
        await resize(sheet, viewport);
        assert.deepEqual(await violations(sheet, LOOK_RULES[look]), [], `${look}, ${viewport.width} px`);
      }
    }
  });
}

test('a definition, a fault of a calculator and the question before clearing', async (t) => {
  const sheet = await open(t, lessonOf.get('seat_force'));
  const field = sheet.locator('.work .work-value').first();
  await field.fill('abc');
  await field.press('Enter');
  await sheet.locator('a.term').first().hover();
  await sheet.locator('.definition-card').waitFor({ state: 'visible' });
  assert.deepEqual(await violations(sheet), []);
  await sheet.getByRole('button', { name: words.pages.clear, exact: true }).click();
  assert.deepEqual(await violations(sheet), []);
});
