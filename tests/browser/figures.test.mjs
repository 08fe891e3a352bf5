// A figure stands beside the words it belongs to, or below them, and never leaves a heading empty.
import assert from 'node:assert/strict';
import { join } from 'node:path';
import test from 'node:test';
import { pathToFileURL } from 'node:url';
import { violations } from './support/axe.mjs';
import { published } from './support/product.mjs';
import { NARROW, offline } from './support/sheet.mjs';

const folder = published('tests/browser/stick');
const page = pathToFileURL(join(folder, 'en/lessons/figures.html')).href;

/** Opens the lesson and gives, for each figure, its box and those of the text and heading before it. */
async function measured(t, viewport) {
  const sheet = await (await offline(t, { viewport }, folder)).newPage();
  await sheet.goto(page);
  const boxes = await sheet.evaluate(() => {
    const box = (element) => {
      const { left, right, top, bottom, width } = element.getBoundingClientRect();
      return { left, right, top, bottom, width };
    };
    const heading = (figure) => [...document.querySelectorAll('.lesson > h2')].findLast(
      (each) => each.compareDocumentPosition(figure) & Node.DOCUMENT_POSITION_FOLLOWING);
    return [...document.querySelectorAll('.lesson .figure')].map((figure) => ({
      figure: box(figure),
      heading: box(heading(figure)),
      before: box(figure.previousElementSibling),
      after: figure.nextElementSibling && box(figure.nextElementSibling),
    }));
  });
  return { sheet, boxes };
}

for (const width of [1366, 1920]) {
  test(`figures stand where they belong at ${width} px`, async (t) => {
    const { sheet, boxes } = await measured(t, { width, height: 900 });
    const [beside, alone, next, small, wide] = boxes;
    assert.equal(boxes.length, 5);
    assert.ok(beside.figure.left > beside.before.right, 'beside the text');
    assert.ok(Math.abs(beside.figure.top - beside.before.top) < 1, 'from the top of its paragraph');
    assert.ok(alone.figure.left < alone.heading.right && alone.figure.top >= alone.heading.bottom, 'below its heading');
    assert.ok(next.figure.left > next.after.right, 'beside the text that follows');
    assert.ok(next.after.top - next.heading.bottom < 24, 'right below its heading');
    assert.ok(small.figure.top >= small.before.bottom && small.figure.left === small.before.left);
    const image = await sheet.locator('.figure-small > img').boundingBox();
    assert.ok(image.width <= 17 * 16, `${image.width} px`);
    assert.ok(wide.figure.width > 1.3 * wide.before.width, 'wider than the text');
    assert.ok(wide.figure.top >= wide.before.bottom);
    assert.deepEqual(await violations(sheet), []);
  });
}

test('on a phone every figure stands below its words and within the sheet', async (t) => {
  const { sheet, boxes } = await measured(t, NARROW);
  for (const [place, { figure, before }] of boxes.entries()) {
    assert.ok(figure.top >= before.bottom - 1, `figure ${place}`);
    assert.ok(figure.left >= 0 && figure.right <= NARROW.width, `figure ${place}`);
  }
  assert.ok(await sheet.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
});
