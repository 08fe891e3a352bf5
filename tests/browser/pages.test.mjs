// Every page of the site: it opens without a fault, its links lead somewhere, and it is well made. Those of each kind are
// read to their end at the same time, and nothing on them moves by itself.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import test from 'node:test';
import { fileURLToPath } from 'node:url';
import { address, kinds, pages, plain, site, source, words } from './support/product.mjs';
import { awaken, guard, offline } from './support/sheet.mjs';
import { AT_FIRST, readTo } from './support/shift.mjs';

/** The checker's messages; it writes them as JSON, and ends with 1 where there is an error. */
function checked(files) {
  const jar = join(dirname(createRequire(import.meta.url).resolve('vnu-jar/package.json')), 'build', 'dist', 'vnu.jar');
  const words = ['-jar', jar, '--format', 'json', '--also-check-css', ...files];
  return new Promise((resolve, reject) => {
    execFile('java', words, { maxBuffer: 1 << 26 }, (error, out, told) => {
      if (error && error.code !== 1) reject(error);
      else resolve(JSON.parse(told).messages);
    });
  });
}

/* Asked before all else, and heard at the end: it works beside the browser. */
const styles = ['sheet', 'text', 'lists', 'figures', 'practice', 'forms', 'print'].map((name) => `styles/${name}.css`);
const checking = checked([...pages, ...styles].map((file) => join(site, file)));
checking.catch(() => {});

test('the site has its cover, its lessons and the sheets to look things up in', () => {
  for (const kind of [/^index\.html$/, /^en\/lessons\//, /^en\/terms\/index\.html$/, /^en\/relations\//, /^en\/tables\//]) {
    assert.ok(pages.some((page) => kind.test(page)), `no page like ${kind}`);
  }
});

/** Whether a page has figures: all do but the cover, the sheet of progress and what is for instructors. */
const hasFigures = (page) => /^en\/(lessons|practice|relations|tables|terms)\//.test(page) && !page.endsWith('/progress.html');

test('a page with figures says once what they are for, in its title block, and is brief where a number is worked', () => {
  const lines = (html) => [...html.matchAll(/<p class="training">(.*?)<\/p>/gs)].map((found) => plain(found[1]));
  const times = (html, text) => html.split(text).length - 1;
  const whole = plain(words.pages.training_figures);
  for (const page of pages) {
    const html = source(page).replaceAll('&#39;', "'");
    const [sheet, block] = html.split('<footer class="title-block">');
    assert.deepEqual(lines(block), hasFigures(page) ? [whole] : [], page);
    assert.equal(times(html, whole), hasFigures(page) ? 1 : 0, page);
    /* Every calculator; and a problem on a sheet of practice, not each of the many of a lesson. */
    const worked = times(sheet, 'class="work-head"') + (page.startsWith('en/practice/') ? times(sheet, 'class="practice-head"') : 0);
    assert.deepEqual(lines(sheet), Array(worked).fill(words.pages.worked), page);
  }
});

/** What a page offers to links and what its own links ask for, as the browser sees it. */
const anchors = () => ({
  ids: [...document.querySelectorAll('[id]')].map((each) => each.id),
  links: [...document.querySelectorAll('a[href]')].map((each) => each.href),
  here: location.href.split(/[?#]/)[0],
  title: document.title,
});

const found = new Map();

/** Notes what an open page, with every problem alive, offers and asks for; ids are there once. */
async function noted(sheet) {
  const seen = await sheet.evaluate(anchors);
  const repeated = seen.ids.filter((id, index) => seen.ids.indexOf(id) !== index);
  assert.deepEqual(repeated, [], 'ids that stand more than once');
  assert.notEqual(seen.title.trim(), '');
  found.set(seen.here, seen);
}

/* The rest of them on one sheet, one after another, each without what was kept of the one before. */
test('every page opens and comes alive without a fault', async (t) => {
  const sheet = await (await offline(t)).newPage();
  const faults = guard(sheet);
  for (const page of pages.filter((each) => !kinds.includes(each))) {
    await t.test(`${page} opens and comes alive without a fault`, async () => {
      faults.length = 0;
      await sheet.goto(address(page));
      await awaken(sheet);
      await noted(sheet);
      await sheet.evaluate(() => localStorage.clear());
      assert.deepEqual(faults, []);
    });
  }
});

for (const page of kinds) {
  test(`${page} opens and comes alive without a fault and without a move`, async (t) => {
    const sheet = await readTo(t, address(page), AT_FIRST);
    await noted(sheet);
  });
}

test('titles of pages differ', () => {
  const titles = [...found.values()].map((each) => each.title);
  assert.equal(new Set(titles).size, pages.length, titles.join(' | '));
});

test('every link within the site leads to a page and a place that exist', () => {
  const dead = [];
  let count = 0;
  for (const { here, links } of found.values()) {
    for (const link of links.filter((each) => each.startsWith('file:'))) {
      if (link.endsWith('.csv')) {
        if (!existsSync(fileURLToPath(link))) dead.push(`${here} -> ${link}`);
        continue;
      }
      const url = new URL(link);
      const target = found.get(link.split(/[?#]/)[0]);
      const place = decodeURIComponent(url.hash.slice(1));
      count += 1;
      if (!target || (place && !target.ids.includes(place))) dead.push(`${here} -> ${link}`);
    }
  }
  assert.deepEqual(dead, []);
  assert.ok(count > 100, `only ${count} links seen`);
});

test('links out of the site name a secure address', () => {
  const strange = [...found.values()].flatMap(({ links }) => links).filter((link) => !/^(file|https|mailto):/.test(link));
  assert.deepEqual(strange, []);
});

/* The checker does not know `paint-order` and `vector-effect`, which SVG 2 defines for drawings (13.11 and 8.13, from memory)
   and browsers have. */
const unknown = (message) => /Property “(paint-order|vector-effect)” doesn't exist/.test(message.message);

test('the checker of HTML and CSS finds no error', async () => {
  const messages = await checking;
  const errors = messages.filter((message) => message.type === 'error' && !unknown(message));
  const told = errors.map((each) => `${each.url.split('/').at(-1)}:${each.lastLine}: ${each.message} ${each.extract ?? ''}`);
  assert.deepEqual([...new Set(told)], []);
});
