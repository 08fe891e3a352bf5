// The sheet of practice: what one chooses is what one gets, and it is there again after a reload.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import test from 'node:test';
import { violations } from './support/axe.mjs';
import { fill, markup, site, words } from './support/product.mjs';
import { addressOf, byClicks, drawn, tabTo, visit } from './support/forms.mjs';
import { NARROW, WIDE, resize } from './support/sheet.mjs';

const { session } = words.live;
const PAGE = 'en/practice/index.html';

async function start(sheet, { what = 'all', many = '1', level = null }) {
  await sheet.locator('#what').selectOption(what);
  await sheet.locator(`input[name="many"][value="${many}"]`).check();
  if (level) await sheet.locator(`input[name="level"][value="${level}"]`).check();
  await sheet.locator('[data-choosing] button').click();
  await sheet.locator('.session form').first().waitFor();
}

const blocks = (sheet) => sheet.locator('.session .practice');
const recipes = (sheet) => blocks(sheet).evaluateAll((all) => all.map((one) => one.dataset.recipe));
const number = async (block) => /(\d{5})/.exec(await block.locator('.practice-number').textContent())[1];

/** Answers a block of the session, rightly or not, and checks. */
async function answer(block, right) {
  const recipe = await block.getAttribute('data-recipe');
  const { parts, answers } = drawn(recipe, await number(block));
  for (const [place, part] of parts.entries()) {
    if (part.form === 'number') {
      await block.getByLabel(part.label, { exact: true }).fill(right ? answers[place].shown : '0.001');
    } else await byClicks[part.form](block, part, answers[place].cells ?? answers[place].exact);
  }
  await block.locator('.action-main').first().click();
}

test('the sheet stays light, and loads a recipe only when it is worked', async (t) => {
  assert.ok(readFileSync(join(site, 'en/practice/index.html')).length < 60_000);
  const sheet = await visit(t, PAGE);
  const loaded = () => sheet.evaluate(() => Object.keys(window.SEATWORK_RECIPES ?? {}));
  assert.deepEqual(await loaded(), []);
  await start(sheet, {});
  assert.deepEqual(await loaded(), await recipes(sheet));
});

test('one at a time: a next one comes, never the same at once, and the count goes on', async (t) => {
  const sheet = await visit(t, PAGE);
  await start(sheet, { what: 'lesson:numbers', level: '1' });
  const tally = sheet.locator('.session-tally');
  await answer(blocks(sheet), true);
  assert.equal(await tally.textContent(), fill(session.tally, { worked: 1, clean: 1 }));
  await sheet.locator('input[name="level"][value="follow"]').check();
  let before = await recipes(sheet);
  for (let count = 0; count < 5; count += 1) {
    await sheet.getByRole('button', { name: session.next }).click();
    await sheet.locator('.session form').waitFor();
    const now = await recipes(sheet);
    assert.notDeepEqual(now, before);
    before = now;
  }
  assert.ok(await sheet.evaluate(() => document.activeElement.matches('.practice-statement')));
  await answer(blocks(sheet), false);
  assert.equal(await tally.textContent(), fill(session.tally, { worked: 2, clean: 1 }));
});

test('a sheet has as many as were asked for, of the objective and the level', async (t) => {
  const sheet = await visit(t, PAGE);
  for (const many of [5, 10]) {
    await start(sheet, { what: 'objective:work_numbers', many: String(many), level: '2' });
    const chosen = await recipes(sheet);
    assert.equal(chosen.length, many);
    assert.deepEqual([...new Set(chosen)].sort(), ['rounded', 'trace']);
    const numbers = new Set(await sheet.locator('.session .practice-number').allTextContents());
    assert.ok(numbers.size > many / 2, 'the same recipe comes with other numbers');
    const ids = await sheet.evaluate(() => [...document.querySelectorAll('[id]')].map((each) => each.id));
    assert.equal(new Set(ids).size, ids.length, 'every id stands once');
  }
  await start(sheet, { what: 'objective:know_order', many: '5', level: '3' });
  assert.deepEqual([...new Set(await recipes(sheet))], ['order']);
  assert.equal(await sheet.locator('[data-choosing-note]').textContent(), session.nearest);
});

test('what was begun is there again after a reload, with its numbers, answers and count', async (t) => {
  const sheet = await visit(t, PAGE);
  await start(sheet, { what: 'lesson:numbers', many: '5' });
  await answer(blocks(sheet).first(), true);
  const seen = async () => ({
    recipes: await recipes(sheet),
    numbers: await sheet.locator('.session .practice-number').allTextContents(),
    tally: await sheet.locator('.session-tally').textContent(),
    statement: await sheet.locator('.session .practice-statement').first().innerHTML(),
  });
  const before = await seen();
  assert.equal(before.tally, fill(session.tally_of, { worked: 1, clean: 1, many: 5 }));
  await sheet.reload();
  await sheet.locator('.session form').first().waitFor();
  assert.deepEqual(await seen(), before);
});

test('what was missed can be asked for alone, and is gone when it is right', async (t) => {
  const sheet = await visit(t, PAGE);
  await sheet.locator('#what').selectOption('missed');
  await sheet.locator('[data-choosing] button').click();
  assert.equal(await sheet.locator('[data-choosing-note]').textContent(), session.none_due);
  await start(sheet, { what: 'lesson:numbers', level: '3' });
  assert.deepEqual(await recipes(sheet), ['chain']);
  await answer(blocks(sheet), false);
  assert.equal(await sheet.locator('[data-missed]').textContent(), fill(session.missed, { count: 1 }));
  await start(sheet, { what: 'missed' });
  assert.deepEqual(await recipes(sheet), ['chain']);
  await answer(blocks(sheet), true);
  assert.equal(await sheet.locator('[data-missed]').textContent(), fill(session.missed, { count: 0 }));
  await sheet.getByRole('button', { name: session.next }).click();
  assert.equal(await sheet.locator('.session-tally').textContent(), session.none_due);
});

test('the number of a problem leads to exactly this problem on a page of its own', async (t) => {
  const sheet = await visit(t, PAGE);
  await start(sheet, { what: 'objective:know_order' });
  const block = blocks(sheet);
  const [no, link] = [await number(block), await block.locator('.practice-number a').evaluate((a) => a.href)];
  assert.equal(link, `${addressOf('en/practice/order.html')}?p=order&no=${no}&units=us`);
  await sheet.goto(link);
  await sheet.locator('.practice form').waitFor();
  const shown = (await sheet.locator('.practice-statement').innerHTML()).trim();
  assert.equal(shown, markup(drawn('order', no).statement_html));
});

test('the choice is made and started by keys alone', async (t) => {
  const sheet = await visit(t, PAGE);
  await tabTo(sheet, '#what');
  await sheet.keyboard.press('End');
  await tabTo(sheet, 'input[name="many"]');
  await sheet.keyboard.press('ArrowDown');
  await tabTo(sheet, '[data-choosing] button');
  await sheet.keyboard.press('Enter');
  await sheet.locator('.session form').first().waitFor();
  assert.equal(await blocks(sheet).count(), 5);
  assert.ok(await sheet.evaluate(() => document.activeElement.matches('.practice-statement')));
});

test('the switch of units and clearing reach the sheet as well', async (t) => {
  const sheet = await visit(t, PAGE);
  await start(sheet, { what: 'objective:know_order' });
  await sheet.getByRole('button', { name: words.pages.units.si, exact: true }).click();
  assert.match(await sheet.locator('.session .practice-statement').textContent(), /barg/);
  await sheet.getByRole('button', { name: words.pages.clear, exact: true }).click();
  await sheet.getByRole('dialog').getByRole('button', { name: words.live.clear.confirm }).click();
  assert.equal(await blocks(sheet).count(), 0);
  await sheet.reload();
  assert.equal(await blocks(sheet).count(), 0);
});

for (const look of ['paper', 'blueprint']) {
  test(`every form on one sheet, worked, is for everyone on ${look}`, async (t) => {
    const sheet = await visit(t, PAGE);
    await sheet.getByRole('button', { name: words.pages.look[look], exact: true }).click();
    await start(sheet, { many: '10' });
    const count = await blocks(sheet).count();
    for (let place = 0; place < count; place += 1) await answer(blocks(sheet).nth(place), place % 2 === 0);
    await sheet.evaluate(() => scrollTo(0, 0));
    for (const viewport of [WIDE, NARROW]) {
      await resize(sheet, viewport);
      assert.deepEqual(await violations(sheet), [], `${viewport.width} px`);
      const over = await sheet.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.equal(over, 0, `${viewport.width} px`);
    }
  });
}

test('a printed sheet carries its recipes and numbers as a line that can be typed', async (t) => {
  const sheet = await visit(t, PAGE);
  await start(sheet, { many: '5' });
  const line = sheet.locator('.session-numbers');
  const expected = async () => {
    const all = await blocks(sheet).all();
    const each = await Promise.all(all.map(async (block) => `${await block.getAttribute('data-recipe')} ${await number(block)}`));
    const units = await sheet.evaluate(() => document.documentElement.dataset.units);
    return fill(session.numbers, { numbers: [...each, units].join(' · ') });
  };
  assert.equal(await line.textContent(), await expected());
  assert.equal(await line.isVisible(), false);
  await sheet.emulateMedia({ media: 'print' });
  assert.equal(await line.isVisible(), true);
  await sheet.emulateMedia({ media: 'screen' });
  const before = await line.textContent();
  await blocks(sheet).first().getByRole('button', { name: words.live.practice.fresh }).click();
  await sheet.locator('[data-set-units="si"]').click();
  assert.notEqual(await line.textContent(), before);
  assert.equal(await line.textContent(), await expected());
});
