// A picture of an author's own with forty areas: by keys, by clicks, by their names, on a phone, on paper, in both looks.
import assert from 'node:assert/strict';
import test from 'node:test';
import { words } from './support/product.mjs';
import { SEED, addressOf, byKeys, context, drawn, problemOf, tabTo } from './support/forms.mjs';
import { violations } from './support/axe.mjs';

const { verdicts } = words.live;
const RECIPE = 'board';
const RIGHT = drawn(RECIPE).answers[0].exact;
const PHONE = { viewport: { width: 320, height: 700 } };

async function onPhone(t, options = {}) {
  const sheet = await (await context(t, { ...PHONE, ...options })).newPage();
  return problemOf(t, RECIPE, SEED, sheet);
}

/** Where each area can be hit: the points, in a grid, at which a click reaches it. */
const reached = (block) => block.locator('.pointing').evaluate((drawing) => {
  drawing.scrollIntoView({ block: 'center', behavior: 'instant' });
  const places = {};
  const box = drawing.getBoundingClientRect();
  for (let y = Math.max(box.top, 0); y < Math.min(box.bottom, innerHeight); y += 3) {
    for (let x = box.left; x < box.right; x += 3) {
      const group = document.elementFromPoint(x, y)?.closest('.fig-area');
      if (group) (places[group.dataset.part] ??= []).push([x, y]);
    }
  }
  return places;
});

async function verdictOf(block) {
  await block.locator('.action-main').click();
  return block.locator('.verdict-word').first().textContent();
}

test('forty areas are one stop of the keyboard, and each is reached by arrows', async (t) => {
  const { sheet, block, part } = await problemOf(t, RECIPE);
  assert.equal(part.options.length, 40);
  await byKeys.point_at(sheet, part, RIGHT);
  assert.ok(await block.locator(`input[value="${RIGHT}"]`).isChecked());
  await sheet.keyboard.press('Tab');
  assert.equal(await sheet.evaluate(() => document.activeElement.type === 'radio'), false);
  await tabTo(sheet, 'button.action-main');
  await sheet.keyboard.press('Enter');
  assert.equal(await block.locator('.verdict-word').first().textContent(), verdicts.right.word);
});

test('each area has its number and its name for who hears the page', async (t) => {
  const { block, part } = await problemOf(t, RECIPE);
  for (const { number, html } of part.options) {
    assert.equal(await block.getByRole('radio', { name: `${number} ${html}`, exact: true }).count(), 1, html);
  }
  const drawing = block.getByRole('img', { name: /A board with forty lamps/ });
  assert.equal(await drawing.count(), 1);
});

for (const [where, options] of [['a phone', PHONE], ['a wide screen', {}]]) {
  test(`every area is hit where it is drawn on ${where}`, async (t) => {
    const sheet = await (await context(t, options)).newPage();
    const { block, part } = await problemOf(t, RECIPE, SEED, sheet);
    const places = await reached(block);
    assert.deepEqual(part.options.filter(({ id }) => (places[id] ?? []).length < 20).map(({ id }) => id), []);
    for (const { id } of part.options) {
      await sheet.mouse.click(...places[id][Math.floor(places[id].length / 2)]);
      assert.ok(await block.locator(`input[value="${id}"]`).isChecked(), id);
      const pointed = await block.locator('.pointed').evaluateAll((all) => all.map((one) => one.dataset.part));
      assert.deepEqual(pointed, [id]);
    }
  });
}

test('on a phone nothing scrolls sideways, and an area is 24 pixels each way', async (t) => {
  const { sheet, block } = await onPhone(t);
  assert.ok(await sheet.evaluate(() => document.documentElement.scrollWidth <= 320));
  const small = await block.locator('.fig-area > .fig-line').evaluateAll((all) => all
    .map((one) => one.getBoundingClientRect()).filter(({ width, height }) => Math.min(width, height) < 24).length);
  assert.equal(small, 0);
  const numbers = await block.locator('.fig-label').evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
  assert.ok(Math.min(...numbers) >= 14, String(Math.min(...numbers)));
});

test('the picture itself is there, as a picture and not as a part of the page', async (t) => {
  const { block } = await problemOf(t, RECIPE);
  const size = await block.locator('image').evaluate(async (image) => {
    const loaded = new Image();
    loaded.src = image.href.baseVal;
    await loaded.decode();
    return [loaded.naturalWidth, loaded.naturalHeight];
  });
  assert.deepEqual(size, [640, 400]);
  assert.equal(await block.locator('.pointing svg').count(), 1);
});

test('the page marks every area as the command does', async (t) => {
  const { block, part } = await problemOf(t, RECIPE);
  const of = { [RIGHT]: 'right', lamp_2: 'unsafe_choice' };
  for (const { id } of [part.options[1], part.options[0], part.options[39], part.options.find((each) => each.id === RIGHT)]) {
    await block.locator(`input[value="${id}"]`).check();
    assert.equal(await verdictOf(block), verdicts[of[id] ?? 'wrong_part'].word, id);
  }
});

for (const colorScheme of ['light', 'dark']) {
  test(`nothing hinders anybody on a phone in the ${colorScheme} look`, async (t) => {
    const { sheet, block, part } = await onPhone(t, { colorScheme });
    await block.locator(`input[value="${part.options[6].id}"]`).check();
    assert.deepEqual(await violations(sheet), []);
  });
}

test('on paper the picture has its numbers, and the list its names', async (t) => {
  const { sheet, block } = await problemOf(t, RECIPE);
  await sheet.emulateMedia({ media: 'print' });
  const seen = (selector) => block.locator(selector).evaluateAll((all) => all.filter((one) => one.checkVisibility()).length);
  assert.deepEqual([await seen('.fig-label'), await seen('.point-list .choice')], [40, 40]);
});

test('without scripts the problem of the sheet shows picture and names', async (t) => {
  const sheet = await (await context(t, { javaScriptEnabled: false })).newPage();
  await sheet.goto(addressOf(`en/practice/${RECIPE}.html`));
  assert.equal(await sheet.locator('.practice-asked .fig-area').count(), 40);
  assert.equal(await sheet.locator('.practice-asked .point-list .choice').count(), 40);
});
