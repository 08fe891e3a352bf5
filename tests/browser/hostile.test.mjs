// Every hostile string that a course may hold, as the Rust side left it in `target/hostile`: nothing runs, nothing is
// asked for, every page keeps its shape, what is text stands there as text, and problems come alive and can be answered.
import assert from 'node:assert/strict';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import test from 'node:test';
import { pathToFileURL } from 'node:url';
import { top } from './support/product.mjs';
import { faultsOf, shapes, sheetOf, strange, usualOf, wide } from './support/hostile.mjs';
import { PHONE, awaken, sideways } from './support/sheet.mjs';

const left = process.env.SEATWORK_HOSTILE || join(top, 'target', 'hostile');
const [site, plain, heads] = ['site', 'plain', 'heads'].map((name) => join(left, name));
assert.ok(existsSync(site), `${site} is not there: cargo test -p seatwork-tests --test courses hostile_course writes it`);
const shown = JSON.parse(readFileSync(join(left, 'shown.json'), 'utf8'));

const pagesOf = (folder) => readdirSync(folder, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && entry.name.endsWith('.html'))
  .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)).split(sep).join('/')).sort();

/** All pages are parsed; of those that are opened alive, every eighth, or all with SEATWORK_EVERY_PAGE set. */
const some = (pages) => pages.filter((page, place) => process.env.SEATWORK_EVERY_PAGE || place % 8 === 0);

/** What formulas may have besides what the plain course shows. */
const formula = ['mo form'];

/** Of the small courses, which differ in their `course.yaml` alone, the pages that show all of it. */
const ofHeads = readdirSync(heads).flatMap((number) => ['index.html', 'en/lessons/forms.html', 'en/practice/progress.html']
  .map((page) => `heads/${number}/${page}`));

const even = (text) => text.replace(/\s+/g, ' ').trim();

const parsed = async (sheet, pages) => {
  const found = await sheet.evaluate(shapes, { formula, sources: pages.map((page) => readFileSync(join(left, page), 'utf8')) });
  return new Map(pages.map((page, place) => [page, found[place]]));
};

test('every page keeps its shape, has nothing that the plain course has not, and shows texts as they are', async (t) => {
  const sheet = await sheetOf(t, plain);
  await sheet.goto(pathToFileURL(join(plain, 'index.html')).href);
  const usual = usualOf([...(await parsed(sheet, pagesOf(plain).map((page) => `plain/${page}`))).values()]);
  const faults = [];
  /* The recipes of a gallery stand on their own pages too. */
  const all = [...pagesOf(site).filter((page) => !page.includes('gallery')).map((page) => `site/${page}`), ...ofHeads];
  for (let from = 0; from < all.length; from += 100) {
    for (const [page, shape] of await parsed(sheet, all.slice(from, from + 100))) {
      faults.push(...strange(shape, usual).map((fault) => `${page} ${fault}`));
      const texts = shown.filter((each) => each.page === page).flatMap((each) => each.texts);
      const lost = texts.map(even).filter((text) => !shape.text.includes(text));
      if (lost.length > 0) faults.push(`${page} does not show ${JSON.stringify(lost)}`);
    }
  }
  assert.deepEqual(faults.map((fault) => fault.slice(0, 400)), []);
  t.diagnostic(`${all.length} pages, ${shown.flatMap((each) => each.texts).length} texts`);
});

/** In the browser: what scrolls by itself because it is too wide, and whether keys reach it. */
const scrolling = () => [...document.querySelectorAll('main *')]
  .filter((element) => element.scrollWidth > element.clientWidth + 1 && /auto|scroll/.test(getComputedStyle(element).overflowX))
  .map((element) => ({ name: element.getAttribute('class') || element.localName, reached: element.tabIndex === 0 }));

test('no lesson, list or cover runs anything or is broken, and none scrolls sideways on a phone', async (t) => {
  const sheet = await sheetOf(t, left, { viewport: PHONE });
  const faults = [];
  const pages = some(pagesOf(site).filter((each) => !/gallery|relations|practice\/(?!index|progress)/.test(each)));
  const covers = ofHeads.filter((page) => page.endsWith('/index.html'));
  const broad = shown.filter((each) => each.texts.some((text) => wide.includes(text))).map(({ page }) => page)
    .filter((page) => page.includes('lessons/'));
  const scrolled = new Set();
  for (const page of new Set([...pages.map((each) => `site/${each}`), ...covers, ...broad])) {
    await sheet.goto(pathToFileURL(join(left, page)).href);
    const aside = await sheet.evaluate(sideways);
    if (aside.over > 0 || aside.wide.length > 0) faults.push(`${page}: ${JSON.stringify(aside)}`);
    faults.push(...(await sheet.evaluate(faultsOf)).map((fault) => `${page}: ${fault}`));
    const found = await sheet.evaluate(scrolling);
    faults.push(...found.filter(({ reached }) => !reached).map(({ name }) => `${page}: no key reaches ${name}`));
    found.forEach(({ name }) => scrolled.add(name));
  }
  assert.deepEqual(faults, []);
  /* What is too wide scrolls by itself, of every sort. */
  assert.deepEqual([...scrolled].sort(), ['math', 'math-wrap', 'pre', 'table-wrap']);
  t.diagnostic(`${broad.length} broad`);
});

test('every problem comes alive, is marked and worked out', async (t) => {
  const sheet = await sheetOf(t, site, { viewport: PHONE });
  const faults = [];
  for (const page of some(pagesOf(site).filter((each) => each.includes('gallery')))) {
    await sheet.goto(pathToFileURL(join(site, page)).href);
    await awaken(sheet);
    faults.push(...(await sheet.evaluate(() => {
      const found = [];
      document.querySelectorAll('.practice[data-recipe]').forEach((block) => {
        const id = block.dataset.recipe;
        block.querySelectorAll('[aria-expanded="false"]').forEach((button) => button.click());
        block.querySelectorAll('.practice-reveal button:last-child').forEach((button) => button.click());
        block.querySelectorAll('input:not([type]), input[type="text"]').forEach((input) => {
          input.value = '12345 psi';
          input.dispatchEvent(new Event('input'));
        });
        block.querySelectorAll('fieldset').forEach((set) => {
          const [first] = set.querySelectorAll('input');
          if (first) first.click();
          set.querySelectorAll('select').forEach((menu) => {
            menu.selectedIndex = 1;
            menu.dispatchEvent(new Event('change'));
          });
          const down = set.querySelector('.order-move[aria-disabled="false"]');
          if (down) down.click();
        });
        block.querySelector('form').requestSubmit();
        const words = [...block.querySelectorAll('.verdict-word')];
        if (words.length === 0 || words.some((word) => word.textContent.trim() === '')) found.push(`${id}: no verdict`);
        if (!block.querySelector('.practice-answers')) found.push(`${id}: no working`);
      });
      return found;
    })), ...(await sheet.evaluate(faultsOf)).map((fault) => `${page}: ${fault}`));
  }
  assert.deepEqual(faults, []);
});
