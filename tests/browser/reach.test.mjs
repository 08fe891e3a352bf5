// By keys alone, by clicks alone, and with the focus in sight.
import assert from 'node:assert/strict';
import test from 'node:test';
import { address, draw, lessonOf, kinds, words } from './support/product.mjs';
import { NARROW, PHONE, WIDE, alive, awaken, frames, offline, open, openNumbered, practise, problem, resize } from './support/sheet.mjs';

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

/** What is wrong with the place that has the focus; nothing where it is well. */
const faultOfFocus = () => {
  const element = document.activeElement;
  if (!element || element === document.body || element === document.documentElement) return 'nothing has the focus';
  const name = `<${element.localName} class="${element.className}"> ${element.textContent.trim().slice(0, 40)}`;
  const style = getComputedStyle(element);
  if (style.outlineStyle === 'none' || parseFloat(style.outlineWidth) < 2) return `no mark of the focus: ${name}`;
  const box = element.getClientRects()[0];
  const bar = document.querySelector('.turn');
  const sticky = !bar.contains(element) && getComputedStyle(bar).position === 'sticky';
  const floor = sticky ? bar.getBoundingClientRect().top : innerHeight;
  const tall = box.height > floor;
  if (box.top < -1 && !tall) return `above the screen by ${-box.top}: ${name}`;
  if (tall ? box.top >= floor : box.bottom > floor + 1) return `under the bar or the edge by ${box.bottom - floor}: ${name}`;
  if (box.left < -1 || box.right > document.documentElement.clientWidth + 1) return `beside the screen: ${name}`;
  return null;
};

/**
 * What is wrong with the way of the focus from the place before: on a narrow screen, where all stands below one another,
 * it goes down the page with Tab and up with Shift. The bar at the bottom is on its way from anywhere to anywhere.
 */
const faultOfOrder = (down) => {
  const element = document.activeElement;
  if (element.closest('.turn')) return null;
  /* Both as they stand now: what comes alive above moves them together. */
  const place = (there) => {
    const box = there?.isConnected ? there.getClientRects()[0] : undefined;
    return box && { element: there, top: box.top + scrollY, bottom: box.bottom + scrollY };
  };
  const [before, here] = [window.placeBefore, element].map(place);
  const [over, under] = down ? [before, here] : [here, before];
  window.placeBefore = element;
  if (!over || !under) return null;
  /* Cells of a row stand side by side, and their texts begin where they may. */
  const beside = over.element.closest('tr')?.contains(under.element);
  const back = !beside && under.bottom <= over.top;
  const turned = over.element.compareDocumentPosition(under.element) & Node.DOCUMENT_POSITION_PRECEDING;
  const name = ({ localName, textContent }) => `<${localName}> ${textContent.trim().slice(0, 30)}`;
  return back || turned ? `${name(under.element)} comes after ${name(over.element)}, but stands before it` : null;
};

for (const [page, viewport, key] of [
  ...[...new Set(lessonOf.values())].map((lesson) => [lesson, PHONE, 'Tab']),
  [lessonOf.get('seat_force'), NARROW, 'Shift+Tab'],
  ['en/terms/index.html', NARROW, 'Tab'],
  ['en/relations/pressures.html', NARROW, 'Tab'],
  ['index.html', NARROW, 'Tab'],
  [lessonOf.get('seat_force'), WIDE, 'Tab'],
]) {
  test(`the focus is marked, in sight and in order all through ${page} at ${viewport.width} px with ${key}`, async (t) => {
    const sheet = await openNumbered(t, page, { viewport });
    const faults = [];
    const first = await sheet.evaluate(() => document.querySelector('.skip').textContent);
    const focused = () => sheet.evaluate(() => (document.activeElement === document.body ? null : document.activeElement.textContent));
    /* As many stops as there is to reach, and some for what comes alive on the way. */
    const most = 50 + 2 * await sheet.evaluate(() => document.querySelectorAll('a, button, input, select, summary, [tabindex]').length);
    let stops = 0;
    for (; stops < most; stops += 1) {
      await sheet.keyboard.press(key);
      /* A place far down comes alive once it is in sight. */
      await frames(sheet);
      const fault = await sheet.evaluate(faultOfFocus);
      if (fault) faults.push(`stop ${stops}: ${fault}`);
      const turn = !fault && viewport !== WIDE && await sheet.evaluate(faultOfOrder, key === 'Tab');
      if (turn) faults.push(`stop ${stops}: ${turn}`);
      /* After the last place the focus leaves the page, and comes back to the first. */
      const at = await focused();
      if (stops > 0 && (key === 'Tab' ? at === null : at === first)) break;
    }
    if (key === 'Tab') {
      faults.pop();
      await sheet.keyboard.press('Tab');
      assert.equal(await focused(), first, 'the focus was lost before the end of the page');
    }
    assert.deepEqual(faults, []);
    assert.ok(stops > 10 && stops < most, `${stops} stops`);
  });
}

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

for (const page of kinds) {
  test(`what can be pressed on ${page} is large enough or far enough from the next`, async (t) => {
    const sheet = await openNumbered(t, page, { viewport: NARROW });
    await awaken(sheet);
    assert.deepEqual(await sheet.evaluate(smallTargets), []);
    await resize(sheet, WIDE);
    assert.deepEqual(await sheet.evaluate(smallTargets), []);
  });
}

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
