// By keys alone and by clicks alone, and what comes with the focus or under the pointer.
import assert from 'node:assert/strict';
import test from 'node:test';
import { address, draw, lessonOf, words } from './support/product.mjs';
import { PHONE, alive, offline, open, practise, problem } from './support/sheet.mjs';

const SEED = 48213;
const live = words.live;

/** Presses Tab until what has the focus matches, and fails where the page ends before. */
async function tabTo(sheet, selector, most = 200) {
  for (let count = 0; count < most; count += 1) {
    await sheet.keyboard.press('Tab');
    if (await sheet.evaluate((wanted) => document.activeElement.matches(wanted), selector)) return;
  }
  assert.fail(`the keyboard never reaches ${selector}`);
}

test('a number is answered by keys alone, from the top of the page', async (t) => {
  const sheet = await (await offline(t)).newPage();
  await sheet.goto(address(lessonOf.get('seat_force')));
  const within = '.practice[data-recipe="seat_force"]';
  await tabTo(sheet, `${within} input`);
  const block = sheet.locator(within);
  const seed = /(\d{5})/.exec(await block.locator('.practice-number').textContent())[1];
  await sheet.keyboard.type(draw('seat_force', seed).answers[0].shown);
  await sheet.keyboard.press('Enter');
  assert.equal(await block.locator('.verdict-word').textContent(), live.verdicts.right.word);
  await tabTo(sheet, `${within} [aria-controls^="live_working"]`, 5);
  await sheet.keyboard.press('Space');
  assert.ok(await block.locator('.practice-reveal').isVisible());
  await sheet.keyboard.press('Space');
  assert.equal(await block.locator('.practice-reveal').count(), 0);
  await tabTo(sheet, `${within} .actions button:last-child`, 5);
  await sheet.keyboard.press('Enter');
  assert.notEqual(/(\d{5})/.exec(await block.locator('.practice-number').textContent())[1], seed);
  await tabTo(sheet, `${within} input`, 3);
});

test('a choice is answered by keys alone', async (t) => {
  const { sheet, block } = await practise(t, 'which_accumulation', SEED);
  const drawn = draw('which_accumulation', SEED);
  const place = drawn.parts[0].options.findIndex((option) => option.id === drawn.answers[0].exact);
  await tabTo(sheet, '.practice[data-recipe="which_accumulation"] input[type="radio"]');
  await sheet.keyboard.press('Space');
  for (let count = 0; count < place; count += 1) await sheet.keyboard.press('ArrowDown');
  await sheet.keyboard.press('Enter');
  assert.equal(await block.locator('.verdict-word').textContent(), live.verdicts.right.word);
});

test('a choice is answered by clicks alone, on its words', async (t) => {
  const { block } = await practise(t, 'which_accumulation', SEED);
  const drawn = draw('which_accumulation', SEED);
  const right = drawn.parts[0].options.find((option) => option.id === drawn.answers[0].exact);
  await block.locator('.choice span', { hasText: right.html }).click();
  await block.getByRole('button', { name: live.practice.check }).click();
  assert.equal(await block.locator('.verdict-word').textContent(), live.verdicts.right.word);
  await block.getByRole('button', { name: live.practice.working }).click();
  assert.ok(await block.locator('.practice-reveal').isVisible());
});

test('the first key leads past the head of the page', async (t) => {
  const sheet = await open(t, lessonOf.get('seat_force'));
  await sheet.keyboard.press('Tab');
  assert.equal(await sheet.evaluate(() => document.activeElement.textContent), words.pages.skip);
  await sheet.keyboard.press('Enter');
  assert.equal(await sheet.evaluate(() => document.activeElement.id), 'main');
});

test('the definition of a term comes on hover, stays under the pointer, and goes with Escape', async (t) => {
  const sheet = await open(t, lessonOf.get('seat_force'));
  const term = sheet.locator('a.term').first();
  const card = sheet.locator('.definition-card');
  await term.hover();
  await card.waitFor({ state: 'visible' });
  assert.ok((await card.textContent()).includes(await term.getAttribute('data-definition')));
  await card.hover();
  await sheet.waitForTimeout(500);
  assert.ok(await card.isVisible());
  await sheet.keyboard.press('Escape');
  assert.ok(await card.isHidden());
  await sheet.mouse.move(5, 5);
  await term.hover();
  await card.waitFor({ state: 'visible' });
  await sheet.mouse.move(5, 5);
  await card.waitFor({ state: 'hidden' });
});

test('the definition of a term comes with the focus, goes with Escape, and is read out with the link', async (t) => {
  const sheet = await open(t, lessonOf.get('seat_force'), { viewport: PHONE });
  const card = sheet.locator('.definition-card');
  await tabTo(sheet, 'a.term');
  await card.waitFor({ state: 'visible' });
  const box = await card.boundingBox();
  assert.ok(box.x >= 0 && box.x + box.width <= PHONE.width, JSON.stringify(box));
  await sheet.keyboard.press('Escape');
  assert.ok(await card.isHidden());
  assert.ok(await sheet.evaluate(() => document.activeElement.matches('a.term')));
  const described = await sheet.evaluate(() => {
    const link = document.activeElement;
    return document.getElementById(link.getAttribute('aria-describedby')).textContent === link.dataset.definition;
  });
  assert.ok(described);
});

test('a finger sees the definition first and follows the link with a second tap', async (t) => {
  const sheet = await open(t, lessonOf.get('seat_force'), { viewport: PHONE, hasTouch: true, isMobile: true });
  const term = sheet.locator('a.term').first();
  const href = await term.evaluate((link) => link.href);
  await term.tap();
  assert.ok(await sheet.locator('.definition-card').isVisible());
  assert.ok(sheet.url().endsWith(lessonOf.get('seat_force')));
  await term.tap();
  await sheet.waitForURL(href);
});

test('the finder leaves the terms that have the letters, and says how many', async (t) => {
  const sheet = await open(t, 'en/terms/index.html');
  const all = await sheet.locator('.term-entry').count();
  await sheet.getByLabel(words.pages.terms.find).fill('lift');
  const names = await sheet.locator('.term-entry:visible').allTextContents();
  assert.ok(names.length > 0 && names.length < all);
  assert.ok(names.every((name) => name.toLowerCase().includes('lift')));
  const result = sheet.locator('[data-find-result]');
  assert.equal(await result.textContent(), live.terms.found.replace('{count}', names.length).replace('{all}', all));
  await sheet.getByLabel(words.pages.terms.find).fill('zzz');
  assert.equal(await result.textContent(), live.terms.none);
});

test('what the finder finds is in sight on a phone, right below the field', async (t) => {
  const sheet = await open(t, 'en/terms/index.html', { viewport: PHONE });
  const field = sheet.getByLabel(words.pages.terms.find);
  await field.pressSequentially('accum');
  const [typed, first] = [await field.boundingBox(), await sheet.locator('.term-entry:visible').first().boundingBox()];
  assert.ok(typed.y >= 0 && first.y < PHONE.height / 3, `the field at ${typed.y}, the first term at ${first.y}`);
});

test('a block that comes alive under the focus keeps it', async (t) => {
  const sheet = await (await offline(t, { viewport: PHONE })).newPage();
  await sheet.goto(problem('seat_force', SEED).split('?')[0]);
  const within = '.practice[data-recipe="part_by_its_job"]';
  await sheet.locator(`${within} .practice-whole a`).evaluate((link) => link.focus());
  await alive(sheet, 'part_by_its_job');
  assert.ok(await sheet.evaluate((selector) => !!document.activeElement.closest(selector), within));
});
