// The school's own look: logo, colours, and a title block that says who answers for the course.
import assert from 'node:assert/strict';
import { join } from 'node:path';
import test from 'node:test';
import { pathToFileURL } from 'node:url';
import { violations } from './support/axe.mjs';
import { published } from './support/product.mjs';
import { NARROW, PHONE, WIDE, offline } from './support/sheet.mjs';

const folder = published('tests/browser/stick');
const page = pathToFileURL(join(folder, 'en/lessons/files.html')).href;
const IMPRINT = [
  ['Date', '2026-03-31'], ['Prepared', 'A. Fitter'], ['Checked', 'B. Turner'], ['Approved', 'C. Smith'],
  ['Review due', '2027-03-31'], ['Contact', 'Bay 4, telephone 4711'],
];

async function opened(t, options) {
  const sheet = await (await offline(t, options, folder)).newPage();
  await sheet.goto(page);
  return sheet;
}

for (const [name, options] of Object.entries({ wide: { viewport: WIDE }, dark: { colorScheme: 'dark' }, phone: { viewport: PHONE }, narrow: { viewport: NARROW } })) {
  test(`the title block says all that the course says of itself: ${name}`, async (t) => {
    const sheet = await opened(t, options);
    const said = await sheet.locator('.imprint .cell').evaluateAll((cells) => cells.map(
      (cell) => [cell.querySelector('dt').textContent, cell.querySelector('dd').textContent]));
    assert.deepEqual(said, IMPRINT);
    assert.match(await sheet.locator('.cell-revision dd').textContent(), /^C \([0-9a-f]{4}\)$/);
    const logo = await sheet.locator('.logo').evaluate((image) => [image.complete && image.naturalWidth > 0, image.getBoundingClientRect().height]);
    assert.ok(logo[0] && logo[1] > 20 && logo[1] <= 44, `${logo}`);
    assert.deepEqual(await violations(sheet), []);
    assert.ok(await sheet.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
  });
}

test('links have the colour of the course in each look, and ink in print', async (t) => {
  const sheet = await opened(t, {});
  const accent = () => sheet.locator('main a').first().evaluate((link) => getComputedStyle(link).textDecorationColor);
  assert.equal(await accent(), 'rgb(11, 83, 148)');
  await sheet.emulateMedia({ colorScheme: 'dark' });
  assert.equal(await accent(), 'rgb(255, 210, 122)');
  await sheet.emulateMedia({ media: 'print', colorScheme: 'light' });
  assert.equal(await sheet.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue('--accent').trim()), '#000');
  assert.ok(await sheet.locator('.imprint').isVisible());
});
