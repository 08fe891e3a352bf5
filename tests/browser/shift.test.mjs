// Nothing in sight moves by itself: not when a page opens and comes alive, and not while it is read to its end.
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import test from 'node:test';
import { pathToFileURL } from 'node:url';
import { address, everything, kinds, lessonOf, pageOf as sheetOf, recipeNames } from './support/product.mjs';
import { CROSSED, ONCE, holdEngine, movedWhileRead, opened, painted, readTo } from './support/shift.mjs';
import { offline, problem } from './support/sheet.mjs';

const lessons = new Set(lessonOf.values());

/* Wide and light, they are read where every page is opened. */
for (const page of kinds) {
  test(`nothing on ${page} moves by itself`, async (t) => {
    for (const options of everything || lessons.has(page) ? [...ONCE.slice(1), ...CROSSED] : ONCE.slice(1)) {
      await readTo(t, address(page), options);
    }
  });
}

/* A slow stick and a quick reader: the foot of the sheet is in sight, and the problem above it is still to come. */
for (const page of kinds.filter((each) => recipeNames.some((id) => each === sheetOf(id)))) {
  test(`nothing on ${page} moves for a reader who is at its end before the engine`, async (t) => {
    for (const options of ONCE) {
      const sheet = await (await offline(t, options)).newPage();
      await holdEngine(sheet, () => document.documentElement.dataset.read === 'to the end');
      await sheet.goto(address(page), { waitUntil: 'commit' });
      await sheet.waitForFunction(painted);
      await sheet.evaluate(() => {
        scrollTo({ top: document.documentElement.scrollHeight, behavior: 'instant' });
        requestAnimationFrame(() => { document.documentElement.dataset.read = 'to the end'; });
      });
      await sheet.locator('.practice-form').waitFor();
      assert.deepEqual(await movedWhileRead(sheet), [], `${options.viewport.width} px`);
      assert.ok(await sheet.locator('.title-block').isVisible(), 'the foot has come with the problem');
    }
  });
}

for (const [name, link, block] of [
  ['problem', problem('seat_force', 48213), '.practice[data-recipe="seat_force"]'],
  ['worked relation', `${address('en/relations/spring.html')}?w=opening_force&opening=150 psig&area=1 in²`, '#opening_force .work'],
]) {
  test(`a link to a ${name} opens its page there without a move`, async (t) => {
    for (const options of ONCE) {
      const sheet = await opened(await offline(t, options), link);
      await sheet.waitForFunction((selector) => Math.abs(document.querySelector(selector).getBoundingClientRect().top) < 50, block);
      assert.deepEqual(await movedWhileRead(sheet), [], `${options.viewport.width} px`);
    }
  });
}

test('what was begun on the sheet of practice and what was tried come back without a move', async (t) => {
  for (const options of ONCE) {
    const context = await offline(t, options);
    const sheet = await context.newPage();
    await sheet.goto(address('en/practice/index.html'));
    await sheet.locator('input[name="many"][value="5"]').check();
    await sheet.locator('[data-choosing] button').click();
    await sheet.locator('.session .action-main').first().click();
    for (const page of ['en/practice/index.html', 'en/practice/progress.html']) {
      assert.deepEqual(await movedWhileRead(await opened(context, address(page))), [], page);
    }
  }
});

/** A page of the test's own. */
async function pageOf(t, html) {
  const folder = mkdtempSync(join(tmpdir(), 'seatwork-shift-'));
  t.after(() => rmSync(folder, { recursive: true }));
  writeFileSync(join(folder, 'page.html'), html);
  const sheet = await (await offline(t, {}, folder)).newPage();
  await sheet.goto(pathToFileURL(join(folder, 'page.html')).href);
  return sheet;
}

test('the measure sees what moves when a page has opened, and what moves while it is read', async (t) => {
  const grow = (when) => `<!doctype html><link rel="icon" href="data:,"><p id="late"></p><p>Text in sight.</p><div style="height: 3000px"></div>
    <p id="low"></p><p>Text at the end.</p><div style="height: 300px"></div><script>
    const grow = (id) => { document.getElementById(id).style.height = '100px'; };
    ${when}</script>`;
  const late = await pageOf(t, grow('requestAnimationFrame(() => requestAnimationFrame(() => grow("late")))'));
  assert.match((await movedWhileRead(late)).join(), /at 0 px: <p class="">/);
  const low = await pageOf(t, grow('addEventListener("scroll", () => { if (scrollY > 2400) grow("low"); })'));
  assert.match((await movedWhileRead(low)).join(), /at 2\d+ px: <p class="">/);
  assert.deepEqual(await movedWhileRead(await pageOf(t, grow(''))), []);
});
