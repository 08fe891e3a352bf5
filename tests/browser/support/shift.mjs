// What moves on a page by itself. The engine is held back until the page has been painted, so that what it brings comes
// into a page that somebody is reading already.
import assert from 'node:assert/strict';
import { PHONE, WIDE, offline } from './sheet.mjs';

/* Each look and each width once; for lessons, which have most that comes alive, each look at each width. */
export const AT_FIRST = { viewport: WIDE, colorScheme: 'light' };
export const ONCE = [AT_FIRST, { viewport: PHONE, colorScheme: 'dark' }];
export const CROSSED = [{ viewport: WIDE, colorScheme: 'dark' }, { viewport: PHONE, colorScheme: 'light' }];

/** Whether a page has been painted. */
export const painted = () => performance.getEntriesByName('first-contentful-paint').length > 0;

/** Holds back the engine on the pages of a sheet until a page has been painted, or until something else holds on it. */
export const holdEngine = (sheet, until = painted) => sheet.route('**/engine-module.js', async (route) => {
  await sheet.waitForFunction(until);
  await route.continue();
});

/** Reads a page to its end, a quarter of the screen at a time; gives what moved in sight, and how far down that was. */
export const movedWhileRead = (sheet) => sheet.evaluate(async () => {
  const frames = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  const moved = [];
  const note = (entries) => moved.push(...entries.map(({ value, sources }) => {
    const what = sources.map(({ node }) => (node ? `<${node.nodeName.toLowerCase()} class="${node.className}">` : 'what is gone'));
    return `${value} at ${Math.round(scrollY)} px: ${what.join(', ')}`;
  }));
  const watch = new PerformanceObserver((list) => note(list.getEntries()));
  watch.observe({ type: 'layout-shift', buffered: true });
  await frames();
  for (let before = -1; scrollY > before;) {
    before = scrollY;
    scrollBy({ top: innerHeight / 4, behavior: 'instant' });
    await frames();
  }
  note(watch.takeRecords());
  return moved;
});

/** Opens an address in a context, its engine later than its text. */
export async function opened(context, place) {
  const sheet = await context.newPage();
  await holdEngine(sheet);
  await sheet.goto(place);
  return sheet;
}

/** Opens an address in a context of its own and reads it to its end: nothing moves, and all problems are alive then. */
export async function readTo(t, place, options) {
  const sheet = await opened(await offline(t, options), place);
  const shown = `${options.viewport.width} px, ${options.colorScheme}`;
  assert.deepEqual(await movedWhileRead(sheet), [], shown);
  assert.equal(await sheet.locator('.practice-sample').count(), 0, `${shown}: all problems are alive at the end`);
  return sheet;
}
