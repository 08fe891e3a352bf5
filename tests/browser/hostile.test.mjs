// Every hostile string that a course may hold, as the Rust side left it in `target/hostile`: nothing runs, nothing is
// asked for, every page keeps its shape, what is text stands there as text, and problems come alive and can be answered.
import assert from 'node:assert/strict';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import test from 'node:test';
import { pathToFileURL } from 'node:url';
import { top } from './support/product.mjs';
import { awaken, offline } from './support/sheet.mjs';

const left = process.env.SEATWORK_HOSTILE || join(top, 'target', 'hostile');
const [site, plain, heads] = ['site', 'plain', 'heads'].map((name) => join(left, name));
assert.ok(existsSync(site), `${site} is not there: cargo test -p seatwork-tests --test hostile_course writes it`);
const shown = JSON.parse(readFileSync(join(left, 'shown.json'), 'utf8'));

const pagesOf = (folder) => readdirSync(folder, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && entry.name.endsWith('.html'))
  .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)).split(sep).join('/')).sort();

/** All pages are parsed; of those that are opened alive, every eighth, or all with SEATWORK_EVERY_PAGE set. */
const some = (pages) => pages.filter((page, place) => process.env.SEATWORK_EVERY_PAGE || place % 8 === 0);

/** A sheet of the site on which anything that runs or opens is a fault of the test. */
async function sheetOf(t, folder = site) {
  const context = await offline(t, {}, folder);
  const faults = [];
  await context.exposeFunction('hostile', () => faults.push('a script of the course has run'));
  context.on('dialog', (dialog) => {
    faults.push(`dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  const sheet = await context.newPage();
  sheet.on('framenavigated', (frame) => {
    if (frame !== sheet.mainFrame() || !frame.url().startsWith('file:')) faults.push(`went to ${frame.url()}`);
  });
  t.after(() => assert.deepEqual(faults, []));
  return sheet;
}

/** What formulas may have besides what the plain course shows. */
const formula = ['mo form'];

/** In the browser: the shape of pages that are parsed and not run. */
const shapes = ({ sources, formula }) => sources.map((source) => {
  const page = new DOMParser().parseFromString(source, 'text/html');
  const count = (selector) => page.querySelectorAll(selector).length;
  const all = [...page.querySelectorAll('*')];
  const ids = all.map((element) => element.id).filter(Boolean);
  const comments = page.createNodeIterator(page, NodeFilter.SHOW_COMMENT);
  return {
    landmarks: ['html', 'head', 'head > title', 'body', 'header.sheet-head', 'main', 'h1', 'footer.title-block', '.facts dd', '.turn']
      .map((selector) => `${selector} ${count(selector)}`).join(', '),
    outside: [...page.body.children].map((element) => element.className).join(', '),
    scripts: [...page.scripts].map((script) => script.getAttribute('src')),
    repeated: ids.filter((id, place) => ids.indexOf(id) !== place),
    spaced: ids.filter((id) => /\s/.test(id)),
    comment: comments.nextNode()?.data ?? null,
    names: [...new Set(all.flatMap((element) => [element.localName,
      ...[...element.attributes].map(({ name }) => `${element.localName} ${name}`)]))]
      .filter((name) => !formula.includes(name)),
    addresses: [...new Set(all.flatMap((element) => ['href', 'src', 'xlink:href']
      .map((name) => element.getAttribute(name)).filter((address) => address !== null)))],
    text: [page.title, page.body.textContent, ...[...page.querySelectorAll('[data-definition]')].map((term) => term.dataset.definition)]
      .join(' ').replace(/\s+/g, ' '),
  };
});

/** Of the small courses, which differ in their `course.yaml` alone, the pages that show all of it. */
const ofHeads = readdirSync(heads).flatMap((number) => ['index.html', 'en/lessons/forms.html', 'en/practice/progress.html']
  .map((page) => `heads/${number}/${page}`));

const even = (text) => text.replace(/\s+/g, ' ').trim();

const parsed = async (sheet, pages) => {
  const found = await sheet.evaluate(shapes, { formula, sources: pages.map((page) => readFileSync(join(left, page), 'utf8')) });
  return new Map(pages.map((page, place) => [page, found[place]]));
};

/** What a page may lead to or load. */
const ADDRESS = /^(#|https:\/\/|mailto:|data:image\/svg\+xml,%3Csvg|[\w./-]+\.(html|js|css|csv|png)(#|$))/;

test('every page keeps its shape, has nothing that the plain course has not, and shows texts as they are', async (t) => {
  const sheet = await sheetOf(t, plain);
  await sheet.goto(pathToFileURL(join(plain, 'index.html')).href);
  const usual = [...(await parsed(sheet, pagesOf(plain).map((page) => `plain/${page}`))).values()];
  const names = new Set(usual.flatMap((page) => page.names));
  const landmarks = new Set(usual.map((page) => page.landmarks));
  const faults = [];
  /* The recipes of a gallery stand on their own pages too. */
  const all = [...pagesOf(site).filter((page) => !page.includes('gallery')).map((page) => `site/${page}`), ...ofHeads];
  for (let from = 0; from < all.length; from += 100) {
    for (const [page, shape] of await parsed(sheet, all.slice(from, from + 100))) {
      const strange = shape.names.filter((name) => !names.has(name));
      const bad = shape.addresses.filter((address) => !ADDRESS.test(address));
      if (strange.length > 0) faults.push(`${page} has ${strange}`);
      if (bad.length > 0) faults.push(`${page} leads to ${bad}`);
      if (!landmarks.has(shape.landmarks)) faults.push(`${page}: ${shape.landmarks}`);
      if (shape.outside !== usual[0].outside) faults.push(`${page}: outside the sheet ${shape.outside}`);
      if (shape.repeated.length > 0) faults.push(`${page} has twice ${shape.repeated}`);
      if (shape.spaced.length > 0) faults.push(`${page} has spaced ids ${shape.spaced}`);
      if (shape.comment !== null) faults.push(`${page} has a comment ${shape.comment}`);
      const texts = shown.filter((each) => each.page === page).flatMap((each) => each.texts);
      const lost = texts.map(even).filter((text) => !shape.text.includes(text));
      if (lost.length > 0) faults.push(`${page} does not show ${JSON.stringify(lost)}`);
    }
  }
  assert.deepEqual(faults.map((fault) => fault.slice(0, 400)), []);
  t.diagnostic(`${all.length} pages, ${shown.flatMap((each) => each.texts).length} texts`);
});

/** Faults that a live page shows: no title, more than the sheet, wider than the screen. */
const live = () => {
  const main = document.querySelector('main');
  const faults = [];
  if (!window.SEATWORK || !window.SEATWORK.say) faults.push('the scripts are not there');
  if (document.querySelectorAll('main, .title-block').length !== 2) faults.push('landmarks');
  /* A formula in a line cannot be broken. */
  const formula = [...main.querySelectorAll('math')].some((math) => math.getBoundingClientRect().right > innerWidth);
  if (document.documentElement.scrollWidth > innerWidth && !formula) faults.push(`wide: ${document.documentElement.scrollWidth}`);
  if (main.getBoundingClientRect().height < 50) faults.push('nothing to see');
  const ids = [...document.querySelectorAll('[id]')].map((element) => element.id);
  const twice = ids.filter((id, place) => ids.indexOf(id) !== place);
  if (twice.length > 0) faults.push(`twice: ${twice}`);
  return faults;
};

test('no lesson, list or cover runs anything or is broken', async (t) => {
  const sheet = await sheetOf(t, left);
  const faults = [];
  const pages = some(pagesOf(site).filter((each) => !/gallery|relations|practice\/(?!index|progress)/.test(each)));
  const covers = ofHeads.filter((page) => page.endsWith('/index.html'));
  for (const page of [...pages.map((each) => `site/${each}`), ...covers]) {
    await sheet.goto(pathToFileURL(join(left, page)).href);
    faults.push(...(await sheet.evaluate(live)).map((fault) => `${page}: ${fault}`));
  }
  assert.deepEqual(faults, []);
});

test('every problem comes alive, is marked and worked out', async (t) => {
  const sheet = await sheetOf(t);
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
    })), ...(await sheet.evaluate(live)).map((fault) => `${page}: ${fault}`));
  }
  assert.deepEqual(faults, []);
});
