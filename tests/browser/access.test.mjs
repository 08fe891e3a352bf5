// Every page in one visit: as it is opened and as it is worked on, narrow and wide, with large text, in both looks, before
// an outside judge.
import assert from 'node:assert/strict';
import test from 'node:test';
import { lessonOf, kinds, words } from './support/product.mjs';
import { violations } from './support/axe.mjs';
import { NARROW, WIDE, awaken, open, openAll, openNumbered, resize, restyle, sideways, still } from './support/sheet.mjs';

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

/** Targets under 24 px with another target too near (WCAG 2.5.8); links within a sentence are exempt. */
const smallTargets = () => {
  const shown = (element) => element.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  const target = (element) => (element.matches('label input') ? element.closest('label') : element);
  const sentence = (element) => {
    if (element.localName !== 'a' || getComputedStyle(element).display !== 'inline') return false;
    const around = element.parentElement.cloneNode(true);
    around.querySelectorAll('a').forEach((link) => link.remove());
    return /\w/.test(around.textContent);
  };
  const all = [...document.querySelectorAll('a[href], button, input, select, summary')]
    .filter((element) => shown(element) && !sentence(element))
    .map(target).map((element) => ({ element, box: element.getBoundingClientRect() }))
    .filter(({ box }) => box.right > 0 && box.bottom > 0);
  const small = all.filter(({ box }) => box.width < 23.99 || box.height < 23.99);
  const middle = (box) => [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const near = (one, other) => {
    const [x, y] = middle(one.box);
    const [aside, below] = [Math.max(other.box.left - x, 0, x - other.box.right), Math.max(other.box.top - y, 0, y - other.box.bottom)];
    return Math.hypot(aside, below) < 12;
  };
  return small.filter((one) => all.some((other) => other.element !== one.element && near(one, other)))
    .map(({ element, box }) => `${element.outerHTML.slice(0, 90)} ${box.width.toFixed(1)} x ${box.height.toFixed(1)}`);
};

/** Text twice as large, and set wider (WCAG 1.4.4, 1.4.12). */
const LARGE = `html { font-size: 200% !important } * { line-height: 1.5 !important; letter-spacing: .12em !important;
  word-spacing: .16em !important } p { margin-block-end: 2em !important }`;

for (const page of kinds) {
  test(`${page} on paper and on blueprint, narrow and wide`, async (t) => {
    const sheet = await openNumbered(t, page, { viewport: NARROW });
    const staysWithin = async () => assert.deepEqual(await sheet.evaluate(sideways), still);
    const presses = async () => assert.deepEqual(await sheet.evaluate(smallTargets), []);
    await t.test('does not scroll sideways at 320 px', staysWithin);
    await awaken(sheet);
    await t.test('what can be pressed is large enough or far enough from the next at 320 px', presses);
    await resize(sheet, WIDE);
    await t.test('and on a wide screen', presses);
    await sheet.evaluate(restyle, LARGE);
    await resize(sheet, { width: 640, height: 800 });
    await t.test('bears text twice as large, and set wider', staysWithin);
    await sheet.evaluate(restyle, '');
    await resize(sheet, NARROW);
    await openAll(sheet);
    await t.test('does not scroll sideways at 320 px with every problem alive', staysWithin);
    await workOn(sheet);
    for (const look of ['paper', 'blueprint']) {
      await sheet.getByRole('button', { name: words.pages.look[look], exact: true }).click();
      for (const viewport of [NARROW, WIDE]) {
        await resize(sheet, viewport);
        await t.test(`is usable by everyone on ${look} at ${viewport.width} px`, async () => {
          assert.deepEqual(await violations(sheet, LOOK_RULES[look]), []);
        });
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
