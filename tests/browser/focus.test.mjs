// By keys through whole pages: the focus is marked, in sight and in order at every stop.
import assert from 'node:assert/strict';
import test, { describe } from 'node:test';
import { lessonOf } from './support/product.mjs';
import { NARROW, PHONE, WIDE, openNumbered } from './support/sheet.mjs';

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

/** In the browser: what is wrong at the place that a key has led to, and what stands there. */
const arrived = async ({ down, ordered }) => {
  /* A place far down comes alive once it is in sight. */
  await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  const fault = window.faultOfFocus();
  const turn = !fault && ordered ? window.faultOfOrder(down) : null;
  return { fault, turn, at: document.activeElement === document.body ? null : document.activeElement.textContent };
};

/** Goes through a page by one key, to its end; gives the stops and what is wrong at them. */
async function walk(sheet, key, ordered) {
  await sheet.evaluate(`window.faultOfFocus = ${faultOfFocus}; window.faultOfOrder = ${faultOfOrder}`);
  const first = await sheet.evaluate(() => document.querySelector('.skip').textContent);
  /* As many stops as there is to reach, and some for what comes alive on the way. */
  const most = 50 + 2 * await sheet.evaluate(() => document.querySelectorAll('a, button, input, select, summary, [tabindex]').length);
  const faults = [];
  let stops = 0;
  for (; stops < most; stops += 1) {
    await sheet.keyboard.press(key);
    const { fault, turn, at } = await sheet.evaluate(arrived, { down: key === 'Tab', ordered });
    if (fault) faults.push(`stop ${stops}: ${fault}`);
    if (turn) faults.push(`stop ${stops}: ${turn}`);
    /* After the last place the focus leaves the page, and comes back to the first. */
    if (stops > 0 && (key === 'Tab' ? at === null : at === first)) break;
  }
  if (key === 'Tab') {
    faults.pop();
    await sheet.keyboard.press('Tab');
    const back = await sheet.evaluate(() => document.activeElement.textContent);
    assert.equal(back, first, 'the focus was lost before the end of the page');
  }
  return { faults, stops, most };
}

/* A walk waits for one frame after another: several go on at once. */
describe('the focus is marked, in sight and in order', { concurrency: 3 }, () => {
  for (const [page, viewport, key] of [
    ...[...new Set(lessonOf.values())].map((lesson) => [lesson, PHONE, 'Tab']),
    [lessonOf.get('seat_force'), NARROW, 'Shift+Tab'],
    ['en/terms/index.html', NARROW, 'Tab'],
    ['en/relations/pressures.html', NARROW, 'Tab'],
    ['index.html', NARROW, 'Tab'],
    [lessonOf.get('seat_force'), WIDE, 'Tab'],
  ]) {
    test(`all through ${page} at ${viewport.width} px with ${key}`, async (t) => {
      const sheet = await openNumbered(t, page, { viewport });
      const { faults, stops, most } = await walk(sheet, key, viewport !== WIDE);
      assert.deepEqual(faults, []);
      assert.ok(stops > 10 && stops < most, `${stops} stops`);
    });
  }
});
